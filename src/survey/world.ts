/**
 * The hidden world of a survey: the built room, where the hand's frame lies in it, and what is wrong with the
 * rule and the levels.
 *
 * Nothing of it stands in a log, an outcome or a field sheet.
 */
import type { DrawKey } from '../chance/keyed-draws.ts';
import { type BayNumber, type BayOfExercise, baysOf } from '../exercise/bays.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { buildRecess, type Recess } from '../recess/recess.ts';
import type { Trim } from '../recess/recess-spec.ts';
import { drawHandFrame, type HandFrame } from './hand-frame.ts';
import { drawKnock, type Knock } from './knock.ts';
import { drawBodies, type LevelBody } from './level-body.ts';
import { drawRuleErrors, type RuleErrors } from './rule.ts';

export interface World {
  readonly exercise: Exercise;
  readonly key: DrawKey;
  /** The first bay's. */
  readonly recess: Recess;
  readonly bays: readonly [Bay, ...Bay[]];
  readonly hand: HandFrame;
  readonly rule: RuleErrors;
  /** The levels of the kit, then the one in the van. */
  readonly bodies: readonly LevelBody[];
  readonly knock: Knock | null;
}

/** A recess of the room, built, in a frame of its own. */
export interface Bay extends BayOfExercise {
  readonly recess: Recess;
}

/**
 * Builds the world of an exercise.
 *
 * @throws {RangeError} if the exercise's spec cannot be built
 */
export function openWorld(exercise: Exercise): World {
  const key = exercise.spec.key;
  const built = (bay: BayOfExercise): Bay => ({ ...bay, recess: buildRecess(bay.exercise.spec) });
  const [one, ...others] = baysOf(exercise);
  const first = built(one);
  return {
    exercise,
    key,
    recess: first.recess,
    bays: [first, ...others.map(built)],
    hand: drawHandFrame(key),
    rule: drawRuleErrors(key, exercise.kit.rule),
    bodies: drawBodies(key, exercise.kit),
    knock: drawKnock(key, exercise.kit),
  };
}

/** Gives a bay of a world; null when it has no such bay. */
export function bayOf(world: Pick<World, 'bays'>, bay: BayNumber | undefined): Bay | null {
  return world.bays[(bay ?? 1) - 1] ?? null;
}

/** Moves a point of the room into a bay's own frame. */
export function inBayFrame<P extends { readonly x: number }>(bay: Pick<Bay, 'atXMm'>, p: P): P {
  return bay.atXMm === 0 ? p : { ...p, x: p.x - bay.atXMm };
}

/** Gives those of some trims that ride in a bay. */
export function trimsOf(bay: Bay, trims: readonly Trim[]): readonly Trim[] {
  return trims.filter((t) => bay.exercise.spec.trims.includes(t));
}

/** Gives the trims that are in the way: all but those that have been cleared. */
export function trimsPresent(world: World, cleared: readonly string[]): readonly Trim[] {
  return world.bays.flatMap((b) => b.exercise.spec.trims).filter((t) => !cleared.includes(t.name));
}

/** Gives the trims that count for the finished work: those that stay. */
export function trimsStaying(exercise: Exercise): readonly Trim[] {
  return exercise.spec.trims.filter((t) => exercise.brief.fates[t.name] === 'stays');
}

/**
 * Gives the reference line at x, mm in the room.
 *
 * @param x - room; beyond the opening the ends' waves go on straight
 */
export function referenceAt(world: Pick<World, 'exercise'>, x: number): { x: number; y: number; z: number } {
  const { reference, openingMm } = world.exercise.spec;
  const waves = reference.wavesMm;
  const [from, to] = reference.overMm ?? [-openingMm.width / 2, openingMm.width / 2];
  const along = ((x - from) / (to - from)) * (waves.length - 1);
  const i = Math.min(Math.max(Math.floor(along), 0), waves.length - 2);
  const share = Math.min(Math.max(along - i, 0), 1);
  const before = waves[i] as number;
  const waved = before + ((waves[i + 1] as number) - before) * share;
  return { x, y: waved - (world.exercise.brief.setBackMm ?? 0), z: reference.heightMm };
}
