/**
 * Height fields for tests, and an independent evaluation of them: Cox and de Boor's recursion over a plain knot
 * vector, every basis function of the lattice summed, no code in common with `src/geometry/`.
 *
 * @source C. de Boor, "On calculating with B-splines", 1972; M. G. Cox, 1972: the recursion (from memory)
 */

import * as fc from 'fast-check';
import { type HeightField, heightField, type Rect } from '../../src/geometry/height-field.ts';

/** A field from a function of the Greville place (mm), for surfaces that are given by their control values. */
export function fieldOf(
  lattice: { u0?: number; v0?: number; countU: number; countV: number },
  controlMm: (u: number, v: number) => number,
): HeightField {
  const { u0 = 0, v0 = 0, countU, countV } = lattice;
  const control = new Int32Array(countU * countV);
  for (let j = 0; j < countV; j++) {
    for (let i = 0; i < countU; i++) {
      control[j * countU + i] = Math.round(1024 * controlMm(u0 + 128 * (i - 1), v0 + 128 * (j - 1)));
    }
  }
  return heightField({ u0, v0, countU, countV, control });
}

/** The same lattice with other control values (1/1024 mm). */
export function withControl(field: HeightField, change: (control: number, index: number) => number): HeightField {
  const { u0, v0, countU, countV } = field;
  return heightField({ u0, v0, countU, countV, control: field.control.map(change) });
}

/** The i-th B-spline basis function of a degree over a knot vector, by the recursion; 0/0 counts as 0. */
export function basis(i: number, degree: number, knots: readonly number[], x: number): number {
  const [a, b] = [knots[i]!, knots[i + 1]!];
  if (degree === 0) return x >= a && x < b ? 1 : 0;
  const c = knots[i + degree]!;
  const d = knots[i + degree + 1]!;
  const left = c > a ? ((x - a) / (c - a)) * basis(i, degree - 1, knots, x) : 0;
  const right = d > b ? ((d - x) / (d - b)) * basis(i + 1, degree - 1, knots, x) : 0;
  return left + right;
}

/** All cubic basis functions of one direction of a lattice at x; at the far border the limit from within. */
export function cubicRow(origin: number, count: number, x: number): number[] {
  const knots = Array.from({ length: count + 4 }, (_, k) => origin + 128 * (k - 3));
  const end = origin + 128 * (count - 3);
  // The recursion's intervals are open at their right end, so the far border is read off the mirrored lattice.
  if (x === end) return cubicRow(-end, count, -end).reverse();
  return Array.from({ length: count }, (_, i) => basis(i, 3, knots, x));
}

/** Heights on a grid of places, mm, one row a v: the independent evaluation. */
export function sampled(field: HeightField, us: readonly number[], vs: readonly number[]): number[][] {
  const alongU = us.map((u) => cubicRow(field.u0, field.countU, u));
  return vs.map((v) => {
    const alongV = cubicRow(field.v0, field.countV, v);
    const row = Array.from({ length: field.countU }, (_, i) => {
      let sum = 0;
      for (let j = 0; j < field.countV; j++) sum += alongV[j]! * field.control[j * field.countU + i]!;
      return sum / 1024;
    });
    return alongU.map((weights) => weights.reduce((sum, weight, i) => sum + weight * row[i]!, 0));
  });
}

/** `count` places from a to b, both ends included; the one place when they are the same. */
export function spread(a: number, b: number, count: number): number[] {
  if (a === b) return [a];
  return Array.from({ length: count }, (_, k) => (k === count - 1 ? b : a + ((b - a) * k) / (count - 1)));
}

/**
 * How far a smooth surface can rise above the highest of a grid of samples, mm: h²/8 times the largest second
 * derivative in each direction, which for a spline is at most its largest second control difference over 128².
 */
