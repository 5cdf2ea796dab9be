/**
 * Pencil lines: two marks of one line on one surface, joined along the straight-edge. Such a line is a datum where the
 * rule lies on that surface, between the two marks, whether a level stands or not.
 */
import type { Plane, Point } from '../geometry/plane.ts';
import { signedDistance } from '../geometry/plane.ts';
import { ownCoordinates } from '../recess/recess.ts';
import type { Side } from '../recess/recess-spec.ts';
import { type DatumKind, datumParts } from './act.ts';
import { type Found, foundAt } from './place.ts';
import { finderOf, type Mark, type Survey } from './survey.ts';
import { bayOf, inBayFrame } from './world.ts';

export interface PencilLine {
  readonly kind: DatumKind;
  readonly side: Side;
  readonly bay: 2 | undefined;
  readonly from: Point;
  readonly to: Point;
  readonly plane: Plane;
}

/** Typical, from memory. */
export const pencilWidthMm = 0.5;
/** How far off the surface a rule's end may be that still lies on it, and how far past a mark the line may be read, mm. */
const liesWithinMm = 30;
const pastMarkMm = 5;
/** Marks nearer than this give no line, mm. */
const shortestMm = 50;

/** Gives a pencil line by its name, as its marks stand now. */
export function pencilLine(survey: Survey, datum: string): Found<PencilLine> {
  const { kind, drawn } = datumParts(datum);
  const mark = (number: number | undefined) => survey.marks.find((m) => m.mark === number);
  const [a, b] = [mark(drawn?.[0]), mark(drawn?.[1])];
  if (!drawn || !a || !b) return { ok: false, code: 'place/no-such-mark' };
  if (a.side !== b.side || a.bay !== b.bay || kindOf(a) !== kind || kindOf(b) !== kind)
    return { ok: false, code: 'line/not-drawn' };
  const plane = planeThrough(kind, a.point, b.point);
  if (!plane) return { ok: false, code: 'line/not-drawn' };
  return { ok: true, value: { kind, side: a.side, bay: a.bay, from: a.point, to: b.point, plane } };
}

/** Says whether a rule from a place to the line lies on the line's surface and meets it between its marks. */
export function liesOn(survey: Survey, line: PencilLine, rule: { from: Point; crossing: Point }): boolean {
  const along = { x: line.to.x - line.from.x, y: line.to.y - line.from.y, z: line.to.z - line.from.z };
  const length = Math.sqrt(along.x * along.x + along.y * along.y + along.z * along.z);
  const { from, crossing } = rule;
  const at =
    ((crossing.x - line.from.x) * along.x +
      (crossing.y - line.from.y) * along.y +
      (crossing.z - line.from.z) * along.z) /
    length;
  if (at < -pastMarkMm || at > length + pastMarkMm) return false;
  return [from, crossing].every((p) => offSurface(survey, line, p) <= liesWithinMm);
}

/**
 * Gives an upright plane through two marks, facing as F or S does; for L one that holds the marks and is level across
 * them. Null where they are too near to each other.
 */
export function planeThrough(kind: DatumKind, a: Point, b: Point): Plane | null {
  const d = { x: b.x - a.x, y: b.y - a.y, z: b.z - a.z };
  const flat = Math.sqrt(d.x * d.x + d.y * d.y);
  // Marks above one another tell where a plane is, not which way it runs: it runs as it was meant to.
  if (kind !== 'L' && flat < shortestMm && Math.abs(d.z) >= shortestMm)
    return through(a, kind === 'F' ? { x: 0, y: 1, z: 0 - d.y / d.z } : { x: 1, y: 0, z: 0 - d.x / d.z });
  if (flat < shortestMm) return null;
  const [x, y] = [d.x / flat, d.y / flat];
  if (kind === 'L') return through(a, { x: 0 - (d.z / flat) * x, y: 0 - (d.z / flat) * y, z: 1 });
  const n = { x: 0 - y, y: x, z: 0 };
  const same = kind === 'F' ? n.y >= 0 : n.x >= 0;
  return through(a, same ? n : { x: 0 - n.x, y: 0 - n.y, z: 0 });
}

function kindOf(mark: Mark): DatumKind {
  return datumParts(mark.datum).kind;
}

function offSurface(survey: Survey, on: Pick<PencilLine, 'side' | 'bay'>, p: Point): number {
  const bay = bayOf(survey.world, on.bay) ?? survey.world.bays[0];
  const { u, v, obstruction } = ownCoordinates(on.side, inBayFrame(bay, p));
  const there = foundAt(survey.world, finderOf(survey).trims, { ...on, u, v });
  return Math.abs(ownCoordinates(on.side, inBayFrame(bay, there.point)).obstruction - obstruction);
}

function through(a: Point, n: Point): Plane {
  const length = Math.sqrt(n.x * n.x + n.y * n.y + n.z * n.z);
  const plane = { nx: n.x / length, ny: n.y / length, nz: n.z / length, c: 0 };
  return { ...plane, c: signedDistance(plane, a) };
}
