/** Sloped and notched carcasses in rooms so true that every number can be worked out by hand. */
import { describe, expect, it } from 'vitest';
import type { Brief, CarcassSizes } from '../../src/exercise/brief.ts';
import { turnUpFrom, turnUpHeight } from '../../src/exercise/standing-up.ts';
import { throughDoor } from '../../src/exercise/way-in.ts';
import { type AnswerKey, answerKey, type KeyAsked } from '../../src/marking/answer-key.ts';
import { pushIn } from '../../src/marking/push-in.ts';
import { siteOf } from '../../src/marking/site.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { type RecessSpec, reachMm, type Trim } from '../../src/recess/recess-spec.ts';
import { rightRule } from '../../src/survey/size.ts';
import { exerciseIn, type RoomWith, roomSpec } from '../helpers/rooms.ts';

// 1000 wide, 500 deep; the slope stands 1200 up at its low edge, on the left, and rises 700 a metre: 1900 on the right.
const slope: NonNullable<RecessSpec['slope']> = { low: 'left', lowMm: 1200, riseMmPerM: 700 };
const flat = { offsetMm: 0, wobbleMm: 0, defects: [] };
const reach = 500 + reachMm;

function sloped(
  having: RoomWith & { readonly slopeDefects?: NonNullable<RecessSpec['surfaces']['slope']>['defects'] } = {},
) {
  const spec = roomSpec({ breastSide: null, ...having });
  return { ...spec, slope, surfaces: { ...spec.surfaces, slope: { ...flat, defects: having.slopeDefects ?? [] } } };
}

// 900 wide it stands from -450 to 450; the slope is 1235 and 1865 up there, its line 20 lower, over a plinth of 100.
const edge = { low: 'left', lowMm: 1115, highMm: 1745, find: true } as const;
const nominal = { widthMm: 900, heightMm: 1600, depthMm: 400, slope: { leftMm: 1115, rightMm: 1745 } };
const made = (mm: number) => ({ nominalMm: mm, find: true });
const brief: Partial<Brief> = {
  carcassMm: { width: made(900), height: made(1600), depth: made(400) },
  slope: edge,
  askMm: { left: 3, right: 3, top: 6, back: 8 },
};

function keyOf(spec: RecessSpec, asked: KeyAsked = {}, change: Partial<Brief> = {}): AnswerKey {
  const result = answerKey(buildRecess(spec), exerciseIn(spec, { brief: { ...brief, ...change } }), asked);
  if (!result.ok) throw new Error(result.error.says);
  return result.key;
}

describe('a carcass under a true slope', () => {
  const key = keyOf(sloped(), { carcass: nominal });

  it('has what its line stands under the slope, and the walls and the back as a box has', () => {
    expect(key.carcass).toMatchObject({ fits: 'yes', goesInBare: true, slope: nominal.slope });
    expect(key.carcass!.clearanceMm).toMatchObject({ left: 50, right: 50, back: 80 });
    expect(key.carcass!.clearanceMm.top).toBeCloseTo(20, 3);
    expect(key.carcass!.tightest.find(({ side }) => side === 'top')).toMatchObject({ on: 'slope' });
  });

  it('its highest edge is the slope itself, over its bottom', () => {
    expect(key.slope!.lowMm).toBeCloseTo(1135, 2);
    expect(key.slope!.highMm).toBeCloseTo(1765, 2);
  });

  it('its flat top rises along the edge, to its high end: nothing else is over it', () => {
    expect(key.tallestMm).toBeCloseTo(1745, 2);
    expect(key.widestMm).toBeCloseTo(1000, 3);
    expect(key.deepestMm).toBeCloseTo(480, 3);
  });

  it('a ceiling stops it where it meets the line', () => {
    const low = keyOf(sloped({ offsets: { ceiling: 850 } }), {}, {});
    // The ceiling is 1550 up: 1450 over the bottom.
    expect(low.tallestMm).toBeCloseTo(1450, 2);
  });

  it('the smallest blank that covers is cut along the slope', () => {
    const { opening } = key;
    expect(opening).toMatchObject({ widthMm: 1000, heightMm: 1900 });
    expect(opening!.slope!.leftMm).toBeCloseTo(1200, 2);
    expect(opening!.slope!.rightMm).toBeCloseTo(1900, 2);
    const blank = { widthMm: 1000, heightMm: 1910, bottomMm: 0, leftMm: -500, slope: { leftMm: 1204, rightMm: 1912 } };
    const { frame } = keyOf(sloped(), { frame: blank });
    expect(frame!.slope!.stockMm[0]).toBeCloseTo(4, 2);
    expect(frame!.slope!.stockMm[1]).toBeCloseTo(12, 2);
    expect(frame!.stockMm.top[0]).toBeCloseTo(10, 2);
  });
});

