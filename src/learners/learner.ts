/**
 * Scripted learners, by name. They act through the same door as people and know only what people see.
 */
import type { Survey } from '../survey/survey.ts';
import { surveyFamilyWithCare } from './careful-of-family.ts';
import { surveyByGuess } from './guess.ts';
import { twoSetUps } from './mistaken/lost-steps.ts';
import { surveyWith } from './mistaken/method.ts';
import { mistakenLearners } from './mistaken/mistaken.ts';
import { surveyAtRandom } from './random.ts';
import { surveyByThreeWidths } from './three-widths.ts';

export interface Learner {
  readonly name: string;
  readonly says: string;
  /** The one mistake that it makes, by its number in the library; left out, none is made on purpose, or many are. */
  readonly mistake?: string;
  /** Surveys from a start to a hand-in. */
  survey(start: Survey): Survey;
}

export const learners: readonly Learner[] = [
  {
    name: 'careful',
    says: 'lines up on the reference, reads seven heights by three depths a side and half-way where a wall is not straight, closes, works out by the right rules',
    survey: (start) => surveyFamilyWithCare(start),
  },
  {
    name: 'three-widths',
    says: 'tapes three widths at the front, three heights, three depths in the middle of the back',
    survey: surveyByThreeWidths,
  },
  { name: 'random', says: 'acts at random', survey: surveyAtRandom },
  { name: 'guess', says: 'measures nothing and sends the sizes of the brief', survey: surveyByGuess },
  {
    name: 'two-set-ups',
    says: 'reads the left wall from one set-up and the rest from another, carries the step over, closes, works out by the right rules',
    survey: (start) => surveyWith(start, twoSetUps),
  },
];

/** All learners: those of a method, then one a mistake. */
export const allLearners: readonly Learner[] = [...learners, ...mistakenLearners];

/** Finds a learner by name; null when there is none. */
export function findLearner(name: string): Learner | null {
  return allLearners.find((l) => l.name === name) ?? null;
}
