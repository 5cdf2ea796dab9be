import { describe, expect, test } from 'vitest';
import { layoutSheet, type SheetLayout, sheetNames, sheetOf } from '../../src/drawing/field-sheet.ts';
import type { ActOf, SurfacePlace } from '../../src/survey/act.ts';
import type { Booking } from '../../src/survey/survey.ts';

const alcoveOnly = { family: 'alcove', open: ['slope'], slope: null } as const;
const outline = {
  openingMm: { width: 1180, height: 2440, depth: 400 },
  mouthMm: -30,
  breastSide: 'right' as const,
  ...alcoveOnly,
};

function booking(n: number, place: SurfacePlace, more: Partial<ActOf<'book'>> & { struck?: boolean } = {}): Booking {
  const { struck = false, ...said } = more;
  return { n, struck, said: { act: 'book', what: 'offset', valueMm: 590.5 + n, datum: 'S', place, ...said } };
}

const heights = [300, 1250, 2200];
const widths = heights.flatMap((zMm, i) =>
  (['left', 'right'] as const).flatMap((surface, j) => [
    booking(10 * i + 2 * j + 1, { surface, along: 'F', zMm }),
    booking(10 * i + 2 * j + 2, { surface, yMm: 360, zMm }),
  ]),
);
const flats = [-390, 0, 390].flatMap((xMm, i) =>
  (['floor', 'ceiling'] as const).flatMap((surface, j) => [
    booking(100 + 10 * i + 2 * j, { surface, along: 'F', xMm }, { datum: 'L' }),
    booking(101 + 10 * i + 2 * j, { surface, xMm, yMm: 360 }, { datum: 'L' }),
  ]),
);
const depths = heights.flatMap((zMm, i) =>
  [-390, 0, 390].map((xMm, j) => booking(200 + 3 * i + j, { surface: 'back', xMm, zMm }, { datum: 'F' })),
);
const view = { bookings: [...widths, ...flats, ...depths], outline };
const nothing = { now: null, planned: [] };

/** Boxes that figures and words take up, by an estimate of their widths. */
function boxesOf(layout: SheetLayout) {
  const box = (t: { x: number; y: number; text: string }, size: number, anchor: string) => {
    const wide = t.text.length * size * 0.56;
    const left = anchor === 'middle' ? t.x - wide / 2 : anchor === 'end' ? t.x - wide : t.x;
    return { what: t.text, left, right: left + wide, top: t.y - size * 0.75, bottom: t.y + 2 };
  };
  return [
    ...layout.figures.map((f) => box(f, f.struck ? 13 : 16, 'middle')),
    ...layout.texts.map((t) => box(t, t.small ? 12 : 13, t.anchor)),
  ];
}

describe.each(sheetNames)('the sheet of %s', (name) => {
  const layout = layoutSheet(view, name, nothing);

  test('holds every figure of its own and no other', () => {
    const own = view.bookings.filter((b) => sheetOf(b.said.place as SurfacePlace) === name);
    expect(layout.figures.map((f) => f.booking).sort((a, b) => a - b)).toEqual(
      own.map((b) => b.n).sort((a, b) => a - b),
    );
  });

  test('keeps figures and words apart and on the sheet', () => {
    const boxes = boxesOf(layout);
    for (const [i, a] of boxes.entries()) {
      expect(a.left, a.what).toBeGreaterThanOrEqual(0);
      expect(a.right, a.what).toBeLessThanOrEqual(layout.width);
      expect(a.bottom, a.what).toBeLessThanOrEqual(layout.height);
      for (const b of boxes.slice(i + 1))
        expect(
          a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top,
          `${a.what} on ${b.what}`,
        ).toBe(true);
    }
  });
});

test('a figure that was struck through stays, small, beside the one that stands', () => {
  const place: SurfacePlace = { surface: 'left', along: 'F', zMm: 300 };
  const bookings = [booking(1, place, { struck: true }), booking(2, place)];
  const { figures } = layoutSheet({ bookings, outline }, 'widths', nothing);
  expect(figures.map((f) => f.struck)).toEqual([true, false]);
  expect(figures[1]?.x ?? 0).toBeGreaterThan(figures[0]?.x ?? 0);
});

test('the place in hand has a slot', () => {
  const now: SurfacePlace = { surface: 'right', yMm: 360, zMm: 900 };
  expect(layoutSheet(view, 'widths', { now, planned: [] }).slot).not.toBeNull();
  expect(layoutSheet(view, 'depths', { now, planned: [] }).slot).toBeNull();
});
