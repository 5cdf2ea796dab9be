/**
 * The right method with one slip in it: clear, line up, mark, read a dense plan, close, work out, ask whether it stands up.
 *
 * A slip says what it does otherwise; where it says nothing, the method is right.
 */
import type { Brief } from '../../exercise/brief.ts';
import { wayInQuestions } from '../../exercise/way-in.ts';
import { isOpen } from '../../recess/recess-spec.ts';
import { type Act, type ActOf, datumName, datumParts } from '../../survey/act.ts';
import type { Survey } from '../../survey/survey.ts';
import { type WorkedSize, workOut } from '../../survey/working-out.ts';
import { bandReadings } from '../band-readings.ts';
import { handsByBay, proposeTogether } from '../bay-hand.ts';
import { clearWhatComesOff, close, markLines, takeReading } from '../careful.ts';
import { evenlySetOut, runDensity } from '../careful-run.ts';
import { alongShelves } from '../careful-wall.ts';
import { cutOutsFound, edgesWanted, readEdge } from '../cut-out-reading.ts';
import { type Habit, type Hand, takeInHand, unitsInHand } from '../hand.ts';
import { checkInstrument } from '../instrument.ts';
import { standOnReference } from '../lining-up.ts';
import { proposeSizes, type Sizes } from '../proposing.ts';
import { carefulDensity, type Density, type PlannedReading, planReadings } from '../reading-plan.ts';
import { planUnderSlope, standingPlace } from '../sloped-plan.ts';
import { keepWatch } from '../watch.ts';

/** What is done otherwise. */
export interface Slip {
  readonly density?: Density;
  /** Instead of clearing, lining up and marking. */
  begins?(hand: Hand): void;
  /** Which of the planned readings are taken, and in which order. */
  plans?(readings: readonly PlannedReading[], hand: Hand): readonly PlannedReading[];
  /** Before a reading is taken; `i` counts the planned readings from 0. */
  before?(hand: Hand, reading: PlannedReading, i: number): void;
  habit?(hand: Hand, reading: PlannedReading, i: number): Habit;
  /** After the offsets. */
  after?(hand: Hand): void;
  /** What is made of the sums; a size left out goes as they give it. */
  sizes?(hand: Hand, worked: readonly WorkedSize[]): Sizes;
  /** Whether the level is checked first; where the kit states nothing of it, nobody does. */
  readonly checks?: boolean;
  /** Whether the marks are looked at again between readings; where nothing can move, nobody does. */
  readonly watches?: boolean;
  readonly closes?: boolean;
  readonly asksStandUp?: boolean;
  readonly asksWayIn?: boolean;
}

/** Surveys by the right method but for a slip; of a pair, one recess after the other. */
export function surveyWith(start: Survey, slip: Slip): Survey {
  const hand = takeInHand(start);
  const hands = handsByBay(hand);
  for (const own of hands) surveyOne(own, slip);
  proposeTogether(hand, hands);
  hand.act({ act: 'hand-in' });
  return hand.now();
}

function surveyOne(hand: Hand, slip: Slip): void {
  const { brief, spec } = hand.now().world.exercise;
  if (slip.begins) slip.begins(hand);
  else beginRight(hand, slip);
  const density = slip.density ?? (brief.modules ? runDensity(brief) : carefulDensity);
  const planned = planOf(hand, density).filter((r) => !isOpen(spec, r.place.surface));
  const take = ({ reading, i }: { reading: PlannedReading; i: number }) =>
    void takeReading(hand, fromNow(hand, reading), slip.habit?.(hand, reading, i) ?? {});
  const watch = slip.watches === false ? { take, look: () => {} } : keepWatch(hand, take);
  (slip.plans?.(planned, hand) ?? planned).forEach((reading, i) => {
    slip.before?.(hand, reading, i);
    watch.take({ reading, i });
  });
  watch.look();
  for (const wanted of brief.cutOuts ? edgesWanted(hand) : [])
    readEdge(hand, wanted, wanted.edge === 'left' || wanted.edge === 'right' ? 'S' : 'L');
  slip.after?.(hand);
  if (slip.closes ?? true) close(hand);
  const worked = workOut(hand.now());
  const sizes = { ...workedSizes(worked), ...slip.sizes?.(hand, worked) };
  if (!brief.shelves)
    proposeSizes(withoutAsking(hand, slip), sizes, { ...setOut(hand, brief, sizes), ...cutOutsOf(hand) });
  else if (sizes['shelf-depth'] !== undefined) hand.act({ act: 'propose', shelfMm: { depth: sizes['shelf-depth'] } });
}

