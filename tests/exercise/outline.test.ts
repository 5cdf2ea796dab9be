/**
 * The outline: where one can stand. The breast's own stretch is solid, and so is what lies behind the back.
 */
import { describe, expect, it } from 'vitest';
import { outlineOf, planOutline, roomInFrontMm } from '../../src/exercise/outline.ts';
import { area, contains } from '../../src/geometry/polygon.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';

describe.each(['left', 'right'] as const)('with the breast on the %s', (breastSide) => {
  const outline = outlineOf(exerciseIn(roomSpec({ breastSide, mouthMm: -40 })));
  const plan = planOutline(outline);
  // To the breast's side is +, to the party wall's -.
  const at = (towards: number, y: number) => contains(plan, { x: breastSide === 'right' ? towards : -towards, y });

  it('takes its sizes from the brief, nothing from the truth', () => {
    expect(outline).toEqual({
      openingMm: { width: 1000, height: 2400, depth: 500 },
      mouthMm: -40,
      breastSide,
      family: 'alcove',
      open: ['slope'],
      slope: null,
    });
  });

  it.each([
    ['in the recess', 0, 250, true],
    ['at the mouth', 0, -40, true],
    ['out in the room', 0, -2000, true],
    ['before the breast', 900, -100, true],
    ['in the breast', 900, 100, false],
    ['behind the breast’s face', 600, -30, false],
    ['behind the back', 0, 510, false],
    ['past the party wall, in the recess', -510, 100, false],
    ['past the party wall, in the room', -510, -1000, false],
    ['too far out', 0, -roomInFrontMm - 1, false],
    ['past the room', 2001, -1000, false],
  ])('%s', (_, towards, y, free) => {
    expect(at(towards, y)).toBe(free);
  });

  it('is as large as its two parts', () => {
    const recess = 1000 * (500 + 40);
    const room = (1000 + 1500) * (roomInFrontMm - 40);
    expect(area(plan)).toBeCloseTo(recess + room, 3);
  });
});
