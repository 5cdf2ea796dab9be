/**
 * The worst share of a limit that a surface takes: 1 is at the limit.
 *
 * Looked for among the places of a table, then climbed to the top from the best few; what such a search leaves out is
 * small (the proof `preset` looks by other places), and a room is kept by that much inside its limit.
 */
import { climb } from './climb.ts';
import { beginAtEnds } from './ends-rule.ts';
import type { SurfaceRule } from './limits.ts';
import { type Pair, type PairRule, shareOfPair, waysOf } from './pair-rule.ts';
import { bestPairs } from './pair-search.ts';
import { type Sheet, type Table, tableOf } from './sheet.ts';

/** A place to climb from: its share, and what the climb comes to. */
export interface Begun {
  readonly share: number;
  readonly says: string;
  climbed(): number;
}

/** Gives the worst share of a sheet by any of the rules that are for its side, and which; null where none is. */
export function worstShare(sheet: Sheet, rules: readonly SurfaceRule[]): { share: number; says: string } | null {
  const own = rules.filter((rule) => rule.sides.includes(sheet.side));
  if (own.length === 0) return null;
  const table = tableOf(sheet);
  const begun = own
    .flatMap((rule) => (rule.measures === 'ends' ? beginAtEnds(sheet, rule) : beginAtPairs(sheet, table, rule)))
    .sort((a, b) => b.share - a.share);
  const near = nearTheBest * (begun[0]?.share ?? 0);
  let worst = { share: 0, says: own[0]?.says ?? '' };
  for (const { share, says, climbed } of begun.slice(0, climbs)) {
    if (share < near) break;
    const top = climbed();
    if (top > worst.share) worst = { share: top, says };
  }
  return worst;
}

/** How many of the best places are climbed from, of those that come to this much of the best. */
const climbs = 24;
const nearTheBest = 0.7;

function beginAtPairs(sheet: Sheet, table: Table, rule: PairRule): Begun[] {
  const shareAt = (at: Pair) => shareOfPair(sheet, rule, at);
  const ways = waysOf(rule);
  return bestPairs(sheet, table, rule).map(({ share, at }) => ({
    share,
    says: rule.says,
    climbed: () => climb(at, ways, shareAt),
  }));
}
