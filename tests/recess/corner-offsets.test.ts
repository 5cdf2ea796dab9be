import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heightAt } from '../../src/geometry/height-field.ts';
import { type Corners, cornersOf, fromCorners } from '../../src/recess/corner-offsets.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { RecessSpec, Side, SurfaceSpec } from '../../src/recess/recess-spec.ts';

const seed = 81_207;
const straight: SurfaceSpec = { offsetMm: 0, wobbleMm: 0, defects: [] };
const base: RecessSpec = {
  format: 'offtrue-spec',
  version: 1,
  family: 'own',
  structure: 'own',
  severity: 'own',
  openingMm: { width: 1230, height: 2310, depth: 430 },
  mouthMm: -40,
  breastSide: 'right',
  key: [1, 2, 3, 4],
  surfaces: { left: straight, right: straight, back: straight, floor: straight, ceiling: straight, slope: straight },
  slope: { low: 'right', lowMm: 1500, riseMmPerM: 600 },
  trims: [],
  reference: { kind: 'best-fit', heightMm: 0, wavesMm: [0, 0] },
};
const sidesWithout: readonly Side[] = ['left', 'right', 'back', 'floor', 'ceiling', 'slope'];
const grain = 1 / 1024;

const mm = fc.double({ min: -60, max: 60, noNaN: true }).map((x) => Math.round(x * 16) / 16);
const corners = fc.record({ near: mm, u: mm, v: mm, both: mm });

function built(side: Side, told: Corners) {
  const { offsetMm, defects } = fromCorners(side, told);
  return buildRecess({
    ...base,
    surfaces: { ...base.surfaces, [side]: { offsetMm, wobbleMm: 0, defects: [...defects] } },
  });
}

describe(`corner offsets (seed ${seed})`, () => {
  test.each(sidesWithout)('the %s has its corners where they are told, to the grain', (side) => {
    fc.assert(
      fc.property(corners, (told) => {
        const has = cornersOf(built(side, told), side);
        for (const name of ['near', 'u', 'v', 'both'] as const)
          expect(Math.abs(has[name] - told[name])).toBeLessThanOrEqual(grain);
      }),
      { seed, numRuns: 60 },
    );
  });

  test('between corners it is bilinear: the middle is their mean', () => {
    const told = { near: 0, u: 8, v: -4, both: 16 };
    const left = built('left', told).fields.left;
    expect(heightAt(left, 215, 1155) - -615).toBeCloseTo(5, 2);
    expect(heightAt(left, 0, 1155) - -615).toBeCloseTo(-2, 2);
  });

  test.each([
    // What a person would say of these: worked by hand.
    ['left', { near: 0, u: 0, v: 9, both: 9 }, [{ kind: 'lean', mm: 9 }]],
    ['right', { near: 0, u: 6, v: 0, both: 6 }, [{ kind: 'taper', mm: 6 }]],
    ['back', { near: 0, u: 5, v: 0, both: 5 }, [{ kind: 'skew', mm: 5 }]],
    ['floor', { near: 0, u: -7, v: 0, both: -7 }, [{ kind: 'fall', mm: 7, towards: 'right' }]],
    ['ceiling', { near: 0, u: 7, v: 0, both: 7 }, [{ kind: 'fall', mm: 7, towards: 'right' }]],
    [
      'left',
      { near: 0, u: 0, v: 0, both: 10 },
      [
        { kind: 'taper', mm: 0 },
        { kind: 'lean', mm: 0 },
        { kind: 'wind', mm: 10 },
      ].filter((d) => d.mm !== 0),
    ],
  ] as const)('on the %s %j is %j', (side, told, defects) => {
    expect(fromCorners(side, told).defects).toEqual(defects);
  });

  test('four equal corners are an offset alone', () => {
    expect(fromCorners('back', { near: 3, u: 3, v: 3, both: 3 })).toEqual({ offsetMm: 3, defects: [] });
  });
});
