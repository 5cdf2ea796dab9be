/** What is in hand in the views: the place, the datum, the rule's length, and the places of the run. Hand's frame, mm. */
import type { Point } from '../geometry/plane.ts';
import type { Side } from '../recess/recess-spec.ts';
import type { Reckoned } from '../survey/reckoning.ts';

export interface RoomFocus {
  readonly place: Point | null;
  readonly surface: Side | null;
  readonly datum: 'F' | 'S' | 'L' | null;
  readonly runPlaces: readonly (Point & { readonly done: boolean })[];
  /** How much of the rule is unfolded, whole legs; 0 where none is held. */
  readonly ruleLengthMm: number;
}

/** A leg of the folding rule, mm. */
export const legMm = 200;

/** Where the rule in hand ends; null when none is held. */
export function ruleEnd(focus: RoomFocus): Point | null {
  const { place, surface, ruleLengthMm: long } = focus;
  return place && surface && long > 0 ? along(place, surface, long) : null;
}

/** Where the rule in hand meets the line, as the level is reckoned to stand; null where none is met on the rule. */
export function ruleMeets(focus: RoomFocus, level: Reckoned | null): Point | null {
  const { place, surface, datum, ruleLengthMm } = focus;
  if (!place || !surface || !datum || !level?.settled || ruleLengthMm <= 0) return null;
  const { x, y } = level.facing;
  const n = { F: { x, y, z: 0 }, S: { x: y, y: 0 - x, z: 0 }, L: { x: 0, y: 0, z: 1 } }[datum];
  const way = ways[surface];
  const closing = n.x * way.x + n.y * way.y + n.z * way.z;
  if (Math.abs(closing) < 0.1) return null;
  const off = n.x * (place.x - level.at.x) + n.y * (place.y - level.at.y) + n.z * (place.z - level.at.z);
  const far = 0 - off / closing;
  return far > 0 && far <= ruleLengthMm ? along(place, surface, far) : null;
}

/** Away from a surface, into the free space. */
const ways: Readonly<Record<Side, Point>> = {
  left: { x: 1, y: 0, z: 0 },
  right: { x: -1, y: 0, z: 0 },
  back: { x: 0, y: -1, z: 0 },
  floor: { x: 0, y: 0, z: 1 },
  ceiling: { x: 0, y: 0, z: -1 },
  slope: { x: 0, y: 0, z: -1 },
};

function along(place: Point, surface: Side, mm: number): Point {
  const way = ways[surface];
  return { x: place.x + way.x * mm, y: place.y + way.y * mm, z: place.z + way.z * mm };
}
