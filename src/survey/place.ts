/**
 * Places: what a learner says of a place, found on the hidden room.
 */

import { roomInFrontMm } from '../exercise/outline.ts';
import { heightAt } from '../geometry/height-field.ts';
import { type Plane, type Point, signedDistance } from '../geometry/plane.ts';
import { deepestAt } from '../recess/band.ts';
import { nominalObstruction } from '../recess/defect-shapes.ts';
import { ownCoordinates, placeAt, reachOf, withinReach } from '../recess/recess.ts';
import { axesOf, beginsAtMouth, farFaceReachMm, isOpen, type Side, type Trim, trueOf } from '../recess/recess-spec.ts';
import type { BandEdge, SurfacePlace } from './act.ts';
import { toRoom } from './hand-frame.ts';
import type { RefusalCode } from './outcome.ts';
import { type Bay, bayOf, inBayFrame, trimsOf, type World } from './world.ts';

/** A place on a surface, found. */
export interface FoundPlace {
  readonly side: Side;
  readonly u: number;
  readonly v: number;
  /** The right-hand recess of a pair; u and v are in its own frame. */
  readonly bay?: 2;
  /** In the room, on whatever is there: the bare surface or the deepest band. */
  readonly point: Point;
  /** The band that is there; null on the bare surface. */
  readonly on: Trim | null;
}

export type Found<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly code: RefusalCode };

/** How to find places: the room, what is fixed to it now, and the seen lines by name. */
export interface Finder {
  readonly world: World;
  readonly trims: readonly Trim[];
  /** The plane of a datum that is thrown now; null when it is not. */
  thrown(datum: string): Plane | null;
  /** The floor runs on out into the room for a mark, as high as where its reach ends. */
  readonly floorRunsOn?: boolean;
}

/**
 * Finds a place on the room.
 *
 * @returns refused with `place/coordinates` (not two of the surface's own, or one and a line), `datum/not-thrown`,
 *   `place/line-does-not-cross`, or `place/outside` (beyond reach)
 */
export function findPlace(finder: Finder, said: SurfacePlace): Found<FoundPlace> {
  const bay = bayOf(finder.world, said.bay);
  if (!bay) return refuse('place/no-such-bay');
  if (isOpen(bay.exercise.spec, said.surface)) return refuse('place/open');
  if (said.edge !== undefined) return againstEdge(finder, said, { edge: said.edge, bay });
  const axes = axesOf(said.surface);
  const given = [said[`${axes.u}Mm`], said[`${axes.v}Mm`]] as const;
  const across = said[`${axes.across}Mm`];
  const count = given.filter((g) => g !== undefined).length;
  if (across !== undefined || count !== (said.along === undefined ? 2 : 1)) return refuse('place/coordinates');
  const at = { finder, bay, said };
  if (said.along === undefined) return onRoom(at, handPoint(at, {}));
  const plane = finder.thrown(said.along);
  if (!plane) return refuse('datum/not-thrown');
  const free = given[0] === undefined ? axes.u : axes.v;
  return onLine(at, { plane, free });
}

/**
 * Gives the place on the bare surface or the deepest band at a bay's own coordinates; beyond reach, as high as where it
 * ends.
 */
export function foundAt(
  world: World,
  trims: readonly Trim[],
  at: { side: Side; u: number; v: number; bay?: 2 | undefined },
): FoundPlace {
  const { recess, atXMm, bay, exercise } = bayOf(world, at.bay) ?? world.bays[0];
  const onSide = trims.filter(
    (t) => t.surface === at.side && (world.bays.length === 1 || exercise.spec.trims.includes(t)),
  );
  const { band, projection } = deepestAt(onSide, at);
  const reach = reachOf(recess, at.side);
  const u = Math.min(Math.max(at.u, reach.u0), reach.u1);
  const v = Math.min(Math.max(at.v, reach.v0), reach.v1);
  const obstruction = heightAt(recess.fields[at.side], u, v) + projection;
  const own = placeAt(at.side, at, obstruction);
  const found = { side: at.side, u: at.u, v: at.v, on: band };
  return bay === 1 ? { ...found, point: own } : { ...found, bay, point: { ...own, x: own.x + atXMm } };
}

/**
 * A rule held against the edge of a band on a wall: its zero is on the edge, and it stands proud of the band, so that the
 * band itself is not in its way. The two coordinates say which band, and where along the edge.
 */
