/**
 * Surveying a pair of alcoves: places by recess, one line past the breast, what the breast hides, and the split of the
 * sheet. Where things are is worked out by hand from two true recesses.
 */
import { describe, expect, it } from 'vitest';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { eachBay } from '../../src/survey/in-bay.ts';
import { blockedIn } from '../../src/survey/sight.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { atXMm, pairExercise, setBackMm } from '../helpers/pairs.ts';
import { acted, doneOf, middleOf, outcomeOf, surveyOf } from '../helpers/surveying.ts';

const exact = { errors: false };
const start = surveyOf(pairExercise({}, {}, exact));
const standsAt = (x: number): readonly Act[] => [
  { act: 'stand', xMm: x, yMm: 0 - setBackMm, heightMm: 1100 },
  { act: 'settle' },
];
const inFront = acted(start, ...standsAt(0));
const right = (place: Omit<SurfacePlace, 'bay'>): SurfacePlace => ({ ...place, bay: 2 });

/** Where F, S and L of a set-up lie, by the survey's own record of its planes. */
function offset(survey: Survey, datum: string, p: { x: number; y: number; z: number }): number {
  const { nx, ny, nz, c } = survey.planes[datum]!;
  return Math.abs(nx * p.x + ny * p.y + nz * p.z - c);
}

describe('places', () => {
  it('of the right recess are told from the middle of its own opening', () => {
    const moved = acted(start, ...standsAt(atXMm));
    const reading = acted(moved, { act: 'read', datum: 'S', place: right({ surface: 'left', yMm: 200, zMm: 900 }) })
      .readings[0]!;
    expect(reading.point.x).toBeCloseTo(atXMm - 500, 9);
    expect(Math.abs(reading.point.y - 200)).toBeLessThan(12);
    expect(Math.abs(reading.point.z - 900)).toBeLessThan(9);
    expect(reading.place).toMatchObject({ side: 'left', bay: 2 });
  });

  it('there is no right recess where there is one alone', () => {
    const { second: _spec, ...spec } = pairExercise().spec;
    const { second: _brief, ...brief } = pairExercise().brief;
    const alone = acted(surveyOf({ ...pairExercise(), spec, brief }), ...standsAt(0));
    const act: Act = { act: 'read', datum: 'S', place: right({ surface: 'left', yMm: 200, zMm: 900 }) };
    expect(outcomeOf(alone, act)).toMatchObject({ ok: false, error: { code: 'place/no-such-bay' } });
  });

  it('both backs are read from the one line in front of the breast', () => {
    for (const [bay, x] of [
      [undefined, 0],
      [2, atXMm],
    ] as const) {
      const place: SurfacePlace = { surface: 'back', xMm: 0, zMm: 1000, ...(bay ? { bay } : {}) };
      const seen = middleOf(doneOf(inFront, { act: 'read', datum: 'F', place }));
      // The back stands at y = 500; the line where the level stood.
      const point = acted(inFront, { act: 'read', datum: 'F', place }).readings[0]!.point;
      expect(point.y).toBeCloseTo(500, 9);
      expect(Math.abs(point.x - x)).toBeLessThan(9 + 0.006 * 1000);
      expect(seen).toBeCloseTo(offset(inFront, 'F', point), 6);
    }
  });

  it('a tape goes from cheek to party wall', () => {
    const done = doneOf(inFront, { act: 'span', place: right({ surface: 'left', yMm: 100, zMm: 500 }), to: 'right' });
    // Straight across by the hand's frame, which may lie 6 mrad off: 1000 / cos.
    expect(done.tapeMm!).toBeGreaterThanOrEqual(1000 - 1e-6);
    expect(done.tapeMm!).toBeLessThan(1000.02);
  });
});

