/**
 * Keeping watch on a level: after every few readings its lines are looked at on their marks. Where they have left them,
 * what was booked since the last look is struck through, the level is brought back, and those places are read again. A level
 * that can no longer level itself is stood anew, and all is read again.
 */
import { isPhysical } from '../exercise/kit.ts';
import { datumParts } from '../survey/act.ts';
import type { Seen } from '../survey/outcome.ts';
import { liveBookings } from '../survey/survey.ts';
import { type Hand, lastAct } from './hand.ts';
import { offMm, straightThrough } from './lining-up.ts';

export interface Watch<T> {
  take(reading: T): void;
  /** Looks now, whatever was read. */
  look(): void;
}

const readingsBetween = 10;
/** How far a line may be seen off a mark before the level counts as moved, mm: pencil and eye are not surer. */
const movedMm = 0.9;

/**
 * Watches a level while readings are taken; a kit in which nothing can move is not watched.
 *
 * @param standAnew - stands a level that can no longer level itself again, and marks its lines
 */
export function keepWatch<T>(hand: Hand, take: (reading: T) => void, standAnew?: () => void): Watch<T> {
  if (!isPhysical(hand.now().world.exercise.kit)) return { take, look: () => {} };
  const begun = lastAct(hand);
  const all: T[] = [];
  let since: T[] = [];
  let lookedAt = lastAct(hand);
  const look = () => {
    const again = since;
    since = [];
    const moved = hasMoved(hand);
    if (moved === 'lost' && standAnew) {
      strikeSince(hand, begun);
      standAnew();
      for (const reading of [...all]) take(reading);
    } else if (moved) {
      strikeSince(hand, lookedAt);
      bringBack(hand);
      for (const reading of again) take(reading);
    }
    lookedAt = lastAct(hand);
  };
  return {
    take: (reading) => {
      take(reading);
      all.push(reading);
      since.push(reading);
      if (since.length >= readingsBetween) look();
    },
    look,
  };
}

function strikeSince(hand: Hand, n: number): void {
  for (const b of liveBookings(hand.now())) if (b.n > n) hand.act({ act: 'strike', booking: b.n });
}

/** Lost: it can no longer level itself. */
function hasMoved(hand: Hand): boolean | 'lost' {
  const seen = hand.act({ act: 'settle' });
  if (!seen.ok) return 'lost';
  const marks = marksSeen(seen.seen ?? []);
  if (marks.some((s) => Math.abs(offMm(hand, s)) > movedMm)) return true;
  if (marks.some((s) => datumParts(s.datum).kind === 'F')) return false;
  // In an opening the face line can be marked nowhere: then the reference is its mark.
  const off = straightThrough(hand, seen);
  const half = hand.now().world.exercise.brief.openingMm.width / 2;
  return off !== null && Math.max(Math.abs(off.atMiddle), Math.abs(off.slope) * half) > movedMm;
}

function marksSeen(seen: readonly Seen[]): readonly (Seen & { at: { mark: number } })[] {
  return seen.flatMap((s) => ('mark' in s.at ? [{ ...s, at: s.at }] : []));
}

/** Brings a level's lines back on their marks: turned by the two that are furthest apart, then moved and raised. */
function bringBack(hand: Hand): void {
  for (let round = 0; round < 4; round++) {
    const done = hand.act({ act: 'settle' });
    if (!done.ok) return;
    const seen = marksSeen(done.seen ?? []);
    const off = (kind: 'F' | 'S' | 'L') => seen.filter((s) => datumParts(s.datum).kind === kind);
    const mean = (of: readonly Seen[]) =>
      of.length === 0 ? 0 : of.reduce((sum, s) => sum + offMm(hand, s), 0) / of.length;
    // Marks of the face line on one wall alone, or none, tell no turn: then the reference does, as it did when it was lined up.
    const turn = turnOff(hand, off('F')) ?? straightThrough(hand, done)?.slope ?? 0;
    const y = off('F').length > 0 ? mean(off('F')) : (straightThrough(hand, done)?.atMiddle ?? 0);
    const by = { x: mean(off('S')), y, z: mean(off('L')) };
    if (Math.abs(by.x) + Math.abs(by.y) + Math.abs(by.z) < 0.3 && Math.abs(turn) < 0.0004) return;
    hand.act({ act: 'move', byXMm: 0 - by.x, byYMm: 0 - by.y });
    hand.act({ act: 'raise', byMm: 0 - by.z });
    hand.act({ act: 'settle' });
    hand.act({ act: 'turn', byMmPerM: 0 - 1000 * turn });
  }
  hand.act({ act: 'settle' });
}

/** The slope of the face line off its marks, by those on the left and on the right wall; null where they tell none. */
function turnOff(hand: Hand, seen: readonly (Seen & { at: { mark: number } })[]): number | null {
  const { width } = hand.now().world.exercise.brief.openingMm;
  const on = (side: string) =>
    seen.filter((s) => hand.now().marks.find((m) => m.mark === s.at.mark)?.side === side).map((s) => offMm(hand, s));
  const [left, right] = [on('left'), on('right')];
  if (left.length === 0 || right.length === 0) return slopeAlong(hand, seen);
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  return (mean(right) - mean(left)) / width;
}

/** The slope of the face line off marks on floor or ceiling, by the places along it that they were put at. */
function slopeAlong(hand: Hand, seen: readonly (Seen & { at: { mark: number } })[]): number | null {
  const marked = seen.flatMap((s) => {
    const put = hand.now().entries.find((e) => e.outcome.ok && e.outcome.mark === s.at.mark)?.act;
    const x = put?.act === 'mark' && 'surface' in put.place ? put.place.xMm : undefined;
    return x === undefined ? [] : [{ x, off: offMm(hand, s) }];
  });
  const middle = marked.reduce((sum, m) => sum + m.x, 0) / marked.length;
  const spread = marked.reduce((sum, m) => sum + (m.x - middle) * (m.x - middle), 0);
  return spread > 0 ? marked.reduce((sum, m) => sum + (m.x - middle) * m.off, 0) / spread : null;
}
