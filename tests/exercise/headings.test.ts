/**
 * The headings that exercises have: weights of 100 and the points of their straight lines, as the model sets them.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { headingsSchema, usualHeadings } from '../../src/exercise/headings.ts';

describe('the usual headings', () => {
  const h = usualHeadings;

  it('weigh 100 together', () => {
    const weights = {
      setUp: h.setUp.reference + h.setUp.lines.points,
      instrument: h.instrument.points,
      coverage: h.coverage.points,
      rule: h.rule.points,
      booking: h.booking.points,
      checks: h.checks.made + h.checks.actedOn,
      workingOut: h.workingOut.points,
      willItGo: h.willItGo.points,
    };
    expect(weights).toEqual({
      setUp: 15,
      instrument: 10,
      coverage: 20,
      rule: 15,
      booking: 10,
      checks: 10,
      workingOut: 15,
      willItGo: 5,
    });
    expect(Object.values(weights).reduce((sum, w) => sum + w, 0)).toBe(100);
  });

  it('run from full to none between these sizes', () => {
    expect([h.setUp.lines.fullMm, h.setUp.lines.noneMm]).toEqual([1, 5]);
    expect([h.coverage.fullMm, h.coverage.noneMm]).toEqual([2.5, 10]);
    expect([h.rule.fullMm, h.rule.noneMm]).toEqual([1, 4]);
    expect([h.workingOut.fullMm, h.workingOut.noneMm, h.workingOut.allowanceFreeMm]).toEqual([1, 5, 10]);
    expect(h.checks.misclosureMm).toBe(2);
    expect(h.caps).toEqual({ scrap: 49, rework: 69 });
    expect(h.limits).toMatchObject({ reworkClearanceMm: 3, reworkStockMm: 2, wasteMm: 10 });
  });

  it('are headings by the schema, which refuses more and less', () => {
    expect(v.is(headingsSchema, h)).toBe(true);
    expect(v.is(headingsSchema, { ...h, style: { points: 1 } })).toBe(false);
    const { rule: _, ...less } = h;
    expect(v.is(headingsSchema, less)).toBe(false);
  });
});
