/**
 * A level with faults, one that turns beside its lines, a knock, a leaning stand, two levels at once: what readings feel of
 * them, against plane arithmetic and closed forms of the tests' own.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../src/chance/keyed-draws.ts';
import { type Kit, presets } from '../../src/exercise/kit.ts';
import type { Act } from '../../src/survey/act.ts';
import { axisOf, planeOf, turnLevel } from '../../src/survey/level.ts';
import { checkNames, drawBodies, outOfTrue, worstFault } from '../../src/survey/level-body.ts';
import { uSize } from '../../src/survey/uncertainty.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { acted, doneOf, middleOf, outcomeOf, ownPoint, roomOf, standing, surveyIn } from '../helpers/surveying.ts';

const fault = fc.double({ min: -5, max: 5, noNaN: true });
const kitOf = (name: string): Kit => presets.find((p) => p.name === name)!.kit;
const left = (yMm: number, zMm: number) => ({ surface: 'left' as const, yMm, zMm });
const right = (yMm: number, zMm: number) => ({ surface: 'right' as const, yMm, zMm });

describe('readings feel the faults through geometry alone', () => {
  it('S leans by its plumb error for each metre up, F likewise, L rises ahead and to the right', () => {
    fc.assert(
      fc.property(fault, fault, fault, fault, (fore, side, plumbF, plumbS) => {
        const faults = [{ levelForeMmPerM: fore, levelSideMmPerM: side, plumbFMmPerM: plumbF, plumbSMmPerM: plumbS }];
        const survey = acted(surveyIn({ seed: 'faults' }, { level: { faults } }), ...standing);
        const level = roomOf(survey, { x: 0, y: 0, z: 1100 });
        const angle = Math.atan2(survey.world.hand.xAxis.y, survey.world.hand.xAxis.x);
        const off = (datum: 'F' | 'S' | 'L', place: Parameters<typeof ownPoint>[1]) => {
          const p = ownPoint(survey, place);
          const [dx, dy, dz] = [p.x - level.x, p.y - level.y, p.z - level.z];
          const r = dx * Math.cos(angle) + dy * Math.sin(angle);
          const a = dy * Math.cos(angle) - dx * Math.sin(angle);
          if (datum === 'S') return Math.abs(r - (plumbS / 1000) * dz) * Math.cos(Math.atan(plumbS / 1000));
          if (datum === 'F') return Math.abs(a - (plumbF / 1000) * dz) * Math.cos(Math.atan(plumbF / 1000));
          const steep = Math.hypot(fore, side) / 1000;
          return Math.abs(dz - (fore * a + side * r) / 1000) * Math.cos(Math.atan(steep));
        };
        for (const [datum, place] of [
          ['S', left(200, 300)],
          ['S', right(100, 2100)],
          ['F', { surface: 'back', xMm: 300, zMm: 2000 }],
          ['L', { surface: 'floor', xMm: -300, yMm: 400 }],
          ['L', { surface: 'ceiling', xMm: 350, yMm: 100 }],
        ] as const)
          expect(middleOf(doneOf(survey, { act: 'read', datum, place }))).toBeCloseTo(off(datum, place), 6);
      }),
      { seed: 3, numRuns: 25 },
    );
  });

  it('turned round, a lean and a rise cancel in the mean of two readings', () => {
    const faults = [{ levelForeMmPerM: 3, levelSideMmPerM: -2, plumbFMmPerM: 2, plumbSMmPerM: -4 }];
    const [bad, good] = [{ faults }, {}].map((level) => acted(surveyIn({}, { level }), ...standing));
    const read: readonly Act[] = [
      { act: 'read', datum: 'S', place: left(200, 300) },
      { act: 'read', datum: 'F', place: { surface: 'back', xMm: 300, zMm: 2000 } },
      { act: 'read', datum: 'L', place: { surface: 'floor', xMm: -300, yMm: 400 } },
    ];
    const round = acted(bad!, { act: 'turn', byMmPerM: 0, quarters: 2 });
    for (const act of read) {
      const true_ = middleOf(doneOf(good!, act));
      const [one, other] = [middleOf(doneOf(bad!, act)), middleOf(doneOf(round, act))];
      expect(Math.abs(one - true_)).toBeGreaterThan(0.5);
      expect(Math.abs((one + other) / 2 - true_)).toBeLessThan(0.02);
    }
  });

  it('S out of square by e moves a width between two depths by e times how far apart they are', () => {
    const e = 6;
    const width = (level: object) => {
      const survey = acted(surveyIn({}, { level }), ...standing);
      const of = (place: ReturnType<typeof left> | ReturnType<typeof right>) =>
        middleOf(doneOf(survey, { act: 'read', datum: 'S', place }));
      return of(left(0, 1000)) + of(right(400, 1000));
    };
    // Turned anticlockwise S nears the left wall as it goes in, and leaves the right one.
    const d = width({ faults: [{ squareMmPerM: e }] }) - width({});
    expect(Math.abs(Math.abs(d) - (e * 400) / 1000)).toBeLessThan(0.02);
  });
});

describe('drawn levels', () => {
  const bodies = (name: string) =>
    Array.from({ length: 400 }, (_, i) => drawBodies(drawKey(`bodies ${i}`), kitOf(name)));

  it('of the faulty kit: one in four within the limits, the others out in one thing by three to eight limits; the spare within', () => {
    const kit = kitOf('faulty');
    const drawn = bodies('faulty');
    const out = drawn.map(([first]) => checkNames.filter((c) => outOfTrue(first!, kit, c) > 0));
    const share = out.filter((o) => o.length === 0).length / out.length;
    // 400 draws of one in four: 0.25 ± 3 standard deviations.
    expect(Math.abs(share - 0.25)).toBeLessThan(0.065);
    for (const [i, o] of out.entries()) {
      expect(o.length).toBeLessThan(2);
      for (const check of o) {
        const worst = worstFault(drawn[i]![0]!, check);
        expect(worst).toBeGreaterThanOrEqual(0.9);
        expect(worst).toBeLessThanOrEqual(2.4);
      }
      for (const check of checkNames) expect(outOfTrue(drawn[i]![1]!, kit, check)).toBe(0);
    }
    for (const check of checkNames) expect(out.some((o) => o.includes(check))).toBe(true);
  });

  it('of two levels: both within the limits, not the same', () => {
    const kit = kitOf('two-levels');
    for (const [one, other, ...more] of bodies('two-levels')) {
      expect(more).toEqual([]);
      expect(one).not.toEqual(other);
      for (const check of checkNames)
        expect([outOfTrue(one!, kit, check), outOfTrue(other!, kit, check)]).toEqual([0, 0]);
    }
  });
});

describe('a level that turns beside its lines', () => {
  it('keeps its axis where it is and its crossing point as far from it, half-way between ahead and to the right', () => {
    const survey = acted(surveyIn({}, { level: { pivotMm: 40 } }), ...standing);
    const before = survey.standing!;
    const after = turnLevel(before, { slope: 0.3, quarters: 1 });
    expect(axisOf(after).x).toBeCloseTo(axisOf(before).x, 9);
    expect(axisOf(after).y).toBeCloseTo(axisOf(before).y, 9);
    for (const { at, facing, body } of [before, after]) {
      const [dx, dy] = [at.x - axisOf({ at, facing, body }).x, at.y - axisOf({ at, facing, body }).y];
      expect(dx * facing.x + dy * facing.y).toBeCloseTo(40 / Math.SQRT2, 9);
      expect(dx * facing.y - dy * facing.x).toBeCloseTo(40 / Math.SQRT2, 9);
    }
  });

  it('aims through a mark all the same, faults and all', () => {
    const faults = [{ plumbSMmPerM: 3, squareMmPerM: 2 }];
    let survey = acted(surveyIn({}, { level: { pivotMm: 60, faults } }), ...standing);
    survey = acted(survey, { act: 'mark', place: { surface: 'back', along: 'S', zMm: 400 } });
    survey = acted(survey, { act: 'turn', byMmPerM: 40 }, { act: 'aim', plane: 'S', at: { mark: 1 } });
    const { nx, ny, nz, c } = planeOf(survey.standing!, 'S');
    const { point: p } = survey.marks[0]!;
    expect(Math.abs(nx * p.x + ny * p.y + nz * p.z - c)).toBeLessThan(1e-6);
  });
});

describe('a knock', () => {
  const knock = { afterReadings: 2, byXMm: 3, byYMm: 0, byZMm: 2, turnMmPerM: 0, leanMmPerM: 0 };
  const read: Act = { act: 'read', datum: 'S', place: left(200, 1000) };
  const begun = acted(surveyIn({}, { level: { knock } }), ...standing, {
    act: 'mark',
    place: { surface: 'back', along: 'S', zMm: 1000 },
  });

  it('comes unsaid after so many readings, and is found by reading again or by looking at a mark', () => {
    const [first, again] = [acted(begun, read), acted(begun, read, read)];
    const seen = [doneOf(begun, read), doneOf(first, read), doneOf(again, read)].map(middleOf);
    expect(seen[1]).toBeCloseTo(seen[0]!, 9);
    const x = again.world.hand.xAxis.x;
    expect(seen[2]! - seen[0]!).toBeCloseTo(3 * x, 6);
    expect(Object.keys(again.entries.at(-1)!.outcome).sort()).toEqual(
      Object.keys(first.entries.at(-1)!.outcome).sort(),
    );
    const mark = doneOf(again, { act: 'settle' }).seen!.find((s) => 'mark' in s.at)!;
    expect(mark.offMm).toBeCloseTo(3 * x, 1);
    expect(doneOf(first, { act: 'settle' }).seen!.find((s) => 'mark' in s.at)!.offMm).toBe(0);
  });

  it('out of range it throws nothing more, refuses to settle and says so; packed and stood again it does', () => {
    const leaning = { rangeMmPerM: 50, knock: { ...knock, leanMmPerM: 51 } };
    const survey = acted(surveyIn({}, { level: leaning }), ...standing, read, read);
    const code = (act: Act) => {
      const outcome = outcomeOf(survey, act);
      return outcome.ok ? 'ok' : outcome.error.code;
    };
    expect(code(read)).toBe('level/not-settled');
    expect(code({ act: 'settle' })).toBe('level/out-of-range');
    acted(survey, ...standing);
  });
});

describe('a stand on a floor that falls', () => {
  it.each([
    [69, true],
    [71, false],
  ])('%d mm in a metre, its range 70: settles: %s', (mm, settles) => {
    // The fall is told over the opening's width, 1000.
    const floor = [{ kind: 'fall' as const, mm, towards: 'right' as const }];
    const stand: Act = { act: 'stand', xMm: 0, yMm: 100, heightMm: 1100 };
    const survey = acted(surveyIn({ defects: { floor } }, { level: { rangeMmPerM: 70 } }), stand);
    expect(outcomeOf(survey, { act: 'settle' }).ok).toBe(settles);
    expect(outcomeOf(acted(survey, { ...stand, packed: true }), { act: 'settle' }).ok).toBe(true);
  });
});

describe('two levels', () => {
  it('stand at once: each is touched by its number, both throw, a second set-up leaves the first', () => {
    let survey = acted(surveyIn({}, { level: { count: 2 } }), ...standing);
    survey = acted(
      survey,
      { act: 'stand', xMm: 50, yMm: -800, heightMm: 1200, level: 2 },
      { act: 'settle' },
      { act: 'read', datum: 'S', place: left(200, 1000) },
      { act: 'read', datum: 'S2', place: left(200, 1000) },
      { act: 'turn', byMmPerM: 4, level: 1 },
    );
    expect(survey.levels.map((l) => [l.level, l.setUp])).toEqual([
      [2, 2],
      [1, 1],
    ]);
    const moved = acted(survey, { act: 'move', byXMm: 5, byYMm: 0, level: 2 });
    const code = (datum: string) => {
      const outcome = outcomeOf(moved, { act: 'read', datum, place: left(200, 1000) });
      return outcome.ok ? 'ok' : outcome.error.code;
    };
    expect([code('S'), code('S2'), code('S3')]).toEqual(['ok', 'level/not-settled', 'level/not-settled']);
  });
});

describe('the stated uncertainty takes in the stated limits of the level', () => {
  const limitsMmPerM = { level: 0.6, plumb: 0.9, square: 0.3 };
  const exercise = exerciseIn(roomSpec(), { level: { faults: 'within', limitsMmPerM } });
  const third = (mmPerM: number) => mmPerM / 1000 / Math.sqrt(3);
  const term = { lengthMm: 500, readings: 1, x: 0, y: 0, z: 1000 };

  it('to a closed form for each size', () => {
    const width = uSize(exercise, 'carcass-width', [term, { ...term, z: 2000, y: 400 }]);
    expect(width).toBeCloseTo(Math.hypot(third(0.9) * 1000, third(0.3) * 400), 9);
    const flat = { lengthMm: 500, readings: 1, x: -300, y: 50 };
    const height = uSize(exercise, 'carcass-height', [flat, { ...flat, x: 200, y: 450 }]);
    expect(height).toBeCloseTo(third(0.6) * Math.hypot(500, 400), 9);
    expect(uSize(exercise, 'carcass-depth', [term])).toBeCloseTo(third(0.9) * 1400, 9);
    expect(uSize(exerciseIn(roomSpec()), 'carcass-width', [term, { ...term, z: 2000 }])).toBe(0);
  });

  it('and levels that are drawn within them scatter as much: 3000 of them, to 5 in 100', () => {
    const errors = Array.from({ length: 3000 }, (_, i) => {
      const body = drawBodies(drawKey(`scatter ${i}`), exercise.kit)[0]!;
      const plane = planeOf({ at: { x: 0, y: 0, z: 1100 }, facing: { x: 0, y: 1 }, body }, 'S');
      const off = (x: number, y: number, z: number) => Math.abs(plane.nx * x + plane.ny * y + plane.nz * z - plane.c);
      return off(-500, 0, 1000) + off(500, 400, 2000) - 1000;
    });
    const rms = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
    expect(rms / uSize(exercise, 'carcass-width', [term, { ...term, z: 2000, y: 400 }])).toBeCloseTo(1, 1);
    expect(Math.abs(rms / Math.hypot(third(0.9) * 1000, third(0.3) * 400) - 1)).toBeLessThan(0.05);
  });
});
