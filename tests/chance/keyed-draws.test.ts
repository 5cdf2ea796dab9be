/**
 * Keyed draws: pure in (key, purpose, index), the same bits for ever, and spread as they say.
 *
 * Deviations are of chi-square statistics, made normal; a fair source passes 4.5 about 3 times in a million.
 */
import { describe, expect, it } from 'vitest';
import {
  bell,
  bells,
  bellToUnitDeviation,
  between,
  bits,
  type DrawKey,
  drawKey,
  pick,
  purpose,
  shuffled,
  uniform,
} from '../../src/chance/keyed-draws.ts';
import {
  chiSquare,
  chiSquareDeviations,
  evenness,
  independence,
  meanAndDeviation,
  tally,
} from '../helpers/statistics.ts';

const most = 4.5;
const plain: DrawKey = [1, 2, 3, 4];
const a = purpose('a');
const draws = 65_536;
const indices = Array.from({ length: draws }, (_, i) => i);

describe('the same bits for ever (worked once; never edited)', () => {
  it.each([
    ['', [1149004671, 164338398, 1212042633, 135181921]],
    ['a', [224979999, -757066098, -1266936633, 34020044]],
    ['offtrue/1/alcove/old/belly/0', [1856465007, 239175994, 1095965567, -1908467930]],
  ])('key of %j', (text, key) => {
    expect(drawKey(text)).toEqual(key);
  });

  // FNV-1a of "", "a" and "foobar" as its authors print them (from memory): 811c9dc5, e40c292c, bf9cf968.
  it.each([
    ['', 0x811c9dc5 | 0],
    ['a', 0xe40c292c | 0],
    ['foobar', 0xbf9cf968 | 0],
    ['recess/wobble/left', 912786398],
    ['survey/tilt', 1283243855],
  ])('purpose %j', (name, hash) => {
    expect(purpose(name)).toBe(hash);
  });

  it.each([
    [plain, 'a', 0, 3580808990],
    [plain, 'a', 1, 1749875678],
    [plain, 'a', -1, 3862896064],
    [plain, 'a', 2 ** 31, 3288991898],
    [plain, 'recess/wobble/left', 0, 1812349605],
    [drawKey('a'), 'a', 0, 1327104622],
    [drawKey('a'), 'survey/tilt', 123456789, 214984831],
  ] as const)('bits of %j, %s, %i', (key, name, index, expected) => {
    expect(bits(key, purpose(name), index)).toBe(expected);
  });

  it('derived draws of 1 2 3 4, a, 0', () => {
    expect(uniform(plain, a, 0)).toBe(3580808990 / 2 ** 32);
    expect(pick(plain, a, { index: 0, count: 7 })).toBe(5);
    expect(bell(plain, a, 0)).toBe(50 / 510);
    expect(shuffled(plain, a, 13)).toEqual([1, 3, 10, 8, 0, 4, 9, 2, 6, 11, 7, 5, 12]);
  });
});

describe('pure in key, purpose and index', () => {
  it('a draw is the same after any others, and an index counts modulo 2^32', () => {
    const key = drawKey('pure');
    const first = indices.slice(0, 500).map((i) => bits(key, a, i));
    for (const i of indices) bits(drawKey('other'), purpose('other'), i);
    const backwards = indices.slice(0, 500).reverse();
    expect(backwards.map((i) => bits(key, a, i)).reverse()).toEqual(first);
    expect(bits(key, a, 7 + 2 ** 32)).toBe(first[7]);
    expect(bits(key, a, -(2 ** 32) + 7)).toBe(first[7]);
  });

  it('each of key, purpose and index alone changes half of the bits', () => {
    const key = drawKey('avalanche');
    const next = drawKey('another');
    const other = (word: number): DrawKey => key.map((k, i) => (i === word ? next[i]! : k)) as unknown as DrawKey;
    const changed = (from: (i: number) => number) => {
      const ones = indices.slice(0, 4096).map((i) => popcount(bits(key, a, i) ^ from(i)));
      return meanAndDeviation(ones).mean;
    };
    // The mean of 4096 counts of 32 fair bits deviates by sqrt(8 / 4096) = 0.044.
    for (const word of [0, 1, 2, 3]) expect(Math.abs(changed((i) => bits(other(word), a, i)) - 16)).toBeLessThan(0.5);
    expect(Math.abs(changed((i) => bits(key, purpose('b'), i)) - 16)).toBeLessThan(0.5);
    expect(Math.abs(changed((i) => bits(key, a, i + 1)) - 16)).toBeLessThan(0.5);
  });
});

