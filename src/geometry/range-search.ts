/**
 * The search behind range.ts: best first, on Bezier nets.
 *
 * The best knot value inside the rectangle is a first answer. Patches whose hull bound lies above it are opened, highest
 * first, clipped to the rectangle, and halved, until no bound is more than `within` above the best value found. A
 * corner of a net is a value of the surface; its largest coefficient is a bound. The bound closes in with the square of the
 * net's size, so a tenth of `within` costs some five nets more.
 *
 * Rounding: nets are exact whole numbers until they are clipped or halved some eight times, and then within 1e-10 mm;
 * each bound has 1e-9 mm added, and more where a linear function comes in.
 */

import { finePerMm, type HeightField, heightAt, knotStepMm, patchesOf, type Rect } from './height-field.ts';
import { addLinear, clipNetU, clipNetV, halveU, halveV, loadNet } from './net.ts';
import type { Linear } from './range.ts';

export interface Question {
  /** mm, >= 1e-6 */
  readonly within: number;
  readonly plus: Linear | null;
  /** Values not above this are of no interest, mm. */
  readonly floor: number;
  /** The search ends as soon as a value lies above this, mm. */
  readonly stopAbove: number;
}

/** Stands for "no limit", mm; finite, for infinities in hot code cost speed. */
export const farMm = 1e9;

/** What the last search found; written anew by each. */
export const found = {
  /** The highest value seen, 1/36864 mm; the floor if none was above it. */
  best: -0.5,
  /** Where it is taken, mm. */
  u: 0.5,
  v: 0.5,
  /** Certified bound, mm. */
  bound: 0.5,
  nodes: 0,
};

/** Looks for the highest value over a rectangle of the domain, into `found`; checks nothing. */
export function search(field: HeightField, rect: Rect, question: Question): void {
  const { plus } = question;
  const pad = plus === null ? padMm : padMm + plusReach(rect, plus) * 1e-13;
  const slack = (question.within - 2 * pad) * finePerMm;
  const stop = question.stopAbove * finePerMm;
  heapSize = 0;
  used = 0;
  found.best = question.floor * finePerMm;
  found.u = rect.u0;
  found.v = rect.v0;
  found.nodes = 0;
  highestPassed = -farMm * finePerMm;
  takeSpans(field, rect);
  scanKnots(field, rect, plus);
  if (found.best <= stop) {
    if (plus === null) scanPatches(field, slack);
    else scanPatchesPlus(field, rect, { plus, slack });
  }
  while (heapSize > 0 && found.best <= stop) {
    const slot = heap[0]!;
    if (bounds[slot]! <= found.best + slack) break;
    popTop();
    if (patchAt[slot]! >= 0) openPatch(field, rect, { plus, slot });
    else keep(halve(slot), slack);
    keep(slot, slack);
  }
  if (heapSize > 0) highestPassed = Math.max(highestPassed, bounds[heap[0]!]!);
  found.bound = Math.max(highestPassed, found.best) / finePerMm + pad;
  // A knot can lie outside by less than the difference of two numbers shows.
  found.u = Math.max(rect.u0, Math.min(rect.u1, found.u));
  found.v = Math.max(rect.v0, Math.min(rect.v1, found.v));
}

/** A closed block of knots or patches. */
interface Span {
  i0: number;
  i1: number;
  j0: number;
  j1: number;
}

/** More than all rounding between the control values and a bound, mm. */
const padMm = 1e-9;
/** Above every knot value and hull bound, in 32 bits. */
const farWhole = 2_147_483_647;
const halveAlongU = 0;
const halveAlongV = 1;
const halveEither = 2;

// One search at a time: its nets and its heap, kept between calls so that a question allocates nothing.
let room = 256;
let nets = new Float64Array(16 * room);
let boxes = new Float64Array(4 * room); // u0, u1, v0, v1 of each net, mm
let bounds = new Float64Array(room); // 1/36864 mm
let patchAt = new Int32Array(room); // the patch of a slot that is not opened yet, else -1
let ways = new Uint8Array(room); // which way a net is to be halved
let heap = new Int32Array(room); // slots, highest bound on top
let heapSize = 0;
let used = 0;
let highestPassed = -0.5; // the highest bound that was let go, 1/36864 mm
const span: Span = { i0: 0, i1: 0, j0: 0, j1: 0 }; // patches that the rectangle touches, closed
const step = { at: 0.5, alongU: 0.5, alongV: 0.5 };

