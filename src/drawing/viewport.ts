/**
 * A viewport: where millimetres of two axes fall in a box of px. The only place that turns y over.
 */

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Viewport {
  readonly scale: number;
  /** px of a place: a along to the right, b upwards. */
  at(a: number, b: number): readonly [number, number];
}

/** Fits a stretch of millimetres into a box, as large as it goes, at the box's top left. */
export function fitted(box: Box, mm: { a: readonly [number, number]; b: readonly [number, number] }): Viewport {
  const scale = Math.min(box.width / (mm.a[1] - mm.a[0]), box.height / (mm.b[1] - mm.b[0]));
  return {
    scale,
    at: (a, b) => [box.x + (a - mm.a[0]) * scale, box.y + (mm.b[1] - b) * scale],
  };
}
