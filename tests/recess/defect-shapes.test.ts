/**
 * Defects on built surfaces, each measured by its own definition in trade words; what comes in is measured against a
 * true room of the same sizes, by other means than the program's.
 *
 * A surface is kept to 1/1024 mm a control value, so a size is measured to a thousandth or so.
 */
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../src/chance/keyed-draws.ts';
import { knotStepMm, unitsPerMm } from '../../src/geometry/height-field.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { type Defect, extentsOf, type Side } from '../../src/recess/recess-spec.ts';
import { heightOf, inwardBy, surfaceAt } from '../helpers/measuring.ts';
import { alcoveSides, roomSpec } from '../helpers/rooms.ts';
import { meanAndDeviation } from '../helpers/statistics.ts';

const grain = 0.0015;
/** The opening: x from -500 to 500, y to 500, z to 2400. */
const half = 500;
const depth = 500;
const height = 2400;
const straight = buildRecess(roomSpec());

const having = (side: Side, ...defects: Defect[]) => buildRecess(roomSpec({ defects: { [side]: defects } }));
const wall = ['left', 'right', 'back'] as const;

/** Corners of the outline on a side, near then far, along u and v. */
function outlineOf(side: Side): { u: readonly [number, number]; v: readonly [number, number] } {
  if (side === 'left' || side === 'right') return { u: [0, depth], v: [0, height] };
  if (side === 'back') return { u: [-half, half], v: [0, height] };
  return { u: [-half, half], v: [0, depth] };
}

/** How far a defect comes in at a place. */
const inward = (side: Side, d: Defect, at: readonly [number, number]) =>
  inwardBy(having(side, d), straight, { side, u: at[0], v: at[1] });

describe('a true room', () => {
  it('stands where its opening says', () => {
    const places: Record<(typeof alcoveSides)[number], number> = {
      left: -half,
      right: half,
      back: depth,
      floor: 0,
      ceiling: height,
    };
    for (const side of alcoveSides)
      for (const u of [-30, 210.5]) expect(surfaceAt(straight, side, u, 77)).toBeCloseTo(places[side], 9);
  });

  it.each(alcoveSides)('+ offset of the %s comes into the free space', (side) => {
    const moved = buildRecess(roomSpec({ offsets: { [side]: 2.5 } }));
    expect(inwardBy(moved, straight, { side, u: 40, v: 300 })).toBeCloseTo(2.5, 9);
  });
});

describe('lean: mm over the height, + when the top comes into the recess', () => {
  it.each(wall)('%s', (side) => {
    for (const mm of [9, -6.5]) {
      const d: Defect = { kind: 'lean', mm };
      const rise = (u: number) => inward(side, d, [u, height]) - inward(side, d, [u, 0]);
      expect(Math.abs(rise(0) - mm)).toBeLessThan(grain);
      expect(Math.abs(rise(333) - mm)).toBeLessThan(grain);
      expect(Math.abs(inward(side, d, [200, height / 2]))).toBeLessThan(grain);
    }
  });

  it('in room coordinates: the left wall goes right, the right wall left, the back comes forward', () => {
    const d: Defect = { kind: 'lean', mm: 8 };
    const run = (side: Side) =>
      surfaceAt(having(side, d), side, 100, height) - surfaceAt(having(side, d), side, 100, 0);
    expect(run('left')).toBeCloseTo(8, 2);
    expect(run('right')).toBeCloseTo(-8, 2);
    expect(run('back')).toBeCloseTo(-8, 2);
  });
});

describe('taper: mm over the depth, + when the back closes in', () => {
  it.each(['left', 'right'] as const)('%s', (side) => {
    for (const mm of [7, -3]) {
      const d: Defect = { kind: 'taper', mm };
      for (const z of [0, 1111])
        expect(Math.abs(inward(side, d, [depth, z]) - inward(side, d, [0, z]) - mm)).toBeLessThan(grain);
    }
  });
});

