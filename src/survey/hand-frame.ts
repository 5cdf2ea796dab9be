/**
 * The hand's frame: where a learner's coordinates lie against the room's.
 *
 * The outline is what the eye sees; it lies against the room by a hidden shift of up to 8 mm along each axis and a
 * hidden turn of up to 6 mrad about the vertical, so that typing zero does not find the face line.
 */
import { between, type DrawKey, purpose } from '../chance/keyed-draws.ts';
import type { Point } from '../geometry/plane.ts';

export interface HandFrame {
  readonly shift: Point;
  /** Direction, in the room, of the hand's x axis: unit length, horizontal. */
  readonly xAxis: { readonly x: number; readonly y: number };
}

const why = purpose('survey/hand-frame');
const shiftMm = 8;
const turnRad = 0.006;

/** Draws the hand's frame of a room. */
export function drawHandFrame(key: DrawKey): HandFrame {
  const shift = (index: number) => between(key, why, { index, from: -shiftMm, to: shiftMm });
  const half = between(key, why, { index: 3, from: -turnRad / 2, to: turnRad / 2 });
  const scale = 1 + half * half;
  return {
    shift: { x: shift(0), y: shift(1), z: shift(2) },
    xAxis: { x: (1 - half * half) / scale, y: (2 * half) / scale },
  };
}

/** Turns a hand's place into the room's, mm. */
export function toRoom(hand: HandFrame, p: Point): Point {
  const { x: c, y: s } = hand.xAxis;
  return {
    x: hand.shift.x + c * p.x - s * p.y,
    y: hand.shift.y + s * p.x + c * p.y,
    z: hand.shift.z + p.z,
  };
}

/** Turns a hand's horizontal direction into the room's. */
export function directionToRoom(hand: HandFrame, d: { x: number; y: number }): { x: number; y: number } {
  const { x: c, y: s } = hand.xAxis;
  return { x: c * d.x - s * d.y, y: s * d.x + c * d.y };
}
