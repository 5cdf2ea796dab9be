/**
 * Whether a recess is a space at all: surfaces that face each other never meet, and none leaves what the room reaches.
 *
 * Certified: obstructions of facing sides that share their axes add up to a field of its own, whose greatest value says
 * how near they come anywhere.
 */
import { type HeightField, heightField } from '../geometry/height-field.ts';
import { type Rect, rangeMax, rangeMin } from '../geometry/range.ts';
import { outlineRect } from './corner-offsets.ts';
import { nominalObstruction } from './defect-shapes.ts';
import { type Recess, reachOf } from './recess.ts';
import { axesOf, builtSides, isOpen, type Side } from './recess-spec.ts';

/** Least space between facing surfaces, mm. */
export const leastFreeMm = 50;
/** How far a surface may lie off its straight outline, mm: less than what every surface reaches past it. */
export const mostOutMm = 200;

export interface NoSpace {
  readonly why: 'cross' | 'out';
  readonly side: Side;
  /** The side it crosses; where it leaves the reach, itself. */
  readonly with: Side;
  /** The least space between the two, or how far it lies out, mm, certified to 0.001. */
  readonly mm: number;
  /** Where, along u and v of the side. */
  readonly u: number;
  readonly v: number;
}

/** Finds the first pair of facing surfaces that come too near, or the first that lies too far out; null: there are none. */
export function noSpaceIn(recess: Recess): NoSpace | null {
  for (const side of builtSides(recess.spec)) {
    const out = tooFarOut(recess, side);
    if (out) return out;
  }
  return tooNear(recess);
}

/** Finds the first pair of facing surfaces that cross; null: none does. */
export function crossingIn(recess: Recess): NoSpace | null {
  const near = tooNear(recess);
  return near && near.mm <= 0 ? near : null;
}

/** Says why surfaces leave no room between them. */
export function sayNoSpace(none: NoSpace): string {
  const { u, v } = axesOf(none.side);
  const at = `${sayCoordinate(u, none.u)}, ${sayCoordinate(v, none.v)}`;
  const mm = Math.round(none.mm * 10) / 10;
  if (none.why === 'out')
    return `expected the ${none.side} within ${mostOutMm} of its straight outline, got ${Math.abs(mm)} ${mm > 0 ? 'into' : 'out of'} the recess at ${at}`;
  const other = none.with === none.side ? 'the face line' : `the ${none.with}`;
  if (none.mm > 0) return `expected ${leastFreeMm} or more between the ${none.side} and ${other}, got ${mm} at ${at}`;
  return `the ${none.side} and ${other} cross: by ${Math.abs(mm)} at ${at}`;
}

function sayCoordinate(axis: 'x' | 'y' | 'z', mm: number): string {
  const whole = Math.round(mm);
  if (axis === 'x') return `${Math.abs(whole)} ${whole < 0 ? 'left' : 'right'} of the middle`;
  return `${whole} ${axis === 'y' ? 'in' : 'up'}`;
}

function tooNear(recess: Recess): NoSpace | null {
  for (const [side, facing] of [
    ['left', 'right'],
    ['floor', 'ceiling'],
    ['floor', 'slope'],
  ] as const) {
    if (isOpen(recess.spec, side) || isOpen(recess.spec, facing)) continue;
    const { value, u, v } = rangeMax(sumOf(recess, side, facing), rectOf(recess, side, facing));
    if (0 - value < leastFreeMm) return { why: 'cross', side, with: facing, mm: 0 - value, u, v };
  }
  return behindTheFace(recess);
}

/** The back wall stands behind the face line everywhere. */
function behindTheFace(recess: Recess): NoSpace | null {
  if (isOpen(recess.spec, 'back')) return null;
  const { value, u, v } = rangeMax(recess.fields.back, reachOf(recess, 'back'));
  return 0 - value < leastFreeMm ? { why: 'cross', side: 'back', with: 'back', mm: 0 - value, u, v } : null;
}

function tooFarOut(recess: Recess, side: Side): NoSpace | null {
  const { from, to } = outlineRect(recess.spec, side);
  const rect = { u0: from[0], u1: to[0], v0: from[1], v1: to[1] };
  const plus = straightTakenOff(recess, side);
  const field = recess.fields[side];
  const found = [rangeMax(field, rect, { plus }), rangeMin(field, rect, { plus })].find(
    (e) => Math.abs(e.value) > mostOutMm,
  );
  return found ? { why: 'out', side, with: side, mm: found.value, u: found.u, v: found.v } : null;
}

/** The straight outline with its sign turned: a level, or along x for a slope. */
function straightTakenOff(recess: Recess, side: Side) {
  const at = (x: number) => 0 - nominalObstruction(recess.spec, side, x);
  const perU = side === 'slope' ? at(1) - at(0) : 0;
  return { at: at(0), perU, perV: 0 };
}

/** Under a slope no further than the outline: past it the slope's plane runs on into the floor, behind the wall. */
function rectOf(recess: Recess, side: Side, facing: Side): Rect {
  const reach = reachOf(recess, side);
  if (facing !== 'slope') return reach;
  const half = recess.spec.openingMm.width / 2;
  return { ...reach, u0: -half, u1: half };
}

function sumOf(recess: Recess, a: Side, b: Side): HeightField {
  const [first, second] = [recess.fields[a], recess.fields[b]];
  const control = first.control.map((c, k) => c + (second.control[k] ?? 0));
  return heightField({ u0: first.u0, v0: first.v0, countU: first.countU, countV: first.countV, control });
}
