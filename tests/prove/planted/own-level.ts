/**
 * A level with faults by plain arithmetic of the tests' own: how far a point lies from what it throws, and standing it at
 * a place and a facing that are told in the room's frame.
 */
import type { Point } from '../../../src/geometry/plane.ts';
import { type Hand, toHand } from './hand.ts';

/** Ratios; signs as in the kit. */
export interface OwnFaults {
  readonly fore: number;
  readonly side: number;
  readonly plumbF: number;
  readonly plumbS: number;
  readonly square: number;
}

export const noFaults: OwnFaults = { fore: 0, side: 0, plumbF: 0, plumbS: 0, square: 0 };

export interface OwnLevel {
  readonly at: Point;
  readonly facing: { readonly x: number; readonly y: number };
  readonly faults: OwnFaults;
}

/** Signed distance: + behind F, right of S, above L. */
export function ownOffset(level: OwnLevel, datum: 'F' | 'S' | 'L', p: Point): number {
  const { at, facing: f, faults } = level;
  const [dx, dy, dz] = [p.x - at.x, p.y - at.y, p.z - at.z];
  const ahead = dx * f.x + dy * f.y;
  const right = dx * f.y - dy * f.x;
  if (datum === 'L') return (dz - faults.fore * ahead - faults.side * right) / Math.hypot(1, faults.fore, faults.side);
  if (datum === 'F') return (ahead - faults.plumbF * dz) / Math.hypot(1, faults.plumbF);
  // S turned further anticlockwise: what lies ahead comes to lie to its right.
  const square = (right + faults.square * ahead) / Math.hypot(1, faults.square);
  return (square - faults.plumbS * dz) / Math.hypot(1, faults.plumbS);
}

/** The level after a turn about its crossing point, anticlockwise by a slope. */
export function ownTurned(level: OwnLevel, slope: number): OwnLevel {
  const { x, y } = level.facing;
  const length = Math.hypot(1, slope);
  return { ...level, facing: { x: (x - slope * y) / length, y: (y + slope * x) / length } };
}

/** Stands the level where it is wanted, facing where it is wanted. */
export function standAs(hand: Hand, level: OwnLevel): void {
  const p = toHand(hand.world, level.at);
  hand.act({ act: 'stand', xMm: p.x, yMm: p.y, heightMm: p.z });
  hand.act({ act: 'settle' });
  const { x: c, y: s } = hand.world.hand.xAxis;
  const { facing: f } = level;
  hand.act({ act: 'turn', byMmPerM: (1000 * (-s * f.y - c * f.x)) / (c * f.y - s * f.x) });
}
