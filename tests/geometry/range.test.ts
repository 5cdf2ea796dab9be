import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { domainOf, type HeightField, heightAt, type Rect } from '../../src/geometry/height-field.ts';
import {
  type Extreme,
  type Linear,
  type RangeOptions,
  rangeMax,
  rangeMin,
  staysBelow,
} from '../../src/geometry/range.ts';
import { fieldOf, fieldWith, missedBy, rectsIn, sampled, spread, withControl } from '../helpers/height-fields.ts';

const seed = 4202;
const within = 0.001;

const linears: fc.Arbitrary<Linear> = fc.record({
  at: fc.double({ min: -500, max: 500, noNaN: true }),
  perU: fc.double({ min: -1, max: 1, noNaN: true }),
  perV: fc.double({ min: -1, max: 1, noNaN: true }),
});

/** What every answer must keep, whatever was asked. */
function maxOf(field: HeightField, rect: Rect, options: RangeOptions = {}): Extreme {
  const max = rangeMax(field, rect, options);
  const plus = options.plus ?? { at: 0, perU: 0, perV: 0 };
  expect(max.bound).toBeGreaterThanOrEqual(max.value);
  expect(max.bound - max.value).toBeLessThanOrEqual(options.within ?? within);
  expect(max.u >= rect.u0 && max.u <= rect.u1 && max.v >= rect.v0 && max.v <= rect.v1).toBe(true);
  const there = heightAt(field, max.u, max.v) + (plus.at + plus.perU * max.u + plus.perV * max.v);
  expect(max.value).toBe(there);
  return max;
}

/** Two answers to what is the same number: their intervals [value, bound] must meet. */
function expectSame(a: Extreme, b: Extreme, rounding = 1e-9): void {
  expect(Math.max(a.value, b.value)).toBeLessThanOrEqual(Math.min(a.bound, b.bound) + rounding);
}

