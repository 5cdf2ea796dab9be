/**
 * A rule asked at opposite edges of a surface.
 */
import { climb, type Way } from './climb.ts';
import { limitAt } from './limit.ts';
import { type EndsRule, insetOf } from './limits.ts';
import { stretchOf } from './seen-part.ts';
import type { Sheet } from './sheet.ts';
import type { Begun } from './worst-share.ts';

const kept = 6;
const endsStepMm = 64;

/** Gives the best few places of a rule of opposite ends, to climb from. */
export function beginAtEnds(sheet: Sheet, rule: EndsRule): Begun[] {
  const straight = rule.across === 'straight';
  const aside = rule.along === 'u' ? 'v' : 'u';
  const [from, to] = insetStretch(sheet, aside, sheet.part[aside], rule.insetMm);
  const count = Math.max(1, Math.ceil((to - from) / endsStepMm));
  const places = Array.from({ length: count + 1 }, (_, i) => Math.min(from + (i * (to - from)) / count, to));
  const shareAt = (at: readonly number[]) => {
    const [a, b] = straight ? [at[0] as number, at[0] as number] : (at as [number, number]);
    return a < from || a > to || b < from || b > to ? -1 : shareOfEnds(sheet, rule, [a, b]);
  };
  const ways: readonly Way[] = straight ? [[1]] : slantingWays;
  return places
    .flatMap((a) => (straight ? [[a]] : places.map((b) => [a, b])))
    .map((at) => ({ share: shareAt(at), says: rule.says, climbed: () => climb(at, ways, shareAt) }))
    .sort((a, b) => b.share - a.share)
    .slice(0, kept);
}

const slantingWays: readonly Way[] = [
  [1, 0],
  [0, 1],
  [1, 1],
];

/** The share of two opposite ends, each at its place across; -1 where the surface is too short there. */
function shareOfEnds(sheet: Sheet, rule: EndsRule, [a, b]: readonly [number, number]): number {
  const stretch = rule.across === 'straight' ? stretchOf(sheet.part, rule.along, a) : sheet.part[rule.along];
  if (!stretch) return -1;
  const [from, to] = insetStretch(sheet, rule.along, stretch, rule.insetMm);
  const along = rule.along === 'u';
  const drift = along ? sheet.offAt(to, b) - sheet.offAt(from, a) : sheet.offAt(b, to) - sheet.offAt(a, from);
  const run = (stretch[1] - stretch[0]) * (along ? sheet.stretchU : 1);
  const aside = (b - a) * (along ? 1 : sheet.stretchU);
  return Math.abs(drift) / limitAt(rule.limit, Math.sqrt(run * run + aside * aside));
}

/** What is left of a stretch off its ends, as lengths go along the surface. */
function insetStretch(
  sheet: Sheet,
  axis: 'u' | 'v',
  [from, to]: readonly [number, number],
  insetMm: number,
): readonly [number, number] {
  const stretch = axis === 'u' ? sheet.stretchU : 1;
  const inset = insetOf(insetMm, (to - from) * stretch) / stretch;
  return [from + inset, to - inset];
}
