/**
 * The UK warranty standard, by edition: 2019 and 2020 differ in how flat walls are and in how plumb is reckoned.
 *
 * Walls: flat by a 2 m straight-edge on equal offsets, so the surface against the line through its two ends; a shorter edge
 * where 2 m have no room. Plumb: the most that any two points of one plumb line stand apart. Floors and ceilings: level by
 * their furthest points across the full width. Corners are to be square, without a number: what is out of square stays as
 * drawn. Of 2019 the page on walls was read; its floors and ceilings are taken as in 2020.
 */
import type { Limit } from './limit.ts';
import type { Limits, SurfaceRule } from './limits.ts';

const chapter = '9-finishes/9-1-a-consistent-approach-to-finishes';
const page = (edition: number, name: string) => `https://nhbc-standards.co.uk/${edition}/${chapter}/${name}/`;

export const uk2020: Limits = {
  document: 'NHBC Standards, chapter 9.1',
  edition: '2020',
  sources: [
    { url: page(2020, '9-1-3-walls-and-ceilings'), quotes: false, gives: 'walls and ceilings' },
    { url: page(2020, '9-1-5-floors'), quotes: false, gives: 'floors' },
  ],
  surfaces: [...walls({ flatMm: 3, plumb: [3, 8, 12] }), ...levels()],
  sizes: [],
};

export const uk2019: Limits = {
  document: 'NHBC Standards, chapter 9.1',
  edition: '2019',
  sources: [
    { url: page(2019, '9-1-3-walls-and-ceilings'), quotes: false, gives: 'walls' },
    { url: page(2020, '9-1-5-floors'), quotes: false, gives: 'floors and ceilings, of 2020' },
  ],
  surfaces: [...walls({ flatMm: 5, plumb: [2.5, 8, 12] }), ...levels()],
  sizes: [],
};

function walls(of: { flatMm: number; plumb: readonly [m: number, mm: number, tallerMm: number] }): SurfaceRule[] {
  const [m, mm, tallerMm] = of.plumb;
  const plumb: Limit = {
    by: 'range',
    upTo: [
      [m, mm],
      [Number.POSITIVE_INFINITY, tallerMm],
    ],
  };
  return [
    straightEdge('flat', ['left', 'right', 'back'], of.flatMm),
    { measures: 'drift', says: 'plumb', sides: ['left', 'right', 'back'], along: 'v', longestMm: null, limit: plumb },
  ];
}

function levels(): SurfaceRule[] {
  const level = (along: 'u' | 'v'): SurfaceRule => ({
    measures: 'ends',
    says: 'level',
    sides: ['floor', 'ceiling'],
    along,
    across: 'slanting',
    insetMm: 0,
    limit: { by: 'metre', mm: 3 },
  });
  return [straightEdge('flat', ['floor', 'ceiling', 'slope'], 5), level('u'), level('v')];
}

function straightEdge(says: string, sides: SurfaceRule['sides'], mm: number): SurfaceRule {
  return {
    measures: 'bow',
    says,
    sides,
    along: 'any',
    at: 'anywhere',
    shortestMm: 100,
    longestMm: 2000,
    limit: { by: 'itself', mm },
  };
}
