/**
 * The careful learner: clears what comes off, lines up on the reference, marks, reads a dense plan, reads again round
 * what is tightest, closes, works out by the right rules, asks whether it stands up.
 */
import type { Fate } from '../recess/recess-spec.ts';
import { axesOf, beginsAtMouth } from '../recess/recess-spec.ts';
import type { SurfacePlace } from '../survey/act.ts';
import { closingChecks } from '../survey/closing-checks.ts';
import { type BookedOffset, bookedOffsets } from '../survey/offsets.ts';
import type { Done } from '../survey/outcome.ts';
import { meetsBare, pieceOf, type SizeName } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { workOut, workOutSize } from '../survey/working-out.ts';
import { handsByBay, proposeTogether } from './bay-hand.ts';
import { type Habit, type Hand, readAndBook, takeInHand, tapeAndBook } from './hand.ts';
import { checkInstrument, type Shown } from './instrument.ts';
import { canRestart } from './later-lines.ts';
import { bringToReference, standOnReference } from './lining-up.ts';
import { proposeWorked } from './proposing.ts';
import { carcassDepths, carcassHeights, type Density, type PlannedReading, planReadings } from './reading-plan.ts';
import { planUnderSlope, standingPlace } from './sloped-plan.ts';
import { keepWatch, type Watch } from './watch.ts';

/** Surveys a recess with care, by a plan of a density; of a pair, the one after the other, from one line past the breast. */
export function surveyWithCare(start: Survey, density: Density): Survey {
  const hand = takeInHand(start);
  const hands = handsByBay(hand);
  for (const own of hands) surveyBay(own, density);
  proposeTogether(hand, hands);
  hand.act({ act: 'hand-in' });
  return hand.now();
}

function surveyBay(inBay: Hand, density: Density): void {
  const hand = canRestart(inBay);
  const { spec, brief } = hand.now().world.exercise;
  clearWhatComesOff(hand);
  const shown = checkInstrument(hand);
  const { heightMm, xMm } = standingPlace(brief);
  const stand = () => {
    standOnReference(hand, heightMm, xMm);
    markLines(hand);
  };
  stand();
  const plan = brief.slope ? planUnderSlope(brief, density, spec.trims) : planReadings(brief, density);
  if (shown.out.length === 0)
    readAll(hand, plan, () => {
      hand.restart();
      stand();
    });
  else readAllowing(hand, shown, plan);
  close(hand);
  proposeWorked(hand, workOut(hand.now()));
}

/** Reads a plan, half-way where a wall is not straight, and round what is tightest, with an eye on the level. */
function readAll(hand: Hand, plan: readonly PlannedReading[], standAnew: () => void): void {
  const watch = keepWatch(hand, (reading: PlannedReading) => void takeReading(hand, reading), standAnew);
  for (const reading of plan) watch.take(reading);
  readHalfWay(hand, watch);
  const piece = pieceOf(hand.now().world.exercise.brief);
  for (const dimension of ['width', 'height', 'depth'] as const)
    readRoundTightest(hand, watch, `${piece}-${dimension}`);
  if (hand.now().world.exercise.brief.slope?.find)
    for (const edge of ['low', 'high'] as const) readRoundTightest(hand, watch, `slope-${edge}`);
  watch.look();
}

/**
 * Reads a plan with a level that is known to be out of true and must be used all the same: the dial is turned by its
 * squareness before anything is read from S, and where it leans or rises every place is read again with the level turned
 * round, so that it cancels in the mean.
 */
function readAllowing(hand: Hand, shown: Shown, plan: readonly PlannedReading[]): void {
  const inTwoGoes = <T extends { readonly datum: string }>(readings: readonly T[], take: (reading: T) => void) => {
    for (const r of readings) if (r.datum !== 'S') take(r);
    if (shown.out.includes('square')) hand.act({ act: 'turn', byMmPerM: 0 - shown.square });
    for (const r of readings) if (r.datum === 'S') take(r);
  };
  inTwoGoes(plan, (reading) => void takeReading(hand, reading));
  if (!shown.out.includes('level') && !shown.out.includes('plumb')) return;
  bringToReference(hand, hand.act({ act: 'turn', byMmPerM: 0, quarters: 2 }), 'room');
  inTwoGoes(bookedOffsets(hand.now()), ({ datum, said }) => {
    const words = said.for ? { words: { for: said.for } } : {};
    if ('surface' in said.place) readAndBook(hand, { datum, place: said.place, ...words });
  });
}

/** Takes down what comes off. */
export function clearWhatComesOff(hand: Hand): void {
  const { spec, brief } = hand.now().world.exercise;
  for (const trim of spec.trims) if (brief.fates[trim.name] === 'off') hand.act({ act: 'clear', trim: trim.name });
}

