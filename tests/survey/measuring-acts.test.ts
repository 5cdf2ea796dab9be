/**
 * Readings, tapes and diagonals: against offsets worked out by the tests' own plane maths from sampled surfaces, and the
 * way chance goes into them.
 */
import { describe, expect, it } from 'vitest';
import type { Trim } from '../../src/recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { readOut } from '../../src/survey/measuring-acts.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { RoomWith } from '../helpers/rooms.ts';
import { meanAndDeviation } from '../helpers/statistics.ts';
import {
  acted,
  doneOf,
  middleOf,
  type OwnLevel,
  outcomeOf,
  ownDistance,
  ownPoint,
  type RoomPoint,
  roomOf,
  standing,
  straightAt,
  surveyIn,
} from '../helpers/surveying.ts';

const crooked = (seed: string): RoomWith => ({
  seed,
  wobbleMm: 1.6,
  defects: {
    left: [
      { kind: 'lean', mm: 11 },
      { kind: 'bow', mm: 7, crownV: 1000 },
    ],
    right: [
      { kind: 'taper', mm: 9 },
      { kind: 'hump', mm: 8, u: 300, v: 700, width: 500 },
    ],
    back: [
      { kind: 'skew', mm: -8 },
      { kind: 'wind', mm: 6 },
    ],
    floor: [{ kind: 'fall', mm: 9, towards: 'left' }],
    ceiling: [{ kind: 'fall', mm: 7, towards: 'back' }],
  },
});
const places: readonly (readonly ['F' | 'S' | 'L', SurfacePlace])[] = [
  ...[-20, 130, 440].flatMap((yMm) =>
    [200, 1000, 2150].flatMap((zMm) => [
      ['S', { surface: 'left', yMm, zMm }] as const,
      ['S', { surface: 'right', yMm, zMm }] as const,
    ]),
  ),
  ...[-400, 10, 380].flatMap((xMm) => [150, 1300, 2200].map((zMm) => ['F', { surface: 'back', xMm, zMm }] as const)),
  ...[-430, 77, 430].flatMap((xMm) =>
    [0, 333].flatMap((yMm) => [
      ['L', { surface: 'floor', xMm, yMm }] as const,
      ['L', { surface: 'ceiling', xMm, yMm }] as const,
    ]),
  ),
];
const read = (datum: string, place: SurfacePlace): Act => ({ act: 'read', datum, place });

/** Stands a level and turns it; its own reckoning beside. */
function stoodAt(survey: Survey, level: OwnLevel): Survey {
  const turn = level.turnedRad ?? 0;
  return acted(
    survey,
    { act: 'stand', xMm: level.x, yMm: level.y, heightMm: level.height },
    { act: 'settle' },
    ...(turn === 0 ? [] : [{ act: 'turn' as const, byMmPerM: 1000 * Math.tan(turn) }]),
  );
}