export function missedBy(field: HeightField, stepU: number, stepV: number): number {
  const { control, countU, countV } = field;
  let bentU = 0;
  let bentV = 0;
  for (let j = 0; j < countV; j++) {
    for (let i = 0; i < countU; i++) {
      const at = (di: number, dj: number) => control[(j + dj) * countU + i + di]!;
      if (i + 2 < countU) bentU = Math.max(bentU, Math.abs(at(0, 0) - 2 * at(1, 0) + at(2, 0)));
      if (j + 2 < countV) bentV = Math.max(bentV, Math.abs(at(0, 0) - 2 * at(0, 1) + at(0, 2)));
    }
  }
  return (bentU * stepU * stepU + bentV * stepV * stepV) / (8 * 1024 * 128 * 128);
}

/** Fields of 1 to 7 spans a side: rough, plastered, near to level, bowed, plane, flat, and some as large as they may be. */
export function fields(): fc.Arbitrary<HeightField> {
  return fc
    .record({
      u0: fc.constantFrom(0, -128, -640.5, 77.25),
      v0: fc.constantFrom(0, -256, 31.125),
      countU: fc.integer({ min: 4, max: 10 }),
      countV: fc.integer({ min: 4, max: 10 }),
      kind: fc.constantFrom('rough', 'plaster', 'fine', 'bow', 'plane', 'flat', 'vast'),
      slopes: fc.tuple(fc.integer({ min: -1500, max: 1500 }), fc.integer({ min: -1500, max: 1500 })),
      noise: fc.infiniteStream(fc.integer({ min: -1024, max: 1024 })),
    })
    .map(({ u0, v0, countU, countV, kind, slopes, noise }) => {
      const control = Int32Array.from({ length: countU * countV }, (_, k) => {
        const [i, j] = [k % countU, Math.trunc(k / countU)];
        const wobble = noise.next().value!;
        const plane = slopes[0] * i + slopes[1] * j;
        if (kind === 'flat') return slopes[0];
        if (kind === 'plane') return plane;
        if (kind === 'bow') return plane - 900 * i * (i - 3) - 700 * j * (j - 4);
        if (kind === 'plaster') return plane + wobble;
        // Hardly more than the tightest bound that is asked for: here a bound that is cut short shows.
        if (kind === 'fine') return wobble >> 8;
        return kind === 'rough' ? wobble * 40 : wobble * 16_383;
      });
      return heightField({ u0, v0, countU, countV, control });
    });
}

/** Places along one side of the domain, often on a knot or at an end. */
function along(origin: number, spans: number): fc.Arbitrary<number> {
  return fc.oneof(
    fc.integer({ min: 0, max: spans }).map((k) => origin + 128 * k),
    fc.integer({ min: 0, max: 128 * spans * 64 }).map((k) => origin + k / 64),
    fc.double({ min: origin, max: origin + 128 * spans, noNaN: true }),
  );
}

/** A place in the closed domain. */
export function placesIn(field: HeightField): fc.Arbitrary<{ u: number; v: number }> {
  return fc.record({ u: along(field.u0, field.countU - 3), v: along(field.v0, field.countV - 3) });
}

/** A closed rectangle in the domain; one in some is a line or a point. */
export function rectsIn(field: HeightField): fc.Arbitrary<Rect> {
  const side = (origin: number, spans: number) =>
    fc.tuple(along(origin, spans), along(origin, spans), fc.integer({ min: 0, max: 5 })).map(([a, b, thin]) => {
      return thin === 0 ? [a, a] : [Math.min(a, b), Math.max(a, b)];
    });
  return fc
    .tuple(side(field.u0, field.countU - 3), side(field.v0, field.countV - 3))
    .map(([u, v]) => ({ u0: u[0]!, u1: u[1]!, v0: v[0]!, v1: v[1]! }));
}

/** A field with something in it. */
export function fieldWith<T>(inner: (field: HeightField) => fc.Arbitrary<T>): fc.Arbitrary<[HeightField, T]> {
  return fields().chain((field) => inner(field).map((value): [HeightField, T] => [field, value]));
}
