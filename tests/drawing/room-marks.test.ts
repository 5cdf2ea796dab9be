/** Marks where they were reckoned when they were made, and the datums that they still tell of. */
import { expect, test } from 'vitest';
import { keptDatums, placedMarks } from '../../src/drawing/room-marks.ts';
import type { Act } from '../../src/survey/act.ts';
import { learnerView } from '../../src/survey/learner-view.ts';
import { surveyed } from '../helpers/drawn-rooms.ts';

const first: Act[] = [
  { act: 'stand', xMm: 40, yMm: -20, heightMm: 900 },
  { act: 'settle' },
  { act: 'mark', place: { surface: 'left', along: 'F', zMm: 800 } },
  { act: 'mark', place: { surface: 'right', along: 'F', zMm: 800 } },
  { act: 'mark', place: { surface: 'back', along: 'L', xMm: 0 } },
];
const second: Act[] = [{ act: 'stand', xMm: -60, yMm: -700, heightMm: 1300 }, { act: 'settle' }];
/** A breast stands beside the mouth: only from within its arris are both marks seen. */
const seed = 12;

test('a mark of the set-up that stands now lies on its line', () => {
  const view = learnerView(surveyed(seed, first));
  expect(view.marks).toHaveLength(3);
  const marks = placedMarks(view);
  expect(marks.map((m) => m.at.y).slice(0, 2)).toEqual([-20, -20]);
  expect(marks[2]?.at.z).toBe(900);
  expect(keptDatums(marks, [1])).toEqual([]);
});

test('when the level stands elsewhere, a mark stays where it was told to be', () => {
  const view = learnerView(surveyed(seed, [...first, ...second]));
  const told = view.marks.map((m, i) => ({
    ...m,
    at: { x: [-500, 500, 0][i] ?? 0, y: [-20, -18, 400][i] ?? 0, z: 900 },
  }));
  const marks = placedMarks({ ...view, marks: told });
  expect(marks.map((m) => m.at)).toEqual(told.map((m) => m.at));
  expect(keptDatums(marks, [2]).map((d) => [d.name, d.from.y, d.to.y])).toEqual([
    ['F', -20, -18],
    ['L', 400, 400],
  ]);
});

test('without being told, a mark stays where it was reckoned to be when it was made', () => {
  const marks = placedMarks(learnerView(surveyed(seed, [...first, ...second])));
  expect(marks).toEqual(placedMarks(learnerView(surveyed(seed, first))));
  expect(keptDatums(marks, [2]).map((d) => d.name)).toEqual(['F', 'L']);
});

test('of two levels that stand at once, no line is kept by its marks alone', () => {
  const marks = placedMarks(learnerView(surveyed(seed, [...first, ...second])));
  expect(keptDatums(marks, [1, 2])).toEqual([]);
});

test('two marks close together tell no direction', () => {
  const mark = (x: number) => ({ mark: 1, datum: 'F', at: { x, y: 0, z: 100 } });
  expect(keptDatums([mark(0), mark(60)], [2])).toEqual([]);
  expect(keptDatums([mark(0), mark(160)], [2])).toHaveLength(1);
});