describe('skew: mm over the width, + when the right end is nearer to the face line', () => {
  it('back', () => {
    for (const mm of [5, -9]) {
      const room = having('back', { kind: 'skew', mm });
      const nearer = surfaceAt(room, 'back', -half, 800) - surfaceAt(room, 'back', half, 800);
      expect(Math.abs(nearer - mm)).toBeLessThan(grain);
    }
  });
});

describe('fall: mm over the run, + when that end is lower', () => {
  const ends = {
    left: [-half, 200],
    right: [half, 200],
    front: [90, 0],
    back: [90, depth],
  } as const;
  const across = { left: 'right', right: 'left', front: 'back', back: 'front' } as const;
  const cases = (['floor', 'ceiling'] as const).flatMap((side) =>
    (Object.keys(ends) as (keyof typeof ends)[]).map((towards) => [side, towards] as const),
  );

  it.each(cases)('%s towards the %s', (side, towards) => {
    for (const mm of [6, -4]) {
      const room = having(side, { kind: 'fall', mm, towards });
      const at = (end: keyof typeof ends) => surfaceAt(room, side, ends[end][0], ends[end][1]);
      expect(Math.abs(at(across[towards]) - at(towards) - mm)).toBeLessThan(grain);
    }
  });
});

describe('wind: one far corner against the other three, + into the free space', () => {
  it.each(alcoveSides)('%s', (side) => {
    const { u, v } = outlineOf(side);
    for (const mm of [10, -7]) {
      const d: Defect = { kind: 'wind', mm };
      for (const corner of [
        [u[0], v[0]],
        [u[1], v[0]],
        [u[0], v[1]],
      ] as const)
        expect(Math.abs(inward(side, d, corner))).toBeLessThan(grain);
      expect(Math.abs(inward(side, d, [u[1], v[1]]) - mm)).toBeLessThan(grain);
      expect(Math.abs(inward(side, d, [(u[0] + u[1]) / 2, (v[0] + v[1]) / 2]) - mm / 4)).toBeLessThan(grain);
    }
  });
});

describe('belly and hollow: greatest offset from the straight, and where', () => {
  it.each(wall)('%s, over the height: a sagitta at its crown within 1 part in 500', (side) => {
    for (const mm of [8, -5])
      for (const crownV of [600, 1000, 1200, 1800]) {
        const d: Defect = { kind: 'bow', mm, crownV };
        const top = inward(side, d, [100, crownV]);
        expect(Math.abs(top - mm)).toBeLessThan(Math.abs(mm) / 500);
        expect(Math.abs(inward(side, d, [300, crownV]) - top)).toBeLessThan(grain);
      }
  });

  it('halves of its own span come out at 3/4: the shape is a parabola', () => {
    const d: Defect = { kind: 'bow', mm: 8, crownV: 1200 };
    for (const z of [600, 1800]) expect(Math.abs(inward('left', d, [0, z]) - 6)).toBeLessThan(0.02);
  });

  it('the ends of the outline stay within 1 part in 10, what lies past them within 1 in 100 two knots on', () => {
    const d: Defect = { kind: 'bow', mm: 10, crownV: 1200 };
    for (const z of [0, height]) expect(Math.abs(inward('left', d, [0, z]))).toBeLessThan(1);
    expect(Math.abs(inward('left', d, [0, -200]))).toBeLessThan(0.1);
  });

  it('both ways: the crown of a back wall as drawn, within 1 part in 50', () => {
    for (const crownU of [-250, -76, 0, 190, 250])
      for (const crownV of [600, 1400]) {
        const d: Defect = { kind: 'bow', mm: 10, crownU, crownV };
        expect(Math.abs(inward('back', d, [crownU, crownV]) - 10)).toBeLessThan(0.2);
      }
  });

  it('with no crown it is all over', () => {
    for (const side of alcoveSides) expect(inward(side, { kind: 'bow', mm: 3 }, [55, 321])).toBeCloseTo(3, 9);
  });
});

