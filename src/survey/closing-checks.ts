/**
 * Closing checks: redundant readings that must agree with others, and what they miss by.
 */
import type { Brief } from '../exercise/brief.ts';
import type { Side } from '../recess/recess-spec.ts';
import { axesOf } from '../recess/recess-spec.ts';
import { eachBay, ofBay } from './in-bay.ts';
import { type BookedOffset, bookedOffsets, handPlace, samePlace } from './offsets.ts';
import { pieceOf, type SizeName, sizeRules, sizesOf } from './size.ts';
import { type Booking, liveBookings, type Survey } from './survey.ts';

export interface ClosingCheck {
  readonly kind: 'width' | 'height' | 'again' | 'diagonal';
  /** The booking that closes it, and those it is held against. */
  readonly booking: number;
  readonly against: readonly number[];
  readonly predictedMm: number;
  readonly directMm: number;
  /** Direct less predicted, mm. */
  readonly misclosureMm: number;
  /** The sizes that it checks. */
  readonly sizes: readonly SizeName[];
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
}

const placeWithinMm = 20;

/** Gives every closing check that stands on the sheet, in the order of booking; of a pair, the left recess's first. */
export function closingChecks(survey: Survey): readonly ClosingCheck[] {
  return eachBay(survey).flatMap(({ bay, survey: own }) => checksOf(own).map((c) => ofBay(bay, c)));
}

function checksOf(survey: Survey): readonly ClosingCheck[] {
  const offsets = bookedOffsets(survey);
  const { brief } = survey.world.exercise;
  return liveBookings(survey)
    .flatMap((b): ClosingCheck[] => {
      if (b.said.what === 'span') return spanCheck(survey, b, offsets);
      if (b.said.what === 'diagonal') return diagonalCheck(survey, b, offsets);
      return againCheck(survey, b, offsets);
    })
    .map((c) => withMore(c, { brief, offsets }));
}

/** Ends of a run and shelves are checked by what checks the walls that they are worked out from. */
function withMore(c: ClosingCheck, of: { brief: Brief; offsets: readonly BookedOffset[] }): ClosingCheck {
  const sides = of.offsets.filter((o) => c.against.includes(o.n)).map((o) => o.side);
  const more = sizesOf(of.brief).filter((size) => !/^(carcass|frame|lining)/.test(size));
  const checked = more.filter((size) => sizeRules[size].sides.some((side) => sides.includes(side)));
  return checked.length > 0 ? { ...c, sizes: [...c.sizes, ...checked] } : c;
}

function spanCheck(survey: Survey, b: Booking, offsets: readonly BookedOffset[]): ClosingCheck[] {
  const { place, to } = b.said;
  if (!('surface' in place) || typeof to !== 'string') return [];
  const at = handPlace(survey, place);
  const one = nearest(offsets, place.surface, at);
  const other = nearest(offsets, to, at);
  if (!one || !other || one.datum !== other.datum) return [];
  const wide = place.surface === 'left' || place.surface === 'right';
  const sizes = checkedBy(survey, wide ? 'left' : 'floor');
  return [
    check(b, { kind: wide ? 'width' : 'height', predictedMm: one.valueMm + other.valueMm, of: [one, other], sizes }),
  ];
}

/** A diagonal in plan: the width between two places at one height, and how far apart they are into the recess. */
function diagonalCheck(survey: Survey, b: Booking, offsets: readonly BookedOffset[]): ClosingCheck[] {
  const { place, to } = b.said;
  if (!('surface' in place) || typeof to !== 'object' || !('surface' in to)) return [];
  const a = handPlace(survey, place);
  const c = handPlace(survey, to);
  const one = nearest(offsets, place.surface, a);
  const other = nearest(offsets, to.surface, c);
  const opposite =
    axesOf(place.surface).across === 'x' && axesOf(to.surface).across === 'x' && place.surface !== to.surface;
  if (!one || !other || !opposite || one.datum !== other.datum) return [];
  const across = one.valueMm + other.valueMm;
  const deep = a.u - c.u;
  const up = a.v - c.v;
  const predictedMm = Math.sqrt(across * across + deep * deep + up * up);
  return [check(b, { kind: 'diagonal', predictedMm, of: [one, other], sizes: [`${piece(survey)}-width`] })];
}

/** An offset read again: the second booking of a place closes on the first. */
function againCheck(survey: Survey, b: Booking, offsets: readonly BookedOffset[]): ClosingCheck[] {
  const again = offsets.find((o) => o.n === b.n);
  if (!again?.check) return [];
  const first = offsets.find(
    (o) =>
      !o.check &&
      o.side === again.side &&
      o.datum === again.datum &&
      o.edge === again.edge &&
      samePlace(o.at, again.at, placeWithinMm),
  );
  return first
    ? [check(b, { kind: 'again', predictedMm: first.said.valueMm, of: [first], sizes: checkedBy(survey, again.side) })]
    : [];
}

/** The sizes that an offset to a side checks. */
function checkedBy(survey: Survey, side: Side): readonly SizeName[] {
  const box = piece(survey);
  if (side === 'back') return [`${box}-depth`];
  if (side === 'slope') return [];
  const dimension = side === 'left' || side === 'right' ? 'width' : 'height';
  return box === 'carcass' ? [`carcass-${dimension}`, `frame-${dimension}`] : [`lining-${dimension}`];
}

function piece(survey: Survey) {
  return pieceOf(survey.world.exercise.brief);
}

function nearest(offsets: readonly BookedOffset[], side: Side, at: { u: number; v: number }): BookedOffset | null {
  return (
    offsets.find((o) => !o.check && o.edge === undefined && o.side === side && samePlace(o.at, at, placeWithinMm)) ??
    null
  );
}

function check(
  b: Booking,
  of: Pick<ClosingCheck, 'kind' | 'predictedMm' | 'sizes'> & { of: readonly BookedOffset[] },
): ClosingCheck {
  const directMm = b.said.valueMm;
  return {
    kind: of.kind,
    booking: b.n,
    against: of.of.map((o) => o.n),
    predictedMm: of.predictedMm,
    directMm,
    misclosureMm: directMm - of.predictedMm,
    sizes: of.sizes,
  };
}
