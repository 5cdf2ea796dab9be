/**
 * The outline's shape for drawing: which walls there are and where they begin, how high it is at a place along.
 *
 * Frame: the hand's, x right, y into the recess, z up, mm. It knows the outline alone.
 */
import type { Outline } from '../exercise/outline.ts';
import { roomInFrontMm } from '../exercise/outline.ts';
import type { PlanPoint } from '../geometry/polygon.ts';
import { slopeHeight } from '../recess/defect-shapes.ts';
import { beginsAtMouth, farFaceReachMm, type Side } from '../recess/recess-spec.ts';

/** The walls that light can fall on; `face` is the room's own wall beside the mouth: a breast's, or round a reveal. */
export type Wall = 'left' | 'right' | 'back' | 'face' | 'slope';

export interface WallStretch {
  readonly wall: Wall;
  readonly from: PlanPoint;
  readonly to: PlanPoint;
}

type Hand = 'left' | 'right';
export const hands = ['left', 'right'] as const;

/** How far along it a face is counted, and a back past an open side, mm. */
export const pastMm = 1500;

/** Whether a side has a surface. */
export function isThere(outline: Outline, side: Side): boolean {
  return !outline.open.includes(side);
}

/** Whether the room's wall stands beside the mouth on that hand: the side wall then begins at an arris. */
export function hasFace(outline: Outline, hand: Hand): boolean {
  return beginsAtMouth(outline, hand);
}

/** Whether the opening goes through a wall: there is nothing behind it, and its back is the wall's far face. */
export function goesThrough(outline: Outline): boolean {
  return outline.family === 'doorway';
}

/** Whether floor and ceiling end at the mouth, as a reveal's do. */
export function isInWall(outline: Outline): boolean {
  return outline.family === 'reveal' || outline.family === 'doorway';
}

/** Where a side stands along the face line, mm. */
export function sideAt(outline: Outline, hand: Hand): number {
  return (hand === 'left' ? -1 : 1) * (outline.openingMm.width / 2);
}

/** How high it is at a place along: to the ceiling or the slope, whichever is lower. */
export function topAt(outline: Outline, x: number): number {
  const { width, height } = outline.openingMm;
  return outline.slope ? Math.min(height, slopeHeight(outline.slope, width, x)) : height;
}

/** Where the slope comes down to a height, along the face line; null where it does not within the opening. */
export function slopeMeets(outline: Outline, zMm: number): number | null {
  const { slope } = outline;
  if (!slope) return null;
  const inward = ((zMm - slope.lowMm) * 1000) / slope.riseMmPerM;
  if (inward <= 0 || inward >= outline.openingMm.width) return null;
  return slope.low === 'left' ? inward + sideAt(outline, 'left') : sideAt(outline, 'right') - inward;
}

/** The top as the elevation cuts it, from left to right: corners in x and z. */
export function topLine(outline: Outline): readonly (readonly [x: number, z: number])[] {
  const [a, b] = [sideAt(outline, 'left'), sideAt(outline, 'right')];
  const kink = slopeMeets(outline, outline.openingMm.height);
  const xs = kink === null ? [a, b] : [a, kink, b];
  return xs.map((x) => [x, topAt(outline, x)] as const);
}

/**
 * The walls that a level plane at a height can fall on, as one goes round from the left: a face, the left wall, the back,
 * the right wall, a face. Left and right run from the room to the back, the others from left to right.
 */
export function wallsAt(outline: Outline, zMm: number): readonly WallStretch[] {
  const { depth } = outline.openingMm;
  const ends = { left: endAt(outline, 'left', zMm), right: endAt(outline, 'right', zMm) };
  const back: WallStretch = { wall: 'back', from: { x: ends.left.x, y: depth }, to: { x: ends.right.x, y: depth } };
  return [
    ...faceOf(outline, 'left'),
    ...ends.left.walls,
    ...(goesThrough(outline) ? [] : [back]),
    ...ends.right.walls,
    ...faceOf(outline, 'right'),
  ];
}

/** What stands in the way of light: the breast, or the wall on either side of a reveal; corners in the plan. */
export function blocksOf(outline: Outline): readonly (readonly PlanPoint[])[] {
  const { depth } = outline.openingMm;
  return hands
    .filter((hand) => hasFace(outline, hand))
    .map((hand) => {
      const x = sideAt(outline, hand);
      const far = x + (hand === 'left' ? -2 : 2) * pastMm;
      const behind = goesThrough(outline) ? depth : depth + 1;
      return [
        { x, y: outline.mouthMm },
        { x: far, y: outline.mouthMm },
        { x: far, y: behind },
        { x, y: behind },
      ];
    });
}

/** The corners that hide what lies behind them. */
export function arrisesOf(outline: Outline): readonly PlanPoint[] {
  return hands
    .filter((hand) => hasFace(outline, hand))
    .map((hand) => ({ x: sideAt(outline, hand), y: outline.mouthMm }));
}

/** Where along the opening there is something behind: all of it, but of an opening that goes through only its edges. */
export function backRuns(outline: Outline): readonly (readonly [from: number, to: number])[] {
  if (!isThere(outline, 'back')) return [];
  const half = outline.openingMm.width / 2;
  if (!goesThrough(outline)) return [[0 - half, half]];
  return [
    [0 - half, farFaceReachMm - half],
    [half - farFaceReachMm, half],
  ];
}

/** Where free space ends on a hand at a height, with the walls there. */
function endAt(outline: Outline, hand: Hand, zMm: number): { x: number; walls: readonly WallStretch[] } {
  const { depth } = outline.openingMm;
  const x = sideAt(outline, hand);
  const front = hasFace(outline, hand) ? outline.mouthMm : 0 - roomInFrontMm;
  const meets = outline.slope?.low === hand ? slopeMeets(outline, zMm) : null;
  if (meets !== null)
    return { x: meets, walls: [{ wall: 'slope', from: { x: meets, y: front }, to: { x: meets, y: depth } }] };
  if (isThere(outline, hand)) return { x, walls: [{ wall: hand, from: { x, y: front }, to: { x, y: depth } }] };
  return { x: x + (hand === 'left' ? -pastMm : pastMm), walls: [] };
}

function faceOf(outline: Outline, hand: Hand): readonly WallStretch[] {
  if (!hasFace(outline, hand)) return [];
  const x = sideAt(outline, hand);
  const y = outline.mouthMm;
  const [from, to] = hand === 'left' ? [x - pastMm, x] : [x, x + pastMm];
  return [{ wall: 'face', from: { x: from, y }, to: { x: to, y } }];
}
