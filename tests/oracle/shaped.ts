/**
 * How a carcass with a sloped or notched top stands, from samples alone: the same numbers as a box's, as intervals. mm.
 *
 * Where a left edge or a bottom is known to an interval, the shape is made larger by its half widths for the one bound and
 * smaller for the other. Behind, a stretch of x is bound by the rectangles under the highest and under the lowest of its
 * top; stretches are halved, the highest bound first, until the two agree.
 */

import { exactly, greatestOf, least, minus, negated, plus, times } from './interval.ts';
import type { Hanging, Room, Stand } from './key-oracle.ts';
import type { Sizes } from './samples.ts';
import { beginsFrom, commonTop, type Straight, straightsOf, type Top, topOf } from './shape.ts';
import { greatest, type Interval, type Rect, reach } from './sheet.ts';
import { peak, type Wall } from './wall.ts';

/** mm; how near the two bounds behind a shape are brought. */
const NEAR = 0.002;

/** mm; shorter stretches than this are not halved. */
const SHORTEST = 0.01;

export function shapedStandOf(room: Room, size: Sizes): Stand {
  const { brief } = room;
  const { askMm: ask, mouthMm: mouth } = brief;
  const backAt = brief.carcassFrontMm + size.depth;
  const half = brief.openingMm.width / 2;
  const bottom = plus(exactly(brief.plinthMm), greatest(room.floor.sheet, 1, { u: [-half, half], v: [mouth, backAt] }));
  const left = beside(room.left, size, 'left', { bottom, mouth, backAt });
  const right = negated(beside(room.right, size, 'right', { bottom, mouth, backAt }));
  const edge = times(0.5, plus(plus(left, right), exactly(ask.left - ask.right - size.width)));
  const clear = clearOf(room, { top: topOf(size, middleOf(edge)), half: halfOf(edge), bottom, backAt });
  const spare = plus(minus(right, left), exactly(-size.width));
  return {
    size,
    backAt,
    bottom,
    left: edge,
    tightest: {
      left,
      right,
      top: plus(clear.top, plus(bottom, exactly(size.height))),
      back: plus(clear.back, exactly(backAt)),
    },
    clearance: {
      left: times(0.5, plus(spare, exactly(ask.left - ask.right))),
      right: times(0.5, plus(spare, exactly(ask.right - ask.left))),
      ...clear,
    },
  };
}

/** Whether there is a place from wall to wall where nothing is above or behind: cells of x are halved. */
export function shapedGoesIn(room: Room, stand: Stand, by: number): 'yes' | 'no' | 'undecided' {
  const { left, right } = stand.tightest;
  const { width } = stand.size;
  if (right.high - left.low < width - 2 * by) return 'no';
  const clear = (top: Top) => {
    const { bottom, backAt } = stand;
    const over = clearOf(room, { top, half: 0, bottom, backAt });
    return least(over.top, over.back);
  };
  const goes = (x: number) => clear(topOf(stand.size, x)).low >= by;
  if (right.low - left.high >= width + 2 * by) {
    const [from, to] = [left.high + by, right.low - width - by];
    for (let i = 0; i <= 16; i++) if (goes(from + ((to - from) * i) / 16)) return 'yes';
  }
  const cells: [number, number][] = [[left.low - by, right.high - width + by]];
  for (let cell = cells.pop(); cell; cell = cells.pop()) {
    const [from, to] = cell;
    const common = commonTop(topOf(stand.size, from), topOf(stand.size, to));
    if (common && clear(common).high < -by) continue;
    if (to - from < 0.05) return 'undecided';
    cells.push([from, (from + to) / 2], [(from + to) / 2, to]);
  }
  return 'no';
}

/** The greatest height of the flat top, with the line of the sloped edge as it stands; it hangs on the sloped edge too. */
export function tallestShaped(room: Room, stand: Stand): Hanging {
  const { size, bottom, backAt, left } = stand;
  const { slope } = size;
  const others = least(stand.clearance.left, stand.clearance.right, stand.clearance.back);
  const at = { half: halfOf(left), bottom, backAt };
  if (!slope) return { value: minus(stand.tightest.top, bottom), hangsOn: others };
  const overhead = (height: number) =>
    clearOf(room, { ...at, top: topOf({ ...size, height }, middleOf(left)) }, 'top').top;
  const sloped = clearOf(
    { ...room, ceilings: room.slopes },
    { ...at, top: slopedOnly(topOf(size, middleOf(left))) },
    'top',
  ).top;
  const most = Math.max(slope.left, slope.right);
  // The greatest height that certainly goes, and the least that certainly does not.
  const bisect = (goes: (height: number) => boolean) => {
    let [yes, no] = [0, most];
    if (goes(most)) return most;
    while (no - yes > 1e-5) {
      const height = (yes + no) / 2;
      if (goes(height)) yes = height;
      else no = height;
    }
    return yes;
  };
  const value = { low: bisect((h) => overhead(h).low >= 0), high: bisect((h) => overhead(h).high >= 0) };
  return { value: { low: value.low - 1e-5, high: value.high + 1e-5 }, hangsOn: least(others, sloped) };
}

