/**
 * The largest a carcass with a sloped edge can be: its edge's line, and its flat top along that line.
 *
 * The edge: of all lines under the slope, over the sloped part of the nominal's top (its notch aside) and the way in, the one
 * that stands highest at that part's middle; of several, the flattest.
 */
import { slopedStretch, topOf } from '../exercise/carcass-shape.ts';
import type { Linear } from '../geometry/range.ts';
import { restingLine } from '../geometry/resting-line.ts';
import { highestOver } from '../recess/band.ts';
import { type Place, placeAt } from '../recess/recess.ts';
import { isOpen } from '../recess/recess-spec.ts';
import type { PlacedCarcass } from './carcass-fit.ts';
import { clearOver, shapedTop } from './shaped-fit.ts';
import type { Site } from './site.ts';

/** The line of a sloped edge, heights in the room, mm. */
export interface HighestEdge {
  /** Where it stands at the carcass's low and high edge, and at the middle of the sloped part. */
  readonly lowMm: number;
  readonly highMm: number;
  readonly middleMm: number;
  /** No line under the slope stands higher there than this. */
  readonly boundMm: number;
  /** The places of the slope that decide: one where a single place at the middle does. */
  readonly at: readonly Place[];
}

/**
 * Gives the highest line that the sloped edge of a carcass can have where it stands.
 *
 * @returns null where the recess has no slope, or the carcass no sloped edge
 */
export function highestEdge(site: Site, carcass: PlacedCarcass): HighestEdge | null {
  const stretch = slopedStretch(carcass);
  const { slope } = carcass;
  if (!stretch || !slope || isOpen(site.recess.spec, 'slope')) return null;
  const [from, to] = [carcass.leftMm + stretch[0], carcass.leftMm + stretch[1]];
  const middle = (from + to) / 2;
  const rect = { u0: from, u1: to, v0: site.brief.mouthMm, v1: carcass.backMm };
  const rest = (pitch: number) => {
    const plus: Linear = { at: 0 - pitch * middle, perU: pitch, perV: 0 };
    const most = highestOver(site.recess.fields.slope, site.staying.slope, rect, plus);
    const z = pitch * (most.u - middle) - most.value;
    return { pitch, heightMm: 0 - most.bound, right: most.u - middle, z, at: placeAt('slope', most, 0 - z) };
  };
  const { best, other, boundMm } = restingLine(rest, (slope.rightMm - slope.leftMm) / carcass.widthMm);
  const at = (x: number) => best.heightMm + best.pitch * (x - middle);
  const ends = [at(carcass.leftMm), at(carcass.leftMm + carcass.widthMm)];
  return {
    lowMm: Math.min(...ends),
    highMm: Math.max(...ends),
    middleMm: best.heightMm,
    boundMm,
    at: other ? [best.at, other.at] : [best.at],
  };
}

/**
 * Gives the greatest height of a carcass's flat top with its sloped edge's line as it stands: the flat top rises along it.
 *
 * @returns mm; where nothing but the edge bounds it, the edge's high end; null where the edge does not go under the slope
 */
export function tallestUnderSlope(site: Site, carcass: PlacedCarcass): number | null {
  const { slope, bottomMm } = carcass;
  if (!slope || !edgeGoes(site, carcass)) return null;
  const goes = (heightMm: number) => shapedTop(site, { ...carcass, heightMm, topMm: bottomMm + heightMm }).mm >= 0;
  let most = Math.max(slope.leftMm, slope.rightMm);
  if (goes(most)) return most;
  let tall = Math.min(most, 1);
  while (most - tall > heightWithinMm) {
    const middle = (tall + most) / 2;
    if (goes(middle)) tall = middle;
    else most = middle;
  }
  return tall;
}

/** How finely a height is looked for, mm. */
const heightWithinMm = 0.0001;

/** Whether the sloped edge of a carcass goes under the slope: whatever else is over it, its flat top can come down. */
function edgeGoes(site: Site, carcass: PlacedCarcass): boolean {
  if (isOpen(site.recess.spec, 'slope')) return true;
  const sloped = topOf(carcass).filter(({ z0, z1 }) => z0 !== z1);
  return sloped.every((piece) => clearOver(site, { on: 'slope', carcass, piece }).mm >= 0);
}
