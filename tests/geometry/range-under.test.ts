import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type HeightField, heightAt, type Rect } from '../../src/geometry/height-field.ts';
import { type Extreme, type Linear, rangeMax } from '../../src/geometry/range.ts';
import { rangeMaxUnder, type UpperLine } from '../../src/geometry/range-under.ts';
import { fieldOf, fieldWith, missedBy, rectsIn, spread } from '../helpers/height-fields.ts';

const seed = 4203;

/** A line through two shares of a rectangle's height at its ends; shares may lie outside it. */
function lineOver(rect: Rect, shares: readonly [number, number]): UpperLine {
  const at = (share: number) => rect.v0 + share * (rect.v1 - rect.v0);
  const perU = rect.u1 > rect.u0 ? (at(shares[1]) - at(shares[0])) / (rect.u1 - rect.u0) : 0;
  return { at: at(shares[0]) - perU * rect.u0, perU };
}

const shares = fc.tuple(
  fc.double({ min: -0.5, max: 1.5, noNaN: true }),
  fc.double({ min: -0.5, max: 1.5, noNaN: true }),
);
const linears: fc.Arbitrary<Linear> = fc.record({
  at: fc.double({ min: -50, max: 50, noNaN: true }),
  perU: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
  perV: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
});

/** What every answer must keep. */
function under(field: HeightField, rect: Rect, asked: { line: UpperLine; plus?: Linear }): Extreme | null {
  const found = rangeMaxUnder(field, rect, asked);
  if (!found) return null;
  const { line, plus } = asked;
  expect(found.bound).toBeGreaterThanOrEqual(found.value);
  expect(found.bound - found.value).toBeLessThanOrEqual(0.001);
  expect(found.u >= rect.u0 && found.u <= rect.u1 && found.v >= rect.v0 && found.v <= rect.v1).toBe(true);
  expect(found.v).toBeLessThanOrEqual(line.at + line.perU * found.u + 1e-9);
  const added = plus ? plus.at + plus.perU * found.u + plus.perV * found.v : 0;
  expect(found.value).toBeCloseTo(heightAt(field, found.u, found.v) + added, 9);
  return found;
}

describe(`the greatest value under a line (seed ${seed})`, () => {
  it('holds against plain dense sampling, less what a grid can miss', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), shares, linears, ([field, rect], share, plus) => {
        const line = lineOver(rect, share);
        const found = under(field, rect, { line, plus });
        const count = 41;
        let most = -Infinity;
        // Columns of places from the foot up to the line: places on the line are among them.
        for (const u of spread(rect.u0, rect.u1, count)) {
          const top = Math.min(rect.v1, line.at + line.perU * u);
          if (top < rect.v0) continue;
          for (const v of spread(rect.v0, top, count))
            most = Math.max(most, heightAt(field, u, v) + plus.at + plus.perU * u + plus.perV * v);
        }
        if (!found) {
          expect(most).toBe(-Infinity);
          return;
        }
        const step = (rect.u1 - rect.u0) / (count - 1);
        const missed = missedBy(field, step, (rect.v1 - rect.v0) / (count - 1));
        // Between two columns the line's end can be cut off: by a step along u, and what the field does over it.
        const cutOff = step * (0.6 + Math.abs(plus.perU)) + Math.abs(line.perU) * step * (0.6 + Math.abs(plus.perV));
        expect(most).toBeLessThanOrEqual(found.bound + 1e-9);
        expect(found.value).toBeLessThanOrEqual(most + missed + cutOff + 1e-8);
      }),
      { seed, numRuns: 250 },
    );
  });

  it('is the plain maximum where the line runs over the rectangle, and nothing where it runs under it', () => {
    fc.assert(
      fc.property(fieldWith(rectsIn), ([field, rect]) => {
        const whole = rangeMax(field, rect);
        expect(under(field, rect, { line: { at: rect.v1, perU: 0 } })?.value).toBe(whole.value);
        expect(under(field, rect, { line: { at: rect.v0 - 1, perU: 0 } })).toBeNull();
      }),
      { seed, numRuns: 60 },
    );
  });

  it('a leaning wall is highest on the line, where it is plain to work out', () => {
    const field = fieldOf({ countU: 16, countV: 26 }, (u, v) => 0.01 * v + 0.002 * u);
    const rect = { u0: 100, u1: 1200, v0: 200, v1: 2400 };
    // v <= 300 + 0.7 u: on the line the wall is 3 + 0.009 u, highest at the far end.
    expect(under(field, rect, { line: { at: 300, perU: 0.7 } })?.value).toBeCloseTo(3 + 0.009 * 1200, 3);
    // v <= 1500 - 0.7 u: on the line it is 15 - 0.005 u, highest at the near end.
    expect(under(field, rect, { line: { at: 1500, perU: -0.7 } })?.value).toBeCloseTo(15 - 0.005 * 100, 3);
  });

  it('takes few nets: a wall that is as high all along the line takes no more than a hundred triangles', () => {
    // Along v = 300 + 0.7 u the wall stays the same: 0.01 (v - 0.7 u).
    const field = fieldOf({ countU: 16, countV: 26 }, (u, v) => 0.01 * (v - 0.7 * u) + ((u * 7 + v * 13) % 5) / 20);
    const found = under(field, { u0: 100, u1: 1200, v0: 200, v1: 2400 }, { line: { at: 300, perU: 0.7 } });
    expect(found!.nodes).toBeLessThan(3000);
  });
});