/** The highest line under the slope at the middle of the sloped part of a stand's top. */
export type Edge = {
  /** How high the best of all lines stands at the middle, over the bottom. */
  readonly middle: Interval;
  /** What is left under the slope of a line from one height to another, at the carcass's two edges, over the bottom. */
  readonly under: (left: number, right: number) => Interval;
  /** Where it is, from the left edge. */
  readonly share: number;
  readonly hangsOn: Interval;
};

export function highestEdgeOf(room: Room, stand: Stand): Edge | null {
  const { size, bottom, backAt } = stand;
  const { notch: _, ...whole } = size;
  const sloped = straightsOf(topOf(whole, middleOf(stand.left))).filter(({ z0, z1 }) => Math.abs(z1 - z0) > 1e-6);
  if (sloped.length === 0 || room.slopes.length === 0) return null;
  const half = halfOf(stand.left);
  const [from, to] = [sloped[0]!.x0, sloped[sloped.length - 1]!.x1];
  const middle = (from + to) / 2;
  const over = (x: Interval): Rect => ({ u: [x.low, x.high], v: [room.brief.mouthMm, backAt] });
  const lowest = (rect: Rect, pitch: number) =>
    negated(
      greatestOf(...room.slopes.map((wall) => peak(wall, rect, { along: 'u', at: middle, height: 0, slope: pitch }))),
    );
  // What a line of some pitch can reach at the middle, over places of a stretch.
  const reachOf = (pitch: number, narrower: number) =>
    lowest(over({ low: from + narrower, high: to - narrower }), pitch);
  const points = placesOn(room.slopes, from + half, to - half).map((x) => ({
    x: x - middle,
    z: lowest(over(exactly(x)), 0),
  }));
  let best = { z: Infinity, pitch: 0 };
  for (const a of points.filter(({ x }) => x <= 0))
    for (const b of points.filter(({ x }) => x > 0)) {
      const pitch = (b.z.high - a.z.high) / (b.x - a.x);
      const z = a.z.high - pitch * a.x;
      if (z < best.z) best = { z, pitch };
    }
  const shift = half * (Math.abs(best.pitch) + 1);
  const low = reachOf(best.pitch, -half).low - shift;
  return {
    middle: minus({ low, high: best.z + shift }, bottom),
    share: (middle - middleOf(stand.left)) / size.width,
    under: (left, right) => {
      const pitch = (right - left) / size.width;
      const line = bottom.low + left + pitch * (middle - middleOf(stand.left));
      const slack = half * Math.abs(pitch) + (bottom.high - bottom.low);
      const room = reachOf(pitch, 0);
      return { low: room.low - line - slack, high: room.high - line + slack };
    },
    hangsOn: least(stand.clearance.left, stand.clearance.right, stand.clearance.back),
  };
}

type Placed = { readonly top: Top; readonly half: number; readonly bottom: Interval; readonly backAt: number };

/** What is clear over and behind a shape, whose place from left to right is known to half a width. */
function clearOf(room: Room, placed: Placed, only?: 'top'): { top: Interval; back: Interval } {
  const { bottom, backAt } = placed;
  const straights = straightsOf(placed.top);
  const over = straights.flatMap((one) => room.ceilings.map((wall) => above(room, wall, one, placed)));
  const top = minus(negated(greatestOf(...over)), bottom);
  if (only === 'top') return { top, back: exactly(0) };
  return { top, back: minus(negated(behind(room.back, straights, placed)), exactly(backAt)) };
}

