/**
 * Lining up: the level is moved and turned until its face line runs along the reference, by what is seen of it.
 */
import { lineWidth } from '../survey/level.ts';
import type { Outcome, Seen } from '../survey/outcome.ts';
import type { Hand } from './hand.ts';

/** Stands the level in the mouth and lines its face line up with the reference, seen at several places along it. */
export function standOnReference(hand: Hand, heightMm: number, xMm = 0): void {
  const setBack = hand.now().world.exercise.brief.setBackMm ?? 0;
  hand.act({ act: 'stand', xMm, yMm: 0 - setBack, heightMm });
  let seen = hand.act({ act: 'settle' });
  if (!seen.ok) {
    hand.act({ act: 'stand', xMm, yMm: 0 - setBack, heightMm, packed: true });
    seen = hand.act({ act: 'settle' });
  }
  bringToReference(hand, seen);
}

/**
 * Moves and turns a level until its face line runs along the reference.
 *
 * @param facing - what a level that faces the room tells as behind its line is in front of it for the hand
 */
export function bringToReference(hand: Hand, first: Outcome, facing: 'recess' | 'room' = 'recess'): void {
  let seen = first;
  for (let round = 0; round < 4; round++) {
    const told = straightThrough(hand, seen);
    const off = told && facing === 'room' ? { atMiddle: 0 - told.atMiddle, slope: 0 - told.slope } : told;
    if (!off || (Math.abs(off.atMiddle) < 0.05 && Math.abs(off.slope) < 0.0002)) return;
    hand.act({ act: 'move', byXMm: 0, byYMm: 0 - off.atMiddle });
    hand.act({ act: 'settle' });
    seen = hand.act({ act: 'turn', byMmPerM: 0 - 1000 * off.slope });
  }
}

/** The straight line through what is seen of the face line along the reference: behind it at the middle, and its slope. */
export function straightThrough(hand: Hand, outcome: Outcome): { atMiddle: number; slope: number } | null {
  const looks = (outcome.ok ? (outcome.seen ?? []) : []).flatMap((s) =>
    s.datum.startsWith('F') && 'referenceXMm' in s.at ? [{ x: s.at.referenceXMm, off: offMm(hand, s) }] : [],
  );
  if (looks.length < 2) return null;
  const count = looks.length;
  const meanX = looks.reduce((sum, l) => sum + l.x, 0) / count;
  const meanOff = looks.reduce((sum, l) => sum + l.off, 0) / count;
  let cross = 0;
  let square = 0;
  for (const l of looks) {
    cross += (l.x - meanX) * (l.off - meanOff);
    square += (l.x - meanX) * (l.x - meanX);
  }
  const slope = cross / square;
  return { atMiddle: meanOff - slope * meanX, slope };
}

/** Tells in mm what is seen in widths of a line, whose own width is known from the kit. */
export function offMm(hand: Hand, s: Seen): number {
  const { brief, kit } = hand.now().world.exercise;
  return s.offMm ?? s.offWidths * lineWidth(kit, brief.openingMm.height / 2);
}
