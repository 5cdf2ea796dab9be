/**
 * What stands in the way of a straight line in the room: a line of sight, or a rule that needs its length free.
 */

import type { HeightField, Rect } from '../geometry/height-field.ts';
import { highestOverSegment } from '../geometry/hit.ts';
import type { Point } from '../geometry/plane.ts';
import { piecesOf } from '../recess/band.ts';
import { ownCoordinates, type Recess, reachOf } from '../recess/recess.ts';
import { axesOf, beginsAtMouth, isOpen, type Side, sides, type Trim } from '../recess/recess-spec.ts';
import { inBayFrame, trimsOf, type World } from './world.ts';

/** A line that touches a surface by less than this is not blocked by it, mm. */
const grazeMm = 0.01;

interface OwnPoint {
  readonly u: number;
  readonly v: number;
  readonly w: number;
}

/**
 * Finds what blocks the straight way from a to b.
 *
 * A doorway's far face blocks nothing: its middle is air, and a rule lies on its edges. Surfaces count within their reach; a breast's wall, jambs and the like begin at the mouth. Beyond reach the room is open.
 *
 * @param trims - those in the way
 * @returns the name of a trim or of a side (`left`, `floor`, ...); `null` when the way is free
 */
export function blockedBy(recess: Recess, trims: readonly Trim[], way: { from: Point; to: Point }): string | null {
  for (const side of sides) {
    if (isOpen(recess.spec, side) || (side === 'back' && recess.spec.family === 'doorway')) continue;
    const from = ownPoint(side, way.from);
    const to = ownPoint(side, way.to);
    const field = recess.fields[side];
    const reach = wallStretch(recess, side);
    if (risesOver(field, { rect: reach, from, to, at: 0, perU: 0, perV: 0 })) return side;
    for (const trim of trims) {
      if (trim.surface !== side) continue;
      for (const { rect, plus } of piecesOf(trim)) if (risesOver(field, { rect, from, to, ...plus })) return trim.name;
    }
  }
  return null;
}

/**
 * Finds what blocks the straight way from a to b in a world.
 *
 * Each bay of a pair counts on its own side of the middle of the breast between them.
 */
export function blockedIn(world: World, trims: readonly Trim[], way: { from: Point; to: Point }): string | null {
  const [first, second] = world.bays;
  if (!second) return blockedBy(first.recess, trims, way);
  const right = second.exercise.spec.openingMm.width / 2;
  const middle = (first.exercise.spec.openingMm.width / 2 + second.atXMm - right) / 2;
  for (const bay of [first, second]) {
    const part = bay.bay === 1 ? partWhere(way, middle, -1) : partWhere(way, middle, 1);
    if (!part) continue;
    const own = { from: inBayFrame(bay, part.from), to: inBayFrame(bay, part.to) };
    const by = blockedBy(bay.recess, trimsOf(bay, trims), own);
    if (by) return by;
  }
  return null;
}

/** The part of a way left (-1) or right (1) of an x, that x too; null when there is none. */
function partWhere(way: { from: Point; to: Point }, x: number, side: 1 | -1): { from: Point; to: Point } | null {
  const { from, to } = way;
  const inside = (p: Point) => side * (p.x - x) >= 0;
  if (inside(from) && inside(to)) return way;
  if (!inside(from) && !inside(to)) return null;
  const t = (x - from.x) / (to.x - from.x);
  const cut = { x, y: from.y + t * (to.y - from.y), z: from.z + t * (to.z - from.z) };
  return inside(from) ? { from, to: cut } : { from: cut, to };
}

/** Moves a point a little along a direction of unit length, so that a line that starts on a wall is not held by it. */
export function stepped(p: Point, direction: Point, mm: number): Point {
  return { x: p.x + direction.x * mm, y: p.y + direction.y * mm, z: p.z + direction.z * mm };
}

/** Gives the unit direction from a to b; along x when they are one point. */
export function directionBetween(a: Point, b: Point): Point {
  const d = { x: b.x - a.x, y: b.y - a.y, z: b.z - a.z };
  const far = Math.sqrt(d.x * d.x + d.y * d.y + d.z * d.z);
  return far === 0 ? { x: 1, y: 0, z: 0 } : { x: d.x / far, y: d.y / far, z: d.z / far };
}

function ownPoint(side: Side, p: Point): OwnPoint {
  const { u, v, obstruction } = ownCoordinates(side, p);
  return { u, v, w: obstruction };
}

function wallStretch(recess: Recess, side: Side): Rect {
  const reach = reachOf(recess, side);
  if (!beginsAtMouth(recess.spec, side)) return reach;
  return axesOf(side).u === 'y' ? { ...reach, u0: recess.spec.mouthMm } : { ...reach, v0: recess.spec.mouthMm };
}

/** Says whether field + plane rises over the part of a segment that lies within a rectangle. */
function risesOver(
  field: HeightField,
  over: { rect: Rect; from: OwnPoint; to: OwnPoint; at: number; perU: number; perV: number },
): boolean {
  const part = clip(over.from, over.to, over.rect);
  if (!part) return false;
  const lowered = (p: OwnPoint): OwnPoint => ({ ...p, w: p.w - (over.at + over.perU * p.u + over.perV * p.v) });
  return highestOverSegment(field, lowered(part[0]), lowered(part[1])).value > grazeMm;
}

/** The part of a segment within a closed rectangle of (u, v). */
function clip(from: OwnPoint, to: OwnPoint, rect: Rect): readonly [OwnPoint, OwnPoint] | null {
  let t0 = 0;
  let t1 = 1;
  for (const [start, run, low, high] of [
    [from.u, to.u - from.u, rect.u0, rect.u1],
    [from.v, to.v - from.v, rect.v0, rect.v1],
  ] as const) {
    if (run === 0) {
      if (start < low || start > high) return null;
      continue;
    }
    const a = (low - start) / run;
    const b = (high - start) / run;
    t0 = Math.max(t0, Math.min(a, b));
    t1 = Math.min(t1, Math.max(a, b));
  }
  if (t0 > t1) return null;
  const at = (t: number): OwnPoint => ({
    u: clamp(from.u + t * (to.u - from.u), rect.u0, rect.u1),
    v: clamp(from.v + t * (to.v - from.v), rect.v0, rect.v1),
    w: from.w + t * (to.w - from.w),
  });
  return [at(t0), at(t1)];
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