describe.each(['spread 1', 'spread 2', 'spread 3'])('uniform, seed %j', (seed) => {
  const key = drawKey(seed);

  it('is even over 1024 bins, and lies in [0, 1)', () => {
    const values = indices.map((i) => uniform(key, a, i));
    expect(Math.min(...values.slice(0, 9999))).toBeGreaterThanOrEqual(0);
    expect(
      Math.abs(
        evenness(
          tally(
            values.map((u) => Math.floor(u * 1024)),
            1024,
          ),
        ),
      ),
    ).toBeLessThan(most);
  });

  it('has an even low byte, and every bit is one half of the time', () => {
    const words = indices.map((i) => bits(key, a, i));
    expect(
      Math.abs(
        evenness(
          tally(
            words.map((w) => w & 255),
            256,
          ),
        ),
      ),
    ).toBeLessThan(most);
    for (let bit = 0; bit < 32; bit++) {
      const ones = words.reduce((sum, w) => sum + ((w >>> bit) & 1), 0);
      expect(Math.abs(ones - draws / 2) / Math.sqrt(draws / 4)).toBeLessThan(most);
    }
  });

  it.each([1, 2, 3, 7, 16, 1024])('knows nothing of the draw %i further on', (step) => {
    const pairs = indices.map((i) => [bits(key, a, i), bits(key, a, i + step)] as const);
    expect(Math.abs(crossed(pairs))).toBeLessThan(most);
  });

  it('knows nothing of the same draw of another purpose, or of another key', () => {
    const names = ['b', 'recess/wobble/left', 'recess/wobble/right'].map(purpose);
    for (const b of names)
      expect(Math.abs(crossed(indices.map((i) => [bits(key, a, i), bits(key, b, i)])))).toBeLessThan(most);
    const near = drawKey(`${seed}0`);
    expect(Math.abs(crossed(indices.map((i) => [bits(key, a, i), bits(near, a, i)])))).toBeLessThan(most);
  });

  it('is even at one index over many keys', () => {
    const first = Array.from({ length: 13_000 }, (_, i) => pick(drawKey(`${seed}/${i}`), a, { index: 0, count: 13 }));
    expect(Math.abs(evenness(tally(first, 13)))).toBeLessThan(most);
  });
});

describe('pick and between, seed "chosen"', () => {
  const key = drawKey('chosen');

  it.each([1, 2, 5, 7, 13])('picks evenly from %i', (count) => {
    const counts = tally(
      indices.map((index) => pick(key, a, { index, count })),
      count,
    );
    if (count > 1) expect(Math.abs(evenness(counts))).toBeLessThan(most);
    expect(counts.every((c) => c > 0)).toBe(true);
  });

  it('lies in [from, to), and is even there', () => {
    const values = indices.map((index) => between(key, a, { index, from: -3, to: 5 }));
    expect(values.every((v) => v >= -3 && v < 5)).toBe(true);
    expect(
      Math.abs(
        evenness(
          tally(
            values.map((v) => Math.floor((v + 3) * 32)),
            256,
          ),
        ),
      ),
    ).toBeLessThan(most);
  });
});

