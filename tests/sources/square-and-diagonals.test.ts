/**
 * Checking for square by diagonals, and the trap in it.
 *
 * | statement | source | status |
 * |---|---|---|
 * | a racked 800 x 2000 rectangle, shear 5: diagonals 2155.928 and 2152.214, difference 3.714; d1² - d2² = 4 W shear | closed form, recomputed; the project's list of check values, 6.3 | D |
 * | an isosceles taper, 800 below and 790 above, has equal diagonals 2152.21 and is not square | as above | D |
 *
 * Tolerance: half a unit in the last printed digit. Surfaces keep 1/1024 mm, so a diagonal is known to about 0.0005.
 * Diagonals are taped by acts on a built room and closed against offsets read from a square line.
 */
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/exercise/exercise.ts';
import type { Defect } from '../../src/recess/recess-spec.ts';
import type { SurfacePlace } from '../../src/survey/act.ts';
import { closingChecks } from '../../src/survey/closing-checks.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { acted, doneOf, middleOf } from '../helpers/surveying.ts';
import { placeAt, readAndBook, standTrue } from '../helpers/truths.ts';

/** 800 wide and 2000 between the places, both walls leaning by so much over that, + when the top comes in. */
function walls(leftMm: number, rightMm: number, offsets: { left: number; right: number }): Exercise {
  const lean = (mm: number): Defect[] => [{ kind: 'lean', mm }];
  const openingMm = { width: 800, height: 2000, depth: 500 };
  return exerciseIn(roomSpec({ openingMm, offsets, defects: { left: lean(leftMm), right: lean(rightMm) } }));
}

/** Both diagonals at a depth, taped from corner to corner: from the foot of the left wall, and from its head. */
function diagonals(exercise: Exercise): readonly [number, number] {
  const survey = standTrue(exercise);
  const at = (surface: 'left' | 'right', v: number) => placeAt(survey, surface, { u: 200, v });
  const tape = (from: SurfacePlace, to: SurfacePlace) => doneOf(survey, { act: 'diagonal', from, to }).tapeMm!;
  return [tape(at('left', 0), at('right', 2000)), tape(at('left', 2000), at('right', 0))];
}

describe('a racked rectangle, 800 x 2000, shear 5', () => {
  // Left comes in at the top as right goes out: both lean to the right.
  const racked = walls(5, -5, { left: 2.5, right: -2.5 });
  const [d1, d2] = diagonals(racked);

  it('has diagonals 2155.928 and 2152.214, and their difference 3.714', () => {
    expect(Math.abs(d1 - 2155.928)).toBeLessThan(0.0005 + 0.0005);
    expect(Math.abs(d2 - 2152.214)).toBeLessThan(0.0005 + 0.0005);
    expect(Math.abs(d1 - d2 - 3.714)).toBeLessThan(0.0005 + 0.001);
  });

  it('holds d1² - d2² = 4 W shear', () => {
    expect(d1 ** 2 - d2 ** 2).toBeCloseTo(4 * 800 * 5, -1);
    expect(Math.abs((d1 ** 2 - d2 ** 2) / (4 * 800) - 5)).toBeLessThan(0.002);
  });

  it('a diagonal closes on the offsets at its two ends', () => {
    const start = standTrue(racked);
    const [from, to] = [placeAt(start, 'left', { u: 200, v: 200 }), placeAt(start, 'right', { u: 200, v: 1800 })];
    const read = readAndBook(readAndBook(start, { datum: 'S', place: from }), { datum: 'S', place: to });
    const { tapeMm } = doneOf(read, { act: 'diagonal', from, to });
    const booked = (valueMm: number) =>
      closingChecks(acted(read, { act: 'book', what: 'diagonal', valueMm, place: from, to })).find(
        (c) => c.kind === 'diagonal',
      )!;
    // The places are the hand's own: by a hidden turn their depths differ by a little, which costs hundredths.
    expect(Math.abs(booked(tapeMm!).misclosureMm)).toBeLessThan(0.03);
    expect(booked(tapeMm! + 4).misclosureMm - booked(tapeMm!).misclosureMm).toBeCloseTo(4, 9);
  });
});

describe('the trap: an isosceles taper, 800 below and 790 above', () => {
  const taper = walls(5, 5, { left: 2.5, right: 2.5 });
  const [d1, d2] = diagonals(taper);

  it('has equal diagonals 2152.21', () => {
    expect(Math.abs(d1 - 2152.21)).toBeLessThan(0.005);
    expect(Math.abs(d2 - 2152.21)).toBeLessThan(0.005);
    expect(Math.abs(d1 - d2)).toBeLessThan(0.002);
  });

  it('and is not square: it tapes 800 below and 790 above, and each wall is 5 out of plumb', () => {
    const survey = standTrue(taper);
    const at = (surface: 'left' | 'right', v: number) => placeAt(survey, surface, { u: 200, v });
    const width = (v: number) => doneOf(survey, { act: 'span', place: at('left', v), to: 'right' }).tapeMm!;
    expect(Math.abs(width(1) - 800)).toBeLessThan(0.05);
    expect(Math.abs(width(1999) - 790)).toBeLessThan(0.05);
    const offset = (v: number) => middleOf(doneOf(survey, { act: 'read', datum: 'S', place: at('left', v) }));
    expect(offset(1) - offset(1999)).toBeCloseTo(5 * (1998 / 2000), 2);
  });
});
