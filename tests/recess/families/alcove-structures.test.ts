/**
 * Structures of the alcove: each does to the built room what it says. Measured with its own defects alone on true
 * surfaces, so that the small ones that every surface has do not blur it.
 */
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../../src/chance/keyed-draws.ts';
import { alcoveStructures, drawAlcoveStructure } from '../../../src/recess/families/alcove-structures.ts';
import { buildRecess, type Recess } from '../../../src/recess/recess.ts';
import type { Defect, Side } from '../../../src/recess/recess-spec.ts';
import { severities } from '../../../src/recess/severity.ts';
import { inwardBy, surfaceAt } from '../../helpers/measuring.ts';
import { roomSpec } from '../../helpers/rooms.ts';

const openingMm = { width: 1000, height: 2400, depth: 500 };
const straight = buildRecess(roomSpec());
const seeds = Array.from({ length: 40 }, (_, i) => `structure ${i}`);
const scale = 1;

interface Built {
  readonly room: Recess;
  readonly party: 'left' | 'right';
  readonly breast: 'left' | 'right';
  inward(side: Side, u: number, v: number): number;
}

function build(name: string, seed: string, times = scale): Built {
  const structure = alcoveStructures.find((s) => s.name === name)!;
  const breast = seed.length % 2 === 0 ? 'left' : 'right';
  const placed = drawAlcoveStructure(structure, { key: drawKey(seed), scale: times, openingMm, breast });
  const defects: Partial<Record<Side, Defect[]>> = {};
  for (const { side, defect } of placed) defects[side] = [...(defects[side] ?? []), defect];
  const room = buildRecess(roomSpec({ defects, breastSide: breast }));
  const inward = (side: Side, u: number, v: number) => inwardBy(room, straight, { side, u, v });
  return { room, party: breast === 'left' ? 'right' : 'left', breast, inward };
}

/** What each structure says of itself, as what can be measured. */
const does: Readonly<Record<string, (b: Built) => void>> = {
  closing: ({ room, inward, party, breast }) => {
    const width = (y: number) => surfaceAt(room, 'right', y, 1200) - surfaceAt(room, 'left', y, 1200);
    expect(width(0) - width(500)).toBeGreaterThan(6.9);
    for (const side of [party, breast]) expect(inward(side, 500, 1200) - inward(side, 0, 1200)).toBeGreaterThan(2.9);
  },
  'same-lean': ({ room }) => {
    const lean = (side: Side) => surfaceAt(room, side, 200, 2400) - surfaceAt(room, side, 200, 0);
    expect(Math.abs(lean('left'))).toBeGreaterThan(5.9);
    expect(Math.abs(lean('right'))).toBeGreaterThan(5.9);
    expect(Math.sign(lean('left'))).toBe(Math.sign(lean('right')));
  },
  belly: ({ inward, party, breast }) => {
    const heights = Array.from({ length: 49 }, (_, i) => i * 50);
    const [by, at] = most(heights, (z) => inward(party, 250, z));
    expect(by).toBeGreaterThan(4.9);
    expect(at).toBeGreaterThan(0.25 * 2400);
    expect(at).toBeLessThan(0.8 * 2400);
    expect(Math.max(inward(party, 250, 0), inward(party, 250, 2400))).toBeLessThan(1.2);
    expect(Math.min(...heights.map((z) => inward(breast, 250, z)))).toBeLessThan(-0.9);
  },
  'low-hump': ({ inward, party, breast }) => {
    const [bad, other] = inward(party, 500, 500) > inward(breast, 500, 500) ? [party, breast] : [breast, party];
    const grid = [0, 100, 200, 300, 400, 500].flatMap((y) =>
      Array.from({ length: 25 }, (_, i) => [y, i * 100] as const),
    );
    const [by, at] = most(grid, ([y, z]) => inward(bad, y, z));
    expect(by).toBeGreaterThan(5.5);
    expect(at[0]).toBeGreaterThanOrEqual(300);
    expect(at[1]).toBeLessThanOrEqual(800);
    expect(inward(other, at[0], at[1])).toBeCloseTo(0, 2);
    expect(Math.abs(inward(bad, 500, 2200))).toBeLessThan(1.1);
  },
  wound: ({ room, inward }) => {
    const far = (['left', 'right'] as const).map((side) => inward(side, 500, 2400));
    expect(Math.max(...far)).toBeGreaterThan(7.9);
    expect(Math.min(...far)).toBeCloseTo(0, 2);
    const bad = far[0]! > 1 ? 'left' : 'right';
    for (const [y, z] of [
      [0, 0],
      [500, 0],
      [0, 2400],
    ] as const)
      expect(inward(bad, y, z)).toBeCloseTo(0, 2);
    expect(Math.abs(surfaceAt(room, 'back', -500, 900) - surfaceAt(room, 'back', 500, 900))).toBeGreaterThan(4.9);
  },
  'sunk-floor': ({ room, inward }) => {
    const fall = (side: Side, y: number) => surfaceAt(room, side, -500, y) - surfaceAt(room, side, 500, y);
    expect(Math.abs(fall('floor', 700))).toBeGreaterThan(5.9);
    expect(Math.abs(fall('ceiling', 200))).toBeGreaterThan(5.9);
    expect(Math.sign(fall('floor', 700))).toBe(-Math.sign(fall('ceiling', 200)));
    // A hump: somewhere behind the face line the floor stands over the straight between its sides.
    const over = (x: number, y: number) =>
      inward('floor', x, y) - (inward('floor', -500, y) * (500 - x) + inward('floor', 500, y) * (500 + x)) / 1000;
    const grid = [0, 100, 200, 300, 400].flatMap((y) =>
      [-300, -200, -100, 0, 100, 200, 300].map((x) => [x, y] as const),
    );
    const [by, at] = most(grid, ([x, y]) => over(x, y));
    expect(by).toBeGreaterThan(2);
    expect(at[1]).toBeGreaterThan(0);
    expect(inward('back', 0, 2400) - inward('back', 0, 0)).toBeGreaterThan(4.9);
  },
  'stepped-back': ({ inward, breast }) => {
    const step = inward('back', 500, 1200) - inward('back', -500, 1200);
    expect(Math.abs(step)).toBeGreaterThan(4.9);
    // The step is one of the two halves: both quarters of each are level with each other.
    expect(Math.abs(inward('back', 480, 1200) - inward('back', 500, 1200))).toBeLessThan(1);
    expect(inward(breast, 500, 1200) - inward(breast, 0, 1200)).toBeGreaterThan(2.9);
  },
};

