/**
 * The search behind `highestOverSegment` in hit.ts.
 *
 * Over each patch that a straight way crosses, height above it is a polynomial of degree 6 in t: the patch's net is clipped
 * to the piece's two ends and its diagonal is taken. The rest is range-search.ts in one dimension: ends are values, the
 * largest coefficient is a bound, halve until they meet. Pieces that lie far below the best value are left by their patch's bound.
 *
 * @source diagonal of a tensor product, any textbook on Bezier surfaces (from memory)
 */

import { finePerMm, type HeightField, heightAt, knotStepMm, patchesOf } from './height-field.ts';
import type { FieldPoint } from './hit.ts';
import { clipNetU, clipNetV, loadNet } from './net.ts';

/** What the last search found; written anew by each. */
export const segmentFound = {
  /** The highest value seen, mm. */
  best: -0.5,
  /** Where, as a share of the way. */
  t: 0.5,
  /** Certified bound, mm. */
  bound: 0.5,
};

/** Looks for the highest value of field less way, into `segmentFound`; both ends must lie in the domain. */
export function searchSegment(field: HeightField, p: FieldPoint, q: FieldPoint): void {
  segmentFound.best = heightAt(field, p.u, p.v) - p.w;
  segmentFound.t = 0;
  const atEnd = heightAt(field, q.u, q.v) - q.w;
  if (atEnd > segmentFound.best) {
    segmentFound.best = atEnd;
    segmentFound.t = 1;
  }
  highestPassed = segmentFound.best;
  cutAtKnots(field, p, q);
  for (let k = highestPiece(); k >= 0; k = highestPiece()) {
    openPiece(field, p, q, k);
    halveUntilMet(cuts[k]!, cuts[k + 1]!);
  }
  segmentFound.bound = Math.max(highestPassed, segmentFound.best) + padMm;
}

const within = 0.001;
const padMm = 1e-9;
const slack = within - 4 * padMm;
const degree = 6;
const depth = 64;

let highestPassed = -0.5;
let cuts = new Float64Array(128); // shares of the way at which a knot line is crossed, ends included
let pieceBounds = new Float64Array(128); // mm
let pieceDone = new Uint8Array(128);
let piecePatch = new Int32Array(128);
let pieces = 0;
const net = new Float64Array(16);
const curves = new Float64Array((degree + 1) * depth); // a stack of pieces of one curve, mm
const starts = new Float64Array(depth);
const ends = new Float64Array(depth);

/** Cuts the way where it crosses knot lines, and bounds each piece by its patch. */
function cutAtKnots(field: HeightField, p: FieldPoint, q: FieldPoint): void {
  const lines = field.countU + field.countV;
  if (cuts.length < lines) makeRoom(lines);
  const { hulls } = patchesOf(field);
  const s = (p.u - field.u0) / knotStepMm;
  const r = (p.v - field.v0) / knotStepMm;
  const ds = (q.u - p.u) / knotStepMm;
  const dr = (q.v - p.v) / knotStepMm;
  let lineU = ds > 0 ? Math.floor(s) + 1 : Math.ceil(s) - 1;
  let lineV = dr > 0 ? Math.floor(r) + 1 : Math.ceil(r) - 1;
  pieces = 0;
  cuts[0] = 0;
  for (let from = 0; from < 1; ) {
    const toU = ds === 0 ? 1 : Math.min(1, (lineU - s) / ds);
    const toV = dr === 0 ? 1 : Math.min(1, (lineV - r) / dr);
    const to = Math.min(toU, toV);
    if (toU <= to) lineU += ds > 0 ? 1 : -1;
    if (toV <= to) lineV += dr > 0 ? 1 : -1;
    if (to <= from) continue;
    const middle = from + (to - from) / 2;
    const i = Math.min(Math.trunc(s + middle * ds), field.countU - 4);
    const j = Math.min(Math.trunc(r + middle * dr), field.countV - 4);
    const lowest = Math.min(p.w + from * (q.w - p.w), p.w + to * (q.w - p.w));
    piecePatch[pieces] = j * (field.countU - 3) + i;
    pieceBounds[pieces] = hulls[piecePatch[pieces]!]! / finePerMm - lowest;
    pieceDone[pieces] = 0;
    cuts[++pieces] = to;
    from = to;
  }
}

