/**
 * Where a carcass's sloped edge lies on the sheet: chainages are taken from the square line, and so are the walls that
 * the carcass stands between.
 */
import { type Brief, finishOn, nominalCarcass, slopeLine } from '../exercise/brief.ts';
import { slopedStretch } from '../exercise/carcass-shape.ts';
import { type Plane, signedDistance } from '../geometry/plane.ts';
import { toRoom } from './hand-frame.ts';
import type { SizeName, SlopeEdge, Term } from './size.ts';
import type { Survey } from './survey.ts';

/** Says whether a size is a height of a sloped edge. */
export function isOfSlope(size: SizeName): boolean {
  return size === 'slope-low' || size === 'slope-high';
}

/**
 * Gives where the sloped edge of a carcass lies.
 *
 * @param at - x of its left edge and its width, mm, in whatever frame is wanted back
 * @returns null where the brief asks for no sloped edge
 */
export function slopeEdge(brief: Brief, at: { readonly leftMm: number; readonly widthMm: number }): SlopeEdge | null {
  const { slope } = brief;
  if (!slope) return null;
  const { notch: _, ...whole } = nominalCarcass(brief);
  const stretch = slopedStretch({ ...whole, widthMm: at.widthMm, slope: slopeLine(slope.low, slope) });
  if (!stretch) return null;
  const right = at.leftMm + at.widthMm;
  return {
    lowMm: slope.low === 'left' ? at.leftMm : right,
    highMm: slope.low === 'left' ? right : at.leftMm,
    middleMm: at.leftMm + (stretch[0] + stretch[1]) / 2,
  };
}

/**
 * Gives the left edge of a carcass from the square line, by the offsets of a width: what is spare, less what is asked, is
 * shared.
 */
export function leftFromSquare(
  brief: Brief,
  of: { terms: readonly Term[]; counting: readonly number[]; widthMm: number },
): number {
  const least = (side: 'left' | 'right') =>
    of.counting.reduce((sum, i) => sum + (of.terms[i]?.side === side ? (of.terms[i] as Term).valueMm : 0), 0) -
    finishOn(brief, side);
  const { left, right } = brief.askMm;
  return (least('right') - right - (least('left') - left) - of.widthMm) / 2;
}

/** Gives how far right of a square line a place of the hand's lies, mm; without a line, of the middle of the room. */
export function chainage(survey: Survey, square: string | null, at: { u: number; v: number }): number {
  const p = toRoom(survey.world.hand, { x: at.u, y: at.v, z: 0 });
  const plane = square === null ? undefined : survey.planes[square];
  return plane ? rightOf(plane, p) : p.x;
}

/** Gives how far right of a square line a point lies, mm. */
export function rightOf(plane: Plane, p: { x: number; y: number; z: number }): number {
  const off = signedDistance(plane, p);
  return plane.nx < 0 ? 0 - off : off;
}