/** Size of the added function on the rectangle, mm: what its rounding is measured by. */
function plusReach(rect: Rect, plus: Linear): number {
  const u = Math.max(Math.abs(rect.u0), Math.abs(rect.u1));
  const v = Math.max(Math.abs(rect.v0), Math.abs(rect.v1));
  return Math.abs(plus.at) + Math.abs(plus.perU) * u + Math.abs(plus.perV) * v;
}

function takeSpans(field: HeightField, rect: Rect): void {
  const lastU = field.countU - 4;
  const lastV = field.countV - 4;
  span.i0 = Math.min(Math.floor((rect.u0 - field.u0) / knotStepMm), lastU);
  span.i1 = Math.max(span.i0, Math.ceil((rect.u1 - field.u0) / knotStepMm) - 1);
  span.j0 = Math.min(Math.floor((rect.v0 - field.v0) / knotStepMm), lastV);
  span.j1 = Math.max(span.j0, Math.ceil((rect.v1 - field.v0) / knotStepMm) - 1);
}

/** The best knot in the rectangle; its middle, if there is none. */
function scanKnots(field: HeightField, rect: Rect, plus: Linear | null): void {
  const i0 = Math.ceil((rect.u0 - field.u0) / knotStepMm);
  const i1 = Math.floor((rect.u1 - field.u0) / knotStepMm);
  const j0 = Math.ceil((rect.v0 - field.v0) / knotStepMm);
  const j1 = Math.floor((rect.v1 - field.v0) / knotStepMm);
  if (i0 > i1 || j0 > j1) takeMiddle(field, rect, plus);
  else if (plus === null) takeHighestKnot(field, { i0, i1, j0, j1 });
  else takeHighestKnotPlus(field, plus, { i0, i1, j0, j1 });
}

function takeHighestKnot(field: HeightField, among: Span): void {
  const { knots } = patchesOf(field, span);
  const width = field.countU - 2;
  let highest = -farWhole;
  let at = 0;
  for (let j = among.j0; j <= among.j1; j++) {
    const end = j * width + among.i1;
    for (let k = j * width + among.i0; k <= end; k++) {
      if (knots[k]! > highest) {
        highest = knots[k]!;
        at = k;
      }
    }
  }
  if (highest > found.best) takeKnot(field, highest, at);
}

function takeHighestKnotPlus(field: HeightField, plus: Linear, among: Span): void {
  const { knots } = patchesOf(field, span);
  const width = field.countU - 2;
  const perU = plus.perU * knotStepMm * finePerMm;
  let highest = found.best;
  let at = -1;
  for (let j = among.j0; j <= among.j1; j++) {
    const base = linearAt(plus, field.u0, field.v0 + j * knotStepMm) * finePerMm;
    for (let i = among.i0; i <= among.i1; i++) {
      const value = knots[j * width + i]! + (base + i * perU);
      if (value > highest) {
        highest = value;
        at = j * width + i;
      }
    }
  }
  if (at >= 0) takeKnot(field, highest, at);
}

function takeKnot(field: HeightField, value: number, at: number): void {
  const width = field.countU - 2;
  const j = Math.trunc(at / width);
  found.best = value;
  found.u = field.u0 + (at - j * width) * knotStepMm;
  found.v = field.v0 + j * knotStepMm;
}

function takeMiddle(field: HeightField, rect: Rect, plus: Linear | null): void {
  const u = rect.u0 + (rect.u1 - rect.u0) / 2;
  const v = rect.v0 + (rect.v1 - rect.v0) / 2;
  const height = heightAt(field, u, v) + (plus === null ? 0 : linearAt(plus, u, v));
  if (height * finePerMm <= found.best) return;
  found.best = height * finePerMm;
  found.u = u;
  found.v = v;
}

/** Puts every patch whose bound lies above the best value on the heap, unopened. Bounds are whole numbers here. */
function scanPatches(field: HeightField, slack: number): void {
  const { hulls } = patchesOf(field, span);
  const width = field.countU - 3;
  const enough = Math.min(Math.floor(found.best + slack), farWhole) | 0;
  let passed = -farWhole;
  for (let j = span.j0; j <= span.j1; j++) {
    const end = j * width + span.i1;
    for (let k = j * width + span.i0; k <= end; k++) {
      const bound = hulls[k]!;
      if (bound > enough) pushPatch(k, bound);
      else if (bound > passed) passed = bound;
    }
  }
  highestPassed = passed;
}

