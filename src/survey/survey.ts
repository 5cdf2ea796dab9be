/**
 * The survey: whatever a field log replays to.
 *
 * Entries, bookings, notes and proposal are the learner's; planes, points and places are where things truly are, and
 * are for the survey itself and for marking alone.
 */
import type { Plane, Point } from '../geometry/plane.ts';
import type { Side, Trim } from '../recess/recess-spec.ts';
import { type Act, type ActOf, datumParts, type PlaceSaid } from './act.ts';
import { planeOf, type Standing } from './level.ts';
import type { Outcome } from './outcome.ts';
import type { Finder, FoundPlace } from './place.ts';
import { trimsPresent, type World } from './world.ts';

/** An act and what it led to; n counts from 1, refused acts too. */
export interface Entry {
  readonly n: number;
  readonly act: Act;
  readonly outcome: Outcome;
}

/** A pencil mark, where it truly is. */
export interface Mark {
  readonly mark: number;
  readonly datum: string;
  readonly side: Side;
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
  readonly on: Trim | null;
  readonly point: Point;
  /** Where the line itself fell, before the pencil's slip. */
  readonly meant: Point;
}

/** A reading: what was seen, with where and from what it truly was taken. */
export interface Reading {
  readonly n: number;
  readonly datum: string;
  readonly said: PlaceSaid;
  readonly side: Side | null;
  readonly place: FoundPlace | null;
  readonly point: Point;
  readonly plane: Plane;
  readonly edgesMm: readonly [number, number];
  /** The rule was held with its other end on the wall: its numbers run from 2000 down. */
  readonly fromFarEnd: boolean;
}

/** A tape size: what was seen, and between which places. */
export interface Span {
  readonly n: number;
  readonly from: FoundPlace;
  readonly end: FoundPlace;
  readonly seenMm: number;
}

export interface Booking {
  readonly n: number;
  readonly said: ActOf<'book'>;
  readonly struck: boolean;
}

export interface Survey {
  readonly world: World;
  /** Of a survey as it concerns one recess of a pair: the whole it was taken from, and where its frame stands in that. */
  readonly whole?: { readonly survey: Survey; readonly atXMm: number };
  readonly entries: readonly Entry[];
  /** The level that was touched last. */
  readonly standing: Standing | null;
  /** All levels that stand now. */
  readonly levels: readonly Standing[];
  /** Levels that were swapped for the one in the van. */
  readonly swapped: readonly number[];
  readonly setUps: number;
  /** Every datum as it was last thrown. */
  readonly planes: Readonly<Record<string, Plane>>;
  readonly cleared: readonly string[];
  readonly marks: readonly Mark[];
  readonly marksMade: number;
  readonly readings: readonly Reading[];
  readonly spans: readonly Span[];
  readonly bookings: readonly Booking[];
  readonly carries: readonly { readonly n: number; readonly said: ActOf<'carry'> }[];
  readonly notes: readonly string[];
  readonly answers: readonly ActOf<'say'>[];
  readonly proposal: ActOf<'propose'> | null;
  readonly handedIn: boolean;
}

/** Begins a survey: nothing stands, nothing is written. */
export function beginSurvey(world: World): Survey {
  return {
    world,
    entries: [],
    standing: null,
    levels: [],
    swapped: [],
    setUps: 0,
    planes: {},
    cleared: [],
    marks: [],
    marksMade: 0,
    readings: [],
    spans: [],
    bookings: [],
    carries: [],
    notes: [],
    answers: [],
    proposal: null,
    handedIn: false,
  };
}

/** Gives the finder of places as the survey stands. */
export function finderOf(survey: Survey): Finder {
  return {
    world: survey.world,
    trims: trimsPresent(survey.world, survey.cleared),
    thrown: (datum) => thrownPlane(survey, datum),
  };
}

/** Gives the plane of a datum if it is thrown now: by a settled level, in its own set-up. */
export function thrownPlane(survey: Pick<Survey, 'levels'>, datum: string): Plane | null {
  const standing = throwing(survey, datum);
  return standing?.settled ? planeOf(standing, datumParts(datum).kind) : null;
}

/** Gives the standing level of a datum's set-up, settled or not. */
export function throwing(survey: Pick<Survey, 'levels'>, datum: string): Standing | null {
  const { setUp } = datumParts(datum);
  return survey.levels.find((l) => l.setUp === setUp) ?? null;
}

/** Gives the level that an act is done to: the one it names, else the one touched last. */
export function levelInHand(survey: Survey, level: number | undefined): Standing | null {
  return level === undefined ? survey.standing : (survey.levels.find((l) => l.level === level) ?? null);
}

/** Gives the bookings that are not struck through. */
export function liveBookings(survey: Pick<Survey, 'bookings'>): readonly Booking[] {
  return survey.bookings.filter((b) => !b.struck);
}
