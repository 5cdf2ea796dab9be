/**
 * Bands: their profile, their closed edges, the deepest of several, and that they ride on the surface as it is.
 */
import { describe, expect, it } from 'vitest';
import { covers, deepestAt, highestOver, intersection, obstructionAt, piecesOf } from '../../src/recess/band.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { Trim } from '../../src/recess/recess-spec.ts';
import { heightOf, projectionAt } from '../helpers/measuring.ts';
import { roomSpec } from '../helpers/rooms.ts';

const skirting: Trim = {
  name: 'skirting left',
  kind: 'skirting',
  surface: 'left',
  uMm: [-100, 400],
  vMm: [0, 145],
  profile: {
    along: 'v',
    mm: [
      [0, 18],
      [125, 18],
      [145, 9],
    ],
  },
};
const rail: Trim = {
  name: 'rail',
  kind: 'skirting',
  surface: 'left',
  uMm: [200, 700],
  vMm: [100, 300],
  profile: {
    along: 'u',
    mm: [
      [200, 4],
      [300, 24],
      [700, 24],
    ],
  },
};
const wall = buildRecess(
  roomSpec({
    wobbleMm: 1.6,
    seed: 'bands',
    defects: {
      left: [
        { kind: 'lean', mm: 9 },
        { kind: 'bow', mm: 6, crownV: 900 },
      ],
    },
  }),
).fields.left;

describe('a profile', () => {
  it('is straight between its points', () => {
    for (const [v, out] of [
      [0, 18],
      [60, 18],
      [125, 18],
      [135, 13.5],
      [140, 11.25],
      [145, 9],
    ] as const)
      expect(deepestAt([skirting], { u: 50, v }).projection).toBeCloseTo(out, 12);
    for (const [u, out] of [
      [200, 4],
      [250, 14],
      [299, 23.8],
      [300, 24],
      [650, 24],
    ] as const)
      expect(deepestAt([rail], { u, v: 200 }).projection).toBeCloseTo(out, 12);
  });

  it('is cut into pieces that add up to the same', () => {
    for (const band of [skirting, rail]) {
      const pieces = piecesOf(band);
      expect(pieces).toHaveLength(band.profile.mm.length - 1);
      for (let u = -120; u <= 720; u += 17.5)
        for (let v = -10; v <= 320; v += 7.5) {
          const on = pieces.filter(({ rect }) => u >= rect.u0 && u <= rect.u1 && v >= rect.v0 && v <= rect.v1);
          const out = on.map(({ plus }) => plus.at + plus.perU * u + plus.perV * v);
          const mine = projectionAt(band, u, v);
          expect(on.length > 0).toBe(mine !== null);
          for (const each of out) expect(each).toBeCloseTo(mine!, 9);
        }
    }
  });
});

describe('edges', () => {
  it('are closed: the border counts, and nothing past it', () => {
    const past = 1e-9;
    for (const u of [-100, 400]) expect(covers(skirting, { u, v: 30 })).toBe(true);
    for (const v of [0, 145]) expect(covers(skirting, { u: 30, v })).toBe(true);
    for (const at of [
      { u: -100 - past, v: 30 },
      { u: 400 + past, v: 30 },
      { u: 30, v: -past },
      { u: 30, v: 145 + 1e-12 * 145 },
    ])
      expect(covers(skirting, at)).toBe(false);
    expect(deepestAt([skirting], { u: 50, v: 145.0001 })).toEqual({ band: null, projection: 0 });
  });

  it('a rectangle that only touches a band’s edge meets it', () => {
    const above = { u0: 0, u1: 100, v0: 145, v1: 145 };
    const bare = highestOver(wall, [], above).value;
    expect(highestOver(wall, [skirting], above).value).toBeCloseTo(bare + 9, 3);
    const clear = { u0: 0, u1: 100, v0: 145.001, v1: 145.001 };
    expect(highestOver(wall, [skirting], clear).value).toBeCloseTo(highestOver(wall, [], clear).value, 9);
    expect(intersection({ u0: 0, u1: 1, v0: 0, v1: 1 }, { u0: 1, u1: 2, v0: 0, v1: 1 })).toEqual({
      u0: 1,
      u1: 1,
      v0: 0,
      v1: 1,
    });
    expect(intersection({ u0: 0, u1: 1, v0: 0, v1: 1 }, { u0: 1.01, u1: 2, v0: 0, v1: 1 })).toBeNull();
  });
});

describe('where bands overlap', () => {
  it('the deepest counts, not the sum, in either order', () => {
    const at = { u: 300, v: 110 };
    for (const bands of [
      [skirting, rail],
      [rail, skirting],
    ]) {
      expect(deepestAt(bands, at)).toEqual({ band: rail, projection: 24 });
      expect(deepestAt(bands, { u: 210, v: 110 }).band).toBe(skirting);
      expect(deepestAt(bands, { u: 500, v: 110 }).band).toBe(rail);
    }
  });
});

describe('bands ride on the surface as it is', () => {
  it('the obstruction is the surface’s own and what projects', () => {
    for (let u = 0; u <= 500; u += 83)
      for (let v = 0; v <= 310; v += 31) {
        const out = Math.max(0, projectionAt(skirting, u, v) ?? 0, projectionAt(rail, u, v) ?? 0);
        expect(obstructionAt(wall, [skirting, rail], { u, v })).toBeCloseTo(heightOf(wall, u, v) + out, 8);
      }
  });

  it('the greatest over a rectangle is that of a dense grid, and never less', () => {
    const rects = [
      { u0: -40, u1: 480, v0: 50, v1: 1800 },
      { u0: 100, u1: 260, v0: 120, v1: 140 },
      { u0: 0, u1: 500, v0: 290, v1: 320 },
      { u0: 0, u1: 500, v0: 310, v1: 900 },
    ];
    for (const rect of rects) {
      const found = highestOver(wall, [skirting, rail], rect);
      let best = Number.NEGATIVE_INFINITY;
      for (let i = 0; i <= 60; i++)
        for (let j = 0; j <= 60; j++) {
          const u = rect.u0 + ((rect.u1 - rect.u0) * i) / 60;
          const v = rect.v0 + ((rect.v1 - rect.v0) * j) / 60;
          const out = Math.max(0, projectionAt(skirting, u, v) ?? 0, projectionAt(rail, u, v) ?? 0);
          best = Math.max(best, heightOf(wall, u, v) + out);
        }
      expect(found.bound).toBeGreaterThanOrEqual(best - 1e-9);
      expect(found.bound - found.value).toBeLessThanOrEqual(0.001);
      expect(found.value - best).toBeLessThan(0.25);
      expect(obstructionAt(wall, [skirting, rail], found)).toBeCloseTo(found.value, 6);
    }
  });
});
