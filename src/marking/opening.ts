/**
 * The opening at the face line: the section of the bare walls at y = 0, and what a frame's blank needs to cover it.
 *
 * Each surface's boundary is a stretch from corner to corner; what lies behind a staying trim is left out, for the blank
 * is notched round it. Edges are undercut behind, so y = 0 alone counts. Overhead the lower of ceiling and slope counts.
 */

import { heightAt } from '../geometry/height-field.ts';
import type { Extreme, Rect } from '../geometry/range.ts';
import { isOpen, type Side } from '../recess/recess-spec.ts';
import { bareHighest, bareLowest, overheadSides, type Site, type Stretch } from './site.ts';

/** The four edges of a blank; `top` is at the ceiling or the slope, `bottom` at the floor. */
export const edges = ['left', 'right', 'top', 'bottom'] as const;
export type Edge = (typeof edges)[number];

/** A stretch of one surface's boundary. */
export interface EdgePart {
  readonly side: Side;
  readonly stretch: Stretch;
}

/** An edge's boundary of the section: its parts, and its obstruction's extremes over them. */
export interface EdgeRange {
  readonly parts: readonly EdgePart[];
  readonly least: Extreme;
  readonly most: Extreme;
  /** The surface that `least` is taken on. */
  readonly leastOn: Side;
}

export type OpeningEdges = Readonly<Record<Edge, EdgeRange>>;

/** The bounding rectangle of the section, mm. */
export interface OpeningRect {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
  readonly topMm: number;
}

/** Gives the boundary of the opening; null where a side is open, or a surface lies behind trims all along. */
export function openingEdges(site: Site): OpeningEdges | null {
  const { spec } = site.recess;
  if (isOpen(spec, 'left') || isOpen(spec, 'right') || (isOpen(spec, 'ceiling') && isOpen(spec, 'slope'))) return null;
  const over = overheadSides(site);
  const bottomLeft = corner(site, 'left', ['floor']);
  const bottomRight = corner(site, 'right', ['floor']);
  const topLeft = corner(site, 'left', over);
  const topRight = corner(site, 'right', over);
  const left = edgeRange(site, [{ side: 'left', stretch: [bottomLeft.z, topLeft.z] }]);
  const right = edgeRange(site, [{ side: 'right', stretch: [bottomRight.z, topRight.z] }]);
  const top = edgeRange(site, overheadParts(site, [topLeft.x, topRight.x]));
  const bottom = edgeRange(site, [{ side: 'floor', stretch: [bottomLeft.x, bottomRight.x] }]);
  return left && right && top && bottom ? { left, right, top, bottom } : null;
}

/** Gives the bounding rectangle: the smallest blank that covers. */
export function openingRect(found: OpeningEdges): OpeningRect {
  return {
    leftMm: found.left.least.value,
    rightMm: 0 - found.right.least.value,
    bottomMm: found.bottom.least.value,
    topMm: 0 - found.top.least.value,
  };
}

/**
 * Gives the least and most stock to come off each edge of a blank, mm; < 0 where it does not cover.
 */
export function stockOf(found: OpeningEdges, blank: OpeningRect): Readonly<Record<Edge, readonly [number, number]>> {
  const edgeAt = { left: blank.leftMm, right: 0 - blank.rightMm, bottom: blank.bottomMm, top: 0 - blank.topMm };
  const stock = (edge: Edge): readonly [number, number] => [
    found[edge].least.value - edgeAt[edge],
    found[edge].most.value - edgeAt[edge],
  ];
  return { left: stock('left'), right: stock('right'), top: stock('top'), bottom: stock('bottom') };
}

/** Cuts the staying trims out of a stretch; what is left is closed. */
export function bareStretches(site: Site, side: Side, whole: Stretch): readonly Stretch[] {
  let left: Stretch[] = [whole];
  for (const trim of site.staying[side]) {
    const onWall = side === 'left' || side === 'right';
    const [from, to] = onWall ? trim.uMm : trim.vMm;
    if (from > 0 || to < 0) continue;
    left = left.flatMap((s) => cut(s, onWall ? trim.vMm : trim.uMm));
  }
  return left;
}

