/**
 * A careful survey acted, replayed and marked, and how soon the command starts: what a person waits for. No targets but that of the eye.
 */
import { spawnSync } from 'node:child_process';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { fold } from '../../src/survey/acting.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import type { Figure } from './geometry.ts';
import { drawCodes } from './jobs.ts';
import { eachUs, quantile } from './timing.ts';

export function surveyFigures(): Figure[] {
  const codes = drawCodes('bench/surveys', surveys);
  const careful = findLearner('careful');
  if (!careful) throw new Error('bench: no learner is named careful');
  const done = codes.map((code) => careful.survey(begun(code)));
  const of = { questions: surveys, goes: 2 };
  const acts = done.reduce((sum, survey) => sum + survey.entries.length, 0) / surveys;
  const acted = eachUs(
    (i) => begun(codes[i]!),
    (start) => careful.survey(start).entries.length,
    of,
  );
  const replayed = eachUs((i) => ({ start: begun(codes[i]!), done: done[i]! }), replay, of);
  const marked = eachUs(
    (i) => done[i]!,
    (survey) => markSurvey(survey).counts.acts,
    of,
  );
  return [
    { name: 'careful survey, acts in one', value: acts, unit: 'acts' },
    { name: 'careful survey, acted, median', value: quantile(acted, 0.5) / 1000, unit: 'ms' },
    { name: 'careful survey, replayed from its log, median', value: quantile(replayed, 0.5) / 1000, unit: 'ms' },
    { name: 'careful survey, marked, median', value: quantile(marked, 0.5) / 1000, unit: 'ms' },
  ];
}

/**
 * How long `offtrue --version` takes, process and all: the least of five.
 *
 * @param command - the path of the command
 */
export function startFigures(command: string): Figure[] {
  let least = 1e9;
  for (let go = 0; go < 6; go++) {
    const start = performance.now();
    const run = spawnSync(process.execPath, [command, '--version'], { encoding: 'utf8' });
    if (run.status !== 0) throw new Error(`bench: offtrue --version ended with ${run.status}: ${run.stderr}`);
    // The first may have to build the command.
    if (go > 0) least = Math.min(least, performance.now() - start);
  }
  return [{ name: 'offtrue --version, from start to end', value: least, unit: 'ms' }];
}

const surveys = 12;

function begun(code: string): Survey {
  const exercise = openCode(code);
  if (!exercise.ok) throw new Error(exercise.error.says);
  return beginSurvey(openWorld(exercise.value));
}

function replay(of: { start: Survey; done: Survey }): number {
  let survey = of.start;
  for (const { act, outcome } of of.done.entries) survey = fold(survey, act, outcome);
  return survey.readings.length;
}
