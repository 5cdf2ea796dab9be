/** Limits as data: by themselves, by the metre, by ranges, between columns. */
import { describe, expect, it } from 'vitest';
import { type Limit, limitAt, stepsOf } from '../../../src/recess/limits/limit.ts';

describe('a limit', () => {
  it('is one number at every length', () => {
    const limit: Limit = { by: 'itself', mm: 3 };
    expect([0, 1, 2500].map((mm) => limitAt(limit, mm))).toEqual([3, 3, 3]);
  });

  it('is so much a metre', () => {
    const limit: Limit = { by: 'metre', mm: 3 };
    expect([0, 500, 1200].map((mm) => limitAt(limit, mm))).toEqual([0, 1.5, 3.6]);
  });

  it('is that of the range, its end with it; the last goes on', () => {
    const limit: Limit = {
      by: 'range',
      upTo: [
        [0.5, 3],
        [1, 6],
      ],
    };
    expect([1, 500, 500.001, 1000, 4000].map((mm) => limitAt(limit, mm))).toEqual([3, 3, 6, 6, 6]);
  });

  const columns: Limit = {
    by: 'column',
    at: [
      [1, 2],
      [2, 5],
      [4, 5],
      [6, 6],
    ],
  };

  it('goes straight between columns, to whole mm, halves up; the outer columns go on', () => {
    const at = [100, 1000, 1166, 1167, 1500, 1834, 2000, 3000, 4999, 5000, 9000];
    expect(at.map((mm) => limitAt(columns, mm))).toEqual([2, 2, 2, 3, 4, 5, 5, 5, 5, 6, 6]);
  });

  it('steps up just beyond each length that is said', () => {
    const steps = stepsOf(columns);
    expect(steps.map((mm) => Math.round(mm))).toEqual([1167, 1500, 1833, 5000]);
    for (const mm of steps) expect(limitAt(columns, mm + 0.001) - limitAt(columns, mm - 0.001)).toBe(1);
    // And nowhere else.
    for (let mm = 100; mm < 9000; mm++)
      if (limitAt(columns, mm + 1) !== limitAt(columns, mm))
        expect(steps.some((step) => step >= mm && step <= mm + 1)).toBe(true);
    expect(stepsOf({ by: 'itself', mm: 3 })).toEqual([]);
  });
});
