/**
 * Surfaces as they were measured: a natural cubic spline along either axis through a net of places.
 *
 * It is linear in what was measured, as smooth as the surface itself, and runs straight on past the outermost places.
 *
 * @source the natural cubic spline's three-term equations for its second derivatives (from memory; held by a test against
 *   their definition: through every place, both derivatives without a jump, no bend at the ends)
 */
import type { Measured } from './recess-spec.ts';

/**
 * Gives how much each place counts towards the spline at `t`.
 *
 * @param placesMm - two or more, ascending
 * @returns one weight a place; they sum to 1
 */
export function splineWeights(placesMm: readonly number[], t: number): readonly number[] {
  const bends = bendsOf(placesMm);
  const last = placesMm.length - 1;
  let k = 0;
  while (k < last - 1 && t > at(placesMm, k + 1)) k++;
  const h = at(placesMm, k + 1) - at(placesMm, k);
  const q = (t - at(placesMm, k)) / h;
  const p = 1 - q;
  // Past the ends the inner place's cubic term goes on along its tangent: there the spline is straight. The outer has none.
  const inP = q < 0 ? 0 : q > 1 ? q - 1 : p * p * p - p;
  const inQ = q < 0 ? 0 - q : q > 1 ? 0 : q * q * q - q;
  return placesMm.map((_, i) => {
    const straight = (i === k ? p : 0) + (i === k + 1 ? q : 0);
    return straight + ((inP * at(bends[k] ?? [], i) + inQ * at(bends[k + 1] ?? [], i)) * h * h) / 6;
  });
}

/** Says what is wrong with what was measured; null when nothing is. */
export function wrongWithMeasured(measured: Measured | undefined): string | null {
  if (!measured) return null;
  const { uMm, vMm, mm } = measured;
  for (const [name, places] of [
    ['uMm', uMm],
    ['vMm', vMm],
  ] as const)
    if (places.some((p, i) => i > 0 && p - at(places, i - 1) < leastApartMm))
      return `must have ${name} ascending by ${leastApartMm} mm or more`;
  if (mm.length !== vMm.length || mm.some((row) => row.length !== uMm.length))
    return `must have a row of ${uMm.length} for each of ${vMm.length} places, got ${mm.map((r) => r.length).join(', ')}`;
  return null;
}

/** Places nearer to each other than this are one, mm: the surface is smooth over a knot of 128. */
export const leastApartMm = 60;

// The last places asked about: two nets in turn, as along u and along v, are solved anew each time.
let kept: { readonly of: readonly number[]; readonly bends: readonly (readonly number[])[] } | null = null;

/** The second derivative at each place, as weights of the places. */
function bendsOf(placesMm: readonly number[]): readonly (readonly number[])[] {
  if (kept?.of !== placesMm) kept = { of: placesMm, bends: solveBends(placesMm) };
  return kept.bends;
}

/** Solves the three-term equations for all places at once; the ends do not bend. */
function solveBends(x: readonly number[]): number[][] {
  const n = x.length;
  const bends = x.map(() => new Array<number>(n).fill(0));
  const over = new Array<number>(n).fill(0);
  for (let i = 1; i < n - 1; i++) {
    const before = at(x, i) - at(x, i - 1);
    const after = at(x, i + 1) - at(x, i);
    const pivot = 2 * (before + after) - before * at(over, i - 1);
    over[i] = after / pivot;
    bends[i] = x.map(
      (_, k) => (6 * secondDifference(k - i, before, after) - before * at(bends[i - 1] ?? [], k)) / pivot,
    );
  }
  for (let i = n - 2; i > 0; i--)
    bends[i] = x.map((_, k) => at(bends[i] ?? [], k) - at(over, i) * at(bends[i + 1] ?? [], k));
  return bends;
}

function secondDifference(step: number, before: number, after: number): number {
  if (step === -1) return 1 / before;
  if (step === 0) return -1 / before - 1 / after;
  return step === 1 ? 1 / after : 0;
}

function at(list: readonly number[], i: number): number {
  return list[i] ?? 0;
}
