/**
 * Spreads: normal draws are normal, limits are kept, equal keys give equal draws.
 *
 * @source shares of a normal within k deviations: 68.27, 95.45, 99.73 % (NIST Technical Note 1297, Table B.1, last row);
 *   moments 0, 1, 0, 3 by definition
 */
import { describe, expect, it } from 'vitest';
import { drawKey, purpose } from '../../src/chance/keyed-draws.ts';
import { deviationOf, drawSpread, normal, type Spread } from '../../src/chance/spread.ts';
import { evenness, meanAndDeviation, tally } from '../helpers/statistics.ts';

const key = drawKey('spread');
const why = purpose('test/spread');
const count = 60_000;
const draws = Array.from({ length: count }, (_, i) => normal(key, why, i));

describe('normal draws, key "spread"', () => {
  it('have the moments of a normal', () => {
    const moment = (k: number) => draws.reduce((sum, x) => sum + x ** k, 0) / count;
    // Standard errors of the first four moments of n normal numbers: sqrt of 1, 2, 15, 96 over n.
    [0, 1, 0, 3].forEach((wanted, i) => {
      expect(Math.abs(moment(i + 1) - wanted)).toBeLessThan(4 * Math.sqrt([1, 2, 15, 96][i]! / count));
    });
  });

  it.each([
    [1, 0.6827],
    [2, 0.9545],
    [3, 0.9973],
  ])('lie within %i deviations as often as a normal does', (k, share) => {
    const seen = draws.filter((x) => Math.abs(x) <= k).length / count;
    expect(Math.abs(seen - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / count) + 0.00005);
  });

  it('fill the bins between deciles evenly', () => {
    // Deciles of a normal, from memory: 0.2533, 0.5244, 0.8416, 1.2816.
    const deciles = [-1.281552, -0.841621, -0.524401, -0.253347, 0, 0.253347, 0.524401, 0.841621, 1.281552];
    const bins = draws.map((x) => deciles.filter((d) => x >= d).length);
    expect(Math.abs(evenness(tally(bins, 10)))).toBeLessThan(4);
  });

  it('know nothing of the draw before, and are the same again', () => {
    const cross = draws.reduce((sum, x, i) => sum + x * (draws[i + 1] ?? 0), 0) / count;
    expect(Math.abs(cross)).toBeLessThan(4 / Math.sqrt(count));
    expect(normal(key, why, 17)).toBe(draws[17]);
    expect(normal(key, purpose('test/another'), 17)).not.toBe(draws[17]);
  });
});

describe('spreads', () => {
  it.each<Spread>([
    { kind: 'even', half: 2 },
    { kind: 'swinging', half: 2 },
    { kind: 'normal', u: 2 },
  ])('$kind: as wide as its deviation says', (spread) => {
    const drawn = Array.from({ length: 20_000 }, (_, index) => drawSpread(key, why, { index, spread }));
    const { mean, deviation } = meanAndDeviation(drawn);
    const u = deviationOf(spread);
    expect(Math.abs(mean)).toBeLessThan((4 * u) / Math.sqrt(20_000));
    expect(Math.abs(deviation - u)).toBeLessThan((4 * u) / Math.sqrt(2 * 20_000));
    if (spread.kind !== 'normal') expect(drawn.every((x) => Math.abs(x) <= 2)).toBe(true);
  });

  it('deviations as the GUM has them', () => {
    expect(deviationOf({ kind: 'even', half: 1 })).toBeCloseTo(1 / Math.sqrt(3), 9);
    expect(deviationOf({ kind: 'swinging', half: 1 })).toBeCloseTo(Math.SQRT1_2, 9);
  });
});
