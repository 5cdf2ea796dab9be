/**
 * Handing an exercise out: its file, or a link that carries it and is sent nowhere by being opened.
 */
import { writeExerciseFile } from '../../exchange/exercise-file.ts';
import { writeLink } from '../../exchange/exercise-link.ts';
import type { Exercise } from '../../exercise/exercise.ts';

/** Hands out the exercise as a file. */
export function saveExercise(exercise: Exercise): void {
  const url = URL.createObjectURL(new Blob([writeExerciseFile(exercise)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = 'offtrue-own-exercise.json';
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Gives the address that opens the exercise on this page. */
export async function linkTo(exercise: Exercise): Promise<string> {
  const { origin, pathname } = location;
  return `${origin}${pathname}#/own/${await writeLink(exercise)}`;
}
