import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { area, contains, type PlanPoint, segmentMeets } from '../../src/geometry/polygon.ts';

const seed = 4206;
const at = (x: number, y: number): PlanPoint => ({ x, y });
const breast = [at(0, 0), at(900, 0), at(900, 350), at(0, 350)];
/** An L: the room in front of a breast that stands in its corner. */
const ell = [at(0, 0), at(1000, 0), at(1000, 400), at(400, 400), at(400, 1000), at(0, 1000)];
const grid = fc.integer({ min: -6, max: 14 }).map((k) => k * 100);
const places = fc.tuple(grid, grid).map(([x, y]) => at(x, y));

/** Inside the open L, straight from its two rectangles. */
function inEll(p: PlanPoint): boolean {
  const low = p.x > 0 && p.x < 1000 && p.y > 0 && p.y < 400;
  const tall = p.x > 0 && p.x < 400 && p.y > 0 && p.y < 1000;
  return low || tall;
}

function onEll(p: PlanPoint): boolean {
  const low = p.x >= 0 && p.x <= 1000 && p.y >= 0 && p.y <= 400;
  const tall = p.x >= 0 && p.x <= 400 && p.y >= 0 && p.y <= 1000;
  return low || tall;
}

describe(`plan polygons (seed ${seed})`, () => {
  it('the border counts as in, corners too', () => {
    for (const p of [at(0, 0), at(900, 350), at(450, 0), at(0, 100), at(450, 350), at(1, 1)])
      expect(contains(breast, p)).toBe(true);
    for (const p of [at(-0.001, 100), at(900.001, 0), at(450, 350.001), at(-5, 0), at(-5, 350), at(1800, 0)]) {
      expect(contains(breast, p)).toBe(false);
    }
  });

  it('an L is its two rectangles, whichever way round and wherever it begins', () => {
    fc.assert(
      fc.property(places, fc.integer({ min: 0, max: 5 }), fc.boolean(), (p, start, back) => {
        const ring = [...ell.slice(start), ...ell.slice(0, start)];
        if (back) ring.reverse();
        expect(contains(ring, p)).toBe(onEll(p));
        expect(area(ring)).toBe(1000 * 400 + 400 * 600);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('a way meets the inside exactly when one of its many points does', () => {
    fc.assert(
      fc.property(places, places, (a, b) => {
        // Lattice ends: a way that enters the L at all stays in it for more than one part in 4000.
        const inside = Array.from({ length: 8001 }, (_, k) => k / 8000).some((t) =>
          inEll(at(round(a.x + t * (b.x - a.x)), round(a.y + t * (b.y - a.y)))),
        );
        expect(segmentMeets(ell, a, b)).toBe(inside);
        expect(segmentMeets(ell, b, a)).toBe(inside);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('touching from without does not count', () => {
    expect(segmentMeets(breast, at(0, -100), at(0, 500))).toBe(false);
    expect(segmentMeets(breast, at(-100, 350), at(1000, 350))).toBe(false);
    expect(segmentMeets(breast, at(-100, 100), at(100, -100))).toBe(false);
    expect(segmentMeets(breast, at(-100, 100), at(0, 100))).toBe(false);
    expect(segmentMeets(breast, at(-100, 101), at(100, -99))).toBe(true);
    expect(segmentMeets(breast, at(0, 0), at(900, 350))).toBe(true);
    expect(segmentMeets(ell, at(1000, 1000), at(400, 400))).toBe(false);
    expect(segmentMeets(ell, at(400, 400), at(300, 300))).toBe(true);
  });

  it('a point is a way too', () => {
    expect(segmentMeets(breast, at(450, 100), at(450, 100))).toBe(true);
    expect(segmentMeets(breast, at(0, 100), at(0, 100))).toBe(false);
    expect(segmentMeets(breast, at(-9, 100), at(-9, 100))).toBe(false);
  });

  it('needs three corners', () => {
    expect(() => contains([at(0, 0), at(1, 1)], at(0, 0))).toThrow('polygon: needs at least 3 corners, got 2');
    expect(() => segmentMeets([], at(0, 0), at(1, 1))).toThrow(RangeError);
    expect(() => area([at(0, 0)])).toThrow(RangeError);
  });
});

/** Takes the rounding of a sample off, so that a point on the border is on the border. */
function round(x: number): number {
  return Math.round(x * 1e6) / 1e6;
}
