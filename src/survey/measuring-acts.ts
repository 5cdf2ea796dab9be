/**
 * Measuring: the rule held from a wall point to a thrown line, the tape from wall to wall, the diagonal.
 */

import { bell, bellToUnitDeviation, purpose, uniform } from '../chance/keyed-draws.ts';
import { unitsOf } from '../exercise/kit.ts';
import { hitField } from '../geometry/hit.ts';
import { type Plane, type Point, signedDistance } from '../geometry/plane.ts';
import { readTo, type Units } from '../recess/lengths.ts';
import { ownCoordinates, withinReach } from '../recess/recess.ts';
import { type Side, sides, type Trim } from '../recess/recess-spec.ts';
import { type ActOf, datumParts, type PlaceSaid } from './act.ts';
import { directionToRoom } from './hand-frame.ts';
import { lineWidth, type Standing } from './level.ts';
import { type Outcome, refused } from './outcome.ts';
import { liesOn, type PencilLine, pencilLine, pencilWidthMm } from './pencil-line.ts';
import { type Found, type FoundPlace, findPlace, foundAt } from './place.ts';
import { alongRule, drawTilt, onRule, seenEdges, tenth, unfolded } from './rule.ts';
import { sightTo } from './set-up-acts.ts';
import { blockedIn, directionBetween, stepped } from './sight.ts';
import { finderOf, type Survey, throwing, thrownPlane } from './survey.ts';
import { bayOf, inBayFrame } from './world.ts';

const whyTape = purpose('survey/tape');
const tapeDeviationMm = 0.5;
/** The most that a tape bent into a corner reads short, mm; typical, from memory. */
const tapeBendMm = 2.5;

/** Holds the rule from a place to a thrown or a pencil line, and looks. */
export function readOutcome(survey: Survey, act: ActOf<'read'>): Outcome {
  const line = lineToRead(survey, act.datum);
  if (!line.ok) return refused(line.code);
  const { plane, standing, drawn } = line.value;
  const from = heldAt(survey, act.place);
  if (!from.ok) return refused(from.code);
  const hold = holdOf(survey, act, { from: from.value, plane });
  if (!hold) return refused('rule/wrong-way');
  const { exercise, rule, key } = survey.world;
  if (hold.along > exercise.kit.rule.lengthMm) return refused('rule/too-short');
  const trims = finderOf(survey).trims;
  const end = stepped(from.value.point, hold.direction, unfolded(exercise.kit.rule, hold.along));
  const way = { from: stepped(from.value.point, hold.direction, 1), to: end };
  const held = drawn ? null : blockedIn(survey.world, trims, way);
  if (held) return refused('rule/blocked', held);
  const crossing = stepped(from.value.point, hold.direction, hold.along);
  if (drawn && !liesOn(survey, drawn, { from: from.value.point, crossing })) return refused('line/not-there');
  const unseen = standing && sightTo(survey, standing.at, crossing);
  if (unseen) return refused('sight/blocked', unseen);
  const middleMm = onRule(rule, exercise.kit.rule, { alongMm: hold.along, end: act.end });
  const widthMm = standing ? lineWidth(exercise.kit, distance(standing.at, crossing)) : pencilWidthMm;
  const edgesMm = seenEdges(key, exercise.kit.rule, { middleMm, widthMm, index: hold.index });
  const seen = { ok: true as const, edgesMm, on: from.value.on?.name ?? from.value.side ?? 'mark' };
  return exercise.aids.readsRule ? { ...seen, readOutMm: readOut(edgesMm, unitsOf(exercise.kit)) } : seen;
}

/** Gives the middle of two edges to half a graduation, as the aids read it out. */
export function readOut(edgesMm: readonly [number, number], units: Units = 'mm'): number {
  return readTo(units, (edgesMm[0] + edgesMm[1]) / 2);
}

/** Holds the tape from a wall to the one opposite. */
export function spanOutcome(survey: Survey, act: ActOf<'span'>): Outcome {
  const from = surfaceOnly(survey, act.place);
  if (!from.ok) return refused(from.code);
  const trims = finderOf(survey).trims;
  const to = acrossFrom(survey, from.value, act.to)?.point;
  if (!to) return refused('tape/no-end');
  const way = directionBetween(from.value.point, to);
  const back = { x: 0 - way.x, y: 0 - way.y, z: 0 - way.z };
  const by = blockedIn(survey.world, trims, {
    from: stepped(from.value.point, way, 1),
    to: stepped(to, back, 1),
  });
  if (by) return refused('tape/blocked', by);
  const bend = uniform(survey.world.key, whyTape, 3 * survey.entries.length) * tapeBendMm;
  return { ok: true, tapeMm: taped(survey, distance(from.value.point, to), 0 - bend) };
}

