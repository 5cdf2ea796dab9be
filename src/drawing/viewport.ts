/**
 * A viewport: where millimetres of two axes fall in a box of px. The only place that turns y over.
 */
import type { Box, PaperPoint } from './item.ts';

/** The stretch of each axis that a view shows, mm: a runs to the right, b upwards. */
export interface Extent {
  readonly a: readonly [number, number];
  readonly b: readonly [number, number];
}

export interface Viewport {
  /** px a mm */
  readonly scale: number;
  readonly extent: Extent;
  /** The box that the extent fills, px. */
  readonly box: Box;
  /** px of a place. */
  at(a: number, b: number): PaperPoint;
  /** The place under a px, mm: the other way round. */
  under(x: number, y: number): readonly [a: number, b: number];
}

/**
 * Fits an extent into a box, as large as it goes, at the box's top left.
 *
 * @throws {RangeError} if the box or the extent is empty
 */
export function fitted(box: Box, extent: Extent): Viewport {
  const wide = extent.a[1] - extent.a[0];
  const high = extent.b[1] - extent.b[0];
  if (!(wide > 0 && high > 0)) throw new RangeError(`viewport: nothing to show, ${wide} by ${high} mm`);
  if (!(box.width > 0 && box.height > 0)) throw new RangeError(`viewport: no room, ${box.width} by ${box.height} px`);
  const scale = Math.min(box.width / wide, box.height / high);
  return {
    scale,
    extent,
    box: { x: box.x, y: box.y, width: wide * scale, height: high * scale },
    at: (a, b) => [box.x + (a - extent.a[0]) * scale, box.y + (extent.b[1] - b) * scale],
    under: (x, y) => [extent.a[0] + (x - box.x) / scale, extent.b[1] - (y - box.y) / scale],
  };
}
