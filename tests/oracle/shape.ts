/**
 * A carcass whose top is sloped or notched, seen from the front: what it takes up, worked out from its heights alone.
 * x from its left edge, z from its bottom, mm. Shares nothing with the program.
 */

import type { Sizes } from './samples.ts';

/** Straight from (x0, z0) to (x1, z1), x0 < x1. */
export type Straight = { readonly x0: number; readonly x1: number; readonly z0: number; readonly z1: number };

/** A height over each x of a stretch, straight between breaks. */
export type Top = { readonly breaks: readonly number[]; readonly height: (x: number) => number };

export function isShaped(size: Sizes): boolean {
  return size.slope !== undefined || size.notch !== undefined;
}

/** The top of a carcass whose left edge is at x. At a step its height is one of the two. */
export function topOf(size: Sizes, left: number): Top {
  const { width, height, slope, notch } = size;
  const pitch = slope ? (slope.right - slope.left) / width : 0;
  const breaks = [0, width];
  const level = (z: number) => {
    if (slope && pitch !== 0) breaks.push((z - slope.left) / pitch);
  };
  level(height);
  if (notch) {
    level(Math.max(0, height - notch.height));
    breaks.push(notch.side === 'left' ? notch.width : width - notch.width);
  }
  const cutOut = (x: number) => notch !== undefined && (notch.side === 'left' ? x : width - x) < notch.width;
  return {
    breaks: sorted(breaks.filter((x) => x >= 0 && x <= width)).map((x) => x + left),
    height: (x) => {
      const line = slope ? slope.left + pitch * (x - left) : height;
      return Math.min(height, line, cutOut(x - left) && notch ? Math.max(0, height - notch.height) : height);
    },
  };
}

/** The straight stretches of a top, from two places well within each. */
export function straightsOf({ breaks, height }: Top): Straight[] {
  const straights: Straight[] = [];
  for (let i = 1; i < breaks.length; i++) {
    const [x0, x1] = [breaks[i - 1]!, breaks[i]!];
    if (x1 - x0 < 1e-9) continue;
    const [a, b] = [height(x0 + 0.25 * (x1 - x0)), height(x0 + 0.75 * (x1 - x0))];
    straights.push({ x0, x1, z0: a - (b - a) / 2, z1: b + (b - a) / 2 });
  }
  return straights;
}

/** What two tops have in common. */
export function commonTop(a: Top, b: Top): Top | null {
  const from = Math.max(a.breaks[0]!, b.breaks[0]!);
  const to = Math.min(a.breaks[a.breaks.length - 1]!, b.breaks[b.breaks.length - 1]!);
  if (!(from < to)) return null;
  const breaks = sorted([from, to, ...a.breaks, ...b.breaks].filter((x) => x >= from && x <= to));
  const height = (x: number) => Math.min(a.height(x), b.height(x));
  const crossings: number[] = [];
  for (let i = 1; i < breaks.length; i++) {
    const [x0, x1] = [breaks[i - 1]!, breaks[i]!];
    const gap = (share: number) => a.height(x0 + share * (x1 - x0)) - b.height(x0 + share * (x1 - x0));
    const share = 0.25 + (0.5 * gap(0.25)) / (gap(0.25) - gap(0.75));
    if (share > 0 && share < 1) crossings.push(x0 + share * (x1 - x0));
  }
  return { breaks: sorted([...breaks, ...crossings]), height };
}

/**
 * Where a shape begins from the left at each height, from its bottom up: straight in z. From the right, it is where the
 * shape that is turned round begins, as a distance from the right edge.
 */
export function beginsFrom(side: 'left' | 'right', size: Sizes): Straight[] {
  const turned = side === 'left' ? size : turnedRound(size);
  const begins: Straight[] = [];
  let reached = 0;
  for (const { x0, x1, z0, z1 } of straightsOf(topOf(turned, 0))) {
    if (z0 > reached + 1e-9) {
      begins.push({ x0, x1: x0, z0: reached, z1: z0 });
      reached = z0;
    }
    if (z1 > reached + 1e-9) {
      begins.push({ x0, x1, z0: reached, z1 });
      reached = z1;
    }
  }
  return begins;
}

/** How far from a side the shape begins at a height; infinite above it. */
export function beginsAt(side: 'left' | 'right', size: Sizes, z: number): number {
  for (const { x0, x1, z0, z1 } of beginsFrom(side, size)) {
    if (z <= z1) return z <= z0 ? x0 : x0 + ((x1 - x0) * (z - z0)) / (z1 - z0);
  }
  return Infinity;
}

function turnedRound(size: Sizes): Sizes {
  const { slope, notch } = size;
  return {
    ...size,
    ...(slope ? { slope: { left: slope.right, right: slope.left } } : {}),
    ...(notch ? { notch: { ...notch, side: notch.side === 'left' ? 'right' : 'left' } } : {}),
  };
}

function sorted(places: readonly number[]): number[] {
  return [...new Set(places)].sort((a, b) => a - b);
}
