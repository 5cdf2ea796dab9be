/**
 * Bands: trims that thicken a surface along its own axis into the free space.
 *
 * A band is a closed rectangle of (u, v) with a profile that is piecewise linear along one of them; it rides on the
 * surface as that is. Where bands overlap, the deepest counts.
 */
import { type HeightField, heightAt, type Rect } from '../geometry/height-field.ts';
import { type Extreme, type Linear, rangeMax } from '../geometry/range.ts';
import { rangeMaxUnder, type UpperLine } from '../geometry/range-under.ts';
import type { Trim } from './recess-spec.ts';

/** A rectangle of a band on which its profile is linear. */
export interface BandPiece {
  readonly rect: Rect;
  readonly plus: Linear;
}

/**
 * Gives the greatest obstruction over a rectangle, with bands in place.
 *
 * @param rect - closed, in the surface's own axes
 * @param plus - added to the obstruction
 * @returns the attained value and a certified bound within 0.001 mm above it, with the place of the value
 */
export function highestOver(field: HeightField, bands: readonly Trim[], rect: Rect, plus?: Linear): Extreme {
  let best = rangeMax(field, rect, plus && { plus });
  for (const band of bands)
    for (const piece of piecesOf(band)) {
      const common = intersection(piece.rect, rect);
      if (common) best = higher(best, rangeMax(field, common, { plus: plus ? sum(piece.plus, plus) : piece.plus }));
    }
  return best;
}

/** Gives the same over what of a rectangle lies on and under a line; null where nothing does. */
export function highestUnder(
  field: HeightField,
  bands: readonly Trim[],
  under: { readonly rect: Rect; readonly line: UpperLine },
): Extreme | null {
  const { line } = under;
  let best = rangeMaxUnder(field, under.rect, { line });
  if (!best) return null;
  for (const band of bands)
    for (const piece of piecesOf(band)) {
      const common = intersection(piece.rect, under.rect);
      const found = common && rangeMaxUnder(field, common, { line, plus: piece.plus });
      if (found) best = higher(best, found);
    }
  return best;
}

/** Adds two linear functions. */
export function sum(a: Linear, b: Linear): Linear {
  return { at: a.at + b.at, perU: a.perU + b.perU, perV: a.perV + b.perV };
}

/** Gives the obstruction at one place, with bands in place. */
export function obstructionAt(field: HeightField, bands: readonly Trim[], at: { u: number; v: number }): number {
  return heightAt(field, at.u, at.v) + deepestAt(bands, at).projection;
}

/** Gives the deepest band at a place and how far it projects, mm; no band, 0. */
export function deepestAt(
  bands: readonly Trim[],
  at: { u: number; v: number },
): { readonly band: Trim | null; readonly projection: number } {
  let found: { band: Trim | null; projection: number } = { band: null, projection: 0 };
  for (const band of bands) {
    if (!covers(band, at)) continue;
    const projection = profileAt(band, band.profile.along === 'u' ? at.u : at.v);
    if (!found.band || projection > found.projection) found = { band, projection };
  }
  return found;
}

/** Says whether a place lies in a band's closed rectangle. */
export function covers(band: Trim, at: { u: number; v: number }): boolean {
  return at.u >= band.uMm[0] && at.u <= band.uMm[1] && at.v >= band.vMm[0] && at.v <= band.vMm[1];
}

/** Cuts a band where its profile bends. */
export function piecesOf(band: Trim): readonly BandPiece[] {
  const pieces: BandPiece[] = [];
  const along = band.profile.along;
  const [u0, u1] = band.uMm;
  const [v0, v1] = band.vMm;
  for (let i = 1; i < band.profile.mm.length; i++) {
    const [from, low] = band.profile.mm[i - 1] as readonly [number, number];
    const [to, high] = band.profile.mm[i] as readonly [number, number];
    const slope = (high - low) / (to - from);
    pieces.push({
      rect: along === 'u' ? { u0: from, u1: to, v0, v1 } : { u0, u1, v0: from, v1: to },
      plus: { at: low - slope * from, perU: along === 'u' ? slope : 0, perV: along === 'v' ? slope : 0 },
    });
  }
  return pieces;
}

/** Gives the common part of two closed rectangles; null when they do not touch. */
export function intersection(a: Rect, b: Rect): Rect | null {
  const u0 = Math.max(a.u0, b.u0);
  const u1 = Math.min(a.u1, b.u1);
  const v0 = Math.max(a.v0, b.v0);
  const v1 = Math.min(a.v1, b.v1);
  return u0 <= u1 && v0 <= v1 ? { u0, u1, v0, v1 } : null;
}

function profileAt(band: Trim, at: number): number {
  const points = band.profile.mm;
  for (let i = 1; i < points.length; i++) {
    const [to, high] = points[i] as readonly [number, number];
    if (at > to) continue;
    const [from, low] = points[i - 1] as readonly [number, number];
    return low + ((high - low) * (at - from)) / (to - from);
  }
  return (points[points.length - 1] as readonly [number, number])[1];
}

function higher(a: Extreme, b: Extreme): Extreme {
  const top = b.value > a.value ? b : a;
  return { ...top, bound: Math.max(a.bound, b.bound), nodes: a.nodes + b.nodes };
}
