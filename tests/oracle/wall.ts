/**
 * A wall: a sheet with the trims that stay on it, seen as what it takes away from the free space. mm, room frame.
 *
 * `inward` is +1 for the left wall and the floor (x >= L, z >= F) and -1 for right, back, ceiling and slope (x <= R,
 * y <= B, z <= C). The *bulk* of a wall at a place is inward x height, plus the deepest projection of the bands there: larger
 * is always further into the free space. Bands are closed, so on a band's edge the band counts, and just outside it the
 * bare surface does. Since projections are >= 0, the greatest bulk over a closed rectangle is the greatest of the bare
 * sheet over all of it and of the sheet plus profile over what each band covers of it, profile piece by profile piece
 * (a piece is linear, so the sheet's bound on what samples miss holds unchanged).
 */

import type { SampledTrim, Samples, SideName } from './samples.ts';
import { greatest, type Interval, type Rect, type Sheet, sheetOf, type Tilt } from './sheet.ts';

export type Band = Pick<SampledTrim, 'uMm' | 'vMm' | 'profile'>;

export type Wall = {
  readonly sheet: Sheet;
  readonly inward: 1 | -1;
  /** Those that stay. */
  readonly bands: readonly Band[];
};

/** @throws {RangeError} if the samples of a surface are not cubic between its knots */
export function wallsOf(samples: Samples, side: SideName): Wall[] {
  return samples.surfaces
    .filter((surface) => surface.side === side)
    .map((surface) => ({
      sheet: sheetOf(surface, samples.stepMm),
      inward: side === 'left' || side === 'floor' ? 1 : -1,
      bands: samples.trims.filter((trim) => trim.fate === 'stays' && trim.surface === surface.name),
    }));
}

/** The greatest bulk over a closed rectangle, with linear functions added. */
export function peak(wall: Wall, rect: Rect, ...tilts: readonly Tilt[]): Interval {
  let { low, high } = greatest(wall.sheet, wall.inward, rect, ...tilts);
  for (const band of wall.bands) {
    for (const piece of piecesIn(band, rect)) {
      const own: Tilt = { along: band.profile.along, at: piece.at, height: piece.height, slope: piece.slope };
      const on = greatest(wall.sheet, wall.inward, piece.rect, own, ...tilts);
      low = Math.max(low, on.low);
      high = Math.max(high, on.high);
    }
  }
  return { low, high };
}

/**
 * A bulk that no place of a closed rectangle is below. Meant for rectangles of a few hundredths of a millimetre: it
 * adds the lowest of the sheet to the least projection of every band that covers the whole rectangle.
 */
export function trough(wall: Wall, rect: Rect): number {
  const bare = -greatest(wall.sheet, wall.inward > 0 ? -1 : 1, rect).high;
  let projection = 0;
  for (const band of wall.bands) {
    const whole = within(rect.u, band.uMm) && within(rect.v, band.vMm);
    if (whole) projection = Math.max(projection, leastProjection(band, rect));
  }
  return bare + projection;
}

/** The deepest projection of the bands at one place, bands closed: 0 where there is none. */
export function projectionAt(wall: Wall, u: number, v: number): number {
  let deepest = 0;
  for (const band of wall.bands) {
    if (u < band.uMm[0] || u > band.uMm[1] || v < band.vMm[0] || v > band.vMm[1]) continue;
    const place = band.profile.along === 'u' ? u : v;
    const { mm } = band.profile;
    for (let i = 1; i < mm.length; i++) {
      const [a, p] = mm[i - 1]!;
      const [b, q] = mm[i]!;
      if (place < a || place > b) continue;
      deepest = Math.max(deepest, a === b ? Math.max(p, q) : p + ((q - p) * (place - a)) / (b - a));
    }
  }
  return deepest;
}

/** A linear piece of a band's profile, cut to a rectangle. */
type ProfilePiece = { readonly rect: Rect; readonly at: number; readonly height: number; readonly slope: number };

function piecesIn(band: Band, rect: Rect): ProfilePiece[] {
  const u = meet(rect.u, band.uMm);
  const v = meet(rect.v, band.vMm);
  if (!u || !v) return [];
  const { along, mm } = band.profile;
  const pieces: ProfilePiece[] = [];
  for (let i = 1; i < mm.length; i++) {
    const [a, p] = mm[i - 1]!;
    const [b, q] = mm[i]!;
    const on = meet(along === 'u' ? u : v, [a, b]);
    if (!on) continue;
    const cut = along === 'u' ? { u: on, v } : { u, v: on };
    if (a === b) pieces.push({ rect: cut, at: a, height: Math.max(p, q), slope: 0 });
    else pieces.push({ rect: cut, at: a, height: p, slope: (q - p) / (b - a) });
  }
  return pieces;
}

/** The least projection of one band over a rectangle that it covers; at a step on a single place the deepest counts. */
function leastProjection(band: Band, rect: Rect): number {
  const along = band.profile.along === 'u' ? rect.u : rect.v;
  const single = along[0] === along[1];
  let least = single ? 0 : Infinity;
  for (const { rect: cut, at, height, slope } of piecesIn(band, rect)) {
    const [from, to] = band.profile.along === 'u' ? cut.u : cut.v;
    const lower = Math.min(height + slope * (from - at), height + slope * (to - at));
    if (single) least = Math.max(least, lower);
    else if (from < to) least = Math.min(least, lower);
  }
  return least;
}

function meet(a: readonly [number, number], b: readonly [number, number]): [number, number] | null {
  const from = Math.max(a[0], b[0]);
  const to = Math.min(a[1], b[1]);
  return from <= to ? [from, to] : null;
}

function within(inner: readonly [number, number], outer: readonly [number, number]): boolean {
  return outer[0] <= inner[0] && inner[1] <= outer[1];
}
