/**
 * The small defects that every surface of every family has, and the waves of a reference.
 *
 * Sizes are bell-shaped, never past 3.45 standard deviations, in whole sixteenths of a millimetre.
 */
import { bell, bellToUnitDeviation, between, type DrawKey, type Purpose, purpose } from '../../chance/keyed-draws.ts';
import type { Defect, FamilyName, RecessSpec, Side, SurfaceSpec } from '../recess-spec.ts';
import type { Severity } from '../severity.ts';
import { type PlacedDefect, toGrain } from './structure.ts';

export interface SurfacesDraw {
  readonly family: FamilyName;
  readonly key: DrawKey;
  readonly severity: Severity;
  readonly openingMm: RecessSpec['openingMm'];
  /** The sides that are there: the rest are open. */
  readonly sides: readonly Side[];
  /** The structure's own defects, scaled already. */
  readonly own: readonly PlacedDefect[];
}

/** Draws the surfaces of a recess: small defects on each side that is there, then the structure's own. */
export function drawSurfaces(from: SurfacesDraw): RecessSpec['surfaces'] {
  const why = purpose(`recess/${from.family}/small`);
  const small = smallDefects(from.key, why, { scale: from.severity.scale, opening: from.openingMm });
  const surfaces: Partial<Record<Side, SurfaceSpec>> = {};
  for (const side of from.sides) {
    const own = from.own.filter((p) => p.side === side).map((p) => p.defect);
    surfaces[side] = {
      offsetMm: toGrain(spread(from.key, why, { index: offsetIndex[side], deviation: 1.2 * from.severity.scale })),
      wobbleMm: from.severity.wobbleMm,
      defects: [...small[side], ...own].filter((d) => d.mm !== 0),
    };
  }
  const { floor } = surfaces;
  if (!floor) throw new RangeError('recess: every family has a floor');
  return { ...surfaces, floor };
}

/** Draws the waves of a reference, with mean and slope taken out: the line without them is y = 0. Never -0, which no file keeps. */
export function drawWaves(family: FamilyName, key: DrawKey, scale: number): number[] {
  const why = purpose(`recess/${family}/waves`);
  const count = 7;
  const raw: number[] = [];
  for (let i = 0; i < count; i++) raw.push(bell(key, why, i) * 1.6 * scale);
  const middle = (count - 1) / 2;
  let mean = 0;
  let slope = 0;
  let spreadSum = 0;
  for (let i = 0; i < count; i++) {
    mean += (raw[i] as number) / count;
    slope += (raw[i] as number) * (i - middle);
    spreadSum += (i - middle) * (i - middle);
  }
  return raw.map((w, i) => 0 + Math.round((w - mean - (slope / spreadSum) * (i - middle)) * 1024) / 1024);
}

const offsetIndex: Readonly<Record<Side, number>> = { left: 0, right: 1, back: 2, floor: 3, ceiling: 4, slope: 5 };

function smallDefects(
  key: DrawKey,
  why: Purpose,
  of: { scale: number; opening: RecessSpec['openingMm'] },
): Record<Side, Defect[]> {
  const { opening, scale } = of;
  const mm = (index: number, deviation: number) =>
    toGrain(spread(key, why, { index: 10 + index, deviation: deviation * scale }));
  const crown = (index: number) => between(key, why, { index: 60 + index, from: 0.25, to: 0.75 });
  const acrossAt = (index: number) => 0 + Math.round(opening.width * (crown(index) - 0.5));
  const upAt = (index: number) => Math.round(opening.height * crown(index));
  const wall = (i: number): Defect[] => [
    { kind: 'lean', mm: mm(4 * i, 1.6) },
    { kind: 'taper', mm: mm(4 * i + 1, 1.2) },
    { kind: 'bow', mm: mm(4 * i + 2, 1.2), crownV: upAt(i) },
    { kind: 'wind', mm: mm(4 * i + 3, 1) },
  ];
  return {
    left: wall(0),
    right: wall(1),
    back: [
      { kind: 'lean', mm: mm(8, 1.6) },
      { kind: 'skew', mm: mm(9, 1.6) },
      { kind: 'bow', mm: mm(10, 1.4), crownU: acrossAt(2), crownV: upAt(3) },
    ],
    floor: [
      { kind: 'fall', mm: mm(11, 1.6), towards: 'right' },
      { kind: 'fall', mm: mm(12, 0.8), towards: 'back' },
    ],
    ceiling: [
      { kind: 'fall', mm: mm(13, 1.8), towards: 'right' },
      { kind: 'bow', mm: mm(14, 1.2), crownU: acrossAt(4) },
    ],
    slope: [
      { kind: 'fall', mm: mm(15, 1.6), towards: 'back' },
      { kind: 'bow', mm: mm(16, 1.4), crownU: acrossAt(5) },
      { kind: 'wind', mm: mm(17, 1.2) },
    ],
  };
}

/** A bell-shaped size with a given standard deviation, never past 3.45 of it. */
function spread(key: DrawKey, why: Purpose, of: { index: number; deviation: number }): number {
  return bell(key, why, of.index) * bellToUnitDeviation * of.deviation;
}
