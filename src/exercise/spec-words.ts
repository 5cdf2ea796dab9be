/**
 * The hidden room of an exercise in trade words: of a pair, the left recess's first.
 */
import { sayRecess } from '../recess/trade-words.ts';
import { baysOf } from './bays.ts';
import type { Exercise } from './exercise.ts';

/** Says the hidden room, a line an element. */
export function saySpec(exercise: Exercise): string[] {
  const bays = baysOf(exercise);
  if (bays.length === 1) return sayRecess(exercise.spec);
  return bays.flatMap(({ bay, exercise: own }) => [
    `${bay === 1 ? 'left' : 'right'} recess:`,
    ...sayRecess(own.spec).map((line) => `  ${line}`),
  ]);
}
