/** `offtrue learner`: a scripted learner surveys a room. */
import type { Command } from 'commander';
import { nameOf } from '../exchange/exercise-file.ts';
import { writeLog } from '../exchange/log-file.ts';
import { allLearners, findLearner } from '../learners/learner.ts';
import { proposedSize } from '../marking/ledger.ts';
import { sizeWords } from '../marking/size-words.ts';
import { saySheet } from '../survey/field-sheet-words.ts';
import { sizesOf } from '../survey/size.ts';
import { beginSurvey, type Survey } from '../survey/survey.ts';
import { openWorld } from '../survey/world.ts';
import { writeNewText } from './disk.ts';
import { openForShowing, tutorOption } from './opening.ts';
import { printJson, printLines } from './print.ts';
import { Refused } from './refused.ts';

/** Adds the verb. */
export function addLearner(program: Command): void {
  program
    .command('learner')
    .description('a scripted learner surveys a room')
    .argument('[name]', 'careful, three-widths, one that makes one mistake, ...; --list names them')
    .argument('[code]', 'an exercise code, or the path of an exercise file')
    .option('--log <file>', 'write the field log')
    .option('--list', 'name the learners')
    .option('--json', 'print the sizes as data')
    .option(...tutorOption)
    .action((name: string | undefined, code: string | undefined, options: LearnerOptions) => {
      if (options.list) {
        const list = allLearners.map(({ name: n, says, mistake = null }) => ({ name: n, mistake, says }));
        if (options.json) printJson(list);
        else printLines(list.map((l) => `${l.name.padEnd(20)}${(l.mistake ?? '').padEnd(5)}${l.says}`));
        return;
      }
      if (name === undefined || code === undefined) throw new Refused('learner: expected a NAME and a CODE, or --list');
      run(name, code, options);
    });
}

interface LearnerOptions {
  readonly log?: string;
  readonly list?: boolean;
  readonly json?: boolean;
  readonly tutor?: boolean;
}

function run(name: string, code: string, options: LearnerOptions): void {
  const learner = findLearner(name);
  if (!learner)
    throw new Refused(
      `learner: expected one of ${allLearners.map((l) => l.name).join(', ')}, got ${JSON.stringify(name)}`,
    );
  const exercise = openForShowing(code, options);
  const survey = learner.survey(beginSurvey(openWorld(exercise)));
  if (options.log !== undefined) {
    const header = { exercise: nameOf(exercise), learner: '', scripted: name };
    writeNewText(options.log, writeLog(header, survey.entries));
  }
  const sizes = sizesOf(exercise.brief).map((size) => ({ size, mm: proposedSize(survey, size) }));
  if (options.json) printJson({ learner: name, exercise: exercise.code, acts: survey.entries.length, sizes });
  else
    printLines([
      sayActs(survey),
      ...saySheet(survey),
      ...sizes.map((s) => `proposed ${sizeWords[s.size]}: ${s.mm ?? 'none'}`),
    ]);
}

function sayActs(survey: Survey): string {
  const refused = survey.entries.filter((e) => !e.outcome.ok).length;
  return `${survey.entries.length} acts (${refused} refused): ${survey.readings.length} readings, ${survey.spans.length} tape sizes, ${survey.bookings.length} bookings`;
}
