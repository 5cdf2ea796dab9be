/**
 * The North American guideline: plumb by the home builders' performance guidelines, bows and floors by state rules of the
 * same family. Inches; what reaches a number of the state rules fails, so the limit itself is kept clear of.
 *
 * No number was found for how square a finished corner is: what is out of square stays as drawn. Nor for how level a
 * ceiling is, nor for sizes.
 */
import type { Limits } from './limits.ts';

const inch = 25.4;

export const northAmerica: Limits = {
  document: 'NAHB Residential Construction Performance Guidelines, and 10 TAC 304 for bows and floors',
  edition: '3rd edition; 2005',
  sources: [
    { url: 'http://www.nachi.org/forum/f23/wall-plumbness-12598/', quotes: true, gives: 'plumb; bows of walls' },
    {
      url: 'http://online.flipbuilder.com/fevj/njtc/files/basic-html/page54.html',
      quotes: true,
      gives: 'ceilings and sub-floors, of a builder who takes the same rules over',
    },
  ],
  surfaces: [
    {
      measures: 'drift',
      says: 'plumb',
      sides: ['left', 'right', 'back'],
      along: 'v',
      longestMm: 32 * inch,
      limit: { by: 'itself', mm: (3 / 8) * inch },
    },
    bow('bow, level', ['left', 'right', 'back'], { along: 'u', longest: 32, most: 1 / 4 }),
    bow('bow, upright', ['left', 'right', 'back'], { along: 'v', longest: 96, most: 1 / 2 }),
    bow('bow', ['ceiling', 'slope'], { along: 'any', longest: 32, most: 1 / 2 }),
    bow('hump', ['floor'], { along: 'any', longest: 32, most: 3 / 8 }),
    {
      measures: 'drift',
      says: 'fall',
      sides: ['floor'],
      along: 'any',
      longestMm: 32 * inch,
      limit: { by: 'itself', mm: (3 / 8) * inch },
    },
  ],
  sizes: [],
};

function bow(
  says: string,
  sides: Limits['surfaces'][number]['sides'],
  of: { along: 'any' | 'u' | 'v'; longest: number; most: number },
): Limits['surfaces'][number] {
  return {
    measures: 'bow',
    says,
    sides,
    along: of.along,
    at: 'anywhere',
    shortestMm: 100,
    longestMm: of.longest * inch,
    limit: { by: 'itself', mm: of.most * inch },
  };
}
