/**
 * Logs in and out as files: the copy that a learner keeps, and one that is opened again.
 */

import { nameOf, readExerciseFile } from '../../exchange/exercise-file.ts';
import { readLog, replayLog, writeLog } from '../../exchange/log-file.ts';
import type { Taken } from '../../exchange/refusal.ts';
import type { Exercise } from '../../exercise/exercise.ts';
import type { Entry } from '../../survey/survey.ts';
import type { Desk } from './desk.svelte.ts';
import type { OnDesk } from './laying.svelte.ts';

/** Hands out the survey's log as a file. */
export function saveLog(on: OnDesk): void {
  const text = writeLog({ exercise: nameOf(on.exercise), learner: '' }, on.session.core.entries());
  const url = URL.createObjectURL(new Blob([text], { type: 'application/jsonl' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `offtrue-${on.exercise.code ?? 'own'}.jsonl`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Reads the entries of a log of an exercise; says why where it is none, or of another room. */
export function entriesOfLog(text: string, exercise: Exercise): readonly Entry[] | string {
  const log = readLog(text);
  if (!log.ok) return `That log cannot be opened: ${log.says}.`;
  if (JSON.stringify(nameOf(log.value.exercise)) !== JSON.stringify(nameOf(exercise)))
    return `That log is of another room: ${log.value.exercise.code ?? 'one without a code'}.`;
  const survey = replayLog(log.value);
  return survey.ok ? log.value.entries : `That log cannot be opened: ${survey.says}.`;
}

/** Opens a file's text: a field log is gone on with, an exercise is begun. */
export async function openText(desk: Desk, text: string): Promise<void> {
  if (text.includes('"offtrue-log"')) return openLog(desk, text);
  const exercise = text.includes('"offtrue-room"') ? await exerciseOfOwnRoom(text) : readExerciseFile(text);
  if (exercise.ok) return desk.openExercise(exercise.value);
  desk.refusal = `That file cannot be opened: ${exercise.says}.`;
}

/** A room written by hand is made into its exercise. */
async function exerciseOfOwnRoom(text: string): Promise<Taken<Exercise>> {
  const { exerciseOfRoom, readOwnRoom } = await import('../../exchange/own-room-file.ts');
  const room = readOwnRoom(text);
  return room.ok ? exerciseOfRoom(room.value) : room;
}

async function openLog(desk: Desk, text: string): Promise<void> {
  const log = readLog(text);
  if (!log.ok) {
    desk.refusal = `That log cannot be opened: ${log.says}.`;
    return;
  }
  const survey = replayLog(log.value);
  if (!survey.ok) {
    desk.refusal = `That log cannot be opened: ${survey.says}.`;
    return;
  }
  await desk.openEntries(log.value.exercise, log.value.entries);
  if (log.value.cutOff)
    desk.open?.session.say(`The log was cut off; it goes on after act ${log.value.entries.length}.`);
}