/** A level line that one rule reaches the floor and the ceiling from. */
export function lineHeight(opening: number): number {
  return Math.round(opening * 0.45);
}

/** Marks where the lines fall, at two heights. */
export function markLines(hand: Hand): void {
  const { spec, brief } = hand.now().world.exercise;
  const { height, depth } = brief.openingMm;
  if (beginsAtMouth(spec, 'left') && beginsAtMouth(spec, 'right')) {
    // F runs along the face of the wall, where jambs begin: what can be marked is S on floor and head, L on both jambs.
    for (const surface of ['floor', 'ceiling'] as const)
      for (const share of [0.3, 0.8])
        hand.act({ act: 'mark', place: { surface, along: 'S', yMm: Math.round(depth * share) } });
    for (const surface of ['left', 'right'] as const)
      hand.act({ act: 'mark', place: { surface, along: 'L', yMm: Math.round(depth / 2) } });
    return;
  }
  // Under a slope the low wall and the back are seen as high as the low end alone.
  const tall = brief.slope ? brief.plinthMm + brief.slope.lowMm : height;
  for (const zMm of [Math.round(tall * 0.25), Math.round(tall * 0.75)]) {
    hand.act({ act: 'mark', place: { surface: 'left', along: 'F', zMm } });
    hand.act({ act: 'mark', place: { surface: 'right', along: 'F', zMm } });
    hand.act({ act: 'mark', place: { surface: 'back', along: 'S', zMm } });
  }
  hand.act({ act: 'mark', place: { surface: 'left', along: 'L', yMm: 60 } });
  hand.act({ act: 'mark', place: { surface: 'right', along: 'L', yMm: 60 } });
}

/** Takes a planned reading; where it cannot be held there, a little off it, away from the corner. */
export function takeReading(hand: Hand, reading: PlannedReading, habit: Habit = {}): boolean {
  for (const place of tries(hand, reading.place)) {
    const words = reading.for ? { words: { for: reading.for } } : {};
    const wanted = (seen: Done) => isWanted(hand, seen, reading);
    if (readAndBook(hand, { datum: reading.datum, place, ...words, wanted, habit })) return true;
  }
  return false;
}

/** What may be cut is in the way of a reading, and a frame is scribed to bare walls. */
function isWanted(hand: Hand, seen: Done, reading: Pick<PlannedReading, 'for'>): boolean {
  const fate: Fate | undefined = hand.now().world.exercise.brief.fates[seen.on ?? ''];
  if (fate === undefined) return true;
  return fate === 'stays' && !reading.for?.some(meetsBare);
}

function tries(hand: Hand, place: SurfacePlace): SurfacePlace[] {
  const { openingMm, slope } = hand.now().world.exercise.brief;
  const { width, height, depth } = openingMm;
  const off = [0, 12, 30, 60, 100, 140];
  // A flat ceiling under a slope is free towards its high end.
  const high = slope && place.surface === 'ceiling' ? (slope.low === 'left' ? 1 : -1) : 0;
  const awayTo = (high * width) / 2;
  return off.map((mm) => ({
    ...place,
    ...(place.zMm === undefined ? {} : { zMm: towards(place.zMm, height / 2, mm) }),
    ...(place.yMm === undefined ? {} : { yMm: towards(place.yMm, depth / 2, mm / 3) }),
    ...(place.xMm === undefined ? {} : { xMm: towards(place.xMm, awayTo, mm) }),
  }));
}

function towards(from: number, to: number, mm: number): number {
  const step = Math.min(mm, Math.abs(to - from));
  return from + (to > from ? step : -step);
}

/**
 * Where the middle of three readings in a line is off the mean of its neighbours, the intervals are halved.
 *
 * @source common practice, no source; the limit is ours
 */
export function readHalfWay(hand: Hand, watch: Pick<Watch<PlannedReading>, 'take'>): void {
  for (const line of linesOfReadings(bookedOffsets(hand.now()))) {
    line.forEach((o, i) => {
      const before = line[i - 1];
      const after = line[i + 1];
      if (!before || !after || Math.abs(o.valueMm - (before.valueMm + after.valueMm) / 2) <= notStraightMm) return;
      for (const other of [before, after]) watch.take(halfWay(o, other));
    });
  }
}

/** How far a middle reading may be off before the intervals are halved, mm. */
const notStraightMm = 1.5;

