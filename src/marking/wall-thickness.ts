/**
 * The thickness of the wall that a lining has to reach through: how far the far face lies behind the face line, where the
 * edges of its boards come.
 */
import type { Extreme, Rect } from '../geometry/range.ts';
import type { Place } from '../recess/recess.ts';
import type { PlacedCarcass } from './carcass-fit.ts';
import { bareHighest, bareLowest, placeOf, type Site } from './site.ts';

/** A thickness, and where it is. */
export interface Thickness {
  readonly mm: number;
  readonly at: Place;
}

/**
 * Gives the far edges of a lining as it stands: a strip as wide as its boards at both jambs and at the head, and at the
 * board of a reveal.
 */
export function liningEdges(site: Site, lining: PlacedCarcass): readonly Rect[] {
  const { leftMm, bottomMm, topMm, widthMm } = lining;
  const board = site.brief.lining?.thicknessMm ?? 0;
  const rightMm = leftMm + widthMm;
  const upright = { v0: bottomMm, v1: topMm };
  return [
    { u0: leftMm, u1: leftMm + board, ...upright },
    { u0: rightMm - board, u1: rightMm, ...upright },
    { u0: leftMm, u1: rightMm, v0: topMm - board, v1: topMm },
    ...(site.recess.spec.family === 'reveal' ? [{ u0: leftMm, u1: rightMm, v0: bottomMm, v1: bottomMm + board }] : []),
  ];
}

/** Gives the least and the greatest thickness of the bare wall over the edges of a lining as it stands. */
export function wallThickness(
  site: Site,
  lining: PlacedCarcass,
): { readonly least: Thickness; readonly most: Thickness } {
  const edges = liningEdges(site, lining);
  const nearest = edges.map((edge) => bareHighest(site, 'back', edge)).reduce((a, b) => (b.value > a.value ? b : a));
  const farthest = edges.map((edge) => bareLowest(site, 'back', edge)).reduce((a, b) => (b.value < a.value ? b : a));
  return { least: thicknessAt(nearest), most: thicknessAt(farthest) };
}

function thicknessAt(extreme: Extreme): Thickness {
  return { mm: 0 - extreme.value, at: placeOf('back', extreme) };
}
