/**
 * The level: a cross-line instrument that throws a level plane and two upright planes at 90°, all the way round.
 *
 * F is the upright plane across the way it faces, S the one along it. In this version it is without faults and turns
 * about its own crossing point.
 */
import type { Kit } from '../exercise/kit.ts';
import { type Plane, type Point, turned, turnedBySlope } from '../geometry/plane.ts';
import type { DatumKind } from './act.ts';

/** A level as it stands, in the room's frame, mm. */
export interface Standing {
  /** Counted from 1: each time it is stood is a new set-up. */
  readonly setUp: number;
  readonly at: Point;
  /** Where it faces: horizontal, unit length. */
  readonly facing: { readonly x: number; readonly y: number };
  readonly settled: boolean;
}

/** Gives a plane that a standing level throws: F's normal is the facing, S's points to its right, L's up. */
export function planeOf(standing: Pick<Standing, 'at' | 'facing'>, kind: DatumKind): Plane {
  const { at, facing } = standing;
  if (kind === 'L') return { nx: 0, ny: 0, nz: 1, c: at.z };
  const n = kind === 'F' ? facing : { x: facing.y, y: 0 - facing.x };
  return { nx: n.x, ny: n.y, nz: 0, c: n.x * at.x + n.y * at.y };
}

/** Turns a level by a slope and whole quarters, anticlockwise seen from above. */
export function turnLevel(standing: Standing, by: { slope: number; quarters: number }): Standing {
  let facing = turnedBySlope(standing.facing, by.slope);
  for (let i = 0; i < Math.abs(by.quarters); i++) facing = turned(facing, by.quarters > 0 ? 1 : -1);
  return { ...standing, facing };
}

/**
 * Turns a level until one of its upright planes runs through a target, the short way round.
 *
 * @param missMm - how far beside the target the hand leaves it, + to the left as seen from the level
 * @returns null when the target stands within 50 mm of the level's axis
 */
export function aimLevel(standing: Standing, plane: 'F' | 'S', shot: { at: Point; missMm: number }): Standing | null {
  const dx = shot.at.x - standing.at.x;
  const dy = shot.at.y - standing.at.y;
  const far = Math.sqrt(dx * dx + dy * dy);
  if (far < 50) return null;
  const along = turnedBySlope({ x: dx / far, y: dy / far }, shot.missMm / far);
  const facing = plane === 'S' ? along : { x: 0 - along.y, y: along.x };
  const same = facing.x * standing.facing.x + facing.y * standing.facing.y >= 0;
  return { ...standing, facing: same ? facing : { x: 0 - facing.x, y: 0 - facing.y } };
}

/** Gives the width of a thrown line at a distance from the level, mm. */
export function lineWidth(kit: Kit, farMm: number): number {
  return kit.level.lineWidthMm + (kit.level.lineGrowthMmPerM * farMm) / 1000;
}
