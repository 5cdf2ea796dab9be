import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { domainOf, type HeightField, slopesOf } from '../../src/geometry/height-field.ts';
import { highestOverSegment, hitField, type Ray } from '../../src/geometry/hit.ts';
import { rangeMax } from '../../src/geometry/range.ts';
import { fieldOf, fieldWith, missedBy, placesIn, sampled } from '../helpers/height-fields.ts';

const seed = 4204;

function ray(from: { u: number; v: number; w: number }, towards: { du: number; dv: number; dw: number }): Ray {
  const { du, dv, dw } = towards;
  const length = Math.sqrt(du * du + dv * dv + dw * dw);
  return { ...from, du: du / length, dv: dv / length, dw: dw / length };
}

const tilts = fc.record({
  du: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
  dv: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
  dw: fc.constantFrom(1, -1),
});

/** Height by the independent evaluation; outside the domain `null`. */
function height(field: HeightField, u: number, v: number): number | null {
  const d = domainOf(field);
  if (u < d.u0 || u > d.u1 || v < d.v0 || v > d.v1) return null;
  return sampled(field, [u], [v])[0]![0]!;
}

function closing(field: HeightField, r: Ray): number {
  const { perU, perV } = slopesOf(field);
  return Math.abs(r.dw) - Math.abs(r.du) * perU - Math.abs(r.dv) * perV;
}