describe('a rule without error reads the offset, by plane maths from samples', () => {
  it.each(['reading 1', 'reading 2', 'reading 3'])('at 27 places of a crooked room, seed %j', (seed) => {
    for (const level of [
      { x: 0, y: 0, height: 1100 },
      { x: -60, y: 40, height: 950, turnedRad: 0.02 },
    ]) {
      const survey = stoodAt(surveyIn(crooked(seed)), level);
      for (const [datum, place] of places) {
        const seen = middleOf(doneOf(survey, read(datum, place)));
        const own = Math.abs(ownDistance(survey, { level, datum }, ownPoint(survey, place)));
        expect(Math.abs(seen - own)).toBeLessThan(1e-6);
      }
    }
  });

  it('along a seen line, the place is where that line meets the wall as it was set up', () => {
    const survey = stoodAt(surveyIn(crooked('along')), { x: 0, y: 12, height: 1100, turnedRad: -0.015 });
    const level = { x: 0, y: 12, height: 1100, turnedRad: -0.015 };
    for (const surface of ['left', 'right'] as const)
      for (const zMm of [300, 1700]) {
        // The hand's y at which the wall's point lies in F, by halving.
        const behind = (yMm: number) =>
          ownDistance(survey, { level, datum: 'F' }, ownPoint(survey, { surface, yMm, zMm }));
        let [front, back] = [-150, 150];
        expect(behind(front) < 0 && behind(back) > 0).toBe(true);
        for (let i = 0; i < 60; i++) {
          const middle = (front + back) / 2;
          if (behind(middle) < 0) front = middle;
          else back = middle;
        }
        const own = Math.abs(
          ownDistance(survey, { level, datum: 'S' }, ownPoint(survey, { surface, yMm: front, zMm })),
        );
        const seen = middleOf(doneOf(survey, read('S', { surface, along: 'F', zMm })));
        expect(Math.abs(seen - own)).toBeLessThan(1e-6);
      }
  });

  it('the line is as wide on the rule as the kit says at that distance', () => {
    const level = { x: 0, y: 0, height: 1100 };
    const survey = stoodAt(surveyIn(crooked('width')), level);
    const { edgesMm } = doneOf(survey, read('S', { surface: 'left', yMm: 400, zMm: 2000 }));
    const wall = ownPoint(survey, { surface: 'left', yMm: 400, zMm: 2000 });
    const off = ownDistance(survey, { level, datum: 'S' }, wall);
    const { xAxis } = survey.world.hand;
    const at = roomOf(survey, { x: 0, y: 0, z: 1100 });
    // Where the rule, held square to S, meets it.
    const crossing = { x: wall.x - off * xAxis.x, y: wall.y - off * xAxis.y, z: wall.z };
    const far = Math.hypot(crossing.x - at.x, crossing.y - at.y, crossing.z - at.z);
    expect(edgesMm![1] - edgesMm![0]).toBeCloseTo(1.6 + (0.2 * far) / 1000, 6);
  });

  it('the aids read the middle out to the half millimetre, and only then', () => {
    const aids = { readsRule: true, seenInMm: true };
    for (const errors of [false, true]) {
      const survey = acted(surveyIn(crooked('aids'), { aids, errors }), ...standing);
      const seen = doneOf(survey, read('S', { surface: 'left', yMm: 0, zMm: 900 }));
      expect(seen.readOutMm! * 2).toBe(Math.round(seen.readOutMm! * 2));
      expect(Math.abs(seen.readOutMm! - middleOf(seen))).toBeLessThanOrEqual(0.25 + 1e-9);
      expect(readOut(seen.edgesMm!)).toBe(seen.readOutMm);
    }
    const plain = doneOf(
      acted(surveyIn(crooked('aids')), ...standing),
      read('S', { surface: 'left', yMm: 0, zMm: 900 }),
    );
    expect(plain.readOutMm).toBeUndefined();
  });
});

describe('a rule held out of square', () => {
  it('reads d √(1 + a² + b²): always long, never short, whichever way', () => {
    const survey = acted(surveyIn(crooked('tilt')), ...standing);
    const place: SurfacePlace = { surface: 'left', yMm: 200, zMm: 1200 };
    const square = middleOf(doneOf(survey, read('S', place)));
    for (const [a, b] of [
      [50, 0],
      [-50, 0],
      [0, 120],
      [0, -120],
      [80, -60],
      [300, 300],
    ] as const) {
      const seen = middleOf(doneOf(survey, { act: 'read', datum: 'S', place, skewMmPerM: [a, b] }));
      expect(seen).toBeGreaterThan(square);
      expect(seen).toBeCloseTo(square * Math.sqrt(1 + (a / 1000) ** 2 + (b / 1000) ** 2), 6);
    }
  });

  it('by the hand alone is long in the mean, by about half of d times the tilt’s two variances, seeds "hand 0" to "hand 299"', () => {
    const long: number[] = [];
    for (let i = 0; i < 300; i++) {
      const survey = acted(surveyIn({ seed: `hand ${i}` }, { errors: true }), ...standing);
      const { rule } = survey.world;
      const level = { x: 0, y: 0, height: 1100 };
      const place: SurfacePlace = { surface: 'floor', xMm: 0, yMm: 100 };
      const d = Math.abs(ownDistance(survey, { level, datum: 'L' }, ownPoint(survey, place)));
      // What the rule itself adds, over five legs and a half, is taken out again.
      const joints = rule.joints.slice(0, Math.ceil(d / 200) - 1).reduce((sum, j) => sum + j, 0);
      long.push(middleOf(doneOf(survey, read('L', place))) - d - rule.zero - rule.scale * d - joints);
    }
    const { mean, deviation } = meanAndDeviation(long);
    expect(Math.abs(mean - (1100 * 2 * 0.006 ** 2) / 2)).toBeLessThan((4.5 * deviation) / Math.sqrt(300));
    expect(mean).toBeGreaterThan(0);
  });
});

