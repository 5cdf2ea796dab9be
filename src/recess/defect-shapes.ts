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
import { splineWeights } from './measured.ts';
import {
  type Defect,
  extentsOf,
  type Measured,
  type RecessSpec,
  type Side,
  type SlopeSpec,
  type SurfaceSpec,
  sides,
} from './recess-spec.ts';

const wobble: Record<Side, Purpose> = {
  left: purpose('recess/wobble/left'),
  right: purpose('recess/wobble/right'),
  back: purpose('recess/wobble/back'),
  floor: purpose('recess/wobble/floor'),
  ceiling: purpose('recess/wobble/ceiling'),
  slope: purpose('recess/wobble/slope'),
};

/** One axis of a recess: where its controls stand, the stretch of the nominal outline, and the shapes that many defects share. */
interface Axis extends Stretch {
  /** 1 all along. */
  readonly flat: Shape;
  /** From 0 to 1 over the outline. */
  readonly rise: Shape;
  /** From -1/2 to 1/2 over the outline. */
  readonly slope: Shape;
}

interface Stretch extends Lattice {
  readonly from: number;
  readonly to: number;
}

interface Lattice {
  readonly start: number;
  readonly count: number;
}

/** Controls along one axis. */
type Shape = readonly number[];

/**
 * Builds the hidden fields of all sides.
 *
 * @returns obstruction mm: x for the left wall, -x right, -y back, z floor, -z ceiling; control values are whole
 *   numbers of 1/1024 mm
 */
export function buildFields(spec: RecessSpec): Readonly<Record<Side, HeightField>> {
  const { x, y, z } = axesOfRecess(spec);
  const along: Readonly<Record<Side, readonly [Axis, Axis]>> = {
    left: [y, z],
    right: [y, z],
    back: [x, z],
    floor: [x, y],
    ceiling: [x, y],
    slope: [x, y],
  };
  const count = (side: Side) => along[side][0].count * along[side][1].count;
  let total = 0;
  for (const side of sides) if (spec.surfaces[side]) total += count(side);
  // One buffer for all: to get memory costs as much as to fill it.
  const memory = new ArrayBuffer(4 * total);
  let used = 0;
  const field = (side: Side): HeightField => {
    const surface = spec.surfaces[side];
    if (!surface) return openField();
    const [u, v] = along[side];
    const control = new Int32Array(memory, 4 * used, count(side));
    used += control.length;
    return buildField(spec, { side, u, v, surface }, control);
  };
  return {
    left: field('left'),
    right: field('right'),
    back: field('back'),
    floor: field('floor'),
    ceiling: field('ceiling'),
    slope: field('slope'),
  };
}

/** How far off an open side's field lies, mm: no answer of a room comes near it. */
export const openMm = 16_000;

let shared: HeightField | null = null;

/** The field of an open side: one for all rooms, flat and far off. */
function openField(): HeightField {
  const count = 96;
  const edge = -((count - 3) / 2) * knotStepMm;
  const control = () => new Int32Array(count * count).fill(-openMm * unitsPerMm);
  shared ??= heightField({ u0: edge, v0: edge, countU: count, countV: count, control: control() });
  return shared;
}

/** What the straight outline is made of: that of a spec or of what the eye sees. */
export interface StraightOutline {
  readonly openingMm: RecessSpec['openingMm'];
  readonly slope?: SlopeSpec | null | undefined;
}

/**
 * Gives the obstruction of the straight outline: half a width, less the depth, the floor at 0, less the height; of the
 * slope's plane at x.
 */
export function nominalObstruction(spec: StraightOutline, side: Side, x = 0): number {
  const { width, height, depth } = spec.openingMm;
  if (side === 'slope') return spec.slope ? 0 - slopeHeight(spec.slope, width, x) : -openMm;
  return { left: -width / 2, right: -width / 2, back: -depth, floor: 0, ceiling: -height }[side];
}

/** Gives the height of a slope's plane at x, mm. */
export function slopeHeight(slope: SlopeSpec, openingWidth: number, x: number): number {
  const inward = slope.low === 'left' ? x + openingWidth / 2 : openingWidth / 2 - x;
  return slope.lowMm + (slope.riseMmPerM * inward) / 1000;
}

/** Finds the first defect that stands on a side that cannot have it; null when there is none. */
export function misplacedDefect(spec: RecessSpec): { side: Side; index: number } | null {
  for (const side of sides) {
    const defects = spec.surfaces[side]?.defects ?? [];
    for (let index = 0; index < defects.length; index++)
      if (!homes[(defects[index] as Defect).kind].includes(side)) return { side, index };
  }
  return null;
}

