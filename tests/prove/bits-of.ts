/**
 * What the careful learner leaves of a code, as digests: the exercise, the log's entries, the report.
 */
import { digestOf } from '../../src/exchange/digest.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

export interface Bits {
  readonly exercise: string;
  readonly log: string;
  readonly report: string;
}

export function opened(code: string): Exercise {
  const result = openCode(code);
  if (!result.ok) throw new Error(`${code}: ${result.error.says}`);
  return result.value;
}

/** Surveys by a learner's name. */
export function surveyBy(name: string, exercise: Exercise): Survey {
  const learner = findLearner(name);
  if (!learner) throw new Error(`no learner is named ${name}`);
  return learner.survey(beginSurvey(openWorld(exercise)));
}

export function bitsOf(code: string): Bits {
  const exercise = opened(code);
  const survey = surveyBy('careful', exercise);
  return { exercise: digestOf(exercise), log: digestOf(survey.entries), report: digestOf(markSurvey(survey)) };
}

/** The same of many codes, last one first, with other work done in between, so that nothing kept can help. */
export function bitsInAnotherOrder(codes: readonly string[]): readonly Bits[] {
  const found = new Map<string, Bits>();
  for (const code of [...codes].reverse()) {
    const exercise = opened(code);
    const world = openWorld(exercise);
    const random = surveyBy('random', exercise);
    digestOf(markSurvey(random));
    const { widthMm, heightMm, depthMm } = { widthMm: 640.5, heightMm: 1900.25, depthMm: 250.125 };
    answerKey(world.recess, exercise, { carcass: { widthMm, heightMm, depthMm } });
    digestOf(markSurvey(surveyBy('three-widths', exercise)));
    found.set(code, bitsOf(code));
  }
  return codes.map((code) => found.get(code) as Bits);
}