describe('what the breast hides', () => {
  const world = openWorld(pairExercise());
  const by = (from: readonly [number, number], to: readonly [number, number]) =>
    blockedIn(world, [], { from: { x: from[0], y: from[1], z: 1000 }, to: { x: to[0], y: to[1], z: 1000 } });

  // Cheeks stand at x = 500 and x = 1900 from the mouth, y = -40, inwards.
  it.each([
    ['along a line in front of it', [0, -100], [2800, -100], false],
    ['from one alcove into the other', [0, 200], [2400, 200], true],
    ['from in front into the right alcove', [1200, -900], [2400, 400], false],
    ['from before its middle, close by, to a cheek’s far end', [1200, -60], [1901, 480], true],
    ['from one party wall to the other in the mouths', [-490, 0], [2890, 0], true],
    ['within the right alcove', [1950, 450], [2850, 10], false],
    ['within the left alcove', [-450, 450], [450, 10], false],
  ] as const)('%s', (_, from, to, blocked) => {
    expect(by(from, to) !== null).toBe(blocked);
    expect(by(to, from) !== null).toBe(blocked);
  });

  it('agrees with stepping along 4,000 ways in plan, seed by step', () => {
    const solid = (x: number, y: number) => x < -500 || x > 2900 || y > 500 || (x > 500 && x < 1900 && y > -40);
    let free = 0;
    for (let i = 0; i < 4000; i++) {
      const spread = (k: number) => ((i * [7919, 104729, 1299709, 15485863][k]!) % 10007) / 10007;
      const place = (k: number) => [-480 + 3360 * spread(k), -700 + 1180 * spread(k + 1)] as const;
      const [from, to] = [place(0), place(2)];
      if (solid(...from) || solid(...to)) continue;
      const steps = 600;
      let inside = 0;
      for (let s = 0; s <= steps; s++)
        if (solid(from[0] + ((to[0] - from[0]) * s) / steps, from[1] + ((to[1] - from[1]) * s) / steps)) inside++;
      const named = by(from, to);
      // The party walls reach 256 in front of the mouth; a way that only grazes a corner between two steps is let off.
      if (inside > 2) expect(named).not.toBeNull();
      if (inside === 0 && named) expect(inside).toBe(0);
      if (inside === 0 && !named) free++;
    }
    expect(free).toBeGreaterThan(800);
  });
});

describe('the sheet by recess', () => {
  const [x, y] = [right({ surface: 'left', yMm: 200, zMm: 900 }), { surface: 'left', yMm: 200, zMm: 900 } as const];
  const moved = acted(
    inFront,
    { act: 'read', datum: 'S', place: y },
    { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: y },
  );
  const both = acted(
    moved,
    ...standsAt(atXMm),
    { act: 'read', datum: 'S2', place: x },
    { act: 'book', what: 'offset', valueMm: 501, datum: 'S2', place: x },
    { act: 'say', question: 'stand-up', answer: 'yes', of: 'right' },
    {
      act: 'propose',
      carcassMm: { width: 900, height: 2000, depth: 400 },
      second: { carcassMm: { width: 910, height: 2010, depth: 410 } },
    },
  );
  const [one, two] = eachBay(both);

  it('holds each recess’s own bookings, readings, answers and proposal', () => {
    expect(one!.survey.bookings.map((b) => b.said.valueMm)).toEqual([500]);
    expect(two!.survey.bookings.map((b) => b.said.valueMm)).toEqual([501]);
    expect([one!.survey.readings.length, two!.survey.readings.length]).toEqual([1, 1]);
    expect([one!.survey.answers.length, two!.survey.answers.length]).toEqual([0, 1]);
    expect(one!.survey.proposal?.carcassMm?.width).toBe(900);
    expect(two!.survey.proposal?.carcassMm?.width).toBe(910);
  });

  it('moves everything into the recess’s own frame, and no distance changes', () => {
    const r = two!.survey.readings[0]!;
    expect(r.point.x).toBeCloseTo(-500, 9);
    const whole = both.readings.find((a) => a.place?.bay === 2)!;
    const from = (reading: typeof whole) =>
      reading.plane.nx * reading.point.x + reading.plane.ny * reading.point.y - reading.plane.c;
    expect(from(r)).toBeCloseTo(from(whole), 9);
  });
});
