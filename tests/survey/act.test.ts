/**
 * The schema of acts: what it takes, and what it refuses.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { learners } from '../../src/learners/learner.ts';
import { actSchema, datumName, datumParts } from '../../src/survey/act.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { surveyOf } from '../helpers/surveying.ts';

const takes = (act: unknown) => v.is(actSchema, act);
const left = { surface: 'left', yMm: 0, zMm: 900 };

describe('the schema of acts', () => {
  it('takes what every learner does, and no more than it', () => {
    for (const learner of learners)
      for (const parts of drawnParts(`acts ${learner.name}`, 2))
        for (const { act } of learner.survey(surveyOf(exerciseOf(parts))).entries) {
          expect(takes(act)).toBe(true);
          expect(takes({ ...act, secret: 1 })).toBe(false);
        }
  });

  it.each([
    ['no act', {}],
    ['an unknown act', { act: 'jump' }],
    ['a stand without a height', { act: 'stand', xMm: 0, yMm: 0 }],
    ['a stand at a negative height', { act: 'stand', xMm: 0, yMm: 0, heightMm: -1 }],
    ['a place on no surface', { act: 'read', datum: 'S', place: { surface: 'door', yMm: 0, zMm: 1 } }],
    ['a place with a field too many', { act: 'read', datum: 'S', place: { ...left, uMm: 1 } }],
    ['a datum that is none', { act: 'read', datum: 'P', place: left }],
    ['a datum of set-up 1 by number', { act: 'read', datum: 'S1', place: left }],
    ['a datum of set-up 0', { act: 'read', datum: 'S0', place: left }],
    ['a number that is none', { act: 'move', byXMm: Number.NaN, byYMm: 0 }],
    ['a number beyond any room', { act: 'move', byXMm: 20_001, byYMm: 0 }],
    ['a tilt over 300 mm/m', { act: 'read', datum: 'S', place: left, skewMmPerM: [301, 0] }],
    ['a turn over a metre a metre', { act: 'turn', byMmPerM: 1001 }],
    ['three quarters', { act: 'turn', byMmPerM: 0, quarters: 3 }],
    ['mark nought', { act: 'rub-out', mark: 0 }],
    ['a mark and a half', { act: 'rub-out', mark: 1.5 }],
    ['an empty note', { act: 'note', text: '' }],
    ['a carcass without a depth', { act: 'propose', carcassMm: { width: 1, height: 1 } }],
    [
      'a booking for an unknown size',
      { act: 'book', what: 'offset', valueMm: 1, datum: 'S', place: left, for: ['shelf'] },
    ],
  ])('refuses %s', (_, act) => {
    expect(takes(act)).toBe(false);
  });

  it.each(['F', 'S', 'L', 'F2', 'S9', 'L10', 'L99'])('takes the datum %s', (datum) => {
    expect(takes({ act: 'read', datum, place: left })).toBe(true);
    const { kind, setUp } = datumParts(datum);
    expect(datumName(kind, setUp)).toBe(datum);
  });
});
