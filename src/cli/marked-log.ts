/** Logs that were handed in: read, replayed and marked. */

import { type FieldLog, readLog, replayLog } from '../exchange/log-file.ts';
import { unitsOf } from '../exercise/kit.ts';
import { type Report, reportOf } from '../marking/report.ts';
import { speakIn } from '../recess/lengths.ts';
import type { Survey } from '../survey/survey.ts';
import { readText } from './disk.ts';
import { Refused, taken } from './refused.ts';

export interface MarkedLog {
  readonly path: string;
  readonly log: FieldLog;
  readonly survey: Survey;
  readonly report: Report;
}

/** Reads a log and marks it; lengths are said in the unit of its rule. */
export function markedLog(path: string): MarkedLog {
  const log = taken(readLog(readText(path)), path);
  const survey = taken(replayLog(log), path);
  speakIn(unitsOf(survey.world.exercise.kit));
  return { path, log, survey, report: reportOf(survey) };
}

/** The same of one that has to be handed in. */
export function handedInLog(path: string): MarkedLog {
  const marked = markedLog(path);
  if (!marked.report.marks) throw new Refused(`${path}: expected a log that is handed in, got one that is not`);
  return marked;
}
