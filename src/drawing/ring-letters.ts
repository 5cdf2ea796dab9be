/**
 * Rings at tight places, each with its letter beside it where nothing else stands. Units px.
 */
import type { TightPlace } from '../marking/tight-places.ts';

export interface Ring {
  readonly letter: TightPlace['letter'];
  readonly x: number;
  readonly y: number;
  readonly touches: boolean;
  /** Where the letter's middle stands. */
  readonly labelX: number;
  readonly labelY: number;
}

/** A ring that wants a letter; which way the drawing's inside lies from it, -1, 0 or 1 along each axis, is tried first. */
export interface Wanting extends Omit<Ring, 'labelX' | 'labelY'> {
  readonly inside: readonly [number, number];
}

/** A rectangle that is taken. */
export interface Taken {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export const ringPx = 7;
export const letterPx = { width: 10, height: 14 };
const clearPx = ringPx + 10;

/** Puts letters to rings: off whatever is taken, and no nearer to another ring than to their own. */
export function withLetters(rings: readonly Wanting[], taken: readonly Taken[]): Ring[] {
  const held: Taken[] = [...taken, ...rings.map((r) => around(r.x, r.y, { width: 2 * ringPx, height: 2 * ringPx }))];
  return rings.map(({ letter, x, y, touches, inside }) => {
    const spots = spotsFor(inside).map(([dx, dy]) => ({ x: x + dx * clearPx, y: y + dy * clearPx }));
    const clear = (s: { x: number; y: number }) =>
      !held.some((h) => overlap(h, around(s.x, s.y, letterPx))) &&
      rings.every((other) => other.letter === letter || far(s, { x, y }) <= far(s, other) + 1);
    const at = spots.find(clear) ?? spots[0] ?? { x, y };
    held.push(around(at.x, at.y, letterPx));
    return { letter, x, y, touches, labelX: at.x, labelY: at.y };
  });
}

/** The rectangle about a middle. */
export function around(x: number, y: number, size: { width: number; height: number }): Taken {
  return { x0: x - size.width / 2, y0: y - size.height / 2, x1: x + size.width / 2, y1: y + size.height / 2 };
}

/** Whether two rectangles share more than a border. */
export function overlap(a: Taken, b: Taken): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

/** About how wide a text is drawn, px: enough to keep others off it. */
export function textWidth(text: string, size = 12): number {
  return text.length * size * 0.56;
}

function far(a: { x: number; y: number }, b: { x: number; y: number }): number {
  return Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

/** Spots round a ring, the inside ones first, then farther out. */
function spotsFor([dx, dy]: readonly [number, number]): (readonly [number, number])[] {
  const sideways = dx || 1;
  const upright = dy || 1;
  const near: (readonly [number, number])[] = [
    [dx, dy],
    [sideways, upright],
    [-sideways, upright],
    [sideways, 0],
    [-sideways, 0],
    [sideways, -upright],
    [0, -upright],
  ];
  return [...near, ...near.map(([x, y]) => [2 * x, 2 * y] as const), ...near.map(([x, y]) => [3 * x, 3 * y] as const)];
}
