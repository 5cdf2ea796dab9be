/**
 * A first look for the pair of points at which a rule takes most: all pairs of a table's cells, and from each cell also the
 * points that are as far away as the rule lets them be, or as they can be before its limit steps up.
 */
import { stepsOf } from './limit.ts';
import { limitOfPair, type Pair, type PairRule, shorterMm } from './pair-rule.ts';
import { isIn } from './seen-part.ts';
import { offIn, quarters, type Sheet, type Table } from './sheet.ts';

export interface PairFound {
  readonly share: number;
  readonly at: Pair;
}

const kept = 24;

/** Gives the best few pairs: of those that each of the table's cells begins, the best is taken, and of these the best few. */
export function bestPairs(sheet: Sheet, table: Table, rule: PairRule): PairFound[] {
  const { cellsU, cellsV, stepU, stepV } = table;
  const seen = seenCells(sheet, table);
  const inverse = inverseLimits(sheet, table, rule);
  const parts = rule.measures === 'drift' ? [0] : rule.at === 'middle' ? [2] : [1, 2, 3];
  const farthest = farthestWays(sheet, table, rule);
  const found: PairFound[] = [];
  const [u0, v0] = [sheet.part.u[0], sheet.part.v[0]];
  for (let j = 0; j <= cellsV; j++)
    for (let i = 0; i <= cellsU; i++) {
      if (!seen[j * (cellsU + 1) + i]) continue;
      const best = bestFrom({ table, seen, inverse, parts, along: rule.along }, i, j);
      const place = (a: number, b: number) => [u0 + quarters * a * stepU, v0 + quarters * b * stepV];
      const from = place(i, j);
      const to = place(best.i, best.j);
      const [x, y] = [(to[0] as number) - (from[0] as number), (to[1] as number) - (from[1] as number)];
      const on = (best.part / quarters) * apartOf(sheet, x, y);
      const onCells: PairFound = { share: best.share, at: [...from, ...to, on] };
      const far = bestOfWays(sheet, { table, rule, parts, ways: farthest }, from);
      found.push(far && far.share > best.share ? far : onCells);
    }
  return found.sort((a, b) => b.share - a.share).slice(0, kept);
}

/** How far apart two points are along the surface. */
function apartOf({ stretchU }: Sheet, du: number, dv: number): number {
  return Math.sqrt(du * du * stretchU * stretchU + dv * dv);
}

interface Cells {
  readonly table: Table;
  readonly seen: Uint8Array;
  readonly inverse: Float64Array;
  readonly parts: readonly number[];
  readonly along: 'any' | 'u' | 'v';
}

/** The best second point for a first one, and at which quarter between them; only points that come later are tried. */
function bestFrom(of: Cells, i: number, j: number): { share: number; i: number; j: number; part: number } {
  const { table, seen, inverse, parts, along } = of;
  const { cellsU, cellsV, countU, off } = table;
  const best = { share: 0, i, j, part: parts[0] as number };
  const from = off[quarters * (j * countU + i)] as number;
  for (let b = j; b <= (along === 'u' ? j : cellsV); b++)
    for (let a = along === 'v' ? i : b === j ? i + 1 : 0; a <= (along === 'v' ? i : cellsU); a++) {
      const scale = inverse[(b - j) * (cellsU + 1) + Math.abs(a - i)] as number;
      if (scale === 0 || !seen[b * (cellsU + 1) + a]) continue;
      const drift = (off[quarters * (b * countU + a)] as number) - from;
      for (const part of parts) {
        const k = (quarters * j + part * (b - j)) * countU + quarters * i + part * (a - i);
        const share = Math.abs(part === 0 ? drift : (off[k] as number) - from - (part / quarters) * drift) * scale;
        if (share > best.share) [best.share, best.i, best.j, best.part] = [share, a, b, part];
      }
    }
  return best;
}