describe('what is met where the side draws back', () => {
  const rail = (from: number, out: number): Trim => ({
    name: 'rail',
    kind: 'picture-rail',
    surface: 'left',
    uMm: [-40 - reachMm, reach],
    vMm: [from, from + 30],
    profile: {
      along: 'v',
      mm: [
        [from, out],
        [from + 30, out],
      ],
    },
  });
  const clear = (trim: Trim) => keyOf(sloped({ trims: [trim] }), { carcass: nominal }).carcass!.clearanceMm;

  it('a rail well over the low side, where the edge has drawn back further than it stands out, is not met', () => {
    // Its foot is 85 over the side's 1215: there the edge has drawn back 85 / 0.7, more than the rail is thick.
    expect(clear(rail(1300, 40)).left).toBe(50);
  });

  it('one just over it is, by what it stands out more than the edge has drawn back', () => {
    // Foot 7 over the side: 10 drawn back, 40 out, so 30 are taken off the width there, shared by both sides.
    expect(clear(rail(1222, 40)).left).toBeCloseTo(50 - 30 / 2, 3);
    expect(clear(rail(1222, 40)).right).toBeCloseTo(50 - 30 / 2, 3);
  });
});

describe('a notched carcass', () => {
  const beam: Trim = {
    name: 'beam',
    kind: 'beam',
    surface: 'ceiling',
    uMm: [300, reach],
    vMm: [-40 - reachMm, 500 + reachMm],
    profile: {
      along: 'u',
      mm: [
        [300, 250],
        [reach, 250],
      ],
    },
  };
  const spec = roomSpec({ breastSide: null, trims: [beam] });
  const notch = { side: 'right', widthMm: 170, heightMm: 260 } as const;
  const tall = { carcassMm: { width: made(900), height: made(2280), depth: made(400) }, notch } as const;
  const whole = (change: Partial<CarcassSizes> = {}): CarcassSizes => ({
    widthMm: 900,
    heightMm: 2280,
    depthMm: 400,
    ...change,
  });
  const of = (carcass: CarcassSizes) => {
    const exercise = exerciseIn(spec, { brief: { ...brief, ...tall, slope: undefined } as Partial<Brief> });
    const { slope: _, ...own } = exercise.brief;
    const recess = buildRecess(spec);
    const result = answerKey(recess, { ...exercise, brief: own as Brief }, { carcass });
    if (!result.ok) throw new Error(result.error.says);
    return { key: result.key, pushed: pushIn(siteOf(recess, { ...exercise, brief: own as Brief }), carcass) };
  };

  it('goes in past a beam that a box does not pass', () => {
    const { key, pushed } = of(whole({ notch }));
    // Ceiling 2400, bottom 100: 20 over the top. Under the beam 2150 - 100 - 2020 = 30.
    expect(key.carcass).toMatchObject({ goesInBare: true, fits: 'yes' });
    expect(key.carcass!.clearanceMm.top).toBeCloseTo(20, 3);
    expect(pushed!.shortMm).toBe(0);
    expect(of(whole()).key.carcass!.goesInBare).toBe(false);
    expect(key.tallestMm).toBeCloseTo(2300, 3);
  });

  it('does not where the notch is too narrow for where it can stand', () => {
    // The beam begins at 300; between the walls its right edge stands from 400 to 500, so a notch of 90 is too narrow.
    expect(of(whole({ notch: { ...notch, widthMm: 90 } })).key.carcass!.goesInBare).toBe(false);
    // One of 110 is wide enough if it stands to the left.
    const { key, pushed } = of(whole({ notch: { ...notch, widthMm: 110 } }));
    expect(key.carcass).toMatchObject({ fits: 'no', goesInBare: true });
    expect(pushed!.carcass.leftMm + 900 - 110).toBeLessThanOrEqual(300);
  });
});

