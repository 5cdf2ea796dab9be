/**
 * The measuring rules on surfaces made by hand, whose readings are known in closed form.
 *
 * Surfaces are given as control values: a polynomial of degree 3 at most has those of its own blossom, so a parabola's are
 * its value at the control's place less a sixth of a knot step squared times its curvature; a plane's are its own values.
 */
import { describe, expect, it } from 'vitest';
import { evenly, type GapSurface, gapSurface, type Region } from './gap-surface.ts';
import { angleAlong, apartUpright, apartWithin, levelAcross, levellingGrid, straightEdge } from './tolerance-rules.ts';
import { type BuiltRoom, interpolated, sharesOf } from './tolerances.ts';

const flat = { at: 0, perU: 0 };

/** a + b u + c v + d u² + e v² + f uv over 1000 x 2400, mm; places in mm. */
function surface(
  of: { b?: number; c?: number; d?: number; e?: number; f?: number },
  cut: Region['cut'] = null,
): GapSurface {
  return gapSurface(net(of), flat, { s: [0, 1000], t: [0, 2400], cut });
}

function net({ a = 0, b = 0, c = 0, d = 0, e = 0, f = 0 }) {
  const [countU, countV] = [12, 23];
  const control = new Float64Array(countU * countV);
  const squared = (x: number) => x * x - 128 ** 2 / 3;
  for (let j = 0; j < countV; j++)
    for (let i = 0; i < countU; i++) {
      const [u, v] = [128 * (i - 1), 128 * (j - 1)];
      control[j * countU + i] = 1024 * (a + b * u + c * v + d * squared(u) + e * squared(v) + f * u * v);
    }
  return { u0: 0, v0: 0, countU, countV, control };
}

const look = { turned: 0, finer: 1 };

describe('a surface from control values', () => {
  it('is the polynomial that they stand for', () => {
    const { gap, gaps } = surface({ b: 0.01, c: -0.002, d: 1e-5, e: -3e-6, f: 1e-6 });
    const is = (u: number, v: number) => 0.01 * u - 0.002 * v + 1e-5 * u * u - 3e-6 * v * v + 1e-6 * u * v;
    for (const [u, v] of [
      [0, 0],
      [333, 1234],
      [1000, 2400],
      [128, 256],
    ] as const)
      expect(gap(u, v)).toBeCloseTo(is(u, v), 9);
    expect([...gaps([0, 333], [50, 1234])]).toEqual([gap(0, 50), gap(333, 50), gap(0, 1234), gap(333, 1234)]);
    expect(() => gap(0, 2600)).toThrow(RangeError);
  });
});

describe('the straight-edge', () => {
  it('finds nothing on a plane however it leans', () => {
    expect(straightEdge(surface({ b: 0.02, c: -0.03 }), 2000, 'round', { turned: 0.1, finer: 1 })).toBeLessThan(1e-9);
  });

  it('of 2 m on a parabola that rises 8 mm in its middle of 2400 finds 8 (2000/2400)²', () => {
    const bowed = surface({ c: 32 / 2400, e: -32 / 2400 ** 2 });
    const sag = 8 * (2000 / 2400) ** 2;
    expect(straightEdge(bowed, 2000, 't')).toBeCloseTo(sag, 3);
    expect(straightEdge(bowed, 2000, 'round')).toBeCloseTo(sag, 3);
    expect(straightEdge(surface({ c: -32 / 2400, e: 32 / 2400 ** 2 }), 2000, 't')).toBeCloseTo(sag, 3);
    expect(straightEdge(bowed, 2000, 's')).toBeLessThan(1e-9);
  });

  it('is laid shorter where 2 m have no room', () => {
    expect(straightEdge(surface({ b: 0.012, d: -0.000012 }), 2000, 's')).toBeCloseTo(3, 1);
  });

  it('finds wind on the slant alone', () => {
    const wound = surface({ f: 4 / (1000 * 2400) });
    expect(straightEdge(wound, 2000, 's')).toBeLessThan(1e-9);
    expect(straightEdge(wound, 2000, 't')).toBeLessThan(1e-9);
    // Along a slant of 2 m, f sin cos L² / 4; the greatest is where the slant is nearest to 45 degrees and still fits.
    const most = (4 / (1000 * 2400)) * 1000 * Math.sqrt(2000 ** 2 - 1000 ** 2) * 0.25;
    const found = straightEdge(wound, 2000, 'round', { turned: Math.PI / 6, finer: 1 });
    expect(found).toBeLessThan(most * 1.0001);
    expect(found).toBeGreaterThan(most * 0.97);
  });
});

