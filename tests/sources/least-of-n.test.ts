/**
 * The least of several readings is too small: a carcass is worked out from the tightest offset, and among many readings
 * of one size the tightest is the one whose error is lowest.
 *
 * | statement | source | status |
 * |---|---|---|
 * | the mean of the greatest of n normal numbers, in deviations: n = 2 0.56419, 3 0.84628, 4 1.02938, 5 1.16296, 9 1.48501; of the least the same below | order statistics; 1/sqrt(π) for 2 and 3/(2 sqrt(π)) for 3 are exact; printed by H. L. Harter, 1961, and Pearson and Hartley | D; the two books M, from memory |
 *
 * It is held on our own readings: a flat plumb wall, one height after another at one depth, so that each reading is of the
 * same offset with a fresh error of eye and hand; the rule's own error is common to a room and taken out with the room's
 * mean over many readings. Those errors are bells of four bytes, rounded to a tenth, nearly but not quite normal: beside
 * the Monte Carlo error 0.02 deviations are allowed for that.
 */
import { describe, expect, it } from 'vitest';
import { meanAndDeviation } from '../helpers/statistics.ts';
import { acted, doneOf, middleOf, standing, surveyIn } from '../helpers/surveying.ts';

/** E[max of n N(0, 1)], by summing over the distribution: density times rank. */
function greatestOf(n: number): number {
  let [below, mean] = [0, 0];
  const step = 0.001;
  for (let x = -9; x < 9; x += step) {
    const mass = (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * step;
    mean += x * n * (below + mass / 2) ** (n - 1) * mass;
    below += mass;
  }
  return mean;
}

describe('the constants', () => {
  it.each([
    [2, 0.56419],
    [3, 0.84628],
    [4, 1.02938],
    [5, 1.16296],
    [9, 1.48501],
  ])('n = %d: %d', (n, printed) => {
    expect(Math.abs(greatestOf(n) - printed)).toBeLessThan(0.000005 + 1e-6);
  });
});

describe('on a flat wall, 700 rooms of 36 readings, seeds "least 0" to "least 699"', () => {
  const heights = Array.from({ length: 36 }, (_, i) => 300 + 40 * i);
  const rooms = Array.from({ length: 700 }, (_, i) => {
    const survey = acted(surveyIn({ seed: `least ${i}` }, { errors: true }), ...standing);
    const seen = heights.map((zMm) =>
      middleOf(doneOf(survey, { act: 'read', datum: 'S', place: { surface: 'left', yMm: 200, zMm } })),
    );
    const { mean } = meanAndDeviation(seen);
    return seen.map((mm) => mm - mean);
  });
  // The room's mean took one degree of freedom of 36.
  const { deviation } = meanAndDeviation(rooms.flat());
  const own = deviation * Math.sqrt(36 / 35);

  it('readings deviate by about a tenth of a millimetre', () => {
    expect(own).toBeGreaterThan(0.08);
    expect(own).toBeLessThan(0.16);
  });

  it.each([
    [3, 0.84628],
    [9, 1.48501],
  ])('the least of %d is low by %d deviations in the mean', (n, printed) => {
    const leasts = rooms.flatMap((seen) =>
      Array.from({ length: 36 / n }, (_, g) => Math.min(...seen.slice(g * n, (g + 1) * n)) / own),
    );
    const { mean, deviation: spread } = meanAndDeviation(leasts);
    const monteCarlo = spread / Math.sqrt(leasts.length);
    expect(Math.abs(mean + printed)).toBeLessThan(4 * monteCarlo + 0.02);
    // The tolerance is tight enough to tell the constants apart.
    expect(4 * monteCarlo + 0.02).toBeLessThan(0.09);
  });
});
