/**
 * The careful way of surveying each kind of recess.
 */
import type { Survey } from '../survey/survey.ts';
import { surveyWithCare } from './careful.ts';
import { surveyRunWithCare } from './careful-run.ts';
import { surveyWallWithCare } from './careful-wall.ts';
import { carefulDensity, type Density } from './reading-plan.ts';

/**
 * Surveys with care, by the way of the recess's kind.
 *
 * @param density - how close the plan is that it begins with; left out, as close as care has it
 */
export function surveyFamilyWithCare(start: Survey, density?: Density): Survey {
  const { family } = start.world.exercise.spec;
  if (family === 'run') return surveyRunWithCare(start, density ? { density } : {});
  if (family === 'plain-wall') return surveyWallWithCare(start, density);
  return surveyWithCare(start, density ?? carefulDensity);
}