/**
 * Gives where a tape held level or plumb from a place comes to a side; null when it does not.
 *
 * The way is the hand's: square across the outline.
 */
export function acrossFrom(survey: Survey, from: FoundPlace, to: Side): FoundPlace | null {
  if (opposite[from.side] !== to) return null;
  const bay = bayOf(survey.world, from.bay) ?? survey.world.bays[0];
  const { recess } = bay;
  const level = directionToRoom(survey.world.hand, { x: to === 'right' ? 1 : -1, y: 0 });
  const way = to === 'ceiling' || to === 'floor' ? { x: 0, y: 0, z: to === 'ceiling' ? 1 : -1 } : { ...level, z: 0 };
  const start = inBayFrame(bay, from.point);
  const own = ownCoordinates(to, start);
  const there = ownCoordinates(to, stepped(start, way, 1));
  if (!withinReach(recess, to, own)) return null;
  const ray = {
    u: own.u,
    v: own.v,
    w: own.obstruction,
    du: there.u - own.u,
    dv: there.v - own.v,
    dw: there.obstruction - own.obstruction,
  };
  const hit = hitField(recess.fields[to], unit(ray));
  if (!hit) return null;
  const at = { u: own.u + ray.du * hit.t, v: own.v + ray.dv * hit.t };
  if (!withinReach(recess, to, at)) return null;
  return foundAt(survey.world, finderOf(survey).trims, { side: to, ...at, bay: from.bay });
}

/** Holds the tape from corner to corner. */
export function diagonalOutcome(survey: Survey, act: ActOf<'diagonal'>): Outcome {
  const from = heldAt(survey, act.from);
  if (!from.ok) return refused(from.code);
  const to = heldAt(survey, act.to);
  if (!to.ok) return refused(to.code);
  const way = directionBetween(from.value.point, to.value.point);
  const back = { x: 0 - way.x, y: 0 - way.y, z: 0 - way.z };
  const by = blockedIn(survey.world, finderOf(survey).trims, {
    from: stepped(from.value.point, way, 2),
    to: stepped(to.value.point, back, 2),
  });
  if (by) return refused('tape/blocked', by);
  return { ok: true, tapeMm: taped(survey, distance(from.value.point, to.value.point), 0) };
}

const opposite: Readonly<Record<Side, Side | null>> = {
  left: 'right',
  right: 'left',
  floor: 'ceiling',
  ceiling: 'floor',
  back: null,
  slope: null,
};

interface Held {
  readonly point: Point;
  readonly on: Trim | null;
  readonly side: Side | null;
  readonly place: FoundPlace | null;
}

/** What the rule's zero or the tape's end is put on: a place on a surface or a mark. */
function heldAt(survey: Survey, said: PlaceSaid): Found<Held> {
  if ('mark' in said) {
    const mark = survey.marks.find((m) => m.mark === said.mark);
    return mark
      ? { ok: true, value: { point: mark.point, on: null, side: null, place: null } }
      : { ok: false, code: 'place/no-such-mark' };
  }
  const found = findPlace(finderOf(survey), said);
  if (!found.ok) return found;
  const { point, on, side } = found.value;
  return { ok: true, value: { point, on, side, place: found.value } };
}

function surfaceOnly(survey: Survey, said: PlaceSaid): Found<FoundPlace> {
  return 'surface' in said ? findPlace(finderOf(survey), said) : { ok: false, code: 'place/needs-surface' };
}

interface LineToRead {
  readonly plane: Plane;
  /** The level that throws it; null for a pencil line. */
  readonly standing: Standing | null;
  readonly drawn: PencilLine | null;
}

function lineToRead(survey: Survey, datum: string): Found<LineToRead> {
  if (datumParts(datum).drawn) {
    const drawn = pencilLine(survey, datum);
    return drawn.ok ? { ok: true, value: { plane: drawn.value.plane, standing: null, drawn: drawn.value } } : drawn;
  }
  const standing = throwing(survey, datum) ?? survey.standing;
  if (!standing) return { ok: false, code: 'level/none' };
  if (!standing.settled) return { ok: false, code: 'level/not-settled' };
  const plane = thrownPlane(survey, datum);
  return plane ? { ok: true, value: { plane, standing, drawn: null } } : { ok: false, code: 'datum/not-thrown' };
}

