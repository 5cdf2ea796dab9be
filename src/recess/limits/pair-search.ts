/**
 * A first look for the pair of points at which a rule takes most: all pairs of a table's cells, closer for what stands apart
 * and along every line of a rule that goes one way; and from each also the points that are as far away as the rule lets them
 * be, or as they can be before its limit steps up.
 */
import { stepsOf } from './limit.ts';
import { limitOfPair, type Pair, type PairRule, shorterMm } from './pair-rule.ts';
import { isIn } from './seen-part.ts';
import { eighths, offIn, type Sheet, type Table } from './sheet.ts';

export interface PairFound {
  readonly share: number;
  readonly at: Pair;
}

const kept = 24;

/** Gives the best few pairs: of those that each of the table's cells begins, the best is taken, and of these the best few. */
export function bestPairs(sheet: Sheet, table: Table, rule: PairRule): PairFound[] {
  const parts = rule.measures === 'drift' ? [0] : rule.at === 'middle' ? [eighths / 2] : [1, 2, 3, 4, 5, 6, 7];
  // What stands apart from what is told by two places alone: a bump that is narrower than a cell counts as any other.
  const step = rule.measures === 'drift' ? eighths / 2 : eighths;
  const look: Look = {
    table,
    rule,
    parts,
    seen: seenPlaces(sheet, table),
    step,
    inverse: inverseLimits(sheet, table, { rule, step }),
    ways: farthestWays(sheet, table, rule),
  };
  const found: PairFound[] = [];
  for (let j = 0; j <= table.cellsV; j++)
    for (let i = 0; i <= table.cellsU; i++) {
      const best = bestOfCell(sheet, look, eighths * i, eighths * j);
      if (best) found.push(best);
    }
  return found.sort((a, b) => b.share - a.share).slice(0, kept);
}

interface Look {
  readonly table: Table;
  readonly rule: PairRule;
  /** At which eighths between two points the surface is looked at; 0 for how far one stands off the other. */
  readonly parts: readonly number[];
  /** How many eighths lie between the points that are tried. */
  readonly step: number;
  readonly seen: Uint8Array;
  readonly inverse: Float64Array;
  readonly ways: readonly FarWay[];
}

/** The best pair that a cell begins; a rule that goes one way only is also asked along all lines between cells. */
function bestOfCell(sheet: Sheet, look: Look, i: number, j: number): PairFound | null {
  const { table, rule, seen, step } = look;
  const { countU } = table;
  const countV = seen.length / countU;
  const [stepU, stepV] = [rule.along === 'v' ? 1 : step, rule.along === 'u' ? 1 : step];
  let best: PairFound | null = null;
  for (let b = j; b < Math.min(j + eighths, countV); b += stepV)
    for (let a = i; a < Math.min(i + eighths, countU); a += stepU) {
      if (!seen[b * countU + a]) continue;
      const near = bestFrom(look, a, b);
      const [one, other] = [placeOf(sheet, table, a, b), placeOf(sheet, table, near.i, near.j)];
      const apart = apartOf(sheet, other[0] - one[0], other[1] - one[1]);
      const far = bestOfWays(sheet, look, one);
      const from: PairFound =
        far && far.share > near.share
          ? far
          : { share: near.share, at: [...one, ...other, (near.part / eighths) * apart] };
      if (!best || from.share > best.share) best = from;
    }
  return best;
}

function placeOf({ part }: Sheet, { stepU, stepV }: Table, i: number, j: number): readonly [number, number] {
  return [part.u[0] + i * stepU, part.v[0] + j * stepV];
}

/** How far apart two points are along the surface. */
function apartOf({ stretchU }: Sheet, du: number, dv: number): number {
  return Math.sqrt(du * du * stretchU * stretchU + dv * dv);
}

/** The best second point for a first one, and at which eighth between them; only points that come later are tried. */
function bestFrom(of: Look, i: number, j: number): { share: number; i: number; j: number; part: number } {
  const { table, rule, seen, inverse, parts, step } = of;
  const { countU, off } = table;
  const apartU = Math.floor((countU - 1) / step);
  const [alongU, alongV] = [rule.along !== 'v', rule.along !== 'u'];
  const best = { share: 0, i, j, part: parts[0] as number };
  const from = off[j * countU + i] as number;
  for (let b = j; b * countU < off.length && (alongV || b === j); b += step)
    for (let a = b === j ? i + step : alongU ? i % step : i; a < countU && (alongU || a === i); a += step) {
      const [up, aside] = [(b - j) / step, (a - i) / step];
      const scale = inverse[up * (apartU + 1) + Math.abs(aside)] as number;
      if (scale === 0 || !seen[b * countU + a]) continue;
      const drift = (off[b * countU + a] as number) - from;
      for (const part of parts) {
        const k = (j + part * up) * countU + i + part * aside;
        const share = Math.abs(part === 0 ? drift : (off[k] as number) - from - (part / eighths) * drift) * scale;
        if (share > best.share) [best.share, best.i, best.j, best.part] = [share, a, b, part];
      }
    }
  return best;
}

function seenPlaces({ part }: Sheet, { countU, stepU, stepV, off }: Table): Uint8Array {
  const seen = new Uint8Array(off.length);
  const { u, v, under } = part;
  for (let k = 0; k < seen.length; k++) {
    const [at, up] = [u[0] + (k % countU) * stepU, v[0] + Math.floor(k / countU) * stepV];
    seen[k] = under === null || up <= under.at + under.perU * at ? 1 : 0;
  }
  return seen;
}

/** One over the limit, by how many steps two points lie apart; 0 where the rule does not ask that. */
function inverseLimits(sheet: Sheet, table: Table, { rule, step }: { rule: PairRule; step: number }): Float64Array {
  const { countU, stepU, stepV, off } = table;
  const apartU = Math.floor((countU - 1) / step);
  const apartV = Math.floor((off.length / countU - 1) / step);
  const inverse = new Float64Array((apartU + 1) * (apartV + 1));
  for (let b = 0, k = 0; b <= apartV; b++)
    for (let a = 0; a <= apartU; a++, k++) {
      const limit = limitOfPair(sheet, rule, { u: step * a * stepU, v: step * b * stepV });
      inverse[k] = limit === null || k === 0 ? 0 : 1 / limit;
    }
  return inverse;
}

/** The best pair of a point and one that one of some ways leads to; null where none does. */
function bestOfWays(sheet: Sheet, { table, parts, ways }: Look, [u0, v0]: readonly [number, number]): PairFound | null {
  const one = offIn(table, sheet.part, u0, v0);
  let best: PairFound | null = null;
  for (const { du, dv, limit } of ways) {
    const [u1, v1] = [u0 + du, v0 + dv];
    if (!isIn(sheet.part, u1, v1)) continue;
    const drift = offIn(table, sheet.part, u1, v1) - one;
    for (const part of parts) {
      const t = part / eighths;
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
    const aside = eighths * a * stepU;
    const left = length * length - aside * aside * sheet.stretchU * sheet.stretchU;
    if (left >= 0) ways.push([aside, Math.sqrt(left)], [0 - aside, Math.sqrt(left)]);
  }
  for (let b = 0; along !== 'v' && b <= (along === 'u' ? 0 : cellsV); b++) {
    const up = eighths * b * stepV;
    const left = length * length - up * up;
    if (left >= 0) ways.push([Math.sqrt(left) / sheet.stretchU, up], [0 - Math.sqrt(left) / sheet.stretchU, up]);
  }
  return ways;
}
