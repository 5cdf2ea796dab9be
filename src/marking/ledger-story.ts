/**
 * What the ledger itself can tell of a size: for the lines that cost most, what happened, what the learner did, and what
 * to do next. Every figure is computed from the true room, the log and the sheet; no mistake is guessed at.
 */

import { signedDistance } from '../geometry/plane.ts';
import { sayLength, sayWithUnit, sayWritten } from '../recess/lengths.ts';
import type { Place } from '../recess/recess.ts';
import { axesOf, type Side } from '../recess/recess-spec.ts';
import { sideName } from '../recess/side-words.ts';
import { datumParts, saidKey } from '../survey/act.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import { sizeRules } from '../survey/size.ts';
import type { Booking } from '../survey/survey.ts';
import type { LedgerLine, LineName, SizeLedger } from './ledger.ts';
import { placeWithinMm } from './offset-chain.ts';
import { type PlacesOf, sayAt, sayBookedPlace, sayOn } from './place-words.ts';
import { sizeWords } from './size-words.ts';
import { sayStood } from './stood-words.ts';
import type { UncoveredRoom } from './uncovered-room.ts';

/** A stretch of a sentence; the learner's own figures stand apart, so that they can be set slanted. */
export type Word = string | { readonly his: string };

export interface Story {
  readonly line: LineName;
  readonly title: string;
  /** As in the ledger, + is a piece too large. */
  readonly mm: number;
  readonly happened: readonly Word[];
  readonly did: readonly Word[];
  readonly next: readonly Word[];
}

/** What stories are told from. */
export interface ToldFrom {
  readonly view: Pick<LearnerView, 'outline' | 'brief' | 'bookings' | 'readings' | 'worked' | 'marks'>;
  readonly uncovered: Pick<UncoveredRoom, 'readings' | 'lines'>;
}

/** A line that cost no more than this is not worth a story, mm. */
export const worthTellingMm = 1;

/** Tells the lines of a size that cost more than a millimetre, the costliest first, at most two. */
export function tellSize(ledger: SizeLedger, from: ToldFrom): readonly Story[] {
  return ledger.lines
    .map((line, i) => ({ line, i }))
    .filter(({ line }) => Math.abs(line.mm) > worthTellingMm && line.name !== 'allowance')
    .sort((a, b) => Math.abs(b.line.mm) - Math.abs(a.line.mm) || a.i - b.i)
    .slice(0, 2)
    .map(({ line }) => ({ line: line.name, mm: line.mm, ...tellers[line.name]({ ledger, line, from }) }));
}

/** Says where a size is decided: `left wall, 2040 up, 388 in; right wall, ...`. */
export function sayDecided(ledger: Pick<SizeLedger, 'decidedAt'>, room: PlacesOf): string {
  return ledger.decidedAt.map(({ side, at }) => sayOn(side, at, room)).join('; ');
}

interface Told {
  readonly ledger: SizeLedger;
  readonly line: LedgerLine;
  readonly from: ToldFrom;
}

type Teller = (told: Told) => Omit<Story, 'line' | 'mm'>;

const tellers: Readonly<Record<LineName, Teller>> = {
  coverage: tellCoverage,
  method: (told) => ({
    title: 'A tape cannot see walls that lean together',
    happened: [
      `A tape gives the distance between two points. What is made stands plumb and square, and walls that lean or turn the same way leave it another size. ${cost(told)}`,
    ],
    did: ['You taped from wall to wall. The figure that counted: ', ...figures(told), '.'],
    next: [sayRule(told.ledger, told.from.view.outline)],
  }),
  'set-up': tellSetUp,
  rule: tellRule,
  booking: tellBooking,
  transfer: (told) => ({
    title: 'A step was not carried over',
    happened: [`Figures from two set-ups were put together without the step between their lines. ${cost(told)}`],
    did: [`No step to ${baseOf(told)} was booked for ${notCarried(told)}.`],
    next: ['Read the step between the two lines and book it before their figures go into one sum.'],
  }),
  'not-read': (told) => ({
    title: 'A figure that no reading bears out',
    happened: [
      `A figure counts that has no reading behind it, or that lies where the work does not reach. ${cost(told)}`,
    ],
    did: ['The figures that counted: ', ...figures(told), '.'],
    next: ['Book what the rule shows, at the place where it was held. Strike through what was not read.'],
  }),
  'working-out': tellWorkingOut,
  allowance: (told) => ({
    title: 'An allowance that you gave',
    happened: [`You allowed for what was not read. ${cost(told)}`],
    did: ['You said so when you sent the sizes.'],
    next: ['Read the places that you allow for, where a rule can reach them.'],
  }),
  'not-surveyed': (told) => ({
    title: 'Nothing was read for it',
    happened: [`No reading on the sheet gives this size. ${cost(told)}`],
    did: ['You sent ', { his: sayWritten(told.ledger.proposedMm ?? 0) }, '.'],
    next: [sayRule(told.ledger, told.from.view.outline)],
  }),
};

