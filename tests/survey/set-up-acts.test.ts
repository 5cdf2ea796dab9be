/**
 * Setting up: planes at right angles, marks on the lines, what is seen of a line and its signs, aiming through a target.
 */
import { describe, expect, it } from 'vitest';
import { planeOf } from '../../src/survey/level.ts';
import type { Done } from '../../src/survey/outcome.ts';
import type { Survey } from '../../src/survey/survey.ts';
import {
  acted,
  doneOf,
  type OwnLevel,
  outcomeOf,
  ownDistance,
  type RoomPoint,
  roomOf,
  standing,
  surveyIn,
} from '../helpers/surveying.ts';

const level: OwnLevel = { x: 0, y: 0, height: 1100 };
const rough = { wobbleMm: 1, seed: 'set-up', wavesMm: [0, 1.5, -1, 0.5, 0, -1, 0] };
const seenAt = (done: Done, mark: number) => done.seen!.find((s) => 'mark' in s.at && s.at.mark === mark);
const onReference = (done: Done) => done.seen!.filter((s) => 'referenceXMm' in s.at);
/** What a thrown plane is off a point, by the plane's own numbers. */
const off = (survey: Survey, datum: string, p: RoomPoint) => {
  const { nx, ny, nz, c } = survey.planes[datum]!;
  return nx * p.x + ny * p.y + nz * p.z - c;
};

describe('the planes', () => {
  it.each([
    ['recess', 0],
    ['left', 90],
    ['room', 180],
    ['right', -90],
  ] as const)('of a level that faces the %s: F across, S along, L level', (facing, degrees) => {
    const survey = acted(
      surveyIn(rough),
      { act: 'stand', xMm: -30, yMm: 20, heightMm: 900, facing },
      { act: 'settle' },
    );
    const own = { x: -30, y: 20, height: 900, turnedRad: (degrees * Math.PI) / 180 };
    for (const p of [
      { x: 300, y: 100, z: 20 },
      { x: -420, y: -30, z: 2000 },
    ])
      for (const datum of ['F', 'S', 'L'] as const)
        expect(off(survey, datum, p)).toBeCloseTo(ownDistance(survey, { level: own, datum }, p), 6);
  });

  it('stand at 90° and upright, whatever was turned', () => {
    let survey = acted(surveyIn(rough), ...standing);
    for (const byMmPerM of [3, -250, 1000, 777]) {
      survey = acted(survey, { act: 'turn', byMmPerM }, { act: 'turn', byMmPerM: 0, quarters: byMmPerM > 0 ? 1 : -2 });
      const [f, s] = [planeOf(survey.standing!, 'F'), planeOf(survey.standing!, 'S')];
      expect(Math.hypot(f.nx, f.ny)).toBeCloseTo(1, 12);
      expect(f.nx * s.nx + f.ny * s.ny).toBeCloseTo(0, 12);
      expect([f.nz, s.nz]).toEqual([0, 0]);
      // S's normal is to the right of F's.
      expect(f.nx * s.ny - f.ny * s.nx).toBeCloseTo(-1, 12);
    }
  });

  it('a turn is anticlockwise seen from above, a quarter is 90°', () => {
    const facing = (survey: Survey) => Math.atan2(survey.standing!.facing.y, survey.standing!.facing.x);
    const stood = acted(surveyIn(rough), ...standing);
    const turned = acted(stood, { act: 'turn', byMmPerM: 10 });
    expect(facing(turned) - facing(stood)).toBeCloseTo(Math.atan(0.01), 12);
    const quarter = acted(stood, { act: 'turn', byMmPerM: 0, quarters: 1 });
    expect(facing(quarter) - facing(stood)).toBeCloseTo(Math.PI / 2, 12);
  });

  it('move in the hand’s own directions, raise straight up, and each must settle again', () => {
    const stood = acted(surveyIn(rough), ...standing);
    const moved = acted(stood, { act: 'move', byXMm: 12, byYMm: -7 }, { act: 'raise', byMm: 30 });
    const want = roomOf(moved, { x: 12, y: -7, z: 1130 });
    for (const axis of ['x', 'y', 'z'] as const) expect(moved.standing!.at[axis]).toBeCloseTo(want[axis], 9);
    expect(moved.standing!.settled).toBe(false);
    expect(acted(moved, { act: 'settle' }).standing!.settled).toBe(true);
  });

  it('a second stand is a second set-up, and the first one’s lines are no longer thrown', () => {
    const survey = acted(
      surveyIn(rough),
      ...standing,
      { act: 'stand', xMm: 100, yMm: 10, heightMm: 1200 },
      { act: 'settle' },
    );
    expect(Object.keys(survey.planes)).toEqual(['F', 'S', 'L', 'F2', 'S2', 'L2']);
    expect(survey.setUps).toBe(2);
    const read = (datum: string) =>
      outcomeOf(survey, { act: 'read', datum, place: { surface: 'left', yMm: 0, zMm: 900 } });
    expect(read('S2').ok).toBe(true);
    expect(read('S')).toMatchObject({ error: { code: 'datum/not-thrown' } });
  });
});

