/**
 * Field logs as files: JSON lines. The first line is the header, then one line an act, each with its outcome.
 *
 * A log that was cut off in the middle of a line is read to its last whole act, and says so.
 */
import * as v from 'valibot';
import type { Exercise } from '../exercise/exercise.ts';
import { exerciseSchema } from '../exercise/exercise.ts';
import { actSchema } from '../survey/act.ts';
import { fold, perform } from '../survey/acting.ts';
import { type Done, type RefusalCode, refusalCodes } from '../survey/outcome.ts';
import { beginSurvey, type Entry, type Survey } from '../survey/survey.ts';
import { openWorld } from '../survey/world.ts';
import { type ExerciseName, narrowedCodeSchema, newerVersion, takeExercise } from './exercise-file.ts';
import { firstDifference } from './first-difference.ts';
import { refuse, type Taken, takeBySchema, takeJson } from './refusal.ts';

const number = v.pipe(v.number(), v.finite());
const pair = v.tuple([number, number]);

const seen = v.strictObject({
  datum: v.string(),
  at: v.union([v.strictObject({ mark: number }), v.strictObject({ referenceXMm: number })]),
  offWidths: number,
  offMm: v.optional(number),
});

/**
 * In the order in which outcomes are written, so that a log that is read and written again is the same text. Every field of
 * an outcome is here, or this does not compile.
 */
const doneFields = {
  ok: v.literal(true),
  setUp: v.optional(number),
  mark: v.optional(number),
  edgesMm: v.optional(pair),
  on: v.optional(v.string()),
  readOutMm: v.optional(number),
  handUm: v.optional(v.array(number)),
  seen: v.optional(v.array(seen)),
  tapeMm: v.optional(number),
  marksLost: v.optional(v.array(number)),
  practiceMm: v.optional(v.array(number)),
  swapped: v.optional(v.boolean()),
  toolMm: v.optional(v.array(number)),
} satisfies Record<keyof Done, v.GenericSchema>;
const done = v.strictObject(doneFields);

const refusedOutcome = v.strictObject({
  ok: v.literal(false),
  error: v.strictObject({
    code: v.picklist(Object.keys(refusalCodes) as RefusalCode[]),
    by: v.optional(v.string()),
  }),
});

export const entrySchema = v.strictObject({
  n: v.pipe(v.number(), v.integer(), v.minValue(1)),
  act: actSchema,
  outcome: v.variant('ok', [done, refusedOutcome]),
});

export const logHeaderSchema = v.strictObject({
  format: v.literal('offtrue-log'),
  version: v.literal(1),
  /** A code, a code with what is to be found of it, or a whole exercise where no code stands for it. */
  exercise: v.union([v.string(), narrowedCodeSchema, exerciseSchema]),
  learner: v.pipe(v.string(), v.maxLength(80)),
  /** The script that surveyed; left out, a person did. */
  scripted: v.optional(v.pipe(v.string(), v.minLength(1), v.maxLength(80))),
});

const looseHeader = v.strictObject({ ...logHeaderSchema.entries, exercise: v.unknown() });

export interface LogHeader {
  readonly exercise: ExerciseName;
  readonly learner: string;
  readonly scripted?: string | undefined;
}

export interface FieldLog {
  readonly exercise: Exercise;
  readonly header: LogHeader;
  readonly entries: readonly Entry[];
  /** The text ended in the middle of a line; what came before was read. */
  readonly cutOff: boolean;
}

/** Writes a log's header line, with its line end. */
export function writeHeader(header: LogHeader): string {
  const { exercise, learner, scripted } = header;
  return `${JSON.stringify({ format: 'offtrue-log', version: 1, exercise, learner, ...(scripted ? { scripted } : {}) })}\n`;
}

/** Writes an entry's line, with its line end. */
export function writeEntry(entry: Entry): string {
  return `${JSON.stringify({ n: entry.n, act: entry.act, outcome: entry.outcome })}\n`;
}

/** Writes a whole log. */
export function writeLog(header: LogHeader, entries: readonly Entry[]): string {
  return writeHeader(header) + entries.map(writeEntry).join('');
}

/** Reads a log's text. */
export function readLog(text: string): Taken<FieldLog> {
  const lines = text.split('\n');
  const tail = lines.pop() ?? '';
  const whole = tail === '' ? lines : [...lines, tail];
  const [first, ...rest] = whole;
  if (first === undefined || first.trim() === '') return refuse('line 1: expected a log header, got nothing');
  const header = readHeader(first);
  if (!header.ok) return header;
  const exercise = takeExercise(header.value.exercise, 'line 1, exercise');
  if (!exercise.ok) return exercise;
  const entries: Entry[] = [];
  for (const [i, line] of rest.entries()) {
    const where = `line ${i + 2}`;
    const json = takeJson(line, where);
    const last = i === rest.length - 1 && tail !== '';
    if (!json.ok && last)
      return { ok: true, value: { exercise: exercise.value, header: header.value, entries, cutOff: true } };
    if (!json.ok) return json;
    const entry = takeBySchema(entrySchema, json.value, where);
    if (!entry.ok) return entry;
    if (entry.value.n !== entries.length + 1)
      return refuse(`${where}, n: expected ${entries.length + 1}, got ${entry.value.n}`);
    entries.push(entry.value as Entry);
  }
  return { ok: true, value: { exercise: exercise.value, header: header.value, entries, cutOff: false } };
}

/** Replays a log: folds its outcomes and draws nothing. */
export function replayLog(log: FieldLog): Taken<Survey> {
  let survey = beginSurvey(openWorld(log.exercise));
  for (const { n, act, outcome } of log.entries) {
    try {
      survey = fold(survey, act, outcome);
    } catch (error) {
      if (error instanceof RangeError) return refuse(`line ${n + 1}: ${error.message}`);
      throw error;
    }
  }
  return { ok: true, value: survey };
}

/** The first act that does not come out as it is logged, and the first field in which it differs. */
export interface Difference {
  readonly line: number;
  readonly n: number;
  readonly field: string;
  readonly logged: unknown;
  readonly acted: unknown;
}

/** Acts a log again from the seed; null when every outcome is the same to the last bit. */
export function verifyLog(log: FieldLog): Difference | null {
  let survey = beginSurvey(openWorld(log.exercise));
  for (const { n, act, outcome } of log.entries) {
    const again = perform(survey, act);
    const differs = firstDifference(outcome, again.outcome, 'outcome');
    if (differs) return { line: n + 1, n, field: differs.field, logged: differs.of, acted: differs.and };
    survey = again.survey;
  }
  return null;
}

function readHeader(line: string): Taken<LogHeader> {
  const json = takeJson(line, 'line 1');
  if (!json.ok) return json;
  const newer = newerVersion(json.value, 'offtrue-log', 'line 1');
  // The exercise is taken by itself, so that what is wrong in it is said by its own field.
  return newer ?? (takeBySchema(looseHeader, json.value, 'line 1') as Taken<LogHeader>);
}
