/**
 * A rule asked at a pair of points of a surface.
 */
import type { Way } from './climb.ts';
import { limitAt, stepsOf } from './limit.ts';
import type { BowRule, DriftRule } from './limits.ts';
import type { SeenPart } from './seen-part.ts';
import type { Sheet } from './sheet.ts';

export type PairRule = BowRule | DriftRule;

/** u and v of one point, then of the other, then how far from the one towards the other the surface is looked at, mm. */
export type Pair = readonly number[];

/**
 * Gives the share at a pair, so that it can be climbed: a point beyond the part counts at its edge, and a second point
 * that is too far away is drawn in towards the first, to the longest that the rule asks or to where its limit steps up,
 * whichever takes more. So a step aside turns the pair where its length is held. -1 where it is not allowed.
 */
export function shareOfPair(sheet: Sheet, rule: PairRule, at: Pair): number {
  const [u0, v0] = intoPart(sheet.part, at[0] as number, at[1] as number);
  const [u1, v1] = intoPart(sheet.part, at[2] as number, at[3] as number);
  const [du, dv] = [u1 - u0, v1 - v0];
  const along = du * sheet.stretchU;
  const apart = Math.sqrt(along * along + dv * dv);
  const whole = rule.longestMm === null ? apart : Math.min(apart, rule.longestMm - shorterMm);
  const step = stepsOf(rule.limit).findLast((length) => length - shorterMm < whole);
  let most = -1;
  for (const length of step === undefined ? [whole] : [whole, step - shorterMm]) {
    const share = apart > 0 ? length / apart : 1;
    most = Math.max(
      most,
      shareBetween(sheet, rule, { u0, v0, du: share * du, dv: share * dv, t: (at[4] as number) / length }),
    );
  }
  return most;
}

/** A hair less than a length, so that no rounding takes it for more. */
export const shorterMm = 0.01;

function intoPart(part: SeenPart, u: number, v: number): readonly [number, number] {
  const x = Math.min(Math.max(u, part.u[0]), part.u[1]);
  const roof = part.under === null ? part.v[1] : Math.min(part.v[1], part.under.at + part.under.perU * x);
  return [x, Math.min(Math.max(v, part.v[0]), Math.max(part.v[0], roof))];
}

function shareBetween(
  sheet: Sheet,
  rule: PairRule,
  of: { u0: number; v0: number; du: number; dv: number; t: number },
): number {
  const { u0, v0 } = of;
  // A sum may pass the edge by a rounding.
  const [u1, v1] = intoPart(sheet.part, u0 + of.du, v0 + of.dv);
  const [du, dv] = [u1 - u0, v1 - v0];
  const limit = limitOfPair(sheet, rule, { u: du, v: dv });
  if (limit === null) return -1;
  const [one, other] = [sheet.offAt(u0, v0), sheet.offAt(u1, v1)];
  if (rule.measures === 'drift') return Math.abs(other - one) / limit;
  const t = rule.at === 'middle' ? 0.5 : Math.min(Math.max(of.t, 0), 1);
  const [u, v] = intoPart(sheet.part, u0 + t * du, v0 + t * dv);
  return Math.abs(sheet.offAt(u, v) - one - t * (other - one)) / limit;
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
  // Where it is looked at can stay where it is while the one point moves away from it, or the other.
  const between: readonly Way[] =
    rule.measures === 'bow' && rule.at === 'anywhere'
      ? [
          [0, 0, 0, 0, 1],
          ...ends.slice(0, ends.length / 2).flatMap((way): Way[] => [1, -1].map((by) => [...way.slice(0, 4), by])),
        ]
      : [];
  return [...ends, ...both, ...between];
}
