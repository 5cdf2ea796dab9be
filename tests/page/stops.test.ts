/** Stops of runs in every shape: sides that are there, places under the slope and within what is seen, boxes by edges. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { outlineOf } from '../../src/exercise/outline.ts';
import { isWithin, placeAt, runKindsOf, suggestedStops } from '../../src/page/state/stops.ts';
import { speakIn, type Units } from '../../src/recess/lengths.ts';
import { exerciseOfShape, shapes } from '../helpers/family-rooms.ts';

function seen(name: string, cutOuts?: string[]) {
  const exercise = exerciseOfShape(name, cutOuts ? { cutOuts } : {});
  const trims = exercise.spec.trims.map((t) => ({ ...t, fate: 'stays' as const, cleared: false }));
  return { outline: outlineOf(exercise), brief: exercise.brief, trims };
}

const inUnits = Object.keys(shapes).flatMap((name) => (['mm', 'in-16'] as const).map((units) => ({ name, units })));
afterEach(() => speakIn('mm'));

describe.each<{ name: string; units: Units }>(inUnits)('$name, $units', ({ name, units }) => {
  beforeEach(() => speakIn(units));
  const view = seen(name);
  const { openingMm, slope, open } = view.outline;
  const half = openingMm.width / 2;
  const topOver = (x: number) => {
    if (!slope) return openingMm.height;
    const inward = slope.low === 'left' ? x + half : half - x;
    return Math.min(openingMm.height, slope.lowMm + (slope.riseMmPerM * inward) / 1000);
  };

  test('offers each side that is there once, from its own datum', () => {
    const kinds = runKindsOf(view);
    expect(kinds.some((k) => open.includes(k.surface))).toBe(false);
    expect(new Set(kinds.map((k) => k.key)).size).toBe(kinds.length);
    expect(
      kinds.every(
        (k) => k.kind === { left: 'S', right: 'S', back: 'F', floor: 'L', ceiling: 'L', slope: 'L' }[k.surface],
      ),
    ).toBe(true);
  });

  test('its places lie within the opening and under what is over them', () => {
    for (const kind of runKindsOf(view)) {
      const { rows, columns } = suggestedStops(view, kind);
      const places = rows.flatMap((r) => columns.map((c) => placeAt(kind, r.at, c.at)));
      const inside = places.filter((p) => isWithin(view.outline, p));
      expect(inside.length, kind.says).toBeGreaterThan(1);
      for (const {
        xMm = kind.surface === 'left' ? -half : kind.surface === 'right' ? half : 0,
        yMm = 0,
        zMm = 1,
      } of inside) {
        expect(Math.abs(xMm)).toBeLessThanOrEqual(half);
        expect(yMm).toBeLessThan(openingMm.depth);
        expect(zMm).toBeGreaterThan(0);
        expect(zMm).toBeLessThan(topOver(xMm));
        if (kind.surface === 'slope') expect(topOver(xMm)).toBeLessThanOrEqual(openingMm.height);
      }
    }
  });
});

test('with a rule in inches, places lie at half inches', () => {
  speakIn('in-32');
  for (const name of Object.keys(shapes)) {
    const view = seen(name);
    for (const kind of runKindsOf(view)) {
      const { rows, columns } = suggestedStops(view, kind);
      for (const { at } of [...rows, ...columns])
        if (at !== 'F') expect(at / 12.7).toBeCloseTo(Math.round(at / 12.7), 9);
    }
  }
});

test('boxes that the back is cut for are read by their edges, where the eye sees them to the nearest 10', () => {
  const view = seen('run', ['socket box']);
  const boxes = runKindsOf(view).filter((k) => k.boxes);
  expect(boxes.map((k) => k.kind)).toEqual(['S', 'L']);
  const [across, up] = boxes;
  if (!across || !up) throw new Error('two kinds of run');
  // The box runs from -900 to -754 along and from 300 to 386 up.
  const at = { surface: 'back', xMm: -830, zMm: 340 };
  expect([placeAt(across, 0, 0), placeAt(across, 0, 1)]).toEqual([
    { ...at, edge: 'left' },
    { ...at, edge: 'right' },
  ]);
  expect(placeAt(up, 0, 0)).toEqual({ ...at, edge: 'top' });
});
