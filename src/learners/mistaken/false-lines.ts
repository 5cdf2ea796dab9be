/**
 * Learners whose lines follow something else than the reference: a side wall, the back wall, a target too near by, marks
 * that came off with a skirting.
 */
import type { SurfacePlace } from '../../survey/act.ts';
import { datumName } from '../../survey/act.ts';
import type { Outcome } from '../../survey/outcome.ts';
import { clearWhatComesOff, lineHeight, markLines } from '../careful.ts';
import { type Hand, judged } from '../hand.ts';
import { standOnReference } from '../lining-up.ts';
import { carcassDepths } from '../reading-plan.ts';
import { beginRight, middleHeight, type Slip } from './method.ts';

/** Takes a side wall as square: turns the square line until it runs along the left wall. */
export const squareToWall: Slip = {
  begins: (hand) => {
    const { brief } = hand.now().world.exercise;
    clearWhatComesOff(hand);
    standByEye(hand);
    const zMm = Math.round(middleHeight(brief));
    const depths = carcassDepths(brief);
    const at = (yMm: number): SurfacePlace => ({ surface: 'left', yMm: Math.round(yMm), zMm });
    const far = Math.round(depths.to) - Math.round(depths.from + 20);
    for (let round = 0; round < 3; round++)
      turnAlong(hand, 'S', { near: at(depths.from + 20), far: at(depths.to), mm: far });
    moveToReference(hand);
    markLines(hand);
  },
};

/** Turns the face line until it runs along the back wall. */
export const alongBack: Slip = {
  begins: (hand) => {
    const { brief } = hand.now().world.exercise;
    clearWhatComesOff(hand);
    standByEye(hand);
    const zMm = Math.round(middleHeight(brief));
    const xMm = Math.round(brief.carcassMm.width.nominalMm * 0.4);
    const at = (x: number): SurfacePlace => ({ surface: 'back', xMm: x, zMm });
    for (let round = 0; round < 3; round++) turnAlong(hand, 'F', { near: at(-xMm), far: at(xMm), mm: 2 * xMm });
    moveToReference(hand);
    markLines(hand);
  },
};

/** Lines up on one place of the reference, a hand's breadth beside the level. */
export const shortBaseline: Slip = {
  begins: (hand) => {
    clearWhatComesOff(hand);
    standByEye(hand);
    moveToReference(hand);
    hand.act({ act: 'aim', plane: 'F', at: { referenceXMm: 120 } });
    markLines(hand);
  },
};

/** Marks the lines on the skirting before it comes off, and stands again by eye. */
export const marksThatComeOff: Slip = {
  begins: (hand) => {
    const { height } = hand.now().world.exercise.brief.openingMm;
    standOnReference(hand, lineHeight(height));
    for (const surface of ['left', 'right'] as const)
      hand.act({ act: 'mark', place: { surface, along: 'F', zMm: 50 } });
    clearWhatComesOff(hand);
    const lost = hand.now().marks.length < 2;
    if (lost) standByEye(hand);
    else beginRight(hand);
  },
};

function standByEye(hand: Hand): void {
  const { height } = hand.now().world.exercise.brief.openingMm;
  hand.act({ act: 'stand', xMm: 0, yMm: 0, heightMm: lineHeight(height) });
  hand.act({ act: 'settle' });
}

/** Turns a line until two places of a surface lie as far from it as each other. */
function turnAlong(hand: Hand, kind: 'F' | 'S', of: { near: SurfacePlace; far: SurfacePlace; mm: number }): void {
  const datum = datumName(kind, hand.now().setUps);
  const near = looked(hand.act({ act: 'read', datum, place: of.near }));
  const far = looked(hand.act({ act: 'read', datum, place: of.far }));
  if (near === null || far === null) return;
  hand.act({ act: 'turn', byMmPerM: (1000 * (far - near)) / of.mm });
}

function looked(outcome: Outcome): number | null {
  return outcome.ok && outcome.edgesMm ? judged(outcome.edgesMm) : null;
}

/** Moves in or out until the face line meets the reference in the middle; it does not turn. */
function moveToReference(hand: Hand): void {
  const { kit, brief } = hand.now().world.exercise;
  const outcome = hand.act({ act: 'settle' });
  const seen = outcome.ok ? (outcome.seen ?? []) : [];
  const middle = seen.find((s) => 'referenceXMm' in s.at && s.at.referenceXMm === 0);
  if (!middle) return;
  const width = kit.level.lineWidthMm + (kit.level.lineGrowthMmPerM * brief.openingMm.height) / 2000;
  hand.act({ act: 'move', byXMm: 0, byYMm: 0 - (middle.offMm ?? middle.offWidths * width) });
  hand.act({ act: 'settle' });
}
