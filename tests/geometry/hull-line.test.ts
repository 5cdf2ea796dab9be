import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type HullPoint, lineUnder } from '../../src/geometry/hull-line.ts';
import { restingLine } from '../../src/geometry/resting-line.ts';

const seed = 9402;
const points = fc.array(fc.record({ x: fc.integer({ min: -600, max: 600 }), z: fc.integer({ min: 900, max: 2400 }) }), {
  minLength: 2,
  maxLength: 14,
});

/** How high a line of a pitch can stand at the middle: the least of z - pitch x. */
const heightAt = (of: readonly HullPoint[], pitch: number) => Math.min(...of.map(({ x, z }) => z - pitch * x));

describe(`the line under points that stands highest at a middle (seed ${seed})`, () => {
  it('stays under all points, and no line of another pitch stands higher', () => {
    fc.assert(
      fc.property(points, (of) => {
        const line = lineUnder(of, 0);
        if (!line) {
          expect(of.every(({ x }) => x >= 0) || of.every(({ x }) => x <= 0)).toBe(true);
          return;
        }
        expect(heightAt(of, line.pitch)).toBeCloseTo(line.z, 6);
        for (let k = -4000; k <= 4000; k += 400) expect(heightAt(of, k / 1000)).toBeLessThanOrEqual(line.z + 1e-6);
        for (const k of line.on) expect(line.z + line.pitch * of[k]!.x).toBeCloseTo(of[k]!.z, 6);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('the search on a surface finds the same, its points asked for by pitch', () => {
    fc.assert(
      fc.property(points, (of) => {
        const line = lineUnder(of, 0);
        fc.pre(line !== null);
        const rest = (pitch: number) => {
          const { x, z } = of.reduce((a, b) => (b.z - pitch * b.x < a.z - pitch * a.x ? b : a));
          return { pitch, heightMm: z - pitch * x, right: x, z };
        };
        const found = restingLine(rest, 0.7);
        expect(found.best.heightMm).toBeLessThanOrEqual(line!.z + 1e-6);
        expect(found.best.heightMm).toBeGreaterThanOrEqual(line!.z - 0.0021);
        expect(found.boundMm).toBeGreaterThanOrEqual(line!.z - 1e-6);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('rests on a place on either side: five chainages of a bowed slope by hand', () => {
    // A straight pitch of 0.7 with a belly of 6 at 200 right of the middle: there and at -400 it touches.
    const of = [-400, -200, 0, 200, 400].map((x) => ({ x, z: 1500 + 0.7 * x - (x === 200 ? 6 : x === 0 ? 2 : 0) }));
    const line = lineUnder(of, 0)!;
    expect(line.on.map((k) => of[k]!.x)).toEqual([-400, 200]);
    expect(line.pitch).toBeCloseTo(0.7 - 6 / 600, 12);
    expect(line.z).toBeCloseTo(1500 - 4, 12);
  });

  it('through a low point at the middle it is the flattest that stays under the others', () => {
    const of = [
      { x: -500, z: 1200 },
      { x: 0, z: 1000 },
      { x: 500, z: 1250 },
    ];
    expect(lineUnder(of, 0)).toEqual({ z: 1000, pitch: 0, on: [1] });
    const rising = of.map(({ x, z }) => ({ x, z: z + x }));
    expect(lineUnder(rising, 0)?.pitch).toBeCloseTo(0.6, 12);
  });

  it('needs a point on both sides', () => {
    expect(
      lineUnder(
        [
          { x: 1, z: 5 },
          { x: 9, z: 4 },
        ],
        0,
      ),
    ).toBeNull();
    expect(
      lineUnder(
        [
          { x: 0, z: 5 },
          { x: 9, z: 4 },
        ],
        0,
      ),
    ).toBeNull();
  });
});
