/**
 * What a slope does to a length: a rule or tape held out of square is always long.
 *
 * | statement | source | status |
 * |---|---|---|
 * | slope correction: s(1 - cos θ); h²/2s where it is gentle, h²/2s + h⁴/8s³ where it is not | "Tape correction (surveying)", https://en.wikipedia.org/wiki/Tape_correction_(surveying) | V: the formulas were read there |
 * | L 2000, h 20: 0.1000025; 1000, 10: 0.0500013; 600, 10: 0.0833391; 30 m, 1.2 m: 24.0096 | exact, L - sqrt(L² - h²); the project's list of check values, 5.4 | D |
 * | a tilted rule is long per 1000 mm by 0.0381 at 0.5°, 0.1523 at 1°, 0.6095 at 2°, 1.3723 at 3°, 3.8198 at 5° | exact, 1000 (1/cos θ - 1) | D |
 *
 * Tolerance: half a unit in the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { alongRule } from '../../src/survey/rule.ts';
import { acted, doneOf, middleOf, standing, surveyIn } from '../helpers/surveying.ts';

describe('a length held on a slope', () => {
  it.each([
    [2000, 20, 0.1000025, 7],
    [1000, 10, 0.0500013, 7],
    [600, 10, 0.0833391, 7],
    [30_000, 1200, 24.0096, 4],
  ])('L %d over h %d is long by %d', (length, rise, correction, digits) => {
    const level = Math.sqrt(length ** 2 - rise ** 2);
    const held = alongRule(level, [rise / level, 0]);
    expect(held).toBeCloseTo(length, 8);
    expect(Math.abs(held - level - correction)).toBeLessThan(0.5 * 10 ** -digits);
    expect(alongRule(level, [0, -rise / level])).toBeCloseTo(held, 9);
    // The published two terms.
    const terms = rise ** 2 / (2 * length) + rise ** 4 / (8 * length ** 3);
    expect(Math.abs(held - level - terms)).toBeLessThan(0.5 * 10 ** -4);
  });
});

const tilts = [
  [0.5, 0.0381],
  [1, 0.1523],
  [2, 0.6095],
  [3, 1.3723],
  [5, 3.8198],
] as const;
const slopeOf = (degrees: number) => Math.tan((degrees * Math.PI) / 180);

describe('a tilted rule, per 1000 mm', () => {
  it.each(tilts)('at %d° is long by %d', (degrees, by) => {
    for (const slopes of [
      [slopeOf(degrees), 0],
      [0, -slopeOf(degrees)],
      [0.6 * slopeOf(degrees), 0.8 * slopeOf(degrees)],
    ] as const)
      expect(Math.abs(alongRule(1000, slopes) - 1000 - by)).toBeLessThan(0.00005);
  });

  it.each(tilts)('so reads one that is held %d° out of square, by the act', (degrees, by) => {
    const survey = acted(surveyIn({ seed: 'cosine' }), ...standing);
    const place = { surface: 'back', xMm: 120, zMm: 900 } as const;
    const square = middleOf(doneOf(survey, { act: 'read', datum: 'F', place }));
    const tilted = middleOf(
      doneOf(survey, { act: 'read', datum: 'F', place, skewMmPerM: [0, 1000 * slopeOf(degrees)] }),
    );
    expect(Math.abs(1000 * (tilted / square - 1) - by)).toBeLessThan(0.00005);
  });
});