interface Hold {
  readonly direction: Point;
  /** From the rule's zero to the line, along the rule. */
  readonly along: number;
  readonly index: number;
}

/** How the rule lies: square to the datum, less the hand's tilt and the skew that was said. */
function holdOf(survey: Survey, act: ActOf<'read'>, of: { from: Held; plane: Plane }): Hold | null {
  const { plane } = of;
  const off = signedDistance(plane, of.from.point);
  const sign = off < 0 ? 1 : -1;
  const index = drawIndex(survey, act, of.from);
  const tilt = drawTilt(survey.world.key, survey.world.exercise.kit.rule, index);
  const skew = act.skewMmPerM ?? [0, 0];
  const slopes = [tilt[0] + skew[0] / 1000, tilt[1] + skew[1] / 1000] as const;
  const [e, f] = inPlane(plane);
  const scale = 1 / Math.sqrt(1 + slopes[0] * slopes[0] + slopes[1] * slopes[1]);
  const part = (n: number, a: number, b: number) => (sign * n + slopes[0] * a + slopes[1] * b) * scale;
  const direction = { x: part(plane.nx, e.x, f.x), y: part(plane.ny, e.y, f.y), z: part(plane.nz, e.z, f.z) };
  const facing = of.from.place ? intoFreeSpace(of.from.place, direction) : true;
  return facing ? { direction, along: alongRule(Math.abs(off), slopes), index } : null;
}

/** A rule leaves the wall that its zero is on: it cannot run into it. */
function intoFreeSpace(place: FoundPlace, direction: Point): boolean {
  const before = ownCoordinates(place.side, place.point).obstruction;
  return ownCoordinates(place.side, stepped(place.point, direction, 1)).obstruction - before > -0.5;
}

/** Two level-or-plumb directions of unit length in a plane. */
function inPlane(plane: Plane): readonly [Point, Point] {
  if (Math.abs(plane.nz) > 0.5)
    return [
      { x: 1, y: 0, z: 0 },
      { x: 0, y: 1, z: 0 },
    ];
  if (plane.nz === 0)
    return [
      { x: 0 - plane.ny, y: plane.nx, z: 0 },
      { x: 0, y: 0, z: 1 },
    ];
  const flat = Math.sqrt(plane.nx * plane.nx + plane.ny * plane.ny);
  const [x, y] = [plane.nx / flat, plane.ny / flat];
  return [
    { x: 0 - y, y: x, z: 0 },
    { x: 0 - plane.nz * x, y: 0 - plane.nz * y, z: flat },
  ];
}

/** A draw's index: the place to the millimetre and the datum's kind, and how often it was read before. */
function drawIndex(survey: Survey, act: ActOf<'read'>, from: Held): number {
  const key = placeKey(act.datum, from);
  const before = survey.readings.filter(
    (r) => placeKey(r.datum, { point: r.point, side: r.side, on: null, place: r.place }) === key,
  ).length;
  return (Math.imul(key, 1024) + before) | 0;
}

/** A mark's own number among sides is 5, as it was when there were five: no draw of an old log may move. */
const markSide = 5;
const sideNumbers: readonly (Side | null)[] = [...sides.slice(0, markSide), null, ...sides.slice(markSide)];

function placeKey(datum: string, from: Held): number {
  const side = from.side === null ? markSide : sideNumbers.indexOf(from.side);
  const kind = 'FSL'.indexOf(datumParts(datum).kind);
  let hash = side * 3 + kind;
  for (const part of [from.point.x, from.point.y, from.point.z])
    hash = Math.imul(hash ^ Math.round(part), 0x01000193) ^ (hash >>> 15);
  return hash | 0;
}

function taped(survey: Survey, lengthMm: number, bendMm: number): number {
  if (!survey.world.exercise.kit.rule.errors) return lengthMm;
  const noise = bell(survey.world.key, whyTape, 3 * survey.entries.length + 1) * bellToUnitDeviation * tapeDeviationMm;
  return tenth(lengthMm + bendMm + noise);
}

function distance(a: Point, b: Point): number {
  const x = a.x - b.x;
  const y = a.y - b.y;
  const z = a.z - b.z;
  return Math.sqrt(x * x + y * y + z * z);
}

function unit<T extends { du: number; dv: number; dw: number }>(ray: T): T {
  const length = Math.sqrt(ray.du * ray.du + ray.dv * ray.dv + ray.dw * ray.dw);
  return { ...ray, du: ray.du / length, dv: ray.dv / length, dw: ray.dw / length };
}
