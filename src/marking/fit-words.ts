/**
 * Fitting day in words: what became of the carcass and of the frame, as one statement, then told step by step.
 */
import type { Brief } from '../exercise/brief.ts';
import { graduationMm, sayLength, sayWritten, spokenUnits, unitAfter } from '../recess/lengths.ts';
import { pieceOf, type SizeName } from '../survey/size.ts';
import type { FrameKey } from './answer-key.ts';
import type { Clearances, ClearSide } from './carcass-fit.ts';
import { type Edge, edges } from './opening.ts';
import { type PlacesOf, sayOn } from './place-words.ts';
import type { PushedIn } from './push-in.ts';
import type { Reason, Verdict } from './verdict.ts';

/** What became of what was sent. */
export interface Fitted {
  readonly brief: Brief;
  readonly verdict: Verdict;
  /** Null where no carcass was sent, or it leaves the recess. */
  readonly pushed: PushedIn | null;
}

export const clearWords: Readonly<Record<ClearSide, string>> = {
  left: 'on the left',
  right: 'on the right',
  top: 'over it',
  back: 'behind it',
};

/** States what became of it, in one sentence, the gravest first. */
export function sayFit({ brief, verdict, pushed }: Fitted): string {
  const first = verdict.reasons[0];
  if (first?.code === 'nothing/proposed') return 'No sizes were sent to the workshop.';
  const it = pieceOf(brief);
  if (verdict.reasons.some((r) => r.code === 'carcass/outside')) return `The ${it} is larger than the recess.`;
  if (pushed?.stoppedBy)
    return pushed.backMm <= brief.mouthMm + 0.05
      ? `The ${it} does not go in at the mouth.`
      : `The ${it} stopped ${sayMuch(pushed.shortMm)}${unitAfter()} short of home.`;
  const { frame } = verdict;
  const gap = frame ? worstGap(frame) : null;
  if (frame && gap) return `The frame leaves a gap of ${sayMuch(-frame.stockMm[gap][0])} at the ${gap}.`;
  if (first?.code === 'carcass/clearance') {
    const side = first.of as ClearSide;
    return `The ${it} goes home with ${sayMuch(first.mm)} ${clearWords[side]}; ${sayWritten(brief.askMm[side])} is asked.`;
  }
  if (first?.code === 'frame/stock-short')
    return `The frame covers, with ${sayMuch(first.mm)} to scribe at the ${first.of}.`;
  if (first?.code === 'frame/stock-over')
    return `The frame covers, but ${sayMuch(first.mm)} has to come off at the ${first.of}.`;
  if (first && lining[first.code]) return `${sayLining(first)}.`;
  if (pushed) return `The ${it} goes home with ${saySpare(pushed.clear)}.`;
  if (verdict.shelf) return sayShelves(verdict.shelf.stockMm);
  return 'The frame covers.';
}

/** States how shelf blanks meet the wall. */
function sayShelves([least, most]: readonly [number, number]): string {
  return least < 0
    ? `The shelves leave a gap of ${sayMuch(0 - least)} at the wall.`
    : `The shelves reach the wall, with ${sayMuch(least)} to ${sayMuch(most)} to scribe.`;
}

/** Tells the push, where it ends, and what stops it there. */
export function sayPush(pushed: PushedIn, brief: Brief, room: PlacesOf): string {
  const { mouthMm } = brief;
  const way = pushed.backMm - mouthMm;
  const it = pieceOf(brief);
  if (!pushed.stoppedBy)
    return `The ${it} is pushed in from the mouth and goes home, ${sayMuch(way)} in from the mouth.`;
  const [one, two] = pushed.stoppedBy.at;
  const told =
    way <= 0.05
      ? `The ${it} is held at the mouth and does not start.`
      : `The ${it} is pushed in and stops dead ${sayMuch(way)} in from the mouth, ${sayMuch(pushed.shortMm)} short of home.`;
  if (!one) return told;
  if (pushed.stoppedBy.side === 'back') return `${told} It meets the ${sayOn('back', one, room)}.`;
  if (pushed.stoppedBy.side === 'top')
    return `${told} It meets what is overhead, ${sayOn(pushed.stoppedBy.on ?? 'ceiling', one, room)}.`;
  return two
    ? `${told} It is tight on the ${sayOn('left', one, room)}, and on the ${sayOn('right', two, room)}.`
    : told;
}

/** Tells what comes off a frame's blank, edge by edge, and where it leaves a gap. */
export function sayFrameFit(frame: FrameKey, brief: Brief): string {
  const gaps = edges.filter((edge) => frame.stockMm[edge][0] < 0);
  const told = gaps.map((edge) => `it leaves a gap of up to ${sayMuch(-frame.stockMm[edge][0])} at the ${edge}`);
  const limits = brief.frame
    ? ` The brief allows ${sayWritten(brief.frame.leastStockMm)} to ${sayWritten(brief.frame.mostStockMm)} to come off an edge.`
    : '';
  return told.length > 0
    ? `The frame is offered up: ${told.join(', ')}.${limits}`
    : `The frame is offered up and covers. To come off: ${edges.map((edge) => `${edge} ${range(frame.stockMm[edge])}`).join(', ')}.${limits}`;
}