const walls: readonly Side[] = ['left', 'right', 'back'];
const homes: Readonly<Record<Defect['kind'], readonly Side[]>> = {
  lean: walls,
  taper: ['left', 'right'],
  skew: ['back'],
  fall: ['floor', 'ceiling', 'slope'],
  wind: sides,
  bow: sides,
  hump: sides,
  step: sides,
};

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
  const count = Math.ceil((end - start) / knotStepMm) + 3;
  const along = { start, count, from, to };
  const flat = new Array<number>(count).fill(1);
  return { start, count, from, to, flat, rise: line(along, 0), slope: line(along, 0.5) };
}

/** A side with the axes along it. */
interface SideAxes {
  readonly side: Side;
  readonly u: Axis;
  readonly v: Axis;
  readonly surface: SurfaceSpec;
}

// Sums and wobbles of the side in hand, mm: kept from room to room, for memory costs more than what is done in it.
let sum = new Float64Array(512);
let rough = new Float64Array(512);

function buildField(spec: RecessSpec, on: SideAxes, control: Int32Array): HeightField {
  const { side, u, v } = on;
  const { offsetMm, defects, wobbleMm } = on.surface;
  const count = control.length;
  if (sum.length < count) [sum, rough] = [new Float64Array(count), new Float64Array(count)];
  sum.fill(nominalObstruction(spec, side) + offsetMm, 0, count);
  if (side === 'slope' && spec.slope) addPitch(on, spec.slope);
  for (const d of defects) addDefect(on, d);
  if (on.surface.measured) addMeasured(on, on.surface.measured);
  bells(spec.key, wobble[side], { into: rough, count });
  takeUnits(control, wobbleMm);
  return heightField({ u0: u.start, v0: v.start, countU: u.count, countV: v.count, control });
}

/** Adds the wobble to the sums and rounds them to whole units. */
function takeUnits(control: Int32Array, wobbleMm: number): void {
  const smooth = sum;
  const bumps = rough;
  for (let k = 0; k < control.length; k++)
    control[k] = rounded(((smooth[k] as number) + wobbleMm * (bumps[k] as number)) * unitsPerMm);
}

/** As Math.round does, but that one branches on the fraction, which cannot be foreseen here: four times the cost. */
function rounded(x: number): number {
  return Math.floor(x + 0.5);
}

/** The slope's rise over the outline, about the middle: it rises away from its low side, so its obstruction falls. */
function addPitch(on: SideAxes, slope: SlopeSpec): void {
  const rise = ((on.u.to - on.u.from) * slope.riseMmPerM) / 1000;
  addProduct(sum, slope.low === 'left' ? 0 - rise : rise, { u: on.u.slope, v: on.v.flat });
}

function addDefect(on: SideAxes, d: Defect): void {
  const [u, v] = shapeOf(on, d);
  addProduct(sum, d.kind === 'fall' ? fallSign(on.side, d.towards) * d.mm : d.mm, { u, v });
}

/** What was measured, run through by a natural spline along either axis. */
function addMeasured(on: SideAxes, of: Measured): void {
  const u = splineShapes(on.u, of.uMm);
  const v = splineShapes(on.v, of.vMm);
  for (const [j, row] of of.mm.entries())
    for (const [i, mm] of row.entries()) if (mm !== 0) addProduct(sum, mm, { u: u[i] as Shape, v: v[j] as Shape });
}

/** A shape for each place: 1 there, 0 at the others. */
function splineShapes(axis: Lattice, placesMm: readonly number[]): Shape[] {
  const weights = samples(axis)
    .fill(0)
    .map((_, i) => splineWeights(placesMm, placeOf(axis, i)));
  return placesMm.map((_, k) => controls(weights.map((w) => w[k] as number)));
}

/** The shape of a defect of size 1, as controls along u and along v. */
function shapeOf(on: SideAxes, d: Defect): readonly [Shape, Shape] {
  const { u, v } = on;
  switch (d.kind) {
    case 'lean':
      return [u.flat, v.slope];
    case 'taper':
    case 'skew':
      return [u.slope, v.flat];
    case 'fall':
      return d.towards === 'left' || d.towards === 'right' ? [u.slope, v.flat] : [u.flat, v.slope];
    case 'wind':
      return [u.rise, v.rise];
    case 'bow':
      return [bowOrFlat(u, d.crownU), bowOrFlat(v, d.crownV)];
    case 'hump':
      return [bump(u, d.u, d.width / 2), bump(v, d.v, d.width / 2)];
    case 'step':
      return d.along === 'u' ? [ramp(u, d), v.flat] : [u.flat, ramp(v, d)];
  }
}