describe('hump and dip: a bump of its height at its place, within its width', () => {
  const places = [
    [200, 250],
    [213, 333],
    [264, 301.5],
  ] as const;

  it.each(alcoveSides)('%s', (side) => {
    for (const width of [256, 320, 500, 820])
      for (const [u, v] of places)
        for (const mm of [6, -9]) {
          const d: Defect = { kind: 'hump', mm, u, v, width };
          expect(Math.abs(inward(side, d, [u, v]) - mm)).toBeLessThan(grain);
        }
  });

  it('is nowhere higher than at its place from 500 wide, and gone three knots past its edge', () => {
    for (const [u, v] of places) {
      const d: Defect = { kind: 'hump', mm: 10, u, v, width: 500 };
      const room = having('left', d);
      const at = (du: number, dv: number) => inwardBy(room, straight, { side: 'left', u: u + du, v: v + dv });
      for (let du = -200; du <= 200; du += 25)
        for (let dv = -200; dv <= 200; dv += 25) expect(at(du, dv)).toBeLessThan(10.01);
      expect(Math.abs(at(0, 250 + 3 * knotStepMm))).toBeLessThan(1e-9);
      expect(Math.abs(at(0, 250))).toBeLessThan(1);
    }
  });
});

describe('step: beyond it, into the free space', () => {
  it.each(alcoveSides)('%s, either way along', (side) => {
    for (const along of ['u', 'v'] as const)
      for (const mm of [5, -8])
        for (const width of [256, 420]) {
          const d: Defect = { kind: 'step', mm, along, at: 250, width };
          const at = (t: number) => inward(side, d, along === 'u' ? [t, 100] : [100, t]);
          expect(Math.abs(at(250) - mm / 2)).toBeLessThan(0.02 * Math.abs(mm));
          // Gone, or all there, but for 1 part in 1000, two knots past the ramp.
          const left = 1e-3 * Math.abs(mm) + grain;
          expect(Math.abs(at(250 - width / 2 - 2 * knotStepMm))).toBeLessThan(left);
          if (250 + width / 2 + 2 * knotStepMm < 756)
            expect(Math.abs(at(250 + width / 2 + 2 * knotStepMm) - mm)).toBeLessThan(left);
          // On the way it swings past by less than 4 parts in 100.
          for (let t = -30; t <= 530; t += 10) expect(at(t) / mm).toBeGreaterThan(-0.04);
          for (let t = -30; t <= 530; t += 10) expect(at(t) / mm).toBeLessThan(1.04);
        }
  });
});

