/**
 * The headings of the score: their weights, the straight lines that earn them, and the caps. Data of the exercise.
 */
import * as v from 'valibot';

const number = v.pipe(v.number(), v.finite());

/** Points on a straight-line scale: full at or under `fullMm`, none at or over `noneMm`. */
const scale = v.strictObject({ points: number, fullMm: number, noneMm: number });

export const headingsSchema = v.strictObject({
  setUp: v.strictObject({ reference: number, referenceWithinMm: number, lines: scale }),
  /** Checking the level before it is trusted; left out of the score unless it is said to be scored. */
  instrument: v.strictObject({ points: number, scored: v.optional(v.boolean()) }),
  coverage: scale,
  rule: scale,
  booking: v.strictObject({ points: number, placeWithinMm: number, valueWithinMm: number }),
  checks: v.strictObject({ made: number, actedOn: number, misclosureMm: number }),
  workingOut: v.strictObject({ points: number, fullMm: number, noneMm: number, allowanceFreeMm: number }),
  willItGo: v.strictObject({ points: number }),
  caps: v.strictObject({ scrap: number, rework: number }),
  limits: v.strictObject({
    reworkClearanceMm: number,
    reworkStockMm: number,
    visibleMm: number,
    wasteMm: number,
    untidyShare: number,
  }),
});

export type Headings = Readonly<v.InferOutput<typeof headingsSchema>>;
export type Scale = Readonly<v.InferOutput<typeof scale>>;

/** The headings that exercises have unless they say otherwise. */
export const usualHeadings: Headings = {
  setUp: { reference: 5, referenceWithinMm: 5, lines: { points: 10, fullMm: 1, noneMm: 5 } },
  instrument: { points: 10 },
  coverage: { points: 20, fullMm: 2.5, noneMm: 10 },
  rule: { points: 15, fullMm: 1, noneMm: 4 },
  booking: { points: 10, placeWithinMm: 20, valueWithinMm: 3 },
  checks: { made: 5, actedOn: 5, misclosureMm: 2 },
  workingOut: { points: 15, fullMm: 1, noneMm: 5, allowanceFreeMm: 10 },
  willItGo: { points: 5 },
  caps: { scrap: 49, rework: 69 },
  limits: { reworkClearanceMm: 3, reworkStockMm: 2, visibleMm: 3, wasteMm: 10, untidyShare: 0.9 },
};