/** The plan of the recess's kind: under a slope along it, behind shelves along each, before trims on them too. */
function planOf(hand: Hand, density: Density): readonly PlannedReading[] {
  const { exercise } = hand.now().world;
  const { brief, spec } = exercise;
  if (brief.slope) return planUnderSlope(brief, density, spec.trims);
  if (brief.shelves) return alongShelves(brief.shelves);
  return [...planReadings(brief, density), ...(brief.modules || brief.cutOuts ? bandReadings(exercise) : [])];
}

/** Where carcasses side by side go; nothing where there are none. */
function setOut(hand: Hand, brief: Brief, sizes: Sizes): Pick<ActOf<'propose'>, 'runMm'> {
  if (!brief.modules) return {};
  const nominal = brief.carcassMm.width.nominalMm;
  const [wideMm, leftMm] = [sizes['carcass-width'] ?? nominal, sizes['run-left'] ?? nominal / 2];
  return { runMm: [...evenlySetOut(brief, { wideMm, leftMm, units: unitsInHand(hand) })] };
}

function cutOutsOf(hand: Hand): Pick<ActOf<'propose'>, 'cutOutsMm'> {
  return hand.now().world.exercise.brief.cutOuts ? cutOutsFound(hand) : {};
}

/** A hand that leaves out questions of the way in. */
function withoutAsking(hand: Hand, { asksStandUp = true, asksWayIn = true }: Slip): Hand {
  const left = [...(asksStandUp ? [] : ['stand-up']), ...(asksWayIn ? [] : wayInQuestions)];
  const isLeft = (act: Act) => act.act === 'say' && left.includes(act.question);
  return { now: hand.now, act: (act) => (isLeft(act) ? { ok: true } : hand.act(act)) };
}

/** Clears what comes off, lines up on the reference and marks. */
export function beginRight(hand: Hand, how: { checks?: boolean; xMm?: number } = {}): void {
  const place = standingPlace(hand.now().world.exercise.brief);
  const { checks = true, xMm = place.xMm } = how;
  clearWhatComesOff(hand);
  if (checks) checkInstrument(hand);
  standOnReference(hand, place.heightMm, xMm);
  markLines(hand);
}

/** Says whether a planned reading is of a side wall. */
export function onSideWall(reading: PlannedReading): boolean {
  return reading.place.surface === 'left' || reading.place.surface === 'right';
}

/** Gives the value of a list that is nearest to one; the first where two are as near. */
export function nearestTo(values: readonly number[], to: number): number | undefined {
  let best: number | undefined;
  for (const v of values) if (best === undefined || Math.abs(v - to) < Math.abs(best - to)) best = v;
  return best;
}

/** The height half-way up the carcass. */
export function middleHeight(brief: Brief): number {
  return brief.plinthMm + brief.carcassMm.height.nominalMm / 2;
}

/** A planned reading from the lines that are thrown now, whichever set-up's they are. */
function fromNow(hand: Hand, reading: PlannedReading) {
  const { setUps } = hand.now();
  const { along } = reading.place;
  const lies = along === undefined ? {} : { along: datumName(datumParts(along).kind, setUps) };
  return { ...reading, datum: datumName(datumParts(reading.datum).kind, setUps), place: { ...reading.place, ...lies } };
}

function workedSizes(worked: readonly WorkedSize[]): Sizes {
  return Object.fromEntries(worked.flatMap((w) => (w.workshopMm === null ? [] : [[w.size, w.workshopMm]])));
}
