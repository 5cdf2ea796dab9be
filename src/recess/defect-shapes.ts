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

import { bells, type Purpose, purpose } from '../chance/keyed-draws.ts';
import { type HeightField, heightField, knotStepMm, unitsPerMm } from '../geometry/height-field.ts';
import { axesOf, type Defect, extentsOf, type RecessSpec, type Side, sides } from './recess-spec.ts';

const wobble: Record<Side, Purpose> = {
  left: purpose('recess/wobble/left'),
  right: purpose('recess/wobble/right'),
  back: purpose('recess/wobble/back'),
  floor: purpose('recess/wobble/floor'),
  ceiling: purpose('recess/wobble/ceiling'),
};

/** One axis of a recess: where its controls stand, the stretch of the nominal outline, and the shapes that many defects share. */
interface Axis extends Lattice {
  readonly from: number;
  readonly to: number;
  /** 1 all along. */
  readonly flat: Shape;
  /** From 0 to 1 over the outline. */
  readonly rise: Shape;
  /** From -1/2 to 1/2 over the outline. */
  readonly slope: Shape;
}

interface Lattice {
  readonly start: number;
  readonly count: number;
}

/** Controls along one axis. */
type Shape = readonly number[];

/** Memory for one side after the other: to get it anew is a tenth of the work. */
interface Bench {
  readonly sum: Float64Array;
  readonly rough: Float64Array;
}

/**
 * Builds the hidden fields of all sides.
 *
 * @returns obstruction mm: x for the left wall, -x right, -y back, z floor, -z ceiling; control values are whole
 *   numbers of 1/1024 mm
 */
export function buildFields(spec: RecessSpec): Readonly<Record<Side, HeightField>> {
  const axes = axesOfRecess(spec);
  const largest = Math.max(axes.x.count, axes.y.count) * Math.max(axes.y.count, axes.z.count);
  const bench = { sum: new Float64Array(largest), rough: new Float64Array(largest) };
  const build = (side: Side) => {
    const { u, v } = axesOf(side);
    return buildField(spec, { side, u: axes[u], v: axes[v] }, bench);
  };
  return {
    left: build('left'),
    right: build('right'),
    back: build('back'),
    floor: build('floor'),
    ceiling: build('ceiling'),
  };
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

function axesOfRecess(spec: RecessSpec): Readonly<Record<'x' | 'y' | 'z', Axis>> {
  const { x, y, z } = extentsOf(spec);
  const { width, height, depth } = spec.openingMm;
  return {
    x: axisOf(x, [-width / 2, width / 2]),
    y: axisOf(y, [0, depth]),
    z: axisOf(z, [0, height]),
  };
}

function axisOf(reach: readonly [number, number], outline: readonly [number, number]): Axis {
  const [start, end] = reach;
  const [from, to] = outline;
  const lattice = { start, count: Math.ceil((end - start) / knotStepMm) + 3 };
  return {
    ...lattice,
    from,
    to,
    flat: new Array<number>(lattice.count).fill(1),
    rise: controls(lattice, (t) => (t - from) / (to - from)),
    slope: controls(lattice, (t) => (t - from) / (to - from) - 0.5),
  };
}

/** A side with the axes along it. */
interface SideAxes {
  readonly side: Side;
  readonly u: Axis;
  readonly v: Axis;
}

function buildField(spec: RecessSpec, on: SideAxes, bench: Bench): HeightField {
  const { side, u, v } = on;
  const surface = spec.surfaces[side];
  const count = u.count * v.count;
  const sum = bench.sum.fill(nominalObstruction(spec, side) + surface.offsetMm, 0, count);
  for (const d of surface.defects) addDefect(sum, on, d);
  bells(spec.key, wobble[side], { into: bench.rough, count });
  const control = new Int32Array(count);
  for (let k = 0; k < count; k++)
    control[k] = rounded(((sum[k] as number) + surface.wobbleMm * (bench.rough[k] as number)) * unitsPerMm);
  return heightField({ u0: u.start, v0: v.start, countU: u.count, countV: v.count, control });
}

/** As Math.round does, but that one branches on the fraction, which cannot be foreseen here: four times the cost. */
function rounded(x: number): number {
  return Math.floor(x + 0.5);
}

/** Adds a defect: its size times a shape along u and one along v. */
function addDefect(sum: Float64Array, on: SideAxes, d: Defect): void {
  const { u, v, side } = on;
  switch (d.kind) {
    case 'lean':
      return addProduct(sum, d.mm, [u.flat, v.slope]);
    case 'taper':
    case 'skew':
      return addProduct(sum, d.mm, [u.slope, v.flat]);
    case 'fall': {
      // Lower is less obstruction for a floor, more for a ceiling; the slopes rise to the right and to the back.
      const rising = (side === 'floor') !== (d.towards === 'right' || d.towards === 'back');
      const across = d.towards === 'left' || d.towards === 'right';
      return addProduct(sum, rising ? d.mm : -d.mm, across ? [u.slope, v.flat] : [u.flat, v.slope]);
    }
    case 'wind':
      return addProduct(sum, d.mm, [u.rise, v.rise]);
    case 'bow':
      return addProduct(sum, d.mm, [bowOrFlat(u, d.crownU), bowOrFlat(v, d.crownV)]);
    case 'hump':
      return addProduct(sum, d.mm, [bump(u, d.u, d.width / 2), bump(v, d.v, d.width / 2)]);
    case 'step':
      return addProduct(sum, d.mm, d.along === 'u' ? [ramp(u, d), v.flat] : [u.flat, ramp(v, d)]);
  }
}

function addProduct(sum: Float64Array, mm: number, along: readonly [u: Shape, v: Shape]): void {
  const [u, v] = along;
  for (let j = 0, k = 0; j < v.length; j++) {
    const row = mm * (v[j] as number);
    if (row === 0) k += u.length;
    else for (let i = 0; i < u.length; i++, k++) sum[k] = (sum[k] as number) + row * (u[i] as number);
  }
}

function ramp(axis: Axis, d: { at: number; width: number }): Shape {
  return controls(axis, (t) => smooth((t - d.at) / d.width + 0.5));
}

function bowOrFlat(axis: Axis, crown: number | undefined): Shape {
  if (crown === undefined) return axis.flat;
  return controls(axis, (t) => {
    const run = t < crown ? crown - axis.from : axis.to - crown;
    const s = run > 0 ? (t - crown) / run : 2;
    return s > -1 && s < 1 ? 1 - s * s : 0;
  });
}

/** Of height 1 at its place as built: a narrow bump between knots would else come out lower. */
function bump(axis: Axis, at: number, radius: number): Shape {
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
function controls(axis: Lattice, f: (t: number) => number): Shape {
  const c = new Array<number>(axis.count);
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
