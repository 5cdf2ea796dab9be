/**
 * The careful learner at a run: one square line in the middle, and a set-up near an end wall where the rule does not reach
 * or something is in its way, each carried back to the first by a step that is read.
 */
import type { Brief } from '../exercise/brief.ts';
import { unitsOf } from '../exercise/kit.ts';
import { readTo, type Units } from '../recess/lengths.ts';
import { axesOf, type Side } from '../recess/recess-spec.ts';
import { datumName, datumParts } from '../survey/act.ts';
import { type BookedOffset, bookedOffsets } from '../survey/offsets.ts';
import type { SizeName } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { workOut, workOutSize } from '../survey/working-out.ts';
import { bandReadings } from './band-readings.ts';
import { alongOf, close, halfWay, lineHeight, linesOfReadings, markLines, takeReading, within } from './careful.ts';
import { cutOutsFound, type EdgeWanted, edgesWanted, readEdge } from './cut-out-reading.ts';
import { type Hand, readAndBook, takeInHand } from './hand.ts';
import { checkInstrument } from './instrument.ts';
import { standOnReference } from './lining-up.ts';
import { proposeSizes } from './proposing.ts';
import { carcassDepths, carcassHeights, type Density, type PlannedReading, planReadings } from './reading-plan.ts';
import { type LeftToRead, markForSteps, readFromStation } from './station.ts';
import { keepWatch } from './watch.ts';

/** Where a run begins, how wide it is, how many it is made of, and the unit of the rule that sets it out. */
interface SetOut {
  readonly fromMm: number;
  readonly wideMm: number;
  readonly count: number;
  readonly units: Units;
}

/** What is done otherwise at a run; where it says nothing, the method is right. */
export interface RunSlip {
  /** How close the plan is; left out, closer than every 600 along the run. */
  readonly density?: Density;
  /** Where the joints go, from S, by where the left end goes and how wide they are together. */
  setsOut?(of: SetOut): readonly number[];
  /** Which edges of boxes are read from the lines. */
  edges?(wanted: readonly EdgeWanted[]): readonly EdgeWanted[];
  /** What is sent for the boxes. */
  cutOuts?(hand: Hand): ReturnType<typeof cutOutsFound>;
}

/** Surveys a run with care, but for a slip. */
export function surveyRunWithCare(start: Survey, slip: RunSlip = {}): Survey {
  const hand = takeInHand(start);
  const { spec, brief } = start.world.exercise;
  for (const trim of spec.trims) if (brief.fates[trim.name] === 'off') hand.act({ act: 'clear', trim: trim.name });
  const height = lineHeight(brief.openingMm.height);
  checkInstrument(hand);
  standOnReference(hand, height);
  markLines(hand);
  const mark = markForSteps(hand);
  const left = { left: leftOver(), right: leftOver() };
  readPlan(hand, left, slip);
  readMore(hand, ['carcass-height', 'carcass-depth', 'run-left', 'run-right']);
  close(hand);
  for (const end of ['left', 'right'] as const) {
    const { readings, edges } = left[end];
    const xMm = (end === 'left' ? -1 : 1) * (brief.openingMm.width / 2 - fromEndMm);
    if (mark === null || readings.length + edges.length === 0) continue;
    if (!readFromStation(hand, left[end], { xMm, heightMm: height, mark })) continue;
    readMore(hand, [end === 'left' ? 'run-left' : 'run-right']);
    readAgain(hand, end);
  }
  proposeRun(hand, slip);
  hand.act({ act: 'hand-in' });
  return hand.now();
}

/** How far a rule is trusted to reach, and how far from an end wall the second set-up stands, mm. */
const reachMm = 1900;
const fromEndMm = 420;

function leftOver(): LeftToRead {
  return { readings: [], edges: [] };
}

/**
 * Back, floor and ceiling along the run closer than every 600, floor on the front line too.
 *
 * @source at least every 600: guides to fitted kitchens (job map A4, run from wall to wall); closer is our own
 */
export function runDensity(brief: Pick<Brief, 'openingMm'>): Density {
  const along = Math.ceil(brief.openingMm.width / 450) + 1;
  return { wallHeights: 7, wallDepths: 3, backHeights: 5, backWidths: along, flatWidths: along, flatDepths: 3 };
}

function readPlan(hand: Hand, left: { left: LeftToRead; right: LeftToRead }, slip: RunSlip): void {
  const { exercise } = hand.now().world;
  const { brief } = exercise;
  const farWalls = brief.openingMm.width / 2 > reachMm;
  const watch = keepWatch(hand, (reading: PlannedReading) => {
    const { surface } = reading.place;
    const isWall = surface === 'left' || surface === 'right';
    const taken = !(isWall && farWalls) && takeReading(hand, reading);
    if (isWall && !taken) left[surface].readings.push(reading);
  });
  for (const reading of [...planReadings(brief, slip.density ?? runDensity(brief)), ...bandReadings(exercise)])
    watch.take(reading);
  watch.look();
  const edges = edgesWanted(hand);
  for (const wanted of slip.edges?.(edges) ?? edges) {
    const upright = wanted.edge === 'left' || wanted.edge === 'right';
    const x = (wanted.trim.uMm[0] + wanted.trim.uMm[1]) / 2;
    const far = upright && Math.abs(x) > reachMm;
    if (far || !readEdge(hand, wanted, upright ? 'S' : 'L'))
      if (upright) left[x < 0 ? 'left' : 'right'].edges.push(wanted);
  }
}

