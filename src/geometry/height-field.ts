/**
 * A height field w(u, v): a uniform bicubic B-spline over a lattice with a knot every 128 mm, whose
 * control values are whole numbers of 1/1024 mm.
 *
 * Frame: u and v in mm along the surface, w in mm square to it; what they are in the room is the caller's affair.
 * Exactness: |control| < 2^24, so 36 times a control value stays under 2^30 and the difference of two such numbers
 * under 2^31. Every knot value and every Bezier coefficient of the surface is therefore an exact 32-bit integer in
 * units of 1/36864 mm (36 x 1024), and so is the difference of two of them.
 */

import { type Block, isWithin, type PatchBounds, patchBounds, type SlopeBounds, slopeBounds } from './patch-bounds.ts';

export const knotStepMm = 128;
export const unitsPerMm = 1024;

/** One mm in the units of knot values and Bezier coefficients. */
export const finePerMm = 36 * unitsPerMm;

/** Control values lie in [-controlLimit, controlLimit). */
export const controlLimit = 16_777_216;

export interface HeightField {
  /** Border of the domain with the smallest u, mm; control i has its Greville place at u0 + 128 (i - 1). */
  readonly u0: number;
  /** Border of the domain with the smallest v, mm. */
  readonly v0: number;
  readonly countU: number;
  readonly countV: number;
  /** Control values in 1/1024 mm, index j * countU + i: one row a v. Not copied; not to be changed afterwards. */
  readonly control: Int32Array;
  /** Filled by the kernel when first wanted, and nobody else's business; it is a function of the rest. */
  readonly kept: KeptBounds;
}

/** What the kernel has worked out about one field so far. */
export interface KeptBounds {
  patches: PatchBounds | null;
  slopes: SlopeBounds | null;
  negated: HeightField | null;
}

/** A closed rectangle, u0 <= u1 and v0 <= v1; it may be a line or a point. */
export interface Rect {
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
}

/**
 * A height field from its lattice.
 *
 * @param grid - origin mm, at most 2^20 mm from zero; counts >= 4; control values in 1/1024 mm
 * @throws {RangeError} if a count, the number of control values, the origin or a control value is out of bounds
 * @throws {TypeError} if the control values are not an Int32Array
 */
export function heightField(grid: {
  readonly u0: number;
  readonly v0: number;
  readonly countU: number;
  readonly countV: number;
  readonly control: Int32Array;
}): HeightField {
  const { u0, v0, countU, countV, control } = grid;
  checkOrigin('u0', u0);
  checkOrigin('v0', v0);
  checkCount('countU', countU);
  checkCount('countV', countV);
  if (!(control instanceof Int32Array)) throw new TypeError('height field: control must be an Int32Array');
  if (control.length !== countU * countV) {
    throw new RangeError(
      `height field: control must hold ${countU} x ${countV} = ${countU * countV} values, got ${control.length}`,
    );
  }
  checkControl(control);
  return { u0, v0, countU, countV, control, kept: { patches: null, slopes: null, negated: null } };
}

/** The closed rectangle on which the field is defined, mm. */
export function domainOf(field: HeightField): Rect {
  return {
    u0: field.u0,
    u1: field.u0 + knotStepMm * (field.countU - 3),
    v0: field.v0,
    v1: field.v0 + knotStepMm * (field.countV - 3),
  };
}

/**
 * The height at a place.
 *
 * @returns mm; exact to the rounding of the last step at a knot, elsewhere within 1e-10 mm
 * @throws {RangeError} outside the closed domain
 */