describe('chance in readings', () => {
  const errors = { errors: true };
  const place: SurfacePlace = { surface: 'left', yMm: 100, zMm: 900 };
  const fresh = acted(surveyIn(crooked('chance'), errors), ...standing);
  const edges = (survey: Survey, act: Act) => doneOf(survey, act).edgesMm!;

  it('reading again is a fresh draw, and the same draw in the same survey', () => {
    const first = edges(fresh, read('S', place));
    const once = acted(fresh, read('S', place));
    const again = edges(once, read('S', place));
    expect(edges(fresh, read('S', place))).toEqual(first);
    expect(again).not.toEqual(first);
    const tenth = Array.from({ length: 10 }).reduce<Survey>((now) => acted(now, read('S', place)), fresh);
    const all = tenth.readings.map((r) => r.edgesMm.join());
    // Edges are seen to 0.1 mm and deviate by 0.15: some come out alike.
    expect(new Set(all).size).toBeGreaterThan(4);
  });

  it('a refusal uses no draw up', () => {
    const refusals: readonly Act[][] = [
      [read('S2', place)],
      [{ act: 'move', byXMm: 0, byYMm: 0 }, read('S', place), { act: 'settle' }],
      [read('S', { surface: 'left', yMm: 100, zMm: 2900 })],
      [{ act: 'span', place, to: 'floor' }],
    ];
    const want = edges(fresh, read('S', place));
    for (const acts of refusals) {
      const after = acts.reduce<Survey>((now, act) => perform(now, act).survey, fresh);
      expect(after.entries.some((e) => !e.outcome.ok)).toBe(true);
      expect(edges(after, read('S', place))).toEqual(want);
    }
  });

  it('nor does a reading elsewhere, or from another kind of datum', () => {
    const want = edges(acted(fresh, read('S', place)), read('S', place));
    const others = acted(
      fresh,
      read('S', { surface: 'left', yMm: 100, zMm: 930 }),
      read('S', place),
      read('S', { surface: 'right', yMm: 100, zMm: 900 }),
      read('F', { surface: 'back', xMm: 0, zMm: 900 }),
      { act: 'span', place, to: 'right' },
      { act: 'note', text: 'x' },
    );
    expect(edges(others, read('S', place))).toEqual(want);
  });

  it('a place 2 mm on has draws of its own: 200 pairs know nothing of each other', () => {
    const level: OwnLevel = { x: 0, y: 0, height: 1100 };
    const noise = (zMm: number) => {
      const at: SurfacePlace = { surface: 'left', yMm: 100, zMm };
      const own = Math.abs(ownDistance(fresh, { level, datum: 'S' }, ownPoint(fresh, at)));
      return middleOf(doneOf(fresh, read('S', at))) - own;
    };
    const pairs = Array.from({ length: 200 }, (_, i) => [noise(300 + 8 * i), noise(302 + 8 * i)] as const);
    const [a, b] = [meanAndDeviation(pairs.map((p) => p[0])), meanAndDeviation(pairs.map((p) => p[1]))];
    expect(a.deviation).toBeGreaterThan(0.05);
    const together = pairs.reduce((sum, [p, q]) => sum + (p - a.mean) * (q - b.mean), 0) / 199;
    expect(Math.abs(together / (a.deviation * b.deviation))).toBeLessThan(4.5 / Math.sqrt(200));
  });

  it('edges are seen to 0.1 mm, the near one first', () => {
    for (const [datum, at] of places) {
      const [near, far] = edges(fresh, read(datum, at));
      for (const mm of [near, far]) expect(Math.round(mm * 10) / 10).toBe(mm);
      expect(far).toBeGreaterThanOrEqual(near);
    }
  });
});

