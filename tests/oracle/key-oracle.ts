/**
 * Every number of the answer key, from samples alone, each as an interval that certainly contains the true one. mm,
 * room frame.
 *
 * Where a number depends on another that is itself only known to an interval (the carcass stands on the floor's high
 * point, between the walls' tightest places), the rectangle that a wall is asked over is not known exactly. A greatest
 * value over a larger closed rectangle is never smaller, so it is bounded below over the rectangle that is certainly
 * covered and above over the one that is certainly not left: `peakOver`. That holds for bands with edges and steps as well.
 */

import { exactly, least, minus, negated, plus, times } from './interval.ts';
import type { Brief, Samples, Sizes } from './samples.ts';
import { sectionAtFaceLine, seenOverhead } from './section.ts';
import { isShaped, straightsOf, topOf } from './shape.ts';
import { type Edge, highestEdgeOf, shapedGoesIn, shapedStandOf, tallestShaped } from './shaped.ts';
import { GRAIN, greatest, heightAt, type Interval, type Rect, reach } from './sheet.ts';
import { peak, trough, type Wall, wallsOf } from './wall.ts';

export type Room = {
  readonly brief: Brief;
  readonly left: Wall;
  readonly right: Wall;
  readonly back: Wall;
  readonly floor: Wall;
  /** All that is overhead: ceilings and slopes; the lowest counts. */
  readonly ceilings: readonly Wall[];
  readonly slopes: readonly Wall[];
};

export type FourSides = {
  readonly left: Interval;
  readonly right: Interval;
  readonly top: Interval;
  readonly back: Interval;
};

/** How a carcass stands: its bottom, its left edge, what is left on each side, and the extremes behind that. */
export type Stand = {
  readonly size: Sizes;
  /** y of its back. */
  readonly backAt: number;
  readonly bottom: Interval;
  readonly left: Interval;
  readonly clearance: FourSides;
  /** Greatest L, least R, least C, least B over its faces and way in, staying trims included. */
  readonly tightest: FourSides;
};

/** A size that there only is while `hangsOn` is not below 0. */
export type Hanging = { readonly value: Interval; readonly hangsOn: Interval };

export type Opening = {
  readonly width: Interval;
  readonly height: Interval;
  readonly left: Interval;
  readonly bottom: Interval;
};

/** Stock to come off an edge: least, most. */
export type Stock = readonly [Interval, Interval];

/** A line over the upper side of the section; heights in the room. */
export type CoverLine = { readonly at: number; readonly z: number; readonly pitch: number };

export type Frame = {
  readonly left: Interval;
  readonly bottom: Interval;
  readonly stock: { readonly left: Stock; readonly right: Stock; readonly top: Stock; readonly bottom: Stock };
};

export type OracleKey = {
  /** Of the carcass asked about. */
  readonly stand: Stand;
  /** Least of clearance less what is asked: `yes` above 0.01, `touches` to -0.01, else `no`. */
  readonly leastSpare: Interval;
  readonly goesInBare: 'yes' | 'no' | 'undecided';
  /** What is left of the clear height when it is stood up; `null` where the brief has no access. */
  readonly standsUpBy: Interval | null;
  readonly widest: Hanging;
  readonly tallest: Hanging;
  readonly deepest: Hanging;
  /** Of the nominal carcass; null where it has no sloped edge, or there is no slope. */
  readonly edge: Edge | null;
  readonly opening: Opening;
  readonly frame: Frame | null;
  readonly plinth: readonly [Interval, Interval];
  readonly margins: readonly [Interval, Interval, Interval];
  readonly mouthWidth: Interval;
};

export type Question = {
  /** `null`: the brief's nominal one. */
  readonly carcass: Sizes | null;
  /** A blank, centred on the opening unless it is placed. */
  readonly frame: {
    readonly width: number;
    readonly height: number;
    readonly at: { readonly left: number; readonly bottom: number } | null;
  } | null;
  /** mm that `goesInBare` must be clear by before it is called either way. */
  readonly tolerance: number;
};

/** mm; how close a turn from good to bad is looked for. */
const CLOSE = 1e-4;

