/**
 * M36: a jamb in wind: it was read up its near face and not up its far one, and there it leans another way.
 */

import type { Rect } from '../../geometry/range.ts';
import { sayLength } from '../../recess/lengths.ts';
import type { Side } from '../../recess/recess-spec.ts';
import { trueOffset } from '../domain.ts';
import { byTightest } from './catching.ts';
import { type Evidence, leftOutMm } from './evidence.ts';
import { type Mistake, nothingMm } from './mistake.ts';

const size = 'lining-width';
const jambs = ['left', 'right'] as const;
/** Readings within this of each other up a jamb are at one height, mm. */
const oneHeightMm = 25;
/** The near face: this share of the way through the wall. */
const nearShare = 0.35;

export const windMissed: Mistake = {
  id: 'M36',
  name: 'wind not looked for',
  find: (from) => {
    if (!from.sizes.includes(size)) return null;
    const wound = jambs.filter((side) => readPlumb(from, side) && Math.abs(twistMm(from, side)) / 2 > nothingMm);
    const costs = wound.map((side) => ({ side, mm: Math.max(0, leftOutMm(from, size, side)) }));
    const costMm = costs.reduce((sum, c) => sum + c.mm, 0);
    const [worst] = [...costs].sort((a, b) => b.mm - a.mm || jambs.indexOf(a.side) - jambs.indexOf(b.side));
    if (!worst || costMm <= nothingMm) return null;
    const far = nearMm(from);
    return {
      costMm,
      sizes: [size],
      acts: from.placesRead(size).map((p) => p.n),
      caught: byTightest(from, size, worst.side, (at) => at.u > far),
      happened: [
        `The ${worst.side} jamb is in wind: from one face of the wall to the other it twists by ${sayLength(Math.abs(twistMm(from, worst.side)))} over its height. Each face is fair by itself.`,
      ],
      did: ['You read up the jamb at its near face, and at its far face at one height.'],
      next: [
        'Read both faces of each jamb at the same heights. Two strings across the opening, corner to corner, show wind: they should just touch.',
      ],
    };
  },
};

/** Whether a jamb was read at several heights at its near face, and further in at one. */
function readPlumb(from: Evidence, side: Side): boolean {
  const places = from.placesRead(size).filter((p) => p.side === side && p.trueMm !== null);
  const near = nearMm(from);
  const heights = (isNear: boolean) => places.filter((p) => p.at.u <= near === isNear).map((p) => p.at.v);
  const [front, behind] = [heights(true), heights(false)];
  return behind.length > 0 && spread(front) > oneHeightMm && spread(behind) <= oneHeightMm;
}

/** By how much a jamb twists: how it leans at its far end, less how it leans at its near one, mm. */
function twistMm(from: Evidence, side: Side): number {
  const [rect] = from.domain(size).rects[side] ?? [];
  if (!rect) return 0;
  const at = (u: keyof Rect, v: keyof Rect) => trueOffset(from.source, size, { side, u: rect[u], v: rect[v] });
  return at('u1', 'v1') - at('u1', 'v0') - (at('u0', 'v1') - at('u0', 'v0'));
}

function nearMm(from: Evidence): number {
  const { mouthMm, carcassFrontMm, carcassMm } = from.brief;
  return mouthMm + nearShare * (carcassFrontMm + carcassMm.depth.nominalMm - mouthMm);
}

function spread(values: readonly number[]): number {
  return values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
}
