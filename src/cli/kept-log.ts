/**
 * The log of a survey in progress: begun anew, or gone on with; each act is kept as it happens, before it is answered.
 */
import { appendFileSync, existsSync, statSync, truncateSync } from 'node:fs';
import { canonical } from '../exchange/digest.ts';
import { nameOf } from '../exchange/exercise-file.ts';
import { logHeaderSchema, readLog, replayLog, writeEntry, writeHeader } from '../exchange/log-file.ts';
import { takeBySchema } from '../exchange/refusal.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { beginSurvey, type Entry, type Survey } from '../survey/survey.ts';
import { openWorld } from '../survey/world.ts';
import { readText, reasonOf, writeNewText } from './disk.ts';
import { Refused, taken } from './refused.ts';

export interface KeptLog {
  /** The survey as the log has it. */
  readonly survey: Survey;
  /** @throws {Refused} if the file cannot be written, or was changed by another than this */
  keep(entry: Entry): void;
}

/** Begins a survey that keeps no log. */
export function keepNone(exercise: Exercise): KeptLog {
  return { survey: beginSurvey(openWorld(exercise)), keep: () => undefined };
}

/**
 * Begins a log, or goes on with one of the same exercise and learner; any other file is left alone. What a log that was
 * cut off has after its last whole act is taken off.
 *
 * @param learner - the learner's code; empty: whoever's log it is
 */
export function keepLog(exercise: Exercise, path: string, learner: string): KeptLog {
  const what = `--log ${path}`;
  taken(takeBySchema(logHeaderSchema.entries.learner, learner, '--learner'));
  if (!existsSync(path)) {
    writeNewText(path, writeHeader({ exercise: nameOf(exercise), learner }));
    return { survey: beginSurvey(openWorld(exercise)), keep: appender(path) };
  }
  const text = readText(path);
  const log = taken(readLog(text), what);
  if (canonical(nameOf(log.exercise)) !== canonical(nameOf(exercise)))
    throw new Refused(`${what}: expected a log of this exercise, got one of ${log.exercise.code ?? 'another'}`);
  if (learner !== '' && learner !== log.header.learner)
    throw new Refused(
      `${what}: expected a log of ${JSON.stringify(learner)}, got one of ${JSON.stringify(log.header.learner)}`,
    );
  const survey = taken(replayLog(log), what);
  if (log.cutOff) truncateSync(path, Buffer.byteLength(text.slice(0, text.lastIndexOf('\n') + 1)));
  const keep = appender(path);
  return { survey, keep: !log.cutOff && !text.endsWith('\n') ? once(keep, '\n') : keep };
}

type Keep = (entry: Entry, before?: string) => void;

/** The first entry comes after what the last line lacked. */
function once(keep: Keep, before: string): Keep {
  let lacking = before;
  return (entry) => {
    keep(entry, lacking);
    lacking = '';
  };
}

function appender(path: string): Keep {
  let size = statSync(path).size;
  return (entry, before = '') => {
    const line = before + writeEntry(entry);
    try {
      if (statSync(path).size !== size)
        throw new Refused(`--log ${path}: expected the log as it was left, got one that something else has written to`);
      appendFileSync(path, line);
    } catch (error) {
      if (error instanceof Refused) throw error;
      throw new Refused(`--log ${path}: expected a file that can be written, got ${reasonOf(error)}`);
    }
    size += Buffer.byteLength(line);
  };
}