describe('tape and diagonal', () => {
  it('without error, a span runs square across the hand’s frame from wall to wall', () => {
    const survey = surveyIn(crooked('span'));
    const { xAxis } = survey.world.hand;
    for (const zMm of [200, 1000, 2000]) {
      const from = ownPoint(survey, { surface: 'left', yMm: 200, zMm });
      // Along the hand's x, to where the right wall is met, by going to and fro.
      let run = 1000;
      for (let i = 0; i < 40; i++) {
        const y = from.y + run * xAxis.y;
        const at = ownPoint(survey, placeAtRoom(survey, { y, z: from.z }));
        run = (at.x - from.x) / xAxis.x;
      }
      const { tapeMm } = doneOf(survey, { act: 'span', place: { surface: 'left', yMm: 200, zMm }, to: 'right' });
      expect(Math.abs(tapeMm! - run)).toBeLessThan(1e-5);
    }
  });

  it('a span from the floor runs plumb', () => {
    const survey = surveyIn(crooked('plumb'));
    const from = ownPoint(survey, { surface: 'floor', xMm: 100, yMm: 200 });
    const up = ownPoint(survey, { surface: 'ceiling', xMm: 100, yMm: 200 });
    const { tapeMm } = doneOf(survey, { act: 'span', place: { surface: 'floor', xMm: 100, yMm: 200 }, to: 'ceiling' });
    // The floor and the ceiling take the hand's place at the same plan point.
    expect(Math.abs(tapeMm! - (up.z - from.z))).toBeLessThan(1e-6);
  });

  it('without error, a diagonal is the distance', () => {
    const survey = surveyIn(crooked('diagonal'));
    const [from, to] = [
      { surface: 'left' as const, yMm: 0, zMm: 300 },
      { surface: 'right' as const, yMm: 420, zMm: 1900 },
    ];
    const [a, b] = [ownPoint(survey, from), ownPoint(survey, to)];
    const { tapeMm } = doneOf(survey, { act: 'diagonal', from, to });
    expect(tapeMm!).toBeCloseTo(Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z), 6);
  });

  it('with errors, a tape bends short in a corner, by 0 to 2.5 mm, and is read to 0.1 mm', () => {
    const short: number[] = [];
    for (let i = 0; i < 300; i++) {
      const room = { seed: `tape ${i}` };
      const span: Act = { act: 'span', place: { surface: 'left', yMm: 200, zMm: 900 }, to: 'right' };
      const [exact, seen] = [
        doneOf(surveyIn(room), span).tapeMm!,
        doneOf(surveyIn(room, { errors: true }), span).tapeMm!,
      ];
      expect(Math.round(seen * 10) / 10).toBe(seen);
      short.push(exact - seen);
    }
    // An even draw of 0 to 2.5 has the mean 1.25.
    const { mean, deviation } = meanAndDeviation(short);
    expect(Math.abs(mean - 1.25)).toBeLessThan((4.5 * deviation) / Math.sqrt(300));
    expect(deviation).toBeGreaterThan(0.6);
    expect(deviation).toBeLessThan(1.2);
  });

  /** The hand's place of a point of the right wall, given in the room. */
  function placeAtRoom(survey: Survey, room: { y: number; z: number }): SurfacePlace {
    const { shift, xAxis } = survey.world.hand;
    const across = straightAt(survey, 'right');
    // y = shift.y + sin x + cos y: the hand's y whose straight place has this room y.
    return { surface: 'right', yMm: (room.y - shift.y - xAxis.y * across) / xAxis.x, zMm: room.z - shift.z };
  }
});

