/**
 * The mistakes library: every mistake that can be found, and which entail which. A mistake is added as a file of its own,
 * or in that of its family, and a line here; none is listed without a rule.
 */
import { angleCopied } from './angle-copied.ts';
import { chainedSizes } from './chained-sizes.ts';
import { neverClosed } from './closing.ts';
import { marksLost, shortBaseline, wallAsSquare, wrongReference } from './false-lines.ts';
import { finishLeftOut } from './finish-to-come.ts';
import { floorAtBack, oneMargin } from './floor-and-ceiling.ts';
import { fromAnotherBox } from './from-another-box.ts';
import { knocked, notChecked } from './instrument.ts';
import type { Mistake, MistakeId } from './mistake.ts';
import { decadeMisread, lineEdge, ruleAskew, tapeInCorner } from './rule-in-hand.ts';
import { mixedLines, sidesSwapped, stepNotBooked, wrongSign } from './sides-and-lines.ts';
import { neverTilted } from './stand-up.ts';
import { frontOnly, oneWidth, wallAsPlumb } from './too-few-places.ts';
import { corniceMissed, skirtingMissed } from './trims-missed.ts';
import { wayInMissed } from './way-in.ts';
import { windMissed } from './wind.ts';
import { wornEnd } from './worn-end.ts';
import { averages, leastForFrame, leastSum, mostForCarcass, noStock, plinthFromElsewhere } from './wrong-sums.ts';

export const mistakes: readonly Mistake[] = [
  oneWidth,
  frontOnly,
  leastSum,
  averages,
  mostForCarcass,
  leastForFrame,
  noStock,
  wallAsSquare,
  wrongReference,
  wallAsPlumb,
  notChecked,
  knocked,
  shortBaseline,
  marksLost,
  lineEdge,
  ruleAskew,
  wornEnd,
  tapeInCorner,
  decadeMisread,
  sidesSwapped,
  wrongSign,
  mixedLines,
  stepNotBooked,
  chainedSizes,
  floorAtBack,
  plinthFromElsewhere,
  finishLeftOut,
  skirtingMissed,
  corniceMissed,
  neverTilted,
  wayInMissed,
  fromAnotherBox,
  neverClosed,
  oneMargin,
  angleCopied,
  windMissed,
];

/** What a mistake entails: who made it has made these too, and only it is named. */
export const entails: Readonly<Partial<Record<MistakeId, readonly MistakeId[]>>> = {
  /** One place has one height and one depth, and lies above the skirting. */
  M01: ['M02', 'M10', 'M28'],
  /** Who adds the largest has taken the lowest of the floor. */
  M05: ['M26'],
  /** A line along a wall, after a knock, by a short baseline, or found again without its marks is off the reference. */
  M08: ['M09'],
  M12: ['M09'],
  M13: ['M09'],
  M14: ['M09', 'M13'],
  /** A finish that was forgotten is as much as a lower place of the floor. */
  M27: ['M26'],
  /** One height lies above the skirting. */
  M10: ['M28'],
};