/** Gives the line of a side's own axes that lies in the face line over a stretch. */
export function lineAtFace(side: Side, stretch: Stretch): Rect {
  const [from, to] = stretch;
  return side === 'left' || side === 'right' ? { u0: 0, u1: 0, v0: from, v1: to } : { u0: from, u1: to, v0: 0, v1: 0 };
}

function edgeRange(site: Site, wholes: readonly EdgePart[]): EdgeRange | null {
  const parts = wholes.flatMap(({ side, stretch }) =>
    bareStretches(site, side, stretch).map((s): EdgePart => ({ side, stretch: s })),
  );
  const [first, ...rest] = parts;
  if (!first) return null;
  let least = bareLowest(site, first.side, lineAtFace(first.side, first.stretch));
  let most = bareHighest(site, first.side, lineAtFace(first.side, first.stretch));
  let leastOn = first.side;
  for (const { side, stretch } of rest) {
    const low = bareLowest(site, side, lineAtFace(side, stretch));
    const high = bareHighest(site, side, lineAtFace(side, stretch));
    if (low.value < least.value) [least, leastOn] = [low, side];
    if (high.value > most.value) most = high;
  }
  return { parts, least, most, leastOn };
}

function cut(s: Stretch, out: readonly [number, number]): Stretch[] {
  if (out[1] < s[0] || out[0] > s[1]) return [s];
  const parts: Stretch[] = [];
  if (out[0] > s[0]) parts.push([s[0], out[0]]);
  if (out[1] < s[1]) parts.push([out[1], s[1]]);
  return parts;
}

/** The stretches over which ceiling and slope are the lower of the two: a slope is far steeper, so they cross once. */
function overheadParts(site: Site, whole: Stretch): EdgePart[] {
  const sides = overheadSides(site);
  const [only] = sides;
  if (sides.length === 1 && only) return [{ side: only, stretch: whole }];
  const { ceiling, slope } = site.recess.fields;
  // Where the slope is the lower one, it is the greater obstruction.
  const isUnderSlope = (x: number) => heightAt(slope, x, 0) > heightAt(ceiling, x, 0);
  const [from, to] = whole;
  const first = isUnderSlope(from) ? 'slope' : 'ceiling';
  const last = isUnderSlope(to) ? 'slope' : 'ceiling';
  if (first === last) return [{ side: first, stretch: whole }];
  let [low, high] = [from, to];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (isUnderSlope(middle) === (first === 'slope')) low = middle;
    else high = middle;
  }
  return [
    { side: first, stretch: [from, low] },
    { side: last, stretch: [low, to] },
  ];
}

/** Where a side wall's curve at y = 0 meets the floor's, or the lowest of what is overhead. Going to and fro settles. */
function corner(site: Site, wall: 'left' | 'right', flats: readonly Side[]): { x: number; z: number } {
  const { fields, extents, spec } = site.recess;
  const onFloor = flats[0] === 'floor';
  let z = onFloor ? 0 : spec.openingMm.height;
  let x = 0;
  for (let turn = 0; turn < 60; turn++) {
    const across = heightAt(fields[wall], 0, z);
    x = clamp(wall === 'left' ? across : 0 - across, extents.x);
    let up = heightAt(fields[flats[0] as Side], x, 0);
    for (const flat of flats.slice(1)) up = Math.max(up, heightAt(fields[flat], x, 0));
    const next = clamp(onFloor ? up : 0 - up, extents.z);
    if (next === z) break;
    z = next;
  }
  return { x, z };
}

function clamp(value: number, to: readonly [number, number]): number {
  return Math.min(Math.max(value, to[0]), to[1]);
}
