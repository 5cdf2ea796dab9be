/**
 * Whole-number bounds of a uniform bicubic B-spline, patch by patch, in 1/36 of the control values' unit.
 *
 * One span with control values p0..p3 has, times six, the Bezier coefficients p0+4p1+p2, 4p1+2p2, 2p1+4p2, p1+4p2+p3;
 * rows first, then columns, gives 36 times the surface. The row pass keeps the knot value and the largest of the four; the
 * column pass does the same to both. Both passes are made in one walk. All weights are positive, so the largest of the row maxima's coefficients
 * is never below the patch's largest Bezier coefficient, and so never below the patch.
 *
 * @source a Bezier surface lies in the hull of its coefficients: any textbook on splines; the bound is proved by test
 */

/** A closed block of patches, counted along u (i) and v (j). */
export interface Block {
  readonly i0: number;
  readonly i1: number;
  readonly j0: number;
  readonly j1: number;
}

export interface PatchBounds {
  /** Surface at the knots, (countU - 2) x (countV - 2), one row a v. */
  readonly knots: Int32Array;
  /** An upper bound of each patch, (countU - 3) x (countV - 3), one row a v. */
  readonly hulls: Int32Array;
  /** The patches that are worked out, with the knots at their corners; no others are to be read. */
  readonly block: Block;
}

export interface SlopeBounds {
  /** |dw/du| <= perU everywhere, plain ratio. */
  readonly perU: number;
  /** |dw/dv| <= perV everywhere, plain ratio. */
  readonly perV: number;
}

/** Knot values and hull bounds of a block of patches; |control| < 2^24, see height-field.ts. */
export function patchBounds(
  control: Int32Array,
  counts: { readonly countU: number; readonly countV: number },
  block: Block,
): PatchBounds {
  const { countU, countV } = counts;
  const knotCount = (countU - 2) * (countV - 2);
  // One buffer for both: to get the memory is a fifth of the work.
  const memory = new ArrayBuffer(4 * (knotCount + (countU - 3) * (countV - 3)));
  const knots = new Int32Array(memory, 0, knotCount);
  const hulls = new Int32Array(memory, 4 * knotCount);
  const bounds = { knots, hulls, block };
  boundFirstKnots(control, countU, bounds);
  for (let i = block.i0; i <= block.i1; i++) boundColumn(control, countU, bounds, i);
  return bounds;
}

/** Whether a block lies in another. */
export function isWithin(block: Block, other: Block): boolean {
  return block.i0 >= other.i0 && block.i1 <= other.i1 && block.j0 >= other.j0 && block.j1 <= other.j1;
}

/** The derivative of a B-spline is one of first differences, so it never exceeds the largest of them. */
export function slopeBounds(control: Int32Array, countU: number): SlopeBounds {
  let alongU = 0;
  let alongV = 0;
  for (let i = 1; i < countU; i++) alongU = Math.max(alongU, Math.abs(control[i]! - control[i - 1]!));
  for (let row = countU; row < control.length; row += countU) {
    let before = control[row]!;
    alongV = Math.max(alongV, Math.abs(before - control[row - countU]!));
    const end = row + countU;
    for (let k = row + 1; k < end; k++) {
      const here = control[k]!;
      // A running largest is seldom beaten, so here a branch costs nothing.
      const inU = Math.abs(here - before);
      if (inU > alongU) alongU = inU;
      const inV = Math.abs(here - control[k - countU]!);
      if (inV > alongV) alongV = inV;
      before = here;
    }
  }
  return { perU: alongU / slopeUnit, perV: alongV / slopeUnit };
}

/** 128 mm in 1/1024 mm. */
const slopeUnit = 131_072;

/** The block's knots with the smallest u; all others come with the column of patches before them. */
function boundFirstKnots(control: Int32Array, countU: number, to: PatchBounds): void {
  const { knots, block } = to;
  const width = countU - 2;
  for (let j = block.j0; j <= block.j1 + 1; j++) {
    const o = j * countU + block.i0;
    knots[j * width + block.i0] =
      knotOf(control, o) + 4 * knotOf(control, o + countU) + knotOf(control, o + 2 * countU);
  }
}

function knotOf(control: Int32Array, o: number): number {
  return (control[o]! + 4 * control[o + 1]! + control[o + 2]!) | 0;
}

/** The patches of span i along u, and the knots at its far end, going up v with the last rows' numbers at hand. */
function boundColumn(control: Int32Array, countU: number, to: PatchBounds, i: number): void {
  const { knots, hulls, block } = to;
  const width = countU - 3;
  const { j0 } = block;
  let k0 = 0;
  let k1 = 0;
  let m0 = 0;
  let m1 = 0;
  let m2 = 0;
  const start = j0 * countU + i;
  const firstKnot = start + 2 * countU;
  const firstHull = start + 3 * countU;
  const end = (block.j1 + 3) * countU + i;
  let knot = i + 1 + (j0 - 2) * (width + 1);
  let hull = i + (j0 - 3) * width;
  for (let o = start; o <= end; o += countU, knot += width + 1, hull += width) {
    const p1 = control[o + 1]!;
    const p2 = control[o + 2]!;
    const b0 = (control[o]! + 4 * p1 + p2) | 0;
    const b3 = (p1 + 4 * p2 + control[o + 3]!) | 0;
    const m3 = larger(larger(b0, b3), (2 * (p1 + p2 + larger(p1, p2))) | 0);
    if (o >= firstKnot) knots[knot] = k0 + 4 * k1 + b3;
    if (o >= firstHull) {
      const c0 = (m0 + 4 * m1 + m2) | 0;
      const c3 = (m1 + 4 * m2 + m3) | 0;
      hulls[hull] = larger(larger(c0, c3), (2 * (m1 + m2 + larger(m1, m2))) | 0);
    }
    k0 = k1;
    k1 = b3;
    m0 = m1;
    m1 = m2;
    m2 = m3;
  }
}

/**
 * The larger of two whole numbers without a branch, for which one it is cannot be foreseen here and a wrong guess costs more; their
 * difference must fit 32 bits.
 */
function larger(a: number, b: number): number {
  const d = (a - b) | 0;
  return (a - (d & (d >> 31))) | 0;
}
