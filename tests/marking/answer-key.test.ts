/**
 * The answer key: closed forms in rooms of straight surfaces, and laws in drawn ones.
 */
import { describe, expect, it } from 'vitest';
import { nominalCarcass } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { type AnswerKey, answerKey, type KeyAsked } from '../../src/marking/answer-key.ts';
import { pushIn } from '../../src/marking/push-in.ts';
import { siteOf } from '../../src/marking/site.ts';
import { buildRecess, type Recess } from '../../src/recess/recess.ts';
import type { Trim } from '../../src/recess/recess-spec.ts';
import { drawnParts, exerciseIn, exerciseOf, roomSpec } from '../helpers/rooms.ts';

function keyOf(exercise: Exercise, asked?: KeyAsked, recess: Recess = buildRecess(exercise.spec)): AnswerKey {
  const found = answerKey(recess, exercise, asked);
  if (!found.ok) throw new Error(found.error.says);
  return found.key;
}
/** Control values are whole 1/1024 mm, and an extreme is known to 0.001. */
const near = 0.0025;

describe('a room of straight surfaces, worked by hand', () => {
  // 1000 x 2400 x 500; the carcass 940 x 2200 x 420 stands on a plinth of 100, its front 20 behind the face line.
  const exercise = exerciseIn(
    roomSpec({
      defects: {
        left: [{ kind: 'lean', mm: 8 }],
        right: [
          { kind: 'lean', mm: -8 },
          { kind: 'taper', mm: 5 },
        ],
        back: [{ kind: 'skew', mm: 6 }],
        floor: [{ kind: 'fall', mm: 6, towards: 'right' }],
        ceiling: [{ kind: 'fall', mm: 10, towards: 'back' }],
      },
    }),
    {
      brief: {
        carcassMm: {
          width: { nominalMm: 940, find: true },
          height: { nominalMm: 2200, find: true },
          depth: { nominalMm: 420, find: true },
        },
      },
    },
  );
  const key = keyOf(exercise, { carcass: { widthMm: 940, heightMm: 2200, depthMm: 420 } });
  const carcass = key.carcass!;
  // The floor is highest at the left: 3 over nominal.
  const bottom = 103;
  const top = 2303;
  // Left wall: x = -504 + 8 z / 2400, furthest in at the top. Right: 496 + 8 z / 2400, less its taper at the back.
  const leftIn = -504 + (8 * top) / 2400;
  const rightIn = 496 + (8 * bottom) / 2400 - 5 * (440 / 500 - 0.5);
  const at = (leftIn + 3 + rightIn - 3 - 940) / 2;

  it('stands over the floor’s high point, what is spare shared', () => {
    expect(Math.abs(carcass.at.bottomMm - bottom)).toBeLessThan(near);
    expect(Math.abs(carcass.at.leftMm - at)).toBeLessThan(near);
  });

  it('has its clearance on each side', () => {
    expect(Math.abs(carcass.clearanceMm.left! - (at - leftIn))).toBeLessThan(near);
    expect(Math.abs(carcass.clearanceMm.right! - (rightIn - at - 940))).toBeLessThan(near);
    // The ceiling is lowest at the carcass's back: 2405 - 10 x 440/500.
    expect(Math.abs(carcass.clearanceMm.top! - (2405 - 8.8 - top))).toBeLessThan(near);
    // The back is nearest at the carcass's right edge.
    expect(Math.abs(carcass.clearanceMm.back! - (500 - (6 * (at + 940)) / 1000 - 440))).toBeLessThan(near);
  });

  it('names where each is tightest', () => {
    const [left, right, over, behind] = carcass.tightest;
    expect([left!.side, right!.side, over!.side, behind!.side]).toEqual(['left', 'right', 'top', 'back']);
    expect(left!.atMm[2]).toBeCloseTo(top, 2);
    expect([right!.atMm[1], right!.atMm[2]]).toEqual([expect.closeTo(440, 3), expect.closeTo(bottom, 2)]);
    expect(over!.atMm[1]).toBeCloseTo(440, 3);
    expect(behind!.atMm[0]).toBeCloseTo(at + 940, 2);
    for (const t of carcass.tightest) expect(t.clearanceMm).toBe(carcass.clearanceMm[t.side]);
  });

  it('is widest, tallest, deepest each with the other two at the nominal', () => {
    expect(Math.abs(key.widestMm! - (rightIn - leftIn))).toBeLessThan(near);
    expect(Math.abs(key.tallestMm! - (2405 - 8.8 - bottom))).toBeLessThan(near);
    expect(Math.abs(key.deepestMm! - (500 - (6 * (at + 940)) / 1000 - 20))).toBeLessThan(near);
  });

  it('has its opening at the face line: widest of each wall over the section', () => {
    // At y = 0 the right wall's taper stands at +2.5. Corners lie where the walls meet the floor and the ceiling.
    const leftOut = -504 + (8 * 3.02) / 2400;
    expect(Math.abs(key.opening!.leftMm - leftOut)).toBeLessThan(0.005);
    const rightOut = 498.5 + (8 * 2405) / 2400;
    expect(Math.abs(key.opening!.leftMm + key.opening!.widthMm - rightOut)).toBeLessThan(0.005);
    // The floor is lowest at the right corner, where the wall stands at 498.5 + 8 x (-3)/2400.
    expect(Math.abs(key.opening!.bottomMm + (6 * 498.49) / 1000)).toBeLessThan(0.005);
    expect(Math.abs(key.opening!.bottomMm + key.opening!.heightMm - 2405)).toBeLessThan(0.005);
  });

  it('has plinth stock, margins and the width at the mouth', () => {
    expect(Math.abs(key.plinthMm[0] - 100)).toBeLessThan(near);
    expect(Math.abs(key.plinthMm[1] - 106)).toBeLessThan(near);
    // Over the carcass's front edge, 20 behind the face line.
    for (const margin of key.marginsMm!) expect(Math.abs(margin - (2405 - 0.4 - top))).toBeLessThan(near);
    const atMouth = 496 + (8 * bottom) / 2400 - 5 * (-40 / 500 - 0.5) - leftIn;
    expect(Math.abs(key.mouthWidthMm! - atMouth)).toBeLessThan(near);
  });

  it('holds a frame’s blank against the opening, centred unless it is placed', () => {
    const { widthMm, heightMm, leftMm, bottomMm } = key.opening!;
    const blank = { widthMm: widthMm + 12, heightMm: heightMm + 20 };
    const { frame } = keyOf(exercise, { frame: blank });
    expect(frame!.at.leftMm).toBeCloseTo(leftMm - 6, 3);
    expect(frame!.at.bottomMm).toBeCloseTo(bottomMm - 10, 3);
    expect([frame!.stockMm.left[0], frame!.stockMm.right[0], frame!.stockMm.bottom[0], frame!.stockMm.top[0]]).toEqual([
      expect.closeTo(6, 2),
      expect.closeTo(6, 2),
      expect.closeTo(10, 2),
      expect.closeTo(10, 2),
    ]);
    // What comes off most is the least and the wall's own run over the section: 8 of lean.
    expect(frame!.stockMm.left[1] - frame!.stockMm.left[0]).toBeCloseTo((8 * (2405 - 3.02)) / 2400, 2);
    const placed = keyOf(exercise, { frame: { ...blank, leftMm: leftMm + 2, bottomMm: bottomMm - 1 } }).frame!;
    expect(placed.stockMm.left[0]).toBeCloseTo(-2, 2);
    expect(placed.stockMm.right[0]).toBeCloseTo(14, 2);
    expect(placed.stockMm.bottom[0]).toBeCloseTo(1, 2);
  });

  it('prints no more than a ten-thousandth of a millimetre', () => {
    const numbers = JSON.stringify({ ...key, brief: null }).match(/-?\d+\.\d+/g)!;
    expect(numbers.length).toBeGreaterThan(20);
    for (const n of numbers) expect(n).toMatch(/\.\d{1,4}$/);
  });

  it('refuses what leaves the reach, and has no size where the other two do not go in', () => {
    const refuses = (widthMm: number, heightMm: number, depthMm: number) =>
      answerKey(buildRecess(exercise.spec), exercise, { carcass: { widthMm, heightMm, depthMm } });
    for (const found of [refuses(1600, 2200, 420), refuses(940, 2600, 420), refuses(940, 2200, 760)])
      expect(found).toMatchObject({ ok: false, error: { code: 'key/outside' } });
    expect(refuses(1100, 2200, 420)).toMatchObject({ ok: true, key: { carcass: { fits: 'no', goesInBare: false } } });
    const { carcassMm } = exercise.brief;
    const tooTall = {
      ...exercise,
      brief: { ...exercise.brief, carcassMm: { ...carcassMm, height: { nominalMm: 2350, find: true } } },
    };
    expect(keyOf(tooTall)).toMatchObject({ widestMm: null, deepestMm: null });
    expect(keyOf(tooTall).tallestMm).toBeGreaterThan(2290);
    const tooWide = {
      ...exercise,
      brief: { ...exercise.brief, carcassMm: { ...carcassMm, width: { nominalMm: 995, find: true } } },
    };
    expect(keyOf(tooWide)).toMatchObject({ tallestMm: null, deepestMm: null });
  });
});

