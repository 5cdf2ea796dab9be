/**
 * Draws of a spread: how an input of a budget may lie about its value. Each is a pure function of (key, purpose, index).
 *
 * A normal draw is exact and takes no logarithm: whole deviations and the part of one are thrown and accepted by runs of
 * falling numbers, whose odd and even lengths give the chances exp(-x).
 *
 * @source J. von Neumann, 1951, exp(-x) by runs of falling numbers; C. F. F. Karney, 2016, "Sampling exactly from the
 *   normal distribution", algorithm N (from memory; the moments and the shares within k deviations are tested)
 */
import { type DrawKey, type Purpose, purpose, uniform } from './keyed-draws.ts';

/** What is known of an input about its value: a standard deviation, or limits that it never passes. */
export type Spread =
  | { readonly kind: 'normal'; readonly u: number }
  /** Every value within the limits alike. */
  | { readonly kind: 'even'; readonly half: number }
  /** What swings to and fro between the limits: oftenest near them. */
  | { readonly kind: 'swinging'; readonly half: number };

/**
 * Gives the standard deviation of a spread.
 *
 * @source JCGM 100:2008 (GUM) 4.3.7: a / sqrt(3); arcsine a / sqrt(2)
 */
export function deviationOf(spread: Spread): number {
  switch (spread.kind) {
    case 'normal':
      return spread.u;
    case 'even':
      return spread.half / Math.sqrt(3);
    case 'swinging':
      return spread.half / Math.sqrt(2);
  }
}

/** Gives a draw of a spread about 0. */
export function drawSpread(key: DrawKey, why: Purpose, of: { index: number; spread: Spread }): number {
  const { index, spread } = of;
  switch (spread.kind) {
    case 'normal':
      return spread.u * normal(key, why, index);
    case 'even':
      return spread.half * (2 * uniform(key, why, index) - 1);
    case 'swinging':
      return spread.half * across(thrower(key, why, index));
  }
}

/** Gives a normal number: mean 0, standard deviation 1. */
export function normal(key: DrawKey, why: Purpose, index: number): number {
  const next = thrower(key, why, index);
  for (;;) {
    let whole = 0;
    while (falls(next, 0.5)) whole++;
    if (!all(whole * (whole - 1), () => falls(next, 0.5))) continue;
    const part = next();
    // exp(-part (2 whole + part) / 2) in whole + 1 goes, each of which has an exponent of 1 at most.
    const share = (part * (2 * whole + part)) / (2 * (whole + 1));
    if (!all(whole + 1, () => falls(next, share))) continue;
    return next() < 0.5 ? whole + part : 0 - (whole + part);
  }
}

const whyMore = purpose('chance/spread');

/** The numbers of one draw, as many as it takes: the first words of it key the others. */
function thrower(key: DrawKey, why: Purpose, index: number): () => number {
  const own: DrawKey = [key[0] ^ why, key[1] ^ Math.imul(index, 0x85ebca6b), key[2] ^ index, key[3]];
  let i = 0;
  return () => uniform(own, whyMore, i++);
}

/** Holds with the chance exp(-x), 0 <= x <= 1: a run that falls from x on is even in length. */
function falls(next: () => number, x: number): boolean {
  let last = x;
  for (let even = true; ; even = !even) {
    const u = next();
    if (u >= last) return even;
    last = u;
  }
}

function all(times: number, holds: () => boolean): boolean {
  for (let i = 0; i < times; i++) if (!holds()) return false;
  return true;
}

/** The cosine of an angle drawn evenly: of a point in the unit disc, how far across it lies by how far out. */
function across(next: () => number): number {
  for (;;) {
    const x = 2 * next() - 1;
    const y = 2 * next() - 1;
    const square = x * x + y * y;
    if (square <= 1 && square > 1e-12) return x / Math.sqrt(square);
  }
}
