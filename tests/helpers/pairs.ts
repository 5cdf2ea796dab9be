/**
 * Pairs of alcoves for tests: two true recesses either side of a breast, with what is asked for put on.
 */
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { type ExerciseWith, exerciseIn, type RoomWith, roomSpec } from './rooms.ts';

/** The middle of the right opening lies so far right of the left's. */
export const atXMm = 2400;
/** The line past the breast lies so far in front of the face line. */
export const setBackMm = 100;

/** A pair of 1000 x 2400 x 500 with a breast of 1400 between. */
export function pairExercise(left: RoomWith = {}, right: RoomWith = {}, having: ExerciseWith = {}): Exercise {
  const own = exerciseIn(roomSpec({ ...left, breastSide: 'right' }), having);
  const other = exerciseIn(roomSpec({ seed: 'other', ...right, breastSide: 'left' }), having);
  const { openingMm, mouthMm, breastSide, key, surfaces, trims } = other.spec;
  const { reference } = own.spec;
  return {
    ...own,
    spec: {
      ...own.spec,
      family: 'alcove-pair',
      reference: { ...reference, heightMm: 300, overMm: [-500, atXMm + 500] },
      second: { atXMm, openingMm, mouthMm, breastSide, key, surfaces, trims },
    },
    brief: { ...own.brief, setBackMm, second: { ...other.brief, setBackMm } },
  };
}

/** The exercise of a drawn pair. */
export function drawnPair(parts: { structure: string; severity: string; seed: number }): Exercise {
  const opened = openCode(writeCode({ family: 'alcove-pair', kit: 'site', ...parts }));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value;
}
