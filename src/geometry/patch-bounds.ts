/**
 * Whole-number bounds of a uniform bicubic B-spline, patch by patch, in 1/36 of the control values' unit.
 *
 * One span with control values p0..p3 has, times six, the Bezier coefficients p0+4p1+p2, 4p1+2p2, 2p1+4p2, p1+4p2+p3;
 * rows first, then columns, gives 36 times the surface. The row pass keeps the knot value and the largest of the four; the
 * column pass does the same to both. All weights are positive, so the largest of the row maxima's coefficients
 * is never below the patch's largest Bezier coefficient, and so never below the patch.
 *
 * @source a Bezier surface lies in the hull of its coefficients: any textbook on splines; the bound is proved by test
 */

export interface PatchBounds {
  /** Surface at the knots, (countU - 2) x (countV - 2), one row a v. */
  readonly knots: Int32Array;
  /** An upper bound of each patch, (countU - 3) x (countV - 3), one row a v. */
  readonly hulls: Int32Array;
}

export interface SlopeBounds {
  /** |dw/du| <= perU everywhere, plain ratio. */
  readonly perU: number;
  /** |dw/dv| <= perV everywhere, plain ratio. */
  readonly perV: number;
}

/** Knot values and hull bounds; |control| < 2^24, see height-field.ts. */
export function patchBounds(control: Int32Array, countU: number, countV: number): PatchBounds {
  rowPass(control, countU, countV);
  const knots = new Int32Array((countU - 2) * (countV - 2));
  const hulls = new Int32Array((countU - 3) * (countV - 3));
  knotColumns(knots, countU - 2, countV - 2);
  hullColumns(hulls, countU - 3, countV - 3);
  return { knots, hulls };
}

/** The derivative of a B-spline is one of first differences, so it never exceeds the largest of them. */
export function slopeBounds(control: Int32Array, countU: number, countV: number): SlopeBounds {
  let alongU = 0;
  let alongV = 0;
  for (let j = 0; j < countV; j++) {
    const row = j * countU;
    for (let i = 1; i < countU; i++)
      alongU = larger(alongU, magnitude((control[row + i]! - control[row + i - 1]!) | 0));
  }
  const last = control.length - countU;
  for (let k = 0; k < last; k++) alongV = larger(alongV, magnitude((control[k + countU]! - control[k]!) | 0));
  return { perU: alongU / slopeUnit, perV: alongV / slopeUnit };
}

/** 128 mm in 1/1024 mm. */
const slopeUnit = 131_072;

// Grown as wanted and kept: one field's rows at a time.
let rowKnots = new Int32Array(1024);
let rowHulls = new Int32Array(1024);

function rowPass(control: Int32Array, countU: number, countV: number): void {
  if (rowKnots.length < control.length) {
    rowKnots = new Int32Array(control.length);
    rowHulls = new Int32Array(control.length);
  }
  const knots = rowKnots;
  const hulls = rowHulls;
  let k = 0;
  let h = 0;
  for (let j = 0; j < countV; j++) {
    let o = j * countU;
    let p1 = control[o + 1]!;
    let p2 = control[o + 2]!;
    let b0 = (control[o]! + 4 * p1 + p2) | 0;
    knots[k++] = b0;
    const end = o + countU;
    for (o += 3; o < end; o++) {
      const p3 = control[o]!;
      const b3 = (p1 + 4 * p2 + p3) | 0;
      const b1 = (4 * p1 + 2 * p2) | 0;
      const b2 = (2 * p1 + 4 * p2) | 0;
      knots[k++] = b3;
      hulls[h++] = larger(larger(b0, b3), larger(b1, b2));
      p1 = p2;
      p2 = p3;
      b0 = b3;
    }
  }
}

function knotColumns(knots: Int32Array, width: number, rows: number): void {
  const source = rowKnots;
  const end = width * rows;
  for (let k = 0; k < end; k++) knots[k] = source[k]! + 4 * source[k + width]! + source[k + 2 * width]!;
}

function hullColumns(hulls: Int32Array, width: number, rows: number): void {
  const source = rowHulls;
  const end = width * rows;
  for (let h = 0; h < end; h++) {
    const m1 = source[h + width]!;
    const m2 = source[h + 2 * width]!;
    const b0 = (source[h]! + 4 * m1 + m2) | 0;
    const b1 = (4 * m1 + 2 * m2) | 0;
    const b2 = (2 * m1 + 4 * m2) | 0;
    const b3 = (m1 + 4 * m2 + source[h + 3 * width]!) | 0;
    hulls[h] = larger(larger(b0, b3), larger(b1, b2));
  }
}

/** The larger of two whole numbers without a branch; their difference must fit 32 bits. */
function larger(a: number, b: number): number {
  const d = (a - b) | 0;
  return (a - (d & (d >> 31))) | 0;
}

function magnitude(a: number): number {
  const s = a >> 31;
  return ((a ^ s) - s) | 0;
}
