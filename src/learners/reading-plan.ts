/**
 * Reading plans: which offsets a method takes, whatever the room. They are made from the brief alone.
 *
 * @source three heights by front and back for an alcove's side walls: VET learning text for unit MSFKB3003 (widths at top,
 *   middle and bottom in two positions); the denser plans are our own
 */
import { type Brief, finishOn } from '../exercise/brief.ts';
import type { SurfacePlace } from '../survey/act.ts';
import { pieceOf, type SizeName } from '../survey/size.ts';

export interface PlannedReading {
  readonly datum: string;
  readonly place: SurfacePlace;
  /** Left out: by its place. */
  readonly for?: readonly SizeName[];
}

/** How dense a plan is. */
export interface Density {
  readonly wallHeights: number;
  readonly wallDepths: number;
  readonly backHeights: number;
  readonly backWidths: number;
  readonly flatWidths: number;
  readonly flatDepths: number;
}

/** Seven heights by three depths a side, fewer on the back, and five by three on floor and ceiling. */
export const carefulDensity: Density = {
  wallHeights: 7,
  wallDepths: 3,
  backHeights: 5,
  backWidths: 3,
  flatWidths: 5,
  flatDepths: 3,
};

/** How far from a corner a rule is held, mm. */
export const cornerMm = 12;

/** Plans the offsets for a carcass and its frame by a density. */
export function planReadings(brief: Brief, density: Density): readonly PlannedReading[] {
  return [
    ...wallReadings(brief, density),
    ...faceReadings(brief, density),
    ...(brief.lining ? farFaceReadings(brief, density) : backReadings(brief, density)),
    ...flatReadings(brief, density),
  ];
}

/** Gives even steps from one end to the other, both ends too. */
export function evenSteps(from: number, to: number, count: number): readonly number[] {
  if (count === 1) return [(from + to) / 2];
  return Array.from({ length: count }, (_, i) => Math.round(from + ((to - from) * i) / (count - 1)));
}

/** The heights over which a carcass stands, a hand's breadth of sureness inside. */
export function carcassHeights(brief: Brief): { from: number; to: number } {
  const height = brief.carcassMm.height.nominalMm;
  const foot = brief.plinthMm + finishOn(brief, 'floor');
  return { from: foot + 25, to: foot + height - 10 };
}

/** How far into the recess a carcass reaches from the mouth. */
export function carcassDepths(brief: Brief): { from: number; to: number } {
  return { from: brief.mouthMm + cornerMm, to: brief.carcassFrontMm + brief.carcassMm.depth.nominalMm };
}

/** A run's end is worked out from its own wall, beside the width from both. */
export function wallSizes(brief: Brief, surface: 'left' | 'right'): readonly SizeName[] {
  const width: SizeName = `${pieceOf(brief)}-width`;
  return brief.modules ? [width, surface === 'left' ? 'run-left' : 'run-right'] : [width];
}

function wallReadings(brief: Brief, density: Density): PlannedReading[] {
  const heights = carcassHeights(brief);
  const depths = carcassDepths(brief);
  return (['left', 'right'] as const).flatMap((surface) =>
    evenSteps(depths.from, depths.to, density.wallDepths).flatMap((yMm) =>
      evenSteps(heights.from, heights.to, density.wallHeights).map(
        (zMm): PlannedReading => ({ datum: 'S', place: { surface, yMm, zMm }, for: wallSizes(brief, surface) }),
      ),
    ),
  );
}

/** At the face line, from floor to ceiling: for the frame, and for the carcass where it stands. */
function faceReadings(brief: Brief, density: Density): PlannedReading[] {
  if (!brief.frame) return [];
  const { height, width } = brief.openingMm;
  // A face line set back from the line that is thrown is reckoned from it, not followed.
  const onFace = brief.setBackMm ? { yMm: 0 } : { along: 'F' };
  const walls = (['left', 'right'] as const).flatMap((surface) =>
    evenSteps(cornerMm + 8, height - cornerMm - 8, density.wallHeights).map(
      (zMm): PlannedReading => ({ datum: 'S', place: { surface, ...onFace, zMm }, for: ['frame-width'] }),
    ),
  );
  const flats = (['floor', 'ceiling'] as const).flatMap((surface) =>
    evenSteps(-width / 2 + 25, width / 2 - 25, density.flatWidths).map(
      (xMm): PlannedReading => ({ datum: 'L', place: { surface, ...onFace, xMm }, for: ['frame-height'] }),
    ),
  );
  return [...walls, ...flats];
}

function backReadings(brief: Brief, density: Density): PlannedReading[] {
  const heights = carcassHeights(brief);
  const half = brief.carcassMm.width.nominalMm / 2 - cornerMm;
  if (!brief.carcassMm.depth.find) return [];
  return evenSteps(heights.from, heights.to, density.backHeights).flatMap((zMm) =>
    evenSteps(-half, half, density.backWidths).map(
      (xMm): PlannedReading => ({ datum: 'F', place: { surface: 'back', xMm, zMm }, for: ['carcass-depth'] }),
    ),
  );
}

/** A lining's depth: up both jambs and along the head on the far face, and along the board of a reveal. */
function farFaceReadings(brief: Brief, density: Density): PlannedReading[] {
  const heights = carcassHeights(brief);
  const half = brief.carcassMm.width.nominalMm / 2 - cornerMm;
  if (!brief.carcassMm.depth.find) return [];
  const at = (xMm: number, zMm: number): PlannedReading => ({
    datum: 'F',
    place: { surface: 'back', xMm, zMm },
    for: ['lining-depth'],
  });
  const jambs = [-half, half].flatMap((x) =>
    evenSteps(heights.from, heights.to, density.backHeights).map((z) => at(x, z)),
  );
  const along = evenSteps(-half, half, density.backWidths).slice(1, -1);
  const board = brief.plinthMm > 0 ? along.map((x) => at(x, heights.from - 15)) : [];
  return [...jambs, ...along.map((x) => at(x, heights.to)), ...board];
}

function flatReadings(brief: Brief, density: Density): PlannedReading[] {
  const depths = carcassDepths(brief);
  const over = { floor: brief.openingMm.width / 2 - 25, ceiling: brief.carcassMm.width.nominalMm / 2 - cornerMm };
  return (['floor', 'ceiling'] as const).flatMap((surface) =>
    evenSteps(depths.from, depths.to, density.flatDepths).flatMap((yMm) =>
      evenSteps(-over[surface], over[surface], density.flatWidths).map(
        (xMm): PlannedReading => ({ datum: 'L', place: { surface, xMm, yMm }, for: [`${pieceOf(brief)}-height`] }),
      ),
    ),
  );
}