function tellCoverage(told: Told): Omit<Story, 'line' | 'mm'> {
  const { ledger, from } = told;
  const { outline } = from.view;
  const { counts } = sizeRules[ledger.size];
  const booked = from.uncovered.readings.filter(({ n }) => isBookedFor(from.view, ledger.size, n));
  const sides = ledger.decidedAt.map((d) => heldAgainst(booked, counts, d));
  const unread = sides.filter((s) => !s.near || s.near.farMm > placeWithinMm);
  const missed = [...sides].sort((a, b) => b.pastMm - a.pastMm || sides.indexOf(a) - sides.indexOf(b))[0];
  const where = ledger.decidedAt.map(({ side, at }) => `on the ${sayOn(side, at, outline)}`).join(', and ');
  return {
    title: 'The places that decide were not read',
    happened: [`The ${sizeWords[ledger.size]} is decided ${where}. ${sayUnread(sides, unread, outline)}${cost(told)}`],
    did:
      ledger.how === 'spans'
        ? ['You taped from wall to wall. The figure that counted: ', ...figures(told), '.']
        : sides.flatMap((s, i) => [i > 0 ? ' ' : '', ...sayNearest(s, told)]),
    next: missed ? sayWouldRead(told, missed) : [],
  };
}

function tellRule(told: Told): Omit<Story, 'line' | 'mm'> {
  const tape = told.ledger.how === 'spans';
  const what = tape ? 'tape' : 'rule';
  return {
    title: `The ${what} was not the distance`,
    happened: [
      `At the figures that count, what stood on the ${what} was not the distance. Part is this ${what}’s own error, part is chance. ${cost(told)}`,
    ],
    did: ['The figures that counted: ', ...figures(told), '.'],
    next: [
      tape
        ? 'A tape bends short in a corner. Read from a line with the rule where a size has to be true.'
        : 'Hold the rule square to the line. Read the figures that count a second time and book both: chance shrinks, the rule’s own error stays.',
    ],
  };
}

function tellSetUp(told: Told): Omit<Story, 'line' | 'mm'> {
  const { ledger, from } = told;
  const { datum: kind } = sizeRules[ledger.size];
  const used = countingBookings(told).flatMap((b) => (b.said.datum === undefined ? [] : [b.said.datum]));
  const name = used[0] ?? kind;
  const plane = from.uncovered.lines.find((l) => l.datum === name);
  const booked = from.view.bookings.filter((b) => !b.struck && b.said.datum === name).length;
  return {
    title: 'The lines stood off true',
    happened: [`${plane ? sayStood(plane, from.view.brief) : 'The lines stood off true'}. ${cost(told)}`],
    did: [
      `You booked ${counted(booked, 'figure')} from ${name}, with ${counted(from.view.marks.length, 'mark')} in the room.`,
    ],
    next: [
      kind === 'L'
        ? 'Let the level settle, and read back to a mark before you go on from a new place.'
        : 'Line up on two places as far apart as they go, and look at both again before the first reading and after the last.',
    ],
  };
}

