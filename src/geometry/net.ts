/**
 * Bezier nets of bicubic patches, kept 16 to a patch in one Float64Array: coefficient (c, r) of the net at offset `o`
 * is `net[o + 4 * r + c]`, c along u and r along v, in 1/36864 mm.
 *
 * Whole numbers come in (see height-field.ts) and halving keeps them exact for some eight levels; after that, and
 * after a clip, an error stays under 1e-10 mm.
 *
 * @source de Casteljau's algorithm and blossoming, any textbook on splines (from memory)
 */

/** Puts the net of the patch whose first control value is (i, j) at offset `o`. */
export function loadNet(control: Int32Array, first: number, countU: number, net: Float64Array, o: number): void {
  for (let r = 0, from = first, to = o; r < 4; r++, from += countU, to += 4) {
    const p1 = control[from + 1]!;
    const p2 = control[from + 2]!;
    net[to] = control[from]! + 4 * p1 + p2;
    net[to + 1] = 4 * p1 + 2 * p2;
    net[to + 2] = 2 * p1 + 4 * p2;
    net[to + 3] = p1 + 4 * p2 + control[from + 3]!;
  }
  for (let k = o; k < o + 4; k++) {
    const p1 = net[k + 4]!;
    const p2 = net[k + 8]!;
    const p3 = net[k + 12]!;
    net[k] = net[k]! + 4 * p1 + p2;
    net[k + 4] = 4 * p1 + 2 * p2;
    net[k + 8] = 2 * p1 + 4 * p2;
    net[k + 12] = p1 + 4 * p2 + p3;
  }
}

/** Restricts the net to [a, b] of its own unit along u; a > b turns it round, a = b makes it constant. */
export function clipNetU(net: Float64Array, o: number, a: number, b: number): void {
  for (let k = o; k < o + 16; k += 4) clipRow(net, k, 1, { a, b });
}

/** The same along v. */
export function clipNetV(net: Float64Array, o: number, a: number, b: number): void {
  for (let k = o; k < o + 4; k++) clipRow(net, k, 4, { a, b });
}

/** Adds the linear function with this value at the net's first corner and these rises along its whole u and v. */
export function addLinear(net: Float64Array, o: number, linear: { at: number; alongU: number; alongV: number }): void {
  const stepU = linear.alongU / 3;
  const stepV = linear.alongV / 3;
  for (let r = 0; r < 4; r++) {
    const base = linear.at + r * stepV;
    for (let c = 0; c < 4; c++) net[o + 4 * r + c] = net[o + 4 * r + c]! + (base + c * stepU);
  }
}

/** Halves the net at `o` along u: the first half stays there, the second goes to `to`. */
export function halveU(net: Float64Array, o: number, to: number): void {
  for (let k = o, n = to; k < o + 16; k += 4, n += 4) {
    const a = net[k]!;
    const b = net[k + 1]!;
    const c = net[k + 2]!;
    const d = net[k + 3]!;
    const ab = (a + b) / 2;
    const bc = (b + c) / 2;
    const cd = (c + d) / 2;
    const abc = (ab + bc) / 2;
    const bcd = (bc + cd) / 2;
    const middle = (abc + bcd) / 2;
    net[k + 1] = ab;
    net[k + 2] = abc;
    net[k + 3] = middle;
    net[n] = middle;
    net[n + 1] = bcd;
    net[n + 2] = cd;
    net[n + 3] = d;
  }
}

/** Halves the net at `o` along v: the first half stays there, the second goes to `to`. */
export function halveV(net: Float64Array, o: number, to: number): void {
  for (let k = o, n = to; k < o + 4; k++, n++) {
    const a = net[k]!;
    const b = net[k + 4]!;
    const c = net[k + 8]!;
    const d = net[k + 12]!;
    const ab = (a + b) / 2;
    const bc = (b + c) / 2;
    const cd = (c + d) / 2;
    const abc = (ab + bc) / 2;
    const bcd = (bc + cd) / 2;
    const middle = (abc + bcd) / 2;
    net[k + 4] = ab;
    net[k + 8] = abc;
    net[k + 12] = middle;
    net[n] = middle;
    net[n + 4] = bcd;
    net[n + 8] = cd;
    net[n + 12] = d;
  }
}

/** One cubic to [a, b]: the blossom at (a,a,a), (a,a,b), (a,b,b), (b,b,b). */
function clipRow(net: Float64Array, k: number, stride: number, to: { readonly a: number; readonly b: number }): void {
  const { a, b } = to;
  const p0 = net[k]!;
  const p1 = net[k + stride]!;
  const p2 = net[k + 2 * stride]!;
  const p3 = net[k + 3 * stride]!;
  const a0 = p0 + a * (p1 - p0);
  const a1 = p1 + a * (p2 - p1);
  const a2 = p2 + a * (p3 - p2);
  const b0 = p0 + b * (p1 - p0);
  const b1 = p1 + b * (p2 - p1);
  const b2 = p2 + b * (p3 - p2);
  const aa0 = a0 + a * (a1 - a0);
  const aa1 = a1 + a * (a2 - a1);
  const ab0 = a0 + b * (a1 - a0);
  const ab1 = a1 + b * (a2 - a1);
  const bb0 = b0 + b * (b1 - b0);
  const bb1 = b1 + b * (b2 - b1);
  net[k] = aa0 + a * (aa1 - aa0);
  net[k + stride] = aa0 + b * (aa1 - aa0);
  net[k + 2 * stride] = ab0 + b * (ab1 - ab0);
  net[k + 3 * stride] = bb0 + b * (bb1 - bb0);
}
