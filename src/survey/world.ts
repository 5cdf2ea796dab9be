/**
 * The hidden world of a survey: the built room, where the hand's frame lies in it, and what is wrong with the rule.
 *
 * Nothing of it stands in a log, an outcome or a field sheet.
 */
import type { DrawKey } from '../chance/keyed-draws.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { buildRecess, type Recess } from '../recess/recess.ts';
import type { Trim } from '../recess/recess-spec.ts';
import { drawHandFrame, type HandFrame } from './hand-frame.ts';
import { drawRuleErrors, type RuleErrors } from './rule.ts';

export interface World {
  readonly exercise: Exercise;
  readonly key: DrawKey;
  readonly recess: Recess;
  readonly hand: HandFrame;
  readonly rule: RuleErrors;
}

/**
 * Builds the world of an exercise.
 *
 * @throws {RangeError} if the exercise's spec cannot be built
 */
export function openWorld(exercise: Exercise): World {
  const key = exercise.spec.key;
  return {
    exercise,
    key,
    recess: buildRecess(exercise.spec),
    hand: drawHandFrame(key),
    rule: drawRuleErrors(key, exercise.kit.rule),
  };
}

/** Gives the trims that are in the way: all but those that have been cleared. */
export function trimsPresent(world: World, cleared: readonly string[]): readonly Trim[] {
  return world.exercise.spec.trims.filter((t) => !cleared.includes(t.name));
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
  const along = ((x + openingMm.width / 2) / openingMm.width) * (waves.length - 1);
  const i = Math.min(Math.max(Math.floor(along), 0), waves.length - 2);
  const share = Math.min(Math.max(along - i, 0), 1);
  const before = waves[i] as number;
  const y = before + ((waves[i + 1] as number) - before) * share;
  return { x, y, z: reference.heightMm };
}