describe('trims', () => {
  const skirting: Trim = {
    name: 'skirting left',
    kind: 'skirting',
    surface: 'left',
    uMm: [-296, 756],
    vMm: [-256, 300],
    profile: {
      along: 'v',
      mm: [
        [-256, 18],
        [280, 18],
        [300, 9],
      ],
    },
  };
  const cornice: Trim = {
    name: 'cornice back',
    kind: 'cornice',
    surface: 'ceiling',
    uMm: [-756, 756],
    vMm: [350, 756],
    profile: {
      along: 'v',
      mm: [
        [350, 10],
        [375, 80],
        [756, 80],
      ],
    },
  };
  const sizes = (heightMm: number) => ({
    width: { nominalMm: 940, find: true },
    height: { nominalMm: heightMm, find: true },
    depth: { nominalMm: 420, find: true },
  });
  const key = (fates: Exercise['brief']['fates'], plinthMm = 100) => {
    const carcassMm = sizes(plinthMm > 100 ? 1900 : 2200);
    return keyOf(exerciseIn(roomSpec({ trims: [skirting, cornice] }), { brief: { fates, plinthMm, carcassMm } }));
  };
  const off = { 'skirting left': 'off', 'cornice back': 'off' } as const;

  it('that stay count, those that come off or may be cut do not', () => {
    expect(key(off)).toMatchObject({ widestMm: 1000, tallestMm: 2300, deepestMm: 480 });
    expect(key({ 'skirting left': 'cut', 'cornice back': 'cut' })).toMatchObject({ widestMm: 1000, tallestMm: 2300 });
    expect(key({ ...off, 'skirting left': 'stays' }).widestMm).toBeCloseTo(982, 3);
    expect(key({ ...off, 'cornice back': 'stays' }).tallestMm).toBeCloseTo(2220, 3);
  });

  it('below the carcass are not in its way', () => {
    // 300 or 301 of plinth and a carcass of 2240 would stand too tall: a lower one is asked about.
    expect(key({ ...off, 'skirting left': 'stays' }, 301).widestMm).toBeCloseTo(1000, 3);
    // Its upper edge is closed.
    expect(key({ ...off, 'skirting left': 'stays' }, 300).widestMm).toBeCloseTo(991, 3);
  });

  it('leave their stretch out of the opening: the blank is notched round them', () => {
    const low: Trim = { ...skirting, vMm: [-256, 300] };
    const leaning = roomSpec({ trims: [low], defects: { left: [{ kind: 'lean', mm: 24 }] } });
    const opening = (fate: 'stays' | 'off') =>
      keyOf(exerciseIn(leaning, { brief: { fates: { 'skirting left': fate } } })).opening!;
    expect(opening('off').leftMm).toBeCloseTo(-512, 2);
    // From 300 up the wall stands at -512 + 24 x 300/2400.
    expect(opening('stays').leftMm).toBeCloseTo(-509, 2);
  });
});

