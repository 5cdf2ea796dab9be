/**
 * Coverage factors: that k = 2, which the working-out states, is for 95.45 % and many degrees of freedom.
 *
 * | statement | source | status |
 * |---|---|---|
 * | k for 68.27, 90, 95, 95.45, 99 and 99.73 % at so many degrees of freedom; 2.000 for 95.45 % and no end of them | NIST Technical Note 1297, 1994 edition, Table B.1 (as GUM, Table G.2), https://www.nist.gov/physical-measurement-laboratory/nist-tn-1297-guidelines-appendix-b-table-b1 | V: the publisher's page |
 *
 * What the working-out adds up are limits and deviations that the kit states, not scatter of a few readings: there the
 * last row counts. Tolerance: half a unit in the last printed digit of a factor.
 */
import { describe, expect, it } from 'vitest';
import type { Act } from '../../src/survey/act.ts';
import { uncertaintyWords } from '../../src/survey/uncertainty-words.ts';
import { workOutSize } from '../../src/survey/working-out.ts';
import { acted, doneOf, standing, surveyIn } from '../helpers/surveying.ts';

const shares = [0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973];
/** Degrees of freedom, then a factor for each share. */
const table: readonly (readonly [number, readonly number[]])[] = [
  [1, [1.84, 6.31, 12.71, 13.97, 63.66, 235.8]],
  [2, [1.32, 2.92, 4.3, 4.53, 9.92, 19.21]],
  [5, [1.11, 2.02, 2.57, 2.65, 4.03, 5.51]],
  [10, [1.05, 1.81, 2.23, 2.28, 3.17, 3.96]],
  [20, [1.03, 1.72, 2.09, 2.13, 2.85, 3.42]],
  [50, [1.01, 1.68, 2.01, 2.05, 2.68, 3.16]],
  [100, [1.005, 1.66, 1.984, 2.025, 2.626, 3.077]],
];
const last = [1, 1.645, 1.96, 2, 2.576, 3];

/** Share of a Student-t within k either way, by summing its density; of a normal where there is no end of freedom. */
function within(k: number, freedom: number): number {
  const density = (t: number) =>
    freedom === Infinity ? Math.exp((-t * t) / 2) : (1 + (t * t) / freedom) ** (-(freedom + 1) / 2);
  // t = tan φ brings the long tails near.
  const sum = (to: number) => {
    const steps = 4000;
    let total = 0;
    for (let i = 0; i < steps; i++) {
      const angle = (to * (i + 0.5)) / steps;
      total += density(Math.tan(angle)) / Math.cos(angle) ** 2;
    }
    return (total * to) / steps;
  };
  return sum(Math.atan(k)) / sum(Math.PI / 2);
}

describe('the table', () => {
  it.each(table)('%d degrees of freedom', (freedom, factors) => {
    factors.forEach((k, i) => {
      // Printed with two decimals, three in the last of the finite rows.
      const half = freedom === 100 ? 0.0005 : 0.005;
      // The shares of 1, 2 and 3 deviations are themselves printed to four digits.
      expect(within(k - half, freedom)).toBeLessThan(shares[i]! + 0.00005);
      expect(within(k + half, freedom)).toBeGreaterThan(shares[i]! - 0.00005);
    });
  });

  it('no end of them', () => {
    last.forEach((k, i) => {
      expect(within(k - 0.0005, Infinity)).toBeLessThan(shares[i]! + 0.00005);
      expect(within(k + 0.0005, Infinity)).toBeGreaterThan(shares[i]! - 0.00005);
    });
  });

  it('k = 2 covers 95.45 % of many, and less of few', () => {
    expect(Math.abs(within(2, Infinity) - 0.9545)).toBeLessThan(0.00005);
    expect(within(2, 50)).toBeLessThan(0.9545);
    expect(within(2, 4)).toBeLessThan(0.9);
  });
});

describe('what the working-out says', () => {
  it('is k = 2.000: twice the standard uncertainty, rounded up to the half millimetre', () => {
    for (const u of [0.25, 0.5, 1.25, 3])
      expect(uncertaintyWords({ uMm: u })).toContain(`about ${last[3]! * u} either way`);
    expect(uncertaintyWords({ uMm: 1.26 })).toContain('about 3 either way');
  });

  it('holds: 2 u covers a width of 1000, two offsets read and written to the half, in at least 93 of 100 of 600 rooms, seeds "cover 0" to "cover 599"', () => {
    let covered = 0;
    for (let i = 0; i < 600; i++) {
      let survey = acted(surveyIn({ seed: `cover ${i}` }, { errors: true }), ...standing);
      for (const surface of ['left', 'right'] as const) {
        const act: Act = { act: 'read', datum: 'S', place: { surface, yMm: 200, zMm: 900 } };
        const [near, far] = doneOf(survey, act).edgesMm!;
        survey = acted(survey, act);
        survey = acted(survey, {
          act: 'book',
          what: 'offset',
          valueMm: Math.round(near + far) / 2,
          datum: 'S',
          place: act.place,
        });
      }
      const { offsetsMm, uMm } = workOutSize(survey, 'carcass-width');
      if (Math.abs(offsetsMm! - 1000) <= 2 * uMm!) covered++;
    }
    expect(covered / 600).toBeGreaterThanOrEqual(0.93);
  });
});
