/**
 * The outline: the recess as the eye sees it, straight, from the brief's rough sizes. It knows nothing of the truth.
 */
import type { Polygon } from '../geometry/polygon.ts';
import { beginsAtMouth, type FamilyName, isOpen, type Side, type SlopeSpec, sides } from '../recess/recess-spec.ts';
import type { Exercise } from './exercise.ts';

export interface Outline {
  readonly openingMm: { readonly width: number; readonly height: number; readonly depth: number };
  readonly mouthMm: number;
  readonly breastSide: 'left' | 'right' | null;
  readonly family: FamilyName;
  /** Sides that are open: there is no surface. */
  readonly open: readonly Side[];
  readonly slope: SlopeSpec | null;
  /** The right-hand recess of a pair. */
  readonly second?: {
    readonly atXMm: number;
    readonly openingMm: Outline['openingMm'];
    readonly mouthMm: number;
  };
}

/** How far the room goes on in front of the face line, mm, as far as the simulator cares. */
export const roomInFrontMm = 3500;

/** Gives an exercise's outline. */
export function outlineOf(exercise: Exercise): Outline {
  const { openingMm, mouthMm } = exercise.brief;
  const { spec } = exercise;
  const open = sides.filter((side) => isOpen(spec, side));
  const { second } = exercise.brief;
  return {
    openingMm,
    mouthMm,
    breastSide: spec.breastSide,
    family: spec.family,
    open,
    slope: spec.slope ?? null,
    ...(second && spec.second
      ? { second: { atXMm: spec.second.atXMm, openingMm: second.openingMm, mouthMm: second.mouthMm } }
      : {}),
  };
}

/**
 * Gives the plan of where one can stand: the recess, and the room in front of it past the breast's face.
 *
 * @returns mm, x right and y into the recess, anticlockwise seen from above
 */
export function planOutline(outline: Outline): Polygon {
  const half = outline.openingMm.width / 2;
  const { depth } = outline.openingMm;
  const front = -roomInFrontMm;
  const past = half + 1500;
  if (outline.second) return pairRoom(outline, outline.second);
  if (outline.breastSide === null) return straightRoom(outline, { half, past, front });
  return outline.breastSide === 'right'
    ? [
        { x: -half, y: front },
        { x: past, y: front },
        { x: past, y: outline.mouthMm },
        { x: half, y: outline.mouthMm },
        { x: half, y: depth },
        { x: -half, y: depth },
      ]
    : [
        { x: -past, y: front },
        { x: half, y: front },
        { x: half, y: depth },
        { x: -half, y: depth },
        { x: -half, y: outline.mouthMm },
        { x: -past, y: outline.mouthMm },
      ];
}

/** A room whose side walls run straight on, and widens past a side that is open or before a reveal or a doorway. */
function straightRoom(outline: Outline, at: { half: number; past: number; front: number }): Polygon {
  const { half, past, front } = at;
  if (beginsAtMouth(outline, 'left'))
    return [
      { x: -past, y: front },
      { x: past, y: front },
      { x: past, y: outline.mouthMm },
      { x: half, y: outline.mouthMm },
      { x: half, y: outline.openingMm.depth },
      { x: -half, y: outline.openingMm.depth },
      { x: -half, y: outline.mouthMm },
      { x: -past, y: outline.mouthMm },
    ];
  const left = outline.open.includes('left') ? -past : -half;
  const right = outline.open.includes('right') ? past : half;
  const back = outline.openingMm.depth;
  return [
    { x: left, y: front },
    { x: right, y: front },
    { x: right, y: back },
    { x: left, y: back },
  ];
}

/** Two recesses with the breast between them, and the room in front of its face. */
function pairRoom(outline: Outline, second: NonNullable<Outline['second']>): Polygon {
  const half = outline.openingMm.width / 2;
  const from = second.atXMm - second.openingMm.width / 2;
  const to = second.atXMm + second.openingMm.width / 2;
  return [
    { x: -half, y: -roomInFrontMm },
    { x: to, y: -roomInFrontMm },
    { x: to, y: second.openingMm.depth },
    { x: from, y: second.openingMm.depth },
    { x: from, y: second.mouthMm },
    { x: half, y: outline.mouthMm },
    { x: half, y: outline.openingMm.depth },
    { x: -half, y: outline.openingMm.depth },
  ];
}
