/**
 * The oracle itself, on hand-made rooms whose answers are closed forms, and on mutants of true keys.
 *
 * @source walls that lean the same way: every tape width reads 1000, the widest plumb carcass is 992. Derived, a closed
 *   form (status D); 8 mm is the plumb limit of NHBC Standards 2020, 9.1.3 (status V)
 */
import { describe, expect, test } from 'vitest';
import { nameOf } from '../../src/exchange/exercise-file.ts';
import { samplesOf } from '../../src/exchange/samples-file.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { checkKey } from './compare.ts';

type Height = (u: number, v: number) => number;

interface HandMade {
  readonly left?: Height;
  readonly right?: Height;
  readonly back?: Height;
  readonly floor?: Height;
  readonly ceiling?: Height;
  readonly trims?: readonly unknown[];
}

const opening = { width: 1000, height: 2400, depth: 500 };
const brief = {
  openingMm: opening,
  mouthMm: -40,
  carcassFrontMm: 20,
  carcassMm: {
    width: { nominalMm: 960, find: true },
    height: { nominalMm: 2200, find: true },
    depth: { nominalMm: 440, find: true },
  },
  askMm: { left: 3, right: 3, top: 6, back: 5 },
  plinthMm: 100,
  frame: { thicknessMm: 20, leastStockMm: 3, mostStockMm: 25 },
  access: { clearHeightMm: 2400, plinthSeparate: true },
};

/** Samples of a room that is made by hand, every 4 mm. */
function roomOf(made: HandMade): unknown {
  const stepMm = 4;
  const axis = { x: [-756, 756], y: [-296, 756], z: [-256, 2656] } as const;
  const surface = (side: string, u: 'x' | 'y', v: 'y' | 'z', height: Height) => {
    const count = (a: 'x' | 'y' | 'z') => Math.floor((axis[a][1] - axis[a][0]) / stepMm) + 1;
    return {
      name: side,
      side,
      knots: { stepMm: 128, u0Mm: axis[u][0], v0Mm: axis[v][0] },
      u: { axis: u, fromMm: axis[u][0], count: count(u) },
      v: { axis: v, fromMm: axis[v][0], count: count(v) },
      heightsMm: Array.from({ length: count(v) }, (_, j) =>
        Array.from({ length: count(u) }, (_, i) => height(axis[u][0] + i * stepMm, axis[v][0] + j * stepMm)),
      ),
    };
  };
  return {
    format: 'offtrue-samples',
    version: 1,
    stepMm,
    brief,
    mouthMm: brief.mouthMm,
    surfaces: [
      surface('left', 'y', 'z', made.left ?? (() => -500)),
      surface('right', 'y', 'z', made.right ?? (() => 500)),
      surface('back', 'x', 'z', made.back ?? (() => 500)),
      surface('floor', 'x', 'y', made.floor ?? (() => 0)),
      surface('ceiling', 'x', 'y', made.ceiling ?? (() => 2400)),
    ],
    trims: made.trims ?? [],
  };
}

/** The key of the plain box for its nominal carcass, by hand. */
const plain = {
  brief,
  carcass: {
    widthMm: 960,
    heightMm: 2200,
    depthMm: 440,
    fits: 'yes',
    goesInBare: true,
    clearanceMm: { left: 20, right: 20, top: 100, back: 40 },
    at: { leftMm: -480, bottomMm: 100 },
    tightest: [
      { side: 'left', atMm: [-500, 0, 100], clearanceMm: 20 },
      { side: 'right', atMm: [500, 0, 100], clearanceMm: 20 },
      { side: 'top', atMm: [0, 0, 2400], clearanceMm: 100 },
      { side: 'back', atMm: [0, 500, 100], clearanceMm: 40 },
    ],
    // sqrt(2200² + 440²) = 2243.5686
    standsUp: { ok: true, byMm: 156.4314 },
  },
  widestMm: 1000,
  tallestMm: 2300,
  deepestMm: 480,
  opening: { widthMm: 1000, heightMm: 2400, leftMm: -500, bottomMm: 0 },
  frame: {
    widthMm: 1006,
    heightMm: 2406,
    at: { leftMm: -503, bottomMm: -3 },
    stockMm: { left: [3, 3], right: [3, 3], top: [3, 3], bottom: [3, 3] },
  },
  plinthMm: [100, 100],
  marginsMm: [100, 100, 100],
  mouthWidthMm: 1000,
};

const none = { carcass: null, frame: null };

