/**
 * Where a level's lines fall on the straight outline: what the level sees past the breast and its arris.
 *
 * Frame: the hand's, x right, y into the recess, mm. The outline has one corner that can hide anything, the arris.
 */
import { type Outline, planOutline, roomInFrontMm } from '../exercise/outline.ts';
import { contains, type PlanPoint, segmentMeets } from '../geometry/polygon.ts';
import type { Reckoned } from '../survey/reckoning.ts';

/** The walls that light can fall on; `face` is the breast's face, beside the mouth. */
export type Wall = 'left' | 'right' | 'back' | 'face';

export interface WallStretch {
  readonly wall: Wall;
  readonly from: PlanPoint;
  readonly to: PlanPoint;
}

/** Where an upright line ends: on a wall, or out in the room where nothing is drawn. */
export interface LineEnd {
  readonly wall: Wall | null;
  readonly at: PlanPoint;
}

/** How far along its face the breast is counted, mm. */
const facePastMm = 1500;
const nearMm = 1e-6;

/**
 * Finds where L falls on the walls.
 *
 * @returns the stretches that are seen, each along its wall: left and right from the room to the back, back and face from
 *   left to right; none where the level stands outside
 */
export function levelStretches(outline: Outline, eye: PlanPoint): readonly WallStretch[] {
  if (!contains(planOutline(outline), eye)) return [];
  return wallsOf(outline).flatMap((wall) => seenOf(wall, { outline, eye }));
}

/**
 * Finds both ends of an upright line through the level, on what it meets first.
 *
 * @returns for F the end to the left of the facing, then to its right; for S the far end, then the near one behind the level
 */
export function lineEnds(outline: Outline, level: Reckoned, kind: 'F' | 'S'): readonly [LineEnd, LineEnd] {
  const { x, y } = level.facing;
  const way = kind === 'S' ? { x, y } : { x: 0 - y, y: x };
  return [firstMet(outline, level.at, way), firstMet(outline, level.at, { x: 0 - way.x, y: 0 - way.y })];
}

function wallsOf(outline: Outline): readonly WallStretch[] {
  const half = outline.openingMm.width / 2;
  const { depth } = outline.openingMm;
  const right = outline.breastSide === 'right';
  const side = (wall: 'left' | 'right'): WallStretch => {
    const x = wall === 'left' ? 0 - half : half;
    const begins = wall === outline.breastSide ? outline.mouthMm : 0 - roomInFrontMm;
    return { wall, from: { x, y: begins }, to: { x, y: depth } };
  };
  const [x0, x1] = right ? [half, half + facePastMm] : [0 - half - facePastMm, 0 - half];
  return [
    side('left'),
    { wall: 'back', from: { x: 0 - half, y: depth }, to: { x: half, y: depth } },
    side('right'),
    { wall: 'face', from: { x: x0, y: outline.mouthMm }, to: { x: x1, y: outline.mouthMm } },
  ];
}

/** Cuts a wall where the level's sight past the arris meets it, and keeps what is seen. */
function seenOf(wall: WallStretch, from: { outline: Outline; eye: PlanPoint }): WallStretch[] {
  const { outline, eye } = from;
  const block = breastBlock(outline);
  const cut = shareMet(wall, eye, arrisOf(outline));
  const stops = cut === null ? [0, 1] : [0, cut, 1];
  const found: [number, number][] = [];
  for (let i = 1; i < stops.length; i++) {
    const [a, b] = [stops[i - 1] as number, stops[i] as number];
    if (segmentMeets(block, eye, between(wall, (a + b) / 2))) continue;
    const last = found.at(-1);
    if (last && last[1] === a) last[1] = b;
    else found.push([a, b]);
  }
  return found.map(([a, b]) => ({ wall: wall.wall, from: between(wall, a), to: between(wall, b) }));
}

/** As a share of a wall in (0, 1), where the line from the eye on past a corner meets it; null where it does not. */
function shareMet(wall: WallStretch, eye: PlanPoint, corner: PlanPoint): number | null {
  const way = { x: corner.x - eye.x, y: corner.y - eye.y };
  const run = { x: wall.to.x - wall.from.x, y: wall.to.y - wall.from.y };
  const cross = run.x * way.y - run.y * way.x;
  if (Math.abs(cross) < nearMm) return null;
  const share = ((eye.x - wall.from.x) * way.y - (eye.y - wall.from.y) * way.x) / cross;
  return share > 1e-9 && share < 1 - 1e-9 ? share : null;
}

function between({ from, to }: WallStretch, share: number): PlanPoint {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

function arrisOf(outline: Outline): PlanPoint {
  const half = outline.openingMm.width / 2;
  return { x: outline.breastSide === 'right' ? half : 0 - half, y: outline.mouthMm };
}

function breastBlock(outline: Outline): readonly PlanPoint[] {
  const half = outline.openingMm.width / 2;
  const [x0, x1] = outline.breastSide === 'right' ? [half, half + 2 * facePastMm] : [-half - 2 * facePastMm, -half];
  const { depth } = outline.openingMm;
  return [
    { x: x0, y: outline.mouthMm },
    { x: x1, y: outline.mouthMm },
    { x: x1, y: depth + 1 },
    { x: x0, y: depth + 1 },
  ];
}

/** Where a ray first meets the outline; a level that stands outside throws nothing further than where it is. */
function firstMet(outline: Outline, from: PlanPoint, way: PlanPoint): LineEnd {
  const polygon = planOutline(outline);
  if (!contains(polygon, from)) return { wall: null, at: from };
  let best = { wall: null as Wall | null, t: Number.POSITIVE_INFINITY };
  for (let i = 0; i < polygon.length; i++) {
    const [a, b] = [polygon[i] as PlanPoint, polygon[(i + 1) % polygon.length] as PlanPoint];
    const t = rayMeets(from, way, [a, b]);
    if (t !== null && t < best.t) best = { wall: wallAt(outline, a, b), t };
  }
  if (best.t === Number.POSITIVE_INFINITY) return { wall: null, at: from };
  return { wall: best.wall, at: { x: from.x + way.x * best.t, y: from.y + way.y * best.t } };
}

/** How far along a ray it meets an edge, in lengths of its way, > 0; null where it does not. */
function rayMeets(from: PlanPoint, way: PlanPoint, [a, b]: readonly [PlanPoint, PlanPoint]): number | null {
  const ex = b.x - a.x;
  const ey = b.y - a.y;
  const cross = way.x * ey - way.y * ex;
  if (Math.abs(cross) < 1e-12) return null;
  const t = ((a.x - from.x) * ey - (a.y - from.y) * ex) / cross;
  const s = ((a.x - from.x) * way.y - (a.y - from.y) * way.x) / cross;
  return t > nearMm && s >= 0 && s <= 1 ? t : null;
}

/** Which wall an edge of the plan is; the room's own far edges are none. */
function wallAt(outline: Outline, a: PlanPoint, b: PlanPoint): Wall | null {
  const half = outline.openingMm.width / 2;
  if (a.y === b.y) return a.y === outline.openingMm.depth ? 'back' : a.y === outline.mouthMm ? 'face' : null;
  if (a.x !== b.x) return null;
  return a.x === half ? 'right' : a.x === 0 - half ? 'left' : null;
}
