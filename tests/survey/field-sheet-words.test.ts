/**
 * The field sheet and what is seen on a rule, in words.
 */
import { describe, expect, it } from 'vitest';
import type { Act } from '../../src/survey/act.ts';
import { sayPlace, saySheet } from '../../src/survey/field-sheet-words.ts';
import { sayEdges, sayOnRule } from '../../src/survey/reading-words.ts';
import { acted, standing, surveyIn } from '../helpers/surveying.ts';

describe('the field sheet', () => {
  const left = (yMm: number, zMm: number, valueMm: number): Act => ({
    act: 'book',
    what: 'offset',
    valueMm,
    datum: 'S',
    place: { surface: 'left', yMm, zMm },
  });

  it('is empty before anything is booked', () => {
    expect(saySheet(surveyIn())).toEqual(['nothing is booked yet']);
  });

  it('has a table for each datum and side, heights down from the top, depths across, both of one place in one cell', () => {
    const sheet = saySheet(
      acted(surveyIn(), left(0, 300, 501), left(0, 1800, 498.5), left(400, 300, 496), left(400, 300, 497)),
    );
    expect(sheet).toHaveLength(4);
    expect(sheet[0]).toBe('from S to the left wall, mm: a row for each height, a column for each depth');
    // Columns line up and keep clear of each other.
    expect(new Set(sheet.slice(1).map((row) => row.length)).size).toBe(1);
    expect(sheet[1]!.trim().split(/\s+/)).toEqual(['0', '400']);
    expect(sheet[2]!.trim().split(/\s+/)).toEqual(['1800', '498.5', '·']);
    expect(sheet[3]).toMatch(/^ {2}300 +501 {2,}496 and 497$/);
  });

  it('says tapes, what was struck through, steps, closing checks and notes', () => {
    const survey = acted(
      surveyIn(),
      ...standing,
      left(0, 900, 500),
      { act: 'book', what: 'offset', valueMm: 501, datum: 'S', place: { surface: 'right', along: 'F', zMm: 900 } },
      { act: 'book', what: 'span', valueMm: 1003, place: { surface: 'left', yMm: 0, zMm: 900 }, to: 'right' },
      left(200, 900, 777),
      { act: 'strike', booking: 6 },
      { act: 'carry', from: 'S2', to: 'S', stepMm: 40 },
      { act: 'note', text: 'pipe low on the left' },
    );
    const sheet = saySheet(survey).join('\n');
    expect(sheet).toContain('from S to the right wall');
    expect(sheet).toContain('on F');
    expect(sheet).toContain('tape from left, 0 in, 900 up to right: 1003');
    expect(sheet).toContain('struck through: 777 (act 6), left, 200 in, 900 up');
    expect(sheet).toContain('carried over: S2 stands 40 from S');
    expect(sheet).toContain('closing check, left + right against the tape: 1001, 1003, differ 2');
    expect(sheet).toContain('note: pipe low on the left');
    expect(sheet.match(/777/g)).toHaveLength(1);
  });

  it('says a place as it was said', () => {
    expect(sayPlace({ surface: 'back', along: 'S', zMm: 1200 })).toBe('back, along S, 1200 up');
    expect(sayPlace({ mark: 3 })).toBe('mark 3');
  });
});

describe('what is seen on a rule', () => {
  it.each([
    [[595.2, 596.8], 'past 596 by a hair on the way to 597'],
    [[595.4, 597.0], 'past 596 and about a quarter of the way to 597'],
    [[595.7, 597.3], 'past 596 and about half-way to 597'],
    [[595.9, 597.6], 'past 596 and about three quarters of the way to 597'],
    [[596.1, 597.8], 'past 596 and nearly all the way to 597'],
  ] as const)('%j is %s', (edges, words) => {
    expect(sayOnRule(edges)).toBe(words);
  });

  it('never says the middle, nor an edge, closer than a millimetre', () => {
    for (let tenths = 0; tenths < 40; tenths++) {
      const edges = [500 + tenths / 10, 501.7 + tenths / 10] as const;
      for (const words of [sayOnRule(edges), sayEdges(edges)]) expect(words).not.toMatch(/\d\.\d/);
      const below = Number(/past (\d+)/.exec(sayOnRule(edges))![1]);
      expect(below <= 500.85 + tenths / 10 && 500.85 + tenths / 10 < below + 1).toBe(true);
    }
  });

  it('says which graduations the edges have passed', () => {
    expect(sayEdges([595.2, 597.9])).toBe('its near edge is past 595, its far edge past 597');
  });
});