describe('standing up and coming in', () => {
  const pentagon: CarcassSizes = { widthMm: 900, heightMm: 1600, depthMm: 400, slope: { leftMm: 1115, rightMm: 1745 } };

  it('on its back it turns as a box of its highest point does', () => {
    expect(turnUpFrom('back', pentagon, 0)).toBeCloseTo(Math.hypot(1600, 400), 9);
    expect(turnUpFrom('back', { ...pentagon, heightMm: 1800 }, 0)).toBeCloseTo(Math.hypot(1745, 400), 9);
  });

  it('on its high side the corner that the slope takes off never comes over', () => {
    // Knee at (1600 - 1115) / 0.7 = 692.857 from the low edge: 207.143 from the high one.
    const knee = 900 - 485 / 0.7;
    expect(turnUpFrom('right', pentagon, 0)).toBeCloseTo(Math.max(Math.hypot(knee, 1600), Math.hypot(900, 1115)), 9);
    expect(turnUpFrom('left', pentagon, 0)).toBeCloseTo(Math.hypot(900, 1600), 9);
    expect(turnUpHeight({ ...pentagon, depthMm: 800 }, 0)).toBe(turnUpFrom('right', pentagon, 0));
  });

  it('the greatest height is what turning it, a ten-thousandth of a right angle at a time, shows', () => {
    const corners = [
      [0, 0],
      [900, 0],
      [900, 1600],
      [485 / 0.7, 1600],
      [0, 1115],
    ];
    for (const [from, turned] of [
      ['left', (x: number) => x],
      ['right', (x: number) => 900 - x],
    ] as const) {
      let highest = 0;
      for (let k = 0; k <= 10_000; k++) {
        const a = ((Math.PI / 2) * k) / 10_000;
        for (const [x, z] of corners) highest = Math.max(highest, z! * Math.cos(a) + turned(x!) * Math.sin(a));
      }
      expect(turnUpFrom(from, pentagon, 0)).toBeCloseTo(highest, 4);
    }
  });

  it('comes through a door as the box around it does', () => {
    expect(throughDoor({ widthMm: 800, heightMm: 2000 }, { ...pentagon, heightMm: 1800 })).toBe(400);
    expect(throughDoor({ widthMm: 410, heightMm: 890 }, pentagon)).toBe(-10);
  });
});

describe('the right rule of a sloped edge', () => {
  const along = (xMm: number, valueMm: number) => ({ side: 'slope' as const, xMm, valueMm });
  const where = { lowMm: -450, highMm: 450, middleMm: 0 };
  const terms = [
    { side: 'floor' as const, valueMm: 905 },
    { side: 'floor' as const, valueMm: 902 },
    ...[-400, -200, 0, 200, 400].map((x) => along(x, 600 + 0.7 * x - (x === 200 ? 6 : 0))),
  ];

  it('is the line under all offsets that stands highest at the middle, at each edge, with the floor’s least', () => {
    // It rests on -400 and 200, where the slope comes down by 6: a pitch of 0.7 - 6 / 600.
    const low = rightRule('slope-low', terms, where)!;
    expect(low.valueMm).toBeCloseTo(902 + 320 - 0.69 * 50, 9);
    expect(low.counting.map((i) => terms[i]!.valueMm)).toEqual([902, 320, 734]);
    expect(rightRule('slope-high', terms, where)!.valueMm).toBeCloseTo(902 + 320 + 0.69 * 850, 9);
  });

  it('is nothing without offsets on both sides of the middle, or without a place', () => {
    expect(rightRule('slope-low', terms.slice(0, 4), where)).toBeNull();
    expect(rightRule('slope-low', terms)).toBeNull();
  });
});