describe(`range of a field over a rectangle (seed ${seed})`, () => {
  it('holds against plain dense sampling, less what a grid can miss', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), ([field, rect]) => {
        const count = 33;
        const heights = sampled(field, spread(rect.u0, rect.u1, count), spread(rect.v0, rect.v1, count)).flat();
        const missed = missedBy(field, (rect.u1 - rect.u0) / (count - 1), (rect.v1 - rect.v0) / (count - 1)) + 1e-8;
        const max = maxOf(field, rect);
        expect(Math.max(...heights)).toBeLessThanOrEqual(max.bound + 1e-9);
        expect(max.value).toBeLessThanOrEqual(Math.max(...heights) + missed);
        const min = rangeMin(field, rect);
        expect(Math.min(...heights)).toBeGreaterThanOrEqual(min.bound - 1e-9);
        expect(min.value).toBeGreaterThanOrEqual(Math.min(...heights) - missed);
      }),
      { seed, numRuns: 250 },
    );
  });

  it('holds against sampling with a linear function added', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), linears, ([field, rect], plus) => {
        const us = spread(rect.u0, rect.u1, 33);
        const vs = spread(rect.v0, rect.v1, 33);
        const heights = sampled(field, us, vs).flatMap((row, j) =>
          row.map((height, i) => height + plus.at + plus.perU * us[i]! + plus.perV * vs[j]!),
        );
        const missed = missedBy(field, (rect.u1 - rect.u0) / 32, (rect.v1 - rect.v0) / 32) + 1e-8;
        const max = maxOf(field, rect, { plus });
        expect(Math.max(...heights)).toBeLessThanOrEqual(max.bound + 1e-9);
        expect(max.value).toBeLessThanOrEqual(Math.max(...heights) + missed);
      }),
      { seed, numRuns: 250 },
    );
  });

  it('is as tight as it is asked to be', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), fc.constantFrom(1, 0.05, 0.002, 1e-4), ([field, rect], wanted) => {
        const fine = maxOf(field, rect, { within: 1e-6 });
        expectSame(maxOf(field, rect, { within: wanted }), fine);
        expectSame(maxOf(field, rect), fine);
      }),
      { seed, numRuns: 2000 },
    );
  });

  it('is the same to the last bit whatever was asked before', () => {
    fc.assert(
      fc.property(
        fieldWith((field) => fc.array(rectsIn(field), { minLength: 2, maxLength: 4 })),
        ([field, rects]) => {
          for (const rect of rects)
            expect(rangeMax(field, rect)).toEqual(
              rangeMax(
                withControl(field, (c) => c),
                rect,
              ),
            );
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  it('never grows when the rectangle shrinks', () => {
    fc.assert(
      fc.property(
        fieldWith((field) => fc.tuple(rectsIn(field), rectsIn(field))),
        ([field, [a, b]]) => {
          const inner = meetOf(a, b);
          fc.pre(inner !== null);
          expect(maxOf(field, inner!).value).toBeLessThanOrEqual(maxOf(field, a).bound);
          expect(rangeMin(field, inner!).value).toBeGreaterThanOrEqual(rangeMin(field, a).bound);
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  it('over a rectangle cut in two is the larger of the halves', () => {
    fc.assert(
      fc.property(
        fieldWith(rectsIn),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.boolean(),
        ([field, rect], share, u) => {
          const cut = u ? rect.u0 + share * (rect.u1 - rect.u0) : rect.v0 + share * (rect.v1 - rect.v0);
          const at = u ? Math.min(cut, rect.u1) : Math.min(cut, rect.v1);
          const first = maxOf(field, u ? { ...rect, u1: at } : { ...rect, v1: at });
          const second = maxOf(field, u ? { ...rect, u0: at } : { ...rect, v0: at });
          expectSame(
            maxOf(field, rect),
            first.value > second.value ? first : { ...second, bound: Math.max(first.bound, second.bound) },
          );
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  it('turned upside down changes sign and nothing else', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), fc.option(linears), ([field, rect], plus) => {
        const turned = plus && { at: 0 - plus.at, perU: 0 - plus.perU, perV: 0 - plus.perV };
        const min = rangeMin(field, rect, plus ? { plus } : {});
        const max = rangeMax(
          withControl(field, (c) => 0 - c),
          rect,
          turned ? { plus: turned } : {},
        );
        expect(min.value).toBe(0 - max.value);
        expect(min.bound).toBe(0 - max.bound);
        expect([min.u, min.v, min.nodes]).toEqual([max.u, max.v, max.nodes]);
        expect(min.bound).toBeLessThanOrEqual(min.value);
        expect(min.value).toBeLessThanOrEqual(rangeMax(field, rect, plus ? { plus } : {}).value + within);
      }),
      { seed, numRuns: 200 },
    );
  });

  it('with nothing added is the plain one', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), ([field, rect]) => {
        const plain = maxOf(field, rect);
        const added = maxOf(field, rect, { plus: { at: 0, perU: 0, perV: 0 } });
        expect({ ...added, bound: 0 }).toEqual({ ...plain, bound: 0 });
        expect(added.bound).toBeCloseTo(plain.bound, 9);
      }),
      { seed, numRuns: 150 },
    );
  });

  it('rises with the field: control values or a constant added, the same', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), fc.integer({ min: -300, max: 300 }), ([field, rect], mm) => {
        fc.pre(field.control.every((c) => Math.abs(c + 1024 * mm) < 16_777_216));
        const lifted = maxOf(
          withControl(field, (c) => c + 1024 * mm),
          rect,
        );
        const plain = maxOf(field, rect);
        expectSame(lifted, { ...plain, value: plain.value + mm, bound: plain.bound + mm });
        expectSame(lifted, maxOf(field, rect, { plus: { at: mm, perU: 0, perV: 0 } }));
      }),
      { seed, numRuns: 150 },
    );
  });

  it('a plane in the control values or added to them, the same', () => {
    fc.assert(
      fc.property(
        fieldWith(rectsIn),
        fc.integer({ min: -512, max: 512 }),
        fc.integer({ min: -512, max: 512 }),
        ([field, rect], a, b) => {
          fc.pre(field.control.every((c) => Math.abs(c) < 16_000_000));
          const { countU } = field;
          const tilted = withControl(field, (c, k) => c + a * ((k % countU) - 1) + b * (Math.trunc(k / countU) - 1));
          const perU = a / 131_072;
          const perV = b / 131_072;
          const plus = { at: 0 - perU * field.u0 - perV * field.v0, perU, perV };
          expectSame(maxOf(tilted, rect), maxOf(field, rect, { plus }));
        },
      ),
      { seed, numRuns: 150 },
    );
  });

  it('at a point is the height there, and along a line no more than around it', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), ([field, rect]) => {
        const point = { u0: rect.u1, u1: rect.u1, v0: rect.v0, v1: rect.v0 };
        expect(maxOf(field, point).value).toBe(heightAt(field, rect.u1, rect.v0));
        expect(rangeMin(field, point).value).toBe(heightAt(field, rect.u1, rect.v0));
        const line = { ...rect, u0: rect.u1 };
        const heights = sampled(field, [rect.u1], spread(rect.v0, rect.v1, 200)).flat();
        const missed = missedBy(field, 0, (rect.v1 - rect.v0) / 199) + 1e-8;
        const max = maxOf(field, line);
        expect(Math.max(...heights)).toBeLessThanOrEqual(max.bound + 1e-9);
        expect(max.value).toBeLessThanOrEqual(Math.max(...heights) + missed);
        expect(max.value).toBeLessThanOrEqual(maxOf(field, rect).bound);
      }),
      { seed, numRuns: 200 },
    );
  });

  it('reaches to the border of the domain, corners and edges', () => {
    const field = fieldOf({ u0: -128, countU: 6, countV: 5 }, (u, v) => u / 32 + v / 64);
    const d = domainOf(field);
    expect(maxOf(field, d)).toMatchObject({ u: 256, v: 256, value: 12 });
    expect(rangeMin(field, d)).toMatchObject({ u: -128, v: 0, value: -4 });
    expect(maxOf(field, { ...d, u0: d.u1 }).value).toBe(12);
    expect(maxOf(field, { ...d, v1: d.v0 })).toMatchObject({ u: 256, v: 0, value: 8 });
    expect(maxOf(field, { u0: d.u1, u1: d.u1, v0: d.v1, v1: d.v1 }).value).toBe(12);
  });

  it('on a level field is exact, and takes the first knot', () => {
    const field = fieldOf({ countU: 8, countV: 8 }, () => 7.5);
    expect(maxOf(field, { u0: 10, u1: 500, v0: 20, v1: 600 })).toMatchObject({ u: 128, v: 128, value: 7.5 });
    expect(maxOf(field, { u0: 10, u1: 500, v0: 20, v1: 600 }).bound).toBeCloseTo(7.5, 8);
  });

  it('stays below a limit exactly when the maximum does', () => {
    fc.assert(
      fc.property(
        fieldWith(rectsIn),
        fc.option(linears),
        fc.double({ min: -3, max: 3, noNaN: true }),
        ([field, rect], plus, by) => {
          const options = plus ? { plus } : {};
          const max = maxOf(field, rect, options);
          for (const limit of [max.value + by, max.bound, max.value - within - 1e-9, max.value - 30]) {
            const below = staysBelow(field, rect, limit, options);
            if (below) expect(max.value).toBeLessThanOrEqual(limit + within);
            else expect(max.bound).toBeGreaterThan(limit);
          }
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  it('refuses rectangles that are turned round or leave the domain, and senseless options', () => {
    const field = fieldOf({ countU: 5, countV: 5 }, () => 0);
    const rect = { u0: 0, u1: 256, v0: 0, v1: 256 };
    const refuse = (change: Partial<Rect>, options: RangeOptions, message: string) => {
      for (const ask of [rangeMax, rangeMin])
        expect(() => ask(field, { ...rect, ...change }, options)).toThrow(message);
      expect(() => staysBelow(field, { ...rect, ...change }, 0, options)).toThrow(message);
    };
    refuse({ u0: 9, u1: 8 }, {}, 'range: rectangle must have u0 <= u1 and v0 <= v1, got [9, 8] x [0, 256] mm');
    refuse({ v1: Number.NaN }, {}, 'range: rectangle must have u0 <= u1 and v0 <= v1, got [0, 256] x [0, NaN] mm');
    refuse({ u1: 256.5 }, {}, 'range: rectangle [0, 256.5] x [0, 256] mm must lie in [0, 256] x [0, 256]');
    refuse({ v0: -1 }, {}, 'range: rectangle [0, 256] x [-1, 256] mm must lie in [0, 256] x [0, 256]');
    refuse({}, { within: 0 }, 'range: within must be >= 0.000001 mm and finite, got 0');
    refuse({}, { within: Number.POSITIVE_INFINITY }, 'range: within must be >= 0.000001 mm and finite, got Infinity');
    expect(() => rangeMax(field, rect, { plus: { at: Number.NaN, perU: 0, perV: 0 } })).toThrow(
      'range: plus must have at (mm) and slopes within 1048576 of zero, got NaN, 0, 0',
    );
    expect(() => staysBelow(field, rect, Number.NaN)).toThrow(
      'range: limit must be within 1000000000 mm of zero, got NaN',
    );
  });
});

function meetOf(a: Rect, b: Rect): Rect | null {
  const u0 = Math.max(a.u0, b.u0);
  const u1 = Math.min(a.u1, b.u1);
  const v0 = Math.max(a.v0, b.v0);
  const v1 = Math.min(a.v1, b.v1);
  return u0 <= u1 && v0 <= v1 ? { u0, u1, v0, v1 } : null;
}