/** Lower is less obstruction for a floor, more for a ceiling; the slopes rise to the right and to the back. */
function fallSign(side: Side, towards: 'left' | 'right' | 'front' | 'back'): number {
  return (side === 'floor' ? -1 : 1) * (towards === 'right' || towards === 'back' ? 1 : -1);
}

function addProduct(sum: Float64Array, mm: number, along: { u: Shape; v: Shape }): void {
  const { u, v } = along;
  for (let j = 0, k = 0; j < v.length; j++) {
    const row = mm * (v[j] as number);
    if (row === 0) k += u.length;
    else for (let i = 0; i < u.length; i++, k++) sum[k] = (sum[k] as number) + row * (u[i] as number);
  }
}

// Shapes: a function is sampled at the controls' places and one knot beyond either end, then made into controls. The loops are
// written out, for a function handed in as a value costs ten times the arithmetic.

/** From 0 to 1 over the outline, less a constant. */
function line(axis: Stretch, less: number): Shape {
  const f = samples(axis);
  for (let i = 0; i < f.length; i++) f[i] = (placeOf(axis, i) - axis.from) / (axis.to - axis.from) - less;
  return controls(f);
}

/** From 0 to 1 over a width, level before and after. */
function ramp(axis: Axis, d: { at: number; width: number }): Shape {
  const f = samples(axis);
  for (let i = 0; i < f.length; i++) f[i] = smooth((placeOf(axis, i) - d.at) / d.width + 0.5);
  return controls(f);
}

function bowOrFlat(axis: Axis, crown: number | undefined): Shape {
  if (crown === undefined) return axis.flat;
  const f = samples(axis);
  for (let i = 0; i < f.length; i++) f[i] = bowAt(placeOf(axis, i), axis, crown);
  return controls(f);
}

/** Of height 1 at its place as built: a narrow bump between knots would else come out lower. */
function bump(axis: Axis, at: number, radius: number): Shape {
  const f = samples(axis);
  const crown = builtBump(axis, at, radius);
  for (let i = 0; i < f.length; i++) f[i] = bumpAt((placeOf(axis, i) - at) / radius) / crown;
  return controls(f);
}

function smooth(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s * s * (3 - 2 * s);
}

function bowAt(t: number, axis: Stretch, crown: number): number {
  const run = t < crown ? crown - axis.from : axis.to - crown;
  const s = run > 0 ? (t - crown) / run : 2;
  return s > -1 && s < 1 ? 1 - s * s : 0;
}

function bumpAt(s: number): number {
  return s > -1 && s < 1 ? (1 - s * s) * (1 - s * s) : 0;
}

/** How high the quasi-interpolant of a bump stands at its own place, on a lattice without end. */
function builtBump(axis: Lattice, at: number, radius: number): number {
  const r = (at - axis.start) / knotStepMm - Math.floor((at - axis.start) / knotStepMm);
  const q = 1 - r;
  const control = (steps: number) => bumpControl(at + (steps - r) * knotStepMm, at, radius);
  const near = (4 - 6 * r * r + 3 * r * r * r) * control(0) + (4 - 6 * q * q + 3 * q * q * q) * control(1);
  return (q * q * q * control(-1) + near + r * r * r * control(2)) / 6;
}

function bumpControl(t: number, at: number, radius: number): number {
  const here = bumpAt((t - at) / radius);
  const before = bumpAt((t - knotStepMm - at) / radius);
  const after = bumpAt((t + knotStepMm - at) / radius);
  return (8 * here - before - after) / 6;
}

/** Room for a function's samples along an axis. */
function samples(axis: Lattice): number[] {
  return new Array<number>(axis.count + 2);
}

/** Where sample i is taken: the first two knots before the domain. */
function placeOf(axis: Lattice, i: number): number {
  return axis.start + (i - 2) * knotStepMm;
}

/** The quasi-interpolant of a sampled function. */
function controls(f: readonly number[]): Shape {
  const c = new Array<number>(f.length - 2);
  for (let i = 0; i < c.length; i++) c[i] = (8 * (f[i + 1] as number) - (f[i] as number) - (f[i + 2] as number)) / 6;
  return c;
}