/** @throws {RangeError} where the samples are not what they say, or a side is missing */
export function roomOf(samples: Samples): Room {
  const one = (side: 'left' | 'right' | 'back' | 'floor') => {
    const walls = wallsOf(samples, side);
    if (walls.length !== 1) throw new RangeError(`samples: expected one surface on the ${side}, got ${walls.length}`);
    return walls[0]!;
  };
  const slopes = wallsOf(samples, 'slope');
  const ceilings = [...wallsOf(samples, 'ceiling'), ...slopes];
  if (ceilings.length === 0) throw new RangeError('samples: expected a ceiling');
  return {
    brief: samples.brief,
    left: one('left'),
    right: one('right'),
    back: one('back'),
    floor: one('floor'),
    ceilings,
    slopes,
  };
}

/** @throws {OutsideError} where a carcass or the section lies beyond what the samples reach */
export function keyOf(room: Room, question: Question): OracleKey {
  const { brief } = room;
  const { nominal, section, tallest, edge } = ofNominal(room);
  const stand = question.carcass ? standOf(room, question.carcass) : nominal;
  const opening: Opening = {
    width: minus(section.right.most, section.left.least),
    height: minus(section.ceiling.most, section.floor.least),
    left: section.left.least,
    bottom: section.floor.least,
  };
  const { clearance, tightest } = nominal;
  return {
    stand,
    leastSpare: leastSpareOf(stand, brief),
    goesInBare: isShaped(stand.size)
      ? shapedGoesIn(room, stand, question.tolerance)
      : goesIn(room, stand, question.tolerance),
    standsUpBy: standsUpBy(brief, stand.size),
    widest: { value: minus(tightest.right, tightest.left), hangsOn: least(clearance.top, clearance.back) },
    tallest,
    edge,
    deepest: {
      value: minus(tightest.back, exactly(brief.carcassFrontMm)),
      hangsOn: least(clearance.left, clearance.right, clearance.top),
    },
    opening,
    frame: question.frame ? frameOf(section, opening, question.frame) : null,
    plinth: plinthOf(room, stand),
    margins: marginsOf(room, stand),
    mouthWidth: mouthWidthOf(room, stand),
  };
}

/** What hangs on the nominal carcass alone, worked out once a room. */
function ofNominal(room: Room) {
  const kept = nominals.get(room);
  if (kept) return kept;
  const { carcassMm } = room.brief;
  const nominal = standOf(room, carcassMm);
  const { left, right, back } = nominal.clearance;
  const tallest = carcassMm.slope
    ? tallestShaped(room, nominal)
    : { value: minus(nominal.tightest.top, nominal.bottom), hangsOn: least(left, right, back) };
  const found = { nominal, tallest, section: sectionAtFaceLine(room), edge: highestEdgeOf(room, nominal) };
  nominals.set(room, found);
  return found;
}

const nominals = new WeakMap<
  Room,
  { nominal: Stand; tallest: Hanging; section: ReturnType<typeof sectionAtFaceLine>; edge: Edge | null }
>();

/** How low a line over the section can stand at a place, over the bottom of the opening: from samples, and certainly. */
export function lowestCover(room: Room, middle: number, bottom: Interval): Interval {
  const seen = seenOverhead(room);
  const points = seen.flatMap(({ from, to, wall }) =>
    [from, to].map((x) => ({ x: x - middle, z: heightAt(wall.sheet, x, 0) })),
  );
  let best = { z: -Infinity, pitch: 0 };
  const [before, after] = [upperHull(points.filter(({ x }) => x <= 0)), upperHull(points.filter(({ x }) => x > 0))];
  for (const a of before)
    for (const b of after) {
      const pitch = (b.z - a.z) / (b.x - a.x);
      if (a.z - pitch * a.x > best.z) best = { z: a.z - pitch * a.x, pitch };
    }
  const line = { at: middle, z: 0, pitch: best.pitch };
  return minus({ low: best.z - GRAIN, high: -stockUnder(room, line, seen).low }, bottom);
}

/** What a line leaves over the section, along z: least over all of it, and most over its slopes. */
export function stockUnder(room: Room, line: CoverLine, seen = seenOverhead(room)): { low: number; most: Interval } {
  let low = Infinity;
  const most = { low: -Infinity, high: -Infinity };
  for (const { from, to, wall } of seen) {
    const { sheet } = wall;
    const over = (sign: 1 | -1) =>
      greatest(
        sheet,
        sign,
        { u: [from, to], v: [0, 0] },
        { along: 'u', at: line.at, height: -sign * line.z, slope: -sign * line.pitch },
      );
    low = Math.min(low, -over(1).high);
    if (!room.slopes.includes(wall)) continue;
    const up = over(-1);
    most.low = Math.max(most.low, up.low);
    most.high = Math.max(most.high, up.high);
  }
  return { low, most };
}

