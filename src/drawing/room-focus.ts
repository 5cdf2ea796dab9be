/** What is in hand in the views: the place, the datum, the rule's length, and the places of the run. Hand's frame, mm. */
import type { Point } from '../geometry/plane.ts';
import type { Side } from '../recess/recess-spec.ts';

export interface RoomFocus {
  readonly place: Point | null;
  readonly surface: Side | null;
  readonly datum: 'F' | 'S' | 'L' | null;
  readonly runPlaces: readonly (Point & { readonly done: boolean })[];
  readonly ruleLengthMm: number;
}

/** Where the rule in hand ends; null when none is held. */
export function ruleEnd(focus: RoomFocus): Point | null {
  const { place, surface, ruleLengthMm: long } = focus;
  if (!place || !surface || long <= 0) return null;
  const way = {
    left: { x: long, y: 0, z: 0 },
    right: { x: -long, y: 0, z: 0 },
    back: { x: 0, y: -long, z: 0 },
    floor: { x: 0, y: 0, z: long },
    ceiling: { x: 0, y: 0, z: -long },
  }[surface];
  return { x: place.x + way.x, y: place.y + way.y, z: place.z + way.z };
}
