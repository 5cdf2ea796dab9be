/**
 * Learners whose hand slips: at the edge of the line, a rule held askew, a decade misread, left and right swapped, a tape
 * bent into the corner; and one who never closes, so that a slip is let through.
 */
import { readTo, type Units } from '../../recess/lengths.ts';
import type { SizeName } from '../../survey/size.ts';
import { forWorkshop, offsetsOverMade } from '../../survey/size.ts';
import { liveBookings } from '../../survey/survey.ts';
import { type Hand, judged, tapeAndBook } from '../hand.ts';
import { carefulDensity, type PlannedReading, planReadings } from '../reading-plan.ts';
import { beginRight, onSideWall, type Slip } from './method.ts';

/** Reads the near edge of the line instead of its middle. */
export const nearEdge: Slip = { habit: () => ({ written: ([low], units) => readTo(units, low) }) };

/** Holds the rule askew, its end dipping by an eighth of its length. */
export const askew: Slip = {
  habit: (_, reading) => (isLow(reading) ? {} : { skewMmPerM: [0, -125] }),
};

/** Misreads the decade once. */
export const decade: Slip = { habit: (_, reading, i) => slipOfTen(reading, i) };

/** Misreads the decade once, and closes on nothing. */
export const neverCloses: Slip = { habit: (_, reading, i) => slipOfTen(reading, i), closes: false };

/** Books what was read on the left as the right and the other way about, all along one height. */
export const swapsSides: Slip = {
  begins: (hand) => beginRight(hand, { xMm: 45 }),
  habit: (hand, reading) => {
    if (!onSideWall(reading) || reading.place.zMm !== swappedHeight(hand, reading)) return {};
    const other = reading.place.surface === 'left' ? 'right' : 'left';
    return { bookedAs: ({ datum, place }) => ({ datum, place: { ...place, surface: other } }) };
  },
};

/** Tapes all widths from wall to wall, into the corners. */
export const tapesWidths: Slip = {
  plans: (readings) => readings.filter((r) => !onSideWall(r)),
  after: (hand) => {
    const { brief } = hand.now().world.exercise;
    for (const r of planReadings(brief, carefulDensity)) {
      if (r.place.surface !== 'left') continue;
      const place = r.place.along === undefined ? r.place : { surface: r.place.surface, yMm: 0, zMm: r.place.zMm ?? 0 };
      tapeAndBook(hand, { place, to: 'right', ...(r.for ? { words: { for: r.for } } : {}) });
    }
  },
  sizes: (hand) => ({ ...taped(hand, 'carcass-width', Math.min), ...taped(hand, 'frame-width', Math.max) }),
};

/** The planned reading at which the decade is misread: half-way up the left wall, half-way in. */
const slippedAt = 10;

function slipOfTen(reading: PlannedReading, i: number) {
  return i === slippedAt && onSideWall(reading)
    ? { written: (edges: readonly [number, number], units: Units) => judged(edges, units) - 10 }
    : {};
}

function isLow(reading: PlannedReading): boolean {
  return reading.place.zMm !== undefined && reading.place.zMm < 60;
}

function swappedHeight(hand: Hand, reading: PlannedReading): number | undefined {
  const { brief } = hand.now().world.exercise;
  const alike = planReadings(brief, carefulDensity).filter(
    (r) => r.place.surface === reading.place.surface && r.place.along === reading.place.along,
  );
  const heights = [...new Set(alike.map((r) => r.place.zMm ?? 0))];
  return heights.sort((a, b) => a - b)[3];
}

function taped(hand: Hand, size: SizeName, pick: (...v: number[]) => number): Partial<Record<SizeName, number>> {
  const { brief } = hand.now().world.exercise;
  const values = liveBookings(hand.now())
    .filter((b) => b.said.what === 'span' && b.said.check !== true && b.said.for?.includes(size))
    .map((b) => b.said.valueMm);
  return values.length === 0 ? {} : { [size]: forWorkshop(size, pick(...values) - offsetsOverMade(size, brief)) };
}