describe('marks', () => {
  it('without error lie on their line, on the surface', () => {
    const survey = acted(
      surveyIn(rough),
      ...standing,
      { act: 'mark', place: { surface: 'left', along: 'F', zMm: 700 } },
      { act: 'mark', place: { surface: 'back', along: 'S', zMm: 1500 } },
      { act: 'mark', place: { surface: 'right', along: 'L', yMm: 200 } },
      { act: 'mark', place: { surface: 'floor', along: 'S', yMm: -900 } },
    );
    for (const m of survey.marks) expect(Math.abs(off(survey, m.datum, m.point))).toBeLessThan(1e-6);
    expect(survey.marks.map((m) => m.side)).toEqual(['left', 'back', 'right', 'floor']);
    expect(survey.marks[2]!.point.z).toBeCloseTo(roomOf(survey, { x: 0, y: 0, z: 1100 }).z, 6);
  });

  it('with errors lie off it by a pencil’s width, as the log says in thousandths', () => {
    const far: number[] = [];
    for (let i = 0; i < 200; i++) {
      const survey = acted(surveyIn({ seed: `pencil ${i}` }, { errors: true }), ...standing);
      const marked = acted(survey, { act: 'mark', place: { surface: 'left', along: 'F', zMm: 700 } });
      const made = marked.entries.at(-1)!.outcome;
      if (!made.ok) throw new Error('refused');
      const by = off(marked, 'F', marked.marks[0]!.point);
      // Along a left wall's u, which is y: what the hand slipped by is what the mark lies behind the line.
      expect(Math.abs(by - made.handUm![0]! / 1000)).toBeLessThan(0.01);
      for (const um of made.handUm!) expect(Number.isInteger(um)).toBe(true);
      far.push(Math.abs(by));
    }
    expect(Math.max(...far)).toBeLessThan(0.7);
    expect(Math.max(...far)).toBeGreaterThan(0.2);
  });

  it('are numbered as they are made, and a number that is rubbed out is not given again', () => {
    const mark = { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } } as const;
    const survey = acted(surveyIn(rough), ...standing, mark, mark, { act: 'rub-out', mark: 2 }, mark);
    expect(survey.marks.map((m) => m.mark)).toEqual([1, 3]);
  });
});

describe('what is seen of a line', () => {
  const marked = acted(
    surveyIn(rough),
    ...standing,
    { act: 'mark', place: { surface: 'left', along: 'F', zMm: 1200 } },
    { act: 'mark', place: { surface: 'back', along: 'S', zMm: 1200 } },
    { act: 'mark', place: { surface: 'left', along: 'L', yMm: 150 } },
  );

  it('is + where F falls behind, S right of, L above the mark', () => {
    const shifted = acted(marked, { act: 'move', byXMm: 4, byYMm: 3 }, { act: 'raise', byMm: 6 });
    const seen = doneOf(shifted, { act: 'settle' });
    expect(seenAt(seen, 1)).toMatchObject({ datum: 'F', offMm: 3 });
    expect(seenAt(seen, 2)).toMatchObject({ datum: 'S', offMm: 4 });
    expect(seenAt(seen, 3)).toMatchObject({ datum: 'L', offMm: 6 });
    const back = doneOf(acted(marked, { act: 'move', byXMm: -4, byYMm: -3 }, { act: 'raise', byMm: -6 }), {
      act: 'settle',
    });
    expect([1, 2, 3].map((m) => seenAt(back, m)!.offMm)).toEqual([-3, -4, -6]);
    expect(seenAt(doneOf(marked, { act: 'settle' }), 1)!.offMm).toBeCloseTo(0, 9);
  });

  it('is told in widths of the line, and in mm only where the aids say so', () => {
    const shifted = acted(marked, { act: 'move', byXMm: 0, byYMm: 3 });
    const look = seenAt(doneOf(shifted, { act: 'settle' }), 1)!;
    // 1.6 and 0.2 a metre, half a metre off.
    expect(look.offWidths).toBeCloseTo(3 / 1.7, 1);
    const bare = acted(
      surveyIn(rough, { aids: { readsRule: false, seenInMm: false } }),
      ...standing,
      { act: 'mark', place: { surface: 'left', along: 'F', zMm: 1200 } },
      { act: 'move', byXMm: 0, byYMm: 3 },
    );
    expect(seenAt(doneOf(bare, { act: 'settle' }), 1)).toEqual({
      datum: 'F',
      at: { mark: 1 },
      offWidths: look.offWidths,
    });
  });

  it('along the reference is how far F falls behind it there, waves and all, to 0.1 mm', () => {
    const looks = onReference(doneOf(acted(surveyIn(rough), standing[0]!), { act: 'settle' }));
    const survey = acted(surveyIn(rough), ...standing);
    expect(looks).toHaveLength(7);
    for (const look of looks) {
      if (!('referenceXMm' in look.at)) throw new Error('a mark');
      const { x } = roomOf(survey, { x: look.at.referenceXMm, y: 0, z: 0 });
      // The waves stand at sevenths of the opening, straight between.
      const along = ((x + 500) / 1000) * 6;
      const i = Math.floor(along);
      const y = rough.wavesMm[i]! + (rough.wavesMm[i + 1]! - rough.wavesMm[i]!) * (along - i);
      const behind = -ownDistance(survey, { level, datum: 'F' }, { x, y, z: 2310 });
      expect(Math.abs(look.offMm! - behind)).toBeLessThanOrEqual(0.05 + 1e-6);
      expect(look.datum).toBe('F');
    }
  });

  it('is nothing before the level has settled', () => {
    expect(
      doneOf(acted(marked, { act: 'move', byXMm: 1, byYMm: 0 }), { act: 'turn', byMmPerM: 1 }).seen,
    ).toBeUndefined();
    expect(doneOf(marked, { act: 'move', byXMm: 1, byYMm: 0 }).seen).toBeUndefined();
  });

  it('leaves out what the breast hides from out in the room', () => {
    const beside = acted(surveyIn(rough), { act: 'stand', xMm: 1900, yMm: -100, heightMm: 1100 });
    const looks = onReference(doneOf(beside, { act: 'settle' })).map((s) =>
      'referenceXMm' in s.at ? s.at.referenceXMm : 0,
    );
    expect(looks.length).toBeLessThan(7);
    expect(looks).not.toContain(450);
    const before = acted(surveyIn(rough), { act: 'stand', xMm: 0, yMm: -2500, heightMm: 1100 });
    expect(onReference(doneOf(before, { act: 'settle' }))).toHaveLength(7);
  });
});

