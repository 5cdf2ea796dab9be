/** Places for labels: the best that is free, and none sooner than a bad one. */
import { expect, test } from 'vitest';
import { labelBox, overlap, placeLabels, type Where, type Wish } from '../../src/drawing/label-place.ts';

const panel = { x: 0, y: 0, width: 200, height: 100 };
const number = (text: string, ...at: Where[]): Wish => ({ label: { view: 'plan', text, role: 'number' }, at });

test('the first place that is free is taken', () => {
  const labels = placeLabels([number('1', [50, 50]), number('2', [52, 50], [90, 50])], { panel, clear: [] });
  expect(labels.map((l) => [l.text, l.x])).toEqual([
    ['1', 50],
    ['2', 90],
  ]);
});

test('what is drawn is kept clear where another place will do, and not where none will', () => {
  const clear = [{ x: 40, y: 40, width: 20, height: 20 }];
  expect(placeLabels([number('1', [50, 55], [120, 55])], { panel, clear })[0]?.x).toBe(120);
  expect(placeLabels([number('1', [50, 55])], { panel, clear })[0]?.x).toBe(50);
  expect(placeLabels([{ ...number('1', [50, 55]), optional: true }], { panel, clear })).toEqual([]);
});

test('nothing is put on another label or off the panel, it is left out instead', () => {
  const crowd = Array.from({ length: 30 }, (_, i) => number(String(i), [100, 50], [110, 50], [199, 50], [-4, 50]));
  const labels = placeLabels(crowd, { panel, clear: [] });
  expect(labels.length).toBeGreaterThanOrEqual(1);
  expect(labels.length).toBeLessThan(3);
  const boxes = labels.map(labelBox);
  expect(boxes.some((a, i) => boxes.slice(i + 1).some((b) => overlap(a, b)))).toBe(false);
});
