/**
 * The bound on what a grid can miss, against surfaces whose extremes are known another way: closed forms, and random
 * splines searched to a millionth.
 *
 * @source cubic B-spline on the knots 0 to 4: B(1/2) = 1/48, B(1) = 1/6, B(3/2) = 23/48, B(2) = 2/3. Derived, a closed
 *   form, recomputed (status D, checked); not a printed table
 */
import { describe, expect, test } from 'vitest';
import { basis, drawsOf, type Extent, type Height, splineOf } from './made-room.ts';
import { greatest, heightAt, OutsideError, type Rect, type Sheet, sheetOf, steepest, type Tilt } from './sheet.ts';

const extent: Extent = { u: [0, 640], v: [-128, 1024] };

function sampled(height: Height, stepMm: number, from = 0): Sheet {
  const count = (range: readonly [number, number]) => (range[1] - range[0]) / stepMm + 1 - from;
  const [columns, rows] = [count(extent.u), count(extent.v)];
  const [u, v] = [extent.u[0] + from * stepMm, extent.v[0] + from * stepMm];
  const heightsMm = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) heightsMm[j * columns + i] = height(u + i * stepMm, v + j * stepMm);
  }
  return sheetOf(
    {
      name: 'sheet',
      side: 'left',
      knots: { stepMm: 128, u0Mm: extent.u[0], v0Mm: extent.v[0] },
      u: { axis: 'y', fromMm: u, count: columns },
      v: { axis: 'z', fromMm: v, count: rows },
      heightsMm,
    },
    stepMm,
  );
}

/** A bump 8 mm high, a quarter of a metre across, on wobble of 1 mm: the roughest that a room has, and rougher. */
function roughSpline(seed: number): Height {
  const draw = drawsOf(seed);
  const [at, up] = [Math.floor(1 + 5 * draw()), Math.floor(1 + 9 * draw())];
  return splineOf(extent, (i, j) => draw() * 2 - 1 + (i === at && j === up ? 12 : 0));
}

/** The greatest value that a search finds: every `step` mm with all edges, then uphill by halving steps from the best. */
function searched(value: Height, rect: Rect, step: number): number {
  const places = ([from, to]: readonly [number, number]) => {
    const inside = Array.from(
      { length: Math.ceil((to - from) / step) + 1 },
      (_, i) => (Math.ceil(from / step) + i) * step,
    );
    return [from, ...inside.filter((place) => place > from && place < to), to];
  };
  const found: [number, number, number][] = [];
  for (const v of places(rect.v)) for (const u of places(rect.u)) found.push([value(u, v), u, v]);
  found.sort((a, b) => b[0] - a[0]);
  const clamp = (place: number, [from, to]: readonly [number, number]) => Math.min(Math.max(place, from), to);
  return Math.max(
    ...found.slice(0, 12).map(([start, startU, startV]) => {
      let [best, u, v] = [start, startU, startV];
      for (let move = step; move > 1e-5; ) {
        const tries = [-1, 0, 1].flatMap((a) => [-1, 0, 1].map((b) => [u + a * move, v + b * move] as const));
        const next = tries
          .map(([a, b]) => [clamp(a, rect.u), clamp(b, rect.v)] as const)
          .map(([a, b]): [number, number, number] => [value(a, b), a, b])
          .reduce((most, one) => (one[0] > most[0] ? one : most));
        if (next[0] > best) [best, u, v] = next;
        else move /= 2;
      }
      return best;
    }),
  );
}

test('the spline of the made rooms is the cubic B-spline', () => {
  expect(basis(0.5)).toBeCloseTo(1 / 48, 14);
  expect(basis(1)).toBeCloseTo(1 / 6, 14);
  expect(basis(1.5)).toBeCloseTo(23 / 48, 14);
  expect(basis(2)).toBeCloseTo(2 / 3, 14);
});

