/** `offtrue field`: acts in on standard input, outcomes out, one a line; or typed acts and answers in words. */
import { appendFileSync, existsSync, truncateSync } from 'node:fs';
import { createInterface } from 'node:readline';
import type { Command } from 'commander';
import { canonical } from '../exchange/digest.ts';
import { nameOf } from '../exchange/exercise-file.ts';
import { readLog, replayLog, writeEntry, writeHeader } from '../exchange/log-file.ts';
import { takeBySchema, takeJson } from '../exchange/refusal.ts';
import { sayBrief } from '../exercise/brief-words.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { type Act, actSchema } from '../survey/act.ts';
import { perform } from '../survey/acting.ts';
import { saySheet } from '../survey/field-sheet-words.ts';
import { beginSurvey, type Survey } from '../survey/survey.ts';
import { openWorld } from '../survey/world.ts';
import { readText, reasonOf, writeNewText } from './disk.ts';
import { openExercise } from './opening.ts';
import { sayOutcome } from './outcome-words.ts';
import { printJson, printLines } from './print.ts';
import { Refused, taken } from './refused.ts';
import { proposedSoFar, readTyped, type Typed, typedForms } from './typed-act.ts';

/** Adds the verb. */
export function addField(program: Command): void {
  program
    .command('field')
    .description('survey by hand: acts in on standard input, outcomes out')
    .argument('<code>', 'an exercise code, or the path of an exercise file')
    .option('--log <file>', 'keep the field log; one of the same exercise is gone on with')
    .option('--plain', 'short typed acts, answers in words')
    .option('--learner <code>', 'a learner code for the log, no name', '')
    .action((code: string, options: { log?: string; plain?: boolean; learner: string }) =>
      survey(openExercise(code), options),
    );
}

interface FieldOptions {
  readonly log?: string;
  readonly plain?: boolean;
  readonly learner: string;
}

async function survey(exercise: Exercise, options: FieldOptions): Promise<void> {
  let now =
    options.log === undefined ? beginSurvey(openWorld(exercise)) : openLog(exercise, options.log, options.learner);
  if (options.plain) printLines(greeting(now));
  const lines = createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
  const prompt = () => {
    if (options.plain && process.stdin.isTTY) process.stdout.write('> ');
  };
  prompt();
  let line = 0;
  for await (const text of lines) {
    line++;
    if (text.trim() !== '' && !text.trimStart().startsWith('#')) {
      const next = options.plain ? plainLine(now, text) : jsonLine(now, { text, line });
      if (next === 'quit') break;
      for (const entry of next.entries.slice(now.entries.length)) keep(options.log, writeEntry(entry));
      now = next;
    }
    prompt();
  }
  lines.close();
}

/** One JSON act; a malformed one is told as an outcome, and the survey goes on. */
function jsonLine(now: Survey, from: { text: string; line: number }): Survey {
  const json = takeJson(from.text, `line ${from.line}`);
  const act = json.ok ? takeBySchema(actSchema, json.value, `line ${from.line}`) : json;
  if (!act.ok) {
    printJson({ ok: false, error: { code: 'act/malformed', line: from.line, says: act.says } });
    return now;
  }
  const done = perform(now, act.value);
  printJson(done.outcome);
  return done.survey;
}

/** One typed act, answered in words. */
function plainLine(now: Survey, text: string): Survey | 'quit' {
  const typed = readTyped(text, now);
  if ('complaint' in typed) return told(now, [typed.complaint]);
  if ('ask' in typed) {
    if (typed.ask === 'quit') return 'quit';
    const answers = { help: help(), sheet: saySheet(now), brief: sayBrief(now.world.exercise.brief) };
    return told(now, answers[typed.ask]);
  }
  const act = takeBySchema(actSchema, dataOf(typed, now), 'act');
  if (!act.ok) return told(now, [`not understood: ${act.says}; type help`]);
  return acted(now, act.value);
}

function dataOf(typed: Exclude<Typed, { complaint: string } | { ask: string }>, now: Survey): unknown {
  if ('act' in typed) return typed.act;
  if ('propose' in typed) return proposedSoFar(now, typed.propose.part, typed.propose.sizes);
  const booking = now.bookings.filter((b) => !b.struck).at(-1);
  const mark = now.marks.at(-1);
  if (booking && (!mark || booking.n > markAct(now, mark.mark))) return { act: 'strike', booking: booking.n };
  return { act: 'rub-out', mark: mark?.mark ?? 1 };
}

function markAct(now: Survey, mark: number): number {
  return now.entries.find((e) => e.act.act === 'mark' && e.outcome.ok && e.outcome.mark === mark)?.n ?? 0;
}

function acted(now: Survey, act: Act): Survey {
  const done = perform(now, act);
  const entry = done.survey.entries.at(-1);
  if (entry) printLines(sayOutcome(entry));
  return done.survey;
}

function told(now: Survey, lines: readonly string[]): Survey {
  printLines(lines);
  return now;
}

function greeting(now: Survey): string[] {
  const { exercise } = now.world;
  return [
    `exercise ${exercise.code ?? 'of its own'}`,
    ...sayBrief(exercise.brief),
    ...(now.entries.length > 0 ? [`going on after act ${now.entries.length}`] : []),
    'class 2 laser: do not look into the beam; firm steps for the top readings; follow the local rules',
    'type help for what can be typed',
  ];
}

function help(): string[] {
  const wide = Math.max(...typedForms.map(([form]) => form.length).filter((w) => w < 44)) + 2;
  return typedForms.map(([form, says]) => (form.length >= 44 ? `${form}  ${says}` : `${form.padEnd(wide)}${says}`));
}

/** Begins a log, or goes on with one of the same exercise; any other file is left alone. */
function openLog(exercise: Exercise, path: string, learner: string): Survey {
  if (!existsSync(path)) {
    writeNewText(path, writeHeader({ exercise: nameOf(exercise), learner }));
    return beginSurvey(openWorld(exercise));
  }
  const text = readText(path);
  const log = taken(readLog(text), `--log ${path}`);
  if (canonical(nameOf(log.exercise)) !== canonical(nameOf(exercise)))
    throw new Refused(`--log ${path}: expected a log of this exercise, got one of ${log.exercise.code ?? 'another'}`);
  if (log.cutOff) truncateSync(path, Buffer.byteLength(text.slice(0, text.lastIndexOf('\n') + 1)));
  else if (!text.endsWith('\n')) keep(path, '\n');
  return taken(replayLog(log), `--log ${path}`);
}

function keep(path: string | undefined, text: string): void {
  if (path === undefined) return;
  try {
    appendFileSync(path, text);
  } catch (error) {
    throw new Refused(`--log ${path}: expected a file that can be written, got ${reasonOf(error)}`);
  }
}
