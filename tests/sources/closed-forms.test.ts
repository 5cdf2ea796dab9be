/**
 * Closed forms of bows, winds, slopes and boxes, each through height fields.
 *
 * All of these are D: derived, elementary geometry, no publication; numbers as printed in the project's list of check values, parts 6.2,
 * 6.4 and 7. Tolerance: half a unit in the last printed digit, and where the lattice's unit of 1/1024 mm is coarser, heights are made
 * a thousand times as large.
 *
 * A uniform cubic spline reproduces cubics: control values (the polar form at three neighbouring knots) x² - h²/3 give x², and
 * x³ - h² x give x³, with h the step of the knots. (From memory; the first test holds it.)
 */

import { describe, expect, it } from 'vitest';
import { heightAt, type Rect } from '../../src/geometry/height-field.ts';
import { rangeMax, rangeMin } from '../../src/geometry/range.ts';
import { fieldOf } from '../helpers/height-fields.ts';

const h = 128;
/** Control value for x² and for x³. */
const square = (x: number) => x * x - (h * h) / 3;
const cube = (x: number) => x * x * x - h * h * x;
/** A lattice over u in [-1280, 1280]. */
const long = { u0: -1280, countU: 23, countV: 4 };
const strip = (from: number, to: number): Rect => ({ u0: from, u1: to, v0: 0, v1: 128 });

describe('sagitta, R = c²/8s + s/2', () => {
  it('squares and cubes are reproduced', () => {
    const squares = fieldOf(long, (u) => square(u) / 1024);
    const cubes = fieldOf(long, (u) => cube(u) / 262_144);
    for (const u of [-1280, -900.5, 0, 64, 333.3, 1280]) {
      expect(Math.abs(heightAt(squares, u, 9) - (u * u) / 1024)).toBeLessThan(1 / 2048);
      expect(Math.abs(heightAt(cubes, u, 9) - (u * u * u) / 262_144)).toBeLessThan(1 / 2048);
    }
  });

  it('c = 2400, R = 120003: c²/8R = 5.99985, the rise of a bow of that curvature over its chord', () => {
    const bow = fieldOf(long, (u) => (-1000 * square(u)) / (2 * 120_003));
    const chord = heightAt(bow, -1200, 64);
    expect(heightAt(bow, 1200, 64)).toBe(chord);
    const max = rangeMax(bow, strip(-1200, 1200));
    expect(Math.abs((max.value - chord) / 1000 - 5.99985)).toBeLessThan(0.000005);
    expect(max.u).toBe(0);
  });

  it('the printed radii 120003, 100002.5, 41668.17 give back the rises 6, 5, 3', () => {
    for (const [c, radius, s] of [
      [2400, 120_003, 6],
      [2000, 100_002.5, 5],
      [1000, 41_668.17, 3],
    ] as const) {
      // The bow through the arc's ends and its crown.
      const rise = radius - Math.sqrt(radius * radius - (c * c) / 4);
      const spans = 2 * Math.ceil(c / 256);
      const lattice = { u0: -64 * spans, countU: spans + 3, countV: 4 };
      const bow = fieldOf(lattice, (u) => -1000 * rise * ((4 * square(u)) / (c * c)));
      const { value } = rangeMax(bow, strip(-c / 2, c / 2));
      expect(Math.abs((value - heightAt(bow, c / 2, 0)) / 1000 - s)).toBeLessThan(0.000005);
    }
  });
});

describe('zones of bows and winds (range of the surface less a plane)', () => {
  const halfLong = 1280;
  const zone = (field: ReturnType<typeof fieldOf>, rect: Rect, slope: number) => {
    const plus = { at: 0, perU: 0 - slope, perV: 0 };
    return (rangeMax(field, rect, { plus }).value - rangeMin(field, rect, { plus }).value) / 1000;
  };
  const all = strip(-halfLong, halfLong);

  it('x³ on [-1, 1]: 0.5 about slope 3/4, 0.8 about 3/5, 0.76980 about its end points', () => {
    const cubic = fieldOf(long, (u) => (1000 * cube(u)) / halfLong ** 3);
    const per = 1000 / halfLong;
    expect(Math.abs(zone(cubic, all, 0.75 * per) - 0.5)).toBeLessThan(0.000005);
    expect(Math.abs(zone(cubic, all, 0.6 * per) - 0.8)).toBeLessThan(0.000005);
    expect(Math.abs(zone(cubic, all, per) - 0.7698)).toBeLessThan(0.000005);
  });

  it('s(1 - x²) on [-1, 1]: its zone and its sagitta are s', () => {
    const bow = fieldOf(long, (u) => 1000 * 7 * (1 - square(u) / halfLong ** 2));
    expect(Math.abs(zone(bow, all, 0) - 7)).toBeLessThan(0.000005);
  });

  it('one corner of four out by w: zone w/2 about the plane halfway, and the corner reads w', () => {
    // w = 10 over a 640 x 512 panel; the best plane is w(x + y)/2 - w/4 of the printed minimum zone.
    const wind = fieldOf({ countU: 8, countV: 7 }, (u, v) => (10 * u * v) / (640 * 512));
    const rect = { u0: 0, u1: 640, v0: 0, v1: 512 };
    const plus = { at: 0, perU: -5 / 640, perV: -5 / 512 };
    const about = rangeMax(wind, rect, { plus }).value - rangeMin(wind, rect, { plus }).value;
    expect(Math.abs(about - 5)).toBeLessThan(0.002);
    expect(rangeMax(wind, rect)).toMatchObject({ u: 640, v: 512 });
    expect(rangeMax(wind, rect).value).toBeCloseTo(10, 2);
  });
});

describe('boxes', () => {
  it('two walls lean the same way 8 in 2400: every tape reads 1000, the widest plumb carcass is 992', () => {
    const lattice = { u0: -128, v0: 0, countU: 10, countV: 23 };
    // x of the left wall and of the right one over (y, z), both leaning to the right.
    const left = fieldOf(lattice, (_, z) => (8 * z) / 2400);
    const right = fieldOf(lattice, (_, z) => 1000 + (8 * z) / 2400);
    for (const z of [0, 700, 1200, 2400]) expect(heightAt(right, 300, z) - heightAt(left, 300, z)).toBeCloseTo(1000, 8);
    const face = { u0: 0, u1: 600, v0: 0, v1: 2400 };
    expect(Math.abs(rangeMin(right, face).value - rangeMax(left, face).value - 992)).toBeLessThan(0.5 / 1024 + 0.002);
  });

  it('under a stair of 42° and 2000: 1800.81 high, best box 1000 x 900.40, 1260.57 clear at 600', () => {
    const rise = Math.tan((42 * Math.PI) / 180);
    const soffit = fieldOf({ countU: 20, countV: 5 }, (u) => 2000 * rise - rise * u);
    expect(Math.abs(heightAt(soffit, 0, 100) - 1800.81)).toBeLessThan(0.005);
    expect(Math.abs(heightAt(soffit, 600, 100) - 1260.57)).toBeLessThan(0.005);
    const clear = (width: number) => rangeMin(soffit, { u0: 0, u1: width, v0: 0, v1: 256 }).value;
    expect(Math.abs(clear(1000) - 900.4)).toBeLessThan(0.005);
    const areas = [400, 800, 999, 1000, 1001, 1200, 1900].map((width) => width * clear(width));
    expect(Math.max(...areas)).toBe(areas[3]);
  });
});
