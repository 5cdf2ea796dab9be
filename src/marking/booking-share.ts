/**
 * Which bookings are right: datum, side, sign and place as they should be, and a reading behind them.
 */
import { datumParts } from '../survey/act.ts';
import { edgeDatum } from '../survey/cut-out.ts';
import { type BookedOffset, bookedOffsets } from '../survey/offsets.ts';
import { sizeRules } from '../survey/size.ts';
import { type Booking, liveBookings, type Survey } from '../survey/survey.ts';
import { middleSeen, readingBehind } from './offset-chain.ts';
import type { BookingShare } from './score.ts';
import { spanBehind } from './span-chain.ts';

/** Counts the live bookings that are right. */
export function bookingShare(survey: Survey): BookingShare {
  const offsets = new Map(bookedOffsets(survey).map((o) => [o.n, o]));
  const live = liveBookings(survey);
  const notRight = live.filter((b) => !isRight(survey, b, offsets.get(b.n))).map((b) => b.n);
  return { right: live.length - notRight.length, all: live.length, notRight };
}

function isRight(survey: Survey, b: Booking, offset: BookedOffset | undefined): boolean {
  const { valueWithinMm } = survey.world.exercise.headings.booking;
  const near = (seen: number) => Math.abs(b.said.valueMm - seen) <= valueWithinMm;
  if (offset) {
    const reading = readingBehind(survey, offset);
    return reading !== null && datumSuits(offset) && near(middleSeen(reading, survey.world.exercise.kit.rule));
  }
  if (b.said.what === 'span') {
    const span = spanBehind(survey, b);
    return span !== null && near(span.seenMm);
  }
  const entry = survey.entries[(b.said.reading ?? 0) - 1];
  const tape = entry?.act.act === 'diagonal' && entry.outcome.ok ? entry.outcome.tapeMm : undefined;
  return tape !== undefined && near(tape);
}

/** An offset's datum is the one that its side is read from. */
function datumSuits(offset: BookedOffset): boolean {
  const kind = datumParts(offset.datum).kind;
  if (offset.edge !== undefined) return kind === edgeDatum(offset.edge);
  return Object.values(sizeRules).some((rule) => rule.datum === kind && rule.sides.includes(offset.side));
}
