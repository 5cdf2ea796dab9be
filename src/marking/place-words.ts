/**
 * Places in words: on which surface, how far up, how far in, how far from the middle. True places and booked ones alike.
 */
import { sayLength } from '../recess/lengths.ts';
import type { Place } from '../recess/recess.ts';
import type { Side } from '../recess/recess-spec.ts';
import { type SidesOf, sideName } from '../recess/side-words.ts';
import type { PlaceSaid } from '../survey/act.ts';

/** The room that a place is in: its kind names its sides. */
export interface PlacesOf extends SidesOf {
  readonly mouthMm: number;
}

/** Says where on a surface a true place is: `right wall, 1640 up, 388 in`. */
export function sayOn(side: Side, at: Place, room: PlacesOf): string {
  return `${sideName(room, side)}, ${sayAt(side, at, room.mouthMm)}`;
}

/** Says a true place by its surface's own two coordinates: `1640 up, 388 in`. */
export function sayAt(side: Side, at: Place, mouthMm: number): string {
  if (side === 'left' || side === 'right') return `${sayUp(at.z)}, ${sayIn(at.y, mouthMm)}`;
  if (side === 'back') return `${sayUp(at.z)}, ${sayAcross(at.x)}`;
  return `${sayAcross(at.x)}, ${sayIn(at.y, mouthMm)}`;
}

/** Says a place as the learner booked it, in the hand's own coordinates. */
export function sayBookedPlace(place: PlaceSaid, room: SidesOf): string {
  if ('mark' in place) return `mark ${place.mark}`;
  const parts = [
    place.zMm === undefined ? '' : sayUp(place.zMm),
    place.xMm === undefined ? '' : sayAcross(place.xMm),
    place.yMm === undefined ? '' : sayIn(place.yMm, -Infinity),
    place.along === undefined ? '' : `along ${place.along}`,
  ];
  return [sideName(room, place.surface), ...parts].filter((p) => p !== '').join(', ');
}

/** A corner with the floor may lie a little under the brief's floor. */
function sayUp(z: number): string {
  return z < 1 ? 'at the floor' : `${sayLength(Math.round(z))} up`;
}

/** How far in from the face line; at the mouth, or in front of the face line, it says so. */
function sayIn(y: number, mouthMm: number): string {
  if (y <= mouthMm + 1) return 'at the mouth';
  const whole = Math.round(y);
  if (whole === 0) return 'on the face line';
  return whole < 0 ? `${sayLength(-whole)} in front of the face line` : `${sayLength(whole)} in`;
}

function sayAcross(x: number): string {
  const whole = Math.round(Math.abs(x));
  return whole === 0 ? 'in the middle' : `${sayLength(whole)} ${x > 0 ? 'right' : 'left'} of the middle`;
}
