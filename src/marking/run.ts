/**
 * Carcasses side by side: how they stand between the walls where the proposal sets them out, from the square line.
 */

import type { SideWalls } from './carcass-fit.ts';
import { lineAtFace } from './opening.ts';
import { bareHighest, bareLowest, type Site } from './site.ts';

/** How a run set out at places in the room stands; mm, + is clear. */
export interface RunKey {
  readonly leftMm: number;
  readonly rightMm: number;
  /** Least clear at each end, over the whole way in. */
  readonly clearanceMm: { readonly left: number; readonly right: number };
  /** Least and most of each infill on the face line. */
  readonly infillMm: { readonly left: readonly [number, number]; readonly right: readonly [number, number] };
  /** How far the worst joint lies off even widths. */
  readonly unevenMm: number;
}

/**
 * Gives how a run stands.
 *
 * @param atMm - x in the room of each carcass's left edge and the last one's right edge, two or more
 * @param tall - from where to where it stands up, and what bounds it sideways
 */
export function runKey(site: Site, atMm: readonly number[], tall: { walls: SideWalls; heightMm: number }): RunKey {
  const { walls } = tall;
  const leftMm = atMm[0] as number;
  const rightMm = atMm[atMm.length - 1] as number;
  const line = (side: 'left' | 'right') => lineAtFace(side, [walls.bottomMm, walls.bottomMm + tall.heightMm]);
  const infill = (side: 'left' | 'right', end: number): readonly [number, number] => [
    end - bareHighest(site, side, line(side)).value,
    end - bareLowest(site, side, line(side)).value,
  ];
  return {
    leftMm,
    rightMm,
    clearanceMm: { left: leftMm - walls.left.value, right: 0 - walls.right.value - rightMm },
    infillMm: { left: infill('left', leftMm), right: infill('right', 0 - rightMm) },
    unevenMm: unevenness(atMm),
  };
}

/** Gives how far the worst joint lies off even widths between the two ends, mm. */
export function unevenness(atMm: readonly number[]): number {
  const from = atMm[0] as number;
  const step = ((atMm[atMm.length - 1] as number) - from) / (atMm.length - 1);
  return Math.max(...atMm.map((at, i) => Math.abs(at - (from + i * step))));
}
