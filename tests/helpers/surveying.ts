/**
 * Surveying in tests: acts through the one door, and where things truly are by plane maths of the tests' own.
 */
import type { Exercise } from '../../src/exercise/exercise.ts';
import type { Side } from '../../src/recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import type { Done, Outcome } from '../../src/survey/outcome.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { projectionAt, surfaceAt } from './measuring.ts';
import { type ExerciseWith, exerciseIn, type RoomWith, roomSpec } from './rooms.ts';

/** Begins a survey in a room with what is asked for. */
export function surveyIn(room: RoomWith = {}, having: ExerciseWith = {}): Survey {
  return beginSurvey(openWorld(exerciseIn(roomSpec(room), having)));
}

export function surveyOf(exercise: Exercise): Survey {
  return beginSurvey(openWorld(exercise));
}

/** Acts in order; every act must be accepted. */
export function acted(survey: Survey, ...acts: readonly Act[]): Survey {
  return acts.reduce((now, act) => {
    const done = perform(now, act);
    if (!done.outcome.ok) throw new Error(`${JSON.stringify(act)} was refused: ${done.outcome.error.code}`);
    return done.survey;
  }, survey);
}

/** Acts once and gives what came of it, refused or not. */
export function outcomeOf(survey: Survey, act: Act): Outcome {
  return perform(survey, act).outcome;
}

/** Acts once; the act must be accepted. */
export function doneOf(survey: Survey, act: Act): Done {
  const outcome = outcomeOf(survey, act);
  if (!outcome.ok) throw new Error(`${JSON.stringify(act)} was refused: ${outcome.error.code}`);
  return outcome;
}

/** A level standing in the mouth, settled, facing the recess. */
export const standing: readonly Act[] = [{ act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 }, { act: 'settle' }];

export function middleOf(done: Done): number {
  return (done.edgesMm![0] + done.edgesMm![1]) / 2;
}

/** A place in the room, mm. */
export interface RoomPoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** A hand's place in the room: turned by the hidden angle, then shifted. */
export function roomOf(survey: Survey, hand: RoomPoint): RoomPoint {
  const { shift, xAxis } = survey.world.hand;
  const angle = Math.atan2(xAxis.y, xAxis.x);
  return {
    x: shift.x + hand.x * Math.cos(angle) - hand.y * Math.sin(angle),
    y: shift.y + hand.x * Math.sin(angle) + hand.y * Math.cos(angle),
    z: shift.z + hand.z,
  };
}

/** The hand's place of one in the room. */
export function handOf(survey: Survey, room: RoomPoint): RoomPoint {
  const { shift, xAxis } = survey.world.hand;
  const angle = Math.atan2(xAxis.y, xAxis.x);
  const [x, y] = [room.x - shift.x, room.y - shift.y];
  return {
    x: x * Math.cos(angle) + y * Math.sin(angle),
    y: y * Math.cos(angle) - x * Math.sin(angle),
    z: room.z - shift.z,
  };
}

/** A level stood in the hand's frame facing the recess, then turned anticlockwise by an angle. */
export interface OwnLevel {
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly turnedRad?: number;
}

/** Signed distance of a point from a thrown plane: + behind F, right of S, above L. */
export function ownDistance(survey: Survey, from: { level: OwnLevel; datum: 'F' | 'S' | 'L' }, p: RoomPoint): number {
  const { level, datum } = from;
  const at = roomOf(survey, { x: level.x, y: level.y, z: level.height });
  if (datum === 'L') return p.z - at.z;
  const { xAxis } = survey.world.hand;
  const facing = Math.PI / 2 + Math.atan2(xAxis.y, xAxis.x) + (level.turnedRad ?? 0);
  const normal = datum === 'F' ? facing : facing - Math.PI / 2;
  return (p.x - at.x) * Math.cos(normal) + (p.y - at.y) * Math.sin(normal);
}

/** The hand's coordinate across the straight outline of a side. */
export function straightAt(survey: Survey, side: Side): number {
  const { width, height, depth } = survey.world.exercise.spec.openingMm;
  const at = { left: -width / 2, right: width / 2, back: depth, floor: 0, ceiling: height };
  if (side === 'slope') throw new RangeError('a slope lies across no one coordinate');
  return at[side];
}

/** Where a place of two own coordinates truly is, on the bare surface or the deepest band that is there. */
export function ownPoint(survey: Survey, place: SurfacePlace): RoomPoint {
  const { recess, exercise } = survey.world;
  const side = place.surface;
  const across = straightAt(survey, side);
  const wall = side === 'left' || side === 'right';
  const hand = wall
    ? { x: across, y: place.yMm!, z: place.zMm! }
    : side === 'back'
      ? { x: place.xMm!, y: across, z: place.zMm! }
      : { x: place.xMm!, y: place.yMm!, z: across };
  const room = roomOf(survey, hand);
  const [u, v] = wall ? [room.y, room.z] : side === 'back' ? [room.x, room.z] : [room.x, room.y];
  const bands = exercise.spec.trims.filter((t) => t.surface === side && !survey.cleared.includes(t.name));
  const out = Math.max(0, ...bands.map((t) => projectionAt(t, u, v) ?? 0));
  const on = surfaceAt(recess, side, u, v) + (side === 'left' || side === 'floor' ? out : -out);
  if (wall) return { x: on, y: room.y, z: room.z };
  return side === 'back' ? { x: room.x, y: on, z: room.z } : { x: room.x, y: room.y, z: on };
}