describe(`a line against the sheet (seed ${seed})`, () => {
  it('meets it where bisection of the independent evaluation does', () => {
    fc.assert(
      fc.property(fieldWith(placesIn), tilts, fc.integer({ min: -900, max: 900 }), ([field, { u, v }], tilt, back) => {
        // The line is drawn through a place of the sheet and begun `back` mm before it.
        const w = height(field, u, v)!;
        const through = ray({ u, v, w }, tilt);
        const start = { u: u - back * through.du, v: v - back * through.dv, w: w - back * through.dw };
        const r = { ...through, ...start };
        const hit = hitField(field, r);
        fc.pre(closing(field, r) > 1e-5);
        const onBorder = height(field, u - 1e-6, v - 1e-6) === null || height(field, u + 1e-6, v + 1e-6) === null;
        if (onBorder && hit === null) return;
        expect(hit).not.toBeNull();
        // Bisection between one mm behind and one before, if the sheet reaches that far.
        const gap = (t: number) => {
          const h = height(field, r.u + t * r.du, r.v + t * r.dv);
          return h === null ? null : (r.w + t * r.dw - h) * r.dw;
        };
        let [low, high] = [back - 1, back + 1];
        if (gap(low) !== null && gap(high) !== null) {
          for (let k = 0; k < 60; k++) {
            const middle = (low + high) / 2;
            if (gap(middle)! > 0) high = middle;
            else low = middle;
          }
          expect(Math.abs(hit!.t - low)).toBeLessThanOrEqual(hit!.error + 1e-8);
        }
        expect(Math.abs(hit!.t - back)).toBeLessThanOrEqual(hit!.error + 1e-8);
      }),
      { seed, numRuns: 400 },
    );
  });

  it('is certified to 1e-6 mm unless it nearly grazes', () => {
    fc.assert(
      fc.property(fieldWith(placesIn), tilts, fc.integer({ min: -900, max: 900 }), ([field, { u, v }], tilt, w) => {
        const r = ray({ u, v, w }, tilt);
        const hit = hitField(field, r);
        fc.pre(hit !== null);
        expect(hit!.error).toBeGreaterThan(0);
        if (closing(field, r) > 0.01) expect(hit!.error).toBeLessThan(1e-6);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('has a sign: behind the origin is negative', () => {
    const level = fieldOf({ countU: 6, countV: 6 }, () => 10);
    expect(hitField(level, ray({ u: 50, v: 50, w: 0 }, { du: 0, dv: 0, dw: 1 }))!.t).toBeCloseTo(10, 7);
    expect(hitField(level, ray({ u: 50, v: 50, w: 0 }, { du: 0, dv: 0, dw: -1 }))!.t).toBeCloseTo(-10, 7);
    expect(hitField(level, ray({ u: 50, v: 50, w: 22 }, { du: 0.6, dv: 0, dw: -0.8 }))!.t).toBeCloseTo(15, 7);
  });

  it('on a plane is the closed form', () => {
    const plane = fieldOf({ countU: 8, countV: 8 }, (u, v) => u / 64 + v / 128);
    const r = ray({ u: 100, v: 300, w: -200 }, { du: 0.2, dv: -0.1, dw: 1 });
    const t = (100 / 64 + 300 / 128 + 200) / (r.dw - r.du / 64 - r.dv / 128);
    expect(hitField(plane, r)!.t).toBeCloseTo(t, 7);
  });

  it('starts from outside the domain, and misses when the place is outside', () => {
    const level = fieldOf({ countU: 6, countV: 6 }, () => 0);
    const d = 1 / Math.sqrt(2);
    expect(hitField(level, { u: -300, v: 100, w: -400, du: d, dv: 0, dw: d })!.t).toBeCloseTo(400 / d, 6);
    expect(hitField(level, { u: -300, v: 100, w: -299, du: d, dv: 0, dw: d })).toBeNull();
    expect(hitField(level, { u: 0, v: 384, w: -5, du: 0, dv: 0, dw: 1 })!.t).toBeCloseTo(5, 7);
    expect(hitField(level, { u: 0, v: 384.01, w: -5, du: 0, dv: 0, dw: 1 })).toBeNull();
  });

  it('has no answer along a sheet or flatter than it may slope', () => {
    const slope = fieldOf({ countU: 8, countV: 5 }, (u) => u / 2);
    expect(hitField(slope, ray({ u: 100, v: 100, w: 0 }, { du: 1, dv: 0, dw: 0 }))).toBeNull();
    expect(hitField(slope, ray({ u: 100, v: 100, w: 0 }, { du: -2, dv: 0, dw: 0.99 }))).toBeNull();
    expect(hitField(slope, ray({ u: 100, v: 100, w: 0 }, { du: -2, dv: 0, dw: 1.01 }))).not.toBeNull();
  });

  it('refuses a direction that is not of unit length, and places that are none', () => {
    const level = fieldOf({ countU: 4, countV: 4 }, () => 0);
    const ok: Ray = { u: 0, v: 0, w: 0, du: 0, dv: 0, dw: 1 };
    expect(() => hitField(level, { ...ok, dw: 2 })).toThrow('ray: direction must have length 1 within 1e-9, got 2');
    expect(() => hitField(level, { ...ok, du: Number.NaN })).toThrow(RangeError);
    expect(() => hitField(level, { ...ok, w: Number.POSITIVE_INFINITY })).toThrow(
      'ray: place must lie within 1048576 mm of zero, got (0, 0, Infinity)',
    );
  });
});

/** Ways through the air, and ways from sheet to sheet that stay near it. */
const ways = (field: HeightField) => {
  const ends = fc.tuple(placesIn(field), fc.double({ min: -20, max: 20, noNaN: true }));
  return fc.tuple(ends, ends, fc.boolean()).map(([[p, pw], [q, qw], near]) => ({
    p: { ...p, w: near ? height(field, p.u, p.v)! + pw / 20 : pw },
    q: { ...q, w: near ? height(field, q.u, q.v)! + pw / 20 : qw },
  }));
};

describe(`a field over a straight way (seed ${seed})`, () => {
  it('holds against dense sampling, less what it can miss', () => {
    fc.assert(
      fc.property(fieldWith(ways), ([field, { p, q }]) => {
        const d = domainOf(field);
        const steps = 150;
        const heights = Array.from({ length: steps + 1 }, (_, k) => {
          const t = k / steps;
          const u = Math.min(d.u1, Math.max(d.u0, p.u + t * (q.u - p.u)));
          const v = Math.min(d.v1, Math.max(d.v0, p.v + t * (q.v - p.v)));
          return sampled(field, [u], [v])[0]![0]! - (p.w + t * (q.w - p.w));
        });
        // Along a slanting way the mixed derivative counts too: a difference of differences, at most twice the largest.
        const [du, dv] = [(q.u - p.u) / steps, (q.v - p.v) / steps];
        const mixed = (Math.abs(du * dv) * 2 * mostApart(field)) / (4 * 128 * 128);
        const most = highestOverSegment(field, p, q);
        expect(most.bound).toBeGreaterThanOrEqual(most.value);
        expect(most.bound - most.value).toBeLessThanOrEqual(0.001);
        expect(Math.max(...heights)).toBeLessThanOrEqual(most.bound + 1e-8);
        expect(most.value).toBeLessThanOrEqual(Math.max(...heights) + missedBy(field, du, dv) + mixed + 1e-8);
      }),
      { seed, numRuns: 150 },
    );
  });

  it('its value is taken at t, within the way', () => {
    fc.assert(
      fc.property(fieldWith(ways), ([field, { p, q }]) => {
        const { t, value } = highestOverSegment(field, p, q);
        expect(t >= 0 && t <= 1).toBe(true);
        const d = domainOf(field);
        const u = Math.min(d.u1, Math.max(d.u0, p.u + t * (q.u - p.u)));
        const v = Math.min(d.v1, Math.max(d.v0, p.v + t * (q.v - p.v)));
        expect(value).toBeCloseTo(sampled(field, [u], [v])[0]![0]! - (p.w + t * (q.w - p.w)), 7);
      }),
      { seed, numRuns: 150 },
    );
  });

  it('is the same both ways round, and cut in two the larger of the parts', () => {
    fc.assert(
      fc.property(fieldWith(ways), fc.double({ min: 0, max: 1, noNaN: true }), ([field, { p, q }], t) => {
        const whole = highestOverSegment(field, p, q);
        const back = highestOverSegment(field, q, p);
        expect(Math.max(whole.value, back.value)).toBeLessThanOrEqual(Math.min(whole.bound, back.bound) + 1e-9);
        const d = domainOf(field);
        const m = {
          u: Math.min(d.u1, Math.max(d.u0, p.u + t * (q.u - p.u))),
          v: Math.min(d.v1, Math.max(d.v0, p.v + t * (q.v - p.v))),
          w: p.w + t * (q.w - p.w),
        };
        const [a, b] = [highestOverSegment(field, p, m), highestOverSegment(field, m, q)];
        expect(Math.max(a.value, b.value)).toBeLessThanOrEqual(whole.bound + 1e-8);
        expect(whole.value).toBeLessThanOrEqual(Math.max(a.bound, b.bound) + 1e-8);
      }),
      { seed, numRuns: 150 },
    );
  });

  it('along a lattice direction is the range over that line, less the way as a linear function', () => {
    fc.assert(
      fc.property(fieldWith(ways), fc.boolean(), ([field, { p, q }], alongU) => {
        const end = alongU ? { ...q, v: p.v } : { ...q, u: p.u };
        const [from, to] = alongU ? [p.u, end.u] : [p.v, end.v];
        const slope = to === from ? 0 : (end.w - p.w) / (to - from);
        fc.pre(Math.abs(slope) < 100);
        const w = to === from ? Math.min(p.w, end.w) : p.w;
        const most = highestOverSegment(field, p, end);
        const rect = {
          u0: Math.min(p.u, end.u),
          u1: Math.max(p.u, end.u),
          v0: Math.min(p.v, end.v),
          v1: Math.max(p.v, end.v),
        };
        const plus = { at: slope * from - w, perU: alongU ? 0 - slope : 0, perV: alongU ? 0 : 0 - slope };
        const max = rangeMax(field, rect, { plus, within: 1e-6 });
        expect(Math.max(most.value, max.value)).toBeLessThanOrEqual(Math.min(most.bound, max.bound) + 1e-8);
      }),
      { seed, numRuns: 1500 },
    );
  });

  it('of no length is the height there', () => {
    const bowl = fieldOf({ countU: 6, countV: 6 }, (u, v) => (u * u + v * v) / 4096);
    const p = { u: 130, v: 7, w: 2 };
    const most = highestOverSegment(bowl, p, p);
    expect(most.value).toBeCloseTo(sampled(bowl, [130], [7])[0]![0]! - 2, 9);
  });

  it('refuses ends outside the domain', () => {
    const level = fieldOf({ countU: 4, countV: 4 }, () => 0);
    const p = { u: 0, v: 0, w: 0 };
    expect(() => highestOverSegment(level, p, { ...p, u: 129 })).toThrow(
      'segment: end (129, 0) mm must lie in [0, 128] x [0, 128]',
    );
    expect(() => highestOverSegment(level, { ...p, w: Number.NaN }, p)).toThrow(RangeError);
  });
});

/** Largest difference between control values that are neighbours, mm: bounds second differences and the mixed one by 2. */
function mostApart(field: HeightField): number {
  let most = 0;
  const { control, countU } = field;
  for (let k = 0; k < control.length; k++) {
    if (k % countU > 0) most = Math.max(most, Math.abs(control[k]! - control[k - 1]!));
    if (k >= countU) most = Math.max(most, Math.abs(control[k]! - control[k - countU]!));
  }
  return most / 1024;
}