describe('hand-made rooms', () => {
  test('a plain box is what it is', () => {
    expect(checkKey(roomOf({}), plain).disagreements).toEqual([]);
  });

  test('two walls lean the same way 8 mm in 2400: every tape width reads 1000, the widest carcass is 992', () => {
    // The lean is over the heights that the nominal carcass stands at: 100 to 2300 up, its 8 mm told over those.
    const lean = (z: number) => (8 * (z - 100)) / 2200;
    const room = roomOf({ left: (_y, z) => -500 + lean(z), right: (_y, z) => 500 + lean(z) });
    const key = {
      ...plain,
      ...none,
      widestMm: 992,
      opening: { widthMm: 1000 + lean(2400) - lean(0), heightMm: 2400, leftMm: -500 + lean(0), bottomMm: 0 },
      mouthWidthMm: 992,
    };
    expect(checkKey(room, key).disagreements).toEqual([]);
    expect(checkKey(room, { ...key, widestMm: 1000 }).disagreements.join()).toMatch(/widest/);
  });

  test('a floor that falls lifts the carcass to its high point', () => {
    const room = roomOf({ floor: (x) => x / 100 });
    const high = 5;
    const key = {
      ...plain,
      ...none,
      tallestMm: 2300 - high,
      opening: { widthMm: 1000, heightMm: 2405, leftMm: -500, bottomMm: -5 },
      plinthMm: [100, 110],
      marginsMm: [95, 95, 95],
    };
    expect(checkKey(room, key).disagreements).toEqual([]);
  });

  test('a cornice that stays counts overhead alone, and its stretch is left out of the opening', () => {
    const cornice = {
      name: 'cornice',
      surface: 'ceiling',
      uMm: [-756, -400],
      vMm: [-296, 756],
      profile: {
        along: 'u',
        mm: [
          [-756, 80],
          [-425, 80],
          [-400, 10],
        ],
      },
      fate: 'stays',
    };
    const key = { ...plain, ...none, tallestMm: 2220, marginsMm: [20, 100, 100] };
    expect(checkKey(roomOf({ trims: [cornice] }), key).disagreements).toEqual([]);
    expect(checkKey(roomOf({ trims: [{ ...cornice, fate: 'cut' }] }), key).disagreements).not.toEqual([]);
  });
});

/** Every number of a key, by its path; the brief and the places asked for are not answers. */
function numbersIn(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([k, part]) => numbersIn(part, [...path, Array.isArray(value) ? Number(k) : k]));
}

function mutant(key: object, path: readonly (string | number)[], by: number): unknown {
  const copy = structuredClone(key) as Record<string | number, never>;
  let at = copy;
  for (const step of path.slice(0, -1)) at = at[step] as unknown as typeof at;
  const last = path.at(-1) as string;
  at[last] = ((at[last] as unknown as number) + by) as never;
  return copy;
}

describe('mutants of a true key', () => {
  const opened = openCode(
    writeCode({ family: 'alcove', severity: 'old', structure: 'wound', kit: 'site', seed: 90210 }),
  );
  if (!opened.ok) throw new Error(opened.error.says);
  const exercise = opened.value;
  const recess = buildRecess(exercise.spec);
  const samples = samplesOf(recess, exercise, 4);
  const carcass = { widthMm: 700, heightMm: 1900, depthMm: 250 };
  const result = answerKey(recess, exercise, { carcass, frame: { widthMm: 900, heightMm: 2500 } });
  if (!result.ok) throw new Error(result.error.says);
  const { brief: _brief, ...answers } = result.key;

  test(`the true key of ${nameOf(exercise)} stands`, () => {
    expect(checkKey(samples, result.key).disagreements).toEqual([]);
  });

  // Sizes that were asked for are not answers; a place along a flat side may move without being wrong.
  const asked = /^(carcass|frame)\/(widthMm|heightMm|depthMm)$|atMm/;
  const paths = numbersIn(answers).filter((p) => !asked.test(p.join('/')));

  test('there is a mutant for every number', () => {
    expect(paths.length).toBeGreaterThan(30);
  });

  test.each(paths.map((p) => [p.join('/'), p] as const))('%s off by 0.1 is told', (_name, path) => {
    expect(checkKey(samples, mutant(result.key, path, 0.1)).disagreements).not.toEqual([]);
  });

  test('a choice that is turned over is told', () => {
    const turned = { ...result.key, carcass: { ...result.key.carcass, fits: 'no' } };
    expect(checkKey(samples, turned).disagreements).not.toEqual([]);
    const bare = { ...result.key, carcass: { ...result.key.carcass, goesInBare: false } };
    expect(checkKey(samples, bare).disagreements).not.toEqual([]);
    expect(checkKey(samples, { ...result.key, widestMm: null }).disagreements).not.toEqual([]);
  });
});
