/**
 * Checks of the instrument against published worked examples and closed forms.
 *
 * - Two-peg test: three worked examples from a public question bank and a public lecture (A-B 80 m; level 25 m from A and
 *   50 m from B; C-D 100 m, its inputs published, its answer by the formula), inputs and answers as collected in the
 *   project's published checks, part 3.1. Tolerance: half a unit in the last printed digit.
 * - Reversal: two walls D apart, turned round, show 2 D e; D = 5 m and 0.3 mm/m give 3 mm (part 3.2). An upright line over a
 *   height h leans h tan e from a plumb bob, so from both sides 2 h e.
 * - 90°: 3-4-5 with legs 900 and 1200: 1493.70 at 89.5°, 1500 at 90°, 1506.27 at 90.5° (part 6.3).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { errorShown, practised } from '../../src/survey/instrument-check.ts';
import { type Pose, planeOf } from '../../src/survey/level.ts';
import type { Faults, LevelBody } from '../../src/survey/level-body.ts';
import { acted, doneOf, standing, surveyIn } from '../helpers/surveying.ts';

const noFaults: Faults = { levelFore: 0, levelSide: 0, plumbF: 0, plumbS: 0, square: 0 };
const body = (faults: Partial<Faults>, pivotMm = 0): LevelBody => ({ faults: { ...noFaults, ...faults }, pivotMm });

/** What a staff reads, m, at a peg: a level at a height over a datum, so far from the peg, turned to face it. */
function staff(e: number, from: { heightM: number; farM: number; pegM: number }): number {
  const pose: Pose = {
    body: body({ levelFore: e }),
    at: { x: 0, y: 0, z: from.heightM * 1000 },
    facing: { x: 0, y: 1 },
  };
  const plane = planeOf(pose, 'L');
  return (plane.c - plane.ny * from.farM * 1000) / plane.nz / 1000 - from.pegM;
}

describe('two-peg test', () => {
  it('A-B 80 m: 1.32 and 1.56 from the middle, 1.11 and 1.39 from 10 m behind A; correct 1.345', () => {
    const e = 0.05 / 100;
    // Peg A is the datum; from the middle both rise alike, so B lies 0.24 lower.
    const mid = 1.32 - e * 40;
    expect(staff(e, { heightM: mid, farM: 40, pegM: 0 })).toBeCloseTo(1.32, 9);
    expect(staff(e, { heightM: mid, farM: 40, pegM: -0.24 })).toBeCloseTo(1.56, 9);
    const second = 1.11 - e * 10;
    expect(staff(e, { heightM: second, farM: 10, pegM: 0 })).toBeCloseTo(1.11, 9);
    const b = staff(e, { heightM: second, farM: 90, pegM: -0.24 });
    expect(b).toBeCloseTo(1.39, 9);
    expect(Math.abs(b - e * 90 - 1.345)).toBeLessThan(0.0005);
  });

  it('25 m from A, 50 m from B: a difference of 0.630 is seen as 0.615, so 0.060 m in 100 m', () => {
    const e = 0.06 / 100;
    const b = staff(e, { heightM: 2.847 - e * 50, farM: 50, pegM: 0 });
    const a = staff(e, { heightM: 2.847 - e * 50, farM: 25, pegM: -0.63 });
    expect(b).toBeCloseTo(2.847, 9);
    expect(a - b).toBeCloseTo(0.615, 9);
  });

  it('C-D 100 m: 2.0 and 3.0, then 1.50 and 2.75 at 120 and 20 m: -2.5 mm/m, correct 1.80 and 2.80', () => {
    const e = -2.5 / 1000;
    const heightM = 1.5 - e * 120;
    expect(staff(e, { heightM, farM: 120, pegM: 0 })).toBeCloseTo(1.5, 9);
    const d = staff(e, { heightM, farM: 20, pegM: -1 });
    expect(d).toBeCloseTo(2.75, 9);
    expect([1.5 - e * 120, d - e * 20].map((m) => Number(m.toFixed(3)))).toEqual([1.8, 2.8]);
  });
});

describe('turned round, an instrument shows twice its error', () => {
  const still = { slip: () => 0 };

  it('0.3 mm/m between walls 5 m apart: 3 mm; over 2 m: 1.2 mm; at a mark 5 m from a cross: 3 mm', () => {
    const walls = practised(body({ levelFore: 0.0003 }), { check: 'level', way: 'fore', ...still });
    expect(walls[3]! - walls[0]!).toBeCloseTo(3, 9);
    const door = practised(body({ plumbS: 0.0003 }), { check: 'plumb', way: 'S', ...still });
    expect(door[0]! - door[1]!).toBeCloseTo(1.2, 6);
    const cross = practised(body({ square: 0.0003 }), { check: 'square', way: null, ...still });
    expect(cross[2]! - cross[0]!).toBeCloseTo(3, 5);
  });

  const fault = fc.double({ min: -0.004, max: 0.004, noNaN: true });
  const all = fc.record({ levelFore: fault, levelSide: fault, plumbF: fault, plumbS: fault, square: fault });

  it.each([
    ['level', 'fore', 'levelFore'],
    ['level', 'side', 'levelSide'],
    ['plumb', 'S', 'plumbS'],
    ['plumb', 'F', 'plumbF'],
    ['square', null, 'square'],
  ] as const)('%s %s shows the one error, whatever else is wrong and wherever it turns', (check, way, name) => {
    fc.assert(
      fc.property(all, fc.double({ min: 0, max: 60, noNaN: true }), (faults, pivotMm) => {
        const shown = errorShown(check, practised({ faults, pivotMm }, { check, way, ...still }));
        // Second order: a level line that turns and leans at once, a lean that is not square to the wall.
        expect(Math.abs(shown - 1000 * faults[name])).toBeLessThan(0.02);
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});

describe('3-4-5 on the thrown lines', () => {
  it.each([
    [90.5, 1506.27],
    [90, 1500],
    [89.5, 1493.7],
  ])('%d° between F and S into the room: %d', (degrees, third) => {
    // S stands more than 90° anticlockwise from F, so into the room, to the right of it, it is less.
    const squareMmPerM = 1000 * Math.tan(((90 - degrees) * Math.PI) / 180);
    const tools = { straightEdgeMm: 1800 };
    const survey = acted(surveyIn({}, { level: { faults: [{ squareMmPerM }] }, tools }), ...standing);
    const seen = doneOf(survey, { act: 'three-four-five', at: { surface: 'floor', xMm: 0, yMm: 0 }, unitMm: 300 });
    expect(Math.abs(seen.tapeMm! - third)).toBeLessThan(0.005);
  });
});
