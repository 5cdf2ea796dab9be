/**
 * Uncertainty budgets against published worked examples.
 *
 * | statement | source | status |
 * |---|---|---|
 * | H.1, end gauge: l = 50.000 838 mm, u_c 32 nm (31.66), components 25, 9.7, 2.9, 16.6, effective degrees of freedom 16, U99 = 93 nm | JCGM 100:2008 (GUM) H.1, as transcribed in open test suites (MSLNZ/GTC `docs/API/GUM_H1.rst`, sandialabs/suncal `test/test_examples.py`) | V in those; recomputed |
 * | H.1 with the terms of second order: 34 nm | GUM H.1.7, from memory | M |
 * | its variance in full, 1142.9: that of a product of independent inputs is the product of their mean squares | derived; 4,000,000 draws by another library: 33.82 nm | D |
 * | H.2: R 127.732, 0.071; X 219.847, 0.295; Z 254.260, 0.236; r -0.59, -0.49, 0.99 | GUM H.2, as in the same suites (`docs/API/GUM_H2.rst`) | V in those; recomputed |
 * | sums of four N(0, 1) and of four rectangular of deviation 1: u 2.0; 95 in 100 within 3.92 and 3.88 | JCGM 101:2008 9.2.2 and 9.2.3, Tables 2 and 3, as in suncal `test_montecarlo` | V in it; 3.8794 exactly, derived |
 * | y = ln x, x even on 0.1 to 1.1: first order -0.511, u 0.481; by draws -0.665, u 0.606 | NPL DEM-ES-011 9.2, as in suncal's tests | V in it; recomputed |
 * | Welch-Satterthwaite: 0.57 (9), 0.25 (no end): 12.8 | suncal's tests | V in it |
 * | expansion (L1 - L0) / (L0 (T1 - T0)): 1.7266e-5, u 1.76e-6 | after NIST TN 1900, E13, as in suncal's tests | V in it |
 *
 * Tolerance: half a unit in the last printed digit; by draws, four standard errors of so many.
 */
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../src/chance/keyed-draws.ts';
import { alike, type Budget, byDraws, firstOrder, type Input, secondOrderU } from '../../src/survey/budget.ts';
import { meanAndDeviation } from '../helpers/statistics.ts';

const input = (name: string, value: number, u: number, freedom?: number): Input => ({
  name,
  value,
  spread: { kind: 'normal', u },
  ...(freedom === undefined ? {} : { freedom }),
});
const even = (name: string, value: number, half: number, freedom?: number): Input => ({
  ...input(name, value, 0, freedom),
  spread: { kind: 'even', half },
});

/** In nm and °C. */
const endGauge: Budget = {
  inputs: [
    input('standard', 50_000_623, 25, 18),
    input('readings', 215, 5.8, 24),
    input('comparator, random', 0, 3.9, 5),
    input('comparator, systematic', 0, 6.7, 8),
    even('expansion', 11.5e-6, 2e-6),
    even('expansion, difference', 0, 1e-6, 50),
    even('temperature, difference', 0, 0.05, 2),
    input('temperature, mean', -0.1, 0.2),
    { name: 'temperature, cyclic', value: 0, spread: { kind: 'swinging', half: 0.5 } },
  ],
  model: ([s = 0, d0 = 0, d1 = 0, d2 = 0, a = 0, da = 0, dt = 0, mean = 0, cyclic = 0]) =>
    s + d0 + d1 + d2 - s * (da * (mean + cyclic) + a * dt),
};