export function heightAt(field: HeightField, u: number, v: number): number {
  const { countU, control } = field;
  const s = (u - field.u0) / knotStepMm;
  const r = (v - field.v0) / knotStepMm;
  const spansU = countU - 3;
  const spansV = field.countV - 3;
  if (!(s >= 0 && s <= spansU && r >= 0 && r <= spansV)) refusePlace(field, u, v);
  const i = Math.min(Math.trunc(s), spansU - 1);
  const j = Math.min(Math.trunc(r), spansV - 1);
  const t = s - i;
  const q = r - j;
  const t1 = 1 - t;
  const q1 = 1 - q;
  // Six times the uniform cubic basis; whole numbers at t = 0 and t = 1.
  const a0 = t1 * t1 * t1;
  const a1 = 3 * t * t * (t - 2) + 4;
  const a2 = 3 * t1 * t1 * (t1 - 2) + 4;
  const a3 = t * t * t;
  const o0 = j * countU + i;
  const o1 = o0 + countU;
  const o2 = o1 + countU;
  const o3 = o2 + countU;
  const row0 = a0 * control[o0]! + a1 * control[o0 + 1]! + a2 * control[o0 + 2]! + a3 * control[o0 + 3]!;
  const row1 = a0 * control[o1]! + a1 * control[o1 + 1]! + a2 * control[o1 + 2]! + a3 * control[o1 + 3]!;
  const row2 = a0 * control[o2]! + a1 * control[o2 + 1]! + a2 * control[o2 + 2]! + a3 * control[o2 + 3]!;
  const row3 = a0 * control[o3]! + a1 * control[o3 + 1]! + a2 * control[o3 + 2]! + a3 * control[o3 + 3]!;
  const c0 = q1 * q1 * q1;
  const c1 = 3 * q * q * (q - 2) + 4;
  const c2 = 3 * q1 * q1 * (q1 - 2) + 4;
  const c3 = q * q * q;
  return (c0 * row0 + c1 * row1 + c2 * row2 + c3 * row3) / finePerMm;
}

/**
 * The slopes at a place, plain ratios: mm of w per mm of u and of v.
 *
 * @throws {RangeError} outside the closed domain
 */
export function slopesAt(field: HeightField, u: number, v: number): { perU: number; perV: number } {
  const s = (u - field.u0) / knotStepMm;
  const r = (v - field.v0) / knotStepMm;
  if (!(s >= 0 && s <= field.countU - 3 && r >= 0 && r <= field.countV - 3)) refusePlace(field, u, v);
  jetInto(field, s, r, scratch);
  return { perU: scratch[1]!, perV: scratch[2]! };
}

/**
 * Height and both slopes at a place given in spans from the domain's corner, into `out[0..2]`: mm, per u, per v.
 * The kernel's own: the place must lie in the domain, and that is not checked.
 */
export function jetInto(field: HeightField, s: number, r: number, out: Float64Array): void {
  const { countU, control } = field;
  const i = Math.min(Math.trunc(s), countU - 4);
  const j = Math.min(Math.trunc(r), field.countV - 4);
  const t = s - i;
  const q = r - j;
  const t1 = 1 - t;
  const q1 = 1 - q;
  const a0 = t1 * t1 * t1;
  const a1 = 3 * t * t * (t - 2) + 4;
  const a2 = 3 * t1 * t1 * (t1 - 2) + 4;
  const a3 = t * t * t;
  // A third of the derivative of six times the basis.
  const d0 = -t1 * t1;
  const d1 = t * (3 * t - 4);
  const d2 = -t1 * (3 * t1 - 4);
  const d3 = t * t;
  let o = j * countU + i;
  let p0 = control[o]!;
  let p1 = control[o + 1]!;
  let p2 = control[o + 2]!;
  let p3 = control[o + 3]!;
  const row0 = a0 * p0 + a1 * p1 + a2 * p2 + a3 * p3;
  const tilt0 = d0 * p0 + d1 * p1 + d2 * p2 + d3 * p3;
  o += countU;
  p0 = control[o]!;
  p1 = control[o + 1]!;
  p2 = control[o + 2]!;
  p3 = control[o + 3]!;
  const row1 = a0 * p0 + a1 * p1 + a2 * p2 + a3 * p3;
  const tilt1 = d0 * p0 + d1 * p1 + d2 * p2 + d3 * p3;
  o += countU;
  p0 = control[o]!;
  p1 = control[o + 1]!;
  p2 = control[o + 2]!;
  p3 = control[o + 3]!;
  const row2 = a0 * p0 + a1 * p1 + a2 * p2 + a3 * p3;
  const tilt2 = d0 * p0 + d1 * p1 + d2 * p2 + d3 * p3;
  o += countU;
  p0 = control[o]!;
  p1 = control[o + 1]!;
  p2 = control[o + 2]!;
  p3 = control[o + 3]!;
  const row3 = a0 * p0 + a1 * p1 + a2 * p2 + a3 * p3;
  const tilt3 = d0 * p0 + d1 * p1 + d2 * p2 + d3 * p3;
  const c0 = q1 * q1 * q1;
  const c1 = 3 * q * q * (q - 2) + 4;
  const c2 = 3 * q1 * q1 * (q1 - 2) + 4;
  const c3 = q * q * q;
  out[0] = (c0 * row0 + c1 * row1 + c2 * row2 + c3 * row3) / finePerMm;
  out[1] = (c0 * tilt0 + c1 * tilt1 + c2 * tilt2 + c3 * tilt3) / slopeScale;
  out[2] = (-q1 * q1 * row0 + q * (3 * q - 4) * row1 - q1 * (3 * q1 - 4) * row2 + q * q * row3) / slopeScale;
}

