/**
 * What stands in the way of a straight line in the room.
 */
import { describe, expect, it } from 'vitest';
import { buildRecess } from '../../src/recess/recess.ts';
import type { Trim } from '../../src/recess/recess-spec.ts';
import { blockedBy, directionBetween, stepped } from '../../src/survey/sight.ts';
import { surfaceAt } from '../helpers/measuring.ts';
import { roomSpec } from '../helpers/rooms.ts';

const rail: Trim = {
  name: 'rail',
  kind: 'skirting',
  surface: 'left',
  uMm: [0, 500],
  vMm: [900, 1000],
  profile: {
    along: 'v',
    mm: [
      [900, 30],
      [1000, 10],
    ],
  },
};
const room = buildRecess(roomSpec({ defects: { left: [{ kind: 'bow', mm: 12, crownV: 1200 }] } }));
const p = (x: number, y: number, z: number) => ({ x, y, z });
const between = (from: ReturnType<typeof p>, to: ReturnType<typeof p>, trims: readonly Trim[] = []) =>
  blockedBy(room, trims, { from, to });

describe('a straight way', () => {
  it('through the open room is free', () => {
    expect(between(p(-400, 20, 100), p(400, 480, 2300))).toBeNull();
    expect(between(p(0, -3000, 1100), p(0, 490, 1100))).toBeNull();
  });

  it.each([
    ['left', p(0, 200, 1000), p(-520, 200, 1000)],
    ['right', p(0, 200, 1000), p(520, 200, 1000)],
    ['back', p(0, 200, 1000), p(0, 520, 1000)],
    ['floor', p(0, 200, 1000), p(0, 200, -20)],
    ['ceiling', p(0, 200, 1000), p(0, 200, 2420)],
  ] as const)('through the %s is blocked by it', (side, from, to) => {
    expect(between(from, to)).toBe(side);
  });

  it('over a belly is blocked where a chord between free ends runs through it', () => {
    // 2 mm off the wall low and high: the belly of 12 between is in the way.
    const at = (z: number) => surfaceAt(room, 'left', 200, z) + 2;
    expect(between(p(at(100), 200, 100), p(at(2300), 200, 2300))).toBe('left');
    const clear = surfaceAt(room, 'left', 200, 1200) + 0.5;
    expect(between(p(clear, 200, 100), p(clear, 200, 2300))).toBeNull();
  });

  it('past a band is blocked by what it projects there, its edges closed', () => {
    const off = (z: number, mm: number) => p(surfaceAt(room, 'left', 250, z) + mm, 250, z);
    const along = (z: number, mm: number) => between(p(off(z, mm).x, -200, z), p(off(z, mm).x, 450, z), [rail]);
    expect(along(950, 19)).toBe('rail');
    expect(along(950, 21)).toBeNull();
    expect(along(1000, 9)).toBe('rail');
    expect(along(1000.5, 9)).toBeNull();
    expect(between(p(-485, 250, 880), p(-485, 250, 1100))).toBeNull();
    expect(between(p(-485, 250, 880), p(-485, 250, 1100), [rail])).toBe('rail');
  });

  it('the breast’s wall begins at the mouth, the party wall runs on', () => {
    const out = (side: 1 | -1) => between(p(side * 400, -80, 1000), p(side * 700, -80, 1000));
    expect(out(1)).toBeNull();
    expect(out(-1)).toBe('left');
    expect(between(p(400, -20, 1000), p(700, -20, 1000))).toBe('right');
  });
});

describe('steps and directions', () => {
  it('are of unit length', () => {
    const d = directionBetween(p(1, 2, 3), p(4, 6, 15));
    expect(Math.hypot(d.x, d.y, d.z)).toBeCloseTo(1, 14);
    expect(stepped(p(1, 2, 3), d, 13)).toEqual({ x: 4, y: 6, z: 15 });
    expect(directionBetween(p(1, 1, 1), p(1, 1, 1))).toEqual({ x: 1, y: 0, z: 0 });
  });
});