describe('GUM H.1, an end gauge', () => {
  const first = firstOrder(endGauge);
  const brings = (name: string) => Math.abs(first.parts.find((p) => p.name === name)?.u ?? NaN);

  it('to first order: 50.000 838 mm, 32 nm, 16 degrees of freedom, 93 nm at 99 %', () => {
    expect(Math.round(first.value)).toBe(50_000_838);
    expect(first.u).toBeCloseTo(31.66, 2);
    expect(Math.round(first.u)).toBe(32);
    expect(Math.floor(first.freedom)).toBe(16);
    // t at 99 % and 16 degrees of freedom is 2.92 (NIST TN 1297, Table B.1).
    expect(Math.round(2.92 * Math.round(first.u))).toBe(93);
  });

  it('each component as printed', () => {
    expect(brings('standard')).toBeCloseTo(25, 5);
    expect(Math.hypot(brings('readings'), brings('comparator, random'), brings('comparator, systematic'))).toBeCloseTo(
      9.7,
      1,
    );
    expect(brings('expansion, difference')).toBeCloseTo(2.88679, 4);
    expect(brings('temperature, difference')).toBeCloseTo(16.599, 3);
    for (const name of ['expansion', 'temperature, mean', 'temperature, cyclic'])
      expect(brings(name)).toBeLessThan(1e-6);
  });

  it('with the terms of second order: 34 nm, which first order misses', () => {
    expect(Math.round(secondOrderU(endGauge))).toBe(34);
    const [standard, da, dt, a] = [50_000_623, 1e-6 ** 2 / 3, 0.05 ** 2 / 3, 11.5e-6 ** 2 + 2e-6 ** 2 / 3];
    const theta = 0.1 ** 2 + 0.2 ** 2 + 0.5 ** 2 / 2;
    const square = 25 ** 2 + 5.8 ** 2 + 3.9 ** 2 + 6.7 ** 2 + standard ** 2 * (da * theta + a * dt);
    expect(secondOrderU(endGauge)).toBeCloseTo(Math.sqrt(square), 5);
  });

  it('by 100,000 draws: 33.8 nm, more than first order tells', () => {
    const drawn = byDraws(endGauge, { key: drawKey('gum h.1'), count: 100_000 });
    expect(Math.abs(drawn.mean - 50_000_838)).toBeLessThan((4 * 33.8) / Math.sqrt(100_000) + 0.5);
    expect(Math.abs(drawn.u - 33.8)).toBeLessThan((4 * 33.8) / Math.sqrt(200_000));
    expect(drawn.u).toBeGreaterThan(first.u + 1.5);
  });
});