/** The same with a linear function added. */
function scanPatchesPlus(field: HeightField, rect: Rect, how: { plus: Linear; slack: number }): void {
  const { plus, slack } = how;
  const { hulls } = patchesOf(field, span);
  const width = field.countU - 3;
  const enough = found.best + slack;
  let passed = highestPassed;
  for (let j = span.j0; j <= span.j1; j++) {
    for (let i = span.i0; i <= span.i1; i++) {
      const patch = j * width + i;
      const bound = hulls[patch]! + highestLinear(field, rect, { plus, i, j }) * finePerMm;
      if (bound > enough) pushPatch(patch, bound);
      else if (bound > passed) passed = bound;
    }
  }
  highestPassed = passed;
}

/** The added function's largest value over one patch's part of the rectangle, mm. */
function highestLinear(field: HeightField, rect: Rect, at: { plus: Linear; i: number; j: number }): number {
  const { plus, i, j } = at;
  const u = field.u0 + i * knotStepMm;
  const v = field.v0 + j * knotStepMm;
  return linearAt(
    plus,
    plus.perU > 0 ? Math.min(u + knotStepMm, rect.u1) : Math.max(u, rect.u0),
    plus.perV > 0 ? Math.min(v + knotStepMm, rect.v1) : Math.max(v, rect.v0),
  );
}

function linearAt(plus: Linear, u: number, v: number): number {
  return plus.at + plus.perU * u + plus.perV * v;
}

/** Makes the net of a slot that so far stood for a whole patch, clipped to the rectangle. */
function openPatch(field: HeightField, rect: Rect, how: { plus: Linear | null; slot: number }): void {
  const { plus, slot } = how;
  const width = field.countU - 3;
  const j = Math.trunc(patchAt[slot]! / width);
  const i = patchAt[slot]! - j * width;
  const o = 16 * slot;
  const b = 4 * slot;
  const u = field.u0 + i * knotStepMm;
  const v = field.v0 + j * knotStepMm;
  const u0 = Math.max(u, rect.u0);
  const u1 = Math.min(u + knotStepMm, rect.u1);
  const v0 = Math.max(v, rect.v0);
  const v1 = Math.min(v + knotStepMm, rect.v1);
  loadNet(field.control, j * field.countU + i, field.countU, nets, o);
  if (u1 - u0 < knotStepMm) clipNetU(nets, o, (u0 - u) / knotStepMm, (u1 - u) / knotStepMm);
  if (v1 - v0 < knotStepMm) clipNetV(nets, o, (v0 - v) / knotStepMm, (v1 - v) / knotStepMm);
  if (plus !== null) {
    step.at = linearAt(plus, u0, v0) * finePerMm;
    step.alongU = plus.perU * (u1 - u0) * finePerMm;
    step.alongV = plus.perV * (v1 - v0) * finePerMm;
    addLinear(nets, o, step);
  }
  boxes[b] = u0;
  boxes[b + 1] = u1;
  boxes[b + 2] = v0;
  boxes[b + 3] = v1;
  patchAt[slot] = -1;
  measure(slot);
}

/** Halves a net; gives the slot of the second half. */
function halve(slot: number): number {
  const second = takeSlot();
  const b = 4 * slot;
  const c = 4 * second;
  patchAt[second] = -1;
  for (let k = 0; k < 4; k++) boxes[c + k] = boxes[b + k]!;
  const alongV = ways[slot] === halveAlongV || (ways[slot] === halveEither && isMoreBentAlongV(16 * slot));
  const low = alongV ? 2 : 0;
  const middle = (boxes[b + low]! + boxes[b + low + 1]!) / 2;
  boxes[b + low + 1] = middle;
  boxes[c + low] = middle;
  if (alongV) halveV(nets, 16 * slot, 16 * second);
  else halveU(nets, 16 * slot, 16 * second);
  measure(slot);
  measure(second);
  return second;
}

/**
 * Corners are values, the largest coefficient is the bound. Where that one lies on an edge of the net, halving along that edge is
 * what brings the bound down. `largest` gives four times what it says, so here are factors of 4 and 16.
 */
