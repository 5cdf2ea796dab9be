import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Plane,
  type Point,
  parallelStep,
  rayMeetsPlane,
  signedDistance,
  turned,
  turnedBySlope,
} from '../../src/geometry/plane.ts';

const seed = 4205;
const mm = fc.double({ min: -4000, max: 4000, noNaN: true });
const points: fc.Arbitrary<Point> = fc.record({ x: mm, y: mm, z: mm });
const share = fc.double({ min: -1, max: 1, noNaN: true });
const units: fc.Arbitrary<Point> = fc
  .record({ x: share, y: share, z: share })
  .filter(({ x, y, z }) => x * x + y * y + z * z > 0.01)
  .map(({ x, y, z }) => {
    const d = Math.sqrt(x * x + y * y + z * z);
    return { x: x / d, y: y / d, z: z / d };
  });
const planes: fc.Arbitrary<Plane> = fc.tuple(units, mm).map(([n, c]) => ({ nx: n.x, ny: n.y, nz: n.z, c }));

describe(`planes (seed ${seed})`, () => {
  it('distances: level line and square line in the room frame', () => {
    expect(signedDistance({ nx: 0, ny: 0, nz: 1, c: 1000 }, { x: 5, y: 6, z: 1040 })).toBe(40);
    expect(signedDistance({ nx: 1, ny: 0, nz: 0, c: -300 }, { x: -310, y: 6, z: 0 })).toBe(-10);
  });

  it('a step along the normal moves the distance by as much', () => {
    fc.assert(
      fc.property(planes, points, mm, (plane, p, d) => {
        const q = { x: p.x + d * plane.nx, y: p.y + d * plane.ny, z: p.z + d * plane.nz };
        expect(signedDistance(plane, q)).toBeCloseTo(signedDistance(plane, p) + d, 8);
      }),
      { seed },
    );
  });

  it('a ray ends on the plane', () => {
    fc.assert(
      fc.property(planes, points, units, (plane, p, d) => {
        const t = rayMeetsPlane(plane, p, d);
        fc.pre(t !== null && Math.abs(t) < 1e6);
        const q = { x: p.x + t! * d.x, y: p.y + t! * d.y, z: p.z + t! * d.z };
        expect(signedDistance(plane, q)).toBeCloseTo(0, 6);
      }),
      { seed },
    );
  });

  it('a ray along the plane has no answer, on it or off it', () => {
    const level = { nx: 0, ny: 0, nz: 1, c: 0 };
    expect(rayMeetsPlane(level, { x: 0, y: 0, z: 5 }, { x: 1, y: 0, z: 0 })).toBeNull();
    expect(rayMeetsPlane(level, { x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 })).toBeNull();
    expect(rayMeetsPlane(level, { x: 0, y: 0, z: 5 }, { x: 1, y: 0, z: 1e-300 })).toBeNull();
    expect(rayMeetsPlane(level, { x: 0, y: 0, z: 5 }, { x: 0, y: 0, z: -1 })).toBe(5);
    expect(rayMeetsPlane(level, { x: 0, y: 0, z: 5 }, { x: 0, y: 0, z: 1 })).toBe(-5);
    expect(rayMeetsPlane(level, { x: 3, y: 0, z: 0 }, { x: 1, y: 0, z: 1 })).toBe(0);
  });

  it('the step between parallel planes is the same everywhere, and signed', () => {
    fc.assert(
      fc.property(planes, mm, points, points, (a, d, p, q) => {
        const b = { ...a, c: a.c + d };
        expect(parallelStep(a, b, p)).toBeCloseTo(d, 7);
        expect(parallelStep(b, a, q)).toBeCloseTo(0 - d, 7);
      }),
      { seed },
    );
  });

  it('the step to a plane that is turned a little depends on the point', () => {
    const face = { nx: 0, ny: 1, nz: 0, c: 0 };
    const n = turned({ x: 0, y: 1 }, 0.005);
    const b = { nx: n.x, ny: n.y, nz: 0, c: 200 * n.y };
    expect(parallelStep(face, b, { x: 0, y: 50, z: 9 })).toBeCloseTo(200, 9);
    expect(parallelStep(face, b, { x: 1000, y: 50, z: 9 })).toBeCloseTo(200 + (1000 * 0.01) / (1 - 0.005 ** 2), 9);
    expect(() => parallelStep(face, { nx: 1, ny: 0, nz: 0, c: 0 }, { x: 1, y: 1, z: 1 })).toThrow(
      'parallel step: the planes stand square to each other',
    );
  });
});

describe(`turns (seed ${seed})`, () => {
  const directions = fc.tuple(share, share).filter(([x, y]) => x * x + y * y > 0.01);

  it('anticlockwise from above is from x towards y', () => {
    expect(turned({ x: 1, y: 0 }, 1)).toEqual({ x: 0, y: 1 });
    expect(turnedBySlope({ x: 1, y: 0 }, 0.75)).toEqual({ x: 0.8, y: 0.6 });
    expect(turnedBySlope({ x: 0, y: 1 }, 0.75)).toEqual({ x: -0.6, y: 0.8 });
  });

  it('turn by twice the arc tangent of t, and by the arc tangent of the slope', () => {
    fc.assert(
      fc.property(directions, share, ([x, y], t) => {
        const angle = (d: { x: number; y: number }) => Math.atan2(x * d.y - y * d.x, x * d.x + y * d.y);
        expect(angle(turned({ x, y }, t))).toBeCloseTo(2 * Math.atan(t), 12);
        expect(angle(turnedBySlope({ x, y }, t))).toBeCloseTo(Math.atan(t), 12);
      }),
      { seed },
    );
  });

  it('keep the length, and turning back gives the direction again', () => {
    fc.assert(
      fc.property(directions, share, ([x, y], t) => {
        for (const turn of [turned, turnedBySlope]) {
          const there = turn({ x, y }, t);
          expect(there.x * there.x + there.y * there.y).toBeCloseTo(x * x + y * y, 12);
          const back = turn(there, 0 - t);
          expect(back.x).toBeCloseTo(x, 12);
          expect(back.y).toBeCloseTo(y, 12);
        }
      }),
      { seed },
    );
  });
});
