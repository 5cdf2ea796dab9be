/**
 * Checking the instrument on a practice wall: the three routines, gone through with the level's own planes, pencil marks
 * and the hand's slips. What is seen are the marks as read along the wall; what the error is, the learner works out.
 *
 * Frame of the practice room: x along the wall or to the right, y ahead, z up, mm; its walls are true.
 *
 * @source two walls, doorway and floor cross: common practice, no source; turned round, an instrument shows twice its error
 */
import { bell, bellToUnitDeviation, purpose } from '../chance/keyed-draws.ts';
import { levelLimits } from '../exercise/kit.ts';
import { type Plane, type Point, signedDistance } from '../geometry/plane.ts';
import type { ActOf } from './act.ts';
import { aimLevel, type Pose, planeOf } from './level.ts';
import type { CheckName, LevelBody } from './level-body.ts';
import { type Outcome, refused } from './outcome.ts';
import { tenth } from './rule.ts';
import { bodyInUse } from './set-up-acts.ts';
import type { Survey } from './survey.ts';

const whyPractice = purpose('survey/practice');
const slipDeviationMm = 0.2;

/** How far apart the two walls are, how high the lintel is over the floor marks, how far the mark is from the cross. */
export const practiceMm = { walls: 5000, height: 2000, arm: 5000 } as const;
const besideWallMm = 500;
const lineMm = 1200;

/** Which ways each check can be made, the usual one first. */
export const checkWays = { level: ['fore', 'side'], plumb: ['S', 'F'], square: [] } as const;
export type CheckWay = 'fore' | 'side' | 'F' | 'S';

/** Gives what a check shows, or keeps its verdict; a level that is not to be used is swapped where another is at hand. */
export function checkOutcome(survey: Survey, act: ActOf<'check'>): Outcome {
  const { kit } = survey.world.exercise;
  const level = act.level ?? 1;
  if (!levelLimits(kit) || level > kit.level.count) return refused('kit/none');
  const ways: readonly CheckWay[] = checkWays[act.check];
  if (act.of !== undefined && !ways.includes(act.of)) return refused('check/which-way');
  if (act.allow && (act.verdict !== 'use' || act.errorMmPerM === undefined)) return refused('check/no-estimate');
  if (act.verdict !== undefined) {
    const swap = act.verdict === 'do-not-use' && kit.level.spare && !survey.swapped.includes(level);
    return swap ? { ok: true, swapped: true } : { ok: true };
  }
  const slip = (i: number) =>
    kit.rule.errors
      ? bell(survey.world.key, whyPractice, 16 * survey.entries.length + i) * bellToUnitDeviation * slipDeviationMm
      : 0;
  const seen = practised(bodyInUse(survey, level), { check: act.check, way: act.of ?? ways[0] ?? null, slip });
  return { ok: true, practiceMm: kit.rule.errors ? seen.map(tenth) : seen };
}

/**
 * Gives the error that a routine shows: half of what turning round makes of it.
 *
 * @param seen - marks as read: level, wall A, wall B, B again, A again; plumb, the lintel from one side and the other;
 *   square, the mark, the mark square to it, the first mark again
 * @returns mm a metre, with the sign that a level's faults have
 */
export function errorShown(check: CheckName, seen: readonly number[]): number {
  const at = (i: number) => seen[i] ?? 0;
  if (check === 'level') return (1000 * (at(3) - at(0))) / (2 * practiceMm.walls);
  if (check === 'plumb') return (1000 * (at(0) - at(1))) / (2 * practiceMm.height);
  return (1000 * (at(2) - at(0))) / (2 * practiceMm.arm);
}

/** Goes through a routine with a level: the marks as they are read. */
export function practised(
  body: LevelBody,
  of: { check: CheckName; way: CheckWay | null; slip: (i: number) => number },
): readonly number[] {
  if (of.check === 'level') return betweenWalls(body, of.way === 'side', of.slip);
  return of.check === 'plumb' ? overDoorway(body, of.way === 'F' ? 'F' : 'S', of.slip) : onFloorCross(body, of.slip);
}

