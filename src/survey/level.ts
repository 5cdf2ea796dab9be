/**
 * The level: a cross-line instrument that throws a level plane and two upright planes at 90°, all the way round.
 *
 * F is the upright plane across the way it faces, S the one along it. What is wrong with its body tilts and turns them
 * about the crossing point; a level that turns beside that point carries it round when it is turned.
 */
import type { Kit } from '../exercise/kit.ts';
import {
  type PlanDirection,
  type Plane,
  type Point,
  signedDistance,
  turned,
  turnedBySlope,
} from '../geometry/plane.ts';
import type { DatumKind } from './act.ts';
import type { Faults, LevelBody } from './level-body.ts';

/** A level as it stands, in the room's frame, mm. */
export interface Standing {
  /** Counted from 1: each time it is stood is a new set-up. */
  readonly setUp: number;
  /** Which of the kit's levels it is. */
  readonly level: number;
  readonly body: LevelBody;
  /** Where its planes cross. */
  readonly at: Point;
  /** Where it faces: horizontal, unit length. */
  readonly facing: PlanDirection;
  readonly settled: boolean;
  /** How far its stand leans beside what the floor does: a ratio. */
  readonly lean: number;
  /** Its low feet were packed: what the floor falls does not count. */
  readonly packed: boolean;
}

/** What of a level gives its planes. */
export type Pose = Pick<Standing, 'at' | 'facing' | 'body'>;

/** Gives a plane that a standing level throws: F's normal is the facing, S's points to its right, L's up. */
export function planeOf(pose: Pose, kind: DatumKind): Plane {
  const { at, facing, body } = pose;
  if (body.faults) return faultyPlane(pose, kind, body.faults);
  if (kind === 'L') return { nx: 0, ny: 0, nz: 1, c: at.z };
  const n = kind === 'F' ? facing : { x: facing.y, y: 0 - facing.x };
  return { nx: n.x, ny: n.y, nz: 0, c: n.x * at.x + n.y * at.y };
}

/** Turns a level by a slope and whole quarters, anticlockwise seen from above, about its axis. */
export function turnLevel<P extends Pose>(pose: P, by: { slope: number; quarters: number }): P {
  let facing = turnedBySlope(pose.facing, by.slope);
  for (let i = 0; i < Math.abs(by.quarters); i++) facing = turned(facing, by.quarters > 0 ? 1 : -1);
  return facingTo(pose, facing);
}

/**
 * Turns a level until one of its upright planes runs through a target, the short way round.
 *
 * @param missMm - how far beside the target the hand leaves it, + to the left as seen from the level
 * @returns null when the target stands within 50 mm of the level's axis
 */
export function aimLevel<P extends Pose>(pose: P, plane: 'F' | 'S', shot: { at: Point; missMm: number }): P | null {
  const dx = shot.at.x - pose.at.x;
  const dy = shot.at.y - pose.at.y;
  const far = Math.sqrt(dx * dx + dy * dy);
  if (far < 50) return null;
  const along = turnedBySlope({ x: dx / far, y: dy / far }, shot.missMm / far);
  const facing = plane === 'S' ? along : { x: 0 - along.y, y: along.x };
  const same = facing.x * pose.facing.x + facing.y * pose.facing.y >= 0;
  const aimed = facingTo(pose, same ? facing : { x: 0 - facing.x, y: 0 - facing.y });
  return pose.body.faults || pose.body.pivotMm > 0 ? closedIn(aimed, plane, { ...shot, along }) : aimed;
}

/** Gives the axis that a level turns about: half-way between behind its crossing point and to the left of it. */
export function axisOf({ at, facing, body }: Pose): { readonly x: number; readonly y: number } {
  const share = body.pivotMm * Math.sqrt(0.5);
  return { x: at.x - share * (facing.x + facing.y), y: at.y - share * (facing.y - facing.x) };
}

/** Gives the width of a thrown line at a distance from the level, mm. */
export function lineWidth(kit: Kit, farMm: number): number {
  return kit.level.lineWidthMm + (kit.level.lineGrowthMmPerM * farMm) / 1000;
}

/** Turns a level to a facing about its axis: a crossing point beside the axis is carried round. */
function facingTo<P extends Pose>(pose: P, facing: PlanDirection): P {
  if (pose.body.pivotMm === 0) return { ...pose, facing };
  const axis = axisOf(pose);
  const share = pose.body.pivotMm * Math.sqrt(0.5);
  const at = { x: axis.x + share * (facing.x + facing.y), y: axis.y + share * (facing.y - facing.x), z: pose.at.z };
  return { ...pose, at, facing };
}

/** Turns a level on until the plane as it is thrown, faults and all, passes the target as it was meant to. */
function closedIn<P extends Pose>(
  start: P,
  kind: 'F' | 'S',
  shot: { at: Point; missMm: number; along: PlanDirection },
): P {
  let pose = start;
  for (let round = 0; round < 12; round++) {
    const plane = planeOf(pose, kind);
    const dx = shot.at.x - pose.at.x;
    const dy = shot.at.y - pose.at.y;
    // Left of the way to the target is + for the miss; the plane's normal points one way or the other.
    const leftward = 0 - plane.nx * shot.along.y + plane.ny * shot.along.x;
    const off = signedDistance(plane, shot.at) * (leftward < 0 ? -1 : 1);
    const far = Math.sqrt(dx * dx + dy * dy);
    const miss = off + shot.missMm;
    if (Math.abs(miss) < 1e-9) break;
    pose = turnLevel(pose, { slope: miss / far, quarters: 0 });
  }
  return pose;
}

/** A plane through the crossing point, tilted and turned by what is wrong with the body. */
function faultyPlane({ at, facing }: Pose, kind: DatumKind, faults: Faults): Plane {
  const right = { x: facing.y, y: 0 - facing.x };
  if (kind === 'L') {
    const up = (axis: 'x' | 'y') => 0 - (faults.levelFore * facing[axis] + faults.levelSide * right[axis]);
    return planeThrough(at, { x: up('x'), y: up('y'), z: 1 });
  }
  if (kind === 'F') return planeThrough(at, { ...facing, z: 0 - faults.plumbF });
  const along = turnedBySlope(facing, faults.square);
  return planeThrough(at, { x: along.y, y: 0 - along.x, z: 0 - faults.plumbS });
}

function planeThrough(at: Point, n: Point): Plane {
  const length = Math.sqrt(n.x * n.x + n.y * n.y + n.z * n.z);
  const [nx, ny, nz] = [n.x / length, n.y / length, n.z / length];
  return { nx, ny, nz, c: nx * at.x + ny * at.y + nz * at.z };
}
