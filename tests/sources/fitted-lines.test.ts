/**
 * The best line against certified and published fits.
 *
 * | statement | source | status |
 * |---|---|---|
 * | Norris, NoInt1, NoInt2 | NIST StRD, `nist-strd.ts` beside this | V: certified values |
 * | H.3, a thermometer's correction: y1 -0.1712 (0.0029), y2 0.00218 (0.00067), r -0.930, s 0.0035, b(30) -0.1494 (0.0041) | JCGM 100:2008 H.3, as transcribed in MSLNZ/GTC `docs/API/GUM_H3.rst`, with more digits there | V in it; recomputed |
 * | equal weights: 1.867 (0.465), 1.757 (0.120), covariance -0.050, chi-square 1.665; back from 10.5 (0.5): 4.913 (0.322) | ISO/TS 28037:2010 p. 13, as in GTC `test/test_fitting.py` | V in it; recomputed |
 * | unequal weights: 0.8852 (0.5297), 2.0570 (0.1779), covariance -0.0823, chi-square 4.131; back from 10.5 (1): 4.674 (0.533) | the same, p. 14 | V in it; recomputed |
 *
 * Certified values to 1e-11 of themselves, the others to half a unit in the last printed digit. A line through the origin is
 * the best line of the points and their mirror images: the scatter is the same, the slope surer by sqrt(2).
 */
import { describe, expect, it } from 'vitest';
import { alongLine, type BestLine, bestLine, type LinePoint } from '../../src/geometry/best-line.ts';
import { noInt1, noInt2, norris } from './nist-strd.ts';

const near = (seen: number, certified: number, share = 1e-11) =>
  expect(Math.abs(seen - certified)).toBeLessThan(share * Math.abs(certified));
const lineOf = (points: readonly LinePoint[]): BestLine => {
  const line = bestLine(points);
  if (!line) throw new Error('no line');
  return line;
};
const pointsOf = (pairs: readonly (readonly [number, number])[]) => pairs.map(([x, y]) => ({ x, y }));

describe('NIST StRD', () => {
  it('Norris', () => {
    const line = lineOf(pointsOf(norris.pairs));
    for (const what of ['at0', 'uAt0', 'slope', 'uSlope', 'scatter'] as const) near(line[what], norris[what]);
    expect(norris.pairs).toHaveLength(36);
  });

  it.each([
    ['NoInt1', noInt1],
    ['NoInt2', noInt2],
  ])('%s', (_name, set) => {
    const points = pointsOf(set.pairs);
    const line = lineOf([...points, ...points.map(({ x, y }) => ({ x: -x, y: -y }))]);
    expect(Math.abs(line.at0)).toBeLessThan(1e-12);
    near(line.slope, set.slope);
    near(line.uSlope * Math.SQRT2, set.uSlope);
    near(line.scatter, set.scatter);
  });
});

describe('GUM H.3', () => {
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const line = lineOf(t.map((x, i) => ({ x: x - 20, y: b[i]! })));

  it('the line', () => {
    near(line.at0, -0.17120379013135, 1e-12);
    near(line.uAt0, 0.00287759783516, 1e-11);
    near(line.slope, 0.0021826977398873, 1e-11);
    near(line.uSlope, 0.00066793877322783, 1e-11);
    expect((line.covariance / (line.uAt0 * line.uSlope)).toFixed(3)).toBe('-0.930');
    expect(line.scatter.toFixed(4)).toBe('0.0035');
    expect(line.freedom).toBe(9);
  });

  it('the correction at 30 °C', () => {
    const { y, u } = alongLine(line, 10);
    expect([y.toFixed(4), u.toFixed(4)]).toEqual(['-0.1494', '0.0041']);
  });
});

describe('ISO/TS 28037', () => {
  const weighed = (ys: readonly number[], us: readonly number[]) =>
    lineOf(ys.map((y, i) => ({ x: i + 1, y, u: us[i]! })));
  /** x where a line comes to y, and how sure that is, to first order. */
  const back = (line: BestLine, y: number, u: number) => {
    const x = (y - line.at0) / line.slope;
    return { x, u: Math.hypot(u, alongLine(line, x).u) / line.slope };
  };
  const chiSquare = (line: BestLine) => line.scatter ** 2 * line.freedom;

  it('p. 13, equal weights', () => {
    const line = weighed([3.3, 5.6, 7.1, 9.3, 10.7, 12.1], new Array(6).fill(0.5));
    expect(line.at0).toBeCloseTo(1.866667, 6);
    expect(line.slope).toBeCloseTo(1.757143, 6);
    expect(line.uAt0).toBeCloseTo(0.4654747, 7);
    expect(line.uSlope).toBeCloseTo(0.1195229, 7);
    expect(line.covariance).toBeCloseTo(-0.05, 3);
    expect(chiSquare(line)).toBeCloseTo(1.665, 3);
    const { x, u } = back(line, 10.5, 0.5);
    expect([x.toFixed(3), u.toFixed(3)]).toEqual(['4.913', '0.322']);
  });

  it('p. 14, unequal weights', () => {
    const line = weighed([3.2, 4.3, 7.6, 8.6, 11.7, 12.8], [0.5, 0.5, 0.5, 1, 1, 1]);
    expect(line.at0).toBeCloseTo(0.8852, 4);
    expect(line.slope).toBeCloseTo(2.057, 4);
    expect(line.uAt0).toBeCloseTo(0.5297081, 7);
    expect(line.uSlope).toBeCloseTo(0.177892, 6);
    expect(line.covariance).toBeCloseTo(-0.08227848, 8);
    expect(chiSquare(line)).toBeCloseTo(4.131, 3);
    const { x, u } = back(line, 10.5, 1);
    expect([x.toFixed(3), u.toFixed(3)]).toEqual(['4.674', '0.533']);
  });
});

describe('places that tell no direction', () => {
  it('one, or all at one x', () => {
    expect(bestLine([{ x: 1, y: 2 }])).toBeNull();
    expect(
      bestLine([
        { x: 1, y: 2 },
        { x: 1, y: 5 },
      ]),
    ).toBeNull();
  });
});
