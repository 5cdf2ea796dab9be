/** Sums of intervals that certainly contain a number. */

import type { Interval } from './sheet.ts';

export function exactly(value: number): Interval {
  return { low: value, high: value };
}

export function plus(a: Interval, b: Interval): Interval {
  return { low: a.low + b.low, high: a.high + b.high };
}

export function minus(a: Interval, b: Interval): Interval {
  return { low: a.low - b.high, high: a.high - b.low };
}

export function negated(a: Interval): Interval {
  return { low: -a.high, high: -a.low };
}

export function times(share: number, a: Interval): Interval {
  return { low: share * a.low, high: share * a.high };
}

export function least(...all: readonly Interval[]): Interval {
  return { low: Math.min(...all.map((one) => one.low)), high: Math.min(...all.map((one) => one.high)) };
}

/** What contains the greatest of several numbers. */
export function greatestOf(...all: readonly Interval[]): Interval {
  return { low: Math.max(...all.map((one) => one.low)), high: Math.max(...all.map((one) => one.high)) };
}
