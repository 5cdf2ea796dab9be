/**
 * Shelves on the back wall: the strips that their backs are scribed to, and what comes off a blank's back edge.
 */
import type { Extreme, Rect } from '../geometry/range.ts';
import { bareHighest, bareLowest, type Site } from './site.ts';

export interface ShelfBacks {
  /** A strip of the back wall for each shelf, in the brief's order. */
  readonly rects: readonly Rect[];
  /** The back wall's deepest hollow over all of them, and what stands nearest to the face line. */
  readonly widest: Extreme;
  readonly tightest: Extreme;
}

/** What a blank of a depth comes to on the day. */
export interface ShelfKey {
  readonly depthMm: number;
  /** Least and most stock to come off the back edge; < 0 where it does not reach the wall. */
  readonly stockMm: readonly [number, number];
}

/**
 * Gives the strips behind the shelves with their extremes; certified, bare walls.
 *
 * @throws {RangeError} if the brief has no shelves
 */
export function shelfBacks(site: Site): ShelfBacks {
  const rects = shelfStrips(site);
  let widest = bareLowest(site, 'back', rects[0] as Rect);
  let tightest = bareHighest(site, 'back', rects[0] as Rect);
  for (const rect of rects.slice(1)) {
    const low = bareLowest(site, 'back', rect);
    const high = bareHighest(site, 'back', rect);
    if (low.value < widest.value) widest = low;
    if (high.value > tightest.value) tightest = high;
  }
  return { rects, widest, tightest };
}

/** Gives how a blank of a depth stands against the wall, its front on the face line. */
export function shelfKey(backs: ShelfBacks, depthMm: number): ShelfKey {
  return { depthMm, stockMm: [depthMm + backs.widest.value, depthMm + backs.tightest.value] };
}

function shelfStrips(site: Site): readonly Rect[] {
  const { shelves } = site.brief;
  if (!shelves) throw new RangeError('brief: it has no shelves');
  const { heightsMm, lengthMm, thicknessMm } = shelves;
  const half = lengthMm / 2;
  return heightsMm.map((z) => ({ u0: 0 - half, u1: half, v0: z, v1: z + thicknessMm }));
}