function makeRoom(lines: number): void {
  cuts = new Float64Array(lines);
  pieceBounds = new Float64Array(lines);
  pieceDone = new Uint8Array(lines);
  piecePatch = new Int32Array(lines);
}

/** The piece that may still hold the highest value, the first of equals; -1 when none can, and then all are let go. */
function highestPiece(): number {
  let at = -1;
  for (let k = 0; k < pieces; k++) {
    if (pieceDone[k] === 0 && (at < 0 || pieceBounds[k]! > pieceBounds[at]!)) at = k;
  }
  if (at < 0) return -1;
  if (pieceBounds[at]! > segmentFound.best + slack) {
    pieceDone[at] = 1;
    return at;
  }
  highestPassed = Math.max(highestPassed, pieceBounds[at]!);
  return -1;
}

/** The curve over one piece, into the bottom of the stack. */
function openPiece(field: HeightField, p: FieldPoint, q: FieldPoint, k: number): void {
  const from = cuts[k]!;
  const to = cuts[k + 1]!;
  const width = field.countU - 3;
  const j = Math.trunc(piecePatch[k]! / width);
  const i = piecePatch[k]! - j * width;
  loadNet(field.control, j * field.countU + i, field.countU, net, 0);
  const s = (p.u - field.u0) / knotStepMm - i;
  const r = (p.v - field.v0) / knotStepMm - j;
  const ds = (q.u - p.u) / knotStepMm;
  const dr = (q.v - p.v) / knotStepMm;
  clipNetU(net, 0, s + from * ds, s + to * ds);
  clipNetV(net, 0, r + from * dr, r + to * dr);
  takeDiagonal();
  const w = p.w + from * (q.w - p.w);
  const rise = ((to - from) * (q.w - p.w)) / degree;
  for (let c = 0; c <= degree; c++) curves[c] = curves[c]! / finePerMm - (w + c * rise);
}

/** Coefficient k of the diagonal: the mean of the net's (i, j), i + j = k, with weights C(3,i) C(3,j) / C(6,k). */
function takeDiagonal(): void {
  curves[0] = net[0]!;
  curves[1] = (net[1]! + net[4]!) / 2;
  curves[2] = (net[2]! + 3 * net[5]! + net[8]!) / 5;
  curves[3] = (net[3]! + 9 * net[6]! + 9 * net[9]! + net[12]!) / 20;
  curves[4] = (net[7]! + 3 * net[10]! + net[13]!) / 5;
  curves[5] = (net[11]! + net[14]!) / 2;
  curves[6] = net[15]!;
}

function halveUntilMet(from: number, to: number): void {
  starts[0] = from;
  ends[0] = to;
  for (let top = 0; top >= 0; ) {
    const o = top * (degree + 1);
    takeEnd(curves[o]!, starts[top]!);
    takeEnd(curves[o + degree]!, ends[top]!);
    let bound = curves[o]!;
    for (let c = o + 1; c <= o + degree; c++) bound = Math.max(bound, curves[c]!);
    if (bound <= segmentFound.best + slack || top === depth - 1) {
      highestPassed = Math.max(highestPassed, bound);
      top--;
    } else {
      halveCurve(top);
      top++;
    }
  }
}

function takeEnd(value: number, t: number): void {
  if (value <= segmentFound.best) return;
  segmentFound.best = value;
  segmentFound.t = t;
}

/** The second half stays in place, the first goes on top, to be looked at next. */
function halveCurve(at: number): void {
  const o = at * (degree + 1);
  const n = o + degree + 1;
  for (let c = 0; c <= degree; c++) {
    curves[n + c] = curves[o]!;
    for (let k = o; k < o + degree - c; k++) curves[k] = (curves[k]! + curves[k + 1]!) / 2;
  }
  const middle = starts[at]! + (ends[at]! - starts[at]!) / 2;
  starts[at + 1] = starts[at]!;
  ends[at + 1] = middle;
  starts[at] = middle;
}
