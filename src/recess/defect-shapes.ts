/**
 * Defects as control values: each is its size times a shape, so the surface is linear in every size.
 *
 * A height field here is an *obstruction*: larger is further into the free space, on every side. Shapes are products of
 * a function of u and one of v; a smooth function f becomes control values by c_i = (-f_(i-1) + 8 f_i - f_(i+1)) / 6,
 * which carries cubics exactly.
 *
 * | defect | + is |
 * |---|---|
 * | lean (over the height) | top further into the free space |
 * | taper (over the depth) | back further into the free space |
 * | skew (of the back, over the width) | right end nearer to the face line |
 * | fall (of floor or ceiling, over the run) | that end lower |
 * | wind (one corner against the other three) | the corner at the far end of u and v into the free space |
 * | bow | belly; a hollow is - |
 * | hump | hump; a dip is - |
 * | step | beyond it, into the free space |
 *
 * @source C. de Boor's quasi-interpolant of the uniform cubic B-spline (from memory; proved by a test on cubics)
 */

import { bell, type DrawKey, type Purpose, purpose } from '../chance/keyed-draws.ts';
import { type HeightField, heightField, knotStepMm, unitsPerMm } from '../geometry/height-field.ts';
import { axesOf, type Defect, extentsOf, type RecessSpec, type Side, type SurfaceSpec, sides } from './recess-spec.ts';

const wobble: Record<Side, Purpose> = {
  left: purpose('recess/wobble/left'),
  right: purpose('recess/wobble/right'),
  back: purpose('recess/wobble/back'),
  floor: purpose('recess/wobble/floor'),
  ceiling: purpose('recess/wobble/ceiling'),
};

/** One axis of a surface: where its controls stand, and the stretch of the nominal outline. */
interface Axis {
  readonly start: number;
  readonly count: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Builds the hidden field of one side.
 *
 * @returns obstruction mm: x for the left wall, -x right, -y back, z floor, -z ceiling; control values are whole
 *   numbers of 1/1024 mm
 */
export function buildField(spec: RecessSpec, side: Side): HeightField {
  const { u, v } = latticeOf(spec, side);
  const surface = spec.surfaces[side];
  const sum = new Float64Array(u.count * v.count);
  addFlat(sum, nominalObstruction(spec, side) + surface.offsetMm);
  for (const d of surface.defects) addDefect(sum, { u, v, side }, d);
  return heightField({
    u0: u.start,
    v0: v.start,
    countU: u.count,
    countV: v.count,
    control: rounded(sum, { surface, key: spec.key, why: wobble[side] }),
  });
}

/** Gives the obstruction of the straight outline: half a width, less the depth, the floor at 0, less the height. */
export function nominalObstruction(spec: Pick<RecessSpec, 'openingMm'>, side: Side): number {
  const { width, height, depth } = spec.openingMm;
  return { left: -width / 2, right: -width / 2, back: -depth, floor: 0, ceiling: -height }[side];
}

/** Says whether every defect stands on a side that can have it; the first that does not, else null. */
export function misplacedDefect(spec: RecessSpec): { side: Side; index: number } | null {
  const wall: readonly Side[] = ['left', 'right', 'back'];
  const homes: Partial<Record<Defect['kind'], readonly Side[]>> = {
    lean: wall,
    taper: ['left', 'right'],
    skew: ['back'],
    fall: ['floor', 'ceiling'],
  };
  for (const side of sides) {
    const index = spec.surfaces[side].defects.findIndex((d) => !(homes[d.kind] ?? sides).includes(side));
    if (index >= 0) return { side, index };
  }
  return null;
}

function latticeOf(spec: RecessSpec, side: Side): { u: Axis; v: Axis } {
  const extents = extentsOf(spec);
  const { width, height, depth } = spec.openingMm;
  const outline = { x: [-width / 2, width / 2], y: [0, depth], z: [0, height] } as const;
  const axis = (a: 'x' | 'y' | 'z'): Axis => ({
    start: extents[a][0],
    count: Math.ceil((extents[a][1] - extents[a][0]) / knotStepMm) + 3,
    from: outline[a][0],
    to: outline[a][1],
  });
  const axes = axesOf(side);
  return { u: axis(axes.u), v: axis(axes.v) };
}

function addFlat(sum: Float64Array, mm: number): void {
  for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] as number) + mm;
}

function addDefect(sum: Float64Array, on: { u: Axis; v: Axis; side: Side }, d: Defect): void {
  const [alongU, alongV] = shapeOf(on, d);
  addProduct(sum, d.mm, alongU, alongV);
}

