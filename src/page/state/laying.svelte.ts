/**
 * Laying a survey on the desk: what needs the room, the rule and the marking. It is loaded when a first room is opened,
 * so that the first screen can be used at once.
 */
import type { Lesson } from '../../course/lesson.ts';
import type { BayNumber } from '../../exercise/bays.ts';
import type { Exercise } from '../../exercise/exercise.ts';
import type { Entry } from '../../survey/survey.ts';
import { openCore } from './core.ts';
import { Results } from './results.svelte.ts';
import { Run } from './run.svelte.ts';
import { type Keeper, Session } from './session.svelte.ts';
import type { KeptSurvey } from './store.ts';

export { nameOf, takeExercise } from '../../exchange/exercise-file.ts';
export { readLink } from '../../exchange/exercise-link.ts';
export { narrowed } from '../../exercise/exercise.ts';
export { unitsOf } from '../../exercise/kit.ts';
export { speakIn } from '../../recess/lengths.ts';
export { loadLesson } from '../lesson-texts.ts';
export { exerciseOfCode, freshCode, standingStart } from './opening.ts';

/** A survey on the desk. */
export interface OnDesk {
  readonly kept: KeptSurvey;
  readonly exercise: Exercise;
  readonly session: Session;
  /** What is in hand in the recess that is looked at. */
  readonly run: Run;
  readonly results: Results;
  readonly lesson: Lesson | null;
  /** What is in hand in each recess, by its number: one, or two of a pair. */
  readonly hands: ReadonlyMap<BayNumber, { readonly run: Run; readonly results: Results }>;
}

/** Lays a survey out, replayed to its last act. */
export function layOut(
  kept: KeptSurvey,
  exercise: Exercise,
  from: { entries: readonly Entry[]; keeper: Keeper; safe: boolean; lesson: Lesson | null },
): OnDesk {
  const session = new Session(openCore(exercise, from.entries), from.keeper);
  if (!from.safe) session.kept = 'not-kept';
  const hands = new Map(
    session.core.bays.map((bay) => {
      session.turnTo(bay);
      return [bay, { run: new Run(session), results: new Results(session.view.brief) }] as const;
    }),
  );
  session.turnTo(1);
  const first = inHand(hands, 1);
  if (from.lesson?.header.run) first.run.layOut(from.lesson.header.run);
  return { kept, exercise, session, ...first, lesson: from.lesson, hands };
}

/** Turns a survey on the desk to a recess of a pair. */
export function turnedTo(on: OnDesk, bay: BayNumber): OnDesk {
  on.session.turnTo(bay);
  return { ...on, ...inHand(on.hands, bay) };
}

function inHand(hands: OnDesk['hands'], bay: BayNumber) {
  const found = hands.get(bay);
  if (!found) throw new RangeError(`desk: there is no recess ${bay}`);
  return found;
}