/** The points of an upper hull, from left to right: only they can hold a line up. */
function upperHull(points: readonly { readonly x: number; readonly z: number }[]): { x: number; z: number }[] {
  const hull: { x: number; z: number }[] = [];
  for (const p of [...points].sort((a, b) => a.x - b.x || a.z - b.z)) {
    for (;;) {
      const [a, b] = [hull[hull.length - 2], hull[hull.length - 1]];
      if (!a || !b || (b.z - a.z) * (p.x - a.x) > (p.z - a.z) * (b.x - a.x)) break;
      hull.pop();
    }
    hull.push(p);
  }
  return hull;
}

/** Where a carcass stands, and what is left beside it. */
export function standOf(room: Room, size: Sizes): Stand {
  if (isShaped(size)) return shapedStandOf(room, size);
  const { brief } = room;
  const { askMm: ask, mouthMm: mouth } = brief;
  const backAt = brief.carcassFrontMm + size.depth;
  const half = brief.openingMm.width / 2;
  const high = greatest(room.floor.sheet, 1, { u: [-half, half], v: [mouth, backAt] });
  const bottom = plus(exactly(brief.plinthMm), high);
  const depths: Span = [exactly(mouth), exactly(backAt)];
  const heights: Span = [bottom, plus(bottom, exactly(size.height))];
  const left = peakOver([room.left], depths, heights);
  const right = negated(peakOver([room.right], depths, heights));
  const edge = times(0.5, plus(plus(left, right), exactly(ask.left - ask.right - size.width)));
  const widths: Span = [edge, plus(edge, exactly(size.width))];
  const top = negated(peakOver(room.ceilings, widths, depths));
  const back = negated(peakOver([room.back], widths, heights));
  const spare = plus(minus(right, left), exactly(-size.width));
  return {
    size,
    backAt,
    bottom,
    left: edge,
    tightest: { left, right, top, back },
    clearance: {
      left: times(0.5, plus(spare, exactly(ask.left - ask.right))),
      right: times(0.5, plus(spare, exactly(ask.right - ask.left))),
      top: minus(top, plus(bottom, exactly(size.height))),
      back: minus(back, exactly(backAt)),
    },
  };
}

/** From one place to another, each known to an interval. */
type Span = readonly [Interval, Interval];

/** The greatest bulk of any of the walls over a rectangle whose edges are known to intervals. */
function peakOver(walls: readonly Wall[], u: Span, v: Span): Interval {
  const inner: Rect = { u: [u[0].high, u[1].low], v: [v[0].high, v[1].low] };
  const outer: Rect = { u: [u[0].low, u[1].high], v: [v[0].low, v[1].high] };
  const same = [u, v].every(([from, to]) => from.low === from.high && to.low === to.high);
  let [low, high] = [-Infinity, -Infinity];
  for (const wall of walls) {
    const over = peak(wall, outer);
    low = Math.max(low, same ? over.low : peak(wall, inner).low);
    high = Math.max(high, over.high);
  }
  return { low, high };
}

function leastSpareOf(stand: Stand, { askMm: ask }: Brief): Interval {
  const { left, right, top, back } = stand.clearance;
  return least(
    minus(left, exactly(ask.left)),
    minus(right, exactly(ask.right)),
    minus(top, exactly(ask.top)),
    minus(back, exactly(ask.back)),
  );
}

function standsUpBy(brief: Brief, size: Sizes): Interval | null {
  if (!brief.access) return null;
  const by = brief.access.clearHeightMm - (isShaped(size) ? turnedUp : boxTurnedUp)(size, under(brief));
  return { low: by - GRAIN, high: by + GRAIN };
}

function under(brief: Brief): number {
  return brief.access?.plinthSeparate ? 0 : brief.plinthMm;
}

function boxTurnedUp(size: Sizes, plinth: number): number {
  const tall = size.height + plinth;
  return Math.sqrt(tall * tall + size.depth * size.depth);
}

/**
 * How high a shape reaches when it is turned up from its back or a side, whichever is least: it is turned, a step at a
 * time, and its highest point is looked at. Steps so small that what they miss of a radius r is r x² / 8, under GRAIN.
 */
