/**
 * The way in: the door by the two smaller sizes, the turn as the ladder round a corner.
 *
 * @source the longest ladder that goes round a corner from a way a wide into one b wide is (a^(2/3) + b^(2/3))^(3/2): a worked
 *   example of textbooks on calculus (from memory); every other angle is tried one by one
 */
import { describe, expect, it } from 'vitest';
import { roundCorner, roundTurn, throughDoor, wayIn } from '../../src/exercise/way-in.ts';
import { cornerByTrying } from '../oracle/lining.ts';
import { drawsOf } from '../prove/draws.ts';

const sizes = (widthMm: number, heightMm: number, depthMm: number) => ({ widthMm, heightMm, depthMm });

describe('through a door', () => {
  it('the two smaller sizes count, whichever they are', () => {
    const door = { widthMm: 726, heightMm: 1981 };
    for (const s of [sizes(1200, 2100, 560), sizes(560, 1200, 2100), sizes(2100, 560, 1200)])
      expect(throughDoor(door, s)).toBe(726 - 560);
    expect(throughDoor(door, sizes(2000, 2100, 560))).toBe(1981 - 2000);
    expect(throughDoor(door, sizes(1200, 2100, 740))).toBe(726 - 740);
  });
});

describe('round a corner', () => {
  it.each([
    [1000, 1000],
    [800, 1100],
    [900, 1300],
  ])('a ladder without breadth between %i and %i is as long as the textbook says', (a, b) => {
    const longest = (a ** (2 / 3) + b ** (2 / 3)) ** 1.5;
    const turn = { beforeMm: a, afterMm: b };
    expect(Math.abs(roundCorner(turn, { long: longest, broad: 0 }))).toBeLessThan(0.001);
    expect(roundCorner(turn, { long: longest - 5, broad: 0 })).toBeGreaterThan(0);
    expect(roundCorner(turn, { long: longest + 5, broad: 0 })).toBeLessThan(0);
  });

  it('is what trying every angle gives, 200 drawn turns', () => {
    const draws = drawsOf('way-in', 1);
    for (let i = 0; i < 200; i++) {
      const turn = { beforeMm: draws.between(600, 1500), afterMm: draws.between(600, 1500) };
      const long = draws.between(400, 2600);
      const of = { long, broad: draws.between(100, long) };
      expect(Math.abs(roundCorner(turn, of) - cornerByTrying(turn.beforeMm, turn.afterMm, of))).toBeLessThan(0.001);
    }
  });

  it('a piece that is short both ways goes round without being turned', () => {
    expect(roundCorner({ beforeMm: 800, afterMm: 800 }, { long: 790, broad: 790 })).toBe(10);
  });
});

describe('round a turn', () => {
  it('the best of three ways up counts, under the height over it', () => {
    const turn = { beforeMm: 900, afterMm: 900, heightMm: 2000 };
    const flat = roundCorner(turn, { long: 1500, broad: 400 });
    expect(roundTurn(turn, sizes(1500, 1900, 400))).toBe(Math.min(flat, 100));
    expect(roundTurn({ ...turn, heightMm: 1850 }, sizes(1500, 1900, 400))).toBeLessThan(100);
  });
});

describe('the brief’s questions', () => {
  const access = { clearHeightMm: 2300, plinthSeparate: true };
  it('are those that it tells of', () => {
    expect(wayIn({ access: null }, sizes(1, 1, 1))).toBeNull();
    expect(wayIn({ access }, sizes(1, 1, 1))).toBeNull();
    const door = { widthMm: 700, heightMm: 2000 };
    expect(wayIn({ access: { ...access, door } }, sizes(900, 2100, 690))).toEqual({ door: { ok: true, byMm: 10 } });
    const turn = { beforeMm: 900, afterMm: 900, heightMm: 2000 };
    const both = wayIn({ access: { ...access, door, turn } }, sizes(900, 2100, 720));
    expect(both?.door).toEqual({ ok: false, byMm: -20 });
    expect(both?.turn?.ok).toBe((both?.turn?.byMm ?? -1) >= 0);
  });
});