describe('laws in 60 drawn rooms, seed "laws"', () => {
  const rooms = drawnParts('laws', 60)
    .map(exerciseOf)
    .map((exercise) => ({ exercise, recess: buildRecess(exercise.spec) }));
  const carcassKey = (
    { exercise, recess }: (typeof rooms)[number],
    widthMm: number,
    heightMm: number,
    depthMm: number,
  ) => keyOf(exercise, { carcass: { widthMm, heightMm, depthMm } }, recess).carcass!;

  it('each largest size is the nominal and the clearance that it has', () => {
    for (const { exercise, recess } of rooms) {
      const n = nominalCarcass(exercise.brief);
      const key = keyOf(exercise, { carcass: n }, recess);
      const { left, right, top, back } = key.carcass!.clearanceMm;
      expect(Math.abs(key.widestMm! - n.widthMm - left! - right!)).toBeLessThan(0.0003);
      expect(Math.abs(key.tallestMm! - n.heightMm - top!)).toBeLessThan(0.0003);
      expect(Math.abs(key.deepestMm! - n.depthMm - back!)).toBeLessThan(0.0003);
    }
  });

  it('the widest carcass touches: 0.02 wider does not go in bare, 0.02 narrower does when the others allow', () => {
    let allowed = 0;
    for (const room of rooms) {
      const { heightMm, depthMm } = nominalCarcass(room.exercise.brief);
      const { widestMm } = keyOf(room.exercise, {}, room.recess);
      const at = (by: number) => carcassKey(room, widestMm! + by, heightMm, depthMm);
      expect(at(0.02).goesInBare).toBe(false);
      const { clearanceMm, goesInBare } = at(-0.02);
      for (const side of ['left', 'right'] as const) expect(Math.abs(clearanceMm[side]! - 0.01)).toBeLessThan(0.0002);
      if (clearanceMm.top! >= 0 && clearanceMm.back! >= 0) {
        allowed++;
        expect(goesInBare).toBe(true);
      }
    }
    expect(allowed).toBeGreaterThan(50);
  });

  it('asked clearances are touched where just they are spare, and met or missed by 0.015 a side', () => {
    let free = 0;
    for (const room of rooms) {
      const { heightMm, depthMm } = nominalCarcass(room.exercise.brief);
      const { askMm } = room.exercise.brief;
      const { widestMm } = keyOf(room.exercise, {}, room.recess);
      const at = (by: number) => carcassKey(room, widestMm! - askMm.left - askMm.right + by, heightMm, depthMm);
      const { clearanceMm } = at(0);
      if (clearanceMm.top! < askMm.top + 0.1 || clearanceMm.back! < askMm.back + 0.1) continue;
      free++;
      expect([at(-0.03).fits, at(0).fits, at(0.03).fits]).toEqual(['yes', 'touches', 'no']);
    }
    expect(free).toBeGreaterThan(40);
  });

  it('a narrower carcass never has less clearance on any side, nor goes in where a wider one did not', () => {
    for (const room of rooms) {
      const { widthMm, heightMm, depthMm } = nominalCarcass(room.exercise.brief);
      let before = carcassKey(room, widthMm + 60, heightMm, depthMm);
      for (const by of [45, 30, 12, 0, -40, -200]) {
        const now = carcassKey(room, widthMm + by, heightMm, depthMm);
        for (const side of ['left', 'right', 'top', 'back'] as const)
          expect(now.clearanceMm[side]).toBeGreaterThanOrEqual(before.clearanceMm[side]! - 0.001);
        if (before.goesInBare) expect(now.goesInBare).toBe(true);
        before = now;
      }
    }
  });

  it('a lower carcass has as much between the walls, and goes in where a taller one did', () => {
    for (const room of rooms) {
      const { widthMm, heightMm, depthMm } = nominalCarcass(room.exercise.brief);
      let before = carcassKey(room, widthMm + 10, heightMm + 40, depthMm);
      for (const by of [20, 8, 0, -100, -700]) {
        const now = carcassKey(room, widthMm + 10, heightMm + by, depthMm);
        const between = (c: typeof now) => c.clearanceMm.left! + c.clearanceMm.right!;
        expect(between(now)).toBeGreaterThanOrEqual(between(before) - 0.001);
        if (before.goesInBare) expect(now.goesInBare).toBe(true);
        before = now;
      }
    }
  });

  it('a larger blank has as much more stock at each edge, and the opening itself covers with none', () => {
    for (const { exercise, recess } of rooms.slice(0, 30)) {
      const { opening } = keyOf(exercise, {}, recess);
      const stock = (by: number) =>
        keyOf(exercise, { frame: { widthMm: opening!.widthMm + by, heightMm: opening!.heightMm + by } }, recess).frame!
          .stockMm;
      for (const edge of ['left', 'right', 'top', 'bottom'] as const) {
        expect(Math.abs(stock(0)[edge][0])).toBeLessThan(0.002);
        expect(Math.abs(stock(9)[edge][0] - 4.5)).toBeLessThan(0.002);
        expect(stock(9)[edge][1]).toBeGreaterThanOrEqual(stock(9)[edge][0]);
      }
    }
  });

  it('what does not go in bare is stopped on its way, and what goes in with what is asked is not', () => {
    let stopped = 0;
    for (const room of rooms) {
      const { widthMm, heightMm, depthMm } = nominalCarcass(room.exercise.brief);
      for (const [w, h, d] of [
        [0, 0, 0],
        [45, 0, 0],
        [0, 50, 0],
        [0, 0, 40],
        [20, 20, 15],
      ] as const) {
        const sizes = { widthMm: widthMm + w, heightMm: heightMm + h, depthMm: depthMm + d };
        const key = carcassKey(room, sizes.widthMm, sizes.heightMm, sizes.depthMm);
        const pushed = pushIn(siteOf(room.recess, room.exercise), sizes)!;
        expect(pushed.homeMm - pushed.backMm).toBeCloseTo(pushed.shortMm, 9);
        if (!key.goesInBare) {
          stopped++;
          expect(pushed.shortMm).toBeGreaterThan(0);
          expect(pushed.stoppedBy).not.toBeNull();
        } else if (key.fits === 'yes') expect(pushed).toMatchObject({ shortMm: 0, stoppedBy: null });
      }
    }
    expect(stopped).toBeGreaterThan(40);
  });
});