function turnedUp(size: Sizes, plinth: number): number {
  const outline = straightsOf(topOf(size, 0)).flatMap(({ x0, x1, z0, z1 }) => [
    { x: x0, z: z0 },
    { x: x1, z: z1 },
  ]);
  const tallest = Math.max(...outline.map(({ z }) => z));
  const sections = [
    [{ x: size.depth, z: tallest }],
    outline,
    outline.map(({ x, z }) => ({ x: size.width - x, z })),
  ].map((section) => section.map(({ x, z }) => ({ x, z: z + plinth })));
  return Math.min(...sections.map(highestTurning));
}

function highestTurning(section: readonly { readonly x: number; readonly z: number }[]): number {
  const at = (turn: number) => Math.max(...section.map(({ x, z }) => z * Math.cos(turn) + x * Math.sin(turn)));
  let [from, to] = [0, Math.PI / 2];
  for (let round = 0; round < 8; round++) {
    const step = (to - from) / 64;
    let best = 0;
    for (let i = 1; i <= 64; i++) if (at(from + i * step) > at(from + best * step)) best = i;
    [from, to] = [Math.max(0, from + (best - 1) * step), Math.min(Math.PI / 2, from + (best + 1) * step)];
  }
  return at((from + to) / 2);
}

function frameOf(
  section: ReturnType<typeof sectionAtFaceLine>,
  open: Opening,
  blank: NonNullable<Question['frame']>,
): Frame {
  const centred = (from: Interval, size: Interval, own: number) => plus(from, times(0.5, minus(size, exactly(own))));
  const left = blank.at ? exactly(blank.at.left) : centred(open.left, open.width, blank.width);
  const bottom = blank.at ? exactly(blank.at.bottom) : centred(open.bottom, open.height, blank.height);
  const right = plus(left, exactly(blank.width));
  const top = plus(bottom, exactly(blank.height));
  return {
    left,
    bottom,
    stock: {
      left: [minus(section.left.least, left), minus(section.left.most, left)],
      right: [minus(right, section.right.most), minus(right, section.right.least)],
      top: [minus(top, section.ceiling.most), minus(top, section.ceiling.least)],
      bottom: [minus(section.floor.least, bottom), minus(section.floor.most, bottom)],
    },
  };
}

/** The carcass's bottom above the floor along the face line: least at the floor's high point there, most at its low. */
function plinthOf(room: Room, stand: Stand): [Interval, Interval] {
  const half = room.brief.openingMm.width / 2;
  const line: Rect = { u: [-half, half], v: [0, 0] };
  const { sheet } = room.floor;
  return [minus(stand.bottom, greatest(sheet, 1, line)), plus(stand.bottom, greatest(sheet, -1, line))];
}

/** From the carcass's top to the lowest ceiling or trim over its front edge: left end, middle, right end. */
function marginsOf(room: Room, stand: Stand): [Interval, Interval, Interval] {
  const front = room.brief.carcassFrontMm;
  const { size } = stand;
  const at = (share: number) => {
    const x = plus(stand.left, exactly(share * size.width));
    const top = plus(stand.bottom, isShaped(size) ? heightNear(size, share * size.width) : exactly(size.height));
    const rect: Rect = { u: [x.low, x.high], v: [front, front] };
    const low = -Math.max(...room.ceilings.map((ceiling) => peak(ceiling, rect).high));
    const high = -Math.max(...room.ceilings.map((ceiling) => trough(ceiling, rect)));
    return minus({ low, high }, top);
  };
  return [at(0), at(0.5), at(1)];
}

/** The height of a shape at a place from its left edge: at a step, from the lower to the higher. */
function heightNear(size: Sizes, x: number): Interval {
  const { height } = topOf(size, 0);
  const near = [x - 1e-6, x + 1e-6].filter((at) => at >= 0 && at <= size.width).map(height);
  return { low: Math.max(...near) - 1e-5, high: Math.max(...near) + 1e-5 };
}

function mouthWidthOf(room: Room, stand: Stand): Interval {
  const mouth = exactly(room.brief.mouthMm);
  const heights: Span = [stand.bottom, plus(stand.bottom, exactly(stand.size.height))];
  const left = peakOver([room.left], [mouth, mouth], heights);
  return minus(negated(peakOver([room.right], [mouth, mouth], heights)), left);
}