function measure(slot: number): void {
  found.nodes++;
  const n = nets;
  const o = 16 * slot;
  const atCorners = largest(n[o]!, n[o + 3]!, n[o + 12]!, n[o + 15]!);
  const onEdgesU = largest(n[o + 1]!, n[o + 2]!, n[o + 13]!, n[o + 14]!);
  const onEdgesV = largest(n[o + 4]!, n[o + 8]!, n[o + 7]!, n[o + 11]!);
  const inside = largest(n[o + 5]!, n[o + 6]!, n[o + 9]!, n[o + 10]!);
  const bound = largest(atCorners, onEdgesU, onEdgesV, inside);
  bounds[slot] = bound / 16;
  ways[slot] = 4 * onEdgesV >= bound ? halveAlongV : 4 * onEdgesU >= bound ? halveAlongU : halveEither;
  if (atCorners > 4 * found.best) takeCorners(slot);
}

/** Four times the largest of four without a branch: which one it is cannot be foreseen, and a wrong guess costs more. */
function largest(a: number, b: number, c: number, d: number): number {
  const ab = a + b + Math.abs(a - b);
  const cd = c + d + Math.abs(c - d);
  return ab + cd + Math.abs(ab - cd);
}

function isMoreBentAlongV(o: number): boolean {
  const n = nets;
  let alongU = 0;
  let alongV = 0;
  for (let k = 0; k < 4; k++) {
    const r = o + 4 * k;
    const c = o + k;
    alongU += Math.abs(n[r]! - n[r + 1]! - n[r + 2]! + n[r + 3]!);
    alongV += Math.abs(n[c]! - n[c + 4]! - n[c + 8]! + n[c + 12]!);
  }
  return alongV > alongU;
}

function takeCorners(slot: number): void {
  const o = 16 * slot;
  const b = 4 * slot;
  if (nets[o]! > found.best) takeCorner(nets[o]!, b, b + 2);
  if (nets[o + 3]! > found.best) takeCorner(nets[o + 3]!, b + 1, b + 2);
  if (nets[o + 12]! > found.best) takeCorner(nets[o + 12]!, b, b + 3);
  if (nets[o + 15]! > found.best) takeCorner(nets[o + 15]!, b + 1, b + 3);
}

function takeCorner(value: number, atU: number, atV: number): void {
  found.best = value;
  found.u = boxes[atU]!;
  found.v = boxes[atV]!;
}

/** Back on the heap, or let go if its bound is near enough to the best value. */
function keep(slot: number, slack: number): void {
  const bound = bounds[slot]!;
  if (bound > found.best + slack) push(slot);
  else if (bound > highestPassed) highestPassed = bound;
}

function takeSlot(): number {
  if (used === room) grow();
  return used++;
}

function grow(): void {
  room *= 2;
  nets = larger(nets, new Float64Array(16 * room));
  boxes = larger(boxes, new Float64Array(4 * room));
  bounds = larger(bounds, new Float64Array(room));
  patchAt = larger(patchAt, new Int32Array(room));
  ways = larger(ways, new Uint8Array(room));
  heap = larger(heap, new Int32Array(room));
}

function larger<A extends Float64Array | Int32Array | Uint8Array>(from: A, to: A): A {
  to.set(from);
  return to;
}

function pushPatch(patch: number, bound: number): void {
  const slot = takeSlot();
  bounds[slot] = bound;
  patchAt[slot] = patch;
  push(slot);
}

function push(slot: number): void {
  const bound = bounds[slot]!;
  let k = heapSize++;
  while (k > 0) {
    const up = (k - 1) >> 1;
    if (bounds[heap[up]!]! >= bound) break;
    heap[k] = heap[up]!;
    k = up;
  }
  heap[k] = slot;
}

function popTop(): void {
  const slot = heap[--heapSize]!;
  const bound = bounds[slot]!;
  let k = 0;
  for (let down = 1; down < heapSize; down = 2 * k + 1) {
    if (down + 1 < heapSize && bounds[heap[down + 1]!]! > bounds[heap[down]!]!) down++;
    if (bounds[heap[down]!]! <= bound) break;
    heap[k] = heap[down]!;
    k = down;
  }
  heap[k] = slot;
}
