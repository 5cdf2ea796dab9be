import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heightAt } from '../../src/geometry/height-field.ts';
import { leastApartMm, splineWeights, wrongWithMeasured } from '../../src/recess/measured.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { RecessSpec } from '../../src/recess/recess-spec.ts';
import { sayRecess } from '../../src/recess/trade-words.ts';

const seed = 5_511;
const through = (places: readonly number[], values: readonly number[], t: number) =>
  splineWeights(places, t).reduce((sum, w, i) => sum + w * (values[i] ?? 0), 0);

const net = fc
  .array(fc.integer({ min: leastApartMm, max: 900 }), { minLength: 1, maxLength: 8 })
  .map((steps) => [0, ...steps].map((_, i) => steps.slice(0, i).reduce((sum, step) => sum + step, -300)))
  .chain((places) =>
    fc.tuple(
      fc.constant(places),
      fc.array(fc.integer({ min: -20, max: 20 }), { minLength: places.length, maxLength: places.length }),
    ),
  );

describe(`a spline through measured places (seed ${seed})`, () => {
  test('R. L. Burden, J. D. Faires, Numerical Analysis, natural cubic splines, the example through (1,2), (2,3), (3,5) (from memory)', () => {
    const at = (x: number) => through([1, 2, 3], [2, 3, 5], x);
    for (const x of [1, 1.25, 1.5, 1.9]) expect(at(x)).toBeCloseTo(2 + 0.75 * (x - 1) + 0.25 * (x - 1) ** 3, 12);
    for (const x of [2, 2.3, 2.75, 3])
      expect(at(x)).toBeCloseTo(3 + 1.5 * (x - 2) + 0.75 * (x - 2) ** 2 - 0.25 * (x - 2) ** 3, 12);
  });

  test('it goes through every place, and its weights sum to 1', () => {
    fc.assert(
      fc.property(net, fc.double({ min: -2000, max: 8000, noNaN: true }), ([places, values], t) => {
        for (const [i, p] of places.entries()) expect(through(places, values, p)).toBeCloseTo(values[i] ?? 0, 8);
        expect(splineWeights(places, t).reduce((a, b) => a + b)).toBeCloseTo(1, 6);
      }),
      { seed, numRuns: 100 },
    );
  });

  test('slope and bend do not jump at a place, and the ends do not bend', () => {
    fc.assert(
      fc.property(net, ([places, values]) => {
        const h = 0.5;
        const f = (t: number) => through(places, values, t);
        const slope = (t: number) => (f(t + h) - f(t - h)) / (2 * h);
        const bend = (t: number) => (f(t + h) - 2 * f(t) + f(t - h)) / (h * h);
        for (const p of places) {
          expect(Math.abs(slope(p + 2 * h) - slope(p - 2 * h))).toBeLessThan(0.1);
          expect(Math.abs(bend(p + 2 * h) - bend(p - 2 * h))).toBeLessThan(0.002);
        }
        for (const t of [(places[0] as number) - 100, (places.at(-1) as number) + 100])
          expect(Math.abs(bend(t))).toBeLessThan(1e-6);
      }),
      { seed, numRuns: 60 },
    );
  });

  test('what lies on a straight line stays on it, past the ends too', () => {
    for (const t of [-500, 0, 333, 1000, 2500])
      expect(through([0, 300, 450, 1000], [5, 8, 9.5, 15], t)).toBeCloseTo(5 + t / 100, 9);
  });
});

describe('a surface as measured', () => {
  const straight = { offsetMm: 0, wobbleMm: 0, defects: [] };
  const measured = {
    uMm: [30, 370],
    vMm: [300, 1200, 2100],
    mm: [
      [0, 1],
      [4, 6],
      [2, -1],
    ],
  };
  const spec: RecessSpec = {
    format: 'offtrue-spec',
    version: 1,
    family: 'own',
    structure: 'own',
    severity: 'own',
    openingMm: { width: 1200, height: 2400, depth: 400 },
    mouthMm: 0,
    breastSide: null,
    key: [1, 2, 3, 4],
    surfaces: { left: { ...straight, measured }, floor: straight, ceiling: straight, back: straight, right: straight },
    trims: [],
    reference: { kind: 'best-fit', heightMm: 0, wavesMm: [0, 0] },
  };

  test('stands where it was measured, within a hundredth', () => {
    const { left } = buildRecess(spec).fields;
    for (const [j, v] of measured.vMm.entries())
      for (const [i, u] of measured.uMm.entries())
        expect(Math.abs(heightAt(left, u, v) - -600 - (measured.mm[j]?.[i] ?? 0))).toBeLessThan(0.01);
  });

  test('is said with where it goes furthest either way', () => {
    expect(sayRecess(spec)[1]).toBe(
      'left wall: as measured, 6 into the recess at 1200 up, 370 in, 1 out of it at 2100 up, 370 in',
    );
  });

  test.each([
    [
      {
        uMm: [30, 40],
        vMm: [0, 100],
        mm: [
          [0, 0],
          [0, 0],
        ],
      },
      /uMm ascending by 60/,
    ],
    [
      {
        uMm: [30, 400],
        vMm: [100, 0],
        mm: [
          [0, 0],
          [0, 0],
        ],
      },
      /vMm ascending by 60/,
    ],
    [{ uMm: [30, 400], vMm: [0, 100], mm: [[0, 0]] }, /a row of 2 for each of 2 places, got 2/],
    [{ uMm: [30, 400], vMm: [0, 100], mm: [[0, 0], [0]] }, /got 2, 1/],
  ])('no net: %j', (odd, says) => {
    expect(wrongWithMeasured(odd)).toMatch(says);
    const left = { ...straight, measured: odd };
    expect(() => buildRecess({ ...spec, surfaces: { ...spec.surfaces, left } })).toThrow(RangeError);
  });
});