function tellBooking(told: Told): Omit<Story, 'line' | 'mm'> {
  const rounding = Math.abs(told.line.ofWhichRoundingMm ?? 0);
  const seen = countingBookings(told).flatMap((b, i): Word[] => {
    const reading = told.from.view.readings.find((r) => r.n === b.said.reading);
    if (!reading) return [];
    const middle = (reading.edgesMm[0] + reading.edgesMm[1]) / 2;
    return [
      i > 0 ? '; ' : '',
      { his: sayWritten(b.said.valueMm) },
      ` where the middle of the line stood at ${sayLength(middle)} (${sayBookedPlace(b.said.place, told.from.view.outline)})`,
    ];
  });
  return {
    title: 'What was written is not what was seen',
    happened: [
      `At the figures that count, what was written and what stood on the rule differ. ${cost(told)} Rounding explains ${sayLength(rounding)}.`,
    ],
    did: seen.length > 0 ? ['You wrote ', ...seen, '.'] : ['The figures that counted: ', ...figures(told), '.'],
    next: ['Read both edges of the line, and write the number half-way between them.'],
  };
}

function tellWorkingOut(told: Told): Omit<Story, 'line' | 'mm'> {
  const { ledger, from } = told;
  if (ledger.how === 'as-it-stands')
    return {
      title: 'A given size was changed',
      happened: [`The brief gives this size, ${sayLength(ledger.keyMm)}, to be made as it stands. ${cost(told)}`],
      did: ['You sent ', { his: sayWritten(ledger.proposedMm ?? 0) }, '.'],
      next: ['Send a size that is not to be found as the brief has it.'],
    };
  const worked = from.view.worked.find((w) => w.size === ledger.size);
  const terms = worked?.terms.filter((t) => t.counts) ?? [];
  const sum: Word[] = terms.flatMap((t, i) => [i > 0 ? ' + ' : '', { his: sayLength(t.valueMm) }]);
  const over = `${ledger.overMadeMm < 0 ? ' + ' : ' − '}${sayLength(Math.abs(ledger.overMadeMm))}`;
  const gives =
    worked && worked.workshopMm !== null
      ? [...sum, `${over} gives ${sayWritten(worked.workshopMm)}; you sent `]
      : ['You sent '];
  return {
    title: 'The sum went another way',
    happened: [`What was sent is not what the figures on the sheet give. ${cost(told)}`],
    did: [...gives, { his: sayWritten(ledger.proposedMm ?? 0) }, '.'],
    next: [
      sizeRules[ledger.size].counts === 'least'
        ? 'Add the smallest of each side, take off what the brief asks, and round down as finely as the rule is read.'
        : 'Add the largest of each side, put on the least stock for both edges, and round up as finely as the rule is read.',
    ],
  };
}

interface Near {
  readonly at: Place;
  /** Along the surface, mm. */
  readonly farMm: number;
}

interface DecidedSide {
  readonly side: Side;
  readonly at: Place;
  /** The reading that was held nearest to it, along the surface; null where none was. */
  readonly near: Near | null;
  /** How far the place that decides stands past the best of those read: further in, or for a frame further out, mm. */
  readonly pastMm: number;
}

/** Holds a place that decides against the readings of the size. */
function heldAgainst(
  readings: UncoveredRoom['readings'],
  counts: 'least' | 'most',
  decided: { side: Side; at: Place },
): DecidedSide {
  const { u, v, across } = axesOf(decided.side);
  const inwards = decided.side === 'left' || decided.side === 'floor' ? 1 : -1;
  const sign = counts === 'least' ? inwards : 0 - inwards;
  let near: Near | null = null;
  let pastMm = Infinity;
  for (const r of readings) {
    if (r.side !== decided.side) continue;
    const at = { x: r.xMm, y: r.yMm, z: r.zMm };
    const [du, dv] = [at[u] - decided.at[u], at[v] - decided.at[v]];
    const farMm = Math.sqrt(du * du + dv * dv);
    if (!near || farMm < near.farMm) near = { at, farMm };
    pastMm = Math.min(pastMm, sign * (decided.at[across] - at[across]));
  }
  return { ...decided, near, pastMm };
}