/** Readings of one surface that differ in height (walls) or along the width (the rest) alone, in order. */
export function linesOfReadings(offsets: readonly BookedOffset[]): readonly (readonly BookedOffset[])[] {
  const lines = new Map<string, BookedOffset[]>();
  for (const o of offsets) {
    const runs = alongOf(o);
    const key = [o.side, o.said.for?.join(), runs === 'u' ? o.at.v : o.at.u].join('/');
    lines.set(key, [...(lines.get(key) ?? []), o]);
  }
  return [...lines.values()].map((line) => line.sort((a, b) => a.at[alongOf(a)] - b.at[alongOf(b)] || a.n - b.n));
}

export function alongOf(o: BookedOffset): 'u' | 'v' {
  return axesOf(o.side).across === 'z' ? 'u' : 'v';
}

export function halfWay(a: BookedOffset, b: BookedOffset): PlannedReading {
  const axes = axesOf(a.side);
  const runs = axes[alongOf(a)];
  const middle = Math.round((a.at[alongOf(a)] + b.at[alongOf(b)]) / 2);
  const place: SurfacePlace = { ...(a.said.place as SurfacePlace), [`${runs}Mm`]: middle };
  return { datum: a.datum, place, ...(a.said.for ? { for: a.said.for } : {}) };
}

/** Reads again half-way to the neighbours of the offsets that count, so that a belly between two readings is met. */
export function readRoundTightest(hand: Hand, watch: Pick<Watch<PlannedReading>, 'take'>, size: SizeName): void {
  const { brief } = hand.now().world.exercise;
  const heights = carcassHeights(brief);
  const depths = carcassDepths(brief);
  for (let round = 0; round < 2; round++) {
    const worked = workOutSize(hand.now(), size);
    const counting = worked.terms.filter((t) => t.counts).flatMap((t) => t.bookings.slice(0, 1));
    for (const o of bookedOffsets(hand.now()).filter((b) => counting.includes(b.n))) {
      const axes = axesOf(o.side);
      // Under a slope the recess is deep: three depths stand further apart there.
      const steps = { x: brief.openingMm.width / 8, y: brief.slope ? brief.openingMm.depth / 6 : 60, z: 220 };
      for (const [du, dv] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        const share = round === 0 ? 1 : 0.5;
        const at = { [axes.u]: o.at.u + du * share * steps[axes.u], [axes.v]: o.at.v + dv * share * steps[axes.v] };
        const place = within(o.side, at, { heights, depths, half: brief.carcassMm.width.nominalMm / 2 - 5 });
        // The floor and the slope are put to every size that they bound.
        const words = size.startsWith('slope') ? {} : { for: [size] };
        if (place) watch.take({ datum: o.datum, place, ...words });
      }
    }
  }
}

export function within(
  surface: SurfacePlace['surface'],
  at: { x?: number; y?: number; z?: number },
  limits: { heights: { from: number; to: number }; depths: { from: number; to: number }; half: number },
): SurfacePlace | null {
  const out = (value: number | undefined, from: number, to: number) =>
    value !== undefined && (value < from || value > to);
  if (out(at.z, limits.heights.from, limits.heights.to) || out(at.y, limits.depths.from, limits.depths.to)) return null;
  if (out(at.x, -limits.half, limits.half)) return null;
  return {
    surface,
    ...(at.x === undefined ? {} : { xMm: Math.round(at.x) }),
    ...(at.y === undefined ? {} : { yMm: Math.round(at.y) }),
    ...(at.z === undefined ? {} : { zMm: Math.round(at.z) }),
  };
}

/** Closes: tape against the sums, the first reading of each datum again, and what does not agree is read again. */
export function close(hand: Hand): void {
  const first = (side: string) => bookedOffsets(hand.now()).find((o) => !o.check && o.side === side);
  for (const [from, to] of [
    ['left', 'right'],
    ['floor', 'ceiling'],
  ] as const) {
    const offsets = bookedOffsets(hand.now()).filter((o) => !o.check);
    const pair = offsets.find(
      (o) =>
        o.side === from &&
        offsets.some((p) => p.side === to && Math.abs(p.at.u - o.at.u) + Math.abs(p.at.v - o.at.v) < 1),
    );
    if (pair && 'surface' in pair.said.place) tapeAndBook(hand, { place: pair.said.place, to, words: { check: true } });
  }
  for (const side of ['left', 'floor', 'back']) {
    const o = first(side);
    if (o && 'surface' in o.said.place)
      readAndBook(hand, { datum: o.datum, place: o.said.place, words: { check: true } });
  }
  for (const check of closingChecks(hand.now()).filter((c) => Math.abs(c.misclosureMm) > 2)) {
    for (const o of bookedOffsets(hand.now()).filter((b) => check.against.includes(b.n)))
      if ('surface' in o.said.place) readAndBook(hand, { datum: o.datum, place: o.said.place, words: { check: true } });
  }
}
