/** Dashes and dots along a path. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dashed, dotted } from '../../src/drawing/dash.ts';

const place = fc.integer({ min: -300, max: 300 });
const paths = fc.array(fc.tuple(place, place), { minLength: 2, maxLength: 8 }).map((p) => p.flat());
const patterns = fc
  .array(fc.integer({ min: 1, max: 20 }), { minLength: 2, maxLength: 4 })
  .filter((p) => p.length % 2 === 0);

function lengthOf(points: readonly number[]): number {
  let sum = 0;
  for (let i = 2; i < points.length; i += 2)
    sum += Math.hypot((points[i] ?? 0) - (points[i - 2] ?? 0), (points[i + 1] ?? 0) - (points[i - 1] ?? 0));
  return sum;
}

/** How much of a length a pattern inks. */
function inked(long: number, pattern: readonly number[]): number {
  const whole = pattern.reduce((a, b) => a + b, 0);
  let left = long % whole;
  let sum = Math.floor(long / whole) * pattern.filter((_, i) => i % 2 === 0).reduce((a, b) => a + b, 0);
  for (const [i, p] of pattern.entries()) {
    const go = Math.min(left, p);
    if (i % 2 === 0) sum += go;
    left -= go;
  }
  return sum;
}

test('pieces by a pattern: 10 on, 5 off', () => {
  const pieces = dashed([0, 0, 100, 0], [10, 5]);
  expect(pieces).toHaveLength(7);
  expect(pieces[1]).toEqual([15, 0, 25, 0]);
});

test('the pattern runs on round a corner', () => {
  expect(dashed([0, 0, 10, 0, 10, 10], [15, 5])).toEqual([
    [0, 0, 10, 0],
    [10, 0, 10, 5],
  ]);
});

test('as much is inked as the pattern says, of any path', () => {
  fc.assert(
    fc.property(paths, patterns, (points, pattern) => {
      const sum = dashed(points, pattern).reduce((s, [x0, y0, x1, y1]) => s + Math.hypot(x1 - x0, y1 - y0), 0);
      expect(sum).toBeCloseTo(inked(lengthOf(points), pattern), 4);
    }),
  );
});

test('dots stand evenly along a path, from its beginning', () => {
  expect(dotted([0, 0, 10, 0, 10, 10], 4)).toEqual([0, 0, 4, 0, 8, 0, 10, 2, 10, 6, 10, 10]);
  fc.assert(
    fc.property(paths, fc.integer({ min: 2, max: 20 }), (points, apart) => {
      expect(dotted(points, apart).length / 2).toBe(Math.floor(lengthOf(points) / apart + 1e-9) + 1);
    }),
  );
});

test('a pattern that cannot be is told', () => {
  expect(() => dashed([0, 0, 1, 1], [3])).toThrow('dash: pattern must be an even count of lengths > 0, got 3');
  expect(() => dashed([0, 0, 1, 1], [3, 0])).toThrow(RangeError);
  expect(() => dotted([0, 0, 1, 1], 0)).toThrow('dots: must be > 0 px apart, got 0');
});
