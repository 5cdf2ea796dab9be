/**
 * A rule asked at a pair of points of a surface.
 */
import type { Way } from './climb.ts';
import { limitAt } from './limit.ts';
import type { BowRule, DriftRule } from './limits.ts';
import { isIn } from './seen-part.ts';
import type { Sheet } from './sheet.ts';

export type PairRule = BowRule | DriftRule;

/** u and v of one point, then of the other, then how far between them, in thousandths. */
export type Pair = readonly number[];

/** Gives the share at a pair; -1 where it is not allowed. */
export function shareOfPair(sheet: Sheet, rule: PairRule, at: Pair): number {
  const [u0, v0, u1, v1, thousandths] = at as [number, number, number, number, number];
  const { part } = sheet;
  if (!isIn(part, u0, v0) || !isIn(part, u1, v1)) return -1;
  const limit = limitOfPair(sheet, rule, { u: u1 - u0, v: v1 - v0 });
  if (limit === null) return -1;
  const [one, other] = [sheet.offAt(u0, v0), sheet.offAt(u1, v1)];
  if (rule.measures === 'drift') return Math.abs(other - one) / limit;
  const t = thousandths / 1000;
  if (t < 0 || t > 1) return -1;
  const between = sheet.offAt(u0 + t * (u1 - u0), v0 + t * (v1 - v0));
  return Math.abs(between - one - t * (other - one)) / limit;
}

/** Gives the limit for two points so far apart; null where the rule does not ask that. */
export function limitOfPair(sheet: Sheet, rule: PairRule, apart: { u: number; v: number }): number | null {
  const along = apart.u * sheet.stretchU;
  const distance = Math.sqrt(along * along + apart.v * apart.v);
  const { u, v } = sheet.part;
  if (rule.measures === 'bow')
    return distance < rule.shortestMm || distance > rule.longestMm ? null : limitAt(rule.limit, distance);
  if (rule.longestMm !== null && distance > rule.longestMm) return null;
  return limitAt(rule.limit, rule.along === 'u' ? u[1] - u[0] : v[1] - v[0]);
}

/** Gives the ways that a pair can be moved by a rule. */
export function waysOf(rule: PairRule): readonly Way[] {
  const ends: readonly Way[] =
    rule.along === 'any'
      ? [
          [1, 0, 0, 0, 0],
          [0, 1, 0, 0, 0],
          [0, 0, 1, 0, 0],
          [0, 0, 0, 1, 0],
        ]
      : rule.along === 'u'
        ? [
            [1, 0, 0, 0, 0],
            [0, 0, 1, 0, 0],
          ]
        : [
            [0, 1, 0, 0, 0],
            [0, 0, 0, 1, 0],
          ];
  const both: readonly Way[] = [
    [1, 0, 1, 0, 0],
    [0, 1, 0, 1, 0],
  ];
  const between: readonly Way[] = rule.measures === 'bow' && rule.at === 'anywhere' ? [[0, 0, 0, 0, 2]] : [];
  return [...ends, ...both, ...between];
}
