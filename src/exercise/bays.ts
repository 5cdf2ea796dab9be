/**
 * Bays: the recesses of an exercise. Most have one; a pair of alcoves has two, each with a frame, a spec and a brief of
 * its own, and one reference across both.
 */
import type { Exercise } from './exercise.ts';

/** 2 is the right-hand recess of a pair; every other recess is 1. */
export type BayNumber = 1 | 2;

export interface BayOfExercise {
  readonly bay: BayNumber;
  /** Where the middle of its opening lies, mm right of the first's. */
  readonly atXMm: number;
  /** The exercise as if the bay stood alone, in the bay's own frame. */
  readonly exercise: Exercise;
}

/** Gives the bays of an exercise, from left to right. */
export function baysOf(exercise: Exercise): readonly [BayOfExercise, ...BayOfExercise[]] {
  const { second, ...spec } = exercise.spec;
  const { second: secondBrief, ...brief } = exercise.brief;
  if (!second || !secondBrief) return [{ bay: 1, atXMm: 0, exercise }];
  const { atXMm, ...its } = second;
  return [
    { bay: 1, atXMm: 0, exercise: { ...exercise, spec, brief } },
    { bay: 2, atXMm, exercise: { ...exercise, spec: { ...spec, ...its }, brief: secondBrief } },
  ];
}
