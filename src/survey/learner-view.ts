/**
 * What a learner sees of a survey: the brief, the kit, what was said and seen and written, and where the level stands by
 * the learner's own reckoning. It is made from acts and outcomes alone and holds nothing of the hidden room.
 */
import type { Brief } from '../exercise/brief.ts';
import { type Aids, type Kit, statedKit } from '../exercise/kit.ts';
import { type Outline, outlineOf } from '../exercise/outline.ts';
import type { Point } from '../geometry/plane.ts';
import type { Fate, Trim } from '../recess/recess-spec.ts';
import { type ActOf, datumParts, type PlaceSaid, type SurfacePlace } from './act.ts';
import { type ClosingCheck, closingChecks } from './closing-checks.ts';
import { ofBay } from './in-bay.ts';
import type { Seen } from './outcome.ts';
import { type Reckoned, type ReckonedLevel, reckonedOf, reckonWhole } from './reckoning.ts';
import type { Booking, Survey } from './survey.ts';
import { type WorkedSize, workOut } from './working-out.ts';

export interface SeenTrim extends Trim {
  readonly fate: Fate;
  readonly cleared: boolean;
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
}

export interface SeenMark {
  readonly mark: number;
  readonly datum: string;
  readonly place: SurfacePlace;
  /** Where it was reckoned to be when it was made, in the hand's frame. */
  readonly at?: Point;
}

export interface SeenReading {
  readonly n: number;
  readonly datum: string;
  readonly place: PlaceSaid;
  readonly edgesMm: readonly [number, number];
  readonly readOutMm: number | null;
  readonly on: string;
}

export interface SeenTape {
  readonly n: number;
  readonly act: ActOf<'span'> | ActOf<'diagonal'>;
  readonly tapeMm: number;
}

/** A check of a level that was gone through, or the verdict on it. */
export interface SeenCheck {
  readonly n: number;
  readonly act: ActOf<'check'>;
  /** Marks on the practice wall as they were read; none for a verdict. */
  readonly practiceMm: readonly number[];
  readonly swapped: boolean;
}

/** What a tool showed: the straight-edge, the spirit level, 3-4-5. */
export interface SeenTool {
  readonly n: number;
  readonly act: ActOf<'edge'> | ActOf<'plumb'> | ActOf<'three-four-five'>;
  readonly toolMm: readonly number[];
}

export interface LearnerView {
  readonly code: string | null;
  readonly outline: Outline;
  readonly brief: Brief;
  readonly kit: Kit;
  readonly aids: Aids;
  readonly trims: readonly SeenTrim[];
  readonly acts: number;
  /** By the learner's own reckoning, in the hand's frame. */
  readonly level: Reckoned | null;
  /** All levels that stand, the same way; the one touched last at the end. */
  readonly levels: readonly ReckonedLevel[];
  /** What the lines were last seen to do at marks and along the reference. */
  readonly seen: readonly Seen[];
  readonly marks: readonly SeenMark[];
  readonly readings: readonly SeenReading[];
  readonly tapes: readonly SeenTape[];
  readonly instrument: readonly SeenCheck[];
  readonly tools: readonly SeenTool[];
  readonly bookings: readonly Booking[];
  readonly carries: Survey['carries'];
  readonly notes: readonly string[];
  readonly answers: Survey['answers'];
  readonly worked: readonly WorkedSize[];
  readonly checks: readonly ClosingCheck[];
  readonly proposal: ActOf<'propose'> | null;
  readonly handedIn: boolean;
}

/** Gives what the learner sees of a survey. */
export function learnerView(survey: Survey): LearnerView {
  const { exercise } = survey.world;
  const { levels, marks } = reckonWhole(exercise, survey.entries);
  const last = levels.at(-1);
  return {
    code: exercise.code,
    outline: outlineOf(exercise),
    brief: exercise.brief,
    kit: statedKit(exercise.kit),
    aids: exercise.aids,
    trims: survey.world.bays.flatMap((b) =>
      b.exercise.spec.trims.map((t) =>
        ofBay(b.bay, {
          ...t,
          fate: b.exercise.brief.fates[t.name] ?? 'stays',
          cleared: survey.cleared.includes(t.name),
        }),
      ),
    ),
    acts: survey.entries.length,
    level: last ? reckonedOf(last) : null,
    levels,
    seen: last?.seen ?? [],
    marks: seenMarks(survey, marks),
    readings: seenReadings(survey),
    tapes: seenTapes(survey),
    instrument: seenChecks(survey),
    tools: seenTools(survey),
    bookings: survey.bookings,
    carries: survey.carries,
    notes: survey.notes,
    answers: survey.answers,
    worked: workOut(survey),
    checks: closingChecks(survey),
    proposal: survey.proposal,
    handedIn: survey.handedIn,
  };
}

/** Says whether a datum is thrown now, as the learner knows it. */
export function isThrown(view: Pick<LearnerView, 'levels'>, datum: string): boolean {
  return view.levels.some((l) => l.settled && l.setUp === datumParts(datum).setUp);
}

function seenMarks(survey: Survey, reckoned: ReadonlyMap<number, Point>): SeenMark[] {
  const live = new Set(survey.marks.map((m) => m.mark));
  return survey.entries.flatMap(({ act, outcome }) => {
    if (act.act !== 'mark' || !outcome.ok || outcome.mark === undefined || !live.has(outcome.mark)) return [];
    if (!('surface' in act.place) || act.place.along === undefined) return [];
    const at = reckoned.get(outcome.mark);
    return [{ mark: outcome.mark, datum: act.place.along, place: act.place, ...(at && { at }) }];
  });
}

function seenReadings(survey: Survey): SeenReading[] {
  return survey.entries.flatMap(({ n, act, outcome }) => {
    if (act.act !== 'read' || !outcome.ok || !outcome.edgesMm) return [];
    const { edgesMm, readOutMm, on } = outcome;
    return [{ n, datum: act.datum, place: act.place, edgesMm, readOutMm: readOutMm ?? null, on: on ?? '' }];
  });
}

function seenTapes(survey: Survey): SeenTape[] {
  return survey.entries.flatMap(({ n, act, outcome }) =>
    (act.act === 'span' || act.act === 'diagonal') && outcome.ok && outcome.tapeMm !== undefined
      ? [{ n, act, tapeMm: outcome.tapeMm }]
      : [],
  );
}

function seenChecks(survey: Survey): SeenCheck[] {
  return survey.entries.flatMap(({ n, act, outcome }) =>
    act.act === 'check' && outcome.ok
      ? [{ n, act, practiceMm: outcome.practiceMm ?? [], swapped: outcome.swapped ?? false }]
      : [],
  );
}

function seenTools(survey: Survey): SeenTool[] {
  return survey.entries.flatMap(({ n, act, outcome }) => {
    if (!outcome.ok || (act.act !== 'edge' && act.act !== 'plumb' && act.act !== 'three-four-five')) return [];
    return [{ n, act, toolMm: outcome.toolMm ?? (outcome.tapeMm === undefined ? [] : [outcome.tapeMm]) }];
  });
}
