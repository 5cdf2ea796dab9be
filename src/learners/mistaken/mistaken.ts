/**
 * The mistaken learners, one a mistake of the library: each surveys any room by the right method but for that.
 */
import type { Survey } from '../../survey/survey.ts';
import { type RunSlip, surveyRunWithCare } from '../careful-run.ts';
import { alongBack, marksThatComeOff, shortBaseline, squareToWall } from './false-lines.ts';
import { mixedLines, noStep, wrongSign } from './lost-steps.ts';
import { type Slip, surveyWith } from './method.ts';
import { boxFromBox, chained } from './setting-out.ts';
import { askew, decade, nearEdge, neverCloses, swapsSides, tapesWidths } from './slips-of-hand.ts';
import {
  aboveSkirting,
  besideCornice,
  floorAtBack,
  frontOnly,
  nearFace,
  oneMargin,
  oneWidth,
  twoChainages,
  wallAsPlumb,
} from './too-few-places.ts';
import {
  averages,
  finishForgotten,
  leastForFrame,
  leastSum,
  mostForCarcass,
  noStock,
  plinthFromMiddle,
} from './wrong-sums.ts';

export interface MistakenLearner {
  readonly name: string;
  readonly says: string;
  /** The mistake that it makes, by its number. */
  readonly mistake: string;
  survey(start: Survey): Survey;
}

export const mistakenLearners: readonly MistakenLearner[] = [
  made('M01', 'one-width', 'reads one width, half-way up at the front', oneWidth),
  made('M02', 'front-only', 'reads the side walls at the front alone', frontOnly),
  made('M03', 'least-sum', 'takes the least of the sums, not the sum of the least', leastSum),
  made('M04', 'averages', 'adds the averages', averages),
  made('M05', 'most-for-carcass', 'adds the largest of each side for the carcass', mostForCarcass),
  made('M06', 'least-for-frame', 'adds the smallest of each side for the frame', leastForFrame),
  made('M07', 'no-stock', 'leaves no stock to scribe', noStock),
  made('M08', 'square-to-wall', 'takes a side wall as square', squareToWall),
  made('M09', 'along-back', 'lines the face line up with the back wall', alongBack),
  made('M10', 'wall-as-plumb', 'takes the walls as plumb: reads them at one height', wallAsPlumb),
  made('M11', 'unchecked-level', 'reads from a level that it has not checked', { checks: false }),
  made('M12', 'knocked-level', 'reads on after a knock and looks at no mark again', { watches: false }),
  made('M13', 'short-baseline', 'lines up on a place a hand’s breadth away', shortBaseline),
  made('M14', 'marks-come-off', 'marks on a skirting that comes off', marksThatComeOff),
  made('M15', 'near-edge', 'reads the edge of the line, not its middle', nearEdge),
  made('M16', 'askew', 'holds the rule askew', askew),
  made('M17', 'worn-end', 'holds the worn end of the rule to the wall', {}),
  made('M18', 'tapes-widths', 'tapes widths into the corners', tapesWidths),
  made('M19', 'decade', 'misreads by ten, once', decade),
  made('M20', 'swaps-sides', 'books left as right along one height', swapsSides),
  made('M21', 'wrong-sign', 'carries a step over the wrong way', wrongSign),
  made('M22', 'mixed-lines', 'books from two lines as if they were one', mixedLines),
  made('M23', 'no-step', 'never books the step between two set-ups', noStep),
  atRun('M24', 'chained', 'sets each carcass of a run out from the last', chained),
  made('M25', 'floor-at-back', 'reads the floor along the back alone', floorAtBack),
  made('M26', 'plinth-from-middle', 'stands the carcass on the middle of the floor', plinthFromMiddle),
  made('M27', 'no-finish', 'forgets the finish that is still to come', finishForgotten),
  made('M28', 'above-skirting', 'reads above a skirting that stays', aboveSkirting),
  made('M29', 'beside-cornice', 'reads beside a cornice that stays', besideCornice),
  made('M30', 'never-tilts', 'does not ask whether it can be stood up', { asksStandUp: false }),
  made('M31', 'never-asks-way', 'does not ask whether it comes through the door and round the turn', {
    asksWayIn: false,
  }),
  atRun('M32', 'box-from-box', 'measures one box on the wall from another', boxFromBox),
  made('M33', 'never-closes', 'closes on nothing, so that a slip is let through', neverCloses),
  made('M34', 'one-margin', 'reads the ceiling in the middle alone', oneMargin),
  made('M35', 'two-chainages', 'reads a slope at its two ends alone', twoChainages),
  made('M36', 'near-face', 'reads up the near face of each jamb, and its far face at one height', nearFace),
];

function made(mistake: string, name: string, says: string, slip: Slip): MistakenLearner {
  return { mistake, name, says, survey: (start) => surveyWith(start, slip) };
}

/** One that surveys a run; elsewhere there is nothing to set out, and it surveys as the careful one does. */
function atRun(mistake: string, name: string, says: string, slip: RunSlip): MistakenLearner {
  return {
    mistake,
    name,
    says,
    survey: (start) =>
      start.world.exercise.spec.family === 'run' ? surveyRunWithCare(start, slip) : surveyWith(start, {}),
  };
}