function seenCells(sheet: Sheet, { cellsU, cellsV, stepU, stepV }: Table): Uint8Array {
  const seen = new Uint8Array((cellsU + 1) * (cellsV + 1));
  const { u, v, under } = sheet.part;
  for (let j = 0, k = 0; j <= cellsV; j++)
    for (let i = 0; i <= cellsU; i++, k++) {
      const [at, up] = [u[0] + quarters * i * stepU, v[0] + quarters * j * stepV];
      seen[k] = under === null || up <= under.at + under.perU * at ? 1 : 0;
    }
  return seen;
}

/** One over the limit, by how many cells two points lie apart; 0 where the rule does not ask that. */
function inverseLimits(sheet: Sheet, table: Table, rule: PairRule): Float64Array {
  const { cellsU, cellsV, stepU, stepV } = table;
  const inverse = new Float64Array((cellsU + 1) * (cellsV + 1));
  for (let b = 0, k = 0; b <= cellsV; b++)
    for (let a = 0; a <= cellsU; a++, k++) {
      const limit = limitOfPair(sheet, rule, { u: quarters * a * stepU, v: quarters * b * stepV });
      inverse[k] = limit === null || k === 0 ? 0 : 1 / limit;
    }
  return inverse;
}

/** The best pair of a point and one that one of some ways leads to; null where none does. */
function bestOfWays(
  sheet: Sheet,
  of: { table: Table; rule: PairRule; parts: readonly number[]; ways: readonly FarWay[] },
  from: readonly number[],
): PairFound | null {
  const { table, parts } = of;
  const [u0, v0] = from as [number, number];
  const one = offIn(table, sheet.part, u0, v0);
  let best: PairFound | null = null;
  for (const { du, dv, limit } of of.ways) {
    const [u1, v1] = [u0 + du, v0 + dv];
    if (!isIn(sheet.part, u1, v1)) continue;
    const drift = offIn(table, sheet.part, u1, v1) - one;
    for (const part of parts) {
      const t = part / quarters;
      const bow = part === 0 ? drift : offIn(table, sheet.part, u0 + t * du, v0 + t * dv) - one - t * drift;
      const share = Math.abs(bow) / limit;
      if (share > (best?.share ?? 0)) best = { share, at: [u0, v0, u1, v1, t * apartOf(sheet, du, dv)] };
    }
  }
  return best;
}

/** A way to a second point, and the limit for two so far apart. */
interface FarWay {
  readonly du: number;
  readonly dv: number;
  readonly limit: number;
}

/** Ways a little shorter than each length that counts: over each whole number of cells aside, and of cells up. */
function farthestWays(sheet: Sheet, table: Table, rule: PairRule): FarWay[] {
  const lengths = [...stepsOf(rule.limit), ...(rule.longestMm === null ? [] : [rule.longestMm])];
  const { stretchU, part } = sheet;
  const [wide, high] = [(part.u[1] - part.u[0]) * stretchU, part.v[1] - part.v[0]];
  return lengths
    .filter((length) => length * length <= wide * wide + high * high)
    .flatMap((length) => waysOfLength(sheet, table, { along: rule.along, length: length - shorterMm }))
    .flatMap(([du, dv]) => {
      const limit = limitOfPair(sheet, rule, { u: du, v: dv });
      return limit === null ? [] : [{ du, dv, limit }];
    });
}

function waysOfLength(
  sheet: Sheet,
  table: Table,
  of: { along: 'any' | 'u' | 'v'; length: number },
): (readonly [number, number])[] {
  const { cellsU, cellsV, stepU, stepV } = table;
  const { along, length } = of;
  const ways: (readonly [number, number])[] = [];
  for (let a = 0; along !== 'u' && a <= (along === 'v' ? 0 : cellsU); a++) {
    const aside = quarters * a * stepU;
    const left = length * length - aside * aside * sheet.stretchU * sheet.stretchU;
    if (left >= 0) ways.push([aside, Math.sqrt(left)], [0 - aside, Math.sqrt(left)]);
  }
  for (let b = 0; along !== 'v' && b <= (along === 'u' ? 0 : cellsV); b++) {
    const up = quarters * b * stepV;
    const left = length * length - up * up;
    if (left >= 0) ways.push([Math.sqrt(left) / sheet.stretchU, up], [0 - Math.sqrt(left) / sheet.stretchU, up]);
  }
  return ways;
}