describe('control values', () => {
  const some: readonly Defect[] = [
    { kind: 'lean', mm: 7.25 },
    { kind: 'taper', mm: -3.5 },
    { kind: 'wind', mm: 9 },
    { kind: 'bow', mm: 6, crownV: 900, crownU: 210 },
    { kind: 'hump', mm: -5, u: 300, v: 1200, width: 400 },
    { kind: 'step', mm: 4, along: 'v', at: 1300, width: 300 },
  ];
  const controls = (...defects: Defect[]) => having('left', ...defects).fields.left.control;
  const flat = controls();

  it('are whole numbers of 1/1024 mm, the same for the same spec', () => {
    const [first, again] = [controls(...some), controls(...some)];
    expect(first).toBeInstanceOf(Int32Array);
    expect([...first]).toEqual([...again]);
    expect(unitsPerMm).toBe(1024);
    expect(new Set(first).size).toBeGreaterThan(50);
  });

  it('of a sum of defects are the sum, to rounding', () => {
    const all = controls(...some);
    const each = some.map((d) => controls(d));
    all.forEach((c, k) => {
      const sum = each.reduce((total, e) => total + e[k]! - flat[k]!, flat[k]!);
      expect(Math.abs(c - sum)).toBeLessThanOrEqual((some.length + 1) / 2);
    });
  });

  it.each(some)('grow with the size of a $kind', (d) => {
    const [once, thrice] = [controls(d), controls({ ...d, mm: -3 * d.mm })];
    once.forEach((c, k) => {
      expect(Math.abs(thrice[k]! - flat[k]! + 3 * (c - flat[k]!))).toBeLessThanOrEqual(2);
    });
  });

  it.each(['rough 1', 'rough 2'])('wobble by a bounded draw each, another on every side, seed %j', (seed) => {
    const wobbleMm = 1.6;
    const rough = buildRecess(roomSpec({ wobbleMm, seed }));
    const drawn = alcoveSides.map((side) =>
      [...rough.fields[side].control].map((c, k) => (c - straight.fields[side].control[k]!) / unitsPerMm),
    );
    for (const of of drawn) {
      expect(Math.max(...of.map(Math.abs))).toBeLessThanOrEqual(wobbleMm + 0.5 / unitsPerMm);
      // A bell over [-1, 1] deviates by 0.29 of its bound; 100 draws and more a side.
      const { mean, deviation } = meanAndDeviation(of);
      expect(Math.abs(mean)).toBeLessThan((4.5 * 0.29 * wobbleMm) / Math.sqrt(of.length));
      expect(deviation / wobbleMm).toBeGreaterThan(0.2);
      expect(deviation / wobbleMm).toBeLessThan(0.38);
    }
    expect(new Set(drawn.map((of) => of.slice(0, 9).join())).size).toBe(5);
    for (const side of alcoveSides)
      for (const u of [-200, 0, 444])
        expect(Math.abs(inwardBy(rough, straight, { side, u, v: 200 }))).toBeLessThanOrEqual(wobbleMm);
  });

  it('a wobble does not change with the defects beside it', () => {
    const [bare, leaning] = [[], [{ kind: 'lean', mm: 9 }]] as Defect[][];
    const of = (defects: Defect[], wobbleMm: number) =>
      buildRecess(roomSpec({ wobbleMm, defects: { left: defects } })).fields.left.control;
    of(bare!, 1).forEach((c, k) => {
      const [mine, theirs] = [c - flat[k]!, of(leaning!, 1)[k]! - of(leaning!, 0)[k]!];
      if (k % 17 === 0) expect(Math.abs(mine - theirs)).toBeLessThanOrEqual(1);
    });
  });
});

describe('reach', () => {
  it('every surface goes 256 mm past the outline and the mouth', () => {
    const spec = roomSpec({ mouthMm: -60, defects: { left: [{ kind: 'lean', mm: 5 }] } });
    const extents = extentsOf(spec);
    expect(extents).toEqual({ x: [-756, 756], y: [-316, 756], z: [-256, 2656] });
    const { fields } = buildRecess(spec);
    const own = {
      left: ['y', 'z'],
      right: ['y', 'z'],
      back: ['x', 'z'],
      floor: ['x', 'y'],
      ceiling: ['x', 'y'],
    } as const;
    for (const side of alcoveSides) {
      const { u0, v0, countU, countV } = fields[side];
      const [u, v] = own[side];
      expect(u0).toBe(extents[u][0]);
      expect(v0).toBe(extents[v][0]);
      expect(u0 + (countU - 3) * knotStepMm).toBeGreaterThanOrEqual(extents[u][1]);
      expect(v0 + (countV - 3) * knotStepMm).toBeGreaterThanOrEqual(extents[v][1]);
      for (const cu of extents[u]) for (const cv of extents[v]) expect(heightOf(fields[side], cu, cv)).not.toBeNaN();
    }
    // A lean goes on straight as far as the reach does.
    const room = buildRecess(spec);
    const top = surfaceAt(room, 'left', 0, 2656) - surfaceAt(room, 'left', 0, -256);
    expect(top).toBeCloseTo((5 * 2912) / 2400, 2);
  });

  it('the key of the wobble is the room’s own', () => {
    expect(roomSpec({ seed: 'x' }).key).toEqual(drawKey('x'));
  });
});