describe('GUM H.2, three results of the same readings', () => {
  const readings = [
    [5.007, 4.994, 5.005, 4.99, 4.999],
    [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
    [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  ];
  const means = readings.map(meanAndDeviation);
  const correlation = readings.map((a, i) =>
    readings.map((b, j) => {
      const cross = a.reduce((sum, x, k) => sum + (x - means[i]!.mean) * (b[k]! - means[j]!.mean), 0);
      return cross / (a.length - 1) / (means[i]!.deviation * means[j]!.deviation);
    }),
  );
  const inputs = means.map(({ mean, deviation }, i) => input('VIφ'[i]!, mean, deviation / Math.sqrt(5)));
  const budget = (model: Budget['model']): Budget => ({ inputs, model, correlation });
  const r: Budget['model'] = ([v = 0, i = 0, phi = 0]) => (v / i) * Math.cos(phi);
  const x: Budget['model'] = ([v = 0, i = 0, phi = 0]) => (v / i) * Math.sin(phi);
  const z: Budget['model'] = ([v = 0, i = 0]) => v / i;

  it('the inputs depend on each other as printed', () => {
    expect([correlation[0]![1], correlation[0]![2], correlation[1]![2]].map((c) => Number(c!.toFixed(2)))).toEqual([
      -0.36, 0.86, -0.65,
    ]);
  });

  it.each([
    ['R', r, 127.732, 0.071],
    ['X', x, 219.847, 0.2955],
    ['Z', z, 254.26, 0.236],
  ] as const)('%s', (_name, model, value, u) => {
    const first = firstOrder(budget(model));
    expect(Math.abs(first.value - value)).toBeLessThan(0.0005);
    expect(Math.abs(first.u - u)).toBeLessThan(0.0005);
  });

  it('and depend on each other: -0.59, -0.49, +0.99', () => {
    expect([alike(budget(r), x), alike(budget(r), z), alike(budget(x), z)].map((c) => Number(c.toFixed(2)))).toEqual([
      -0.59, -0.49, 0.99,
    ]);
  });
});

describe('JCGM 101 9.2, a sum of four', () => {
  const sum = (of: Input): Budget => ({ inputs: [of, of, of, of], model: (v) => v.reduce((all, x) => all + x, 0) });
  const count = 100_000;

  it.each([
    ['normal', sum(input('x', 0, 1)), 3.92, 3.9199],
    ['rectangular', sum(even('x', 0, Math.sqrt(3))), 3.88, 2 * Math.sqrt(3) * (2 - (3 / 5) ** 0.25)],
  ] as const)('%s', (_name, budget, printed, end) => {
    const drawn = byDraws(budget, { key: drawKey(`sum of four ${printed}`), count });
    expect(firstOrder(budget).u).toBeCloseTo(2, 9);
    expect(Math.abs(end - printed)).toBeLessThan(0.005);
    expect(Math.abs(drawn.mean)).toBeLessThan((4 * 2) / Math.sqrt(count));
    expect(Math.abs(drawn.u - 2)).toBeLessThan((4 * 2) / Math.sqrt(2 * count));
    // A share p ends where so many lie beyond, to sqrt(p (1 - p) / n) over the density there: some 0.03 a unit.
    const slack = (4 * Math.sqrt((0.025 * 0.975) / count)) / 0.028;
    for (const at of [0 - drawn.low, drawn.high]) expect(Math.abs(at - end)).toBeLessThan(slack);
  });

  it('the ends of the two lie apart by more than that', () => {
    const [normal, rectangular] = [sum(input('x', 0, 1)), sum(even('x', 0, Math.sqrt(3)))].map((b, i) => {
      const drawn = byDraws(b, { key: drawKey(`apart ${i}`), count: 200_000 });
      return (drawn.high - drawn.low) / 2;
    });
    expect(normal! - rectangular!).toBeGreaterThan(0.015);
  });
});

describe('terms of second order', () => {
  it('x² z, both 1 and u: 5 u² + 8 u⁴, the variance in full but for 3 u⁶ (moments of a normal, derived)', () => {
    const u = 0.1;
    const budget: Budget = { inputs: [input('x', 1, u), input('z', 1, u)], model: ([x = 0, z = 0]) => x * x * z };
    expect(firstOrder(budget).u ** 2).toBeCloseTo(5 * u ** 2, 9);
    expect(secondOrderU(budget) ** 2).toBeCloseTo(5 * u ** 2 + 8 * u ** 4, 9);
  });

  it('are not for inputs that depend on each other', () => {
    const budget: Budget = { inputs: [input('x', 1, 1)], model: ([x = 0]) => x, correlation: [[1]] };
    expect(() => secondOrderU(budget)).toThrow(RangeError);
    expect(() => byDraws(budget, { key: drawKey('none'), count: 2 })).toThrow(RangeError);
  });
});

describe('where first order fails', () => {
  it('ln x, x even on 0.1 to 1.1', () => {
    const budget: Budget = { inputs: [even('x', 0.6, 0.5)], model: ([x = 0]) => Math.log(x) };
    expect(firstOrder(budget).value).toBeCloseTo(-0.511, 3);
    expect(Math.abs(firstOrder(budget).u - 0.481)).toBeLessThan(0.0015);
    const drawn = byDraws(budget, { key: drawKey('ln x'), count: 100_000 });
    expect(Math.abs(drawn.mean + 0.665)).toBeLessThan(0.0005 + (4 * 0.606) / Math.sqrt(100_000));
    expect(Math.abs(drawn.u - 0.606)).toBeLessThan(0.009);
  });

  it('degrees of freedom: 0.57 of 9 and 0.25 of no end are 12.8', () => {
    const budget: Budget = { inputs: [input('a', 0, 0.57, 9), input('b', 0, 0.25)], model: ([a = 0, b = 0]) => a + b };
    expect(firstOrder(budget).freedom).toBeCloseTo(12.8, 1);
  });

  it('an expansion coefficient', () => {
    const budget: Budget = {
      inputs: [
        input('L0', 1.4999, 0.0001, 3),
        input('T0', 288.15, 0.02, 3),
        input('L1', 1.5021, 0.0002, 3),
        input('T1', 373.1, 0.05, 3),
      ],
      model: ([l0 = 0, t0 = 0, l1 = 0, t1 = 0]) => (l1 - l0) / (l0 * (t1 - t0)),
    };
    expect(firstOrder(budget).value).toBeCloseTo(1.7266e-5, 9);
    expect(Math.abs(firstOrder(budget).u - 1.76e-6)).toBeLessThan(0.005e-6);
  });
});