describe('what is fixed to a wall', () => {
  const skirting: Trim = {
    name: 'skirting left',
    kind: 'skirting',
    surface: 'left',
    uMm: [-296, 756],
    vMm: [-256, 145],
    profile: {
      along: 'v',
      mm: [
        [-256, 18],
        [125, 18],
        [145, 9],
      ],
    },
  };
  const socket: Trim = {
    name: 'socket box',
    kind: 'skirting',
    surface: 'right',
    uMm: [150, 250],
    vMm: [850, 950],
    profile: {
      along: 'v',
      mm: [
        [850, 40],
        [950, 40],
      ],
    },
  };
  const fates = { 'skirting left': 'off', 'socket box': 'stays' } as const;
  const room = { trims: [skirting, socket], seed: 'fixed' };

  it('is what the rule’s end is on, until it is cleared', () => {
    const survey = acted(surveyIn(room, { brief: { fates } }), ...standing);
    const low = read('S', { surface: 'left', yMm: 100, zMm: 60 });
    const before = doneOf(survey, low);
    expect(before.on).toBe('skirting left');
    const cleared = acted(survey, { act: 'clear', trim: 'skirting left' });
    const after = doneOf(cleared, low);
    expect(after.on).toBe('left');
    expect(middleOf(after) - middleOf(before)).toBeCloseTo(18, 3);
    expect(outcomeOf(cleared, { act: 'clear', trim: 'skirting left' }).ok).toBe(false);
  });

  it('is in the way of a rule that would pass through it', () => {
    const survey = acted(surveyIn(room, { brief: { fates } }), ...standing);
    // Down from the level line to the floor, 10 mm off the wall: through the skirting.
    const low = read('L', { surface: 'floor', xMm: -490, yMm: 100 });
    expect(outcomeOf(survey, low)).toMatchObject({ ok: false, error: { code: 'rule/blocked', by: 'skirting left' } });
    const cleared = acted(survey, { act: 'clear', trim: 'skirting left' });
    expect(outcomeOf(cleared, low).ok).toBe(true);
  });

  it('takes the marks on it along when it comes off', () => {
    const survey = acted(
      surveyIn(room, { brief: { fates } }),
      ...standing,
      { act: 'mark', place: { surface: 'left', along: 'F', zMm: 60 } },
      { act: 'mark', place: { surface: 'left', along: 'F', zMm: 600 } },
    );
    const lost = doneOf(survey, { act: 'clear', trim: 'skirting left' });
    expect(lost.marksLost).toEqual([1]);
    const cleared = acted(survey, { act: 'clear', trim: 'skirting left' });
    expect(cleared.marks.map((m) => m.mark)).toEqual([2]);
    expect(outcomeOf(cleared, { act: 'aim', plane: 'F', at: { mark: 1 } })).toMatchObject({
      error: { code: 'place/no-such-mark' },
    });
    // A number is never given twice.
    const next = doneOf(cleared, { act: 'mark', place: { surface: 'left', along: 'F', zMm: 60 } });
    expect(next.mark).toBe(3);
  });
});

describe('the log', () => {
  it('replays without drawing: folding outcomes gives the same readings', () => {
    const survey = acted(
      surveyIn(crooked('fold'), { errors: true }),
      ...standing,
      ...places.map(([d, p]) => read(d, p)),
    );
    const again = survey.entries.reduce<Survey>(
      (now, e) => fold(now, e.act, e.outcome),
      surveyIn(crooked('fold'), { errors: true }),
    );
    // But for what a surface keeps of its own bounds once it was asked.
    expect({ ...again, world: null }).toEqual({ ...survey, world: null });
    // What is logged is what counts: another number there is what is replayed.
    const e = survey.entries[2]!;
    if (!e.outcome.ok) throw new Error('refused');
    const other = fold(acted(surveyIn(crooked('fold'), { errors: true }), ...standing), e.act, {
      ...e.outcome,
      edgesMm: [1, 2],
    });
    expect(other.readings[0]!.edgesMm).toEqual([1, 2]);
  });

  it('where a mark is read, its own point counts', () => {
    const survey = acted(surveyIn(crooked('mark')), ...standing, {
      act: 'mark',
      place: { surface: 'left', along: 'F', zMm: 700 },
    });
    const p: RoomPoint = survey.marks[0]!.point;
    const level: OwnLevel = { x: 0, y: 0, height: 1100 };
    const seen = middleOf(doneOf(survey, { act: 'read', datum: 'S', place: { mark: 1 } }));
    expect(seen).toBeCloseTo(Math.abs(ownDistance(survey, { level, datum: 'S' }, p)), 6);
  });
});
