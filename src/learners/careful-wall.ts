/**
 * The careful learner at a plain wall: along every shelf from the face line, or as before a carcass where one is to stand.
 */
import { isOpen } from '../recess/recess-spec.ts';
import { edgeBookings } from '../survey/cut-out.ts';
import { bookedOffsets } from '../survey/offsets.ts';
import type { Survey } from '../survey/survey.ts';
import { workOut, workOutSize } from '../survey/working-out.ts';
import { bandReadings } from './band-readings.ts';
import { close, lineHeight, readHalfWay, readRoundTightest, takeReading } from './careful.ts';
import { cutOutsFound, type EdgeWanted, edgesWanted, readEdge } from './cut-out-reading.ts';
import { type Hand, takeInHand } from './hand.ts';
import { checkInstrument } from './instrument.ts';
import { canRestart } from './later-lines.ts';
import { standOnReference } from './lining-up.ts';
import { proposeSizes } from './proposing.ts';
import { carefulDensity, type Density, evenSteps, type PlannedReading, planReadings } from './reading-plan.ts';
import { markForSteps, readFromStation } from './station.ts';
import { keepWatch } from './watch.ts';

/** Surveys a plain wall with care; shelves are read along each, whatever the plan. */
export function surveyWallWithCare(start: Survey, plan?: Density): Survey {
  const hand = canRestart(takeInHand(start));
  const { spec, brief } = start.world.exercise;
  for (const trim of spec.trims) if (brief.fates[trim.name] === 'off') hand.act({ act: 'clear', trim: trim.name });
  const height = lineHeight(brief.openingMm.height);
  checkInstrument(hand);
  const stand = () => {
    standOnReference(hand, height);
    markForSteps(hand);
    markWall(hand, height);
  };
  stand();
  const standAnew = () => {
    hand.restart();
    stand();
  };
  if (brief.shelves) surveyShelves(hand, brief.shelves, standAnew);
  else surveyCarcass(hand, standAnew, plan);
  hand.act({ act: 'hand-in' });
  return hand.now();
}

/** Marks of each line, as far apart as the wall allows: S and L on it, F on the floor and under the ceiling. */
function markWall(hand: Hand, height: number): void {
  const wide = Math.round(hand.now().world.exercise.brief.openingMm.width * 0.45);
  for (const zMm of [Math.round(height * 0.6), Math.round(height * 1.5)])
    hand.act({ act: 'mark', place: { surface: 'back', along: 'S', zMm } });
  for (const xMm of [-wide, wide]) {
    for (const surface of ['floor', 'ceiling'] as const) hand.act({ act: 'mark', place: { surface, along: 'F', xMm } });
    hand.act({ act: 'mark', place: { surface: 'back', along: 'L', xMm } });
  }
}

/** How far apart a shelf's readings are at the most, and how near two are brought round the widest, mm. */
const apartMm = 220;
const nearestMm = 50;

function surveyShelves(
  hand: Hand,
  shelves: { heightsMm: readonly number[]; thicknessMm: number; lengthMm: number },
  standAnew: () => void,
): void {
  const half = shelves.lengthMm / 2 - 5;
  const watch = keepWatch(hand, (reading: PlannedReading) => void takeReading(hand, reading), standAnew);
  const read = (xMm: number, zMm: number) => watch.take(behindShelf(xMm, zMm));
  for (const reading of alongShelves(shelves)) watch.take(reading);
  for (let step = apartMm / 2; step >= nearestMm; step /= 2) {
    const counting = workOutSize(hand.now(), 'shelf-depth').terms.filter((t) => t.counts);
    for (const o of bookedOffsets(hand.now()).filter((b) => counting.some((t) => t.bookings.includes(b.n))))
      for (const xMm of [o.at.u - step, o.at.u + step]) if (Math.abs(xMm) <= half) read(Math.round(xMm), o.at.v);
  }
  watch.look();
  close(hand);
  const depth = workOutSize(hand.now(), 'shelf-depth').workshopMm;
  if (depth !== null) hand.act({ act: 'propose', shelfMm: { depth } });
}

/** Along the middle of each shelf's back edge. */
export function alongShelves(shelves: {
  heightsMm: readonly number[];
  thicknessMm: number;
  lengthMm: number;
}): readonly PlannedReading[] {
  const half = shelves.lengthMm / 2 - 5;
  const along = evenSteps(-half, half, Math.ceil((2 * half) / apartMm) + 1);
  return shelves.heightsMm.flatMap((height) =>
    along.map((xMm) => behindShelf(xMm, height + Math.round(shelves.thicknessMm / 2))),
  );
}

function behindShelf(xMm: number, zMm: number): PlannedReading {
  return { datum: 'F', place: { surface: 'back', xMm, zMm }, for: ['shelf-depth'] };
}

function surveyCarcass(hand: Hand, standAnew: () => void, plan?: Density): void {
  const { exercise } = hand.now().world;
  const { spec, brief } = exercise;
  const along = Math.ceil(brief.carcassMm.width.nominalMm / 450) + 1;
  const density: Density = plan ?? { ...carefulDensity, backWidths: along, flatWidths: Math.max(5, along) };
  const watch = keepWatch(hand, (reading: PlannedReading) => void takeReading(hand, reading), standAnew);
  for (const reading of planReadings(brief, density)) if (!isOpen(spec, reading.place.surface)) watch.take(reading);
  for (const reading of bandReadings(exercise)) watch.take(reading);
  const held = edgesWanted(hand).filter((w) => !readEdge(hand, w, isUpright(w) ? 'S' : 'L') && isUpright(w));
  readHalfWay(hand, watch);
  for (const size of ['carcass-height', 'carcass-depth'] as const) readRoundTightest(hand, watch, size);
  watch.look();
  close(hand);
  readHeld(hand, held);
  const found = workOut(hand.now()).flatMap((w) => (w.workshopMm === null ? [] : [[w.size, w.workshopMm] as const]));
  proposeSizes(hand, Object.fromEntries(found), cutOutsFound(hand));
}

function isUpright({ edge }: EdgeWanted): boolean {
  return edge === 'left' || edge === 'right';
}

/** Reads edges that something stood in the way of, from a set-up beside each box: to its right, then to its left. */
function readHeld(hand: Hand, held: readonly EdgeWanted[]): void {
  const { brief } = hand.now().world.exercise;
  const mark = hand.now().marks.find((m) => m.datum === 'S' && m.side === 'floor')?.mark;
  if (mark === undefined) return;
  const heightMm = lineHeight(brief.openingMm.height);
  for (const trim of new Set(held.map((w) => w.trim))) {
    const x = (trim.uMm[0] + trim.uMm[1]) / 2;
    for (const xMm of [x + besideMm, x - besideMm]) {
      const edges = held.filter((w) => w.trim === trim && edgeBookings(hand.now(), trim, w.edge).length === 0);
      if (edges.length > 0) readFromStation(hand, { readings: [], edges }, { xMm, heightMm, mark });
    }
  }
}

/** How far beside a box the level is stood to read its edges, mm. */
const besideMm = 170;
