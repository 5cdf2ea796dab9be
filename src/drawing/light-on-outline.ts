/**
 * Where a level's lines fall on the straight outline: what the level sees past arrises, at its own height.
 *
 * Frame: the hand's, x right, y into the recess, mm.
 */
import { type Outline, planOutline, roomInFrontMm } from '../exercise/outline.ts';
import type { Point } from '../geometry/plane.ts';
import { contains, type PlanPoint, segmentMeets } from '../geometry/polygon.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { arrisesOf, blocksOf, pastMm, topAt, type Wall, type WallStretch, wallsAt } from './outline-shape.ts';

/** Where an upright line ends: on a wall, or out in the room where nothing is drawn. */
export interface LineEnd {
  readonly wall: Wall | null;
  readonly at: PlanPoint;
}

const nearMm = 1e-6;
/** Nearer than this to a face's own plane, light runs along it and lights nothing, mm. */
const grazeMm = 2;

/**
 * Finds where L falls on the walls and the slope.
 *
 * @returns the stretches that are seen, in the order and the ways of `wallsAt`; none where the level stands outside
 */
export function levelStretches(outline: Outline, eye: Point): readonly WallStretch[] {
  if (!contains(planOutline(outline), eye) || eye.z >= topAt(outline, within(outline, eye.x))) return [];
  // From its own plane, or from behind it, a face is not lit.
  const walls = wallsAt(outline, eye.z).filter((w) => w.wall !== 'face' || eye.y < outline.mouthMm - grazeMm);
  return walls.flatMap((wall) => seenOf(wall, { outline, eye }));
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

/** Cuts a wall where the level's sight past an arris meets it, and keeps what is seen. */
function seenOf(wall: WallStretch, from: { outline: Outline; eye: PlanPoint }): WallStretch[] {
  const { outline, eye } = from;
  const blocks = blocksOf(outline);
  const cuts = arrisesOf(outline).flatMap((corner) => shareMet(wall, eye, corner) ?? []);
  const stops = [0, ...cuts.sort((a, b) => a - b), 1];
  const found: [number, number][] = [];
  for (let i = 1; i < stops.length; i++) {
    const [a, b] = [stops[i - 1] as number, stops[i] as number];
    if (blocks.some((block) => segmentMeets(block, eye, between(wall, (a + b) / 2)))) continue;
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

/** Where a ray first meets a wall, else where the room ends; a level that stands outside throws nothing further than where it is. */
function firstMet(outline: Outline, from: PlanPoint, way: PlanPoint): LineEnd {
  if (!contains(planOutline(outline), from)) return { wall: null, at: from };
  let best = { wall: null as Wall | null, t: roomEnds(outline, from, way) };
  for (const { wall, from: a, to: b } of wallsAt(outline, 0)) {
    const t = rayMeets(from, way, [a, b]);
    if (t !== null && t <= best.t + nearMm) best = { wall, t };
  }
  return { wall: best.wall, at: { x: from.x + way.x * best.t, y: from.y + way.y * best.t } };
}

/** How far along a ray the room is left where no wall ends it, in lengths of its way. */
function roomEnds(outline: Outline, from: PlanPoint, way: PlanPoint): number {
  const { width, depth } = outline.openingMm;
  const side = width / 2 + pastMm;
  const far = (at: number, by: number, low: number, high: number) =>
    Math.abs(by) < 1e-12 ? Number.POSITIVE_INFINITY : ((by > 0 ? high : low) - at) / by;
  return Math.min(far(from.x, way.x, 0 - side, side), far(from.y, way.y, 0 - roomInFrontMm, depth + pastMm));
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

function within(outline: Outline, x: number): number {
  const half = outline.openingMm.width / 2;
  return Math.min(Math.max(x, 0 - half), half);
}