/** Says of every size what it came to on the day, in a few words. */
export function sayDay({ verdict, pushed }: Fitted): Readonly<Record<SizeName, string>> {
  const stops = pushed?.stoppedBy?.side;
  const size = (side: ClearSide, blocks: NonNullable<PushedIn['stoppedBy']>['side']) => {
    if (!pushed) return notPushed(verdict);
    if (stops === blocks) return `stops ${sayMuch(pushed.shortMm)} short`;
    if (stops !== undefined && side === 'back') return 'does not come to it';
    const { left, right } = pushed.clear;
    return side === 'left'
      ? `goes, ${sayMuch(left.mm)} left, ${sayMuch(right.mm)} right`
      : `goes, ${sayMuch(pushed.clear[side].mm)} ${clearWords[side]}`;
  };
  const frame = (a: Edge, b: Edge) => {
    if (!verdict.frame) return 'not sent';
    const [one, two] = [verdict.frame.stockMm[a], verdict.frame.stockMm[b]];
    const least = Math.min(one[0], two[0]);
    return least < 0
      ? `leaves a gap of ${sayMuch(-least)}`
      : `covers; ${range([least, Math.max(one[1], two[1])])} to scribe`;
  };
  const runEnd = (side: 'left' | 'right') =>
    verdict.run ? `clear by ${sayMuch(verdict.run.clearanceMm[side])}` : 'not sent';
  return {
    'lining-width': size('left', 'left and right'),
    'lining-height': size('top', 'top'),
    'lining-depth': farEdge(verdict),
    'carcass-width': size('left', 'left and right'),
    'carcass-height': size('top', 'top'),
    'carcass-depth': size('back', 'back'),
    'frame-width': frame('left', 'right'),
    'frame-height': frame('top', 'bottom'),
    'run-left': runEnd('left'),
    'run-right': runEnd('right'),
    'slope-low': size('top', 'top'),
    'slope-high': size('top', 'top'),
    'shelf-depth': verdict.shelf ? `${range(verdict.shelf.stockMm)} to scribe` : 'not sent',
  };
}

/** Why there was nothing to push in: one size that is larger than the recess keeps all of them out. */
function notPushed(verdict: Verdict): string {
  return verdict.reasons.some((r) => r.code === 'carcass/outside') ? 'not offered up' : 'not sent';
}

/** What a lining's far edge came to. */
function farEdge(verdict: Verdict): string {
  const stock = verdict.carcass?.farEdgeMm;
  if (!stock) return notPushed(verdict);
  return stock[0] < 0 ? `ends ${sayMuch(-stock[0])} short` : `reaches; ${range(stock)} to plane`;
}

const lining: Readonly<Partial<Record<Reason['code'], (size: string) => string>>> = {
  'lining/does-not-cover': (size) => `ends ${size} short of the far face`,
  'lining/stock-short': (size) => `reaches the far face, with ${size} to plane`,
  'lining/stock-over': (size) => `reaches the far face, but ${size} has to come off`,
};

function sayLining(r: Reason): string {
  return `The lining ${lining[r.code]?.(sayMuch(Math.abs(r.mm)))}`;
}

/** The edge where a blank falls shortest; null where it covers. */
export function worstGap(frame: FrameKey): Edge | null {
  let worst: Edge | null = null;
  for (const edge of edges) {
    const least = frame.stockMm[edge][0];
    if (least < 0 && (worst === null || least < frame.stockMm[worst][0])) worst = edge;
  }
  return worst;
}

/**
 * A length as it is said of a fit: whole millimetres from 10, tenths under that, or inches as ever; what is there is never
 * said to be 0.
 */
export function sayMuch(mm: number): string {
  const size = Math.abs(mm);
  const units = spokenUnits();
  if (size > 0 && sayLength(size) === sayLength(0))
    return `under ${units === 'mm' ? '0.1' : sayWritten(graduationMm(units) / 2)}`;
  return units === 'mm' && size >= 9.95 ? String(Math.round(mm)) : sayLength(mm);
}

function saySpare({ left, right }: Clearances): string {
  return Math.abs(left.mm - right.mm) < 0.05
    ? `${sayMuch(left.mm)} to spare each side`
    : `${sayMuch(left.mm)} to spare on the left, ${sayMuch(right.mm)} on the right`;
}

function range([least, most]: readonly [number, number]): string {
  return `${sayMuch(least)} to ${sayMuch(most)}`;
}
