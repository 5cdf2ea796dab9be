/**
 * Opening what a CODE argument names: an exercise code, or the path of an exercise file.
 */

import { existsSync } from 'node:fs';
import { readExerciseFile } from '../exchange/exercise-file.ts';
import { baysOf } from '../exercise/bays.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { openCode } from '../exercise/exercise-code.ts';
import { unitsOf } from '../exercise/kit.ts';
import { speakIn } from '../recess/lengths.ts';
import { readText } from './disk.ts';
import { Refused, taken } from './refused.ts';

/** Opens an exercise by code or by file; lengths are said in the unit of its rule. */
export function openExercise(codeOrPath: string): Exercise {
  const exercise = exerciseNamed(codeOrPath);
  speakIn(unitsOf(exercise.kit));
  return exercise;
}

function exerciseNamed(codeOrPath: string): Exercise {
  if (/[./\\]/.test(codeOrPath) || existsSync(codeOrPath))
    return taken(readExerciseFile(readText(codeOrPath)), codeOrPath);
  const opened = openCode(codeOrPath);
  if (opened.ok) return opened.value;
  throw new Refused(`code ${codeOrPath}: ${opened.error.says}`);
}

/** Opens an exercise whose truth will be shown: assessed ones want --tutor. */
export function openForShowing(codeOrPath: string, options: { tutor?: boolean }): Exercise {
  const exercise = openExercise(codeOrPath);
  if (exercise.assessed && !options.tutor)
    throw new Refused(`code ${codeOrPath}: this exercise is assessed; its room and key are shown with --tutor`);
  return exercise;
}

export const tutorOption = ['--tutor', 'show what an assessed exercise keeps covered'] as const;

/** Which recess of a pair a verb is about. */
export const bayOption = ['--bay <left|right>', 'which recess of a pair', 'left'] as const;

/** Gives the exercise of one recess; where there is one, it is the left. */
export function bayNamed(exercise: Exercise, name: string): Exercise {
  const at = ['left', 'right'].indexOf(name);
  const bay = at < 0 ? undefined : baysOf(exercise)[at];
  if (at < 0) throw new Refused(`--bay: expected left or right, got ${JSON.stringify(name)}`);
  if (!bay) throw new Refused('--bay: there is one recess here, not a pair');
  return bay.exercise;
}
