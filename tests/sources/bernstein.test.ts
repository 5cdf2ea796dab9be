/**
 * Bounds from Bernstein coefficients.
 *
 * | statement | source | status |
 * |---|---|---|
 * | coefficients bound the range; those at vertices are values; if the extreme one is at a vertex the bound is exact | "Properties of Bernstein coefficients", background chapter of a thesis, https://9dok.net/article/properties-bernstein-coefficients-background-existing-work.yr3jpjrv | V: read there |
 * | shrinking the box never loosens the bound (inclusion isotonicity) | abstract, http://www.springerlink.com/content/d497y9pamy7x96qg/ | V: read there |
 * | 4x(1 - x): coefficients 0, 2, 0; to degree 3: 0, 4/3, 4/3, 0; halved: 0, 1, 1 and 1, 1, 0 | closed form | D |
 * | a bilinear patch's coefficients of degree 1 are its corner values, so its bound is exact | closed form | D |
 */

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { domainOf, finePerMm, heightAt, patchesOf } from '../../src/geometry/height-field.ts';
import { clipNetU, clipNetV, halveU, halveV, loadNet } from '../../src/geometry/net.ts';
import { rangeMax, rangeMin } from '../../src/geometry/range.ts';
import { fieldOf, fields } from '../helpers/height-fields.ts';

const seed = 4207;

/** 3 x 4x(1 - x) mm over one span, x = u / 128: control values -20, 4, 4, -20 mm, see the first test. */
const arch = fieldOf({ countU: 4, countV: 4 }, (u) => (u === 0 || u === 128 ? 4 : -20));
const scale = 3 * finePerMm;

function netOf(field: typeof arch, i = 0, j = 0): Float64Array {
  const net = new Float64Array(32);
  loadNet(field.control, j * field.countU + i, field.countU, net, 0);
  return net;
}

describe('4x(1 - x)', () => {
  it('has 0, 4/3, 4/3, 0 as a cubic', () => {
    for (let r = 0; r < 4; r++) {
      const row = [...netOf(arch).subarray(4 * r, 4 * r + 4)];
      expect(row.map((value) => value / scale)).toEqual([0, 4 / 3, 4 / 3, 0]);
    }
  });

  it('halved has 0, 1, 1 and 1, 1, 0, as cubics', () => {
    const asCubic = ([a, b, c]: readonly [number, number, number]) => [a, (a + 2 * b) / 3, (2 * b + c) / 3, c];
    const net = netOf(arch);
    halveU(net, 0, 16);
    const halves = [net.subarray(0, 4), net.subarray(16, 20)].map((row) => [...row].map((value) => value / scale));
    for (const [k, half] of [asCubic([0, 1, 1]), asCubic([1, 1, 0])].entries()) {
      for (const [c, value] of half.entries()) expect(halves[k]![c]).toBeCloseTo(value, 14);
    }
  });

  it('has the bound 4/3 before it is halved, and the range [0, 1]', () => {
    expect(patchesOf(arch).hulls[0]! / scale).toBeCloseTo(4 / 3, 14);
    const max = rangeMax(arch, domainOf(arch));
    expect(max).toMatchObject({ value: 3, u: 64 });
    expect(max.bound - max.value).toBeLessThanOrEqual(0.001);
    expect(rangeMin(arch, domainOf(arch)).value).toBe(0);
  });
});

describe(`Bernstein bounds (seed ${seed})`, () => {
  it('bound the range, and vertex coefficients are values', () => {
    fc.assert(
      fc.property(
        fields(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (field, s, t) => {
          const net = netOf(field).subarray(0, 16);
          const height = heightAt(field, field.u0 + 128 * s, field.v0 + 128 * t) * finePerMm;
          expect(height).toBeLessThanOrEqual(Math.max(...net) + 1e-4);
          expect(height).toBeGreaterThanOrEqual(Math.min(...net) - 1e-4);
          const corners = [
            [0, 0],
            [128, 0],
            [0, 128],
            [128, 128],
          ].map(([u, v]) => heightAt(field, field.u0 + u!, field.v0 + v!));
          expect([0, 3, 12, 15].map((k) => net[k]! / finePerMm)).toEqual(corners);
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  it('are exact where the largest coefficient is at a vertex', () => {
    let met = 0;
    fc.assert(
      fc.property(fields(), (field) => {
        const net = netOf(field).subarray(0, 16);
        const most = Math.max(...net);
        if (![0, 3, 12, 15].some((k) => net[k] === most)) return;
        met++;
        const rect = { u0: field.u0, u1: field.u0 + 128, v0: field.v0, v1: field.v0 + 128 };
        const max = rangeMax(field, rect, { within: 1e-6 });
        expect(max.value).toBe(most / finePerMm);
        expect(max.bound).toBeCloseTo(max.value, 8);
      }),
      { seed, numRuns: 200 },
    );
    expect(met).toBeGreaterThan(20);
  });

  it('never grow looser when the box shrinks', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fields(), share, share, share, share, fc.boolean(), (field, a, b, c, d, alongU) => {
        const net = netOf(field);
        const [most, least] = [Math.max(...net.subarray(0, 16)), Math.min(...net.subarray(0, 16))];
        const inside = (part: Float64Array) => {
          expect(Math.max(...part)).toBeLessThanOrEqual(most + 1e-4);
          expect(Math.min(...part)).toBeGreaterThanOrEqual(least - 1e-4);
        };
        const clipped = netOf(field);
        clipNetU(clipped, 0, a, b);
        clipNetV(clipped, 0, c, d);
        inside(clipped.subarray(0, 16));
        (alongU ? halveU : halveV)(net, 0, 16);
        inside(net.subarray(0, 16));
        inside(net.subarray(16, 32));
      }),
      { seed, numRuns: 200 },
    );
  });

  it('of a bilinear surface are its corners, so its range over any box is exact', () => {
    // Wind: z = 5 uv / (640 x 512) mm, and two slopes; every control value is a whole number of 1/1024 mm.
    const wind = fieldOf({ countU: 8, countV: 7 }, (u, v) => (u * v) / 65_536 - u / 256 + v / 128);
    const z = (u: number, v: number) => (u * v) / 65_536 - u / 256 + v / 128;
    for (const [u0, u1, v0, v1] of [
      [0, 640, 0, 512],
      [100, 300, 77, 500],
      [10, 20, 0, 512],
    ] as const) {
      const corners = [z(u0, v0), z(u1, v0), z(u0, v1), z(u1, v1)];
      const rect = { u0, u1, v0, v1 };
      expect(rangeMax(wind, rect, { within: 1e-6 }).value).toBeCloseTo(Math.max(...corners), 11);
      expect(rangeMax(wind, rect, { within: 1e-6 }).bound).toBeCloseTo(Math.max(...corners), 8);
      expect(rangeMin(wind, rect, { within: 1e-6 }).value).toBeCloseTo(Math.min(...corners), 11);
    }
  });
});
