/**
 * The survey core of a page: it holds the hidden world in a closure and gives out what the learner may see, no more.
 *
 * Marks and the uncovered room are given out only when the survey has been handed in.
 */
import type { BayNumber } from '../../exercise/bays.ts';
import type { Exercise } from '../../exercise/exercise.ts';
import { type Comparison, compareSurveys } from '../../marking/compare.ts';
import { type Report, reportOf } from '../../marking/report.ts';
import { type UncoveredRoom, uncoverRoom } from '../../marking/uncovered-room.ts';
import { type PlaceAsked, type WouldRead, wouldHaveRead } from '../../marking/would-read.ts';
import type { Act } from '../../survey/act.ts';
import { fold, perform } from '../../survey/acting.ts';
import { actInRoom, surveyIn } from '../../survey/in-bay.ts';
import { type LearnerView, learnerView } from '../../survey/learner-view.ts';
import type { Outcome } from '../../survey/outcome.ts';
import { beginSurvey, type Entry } from '../../survey/survey.ts';
import { openWorld } from '../../survey/world.ts';

/** An act with what it led to. */
interface Acted {
  readonly act: Act;
  readonly outcome: Outcome;
}

export interface SurveyCore {
  /** The recesses here, from left to right: one, or two of a pair. */
  readonly bays: readonly BayNumber[];
  /** What the learner sees of one recess, in its own frame. */
  view(bay?: BayNumber): LearnerView;
  /** Acts in one recess's frame, and gives the entry for the log. */
  act(act: Act, bay?: BayNumber): Entry;
  entries(): readonly Entry[];
  /** The report; null before hand-in. */
  report(): Report | null;
  /** The true room; null before hand-in. */
  uncovered(): UncoveredRoom | null;
  /** This survey against another of the same room; null before hand-in, or where the other is not handed in. */
  compareWith(other: readonly Acted[]): Comparison | null;
  /** What the rule would have read at a place of a recess, errors off; null before hand-in. */
  wouldRead(asked: PlaceAsked, bay?: BayNumber): WouldRead | null;
}

/**
 * Opens a core on an exercise, and replays what was done before.
 *
 * @throws {RangeError} if the exercise cannot be built or an entry cannot have had its outcome
 */
export function openCore(exercise: Exercise, before: readonly Acted[] = []): SurveyCore {
  const start = beginSurvey(openWorld(exercise));
  const folded = (acts: readonly Acted[]) => acts.reduce((now, a) => fold(now, a.act, a.outcome), start);
  let survey = folded(before);
  return {
    bays: survey.world.bays.map((b) => b.bay),
    view: (bay = 1) => learnerView(surveyIn(survey, bay)),
    act: (act, bay = 1) => {
      survey = perform(survey, actInRoom(survey, bay, act)).survey;
      return survey.entries.at(-1) as Entry;
    },
    entries: () => survey.entries,
    report: () => (survey.handedIn ? reportOf(survey) : null),
    uncovered: () => (survey.handedIn ? uncoverRoom(survey) : null),
    compareWith: (other) => {
      const its = folded(other);
      if (!survey.handedIn || !its.handedIn) return null;
      return compareSurveys({ survey, report: reportOf(survey) }, { survey: its, report: reportOf(its) });
    },
    wouldRead: (asked, bay = 1) => (survey.handedIn ? wouldHaveRead(survey, asked, bay) : null),
  };
}
