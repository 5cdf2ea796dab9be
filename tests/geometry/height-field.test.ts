import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  domainOf,
  finePerMm,
  heightAt,
  heightField,
  negatedOf,
  patchesOf,
  slopesAt,
  slopesOf,
} from '../../src/geometry/height-field.ts';
import { fieldOf, fields, fieldWith, missedBy, placesIn, sampled, spread } from '../helpers/height-fields.ts';

const seed = 4201;
const grid = { u0: -128, v0: 0, countU: 5, countV: 4, control: new Int32Array(20) };

describe(`height field (seed ${seed})`, () => {
  it('agrees with the recursion of Cox and de Boor everywhere', () => {
    fc.assert(
      fc.property(fieldWith(placesIn), ([field, { u, v }]) => {
        expect(heightAt(field, u, v)).toBeCloseTo(sampled(field, [u], [v])[0]![0]!, 8);
      }),
      { seed, numRuns: 400 },
    );
  });

  it('has the slopes of a small step in the independent evaluation', () => {
    const h = 0.01;
    fc.assert(
      fc.property(fieldWith(placesIn), ([field, { u, v }]) => {
        const d = domainOf(field);
        const [a, b] = [Math.max(d.u0, u - h), Math.min(d.u1, u + h)];
        const [c, e] = [Math.max(d.v0, v - h), Math.min(d.v1, v + h)];
        const row = sampled(field, [a, b], [v])[0]!;
        const column = sampled(field, [u], [c, e]);
        const { perU, perV } = slopesAt(field, u, v);
        const bent = 8 * missedBy(field, 1, 1) * (2 * h) + 1e-6;
        expect(Math.abs(perU - (row[1]! - row[0]!) / (b - a))).toBeLessThan(bent);
        expect(Math.abs(perV - (column[1]![0]! - column[0]![0]!) / (e - c))).toBeLessThan(bent);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('never slopes more than its slope bounds', () => {
    fc.assert(
      fc.property(fieldWith(placesIn), ([field, { u, v }]) => {
        const { perU, perV } = slopesAt(field, u, v);
        const most = slopesOf(field);
        expect(Math.abs(perU)).toBeLessThanOrEqual(most.perU * (1 + 1e-12) + 1e-12);
        expect(Math.abs(perV)).toBeLessThanOrEqual(most.perV * (1 + 1e-12) + 1e-12);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('takes its slope bounds from neighbouring control values, and from nothing else', () => {
    fc.assert(
      fc.property(fields(), (field) => {
        const { control, countU } = field;
        const alongU = [...control].map((c, k) => (k % countU === 0 ? 0 : Math.abs(c - control[k - 1]!)));
        const alongV = [...control].map((c, k) => (k < countU ? 0 : Math.abs(c - control[k - countU]!)));
        expect(slopesOf(field).perU).toBe(Math.max(...alongU) / 1024 / 128);
        expect(slopesOf(field).perV).toBe(Math.max(...alongV) / 1024 / 128);
      }),
      { seed, numRuns: 100 },
    );
  });

  it('reproduces a plane, whose slope bounds are its slopes', () => {
    const field = fieldOf({ u0: -256, v0: 64, countU: 9, countV: 6 }, (u, v) => 3 + u / 64 - v / 32);
    for (const u of [-256, -200.3, 0, 511.9, 512]) {
      for (const v of [64, 100, 200.7, 448]) {
        expect(heightAt(field, u, v)).toBeCloseTo(3 + u / 64 - v / 32, 10);
        expect(slopesAt(field, u, v).perU).toBeCloseTo(1 / 64, 12);
        expect(slopesAt(field, u, v).perV).toBeCloseTo(-1 / 32, 12);
      }
    }
    expect(slopesOf(field)).toEqual({ perU: 1 / 64, perV: 1 / 32 });
  });

  it('has its control values at their Greville places, mirrored with the lattice', () => {
    const field = fieldOf({ countU: 7, countV: 4 }, (u) => (u === 256 ? 6 : 0));
    expect(heightAt(field, 256, 0)).toBe(4);
    expect(heightAt(field, 128, 128)).toBe(1);
    expect(heightAt(field, 256 + 50, 64)).toBeCloseTo(heightAt(field, 256 - 50, 64), 12);
  });

  it('is closed: all four borders belong to it, nothing beyond does', () => {
    const field = heightField(grid);
    expect(domainOf(field)).toEqual({ u0: -128, u1: 128, v0: 0, v1: 128 });
    expect(heightAt(field, 128, 128)).toBe(0);
    expect(() => heightAt(field, 128.001, 0)).toThrow(
      'height field: place (128.001, 0) mm must lie in [-128, 128] x [0, 128]',
    );
    for (const [u, v] of [
      [-128.001, 0],
      [0, -0.001],
      [0, 128.001],
      [Number.NaN, 0],
      [0, Number.NaN],
    ] as const) {
      expect(() => heightAt(field, u, v)).toThrow(RangeError);
      expect(() => slopesAt(field, u, v)).toThrow(RangeError);
    }
  });

  it('refuses what is not a lattice, and says what it got', () => {
    const refuse = (change: object, message: string) =>
      expect(() => heightField({ ...grid, ...change })).toThrow(message);
    refuse({ countU: 3 }, 'height field: countU must be a whole number >= 4, got 3');
    refuse({ countV: 4.5 }, 'height field: countV must be a whole number >= 4, got 4.5');
    refuse({ countV: 5 }, 'height field: control must hold 5 x 5 = 25 values, got 20');
    refuse({ u0: Number.NaN }, 'height field: u0 must lie within 1048576 mm of zero, got NaN');
    refuse({ v0: -2e6 }, 'height field: v0 must lie within 1048576 mm of zero, got -2000000');
    refuse({ control: new Float64Array(20) }, 'height field: control must be an Int32Array');
    const withOne = (value: number) => grid.control.map((_, k) => (k === 7 ? value : 0));
    for (const value of [16_777_216, -16_777_217, 2_147_483_647, -2_147_483_648]) {
      refuse({ control: withOne(value) }, `height field: control[7] must be >= -16777216 and < 16777216`);
    }
    expect(heightField({ ...grid, control: withOne(16_777_215) }).control[7]).toBe(16_777_215);
    expect(heightField({ ...grid, control: withOne(-16_777_216) }).control[7]).toBe(-16_777_216);
  });
});

describe(`patch bounds (seed ${seed})`, () => {
  it('knots are the surface, exactly', () => {
    fc.assert(
      fc.property(fields(), (field) => {
        const { knots } = patchesOf(field);
        for (let j = 0; j < field.countV - 2; j++) {
          for (let i = 0; i < field.countU - 2; i++) {
            const height = heightAt(field, field.u0 + 128 * i, field.v0 + 128 * j);
            expect(knots[j * (field.countU - 2) + i]! / finePerMm).toBe(height);
          }
        }
      }),
      { seed, numRuns: 60 },
    );
  });

  it('no sample of a patch lies above its bound, and the bound is no looser than the control values', () => {
    fc.assert(
      fc.property(fields(), (field) => {
        const { hulls } = patchesOf(field);
        const { countU, countV, control } = field;
        for (let j = 0; j < countV - 3; j++) {
          for (let i = 0; i < countU - 3; i++) {
            const [u, v] = [field.u0 + 128 * i, field.v0 + 128 * j];
            const bound = hulls[j * (countU - 3) + i]! / finePerMm;
            const heights = sampled(field, spread(u, u + 128, 5), spread(v, v + 128, 5)).flat();
            expect(Math.max(...heights)).toBeLessThanOrEqual(bound + 1e-9);
            const near = [0, 1, 2, 3].flatMap((r) => [
              ...control.subarray((j + r) * countU + i, (j + r) * countU + i + 4),
            ]);
            expect(bound).toBeLessThanOrEqual(Math.max(...near) / 1024);
          }
        }
      }),
      { seed, numRuns: 40 },
    );
  });

  it('of a block are those of the whole field, whatever was asked before', () => {
    const places = fc.tuple(fc.nat(9), fc.nat(9), fc.nat(9), fc.nat(9));
    fc.assert(
      fc.property(fields(), fc.array(places, { minLength: 1, maxLength: 3 }), (field, asked) => {
        const whole = patchesOf({ ...field, kept: { patches: null, slopes: null, negated: null } });
        const [spansU, spansV] = [field.countU - 3, field.countV - 3];
        for (const [a, b, c, d] of asked) {
          const [i0, i1] = [Math.min(a % spansU, b % spansU), Math.max(a % spansU, b % spansU)];
          const [j0, j1] = [Math.min(c % spansV, d % spansV), Math.max(c % spansV, d % spansV)];
          const part = patchesOf(field, { i0, i1, j0, j1 });
          for (let j = j0; j <= j1; j++)
            for (let k = j * spansU + i0; k <= j * spansU + i1; k++) expect(part.hulls[k]).toBe(whole.hulls[k]);
          for (let j = j0; j <= j1 + 1; j++)
            for (let k = j * (spansU + 1) + i0; k <= j * (spansU + 1) + i1 + 1; k++)
              expect(part.knots[k]).toBe(whole.knots[k]);
        }
      }),
      { seed, numRuns: 60 },
    );
  });

  it('turning a field upside down twice gives it back', () => {
    const field = fieldOf({ countU: 5, countV: 5 }, (u, v) => (u * v) / 4096);
    expect(negatedOf(negatedOf(field)).control).toEqual(field.control);
    expect(negatedOf(field)).toBe(negatedOf(field));
    expect(heightAt(negatedOf(field), 100, 100)).toBe(-heightAt(field, 100, 100));
  });
});