describe('a sheet', () => {
  test('gives heights between samples exactly, up to its edges', () => {
    const height = roughSpline(1);
    const sheet = sampled(height, 16);
    const draw = drawsOf(2);
    for (let i = 0; i < 500; i++) {
      const [u, v] = [640 * draw(), -128 + 1152 * draw()];
      expect(Math.abs(heightAt(sheet, u, v) - height(u, v))).toBeLessThan(1e-10);
    }
    for (const [u, v] of [
      [0, -128],
      [640, 1024],
      [128, 0.5],
      [639.99, 1023.99],
    ] as const) {
      expect(Math.abs(heightAt(sheet, u, v) - height(u, v))).toBeLessThan(1e-10);
    }
  });

  test('knows the top of a parabola that no sample touches', () => {
    // 5 - (u - 333)²/32768: the nearest samples every 16 mm are 320 and 336, and miss it by 9/32768.
    const sheet = sampled((u) => 5 - ((u - 333) * (u - 333)) / 32768, 16);
    const top = greatest(sheet, 1, { u: [100.3, 500.7], v: [3.1, 900] });
    expect(top.low).toBeCloseTo(5 - 9 / 32768, 8);
    // The bound is w² c / 8 = 256 x (2/32768) / 8 above the best sample.
    expect(top.high).toBeCloseTo(5 - 9 / 32768 + 64 / 32768, 8);
  });

  test('is exact where a surface is straight, and where it is hollow', () => {
    const sheet = sampled((u, v) => 0.01 * u - 0.003 * v + (u * u) / 1e5, 4);
    const rect: Rect = { u: [10.3, 500.9], v: [-3.7, 901.1] };
    const top = 0.01 * 500.9 + 0.003 * 3.7 + (500.9 * 500.9) / 1e5;
    const { low, high } = greatest(sheet, 1, rect);
    expect(low).toBeCloseTo(top, 8);
    expect(high).toBeCloseTo(top, 8);
  });

  test('takes the second derivative at the end of a span, where a cubic bends most', () => {
    // f'' = -6u/c: within the span from 0 to 128 least at 128.
    const c = 2e6;
    const sheet = sampled((u) => (-u * u * u) / c + 0.02 * u, 4);
    const { low, high } = greatest(sheet, 1, { u: [101.3, 128], v: [0, 100] });
    expect(high - low).toBeCloseTo(((16 / 8) * 6 * 128) / c, 8);
    const hollow = greatest(sheet, -1, { u: [101.3, 128], v: [0, 100] });
    expect(hollow.high - hollow.low).toBeCloseTo(0, 8);
  });

  test('allows for a second derivative that is greatest between two rows', () => {
    // f_uu = 2(b (v - 72)² - a) is lowest at 72, between the rows at 64 and 80; f_vv is not below 0.
    const [a, b] = [1e-4, 1e-7];
    const sheet = sampled((u, v) => (u - 200) * (u - 200) * (b * (v - 72) * (v - 72) - a), 16);
    const { low, high } = greatest(sheet, 1, { u: [130, 250], v: [10, 120] });
    expect(high - low).toBeCloseTo(((16 * 16) / 8) * 2 * a, 8);
  });

  // Rough on purpose: a bump of 8 mm on a quarter of a metre bends ten times as much as a plastered wall.
  test.each([
    [2, 3, 0.004],
    [4, 6, 0.016],
    [16, 12, 0.25],
  ])('holds random splines to the bound, every %i mm, %i of them within %f mm', (step, rooms, widest) => {
    let missed = 0;
    let wide = 0;
    for (let seed = 10; seed < 10 + rooms; seed++) {
      const height = roughSpline(seed);
      const sheet = sampled(height, step);
      const draw = drawsOf(1000 + seed);
      const rect: Rect = { u: [40 * draw(), 640 - 300 * draw()], v: [-128 + 300 * draw(), 1024 - 300 * draw()] };
      const tilt: Tilt = { along: seed % 2 ? 'u' : 'v', at: 17, height: 3, slope: 0.04 * (draw() - 0.5) };
      for (const sign of [1, -1] as const) {
        for (const tilted of [undefined, tilt]) {
          const added = (u: number, v: number) =>
            tilted ? tilted.height + tilted.slope * ((tilted.along === 'u' ? u : v) - tilted.at) : 0;
          const truth = searched((u, v) => sign * height(u, v) + added(u, v), rect, 16);
          const { low, high } = greatest(sheet, sign, rect, tilted);
          expect(truth).toBeLessThanOrEqual(high);
          expect(truth).toBeGreaterThanOrEqual(low - 1e-6);
          if (truth > low + 1e-5) missed++;
          wide = Math.max(wide, high - low);
        }
      }
    }
    expect(wide).toBeLessThan(widest);
    expect(missed).toBeGreaterThan(rooms);
  });

  test('bounds its slope along a line', () => {
    const height = roughSpline(7);
    const sheet = sampled(height, 4);
    let steep = 0;
    for (let v = -128; v < 1024; v += 0.5)
      steep = Math.max(steep, Math.abs(height(77.7, v + 0.5) - height(77.7, v)) / 0.5);
    const bound = steepest(sheet, 'v', 77.7);
    expect(bound).toBeGreaterThanOrEqual(steep);
    expect(bound).toBeLessThan(1.2 * steep + 0.01);
  });

  test('leaves out an end span that is too short to know its cubic, and refuses what lies outside', () => {
    const height = roughSpline(3);
    // From one sample on, 16 mm apart: 7 of 8 steps of the first span are left, and that is enough.
    expect(heightAt(sampled(height, 16, 1), 20, 0)).toBeCloseTo(height(20, 0), 9);
    // From the sixth on: 2 steps are left, three samples do not fix a cubic.
    expect(() => heightAt(sampled(height, 16, 6), 100, 0)).toThrow(OutsideError);
    expect(heightAt(sampled(height, 16, 6), 128, 0)).toBeCloseTo(height(128, 0), 9);
    expect(() => heightAt(sampled(height, 16), 640.1, 0)).toThrow(OutsideError);
  });
});
