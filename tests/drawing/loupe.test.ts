import { afterEach, expect, test } from 'vitest';
import { layoutLoupe, offCentre, pxPerMm } from '../../src/drawing/loupe.ts';
import { speakIn, typedLength } from '../../src/recess/lengths.ts';

afterEach(() => speakIn('mm'));

const box = { width: 216, height: 216 };

test('graduations stand a millimetre apart, the edges where they were seen', () => {
  const { graduations, edges } = layoutLoupe({ n: 12, edgesMm: [591.7, 593.5] }, box);
  const decade = graduations.find((g) => g.number === '590');
  if (!decade) throw new Error('no decade in sight');
  expect(edges[0]).toBeCloseTo(decade.x + 1.7 * pxPerMm(box), 9);
  expect(edges[1]).toBeCloseTo(decade.x + 3.5 * pxPerMm(box), 9);
  for (const [i, g] of graduations.entries())
    if (i > 0) expect(g.x - (graduations[i - 1]?.x ?? 0)).toBeCloseTo(pxPerMm(box), 9);
});

test('a whole ten is always in sight, its number within the circle, and both edges', () => {
  for (let n = 1; n < 60; n++)
    for (const low of [0.4, 99.9, 594.2, 996.1, 1500.5]) {
      const { faceY, graduations, edges } = layoutLoupe({ n, edgesMm: [low, low + 2.2] }, box);
      // Numbers of four figures are some 52 px wide; their feet stand 30 px below the graduation.
      const within = (g: (typeof graduations)[number]) =>
        Math.hypot(Math.abs(g.x - 108) + 26, faceY + g.length + 30 - 108) <= 108;
      expect(graduations.some((g) => !g.small && g.number !== null && within(g))).toBe(true);
      expect(edges[0]).toBeGreaterThan(0);
      expect(edges[1]).toBeLessThan(box.width);
    }
});

test('the loupe’s own middle never falls on the line’s', () => {
  for (let n = 1; n < 60; n++) {
    expect(Math.abs(offCentre(n))).toBeGreaterThanOrEqual(1);
    const { edges } = layoutLoupe({ n, edgesMm: [500.2, 501.8] }, box);
    expect(Math.abs((edges[0] + edges[1]) / 2 - box.width / 2)).toBeGreaterThan(8);
  }
});

test.each(['in-16', 'in-32'] as const)('%s: each graduation a part of an inch, longer for a larger part', (units) => {
  speakIn(units);
  const parts = units === 'in-16' ? 16 : 32;
  for (let n = 1; n < 60; n++)
    for (const low of [0.4, 99.9, 481, 996.1, 1500.5]) {
      const { graduations, edges } = layoutLoupe({ n, edgesMm: [low, low + 2.2] }, box);
      const named = graduations.filter((g) => g.number !== null);
      expect(named.length, `${low}`).toBeGreaterThan(0);
      for (const g of named) {
        const mm = typedLength(g.number ?? '', units) ?? Number.NaN;
        expect(g.x - edges[0]).toBeCloseTo((mm - low) * pxPerMm(box), 6);
        expect(g.small).toBe(!Number.isInteger(mm / 25.4));
      }
      for (const [i, g] of graduations.entries())
        if (i > 0) expect(g.x - (graduations[i - 1]?.x ?? 0)).toBeCloseTo((25.4 / parts) * pxPerMm(box), 6);
      const finest = Math.min(...graduations.map((g) => g.length));
      expect(named.every((g) => g.length > finest)).toBe(true);
    }
});