/** Beside wall A both walls are marked; beside wall B, turned round, the line is put on B's mark and A marked again. */
function betweenWalls(body: LevelBody, sideways: boolean, slip: (i: number) => number): readonly number[] {
  const { walls } = practiceMm;
  // The wall ahead lies in front of the level, or to its right.
  const towards = (way: 1 | -1) => (sideways ? { x: 0 - way, y: 0 } : { x: 0, y: way });
  const high = (pose: Pose, y: number) => heightOn(planeOf(pose, 'L'), y);
  const first: Pose = { body, at: { x: 0, y: besideWallMm, z: lineMm }, facing: towards(1) };
  const a = high(first, 0) + slip(0);
  const b = high(first, walls) + slip(1);
  const second: Pose = { body, at: { x: 0, y: walls - besideWallMm, z: lineMm }, facing: towards(-1) };
  const raise = b + slip(2) - high(second, walls);
  const raised: Pose = { ...second, at: { ...second.at, z: second.at.z + raise } };
  return [a, b, high(raised, walls), high(raised, 0) + slip(3)];
}

/** A plane through two floor marks, before and behind a doorway, marked on its lintel; then the same from behind. */
function overDoorway(body: LevelBody, kind: 'F' | 'S', slip: (i: number) => number): readonly number[] {
  const near = { x: 0, y: -1500, z: 0 };
  const far = { x: 0, y: 1500, z: 0 };
  const from = (here: Point, there: Point, i: number) => {
    const ahead = there.y > here.y ? 1 : -1;
    const facing = kind === 'S' ? { x: 0, y: ahead } : { x: ahead, y: 0 };
    const start: Pose = { body, at: { ...here, z: lineMm }, facing };
    const plane = planeOf(linedUp(start, kind, { here, there }), kind);
    return acrossOn(plane, { y: 0, z: practiceMm.height }) + slip(i);
  };
  return [from(near, far, 0), from(far, near, 1)];
}

/** Over a cross, F on a mark: S marks the square; then F on that, and S must fall on the first mark again. */
function onFloorCross(body: LevelBody, slip: (i: number) => number): readonly number[] {
  const { arm } = practiceMm;
  const over = (target: Point, facing: { x: number; y: number }): Pose => {
    let pose: Pose = { body, at: { x: 0, y: 0, z: lineMm }, facing };
    for (let round = 0; round < 8; round++) {
      pose = aimLevel(pose, 'F', { at: target, missMm: 0 }) ?? pose;
      pose = { ...pose, at: { x: 0, y: 0, z: lineMm } };
    }
    return pose;
  };
  // The first mark lies to the right, along F; the square one ahead, along S.
  const a = slip(0);
  const first = over({ x: arm, y: a, z: lineMm }, { x: 0, y: 1 });
  const b = acrossOn(planeOf(first, 'S'), { y: arm, z: lineMm }) + slip(1);
  const second = over({ x: b, y: arm, z: lineMm }, { x: -1, y: 0 });
  return [a, 0 - b, alongOn(planeOf(second, 'S'), { x: arm, z: lineMm }) + slip(2)];
}

/** Moves and turns a level until a plane runs through two marks. */
function linedUp(start: Pose, kind: 'F' | 'S', marks: { here: Point; there: Point }): Pose {
  let pose = start;
  for (let round = 0; round < 12; round++) {
    pose = aimLevel(pose, kind, { at: marks.there, missMm: 0 }) ?? pose;
    const plane = planeOf(pose, kind);
    const off = signedDistance(plane, marks.here);
    pose = { ...pose, at: { ...pose.at, x: pose.at.x + plane.nx * off, y: pose.at.y + plane.ny * off } };
  }
  return pose;
}

function heightOn(plane: Plane, y: number): number {
  return (plane.c - plane.ny * y) / plane.nz;
}

function acrossOn(plane: Plane, at: { y: number; z: number }): number {
  return (plane.c - plane.ny * at.y - plane.nz * at.z) / plane.nx;
}

function alongOn(plane: Plane, at: { x: number; z: number }): number {
  return (plane.c - plane.nx * at.x - plane.nz * at.z) / plane.ny;
}