/**
 * Is there an x where all four clearances are >= 0? Left and right bound x to what is between the walls. Over a stretch
 * of x, top and back are free in columns: a column whose bound leaves `by` free at every place is good, a place
 * where they certainly miss by `by` is bad. A run of good columns longer than the carcass proves yes; no gap between
 * neighbouring bad places (or a wall) as wide as the carcass proves no. Where good turns to bad between two places, the
 * turn is closed in on by halving, from its own side for each proof.
 */
function goesIn(room: Room, stand: Stand, by: number): OracleKey['goesInBare'] {
  const { left, right } = stand.tightest;
  const { width } = stand.size;
  if (right.high - left.low < width - 2 * by) return 'no';
  if (Object.values(stand.clearance).every((side: Interval) => side.low >= by)) return 'yes';
  const wideEnough = right.low - left.high > width + 2 * by;
  if (wideEnough && longestGood(room, stand, by) > width + 2 * by) return 'yes';
  return widestGap(room, stand, by) < width - 2 * by ? 'no' : 'undecided';
}

function longestGood(room: Room, stand: Stand, by: number): number {
  const places = columns(room, stand.tightest.left.high, stand.tightest.right.low);
  const good = (a: number, b: number) => overhead(room, stand, [Math.min(a, b), Math.max(a, b)]).low >= by;
  let longest = 0;
  let from = places[0] ?? 0;
  for (let i = 1; i < places.length; i++) {
    const [before, to] = [places[i - 1]!, places[i]!];
    if (good(before, to)) {
      longest = Math.max(longest, to - from);
      continue;
    }
    const reach = good(before, before) ? lastWhere(before, to, (x) => good(before, x)) : before;
    longest = Math.max(longest, reach - from);
    from = good(to, to) ? lastWhere(to, before, (x) => good(x, to)) : to;
  }
  return longest;
}

function widestGap(room: Room, stand: Stand, by: number): number {
  const places = columns(room, stand.tightest.left.low, stand.tightest.right.high);
  const bad = (x: number) => overhead(room, stand, [x, x]).high < -by;
  // Nothing is asked between two neighbours that are both bad: a step may be free there.
  let widest = room.back.sheet.step;
  let from = places[0] ?? 0;
  let wasBad = false;
  for (const [i, place] of places.entries()) {
    const isBad = bad(place);
    if (wasBad && !isBad) from = lastWhere(places[i - 1]!, place, bad);
    const to = isBad && !wasBad && i > 0 ? lastWhere(place, places[i - 1]!, bad) : place;
    if (isBad || i === places.length - 1) widest = Math.max(widest, to - from);
    if (isBad) from = place;
    wasBad = isBad;
  }
  return widest;
}

/** The last place on the way from one that holds to one that does not that was found to hold, by halving. */
function lastWhere(holds: number, other: number, test: (x: number) => boolean): number {
  let [yes, no] = [holds, other];
  while (Math.abs(no - yes) > CLOSE) {
    const middle = (yes + no) / 2;
    if (test(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

/** What is free above and behind over a stretch of x, whichever is less. */
function overhead(room: Room, stand: Stand, [from, to]: readonly [number, number]): Interval {
  const x: Span = [exactly(from), exactly(to)];
  const top = plus(stand.bottom, exactly(stand.size.height));
  const above = negated(peakOver(room.ceilings, x, [exactly(room.brief.mouthMm), exactly(stand.backAt)]));
  const behind = negated(peakOver([room.back], x, [stand.bottom, top]));
  return least(minus(above, top), minus(behind, exactly(stand.backAt)));
}

/** The sample lines and band edges across x from one place to another, and both ends. */
function columns(room: Room, from: number, to: number): number[] {
  if (!(from < to)) return [];
  const places = new Set([from, to]);
  for (const wall of [...room.ceilings, room.back]) {
    const [first, last] = reach(wall.sheet).u;
    for (let x = first; x <= last; x += wall.sheet.step) if (x > from && x < to) places.add(x);
    const edges = wall.bands.flatMap((band) => [
      ...band.uMm,
      ...(band.profile.along === 'u' ? band.profile.mm.map(([place]) => place) : []),
    ]);
    for (const x of edges) if (x > from && x < to) places.add(x);
  }
  return [...places].sort((a, b) => a - b);
}
