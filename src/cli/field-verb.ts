/** `offtrue field`: acts in on standard input, outcomes out, one a line; or typed acts and answers in words. */
import { createInterface } from 'node:readline';
import type { Command } from 'commander';
import { takeBySchema, takeJson } from '../exchange/refusal.ts';
import type { BayNumber } from '../exercise/bays.ts';
import { sayBrief, sayBriefs } from '../exercise/brief-words.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { actSchema } from '../survey/act.ts';
import { perform } from '../survey/acting.ts';
import { saySheet } from '../survey/field-sheet-words.ts';
import { actInRoom, bayWords, surveyIn } from '../survey/in-bay.ts';
import type { Survey } from '../survey/survey.ts';
import { keepLog, keepNone } from './kept-log.ts';
import { openExercise } from './opening.ts';
import { sayOutcome } from './outcome-words.ts';
import { printLines } from './print.ts';
import { formsFor, readTyped } from './typed-act.ts';

/** Adds the verb. */
export function addField(program: Command): void {
  program
    .command('field')
    .description('survey by hand: acts in on standard input, outcomes out')
    .argument('<code>', 'an exercise code, or the path of an exercise file')
    .option('--log <file>', 'keep the field log; one of the same exercise is gone on with')
    .option('--plain', 'short typed acts, answers in words')
    .option('--learner <code>', 'a learner code for the log, no name', '')
    .action((code: string, options: FieldOptions) => survey(openExercise(code), options));
}

interface FieldOptions {
  readonly log?: string;
  readonly plain?: boolean;
  readonly learner: string;
}

/** A line that came in, which it was, and which recess of a pair typed acts are of. */
interface LineIn {
  readonly text: string;
  readonly line: number;
  readonly bay: BayNumber;
}

/** What a line leads to: the survey after it, and what is printed. */
interface Answer {
  readonly survey: Survey;
  /** Which recess of a pair is turned to; left out, the one before. */
  readonly bay?: BayNumber;
  readonly lines: readonly string[];
  readonly quit?: boolean;
}

async function survey(exercise: Exercise, options: FieldOptions): Promise<void> {
  const log = options.log === undefined ? keepNone(exercise) : keepLog(exercise, options.log, options.learner);
  let now = log.survey;
  if (options.plain) printLines(greeting(now));
  const lines = createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
  const prompt = () => {
    if (options.plain && process.stdin.isTTY) process.stdout.write('> ');
  };
  prompt();
  let line = 0;
  let bay: BayNumber = 1;
  for await (const text of lines) {
    line++;
    if (text.trim() !== '' && !text.trimStart().startsWith('#')) {
      const answer = (options.plain ? answerTyped : answerJson)(now, { text, line, bay });
      for (const entry of answer.survey.entries.slice(now.entries.length)) log.keep(entry);
      now = answer.survey;
      bay = answer.bay ?? bay;
      if (answer.lines.length > 0) printLines(answer.lines);
      if (answer.quit) break;
    }
    prompt();
  }
  lines.close();
}

/** One JSON act; a malformed one is told as an outcome, and the survey goes on. */
function answerJson(now: Survey, { text, line }: LineIn): Answer {
  const json = takeJson(text, `line ${line}`);
  const act = json.ok ? takeBySchema(actSchema, json.value, `line ${line}`) : json;
  if (!act.ok) {
    const { field, expected, says } = act;
    const outcome = { ok: false, error: { code: 'act/malformed', line, field, expected, says } };
    return { survey: now, lines: [JSON.stringify(outcome)] };
  }
  const done = perform(now, act.value);
  return { survey: done.survey, lines: [JSON.stringify(done.outcome)] };
}

/** One typed act, answered in words; of a pair, both are of the recess that was turned to. */
function answerTyped(now: Survey, { text, line, bay }: LineIn): Answer {
  const told = (lines: readonly string[]) => ({ survey: now, lines });
  const own = surveyIn(now, bay);
  const typed = readTyped(text, own);
  if ('complaint' in typed) return told([`line ${line}: not understood: ${typed.complaint}`]);
  if ('bay' in typed) return turnTo(now, typed.bay);
  if ('ask' in typed) {
    const answers = {
      help: () => help(now),
      sheet: () => saySheet(own),
      brief: () => sayBriefs(now.world.exercise),
      quit: () => [],
    };
    return { ...told(answers[typed.ask]()), quit: typed.ask === 'quit' };
  }
  const act = takeBySchema(actSchema, typed.act, `line ${line}`);
  if (!act.ok) return told([`not understood: ${act.says}`]);
  const { survey: then } = perform(now, actInRoom(now, bay, act.value));
  const { reference } = own.world.exercise.brief;
  const entries = surveyIn(then, bay).entries.slice(now.entries.length);
  return { survey: then, lines: entries.flatMap((e) => sayOutcome(e, reference)) };
}

/** Turns to a recess of a pair: what is typed from here on is of it. */
function turnTo(now: Survey, bay: BayNumber): Answer {
  if (now.world.bays.length === 1) return { survey: now, lines: ['there is one recess here, not a pair'] };
  const lines = [
    `the ${bayWords[bay]} recess: places, sizes and where the level stands are of it, from its own middle`,
    ...sayBrief(surveyIn(now, bay).world.exercise.brief),
  ];
  return { survey: now, bay, lines };
}

function greeting(now: Survey): string[] {
  const { exercise } = now.world;
  return [
    `exercise ${exercise.code ?? 'of its own'}`,
    ...sayBriefs(exercise),
    ...(now.world.bays.length > 1
      ? ['you work in the left recess; type bay right for the other, bay left to come back']
      : []),
    ...(now.entries.length > 0 ? [`going on after act ${now.entries.length}`] : []),
    'class 2 laser: do not look into the beam; firm steps for the top readings; follow the local rules',
    'type help for what can be typed',
  ];
}

function help(now: Survey): string[] {
  const forms = formsFor(now.world);
  const wide = Math.max(...forms.map(([form]) => form.length).filter((w) => w < 44)) + 2;
  return forms.map(([form, says]) => (form.length >= 44 ? `${form}  ${says}` : `${form.padEnd(wide)}${says}`));
}