/**
 * The kernel's bounds of a block of patches: of the first that is asked for alone, and as soon as another is, of all. Often only
 * one is: the part of a wall that counts, without the reach round it.
 */
export function patchesOf(field: HeightField, block: Block = allOf(field)): PatchBounds {
  const { kept, control } = field;
  if (kept.patches !== null && isWithin(block, kept.patches.block)) return kept.patches;
  const { i0, i1, j0, j1 } = kept.patches === null ? block : allOf(field);
  kept.patches = patchBounds(control, field, { i0, i1, j0, j1 });
  return kept.patches;
}

function allOf(field: HeightField): Block {
  return { i0: 0, i1: field.countU - 4, j0: 0, j1: field.countV - 4 };
}

/** The largest slopes that the control values allow, worked out once: plain ratios, >= 0. */
export function slopesOf(field: HeightField): SlopeBounds {
  const { kept } = field;
  if (kept.slopes === null) kept.slopes = slopeBounds(field.control, field.countU);
  return kept.slopes;
}

/** The field turned upside down, made once; it knows nothing of this one, so that no ring of objects comes about. */
export function negatedOf(field: HeightField): HeightField {
  const { kept } = field;
  if (kept.negated === null) {
    const { u0, v0, countU, countV } = field;
    const control = field.control.map((value) => -value);
    kept.negated = { u0, v0, countU, countV, control, kept: { patches: null, slopes: null, negated: null } };
  }
  return kept.negated;
}

const slopeScale = (finePerMm * knotStepMm) / 3;
const scratch = new Float64Array(3);
const originLimit = 1_048_576;

function checkOrigin(name: string, value: number): void {
  if (!(Math.abs(value) <= originLimit)) {
    throw new RangeError(`height field: ${name} must lie within ${originLimit} mm of zero, got ${value}`);
  }
}

function checkCount(name: string, value: number): void {
  if (!(Number.isInteger(value) && value >= 4)) {
    throw new RangeError(`height field: ${name} must be a whole number >= 4, got ${value}`);
  }
}

function checkControl(control: Int32Array): void {
  let outside = 0;
  for (let k = 0; k < control.length; k++) outside |= (control[k]! + controlLimit) & ~(2 * controlLimit - 1);
  if (outside === 0) return;
  const k = control.findIndex((value) => value < -controlLimit || value >= controlLimit);
  throw new RangeError(
    `height field: control[${k}] must be >= -${controlLimit} and < ${controlLimit} (1/1024 mm), got ${control[k]}`,
  );
}

function refusePlace(field: HeightField, u: number, v: number): never {
  const d = domainOf(field);
  throw new RangeError(`height field: place (${u}, ${v}) mm must lie in [${d.u0}, ${d.u1}] x [${d.v0}, ${d.v1}]`);
}
