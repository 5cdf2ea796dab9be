/**
 * Two marks and the line through them: how a slip grows beyond a short baseline, and what a level that turns beside its
 * lines does when it is lined up.
 *
 * | statement | source | status |
 * |---|---|---|
 * | marks slipped by 0.5 mm (deviation), the line looked at 2.4 m from the first: 5.3 mm at 300 apart, 2.5 at 600, 1.1 at 1200, 0.6 at 2000 | the project's job map, part A3, by a model of its own | tested there (T) |
 * | the same in closed form: s sqrt((1 - t)² + t²), t = far / apart | derived | D |
 * | a crossing point o beside its axis, half-way between ahead and to the right, is carried o / sqrt(2) (sin t + 1 - cos t) off its line by a turn t | derived | D |
 * | and the whole way 2 o sin(t / 2) | elementary: a chord | D |
 *
 * Tolerance: half a unit in the last printed digit; by draws four standard errors.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawKey, purpose } from '../../src/chance/keyed-draws.ts';
import { normal } from '../../src/chance/spread.ts';
import { bestLine } from '../../src/geometry/best-line.ts';
import { signedDistance } from '../../src/geometry/plane.ts';
import { aimLevel, type Pose, planeOf, turnLevel } from '../../src/survey/level.ts';
import { planeThrough } from '../../src/survey/pencil-line.ts';

const seed = 20_417;
const farMm = 2400;
const slipMm = 0.5;

/** How far a line through two marks along y, slipped sideways, lies from x = 0 at a distance from the first. */
function offAt(apart: number, slips: readonly [number, number], far: number): number {
  const plane = planeThrough('S', { x: slips[0], y: 0, z: 0 }, { x: slips[1], y: apart, z: 0 });
  if (!plane) throw new Error('no line');
  return 0 - signedDistance(plane, { x: 0, y: far, z: 700 }) / plane.nx;
}

describe('a short baseline', () => {
  it.each([
    [300, 5.3],
    [600, 2.5],
    [1200, 1.1],
    [2000, 0.6],
  ])('marks %i apart: %f mm at 2.4 m, as printed', (apart, printed) => {
    const t = farMm / apart;
    const form = slipMm * Math.hypot(1 - t, t);
    expect(Math.abs(form - printed)).toBeLessThan(0.05);
    const [key, why, count] = [drawKey(`baseline ${apart}`), purpose('test/baseline'), 8000];
    let square = 0;
    for (let i = 0; i < count; i++) {
      const slips = [slipMm * normal(key, why, 2 * i), slipMm * normal(key, why, 2 * i + 1)] as const;
      square += offAt(apart, slips, farMm) ** 2;
    }
    expect(Math.abs(Math.sqrt(square / count) - form)).toBeLessThan((4 * form) / Math.sqrt(2 * count));
  });

  it('is (1 - t) of the one slip and t of the other, between the marks and beyond them', () => {
    const slip = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        slip,
        slip,
        fc.integer({ min: 60, max: 3000 }),
        fc.integer({ min: -2000, max: 5000 }),
        (a, b, apart, far) => {
          const t = far / apart;
          expect(offAt(apart, [a, b], far)).toBeCloseTo((1 - t) * a + t * b, 6);
        },
      ),
      { seed },
    );
  });

  it('the best line through two marks is the line through them, as sure as that', () => {
    const line = bestLine([
      { x: 0, y: 0.4, u: slipMm },
      { x: 300, y: -0.2, u: slipMm },
    ])!;
    expect(line.at0 + line.slope * farMm).toBeCloseTo(offAt(300, [0.4, -0.2], farMm), 9);
    const square = line.uAt0 ** 2 + farMm ** 2 * line.uSlope ** 2 + 2 * farMm * line.covariance;
    expect(Math.sqrt(square)).toBeCloseTo(slipMm * Math.hypot(1 - farMm / 300, farMm / 300), 9);
  });
});

describe('a level that turns beside its lines', () => {
  const pose = (pivotMm: number): Pose => ({
    body: { faults: null, pivotMm },
    at: { x: 0, y: 0, z: 1200 },
    facing: { x: 0, y: 1 },
  });
  const pivot = fc.integer({ min: 1, max: 60 });
  const turn = fc.double({ min: -0.3, max: 0.3, noNaN: true });

  it('carries its crossing point along a chord, and off its own line by the closed form', () => {
    fc.assert(
      fc.property(pivot, turn, (o, t) => {
        const after = turnLevel(pose(o), { slope: Math.tan(t), quarters: 0 });
        expect(Math.hypot(after.at.x, after.at.y)).toBeCloseTo(Math.abs(2 * o * Math.sin(t / 2)), 9);
        // F through the crossing point, after the turn: how far it runs beside where that stood before.
        const beside = signedDistance(planeOf(after, 'F'), { x: 0, y: 0, z: 0 });
        expect(Math.abs(beside)).toBeCloseTo(Math.abs((o / Math.SQRT2) * (Math.sin(t) + 1 - Math.cos(t))), 9);
      }),
      { seed },
    );
  });

  it('lined up on a mark 10 m away by turning alone, it no longer passes the near mark; one that turns about it does', () => {
    const far = { x: 10_000, y: -400, z: 1200 };
    const off = (o: number) =>
      Math.abs(signedDistance(planeOf(aimLevel(pose(o), 'F', { at: far, missMm: 0 })!, 'F'), { x: 0, y: 0, z: 0 }));
    expect(off(0)).toBeLessThan(1e-9);
    const t = Math.atan(400 / 10_000);
    // The turn is the one that was off to within what the crossing point itself has moved: o² / 10 m.
    for (const o of [20, 40, 60])
      expect(Math.abs(off(o) - (o / Math.SQRT2) * (Math.sin(t) + 1 - Math.cos(t)))).toBeLessThan((o * o) / 10_000);
  });
});