/** The greatest of a ceiling's bulk and a straight's height over the bottom. */
function above(room: Room, wall: Wall, one: Straight, { half, backAt }: Placed): Interval {
  const slope = (one.z1 - one.z0) / (one.x1 - one.x0);
  const depths = [room.brief.mouthMm, backAt] as const;
  const over = (wider: number) => {
    const height = one.z0 + Math.abs(slope) * wider;
    const rect: Rect = { u: [one.x0 - wider, Math.max(one.x0 - wider, one.x1 + wider)], v: depths };
    return peak(wall, rect, { along: 'u', at: one.x0, height, slope });
  };
  const outer = over(half);
  return { low: half === 0 ? outer.low : one.x1 - one.x0 > 2 * half ? over(-half).low : -Infinity, high: outer.high };
}

/** The greatest bulk of the back behind a shape. */
function behind(wall: Wall, straights: readonly Straight[], { half, bottom }: Placed): Interval {
  type Strip = { from: number; to: number; one: Straight; bound: Interval };
  const strip = (one: Straight, from: number, to: number): Strip => {
    const slope = (one.z1 - one.z0) / (one.x1 - one.x0);
    const at = (x: number) => one.z0 + slope * (x - one.x0);
    const rise = Math.abs(slope) * half;
    const over = (x: readonly [number, number], z: readonly [number, number]) =>
      x[0] <= x[1] && z[0] <= z[1] ? peak(wall, { u: x, v: z }) : { low: -Infinity, high: -Infinity };
    const high = over([from - half, to + half], [bottom.low, bottom.high + Math.max(at(from), at(to)) + rise]).high;
    const low = over([from + half, to - half], [bottom.high, bottom.low + Math.min(at(from), at(to)) - rise]).low;
    return { from, to, one, bound: { low, high } };
  };
  const strips = straights.map((one) => strip(one, one.x0, one.x1));
  for (;;) {
    const low = Math.max(...strips.map(({ bound }) => bound.low));
    let next = -1;
    for (const [i, { from, to, one, bound }] of strips.entries()) {
      if (one.z0 === one.z1 || to - from < SHORTEST || bound.high <= low + NEAR) continue;
      if (next < 0 || bound.high > strips[next]!.bound.high) next = i;
    }
    if (next < 0) return greatestOf(...strips.map(({ bound }) => bound));
    const { from, to, one } = strips[next]!;
    strips.splice(next, 1, strip(one, from, (from + to) / 2), strip(one, (from + to) / 2, to));
  }
}

/** The greatest of a side wall's bulk less how far the shape begins from that side, at each height. */
function beside(
  wall: Wall,
  size: Sizes,
  side: 'left' | 'right',
  at: { bottom: Interval; mouth: number; backAt: number },
): Interval {
  const { bottom } = at;
  const wide = bottom.high - bottom.low;
  const over = beginsFrom(side, size).map(({ x0, x1, z0, z1 }) => {
    const slope = (x1 - x0) / (z1 - z0);
    const tilt = { along: 'v', at: bottom.low + z0, height: -x0, slope: -slope } as const;
    const depths = [at.mouth, at.backAt] as const;
    const outer = peak(wall, { u: depths, v: [bottom.low + z0, bottom.high + z1] }, tilt).high + slope * wide;
    const inner: Rect = { u: depths, v: [bottom.high + z0, Math.max(bottom.high + z0, bottom.low + z1)] };
    return {
      low: bottom.low + z1 > bottom.high + z0 ? peak(wall, inner, tilt).low - slope * wide : -Infinity,
      high: outer,
    };
  });
  return greatestOf(...over);
}

/** The sloped stretches of a top alone: elsewhere it lies at nothing. */
function slopedOnly(top: Top): Top {
  const sloped = straightsOf(top).filter(({ z0, z1 }) => Math.abs(z1 - z0) > 1e-6);
  return { ...top, height: (x) => (sloped.some(({ x0, x1 }) => x >= x0 && x <= x1) ? top.height(x) : 0) };
}

/** The sample lines across x and the edges of bands, from one place to another, both included. */
function placesOn(walls: readonly Wall[], from: number, to: number): number[] {
  const places = new Set([from, to]);
  for (const { sheet, bands } of walls) {
    const [first, last] = reach(sheet).u;
    for (let x = first; x <= last; x += sheet.step) if (x > from && x < to) places.add(x);
    const edges = bands.flatMap(({ uMm, profile }) => [
      ...uMm,
      ...(profile.along === 'u' ? profile.mm.map(([place]) => place) : []),
    ]);
    for (const x of edges) if (x > from && x < to) places.add(x);
  }
  return [...places].sort((a, b) => a - b);
}

function middleOf({ low, high }: Interval): number {
  return (low + high) / 2;
}

function halfOf({ low, high }: Interval): number {
  return (high - low) / 2;
}