describe('structures', () => {
  it('are at least four, and at most as many as a code has signs, each with its own name', () => {
    expect(alcoveStructures.length).toBeGreaterThanOrEqual(4);
    expect(alcoveStructures.length).toBeLessThanOrEqual(13);
    expect(new Set(alcoveStructures.map((s) => s.name)).size).toBe(alcoveStructures.length);
  });

  it('stand in the order that codes point into; new ones come after', () => {
    expect(alcoveStructures.map((s) => s.name).slice(0, 7)).toEqual([
      'closing',
      'same-lean',
      'belly',
      'low-hump',
      'wound',
      'sunk-floor',
      'stepped-back',
    ]);
    expect(severities.map((s) => s.name).slice(0, 3)).toEqual(['settled', 'old', 'stone']);
  });

  it.each(alcoveStructures)('$name: $says (seeds "structure 0" to "structure 39")', ({ name }) => {
    const check = does[name];
    expect(check).toBeDefined();
    for (const seed of seeds) check!(build(name, seed));
  });

  it.each(alcoveStructures)('$name grows with the severity, in whole sixteenths of a millimetre', (structure) => {
    for (const seed of seeds) {
      const sizes = (times: number) =>
        drawAlcoveStructure(structure, { key: drawKey(seed), scale: times, openingMm, breast: 'left' }).map(
          (p) => p.defect.mm,
        );
      const [once, twice] = [sizes(1), sizes(2.4)];
      once.forEach((mm, i) => {
        expect(Math.abs(twice[i]! - 2.4 * mm)).toBeLessThanOrEqual(0.15);
        expect(Number.isInteger(16 * mm)).toBe(true);
      });
    }
  });

  it('differ from seed to seed, and in which side is bad where they choose', () => {
    for (const structure of alcoveStructures) {
      const drawn = seeds.map((seed) =>
        JSON.stringify(drawAlcoveStructure(structure, { key: drawKey(seed), scale: 1, openingMm, breast: 'left' })),
      );
      expect(new Set(drawn).size).toBe(seeds.length);
    }
    const leanWays = new Set(seeds.map((s) => Math.sign(surfaceAt(build('same-lean', s).room, 'left', 0, 2400) + 500)));
    expect(leanWays.size).toBe(2);
  });
});

function most<T>(places: readonly T[], of: (place: T) => number): [number, T] {
  let best: [number, T] = [Number.NEGATIVE_INFINITY, places[0]!];
  for (const place of places) if (of(place) > best[0]) best = [of(place), place];
  return best;
}
