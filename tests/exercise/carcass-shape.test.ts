import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CarcassSizes } from '../../src/exercise/brief.ts';
import { cornersOf, isShaped, lowerOf, metFrom, shifted, topOf } from '../../src/exercise/carcass-shape.ts';

const seed = 7101;
const box: CarcassSizes = { widthMm: 900, heightMm: 2000, depthMm: 400 };
const mm = (min: number, max: number) => fc.integer({ min, max });
const shapes: fc.Arbitrary<CarcassSizes> = fc
  .record({
    widthMm: mm(200, 1500),
    heightMm: mm(400, 2300),
    slope: fc.option(fc.record({ leftMm: mm(0, 2600), rightMm: mm(0, 2600) }), { nil: undefined }),
    notch: fc.option(
      fc.record({
        side: fc.constantFrom('left' as const, 'right' as const),
        widthMm: mm(0, 600),
        heightMm: mm(0, 399),
      }),
      { nil: undefined },
    ),
  })
  .map(({ widthMm, heightMm, slope, notch }) => ({
    widthMm,
    heightMm,
    depthMm: 400,
    ...(slope ? { slope } : {}),
    ...(notch ? { notch } : {}),
  }));

/** The height of the closed shape over x, straight from what the words say. */
function heightAt({ widthMm, heightMm, slope, notch }: CarcassSizes, x: number): number {
  const line = slope ? slope.leftMm + ((slope.rightMm - slope.leftMm) * x) / widthMm : heightMm;
  const from = notch?.side === 'left' ? x : widthMm - x;
  return Math.min(heightMm, line, notch && from < notch.widthMm ? heightMm - notch.heightMm : heightMm);
}

describe(`the shape of a carcass in elevation (seed ${seed})`, () => {
  it('a box has one flat top, and is met over its whole height', () => {
    expect(isShaped(box)).toBe(false);
    expect(topOf(box)).toEqual([{ x0: 0, x1: 900, z0: 2000, z1: 2000 }]);
    expect(metFrom('left', topOf(box))).toEqual([{ x0: 0, x1: 0, z0: 0, z1: 2000 }]);
    expect(metFrom('right', topOf(box)).map(({ x0, z1 }) => [x0, z1])).toEqual([[900, 2000]]);
  });

  it('a sloped edge is cut at the flat top', () => {
    const sizes = { ...box, slope: { leftMm: 1550, rightMm: 2450 } };
    expect(topOf(sizes)).toEqual([
      { x0: 0, x1: 450, z0: 1550, z1: 2000 },
      { x0: 450, x1: 900, z0: 2000, z1: 2000 },
    ]);
    expect(metFrom('left', topOf(sizes))).toEqual([
      { x0: 0, x1: 0, z0: 0, z1: 1550 },
      { x0: 0, x1: 450, z0: 1550, z1: 2000 },
    ]);
    expect(metFrom('right', topOf(sizes)).map(({ x0, x1, z0, z1 }) => [x0, x1, z0, z1])).toEqual([[900, 900, 0, 2000]]);
  });

  it('a notch is met from its side up to its foot, and behind it to the top', () => {
    const sizes: CarcassSizes = { ...box, notch: { side: 'right', widthMm: 200, heightMm: 150 } };
    expect(topOf(sizes).map(({ x0, x1, z0 }) => [x0, x1, z0])).toEqual([
      [0, 700, 2000],
      [700, 900, 1850],
    ]);
    expect(metFrom('right', topOf(sizes)).map(({ x0, x1, z0, z1 }) => [x0, x1, z0, z1])).toEqual([
      [900, 900, 0, 1850],
      [700, 700, 1850, 2000],
    ]);
  });

  it('the top is the lowest of flat, line and notch at every place but where it steps', () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (sizes, share) => {
        const x = share * sizes.widthMm;
        const over = topOf(sizes).filter((p) => p.x0 <= x && x <= p.x1);
        const z = Math.max(...over.map((p) => p.z0 + ((p.z1 - p.z0) * (x - p.x0)) / (p.x1 - p.x0)));
        const steps = over.length > 1;
        if (steps) expect(z).toBeGreaterThanOrEqual(heightAt(sizes, x) - 1e-9);
        else expect(z).toBeCloseTo(heightAt(sizes, x), 8);
      }),
      { seed, numRuns: 400 },
    );
  });

  it('what is met from a side is where the shape begins at each height', () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (sizes, share) => {
        const top = topOf(sizes);
        const most = Math.max(...top.flatMap((p) => [p.z0, p.z1]));
        fc.pre(most > 0);
        const z = share * most;
        // The first place from the left, on a fine walk, that is as high.
        const met = metFrom('left', top).find((p) => p.z0 <= z && z <= p.z1);
        expect(met).toBeDefined();
        const x = met!.z1 === met!.z0 ? met!.x0 : met!.x0 + ((met!.x1 - met!.x0) * (z - met!.z0)) / (met!.z1 - met!.z0);
        if (x > 0.01) expect(heightAt(sizes, x - 0.01)).toBeLessThanOrEqual(z + 1e-6);
        if (x < sizes.widthMm - 0.01) expect(heightAt(sizes, x + 0.01)).toBeGreaterThanOrEqual(z - 0.1);
      }),
      { seed, numRuns: 400 },
    );
  });

  it('what two places of a shape share is what all places between them share', () => {
    fc.assert(
      fc.property(shapes, mm(0, 80), fc.double({ min: 0, max: 1, noNaN: true }), (sizes, by, share) => {
        const top = topOf(sizes);
        for (const { x0, x1, z0, z1 } of lowerOf(top, shifted(top, by))) {
          const x = (x0 + x1) / 2;
          expect((z0 + z1) / 2).toBeLessThanOrEqual(heightAt(sizes, x - share * by) + 1e-6);
        }
      }),
      { seed, numRuns: 400 },
    );
  });

  it('corners: a pentagon has its five among them', () => {
    const corners = cornersOf({ ...box, slope: { leftMm: 1550, rightMm: 2450 } });
    for (const [x, z] of [
      [0, 0],
      [900, 0],
      [0, 1550],
      [450, 2000],
      [900, 2000],
    ])
      expect(corners).toContainEqual({ x, z });
  });
});