describe('aiming', () => {
  const marks = acted(
    surveyIn(rough),
    ...standing,
    { act: 'mark', place: { surface: 'left', along: 'F', zMm: 1200 } },
    { act: 'mark', place: { surface: 'back', along: 'S', zMm: 700 } },
    { act: 'turn', byMmPerM: 37 },
  );

  it('brings the plane through the target, the short way round', () => {
    for (const [plane, mark] of [
      ['F', 1],
      ['S', 2],
      ['S', 1],
      ['F', 2],
    ] as const) {
      const aimed = acted(marks, { act: 'aim', plane, at: { mark } });
      const { point } = marks.marks.find((m) => m.mark === mark)!;
      expect(Math.abs(off(aimed, plane, point))).toBeLessThan(1e-9);
      const [f, g] = [marks.standing!.facing, aimed.standing!.facing];
      expect(f.x * g.x + f.y * g.y).toBeGreaterThanOrEqual(0);
    }
  });

  it('at the reference runs through its wave there', () => {
    const aimed = acted(marks, { act: 'aim', plane: 'F', at: { referenceXMm: -333 } });
    const { x } = roomOf(aimed, { x: -333, y: 0, z: 0 });
    const along = ((x + 500) / 1000) * 6;
    const i = Math.floor(along);
    const y = rough.wavesMm[i]! + (rough.wavesMm[i + 1]! - rough.wavesMm[i]!) * (along - i);
    expect(Math.abs(off(aimed, 'F', { x, y, z: 2310 }))).toBeLessThan(1e-9);
  });

  it('with errors leaves it beside the target by what the log says, + to the left seen from the level', () => {
    const missed: number[] = [];
    for (let i = 0; i < 100; i++) {
      const stood = acted(
        surveyIn({ seed: `aim ${i}` }, { errors: true }),
        ...standing,
        { act: 'mark', place: { surface: 'back', along: 'S', zMm: 700 } },
        { act: 'turn', byMmPerM: 20 },
      );
      const aim = { act: 'aim', plane: 'S', at: { mark: 1 } } as const;
      const done = doneOf(stood, aim);
      const { point } = stood.marks[0]!;
      // S's normal is to the right: a plane that falls left of the mark has the mark to its right.
      const by = off(acted(stood, aim), 'S', point);
      expect(Math.abs(by - done.handUm![0]! / 1000)).toBeLessThan(0.001);
      missed.push(Math.abs(by));
    }
    expect(Math.max(...missed)).toBeLessThan(0.7);
    expect(Math.max(...missed)).toBeGreaterThan(0.2);
  });

  it('lines up on two marks of one line: F runs through both again after the level was moved', () => {
    const two = acted(
      surveyIn({ seed: 'two' }),
      ...standing,
      { act: 'mark', place: { surface: 'left', along: 'F', zMm: 1200 } },
      { act: 'mark', place: { surface: 'right', along: 'F', zMm: 1200 } },
      { act: 'move', byXMm: 10, byYMm: 0 },
      { act: 'settle' },
      { act: 'aim', plane: 'F', at: { mark: 1 } },
    );
    const seen = doneOf(two, { act: 'settle' });
    for (const m of [1, 2]) expect(Math.abs(seenAt(seen, m)!.offMm!)).toBeLessThan(0.15);
  });
});
