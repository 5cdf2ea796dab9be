/**
 * What attempts that are kept on the device came to. Each is replayed and marked anew: nothing but its log is kept.
 */
import { takeExercise } from '../../exchange/exercise-file.ts';
import type { SizeSure } from '../../marking/how-sure.ts';
import type { Entry } from '../../survey/survey.ts';
import { openCore, type SurveyCore } from './core.ts';
import type { KeptSurvey } from './store.ts';

/** Reads an attempt's log. */
export type Entries = (id: string) => Promise<readonly Entry[]>;

/** Opens an attempt that was handed in; null where it can no longer be opened. */
export async function openAttempt(kept: KeptSurvey, entries: Entries): Promise<SurveyCore | null> {
  const exercise = takeExercise(kept.exercise, 'survey');
  if (!exercise.ok) return null;
  try {
    return openCore(exercise.value, await entries(kept.id));
  } catch {
    return null;
  }
}

/** Gathers how sure the learner was in every attempt that was handed in, with how many said anything. */
export async function sureOverAll(
  shelf: readonly KeptSurvey[],
  entries: Entries,
): Promise<{ attempts: number; sure: readonly SizeSure[] }> {
  const all: (readonly SizeSure[])[] = [];
  for (const kept of shelf.filter((s) => s.handedIn)) {
    const core = await openAttempt(kept, entries);
    const sure = core?.report()?.howSure;
    if (sure) all.push(sure);
  }
  return { attempts: all.length, sure: all.flat() };
}
