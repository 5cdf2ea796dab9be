/**
 * Measuring a built room by other means than the program's: surfaces by Cox and de Boor's recursion, bands by their points.
 */
import type { HeightField } from '../../src/geometry/height-field.ts';
import type { Recess } from '../../src/recess/recess.ts';
import type { Side, Trim } from '../../src/recess/recess-spec.ts';
import { sampled } from './height-fields.ts';

/** Room coordinate across a bare surface, mm: x of a side wall, y of the back, z of floor and ceiling. */
export function surfaceAt(recess: Recess, side: Side, u: number, v: number): number {
  const h = heightOf(recess.fields[side], u, v);
  return side === 'left' || side === 'floor' ? h : -h;
}

/** How far a surface has come into the free space against another room's, mm. */
export function inwardBy(recess: Recess, against: Recess, place: { side: Side; u: number; v: number }): number {
  const { side, u, v } = place;
  const by = surfaceAt(recess, side, u, v) - surfaceAt(against, side, u, v);
  // Left wall and floor come in as their coordinate grows, the others as it shrinks.
  return side === 'left' || side === 'floor' ? by : -by;
}

export function heightOf(field: HeightField, u: number, v: number): number {
  return sampled(field, [u], [v])[0]![0]!;
}

/** What a band projects at a place; null outside its closed rectangle. */
export function projectionAt(band: Trim, u: number, v: number): number | null {
  if (u < band.uMm[0] || u > band.uMm[1] || v < band.vMm[0] || v > band.vMm[1]) return null;
  const t = band.profile.along === 'u' ? u : v;
  const points = band.profile.mm;
  for (let i = 1; i < points.length; i++) {
    const [from, low] = points[i - 1]!;
    const [to, high] = points[i]!;
    if (t >= from && t <= to) return low + ((high - low) * (t - from)) / (to - from);
  }
  return null;
}
