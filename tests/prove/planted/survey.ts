/**
 * A survey that goes right but for what is planted in it, and what each line of its ledgers must then come to.
 */

import type { Point } from '../../../src/geometry/plane.ts';
import type { LineName, Method } from '../../../src/marking/ledger.ts';
import type { Done } from '../../../src/survey/outcome.ts';
import type { RuleErrors } from '../../../src/survey/rule.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import type { Draws } from '../draws.ts';
import { datumOf, type Ground, overMade, ruled, type Term } from './ground.ts';
import { bookAt, clearAll, farFrom, type Hand, readAt, type Stand, standSquare, takeHand } from './hand.ts';
import type { PlainSize } from './plain-room.ts';

/** A line of a ledger, or the part of booking that is named rounding. */
export type LineSaid = LineName | 'rounding';

/** What a line must come to; one that is not said is 0. */
export type Expected = Readonly<Partial<Record<PlainSize, Readonly<Partial<Record<LineSaid, number>>>>>>;

export interface Planted {
  readonly survey: Survey;
  readonly expected: Expected;
  /** Sizes that were not come by through offsets. */
  readonly how?: Readonly<Partial<Record<PlainSize, Method>>>;
}

/** A way to survey that is right where it says nothing. */
export interface Way {
  readonly rule?: RuleErrors;
  readonly terms?: readonly Term[];
  /** Where the level stands, and what is done to it once it is square. */
  readonly stand?: Point;
  setUp?(hand: Hand, stand: Stand): Stand;
  /** Before the trims come off. */
  early?(hand: Hand, stand: Stand): void;
  /** Of the terms, those that are read and booked here. */
  reads?(term: Term): boolean;
  /** How an outcome is changed before it is folded in. */
  change?(outcome: Done): Done;
  /** What is seen at a distance. */
  seen?(mm: number): number;
  written?(term: Term, seenMm: number): number;
  /** After the readings. */
  late?(hand: Hand, stand: Stand): void;
  /** In terms of offsets; left out, the right rule over what was written. */
  proposed?(size: PlainSize, right: number): number;
  /** A carcass size that is not to be found, changed by so much. */
  readonly changed?: Readonly<Partial<Record<PlainSize, number>>>;
  readonly allowance?: Readonly<Partial<Record<PlainSize, number>>>;
}

/** Surveys the ground in a way, by the test's own acts, and hands in. */
export function surveyed(ground: Ground, draws: Draws, way: Way = {}): { survey: Survey; stand: Stand; hand: Hand } {
  const hand = takeHand(ground.exercise, way.rule);
  const square = standSquare(hand, way.stand ?? ground.stand);
  way.early?.(hand, square);
  clearAll(hand);
  const stand = way.setUp?.(hand, square) ?? square;
  const terms = way.terms ?? ground.terms;
  const seen = way.seen ?? ((mm: number) => mm);
  const written = way.written ?? ((_: Term, mm: number) => mm);
  for (const term of terms) if (way.reads?.(term) ?? true) readTerm(hand, { term, stand, draws, way });
  way.late?.(hand, stand);
  const right = (size: PlainSize) =>
    ruled(size, of(terms, size), (t) => written(t, seen(farFrom(stand, datumOf(size), t.point))));
  propose(hand, ground, {
    offsets: (size) => way.proposed?.(size, right(size)) ?? right(size),
    changed: way.changed ?? {},
    allowance: way.allowance ?? {},
  });
  hand.act({ act: 'hand-in' });
  return { survey: hand.survey(), stand, hand };
}

/** The terms of a size. */
export function of(terms: readonly Term[], size: PlainSize): readonly Term[] {
  return terms.filter((t) => t.size === size);
}

/** Reads a term and books what was seen; now and then without saying in which act, as people do. */
export function readTerm(hand: Hand, from: { term: Term; stand: Stand; draws: Draws; way: Way; setUp?: number }): void {
  const { term, stand, draws, way } = from;
  const kind = datumOf(term.size);
  const datum = from.setUp === undefined ? kind : `${kind}${from.setUp}`;
  const looked = readAt(hand, datum, term, way.change ? (outcome) => way.change?.(outcome) ?? outcome : undefined);
  const far = farFrom(stand, kind, term.point);
  const model = way.seen?.(far) ?? far;
  if (Math.abs(looked.mm - model) > 1e-6)
    throw new Error(`${term.side} for ${term.size}: ${looked.mm} was seen, ${model} by plain arithmetic`);
  const mm = way.written?.(term, looked.mm) ?? looked.mm;
  const reading = draws.pick(4) === 0 ? null : looked.act;
  bookAt(hand, { datum, place: looked.place, mm, words: { for: [term.size], reading } });
}

function propose(
  hand: Hand,
  ground: Ground,
  of: {
    offsets(size: PlainSize): number;
    changed: NonNullable<Way['changed']>;
    allowance: NonNullable<Way['allowance']>;
  },
): void {
  const { brief } = ground.exercise;
  const made = (size: PlainSize) => of.offsets(size) - overMade(brief, size);
  const carcass = (name: 'width' | 'height' | 'depth') => {
    const { find, nominalMm } = brief.carcassMm[name];
    return (find ? made(`carcass-${name}`) : nominalMm) + (of.changed[`carcass-${name}`] ?? 0);
  };
  const frame = brief.frame ? { frameMm: { width: made('frame-width'), height: made('frame-height') } } : {};
  hand.act({
    act: 'propose',
    carcassMm: { width: carcass('width'), height: carcass('height'), depth: carcass('depth') },
    ...frame,
    ...(Object.keys(of.allowance).length > 0 ? { allowanceMm: { ...of.allowance } } : {}),
  });
}
