/**
 * The German tolerance tables, DIN 18202: flatness (Table 3), angularity (Table 2), sizes (Table 1).
 *
 * Flatness by the grid: the middle of three points against the mean of the outer two, the outer two's distance being the
 * distance between measuring points. Angularity: the line from the beginning to the end of an edge against the nominal
 * direction, level, plumb, or square to the face line. Sizes and angles keep 100 mm off the edges.
 */
import type { Entry, Limit } from './limit.ts';
import type { Limits, SizeRule, SurfaceRule } from './limits.ts';

const columns = [0.1, 1, 4, 10, 15];

/** Table 3, mm by row; a row's numbers stand under 0.1, 1, 4, 10 and 15 m. */
export const flatness: Readonly<Record<1 | 2 | 3 | 4 | 5 | 6 | 7, Limit>> = {
  1: row(10, 15, 20, 25, 30),
  2: row(5, 8, 12, 15, 20),
  3: row(2, 4, 10, 12, 15),
  4: row(1, 3, 9, 12, 15),
  5: row(5, 10, 15, 25, 30),
  6: row(3, 5, 10, 20, 25),
  7: row(2, 3, 8, 15, 20),
};

/** Table 2. */
export const angularity: Limit = {
  by: 'range',
  upTo: [
    [0.5, 3],
    [1, 6],
    [3, 8],
    [6, 12],
    [15, 16],
    [30, 20],
    [Number.POSITIVE_INFINITY, 30],
  ],
};

/** Table 1, the rows for what is measured here. */
export const sizes = {
  clearPlan: ranges(12, 16, 20, 24, 30),
  clearHeight: ranges(16, 20, 20, 30),
  finishedOpening: ranges(8, 10, 12),
} as const;

const sources: Limits['sources'] = [
  { url: 'https://face-consultants.com/din-18202/', quotes: true, gives: 'Table 3, in English, of 1997' },
  {
    url: 'http://www.klb-klimaleichtblock.de/mauerwerk/mauerwerk-in-der-praxis/konstruktion/toleranzen-bei-der-mauerwerkserst/ebenheitstoleranzen-fuer-waende-im-rohbauzustand.html',
    quotes: true,
    gives: 'row 5, and how to go between columns',
  },
  {
    url: 'https://beaplan.de/technische-beurteilung/pruefung-von-ebenheit-und-winkeltoleranz/',
    quotes: true,
    gives: 'Table 2, and the grid: of points 1 m apart the distance between measuring points is 2 m',
  },
  {
    url: 'http://betonkonkret.de/bauherren/artikel-details/news/massabweichungen-beton-und-stahlbetonbau/',
    quotes: true,
    gives: 'Table 1, of 2013-04',
  },
  {
    url: 'https://fensterversand.com/info/normen/din-18202-masstoleranz-hochbau.php',
    quotes: true,
    gives: 'how far off the edges',
  },
];

export const dinFinished: Limits = tables({ walls: flatness[6], floors: flatness[3] });
export const dinHigher: Limits = tables({ walls: flatness[7], floors: flatness[4] });

function tables(flat: { readonly walls: Limit; readonly floors: Limit }): Limits {
  return {
    document: 'DIN 18202',
    edition: '2013-04, flatness as quoted of 1997',
    sources,
    surfaces: [
      grid(['left', 'right', 'back', 'ceiling', 'slope'], flat.walls),
      grid(['floor'], flat.floors),
      angle('u'),
      angle('v'),
    ],
    sizes: [
      size('width', 'rooms', sizes.clearPlan),
      size('depth', 'rooms', sizes.clearPlan),
      size('height', 'rooms', sizes.clearHeight),
      size('width', 'openings', sizes.finishedOpening),
      size('height', 'openings', sizes.finishedOpening),
    ],
  };
}

function grid(sides: SurfaceRule['sides'], limit: Limit): SurfaceRule {
  return {
    measures: 'bow',
    says: 'flat',
    sides,
    along: 'any',
    at: 'middle',
    shortestMm: 100,
    longestMm: 15_000,
    limit,
  };
}

function angle(along: 'u' | 'v'): SurfaceRule {
  return {
    measures: 'ends',
    says: 'angle',
    sides: ['left', 'right', 'back', 'floor', 'ceiling', 'slope'],
    along,
    across: 'straight',
    insetMm: 100,
    limit: angularity,
  };
}

function size(of: SizeRule['of'], families: SizeRule['families'], limit: Limit): SizeRule {
  return { says: of, of, families, limit, insetMm: 100 };
}

function row(...mm: readonly number[]): Limit {
  return { by: 'column', at: mm.map((limit, i): Entry => [columns[i] as number, limit]) };
}

/** Up to 1, 3, 6, 15 and 30 m. */
function ranges(...mm: readonly number[]): Limit {
  return { by: 'range', upTo: mm.map((limit, i): Entry => [[1, 3, 6, 15, 30][i] as number, limit]) };
}