describe('the levelling grid', () => {
  it('reads a parabola by half the span squared, each against the limit of its span', () => {
    const bowed = surface({ e: -1e-6 });
    // z2 - (z1 + z3)/2 = (span/2)² 1e-6: 0.25 at 1 m, 1.44 at 2.4 m.
    expect(levellingGrid(bowed, () => 1)).toBeCloseTo(1.44, 4);
    expect(levellingGrid(bowed, (apart) => (apart <= 1000 ? 1 : 100))).toBeCloseTo(0.25, 4);
    expect(levellingGrid(surface({ c: 0.05, b: 0.01 }), () => 1)).toBeLessThan(1e-9);
  });
});

describe('plumb, level and angle', () => {
  const leaning = surface({ c: 8 / 2400, b: 6 / 1000 });

  it('plumb is the lean over the height, or over a stretch of it', () => {
    expect(apartUpright(leaning)).toBeCloseTo(8, 6);
    expect(apartUpright(leaning, 812.8)).toBeLessThan((8 * 812.8) / 2400 + 1e-9);
    expect(apartUpright(leaning, 812.8)).toBeGreaterThan((8 * 780) / 2400);
    const bowed = surface({ c: 32 / 2400, e: -32 / 2400 ** 2 });
    expect(apartUpright(bowed)).toBeCloseTo(8, 2);
  });

  it('level is by the furthest points across, the steeper way', () => {
    // Across s 6 mm in a metre; with the slant, (6 + 8)/2.6 m and the like are less.
    expect(levelAcross(leaning)).toBeGreaterThan(6 - 1e-9);
    expect(levelAcross(leaning)).toBeLessThan(Math.hypot(6, 8 / 2.4) + 1e-9);
  });

  it('within a stretch any two points count', () => {
    expect(apartWithin(surface({ b: 0.003, c: 0.004 }), 812.8)).toBeLessThan(0.005 * 812.8 + 1e-9);
    expect(apartWithin(surface({ b: 0.003, c: 0.004 }), 812.8)).toBeGreaterThan(0.005 * 780);
  });

  it('angle is the offset of the ends, 100 mm off the edges, by the whole length', () => {
    const of = { insetMm: 100, limitAt: (run: number) => run / 1000 };
    expect(angleAlong(leaning, 's', of)).toBeCloseTo(0.8 * 6, 6);
    expect(angleAlong(leaning, 't', of)).toBeCloseTo((8 * 2200) / 2400 / 2.4, 6);
  });

  it('under a cut the lines end at it', () => {
    const cut = { at: 1000, perS: 1 };
    const of = { insetMm: 100, limitAt: () => 1 };
    // The longest upright is at s = 1000 - 100: to 1900, 1700 between the ends.
    expect(angleAlong(surface({ c: 0.001 }, cut), 't', of)).toBeCloseTo(1.7, 6);
    // On places every 25 mm, so the last one short of the cut counts.
    const most = apartUpright(surface({ c: 0.001 }, cut));
    expect(most).toBeLessThan(2 + 1e-9);
    expect(most).toBeGreaterThan(2 - 0.026);
  });
});

describe('a room held against the documents', () => {
  const room = (of: Partial<BuiltRoom['nets']>): BuiltRoom => ({
    family: 'alcove',
    openingMm: { width: 1000, height: 2400, depth: 500 },
    mouthMm: -40,
    breastSide: null,
    nets: of,
  });
  /** A wall that leans so much over the height, its net reaching past the outline. */
  const wall = (lean: number) => {
    const low = { ...net({ a: -500, c: lean / 2400 }), u0: -296, v0: 0 };
    return { ...low, u0: -296 };
  };

  it.each([
    ['uk-2020', 8, 1],
    ['uk-2019', 8, 1],
    ['din-finished', (8 * 2400) / 2200, 1],
    ['na-guideline', (9.525 * 2400) / 812.8, 1],
  ])('%s: a lean of %f mm takes all that plumb may be', (preset, lean, share) => {
    const shares = sharesOf(preset, room({ left: wall(lean) }), look);
    const most = Math.max(...shares.filter(({ where }) => /plumb|angle t/.test(where)).map((s) => s.share));
    expect(most).toBeGreaterThan(share * 0.99);
    expect(most).toBeLessThan(share * 1.0001);
  });

  it('refuses a preset that it knows no document for', () => {
    expect(() => sharesOf('settled', room({ left: wall(0) }), look)).toThrow(RangeError);
  });
});

describe('places and tables', () => {
  it('are even, with both ends', () => {
    expect(evenly([0, 100], 30)).toEqual([0, 25, 50, 75, 100]);
  });

  it('go straight between columns, to whole mm', () => {
    const row6 = [3, 5, 10, 20, 25];
    expect([0.05, 0.1, 1, 2, 2.5, 4, 12.5, 20].map((m) => interpolated(row6, m))).toEqual([3, 3, 5, 7, 8, 10, 23, 25]);
  });
});
