/**
 * Scripted learners, by name. They act through the same door as people and know only what people see.
 */
import type { Survey } from '../survey/survey.ts';
import { surveyWithCare } from './careful.ts';
import { surveyRunWithCare } from './careful-run.ts';
import { surveyWallWithCare } from './careful-wall.ts';
import { surveyAtRandom } from './random.ts';
import { carefulDensity } from './reading-plan.ts';
import { surveyByThreeWidths } from './three-widths.ts';

export interface Learner {
  readonly name: string;
  readonly says: string;
  /** Surveys from a start to a hand-in. */
  survey(start: Survey): Survey;
}

export const learners: readonly Learner[] = [
  {
    name: 'careful',
    says: 'lines up on the reference, reads seven heights by three depths a side and half-way where a wall is not straight, closes, works out by the right rules',
    survey: surveyCarefully,
  },
  {
    name: 'three-widths',
    says: 'tapes three widths at the front, three heights, three depths in the middle of the back',
    survey: surveyByThreeWidths,
  },
  { name: 'random', says: 'acts at random', survey: surveyAtRandom },
];

/** With care, each family by its own plan. */
function surveyCarefully(start: Survey): Survey {
  const { family } = start.world.exercise.spec;
  if (family === 'run') return surveyRunWithCare(start);
  return family === 'plain-wall' ? surveyWallWithCare(start) : surveyWithCare(start, carefulDensity);
}

/** Finds a learner by name; null when there is none. */
export function findLearner(name: string): Learner | null {
  return learners.find((l) => l.name === name) ?? null;
}
