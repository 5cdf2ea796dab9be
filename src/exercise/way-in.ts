/**
 * The way in: whether a carcass comes through the narrowest door on its way, and round the turn of a stair.
 *
 * It is carried square, on any of its faces. One with a sloped or notched top counts as the box around it: what that box
 * clears, it clears. Through a door the two smaller sizes count. Round a turn of a right angle
 * one size stands upright and the other two, long and broad, go round the corner as a rectangle on the floor.
 */
import type { Brief, CarcassSizes } from './brief.ts';
import { highestOf } from './carcass-shape.ts';

/** Whether it comes in, and by how much it clears, mm; < 0 by how much it does not. */
export interface ComesIn {
  readonly ok: boolean;
  readonly byMm: number;
}

/** The questions of a way in that a brief tells of. */
export const wayInQuestions = ['door', 'turn'] as const;
export type WayInQuestion = (typeof wayInQuestions)[number];
export type WayIn = Readonly<Partial<Record<WayInQuestion, ComesIn>>>;

/** Gives whether a carcass comes in, by question; null where the brief tells of no way in. */
export function wayIn(brief: Pick<Brief, 'access'>, sizes: CarcassSizes): WayIn | null {
  const { door, turn } = brief.access ?? {};
  if (!door && !turn) return null;
  return {
    ...(door ? { door: told(throughDoor(door, sizes)) } : {}),
    ...(turn ? { turn: told(roundTurn(turn, sizes)) } : {}),
  };
}

/**
 * Gives by how much a carcass clears a door: its two smaller sizes against the door's.
 *
 * @source common practice, no source: two smaller dimensions under the clear door
 */
export function throughDoor(door: { widthMm: number; heightMm: number }, sizes: CarcassSizes): number {
  const [small, middle] = ordered(sizes);
  const narrow = Math.min(door.widthMm, door.heightMm);
  const wide = Math.max(door.widthMm, door.heightMm);
  return Math.min(narrow - small, wide - middle);
}

/** Gives by how much a carcass clears a turn, by the best of its three ways up. */
export function roundTurn(turn: { beforeMm: number; afterMm: number; heightMm: number }, sizes: CarcassSizes): number {
  const [a, b, c] = ordered(sizes);
  const ways = [
    { up: a, broad: b, long: c },
    { up: b, broad: a, long: c },
    { up: c, broad: a, long: b },
  ];
  return Math.max(
    ...ways.map(({ up, broad, long }) => Math.min(turn.heightMm - up, roundCorner(turn, { long, broad }))),
  );
}

/**
 * Gives by how much a rectangle clears a corner of a right angle between two ways.
 *
 * Turned by an angle, its long side from wall to wall leaves p sin + q cos - long sin cos to the inner corner: it is
 * turned round where that is never less than its breadth. It may also go round without being turned at all.
 *
 * @source the ladder round a corner, any textbook on calculus (from memory)
 */
export function roundCorner(turn: { beforeMm: number; afterMm: number }, of: { long: number; broad: number }): number {
  const { beforeMm: p, afterMm: q } = turn;
  const { long, broad } = of;
  const straight = Math.max(Math.min(p - long, q - broad), Math.min(p - broad, q - long));
  return Math.max(straight, leastRoom(p, q, long) - broad);
}

/** The least room between a long side that slides round and the inner corner, over a quarter turn; to 0.001 mm. */
function leastRoom(p: number, q: number, long: number): number {
  // By t = tan of half the angle: sin = 2t / (1 + t²), cos = (1 - t²) / (1 + t²).
  const room = (t: number) => {
    const over = 1 + t * t;
    const sin = (2 * t) / over;
    const cos = (1 - t * t) / over;
    return p * sin + q * cos - long * sin * cos;
  };
  let from = 0;
  let to = 1;
  for (let round = 0; round < 6; round++) {
    let best = 0;
    for (let i = 1; i <= cells; i++)
      if (room(from + ((to - from) * i) / cells) < room(from + ((to - from) * best) / cells)) best = i;
    const step = (to - from) / cells;
    [from, to] = [Math.max(from, from + (best - 1) * step), Math.min(to, from + (best + 1) * step)];
  }
  return room((from + to) / 2);
}

/** How finely an angle is looked for in a round; each round looks between the neighbours of the last one's best. */
const cells = 64;

function told(byMm: number): ComesIn {
  return { ok: byMm >= 0, byMm: 0 + Math.round(byMm * 10_000) / 10_000 };
}

/** The three sizes, smallest first. */
function ordered(sizes: CarcassSizes): [number, number, number] {
  const { widthMm, depthMm } = sizes;
  const heightMm = highestOf(sizes);
  const small = Math.min(widthMm, heightMm, depthMm);
  const large = Math.max(widthMm, heightMm, depthMm);
  return [small, widthMm + heightMm + depthMm - small - large, large];
}
