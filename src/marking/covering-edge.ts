/**
 * The sloped edge of a frame's blank: the line over the section at the face line that stands lowest at the middle of the
 * slope's nominal stretch, and what comes off a sloped edge. Upside down it is the line that a sloped top rests under.
 */
import { type Linear, rangeMax, rangeMin } from '../geometry/range.ts';
import { restingLine } from '../geometry/resting-line.ts';
import { slopeHeight } from '../recess/defect-shapes.ts';
import { lineAtFace, type OpeningEdges, type OpeningRect, openingRect } from './opening.ts';
import type { Site } from './site.ts';

/** Heights in the room, mm: at the opening's left and right edge, and at the middle of the slope's nominal stretch. */
export interface CoveringEdge {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly middleMm: number;
  /** x of that middle. */
  readonly middleAtMm: number;
}

/** Gives the lowest line that covers; null where the section has no slope. */
export function coveringEdge(site: Site, found: OpeningEdges): CoveringEdge | null {
  const { slope } = site.recess.spec;
  if (!slope || !found.top.parts.some(({ side }) => side === 'slope')) return null;
  const middle = slopeMiddle(site);
  // Obstructions are heights upside down, so a line over the section is one under them, its pitch turned round.
  const rest = (pitch: number) => {
    const plus: Linear = { at: pitch * middle, perU: 0 - pitch, perV: 0 };
    const all = found.top.parts.map(({ side, stretch }) =>
      rangeMin(site.recess.fields[side], lineAtFace(side, stretch), { plus }),
    );
    const least = all.reduce((a, b) => (b.value < a.value ? b : a));
    const right = least.u - middle;
    return { pitch, heightMm: Math.min(...all.map((a) => a.bound)), right, z: least.value + pitch * right };
  };
  const rises = slope.riseMmPerM / 1000;
  const { best } = restingLine(rest, slope.low === 'left' ? 0 - rises : rises);
  const rect = openingRect(found);
  const at = (x: number) => 0 - best.heightMm - best.pitch * (x - middle);
  return { leftMm: at(rect.leftMm), rightMm: at(rect.rightMm), middleMm: 0 - best.heightMm, middleAtMm: middle };
}

/** Gives least and most to come off a blank's sloped edge, and off its flat top, along z; < 0 where it does not cover. */
export function slopedStock(
  site: Site,
  found: OpeningEdges,
  blank: OpeningRect & { readonly slope: { readonly leftMm: number; readonly rightMm: number } },
): { readonly slope: readonly [number, number]; readonly top: readonly [number, number] } {
  const { slope, leftMm, rightMm, bottomMm, topMm } = blank;
  const perU = (slope.rightMm - slope.leftMm) / (rightMm - leftMm);
  const line: Linear = { at: bottomMm + slope.leftMm - perU * leftMm, perU, perV: 0 };
  const over = (side: 'slope' | 'ceiling', plus: Linear): [number, number] | null => {
    const parts = found.top.parts.filter((p) => p.side === side);
    if (parts.length === 0) return null;
    const field = site.recess.fields[side];
    const ends = parts.map(({ stretch }) => {
      const rect = lineAtFace(side, stretch);
      return [rangeMin(field, rect, { plus }).value, rangeMax(field, rect, { plus }).value] as const;
    });
    return [Math.min(...ends.map(([least]) => least)), Math.max(...ends.map(([, most]) => most))];
  };
  const overAll = topMm + found.top.least.value;
  const flat = over('ceiling', { at: topMm, perU: 0, perV: 0 }) ?? [overAll, overAll];
  return { slope: over('slope', line) ?? [0, 0], top: [Math.min(overAll, flat[0]), flat[1]] };
}

/** The middle of the stretch over which the nominal slope lies under the nominal ceiling. */
function slopeMiddle(site: Site): number {
  const { spec } = site.recess;
  const half = spec.openingMm.width / 2;
  if (!spec.slope) return 0;
  const { low, lowMm, riseMmPerM } = spec.slope;
  const run = (1000 * (spec.openingMm.height - lowMm)) / riseMmPerM;
  const high = slopeHeight(spec.slope, spec.openingMm.width, low === 'left' ? half : -half);
  const long = high <= spec.openingMm.height ? 2 * half : Math.max(0, run);
  return low === 'left' ? -half + long / 2 : half - long / 2;
}
