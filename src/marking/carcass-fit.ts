/**
 * How a carcass goes in: level, plumb, square to the face line, pushed in along y from the mouth.
 *
 * It stands on the lowest plinth over the floor's high point; what is spare sideways is shared. A clearance is the least
 * over a face and its way in, along the side's own axis, and is certified to 0.001 mm.
 */
import type { CarcassSizes } from '../exercise/brief.ts';
import { isShaped } from '../exercise/carcass-shape.ts';
import { type Extreme, type Rect, staysBelow } from '../geometry/range.ts';
import { intersection, piecesOf } from '../recess/band.ts';
import { openMm } from '../recess/defect-shapes.ts';
import type { Place } from '../recess/recess.ts';
import { isOpen, type Side } from '../recess/recess-spec.ts';
import { shapedBack, shapedFree, shapedTop, shapedWall } from './shaped-fit.ts';
import { floorHighPoint, highest, overheadSides, placeOf, reaches, type Site } from './site.ts';

/** The four sides that a carcass has clearance on; `top` is to the ceiling. */
export const clearSides = ['left', 'right', 'top', 'back'] as const;
export type ClearSide = (typeof clearSides)[number];

/** A carcass in its place, mm in the room. */
export interface PlacedCarcass extends CarcassSizes {
  readonly leftMm: number;
  readonly bottomMm: number;
  readonly topMm: number;
  readonly backMm: number;
}

export interface Clearance {
  readonly mm: number;
  /** Where it is least, on the surface. */
  readonly at: Place;
  /** The surface: over a carcass it is the ceiling or the slope. */
  readonly on: Side;
}

export type Clearances = Readonly<Record<ClearSide, Clearance>>;

/** What bounds a carcass of a height and depth sideways. */
export interface SideWalls {
  readonly bottomMm: number;
  readonly backMm: number;
  /** Greatest obstructions: the left wall's x, the right wall's -x; of a shaped carcass less how far its side draws back. */
  readonly left: Extreme;
  readonly right: Extreme;
  /** Where they are taken, on the walls. */
  readonly at: { readonly left: Place; readonly right: Place };
  /** From wall to wall at their tightest, mm. */
  readonly betweenMm: number;
}

/** Within this of nothing, a carcass touches, mm. */
export const touchMm = 0.01;

/**
 * Gives what bounds a height and depth sideways.
 *
 * @returns null when it leaves the recess's reach
 */
export function sideWalls(site: Site, of: CarcassSizes): SideWalls | null {
  const { carcassFrontMm, mouthMm, plinthMm } = site.brief;
  const backMm = carcassFrontMm + of.depthMm;
  if (!reaches(site, 'y', [mouthMm, backMm])) return null;
  const bottomMm = plinthMm + floorHighPoint(site, backMm).value;
  if (!reaches(site, 'z', [bottomMm, bottomMm + of.heightMm])) return null;
  return wallsAlong(site, of, { bottomMm, backMm });
}

/** Gives what bounds a carcass sideways on its way to where its back stands. */
export function wallsAlong(site: Site, of: CarcassSizes, stand: { bottomMm: number; backMm: number }): SideWalls {
  const { bottomMm, backMm } = stand;
  const rect = { u0: site.brief.mouthMm, u1: backMm, v0: bottomMm, v1: bottomMm + of.heightMm };
  const wall = (side: 'left' | 'right') => {
    if (isShaped(of)) return shapedWall(site, of, { ...stand, side });
    const most = highest(site, side, rect);
    return { most, at: placeOf(side, most) };
  };
  const left = wall('left');
  const right = wall('right');
  const betweenMm = 0 - right.most.value - left.most.value;
  return { bottomMm, backMm, left: left.most, right: right.most, at: { left: left.at, right: right.at }, betweenMm };
}

/** Puts a carcass between its side walls: what is spare, less what is asked, is shared. Null when it leaves reach. */
export function placeCarcass(site: Site, sizes: CarcassSizes, walls: SideWalls): PlacedCarcass | null {
  const leftMm = leftEdge(site, sizes.widthMm, walls);
  if (!reaches(site, 'x', [leftMm, leftMm + sizes.widthMm])) return null;
  const { bottomMm, backMm } = walls;
  return { ...sizes, leftMm, bottomMm, backMm, topMm: bottomMm + sizes.heightMm };
}

/** Between two walls what is spare is shared; beside one it stands at what is asked; with none, in the middle. */
function leftEdge(site: Site, widthMm: number, walls: SideWalls): number {
  const { askMm } = site.brief;
  const from = walls.left.value + askMm.left;
  const to = 0 - walls.right.value - askMm.right;
  if (openOn(site, 'left')) return openOn(site, 'right') ? 0 - widthMm / 2 : to - widthMm;
  if (openOn(site, 'right')) return from;
  return (walls.left.value + askMm.left - walls.right.value - askMm.right - widthMm) / 2;
}

/** Says whether nothing bounds a carcass on a side; a lining runs past what is behind it, its far edge is planed. */
export function openOn(site: Site, side: ClearSide): boolean {
  const { spec } = site.recess;
  if (side === 'back' && site.brief.lining) return true;
  return side === 'top' ? isOpen(spec, 'ceiling') && isOpen(spec, 'slope') : isOpen(spec, side);
}

