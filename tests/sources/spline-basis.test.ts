/**
 * B-spline basis values.
 *
 * | value | source | status |
 * |---|---|---|
 * | quadratic on knots 0, 1, 2, 3: x²/2; 3/4 - (x - 3/2)²; (3 - x)²/2 | scipy, `scipy/interpolate/tests/test_bsplines.py` (B_0123), commit 3dbf660a | V: read in that file |
 * | quadratic on knots 0, 1, 1, 2: x² below 1, (2 - x)² above | the same file | V |
 * | partition of unity and 0 <= B <= 1, orders 1 to 9 | GSL, `bspline/test.c`, commit cf180cd7 | V: the property is tested there |
 * | cubic on 0..4: B(1/2) = 1/48, B(1) = 1/6, B(3/2) = 23/48, B(2) = 2/3 | closed form | D: derived, no publication |
 *
 * Closed forms are checked to the rounding of the lattice and of doubles.
 * The slope of a cubic spline is a quadratic one: with control values that step from 0 to c, 128 / c times the slope is a
 * quadratic basis function, so the published quadratic values check the field's slopes. The double knot has no uniform lattice; it checks
 * the recursion that the other tests hold the field against.
 */

import { describe, expect, it } from 'vitest';
import { heightAt, slopesAt } from '../../src/geometry/height-field.ts';
import { basis, cubicRow, fieldOf } from '../helpers/height-fields.ts';

/** The published pieces, as printed. */
function quadratic0123(x: number): number {
  if (x < 0 || x > 3) return 0;
  if (x < 1) return (x * x) / 2;
  return x < 2 ? 3 / 4 - (x - 3 / 2) ** 2 : (3 - x) ** 2 / 2;
}

const places = Array.from({ length: 65 }, (_, k) => (k * 3) / 64);
// Control values 0 up to the third and 1024 mm from the fourth on: the quadratic basis begins at knot 0 of the domain.
const step = fieldOf({ countU: 9, countV: 4 }, (u) => (u >= 256 ? 1024 : 0));
const stepUp = fieldOf({ countU: 4, countV: 9 }, (_, v) => (v >= 256 ? 1024 : 0));

describe('quadratic B-spline on knots 0, 1, 2, 3', () => {
  it('is the slope of a step in the control values, along u and along v', () => {
    for (const x of places) {
      expect(slopesAt(step, 128 * x, 60).perU * (128 / 1024)).toBeCloseTo(quadratic0123(x), 12);
      expect(slopesAt(stepUp, 60, 128 * x).perV * (128 / 1024)).toBeCloseTo(quadratic0123(x), 12);
      expect(slopesAt(step, 128 * x, 60).perV).toBeCloseTo(0, 12);
    }
  });

  it('has the printed values 0.125, 0.5, 0.75', () => {
    for (const [x, value] of [
      [0.5, 0.125],
      [1, 0.5],
      [1.5, 0.75],
    ] as const) {
      expect(slopesAt(step, 128 * x, 0).perU / 8).toBe(value);
    }
  });

  it('is what the recursion gives', () => {
    for (const x of places.slice(0, -1)) expect(basis(0, 2, [0, 1, 2, 3], x)).toBeCloseTo(quadratic0123(x), 14);
  });
});

describe('quadratic B-spline on knots 0, 1, 1, 2', () => {
  it('is what the recursion gives', () => {
    for (const x of [0, 0.25, 0.5, 0.99]) expect(basis(0, 2, [0, 1, 1, 2], x)).toBeCloseTo(x * x, 14);
    for (const x of [1, 1.25, 1.5, 1.99]) expect(basis(0, 2, [0, 1, 1, 2], x)).toBeCloseTo((2 - x) ** 2, 14);
  });
});

describe('cubic B-spline on knots 0 to 4', () => {
  it('has 1/48, 1/6, 23/48, 2/3 in the field, along u and along v', () => {
    const one = fieldOf({ countU: 9, countV: 4 }, (u) => (u === 256 ? 4800 : 0));
    const up = fieldOf({ countU: 4, countV: 9 }, (_, v) => (v === 256 ? 4800 : 0));
    for (const [x, value] of [
      [0.5, 1 / 48],
      [1, 1 / 6],
      [1.5, 23 / 48],
      [2, 2 / 3],
    ] as const) {
      for (const place of [x, 4 - x]) {
        expect(heightAt(one, 128 * place, 90) / 4800).toBeCloseTo(value, 14);
        expect(heightAt(up, 90, 128 * place) / 4800).toBeCloseTo(value, 14);
      }
    }
  });
});

describe('partition of unity', () => {
  it('holds for orders 1 to 9 of the recursion, values between 0 and 1', () => {
    for (let degree = 0; degree <= 8; degree++) {
      const knots = Array.from({ length: 2 * degree + 6 }, (_, k) => k - degree);
      for (const x of [0, 0.3, 1, 2.75, 4.99]) {
        const values = Array.from({ length: knots.length - degree - 1 }, (_, i) => basis(i, degree, knots, x));
        expect(values.reduce((sum, b) => sum + b, 0)).toBeCloseTo(1, 13);
        expect(values.every((b) => b >= 0 && b <= 1)).toBe(true);
      }
    }
  });

  it('holds in the field: equal control values are that height everywhere', () => {
    const level = fieldOf({ u0: 10, countU: 7, countV: 6 }, () => 1000);
    for (const u of [10, 11.7, 138, 300, 522]) {
      for (const v of [0, 1e-9, 200, 384]) expect(heightAt(level, u, v)).toBeCloseTo(1000, 11);
      expect(cubicRow(10, 7, u).reduce((sum, b) => sum + b, 0)).toBeCloseTo(1, 13);
    }
  });
});