function againstEdge(finder: Finder, said: SurfacePlace, of: { edge: BandEdge; bay: Bay }): Found<FoundPlace> {
  const { edge, bay } = of;
  const { along: _along, edge: _edge, ...plain } = said;
  const near = said.along === undefined ? findPlace(finder, plain) : refuse('place/coordinates');
  if (!near.ok) return near;
  const { side, u, v } = near.value;
  const isWall = side === 'left' || side === 'right';
  if (axesOf(side).across === 'z' || (isWall ? ['left', 'right'] : ['front', 'back']).includes(edge))
    return refuse('place/coordinates');
  const off = (at: number, [from, to]: readonly [number, number]) => Math.max(from - at, at - to, 0);
  const trims = trimsOf(bay, finder.trims);
  const band = trims.find((t) => t.surface === side && off(u, t.uMm) <= edgeMm && off(v, t.vMm) <= edgeMm);
  if (!band) return refuse('place/no-edge');
  const clamped = (at: number, [from, to]: readonly [number, number]) => Math.min(Math.max(at, from), to);
  const at = { side, bay: said.bay, u: clamped(u, band.uMm), v: clamped(v, band.vMm) };
  if (edge === 'left' || edge === 'front') at.u = band.uMm[0];
  else if (edge === 'right' || edge === 'back') at.u = band.uMm[1];
  else at.v = band.vMm[edge === 'bottom' ? 0 : 1];
  const found = foundAt(finder.world, [band], at);
  const own = ownCoordinates(side, inBayFrame(bay, found.point));
  const proud = placeAt(side, at, own.obstruction + proudMm);
  return { ok: true, value: { ...found, point: { ...proud, x: proud.x + bay.atXMm } } };
}

/** How far off a band a place may be said to be when an edge of it is meant, and how proud a rule is held there, mm. */
const edgeMm = 20;
const proudMm = 12;

/** A place that is being looked for. */
interface Sought {
  readonly finder: Finder;
  readonly bay: Bay;
  readonly said: SurfacePlace;
}

/** The hand's place on the bay's straight surface; missing coordinates from `rest`, else 0. */
function handPoint({ bay, said }: Sought, rest: Partial<Point>): Point {
  const p = { x: said.xMm ?? rest.x ?? 0, y: said.yMm ?? rest.y ?? 0, z: said.zMm ?? rest.z ?? 0 };
  const across = trueOf(said.surface, nominalObstruction(bay.exercise.spec, said.surface, p.x));
  return { ...p, [axesOf(said.surface).across]: across };
}

function onRoom({ finder, bay, said }: Sought, hand: Point): Found<FoundPlace> {
  const side = said.surface;
  // The hand's frame lies against each bay's own by the same shift and turn: places are taken from the bay's own mouth.
  const own = ownCoordinates(side, toRoom(finder.world.hand, hand));
  const { recess } = bay;
  const beyond = !withinReach(recess, side, own);
  if (beyond && !(finder.floorRunsOn && side === 'floor' && own.v < recess.extents.y[0] && own.v > -roomInFrontMm))
    return refuse('place/outside');
  // A breast's wall begins at its arris: before the mouth there is nothing to hold a rule to.
  const inMm = axesOf(side).u === 'y' ? own.u : own.v;
  if (beginsAtMouth(recess.spec, side) && inMm < recess.spec.mouthMm) return refuse('place/outside');
  if (side === 'back' && isAir(finder.world, own)) return refuse('place/open');
  return { ok: true, value: foundAt(finder.world, finder.trims, { side, u: own.u, v: own.v, bay: said.bay }) };
}

/** Whether a place at a doorway's far face lies in the opening itself, away from its jambs and head. */
function isAir(world: World, own: { u: number; v: number }): boolean {
  const { family, openingMm } = world.exercise.spec;
  if (family !== 'doorway') return false;
  return Math.abs(own.u) < openingMm.width / 2 - farFaceReachMm && own.v < openingMm.height - farFaceReachMm;
}

/** Slides along the free coordinate until the place lies on a plane: regula falsi on what is nearly a straight line. */
function onLine(sought: Sought, line: { plane: Plane; free: 'x' | 'y' | 'z' }): Found<FoundPlace> {
  const at = (t: number) => onRoom(sought, handPoint(sought, { [line.free]: t }));
  const miss = (found: FoundPlace) => signedDistance(line.plane, found.point);
  let t = 0;
  let here = at(t);
  if (!here.ok) return here;
  for (let step = 0; step < 40; step++) {
    const off = miss(here.value);
    if (Math.abs(off) < 1e-7) return here;
    const near = at(t + 1);
    if (!near.ok) return near;
    const slope = miss(near.value) - off;
    if (Math.abs(slope) < 0.5) return refuse('place/line-does-not-cross');
    t -= off / slope;
    here = at(t);
    if (!here.ok) return here;
  }
  return Math.abs(miss(here.value)) < 1e-3 ? here : refuse('place/line-does-not-cross');
}

function refuse(code: RefusalCode): { ok: false; code: RefusalCode } {
  return { ok: false, code };
}