/** The shape of a defect of size 1, as controls along u and along v. */
function shapeOf(on: { u: Axis; v: Axis; side: Side }, d: Defect): readonly [Float64Array, Float64Array] {
  const { u, v } = on;
  switch (d.kind) {
    case 'lean':
      return [flat(u), slope(v)];
    case 'taper':
    case 'skew':
      return [slope(u), flat(v)];
    case 'fall': {
      // Lower is less obstruction for a floor, more for a ceiling; the slopes rise to the right and to the back.
      const sign = (on.side === 'floor' ? -1 : 1) * (d.towards === 'right' || d.towards === 'back' ? 1 : -1);
      const across = d.towards === 'left' || d.towards === 'right';
      return across ? [slope(u, sign), flat(v)] : [flat(u), slope(v, sign)];
    }
    case 'wind':
      return [rise(u), rise(v)];
    case 'bow':
      return [bowOrFlat(u, d.crownU), bowOrFlat(v, d.crownV)];
    case 'hump':
      return [bump(u, d.u, d.width / 2), bump(v, d.v, d.width / 2)];
    case 'step':
      return d.along === 'u' ? [ramp(u, d), flat(v)] : [flat(u), ramp(v, d)];
  }
}

const flat = (axis: Axis) => new Float64Array(axis.count).fill(1);

/** From -1/2 to 1/2 over the outline, times a sign. */
function slope(axis: Axis, sign = 1): Float64Array {
  return controls(axis, (t) => sign * ((t - axis.from) / (axis.to - axis.from) - 0.5));
}

/** From 0 to 1 over the outline. */
function rise(axis: Axis): Float64Array {
  return controls(axis, (t) => (t - axis.from) / (axis.to - axis.from));
}

function ramp(axis: Axis, d: { at: number; width: number }): Float64Array {
  return controls(axis, (t) => smooth((t - d.at) / d.width + 0.5));
}

function bowOrFlat(axis: Axis, crown: number | undefined): Float64Array {
  if (crown === undefined) return new Float64Array(axis.count).fill(1);
  return controls(axis, (t) => {
    const run = t < crown ? crown - axis.from : axis.to - crown;
    const s = run > 0 ? (t - crown) / run : 2;
    return s > -1 && s < 1 ? 1 - s * s : 0;
  });
}

/** Of height 1 at its place as built: a narrow bump between knots would else come out lower. */
function bump(axis: Axis, at: number, radius: number): Float64Array {
  const f = (t: number) => {
    const s = (t - at) / radius;
    return s > -1 && s < 1 ? (1 - s * s) * (1 - s * s) : 0;
  };
  const crown = builtAt(axis, f, at);
  return controls(axis, (t) => f(t) / crown);
}

/** How high the quasi-interpolant of a function stands at a place, on a lattice without end. */
function builtAt(axis: Axis, f: (t: number) => number, t: number): number {
  const r = (t - axis.start) / knotStepMm - Math.floor((t - axis.start) / knotStepMm);
  const control = (steps: number) => {
    const p = t + (steps - r) * knotStepMm;
    return (8 * f(p) - f(p - knotStepMm) - f(p + knotStepMm)) / 6;
  };
  const q = 1 - r;
  const near = (4 - 6 * r * r + 3 * r * r * r) * control(0) + (4 - 6 * q * q + 3 * q * q * q) * control(1);
  return (q * q * q * control(-1) + near + r * r * r * control(2)) / 6;
}

function smooth(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s * s * (3 - 2 * s);
}

/** The quasi-interpolant of a function along one axis. */
function controls(axis: Axis, f: (t: number) => number): Float64Array {
  const c = new Float64Array(axis.count);
  let before = f(axis.start - 2 * knotStepMm);
  let here = f(axis.start - knotStepMm);
  for (let i = 0; i < axis.count; i++) {
    const after = f(axis.start + i * knotStepMm);
    c[i] = (8 * here - before - after) / 6;
    before = here;
    here = after;
  }
  return c;
}

function addProduct(sum: Float64Array, mm: number, u: Float64Array, v: Float64Array): void {
  for (let j = 0, k = 0; j < v.length; j++) {
    const row = mm * (v[j] as number);
    if (row === 0) k += u.length;
    else for (let i = 0; i < u.length; i++, k++) sum[k] = (sum[k] as number) + row * (u[i] as number);
  }
}

function rounded(sum: Float64Array, rough: { surface: SurfaceSpec; key: DrawKey; why: Purpose }): Int32Array {
  const out = new Int32Array(sum.length);
  const size = rough.surface.wobbleMm;
  for (let k = 0; k < out.length; k++)
    out[k] = Math.round(((sum[k] as number) + size * bell(rough.key, rough.why, k)) * unitsPerMm);
  return out;
}
