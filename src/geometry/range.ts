/**
 * The certified range of a height field over a closed rectangle, also with a linear function added.
 *
 * Every answer is a value that is taken, with its place, and a bound that is proved; how they are found is in
 * range-search.ts. The same question gets the same answer to the last bit in every engine. Of places that are equally
 * high, a knot comes before any other place, and of knots the one with the smaller v, then with the smaller u.
 */

import { finePerMm, type HeightField, heightAt, knotStepMm, negatedOf, type Rect } from './height-field.ts';
import { farMm, found, search } from './range-search.ts';

export type { Rect } from './height-field.ts';

/** at + perU * u + perV * v; `at` in mm, the slopes plain ratios. */
export interface Linear {
  readonly at: number;
  readonly perU: number;
  readonly perV: number;
}

/** One end of a range, mm. */
export interface Extreme {
  /** The value at (u, v), a place in the rectangle. */
  readonly value: number;
  /** No value in the rectangle lies beyond this; |bound - value| is at most the `within` that was asked for. */
  readonly bound: number;
  readonly u: number;
  readonly v: number;
  /** Bezier nets opened and made on the way. */
  readonly nodes: number;
}

export interface RangeOptions {
  /** Largest |bound - value|, mm, >= 1e-6; 0.001 where it is not given. */
  readonly within?: number;
  /** Added to the field. */
  readonly plus?: Linear;
}

/**
 * The largest value of the field (plus a linear function) over a closed rectangle.
 *
 * @param rect - mm, u0 <= u1, v0 <= v1, in the closed domain; may be a line or a point
 * @returns mm; value <= true maximum <= bound <= value + within
 * @throws {RangeError} if the rectangle is turned round or leaves the domain, or an option is out of bounds
 */
export function rangeMax(field: HeightField, rect: Rect, options?: RangeOptions): Extreme {
  const within = options?.within ?? defaultWithin;
  const plus = options?.plus ?? null;
  checkQuestion(field, rect, within);
  if (plus !== null) checkLinear(plus);
  search(field, rect, { within, plus, floor: -farMm, stopAbove: farMm });
  const { u, v } = found;
  const height = heightAt(field, u, v);
  const value = plus === null ? height : height + (plus.at + plus.perU * u + plus.perV * v);
  return { value, bound: Math.max(found.bound, value), u, v, nodes: found.nodes };
}

/**
 * The smallest value of the field (plus a linear function) over a closed rectangle.
 *
 * @param rect - as for `rangeMax`
 * @returns mm; value - within <= bound <= true minimum <= value
 * @throws {RangeError} as `rangeMax`
 */
export function rangeMin(field: HeightField, rect: Rect, options?: RangeOptions): Extreme {
  const within = options?.within ?? defaultWithin;
  const plus = options?.plus;
  const turned = plus ? { within, plus: { at: -plus.at, perU: -plus.perU, perV: -plus.perV } } : { within };
  const max = rangeMax(negatedOf(field), rect, turned);
  return { value: 0 - max.value, bound: 0 - max.bound, u: max.u, v: max.v, nodes: max.nodes };
}

/**
 * Whether the field (plus a linear function) stays below a limit over a closed rectangle: the quick form of `rangeMax`
 * for "does it go in". There is no third answer: a maximum in (limit, limit + within] may be called either way, and
 * both answers are then true as they are worded here.
 *
 * @param limit - mm
 * @returns `true`: every value is proved to be <= limit + within; `false`: a value > limit was found
 * @throws {RangeError} as `rangeMax`, and if the limit is not within 1e9 mm of zero
 */
export function staysBelow(field: HeightField, rect: Rect, limit: number, options?: RangeOptions): boolean {
  const within = options?.within ?? defaultWithin;
  const plus = options?.plus ?? null;
  checkQuestion(field, rect, within);
  if (plus !== null) checkLinear(plus);
  if (!(Math.abs(limit) <= farMm))
    throw new RangeError(`range: limit must be within ${farMm} mm of zero, got ${limit}`);
  search(field, rect, { within, plus, floor: limit, stopAbove: limit });
  return !(found.best > limit * finePerMm);
}

const defaultWithin = 0.001;
const leastWithin = 1e-6;
/** Keeps the rounding of an added function far below the least `within`. */
const linearLimit = 1_048_576;

function checkQuestion(field: HeightField, rect: Rect, within: number): void {
  const { u0, u1, v0, v1 } = rect;
  if (!(u0 <= u1 && v0 <= v1)) {
    throw new RangeError(`range: rectangle must have u0 <= u1 and v0 <= v1, got [${u0}, ${u1}] x [${v0}, ${v1}] mm`);
  }
  const endU = field.u0 + knotStepMm * (field.countU - 3);
  const endV = field.v0 + knotStepMm * (field.countV - 3);
  if (!(u0 >= field.u0 && u1 <= endU && v0 >= field.v0 && v1 <= endV)) {
    throw new RangeError(
      `range: rectangle [${u0}, ${u1}] x [${v0}, ${v1}] mm must lie in [${field.u0}, ${endU}] x [${field.v0}, ${endV}]`,
    );
  }
  if (!(within >= leastWithin && within <= farMm)) {
    throw new RangeError(`range: within must be >= ${leastWithin} mm and finite, got ${within}`);
  }
}

function checkLinear(plus: Linear): void {
  const { at, perU, perV } = plus;
  if (!(Math.abs(at) <= linearLimit && Math.abs(perU) <= linearLimit && Math.abs(perV) <= linearLimit)) {
    throw new RangeError(
      `range: plus must have at (mm) and slopes within ${linearLimit} of zero, got ${at}, ${perU}, ${perV}`,
    );
  }
}