/** Gives the clearance on each side, mm; < 0 where the carcass would run into the side. */
export function clearances(site: Site, carcass: PlacedCarcass, walls: SideWalls): Clearances {
  const shaped = isShaped(carcass);
  return {
    left: { mm: carcass.leftMm - walls.left.value, at: walls.at.left, on: 'left' },
    right: { mm: 0 - walls.right.value - (carcass.leftMm + carcass.widthMm), at: walls.at.right, on: 'right' },
    top: shaped ? shapedTop(site, carcass) : boxTop(site, carcass),
    back: backOf(site, carcass),
  };
}

function boxTop(site: Site, carcass: PlacedCarcass): Clearance {
  const over = overheadSides(site).map((on): Clearance => {
    const top = highest(site, on, overhead(site, carcass, carcass.leftMm));
    return { mm: 0 - top.value - carcass.topMm, at: placeOf(on, top), on };
  });
  return over.reduce((a, b) => (b.mm < a.mm ? b : a));
}

/** A lining has nothing behind it to clear. */
function backOf(site: Site, carcass: PlacedCarcass): Clearance {
  const back = isShaped(carcass) ? shapedBack(site, carcass) : boxBack(site, carcass);
  return site.brief.lining ? { ...back, mm: openMm - carcass.backMm } : back;
}

function boxBack(site: Site, carcass: PlacedCarcass): Clearance {
  const back = highest(site, 'back', behind(carcass, carcass.leftMm));
  return { mm: 0 - back.value - carcass.backMm, at: placeOf('back', back), on: 'back' };
}

/** Says whether a carcass goes in at some place from left to right with no clearance under 0. */
export function goesInBare(site: Site, carcass: PlacedCarcass, walls: SideWalls): boolean {
  return freePlace(site, carcass, walls) !== null;
}

/**
 * Finds a place from left to right where a carcass goes in with no clearance under 0: the middle, where that is free.
 *
 * Cells of x are halved: a cell is out when the part of the window that all of it covers is blocked, and in when the
 * window of its middle is free. Cells under 0.001 mm that are neither count as out.
 *
 * @returns where its left edge stands, mm; null when there is none
 */
export function freePlace(site: Site, carcass: PlacedCarcass, walls: SideWalls): number | null {
  const { from, to } = mayStand(site, carcass, walls);
  if (to < from) return null;
  const { widthMm } = carcass;
  const boxFree = (x0: number, x1: number) =>
    x0 > x1 ||
    (overheadSides(site).every((on) =>
      below(site, on, { ...overhead(site, carcass, x0), u1: x1 }, 0 - carcass.topMm),
    ) &&
      (openOn(site, 'back') || below(site, 'back', { ...behind(carcass, x0), u1: x1 }, 0 - carcass.backMm)));
  // From the rightmost left edge to the leftmost right edge: what all of a cell's places cover.
  const free = isShaped(carcass) ? (x0: number, x1: number) => shapedFree(site, carcass, [x1 - widthMm, x0]) : boxFree;
  const cells: [number, number][] = [[from, to]];
  for (let cell = cells.pop(); cell; cell = cells.pop()) {
    const [x0, x1] = cell;
    const middle = (x0 + x1) / 2;
    if (free(middle, middle + widthMm)) return middle;
    if (x1 - x0 < 0.001 || !free(x1, x0 + widthMm)) continue;
    cells.push([middle, x1], [x0, middle]);
  }
  return null;
}

/** Where a carcass's left edge may stand: between the walls; past an open side, where the brief has it or nearer in. */
function mayStand(site: Site, carcass: PlacedCarcass, walls: SideWalls): { from: number; to: number } {
  const from = openOn(site, 'left') ? carcass.leftMm : walls.left.value;
  const to = openOn(site, 'right') ? carcass.leftMm : 0 - walls.right.value - carcass.widthMm;
  return { from, to };
}

/** Says how a least spare clearance is called. */
export function fitWord(spareMm: number): 'yes' | 'touches' | 'no' {
  if (spareMm > touchMm) return 'yes';
  return spareMm >= -touchMm ? 'touches' : 'no';
}

/** Gives the least of clearance less what is asked, over the four sides, mm. */
export function leastSpare(site: Site, found: Clearances): number {
  const { askMm } = site.brief;
  return Math.min(...clearSides.map((side) => found[side].mm - askMm[side]));
}

function overhead(site: Site, carcass: PlacedCarcass, x: number): Rect {
  return { u0: x, u1: x + carcass.widthMm, v0: site.brief.mouthMm, v1: carcass.backMm };
}

function behind(carcass: PlacedCarcass, x: number): Rect {
  return { u0: x, u1: x + carcass.widthMm, v0: carcass.bottomMm, v1: carcass.topMm };
}

function below(site: Site, side: Side, rect: Rect, limit: number): boolean {
  const field = site.recess.fields[side];
  if (!staysBelow(field, rect, limit)) return false;
  return site.staying[side].every((band) =>
    piecesOf(band).every(({ rect: piece, plus }) => {
      const common = intersection(piece, rect);
      return !common || staysBelow(field, common, limit, { plus });
    }),
  );
}
