import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finePerMm } from '../../src/geometry/height-field.ts';
import { addLinear, clipNetU, clipNetV, halveU, halveV, loadNet } from '../../src/geometry/net.ts';
import { fieldWith, placesIn, sampled } from '../helpers/height-fields.ts';

const seed = 4203;
const unit = fc.double({ min: 0, max: 1, noNaN: true });
const nets = fc.array(fc.integer({ min: -36_000_000, max: 36_000_000 }), { minLength: 16, maxLength: 16 });

/** Plain Bernstein sum: 1, 3, 3, 1 and powers, written out. */
function bernstein(net: ArrayLike<number>, s: number, t: number, o = 0): number {
  const weights = (x: number) => [(1 - x) ** 3, 3 * x * (1 - x) ** 2, 3 * x * x * (1 - x), x ** 3];
  let sum = 0;
  for (const [r, alongV] of weights(t).entries()) {
    for (const [c, alongU] of weights(s).entries()) sum += alongV * alongU * net[o + 4 * r + c]!;
  }
  return sum;
}

describe(`Bezier nets (seed ${seed})`, () => {
  it('loaded, give back the field in whole numbers', () => {
    fc.assert(
      fc.property(fieldWith(placesIn), ([field, { u, v }]) => {
        const i = Math.min(Math.floor((u - field.u0) / 128), field.countU - 4);
        const j = Math.min(Math.floor((v - field.v0) / 128), field.countV - 4);
        const net = new Float64Array(16);
        loadNet(field.control, j * field.countU + i, field.countU, net, 0);
        expect(net.every((value) => Number.isInteger(value) && Math.abs(value) < 2 ** 30)).toBe(true);
        const height = bernstein(net, (u - field.u0) / 128 - i, (v - field.v0) / 128 - j) / finePerMm;
        expect(height).toBeCloseTo(sampled(field, [u], [v])[0]![0]!, 7);
      }),
      { seed, numRuns: 200 },
    );
  });

  it('clipped, are the same surface on the part', () => {
    fc.assert(
      fc.property(nets, unit, unit, unit, unit, (values, a, b, s, t) => {
        const net = Float64Array.from(values);
        clipNetU(net, 0, a, b);
        clipNetV(net, 0, b, a);
        expect(bernstein(net, s, t)).toBeCloseTo(bernstein(values, a + s * (b - a), b + t * (a - b)), 5);
      }),
      { seed, numRuns: 200 },
    );
  });

  it('halved, are the same surface on each half, and still exact', () => {
    fc.assert(
      fc.property(nets, unit, unit, fc.boolean(), (values, s, t, alongU) => {
        const both = new Float64Array(48);
        both.set(values, 16);
        if (alongU) halveU(both, 16, 32);
        else halveV(both, 16, 32);
        expect(both.every((value) => Number.isInteger(8 * value))).toBe(true);
        for (const half of [0, 1]) {
          const whole = alongU ? bernstein(values, (s + half) / 2, t) : bernstein(values, s, (t + half) / 2);
          expect(bernstein(both, s, t, 16 + 16 * half)).toBeCloseTo(whole, 5);
        }
      }),
      { seed, numRuns: 200 },
    );
  });

  it('take a linear function on as it is', () => {
    fc.assert(
      fc.property(nets, unit, unit, unit, (values, at, s, t) => {
        const net = Float64Array.from(values);
        addLinear(net, 0, { at, alongU: 300, alongV: -70 });
        expect(bernstein(net, s, t) - bernstein(values, s, t)).toBeCloseTo(at + 300 * s - 70 * t, 5);
      }),
      { seed, numRuns: 100 },
    );
  });
});
