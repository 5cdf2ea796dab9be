/**
 * A scripted learner's hand: acts through the same door as people, sees the outcomes, judges and writes.
 */

import { unitsOf } from '../exercise/kit.ts';
import { readTo, type Units } from '../recess/lengths.ts';
import type { Act, SurfacePlace } from '../survey/act.ts';
import { perform } from '../survey/acting.ts';
import type { Done, Outcome } from '../survey/outcome.ts';
import type { SizeName } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';

export interface Hand {
  /** The survey as it stands. */
  now(): Survey;
  /** Acts, and gives what came of it. */
  act(act: Act): Outcome;
}

/** A reading that was booked. */
export interface Booked {
  readonly booking: number;
  readonly valueMm: number;
}

/** What a booking says beside its value. */
export interface BookingWords {
  readonly check?: boolean;
  readonly for?: readonly SizeName[];
}

/** What a hand does that is not square to the line, its middle, or the place that it names. */
export interface Habit {
  /** The slopes that the rule is held at. */
  readonly skewMmPerM?: readonly [number, number];
  /** What is written of a line's two edges; left out, their middle to half a graduation. */
  written?(edgesMm: readonly [number, number], units: Units): number;
  /** From which datum, and of which place, it is booked; left out, as it was read. */
  bookedAs?(read: { datum: string; place: SurfacePlace }): { datum: string; place: SurfacePlace };
}

/** Takes a survey in hand. */
export function takeInHand(start: Survey): Hand {
  let survey = start;
  return {
    now: () => survey,
    act: (act) => {
      const done = perform(survey, act);
      survey = done.survey;
      return done.outcome;
    },
  };
}

/** Gives the number of the last act. */
export function lastAct(hand: Hand): number {
  return hand.now().entries.length;
}

/** Judges the middle of a line on the rule, to half a graduation. */
export function judged(edgesMm: readonly [number, number], units: Units = 'mm'): number {
  return readTo(units, (edgesMm[0] + edgesMm[1]) / 2);
}

/** Gives the unit that the hand's rule is marked in. */
export function unitsInHand(hand: Hand): Units {
  return unitsOf(hand.now().world.exercise.kit);
}

/** Reads an offset and books it; null when it was refused, or the rule's end was not on what is wanted. */
export function readAndBook(
  hand: Hand,
  from: {
    datum: string;
    place: SurfacePlace;
    words?: BookingWords;
    wanted?: (seen: Done) => boolean;
    habit?: Habit;
  },
): Booked | null {
  const { skewMmPerM, bookedAs } = from.habit ?? {};
  const units = unitsInHand(hand);
  const written = from.habit?.written ?? judged;
  const skew = skewMmPerM ? { skewMmPerM: [...skewMmPerM] as [number, number] } : {};
  const seen = hand.act({ act: 'read', datum: from.datum, place: from.place, ...skew });
  if (!seen.ok || !seen.edgesMm || (from.wanted && !from.wanted(seen))) return null;
  const reading = lastAct(hand);
  const valueMm = written(seen.edgesMm, units);
  const read = { datum: from.datum, place: from.place };
  const booked = hand.act({
    act: 'book',
    what: 'offset',
    valueMm,
    ...(bookedAs?.(read) ?? read),
    reading,
    ...wordsOf(from.words),
  });
  return booked.ok ? { booking: lastAct(hand), valueMm } : null;
}

/** Tapes from a place to the opposite side and books it to the half millimetre. */
export function tapeAndBook(
  hand: Hand,
  from: { place: SurfacePlace; to: 'left' | 'right' | 'floor' | 'ceiling'; words?: BookingWords },
): Booked | null {
  const seen = hand.act({ act: 'span', place: from.place, to: from.to });
  if (!seen.ok || seen.tapeMm === undefined) return null;
  const reading = lastAct(hand);
  const valueMm = readTo(unitsInHand(hand), seen.tapeMm);
  hand.act({ act: 'book', what: 'span', valueMm, place: from.place, to: from.to, reading, ...wordsOf(from.words) });
  return { booking: lastAct(hand), valueMm };
}

/** The words of a booking as an act carries them. */
function wordsOf(words: BookingWords | undefined): { check?: boolean; for?: SizeName[] } {
  return { ...(words?.for ? { for: [...words.for] } : {}), ...(words?.check ? { check: true } : {}) };
}
