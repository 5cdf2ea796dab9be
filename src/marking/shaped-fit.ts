/**
 * How a carcass with a sloped or notched top stands against what is round it: the same clearances as a box's.
 *
 * Sideways it is met where its side is at each height, so a wall counts less by how far the side draws back there. Overhead
 * it is met by ceiling and slope over each straight stretch of its top, on its whole way in. Behind, its own shape counts.
 * All are greatest values of a surface with a linear function added, over rectangles and under lines.
 */
import type { CarcassSizes } from '../exercise/brief.ts';
import { lowerOf, metFrom, type SidePiece, shifted, type TopPiece, topOf } from '../exercise/carcass-shape.ts';
import { type Extreme, type Linear, type Rect, staysBelow } from '../geometry/range.ts';
import { highestOver, highestUnder, intersection, piecesOf, sum } from '../recess/band.ts';
import { type Place, placeAt } from '../recess/recess.ts';
import type { Side } from '../recess/recess-spec.ts';
import type { Clearance, PlacedCarcass } from './carcass-fit.ts';
import { overheadSides, placeOf, type Site } from './site.ts';

/** Gives the greatest obstruction of a side wall, less how far the carcass's side draws back at that height. */
export function shapedWall(
  site: Site,
  of: CarcassSizes,
  stand: { readonly bottomMm: number; readonly backMm: number; readonly side: 'left' | 'right' },
): { readonly most: Extreme; readonly at: Place } {
  const { side, bottomMm, backMm } = stand;
  const pieces = metFrom(side, topOf(of)).map((p) => {
    const rect = { u0: site.brief.mouthMm, u1: backMm, v0: bottomMm + p.z0, v1: bottomMm + p.z1 };
    const plus = drawnBack(side, p, { widthMm: of.widthMm, bottomMm });
    return { plus, most: highestOver(site.recess.fields[side], site.staying[side], rect, plus) };
  });
  const { most, plus } = pieces.reduce((a, b) => (b.most.value > a.most.value ? b : a));
  const bound = Math.max(...pieces.map((p) => p.most.bound));
  return { most: { ...most, bound }, at: placeAt(side, most, bareOf(most, plus)) };
}

/** Gives the least that is clear over a carcass, along z, over its top and the way in. */
export function shapedTop(site: Site, carcass: PlacedCarcass): Clearance {
  const over = overheadSides(site).flatMap((on) =>
    topOf(carcass).map((p) => clearOver(site, { on, carcass, piece: p })),
  );
  return over.reduce((a, b) => (b.mm < a.mm ? b : a));
}

/** Gives the least that is clear between one stretch of a carcass's top and one side, along z. */
export function clearOver(
  site: Site,
  of: { readonly on: Side; readonly carcass: PlacedCarcass; readonly piece: TopPiece },
): Clearance {
  const { on, carcass } = of;
  const piece = placed(of.piece, carcass.leftMm);
  const plus = heightAlong(piece, carcass.bottomMm);
  const most = highestOver(site.recess.fields[on], site.staying[on], overPiece(site, carcass, piece), plus);
  return { mm: 0 - most.value, at: placeAt(on, most, bareOf(most, plus)), on };
}

/** Gives the least that is clear behind a carcass, along y, over its own shape. */
export function shapedBack(site: Site, carcass: PlacedCarcass): Clearance {
  const field = site.recess.fields.back;
  let most: Extreme | null = null;
  for (const piece of shifted(topOf(carcass), carcass.leftMm)) {
    const found = highestUnder(field, site.staying.back, behindPiece(carcass, piece));
    if (found && (!most || found.value > most.value)) most = found;
  }
  if (!most) throw new RangeError('carcass: its shape must have some height');
  return { mm: 0 - most.value - carcass.backMm, at: placeOf('back', most), on: 'back' };
}

/**
 * Says whether nothing above or behind meets what two places of a carcass, by its left edge, have in common.
 *
 * A shape without hollows from the side that is moved sideways covers, at all places between two, just what it covers at both.
 */
export function shapedFree(site: Site, carcass: PlacedCarcass, places: readonly [number, number]): boolean {
  const top = topOf(carcass);
  const common = lowerOf(shifted(top, places[0]), shifted(top, places[1]));
  return common.every((piece) => {
    const plus = heightAlong(piece, carcass.bottomMm);
    const rect = overPiece(site, carcass, piece);
    if (!overheadSides(site).every((on) => staysUnder(site, on, { rect, plus }))) return false;
    const behind = highestUnder(site.recess.fields.back, site.staying.back, behindPiece(carcass, piece));
    return !behind || behind.value <= 0 - carcass.backMm;
  });
}

/** How far a side of the carcass stands back at a height of the room, taken off the wall there. */
function drawnBack(
  side: 'left' | 'right',
  p: SidePiece,
  of: { widthMm: number; bottomMm: number },
): Linear | undefined {
  const back = (x: number) => (side === 'left' ? x : of.widthMm - x);
  const [from, to] = [back(p.x0), back(p.x1)];
  if (from === 0 && to === 0) return undefined;
  const perV = p.z1 > p.z0 ? (to - from) / (p.z1 - p.z0) : 0;
  return { at: 0 - from + perV * (of.bottomMm + p.z0), perU: 0, perV: 0 - perV };
}

function placed(piece: TopPiece, leftMm: number): TopPiece {
  return { ...piece, x0: piece.x0 + leftMm, x1: piece.x1 + leftMm };
}

/** The height in the room of a stretch of the top, as a function of x. */
function heightAlong(piece: TopPiece, bottomMm: number): Linear {
  const perU = (piece.z1 - piece.z0) / (piece.x1 - piece.x0);
  return { at: bottomMm + piece.z0 - perU * piece.x0, perU, perV: 0 };
}

function overPiece(site: Site, carcass: PlacedCarcass, piece: TopPiece): Rect {
  return { u0: piece.x0, u1: piece.x1, v0: site.brief.mouthMm, v1: carcass.backMm };
}

function behindPiece(carcass: PlacedCarcass, piece: TopPiece) {
  const { at, perU } = heightAlong(piece, carcass.bottomMm);
  const v1 = carcass.bottomMm + Math.max(piece.z0, piece.z1);
  return { rect: { u0: piece.x0, u1: piece.x1, v0: carcass.bottomMm, v1 }, line: { at, perU } };
}

/** Whether a surface with its staying trims and a linear function added stays at or under 0. */
function staysUnder(site: Site, side: Side, over: { rect: Rect; plus: Linear }): boolean {
  const { rect, plus } = over;
  const field = site.recess.fields[side];
  if (!staysBelow(field, rect, 0, { plus })) return false;
  return site.staying[side].every((band) =>
    piecesOf(band).every((piece) => {
      const common = intersection(piece.rect, rect);
      return !common || staysBelow(field, common, 0, { plus: sum(piece.plus, plus) });
    }),
  );
}

/** An extreme without the linear function that was added. */
function bareOf(most: Extreme, plus: Linear | undefined): number {
  return plus ? most.value - (plus.at + plus.perU * most.u + plus.perV * most.v) : most.value;
}