/** Halves where a line of readings is not straight, then reads again round what is tightest; from the lines now thrown. */
function readMore(hand: Hand, sizes: readonly SizeName[]): void {
  const isThrown = (o: BookedOffset) => datumParts(o.datum).setUp === hand.now().setUps;
  const now = bookedOffsets(hand.now()).filter((o) => isThrown(o) && !o.check && o.edge === undefined);
  for (const line of linesOfReadings(now))
    line.forEach((o, i) => {
      const before = line[i - 1];
      const after = line[i + 1];
      if (!before || !after) return;
      const share = (o.at[alongOf(o)] - before.at[alongOf(o)]) / (after.at[alongOf(o)] - before.at[alongOf(o)]);
      const straight = before.valueMm + share * (after.valueMm - before.valueMm);
      if (Math.abs(o.valueMm - straight) <= notStraightMm) return;
      for (const other of [before, after]) takeReading(hand, halfWay(o, other));
    });
  for (const size of sizes) readRound(hand, size, isThrown);
}

const notStraightMm = 1.5;

function readRound(hand: Hand, size: SizeName, isThrown: (o: BookedOffset) => boolean): void {
  const { brief } = hand.now().world.exercise;
  const limits = {
    heights: carcassHeights(brief),
    depths: carcassDepths(brief),
    half: brief.carcassMm.width.nominalMm / 2 - 5,
  };
  for (let round = 0; round < 3; round++) {
    const terms = workOutSize(hand.now(), size).terms;
    const tightest = (side: Side) =>
      terms.filter((t) => t.side === side).sort((a, b) => a.valueMm - b.valueMm || at(a) - at(b))[0];
    const counting = new Set([...new Set(terms.map((t) => t.side))].flatMap((s) => tightest(s)?.bookings ?? []));
    for (const o of bookedOffsets(hand.now()).filter((b) => counting.has(b.n) && isThrown(b)))
      for (const place of placesRound(o, 1 / (1 << round)))
        takeAt(hand, { o, place: within(o.side, place, limits), size });
  }
}

function at(term: { readonly bookings: readonly number[] }): number {
  return term.bookings[0] ?? 0;
}

function takeAt(hand: Hand, of: { o: BookedOffset; place: PlannedReading['place'] | null; size: SizeName }): void {
  const { o, place, size } = of;
  if (place) takeReading(hand, { datum: o.datum, place, for: o.said.for ?? [size] });
}

/** Four places beside one, along its surface's two axes. */
function placesRound(o: BookedOffset, share: number): { x?: number; y?: number; z?: number }[] {
  const axes = axesOf(o.side);
  const steps = { x: 220, y: 80, z: 220 };
  return [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ].map(([du = 0, dv = 0]) => ({
    [axes.u]: o.at.u + du * share * steps[axes.u],
    [axes.v]: o.at.v + dv * share * steps[axes.v],
  }));
}

/** Reads the first place of a wall again, as a closing check on that set-up. */
function readAgain(hand: Hand, side: Side): void {
  const here = datumName('S', hand.now().setUps);
  const first = bookedOffsets(hand.now()).find((o) => o.side === side && o.datum === here && !o.check);
  if (first && 'surface' in first.said.place)
    readAndBook(hand, { datum: here, place: first.said.place, words: { check: true } });
}

/** Running positions from S: each joint from the one datum, none from the joint before. */
function proposeRun(hand: Hand, slip: RunSlip): void {
  const { brief, kit } = hand.now().world.exercise;
  const units = unitsOf(kit);
  const found = Object.fromEntries(workOut(hand.now()).map((w) => [w.size, w.workshopMm]));
  const { 'carcass-width': width, 'carcass-height': height, 'carcass-depth': depth, 'run-left': left } = found;
  const wideMm = width ?? brief.carcassMm.width.nominalMm;
  const from = setOutFrom(brief, { units, wideMm, leftMm: left ?? brief.carcassMm.width.nominalMm / 2 });
  const runMm = [...(slip.setsOut?.(from) ?? joints(from))];
  const sent = slip.setsOut ? (runMm.at(-1) as number) - (runMm[0] as number) : wideMm;
  proposeSizes(
    hand,
    {
      'carcass-width': sent,
      ...(height ? { 'carcass-height': height } : {}),
      ...(depth ? { 'carcass-depth': depth } : {}),
    },
    { ...(brief.modules ? { runMm } : {}), ...(slip.cutOuts ?? cutOutsFound)(hand) },
  );
}

function setOutFrom(brief: Brief, of: { wideMm: number; leftMm: number; units: Units }): SetOut {
  return { fromMm: 0 - of.leftMm, wideMm: of.wideMm, units: of.units, count: brief.modules?.count ?? 1 };
}

/** Where carcasses of equal widths go, from S, by how far left the run begins and how wide they are together. */
export function evenlySetOut(brief: Brief, of: { wideMm: number; leftMm: number; units: Units }): readonly number[] {
  return joints(setOutFrom(brief, of));
}

function joints({ fromMm, wideMm, count, units }: SetOut): readonly number[] {
  return Array.from({ length: count + 1 }, (_, i) => 0 + readTo(units, fromMm + (i * wideMm) / count));
}