/** Whether a reading stands on the sheet for a size: named by a live booking, or booked at its place from its datum. */
function isBookedFor(view: ToldFrom['view'], size: SizeLedger['size'], n: number): boolean {
  const reading = view.readings.find((r) => r.n === n);
  const terms = view.worked.find((w) => w.size === size)?.terms ?? [];
  return view.bookings.some(
    ({ n: booking, said }) =>
      terms.some((t) => t.bookings.includes(booking)) &&
      (said.reading === n ||
        (reading !== undefined && said.datum === reading.datum && saidKey(said.place) === saidKey(reading.place))),
  );
}

function sayUnread(sides: readonly DecidedSide[], unread: readonly DecidedSide[], room: PlacesOf): string {
  if (unread.length === 0) return '';
  if (unread.length === sides.length) return 'No reading was there. ';
  return `No reading was there on the ${unread.map((s) => sideName(room, s.side)).join(' or the ')}. `;
}

function sayNearest({ side, near, pastMm }: DecidedSide, told: Told): Word[] {
  if (!near) return [`Nothing was read on the ${sideName(told.from.view.outline, side)}.`];
  const least = sizeRules[told.ledger.size].counts === 'least';
  const past =
    Math.abs(pastMm) < 0.05
      ? 'it stands no further than what you read'
      : `it stands ${sayLength(Math.abs(pastMm))} further ${pastMm > 0 === least ? 'into' : 'out of'} the recess than the best that you read`;
  return [
    `On the ${sideName(told.from.view.outline, side)} your nearest reading to it was ${sayLength(Math.round(near.farMm))} away, at ${sayAt(side, near.at, told.from.view.brief.mouthMm)}; ${past}.`,
  ];
}

/** Where to hold the rule, and what it would have read from the line as it last stood. */
function sayWouldRead({ ledger, from }: Told, missed: DecidedSide): Word[] {
  const kind = sizeRules[ledger.size].datum;
  const booked = from.view.bookings.find(
    (b) => !b.struck && b.said.datum !== undefined && 'surface' in b.said.place && b.said.place.surface === missed.side,
  );
  const name =
    booked?.said.datum !== undefined && datumParts(booked.said.datum).kind === kind ? booked.said.datum : kind;
  const plane = from.uncovered.lines.find((l) => l.datum === name);
  const would = plane
    ? ` From ${name} the rule would have shown ${sayLength(Math.abs(signedDistance(plane, missed.at)))}.`
    : '';
  return [`Hold the rule at the ${sayOn(missed.side, missed.at, from.view.outline)} as well.${would}`];
}

/** What a line made of the size, as a sentence. */
function cost({ ledger, line }: Told): string {
  return `It made the ${sizeWords[ledger.size]} ${sayWithUnit(Math.abs(line.mm))} too ${line.mm > 0 ? 'large' : 'small'}.`;
}

function counted(count: number, noun: string): string {
  return `${count === 0 ? 'no' : count} ${noun}${count === 1 ? '' : 's'}`;
}

function countingBookings({ ledger, from }: Told): Booking[] {
  return from.view.bookings.filter((b) => ledger.counting.includes(b.n));
}

function figures(told: Told): Word[] {
  const { from } = told;
  const counting = countingBookings(told);
  if (counting.length === 0) return ['none'];
  return counting.flatMap((b, i): Word[] => [
    i > 0 ? ', ' : '',
    { his: sayWritten(b.said.valueMm) },
    ` (${sayBookedPlace(b.said.place, from.view.outline)})`,
  ]);
}

function baseOf({ ledger, from }: Told): string {
  return from.view.worked.find((w) => w.size === ledger.size)?.base ?? 'the first line';
}

function notCarried({ ledger, from }: Told): string {
  return from.view.worked.find((w) => w.size === ledger.size)?.notCarried.join(', ') || 'the second line';
}

/** The right rule, as something to do. */
function sayRule(ledger: SizeLedger, room: PlacesOf): string {
  const { datum, sides, counts } = sizeRules[ledger.size];
  const which = counts === 'least' ? 'smallest' : 'largest';
  const to = sides.map((side) => sideName(room, side)).join(' and the ');
  return `Read from ${datum} to the ${to}, and ${sides.length > 1 ? `add the ${which} of each side` : `take the ${which}`}.`;
}