describe('bell, seed "bell"', () => {
  const key = drawKey('bell');
  const values = indices.map((i) => bell(key, a, i));
  // Four bytes, each with the variance (256² - 1)/12, over 510.
  const deviation = Math.sqrt((4 * (256 ** 2 - 1)) / 12) / 510;

  it('stays in [-1, 1] and is centred on 0', () => {
    expect(values.every((v) => v >= -1 && v <= 1)).toBe(true);
    expect(Math.max(...values.map(Math.abs))).toBeGreaterThan(0.9);
    expect(Math.abs(meanAndDeviation(values).mean)).toBeLessThan((4.5 * deviation) / Math.sqrt(draws));
  });

  it('is the same drawn many at once', () => {
    const into = new Float64Array(draws);
    bells(key, a, { into, count: draws });
    expect([...into]).toEqual(values);
  });

  it('deviates by 0.2898, and the factor makes 1 of it', () => {
    expect(deviation).toBeCloseTo(0.2898, 4);
    expect(Math.abs(bellToUnitDeviation * deviation - 1)).toBeLessThan(1e-4);
    // A sample's deviation is off by about deviation / sqrt(2 n), less for so flat a bell.
    const off = meanAndDeviation(values).deviation - deviation;
    expect(Math.abs(off)).toBeLessThan((4.5 * deviation) / Math.sqrt(2 * draws));
  });

  it('has the distribution of the sum of four bytes, worked out by folding', () => {
    let ways = [1];
    for (let byte = 0; byte < 4; byte++) {
      const next = new Array<number>(ways.length + 255).fill(0);
      for (let i = 0; i < ways.length; i++) for (let b = 0; b < 256; b++) next[i + b]! += ways[i]!;
      ways = next;
    }
    const width = 20;
    const bins = Math.ceil(1021 / width);
    const chance = Array.from({ length: bins }, (_, bin) =>
      ways.slice(bin * width, (bin + 1) * width).reduce((sum, w) => sum + w / 256 ** 4, 0),
    );
    const counts = tally(
      values.map((v) => Math.floor(Math.round(v * 510 + 510) / width)),
      bins,
    );
    // Bins that are rarely met count as one.
    const met = chance.flatMap((c, bin) => (c * draws >= 20 ? [bin] : []));
    const rest = (of: readonly number[]) => of.reduce((sum, c, bin) => sum + (met.includes(bin) ? 0 : c), 0);
    const expected = [...met.map((bin) => chance[bin]! * draws), rest(chance) * draws];
    const found = [...met.map((bin) => counts[bin]!), rest(counts)];
    const statistic = chiSquare(found, (bin) => expected[bin]!);
    expect(Math.abs(chiSquareDeviations(statistic, met.length))).toBeLessThan(most);
  });
});

describe('shuffled, seeds "order 0" to "order 23999"', () => {
  const keys = Array.from({ length: 24_000 }, (_, i) => drawKey(`order ${i}`));

  it('is a permutation', () => {
    for (const count of [0, 1, 2, 5, 13, 40]) {
      const order = shuffled(keys[count]!, a, count);
      expect([...order].sort((x, y) => x - y)).toEqual(Array.from({ length: count }, (_, i) => i));
    }
  });

  it('gives all 24 orders of four near equally often', () => {
    const names = new Map<string, number>();
    for (const key of keys) {
      const name = shuffled(key, a, 4).join('');
      names.set(name, (names.get(name) ?? 0) + 1);
    }
    expect(names.size).toBe(24);
    expect(Math.abs(evenness([...names.values()]))).toBeLessThan(most);
  });
});

/** How far pairs of draws are from knowing nothing of each other, by their top and their low four bits. */
function crossed(pairs: readonly (readonly [number, number])[]): number {
  const of = (part: (w: number) => number) => {
    const table = Array.from({ length: 16 }, () => new Array<number>(16).fill(0));
    for (const [x, y] of pairs) table[part(x)]![part(y)]!++;
    return independence(table);
  };
  const [top, low] = [of((w) => w >>> 28), of((w) => w & 15)];
  return Math.abs(top) > Math.abs(low) ? top : low;
}

function popcount(word: number): number {
  let count = 0;
  for (let w = word >>> 0; w > 0; w = Math.floor(w / 2)) count += w % 2;
  return count;
}
