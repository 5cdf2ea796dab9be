/** `offtrue demo`: the careful learner surveys an alcove, told step by step. */
import type { Command } from 'commander';
import { nameOf } from '../exchange/exercise-file.ts';
import { writeLog } from '../exchange/log-file.ts';
import { writeCode } from '../exercise/exercise-code.ts';
import { findLearner } from '../learners/learner.ts';
import { beginSurvey } from '../survey/survey.ts';
import { openWorld } from '../survey/world.ts';
import { writeNewText } from './disk.ts';
import { openForShowing, tutorOption } from './opening.ts';
import { printLines } from './print.ts';
import { tellStory } from './story.ts';

/** The demo's own room. */
const demoCode = writeCode({ family: 'alcove', severity: 'old', structure: 'same-lean', kit: 'site', seed: 314_159 });

/** Adds the verb. */
export function addDemo(program: Command): void {
  program
    .command('demo')
    .description('the careful learner surveys an alcove, told step by step')
    .option('--code <code>', 'an exercise code, or the path of an exercise file', demoCode)
    .option('--log <file>', 'write the field log')
    .option(...tutorOption)
    .action((options: { code: string; log?: string; tutor?: boolean }) => {
      const exercise = openForShowing(options.code, options);
      const survey = findLearner('careful')?.survey(beginSurvey(openWorld(exercise)));
      if (!survey) throw new Error('the careful learner is missing');
      if (options.log !== undefined)
        writeNewText(
          options.log,
          writeLog({ exercise: nameOf(exercise), learner: '', scripted: 'careful' }, survey.entries),
        );
      printLines(tellStory(survey));
    });
}
