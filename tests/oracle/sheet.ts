/**
 * A sheet: one sampled surface with a proven bound on what its samples can miss. mm throughout.
 *
 * Let f be the height. The format promises that on each knot cell f is a polynomial of degree 3 at most in u and in v.
 * Samples lie every h mm, and the knot lines are sample lines. All that follows is within one closed knot cell; a
 * rectangle is first cut at the knot lines, so nothing is asked of f across a knot.
 *
 * 1. *Values off the grid are exact.* Four values fix a cubic, so four samples of the same span give f at any place of
 *    a sample line, and 4 x 4 samples of one knot cell give it anywhere in that cell.
 * 2. *Second derivatives are exact at samples.* For a cubic, f(u-h) - 2 f(u) + f(u+h) = h² f''(u): the odd terms
 *    cancel and there is no fourth. f_uu is linear in u, so two interior ones give it at both ends of the span, and on
 *    a sample row its range is that of its two ends.
 * 3. *Between rows.* At a u-end of the cell f_uu is cubic in v, so between two rows h apart it leaves its chord by at
 *    most h²/8 max |f_uuvv|. f_uuvv is bilinear on the cell, so its greatest size is at one of four corners, where (2)
 *    used twice gives it. Elsewhere in u, f_uu is a mean of its two ends. So
 *    min over rows and ends - h²/8 Q <= f_uu <= max over rows and ends + h²/8 Q on the whole cell. f_vv likewise.
 * 4. *What a grid can miss.* Let g = f or -f, plus anything linear. Take places in u: both edges of the rectangle and
 *    every sample line between, so at most w_u <= h apart; in v likewise. For u between neighbours u0 and u1,
 *    g - chord = -(u - u0)(u1 - u)/2 g_uu(somewhere between) <= w_u²/8 c_u, where c_u >= 0 and g_uu >= -c_u. The chord is
 *    a mean of g at u0 and u1, and each of those leaves its own chord in v by at most w_v²/8 c_v. What is left is a mean
 *    of four corner values. So max g <= greatest value at the places + (w_u² c_u + w_v² c_v)/8, and of course
 *    max g >= greatest value at the places. Minima are maxima of -f.
 * 5. *Rounding.* Heights are below 2^13 mm, so one rounding is below 1e-12; no value here is the outcome of more than
 *    some hundred. `GRAIN` is added on both sides for it.
 *
 * That the samples are cubic between knots, and not rounded, is checked on every sample by fourth differences.
 */

import type { SampleAxis, SampledSurface } from './samples.ts';

/** Closed; certainly contains the true number. */
export type Interval = { readonly low: number; readonly high: number };

/** Closed on all sides; may be a line or a point. */
export type Rect = { readonly u: readonly [number, number]; readonly v: readonly [number, number] };

/** A linear function of u or of v: `height` at `at`, then `slope`. */
export type Tilt = {
  readonly along: 'u' | 'v';
  readonly at: number;
  readonly height: number;
  readonly slope: number;
};

export type Sheet = {
  readonly name: string;
  readonly step: number;
  readonly u: Lines;
  readonly v: Lines;
  readonly heights: Float64Array;
  /** For each knot cell (u span within v span) the range of f_uu and f_vv: four numbers, 1/mm. */
  readonly bends: Float64Array;
};

/** The sample lines across one axis, and the spans between knots as index pairs. */
export type Lines = {
  readonly from: number;
  readonly count: number;
  readonly spans: readonly (readonly [number, number])[];
};

/** A place that the samples do not reach. */
export class OutsideError extends RangeError {}

/** mm. */
export const GRAIN = 1e-9;

/** A place nearer than this share of a step to a sample line is on it: below GRAIN in height while slopes are < 2. */
const ON_LINE = 1e-10;

/** mm; a fourth difference is a sum of 16 heights, so rounding alone stays below 1e-10. */
const CUBIC = 1e-9;

/** @throws {RangeError} if the samples are not cubic between the knots that they name */
export function sheetOf(surface: SampledSurface, stepMm: number): Sheet {
  const u = linesOf(surface.u, surface.knots.u0Mm, surface.knots.stepMm, stepMm);
  const v = linesOf(surface.v, surface.knots.v0Mm, surface.knots.stepMm, stepMm);
  const { name, heightsMm: heights } = surface;
  if (surface.knots.stepMm / stepMm >= row.length) throw new RangeError(`${name}: ${stepMm} mm is too fine`);
  if (u.spans.length === 0 || v.spans.length === 0) throw new RangeError(`${name}: not one whole span of samples`);
  refuseUncubic(name, heights, u, v);
  const bends = bendsOf(heights, u, v, stepMm);
  return { name, step: stepMm, u, v, heights, bends };
}

/**
 * The height at a place, exact but for rounding.
 *
 * @throws {OutsideError} where the samples do not reach
 */
export function heightAt(sheet: Sheet, u: number, v: number): number {
  return greatest(sheet, 1, { u: [u, u], v: [v, v] }).low + GRAIN;
}

/**
 * The greatest value over a rectangle of (sign x height + tilts): greatest sample, and that plus what can be missed.
 *
 * @throws {OutsideError} where the samples do not reach
 */
export function greatest(sheet: Sheet, sign: 1 | -1, rect: Rect, ...asked: readonly (Tilt | undefined)[]): Interval {
  const tilts = asked.filter((tilt) => tilt !== undefined);
  const cutU = cut(sheet, sheet.u, rect.u);
  const cutV = cut(sheet, sheet.v, rect.v);
  let low = -Infinity;
  let high = -Infinity;
  for (const inV of cutV) {
    for (const inU of cutU) {
      const most = greatestPlace(sheet, sign, inU, inV, tilts);
      const missed = mostMissed(sheet, sign, inU, inV);
      if (most > low) low = most;
      if (most + missed > high) high = most + missed;
    }
  }
  return { low: low - GRAIN, high: high + GRAIN };
}

/**
 * A bound on the slope of the sheet along one of its axes, on the whole line where the other coordinate is `across`.
 * By the mean value theorem each step has a place where the slope is that of the chord; from there it changes by at
 * most h max |f''|.
 */
export function steepest(sheet: Sheet, along: 'u' | 'v', across: number): number {
  const lines = along === 'u' ? sheet.u : sheet.v;
  const other = along === 'u' ? sheet.v : sheet.u;
  const [first, last] = [lines.spans[0]![0], lines.spans[lines.spans.length - 1]![1]];
  let slope = 0;
  let before = 0;
  for (let i = first; i <= last; i++) {
    const place = lines.from + i * sheet.step;
    const height = along === 'u' ? heightAt(sheet, place, across) : heightAt(sheet, across, place);
    if (i > first) slope = Math.max(slope, Math.abs(height - before) / sheet.step);
    before = height;
  }
  let bend = 0;
  for (const on of cut(sheet, other, [across, across])) {
    for (let span = 0; span < lines.spans.length; span++) {
      const cell = 4 * (along === 'u' ? on.span * sheet.u.spans.length + span : span * sheet.u.spans.length + on.span);
      const at = along === 'u' ? cell : cell + 2;
      bend = Math.max(bend, Math.abs(sheet.bends[at]!), Math.abs(sheet.bends[at + 1]!));
    }
  }
  return slope + sheet.step * bend;
}

/** What the samples reach, closed. */
export function reach(sheet: Sheet): Rect {
  const of = (lines: Lines): [number, number] => [
    lines.from + sheet.step * lines.spans[0]![0],
    lines.from + sheet.step * lines.spans[lines.spans.length - 1]![1],
  ];
  return { u: of(sheet.u), v: of(sheet.v) };
}

/** A closed stretch of one span, in sample indices that need not be whole. */
type Piece = { readonly span: number; readonly from: number; readonly to: number };

/** Spans with four samples or more; a shorter one at an end is left out, for its cubic is not known. */
function linesOf(axis: SampleAxis, knot: number, knotStep: number, step: number): Lines {
  const each = Math.round(knotStep / step);
  const toKnot = Math.round((knot - axis.fromMm) / step);
  const spans: [number, number][] = [];
  let from = 0;
  let next = ((toKnot % each) + each) % each;
  if (next === 0) next = each;
  for (;;) {
    const to = Math.min(next, axis.count - 1);
    if (to - from >= 3) spans.push([from, to]);
    if (to === axis.count - 1) break;
    from = next;
    next += each;
  }
  return { from: axis.fromMm, count: axis.count, spans };
}

function cut(sheet: Sheet, lines: Lines, range: readonly [number, number]): Piece[] {
  const from = onLine((range[0] - lines.from) / sheet.step);
  const to = onLine((range[1] - lines.from) / sheet.step);
  const { spans } = lines;
  if (!(from <= to)) throw new RangeError(`${sheet.name}: from ${range[0]} to ${range[1]} is no range`);
  if (from < spans[0]![0] || to > spans[spans.length - 1]![1]) {
    throw new OutsideError(`${sheet.name}: ${range[0]} to ${range[1]} lies outside the samples`);
  }
  const pieces: Piece[] = [];
  for (const [span, [first, last]] of spans.entries()) {
    const [a, b] = [Math.max(from, first), Math.min(to, last)];
    if (a < b || (a === b && from === to && pieces.length === 0)) pieces.push({ span, from: a, to: b });
  }
  return pieces;
}

function onLine(index: number): number {
  const whole = Math.round(index);
  return Math.abs(index - whole) <= ON_LINE ? whole : index;
}

function mostMissed(sheet: Sheet, sign: 1 | -1, inU: Piece, inV: Piece): number {
  const at = 4 * (inV.span * sheet.u.spans.length + inU.span);
  const { bends } = sheet;
  const bendU = Math.max(0, sign > 0 ? -bends[at]! : bends[at + 1]!);
  const bendV = Math.max(0, sign > 0 ? -bends[at + 2]! : bends[at + 3]!);
  const wideU = sheet.step * Math.min(1, inU.to - inU.from);
  const wideV = sheet.step * Math.min(1, inV.to - inV.from);
  return (wideU * wideU * bendU + wideV * wideV * bendV) / 8;
}

const row = new Float64Array(4096);

/** The greatest of (sign x height + tilt) at the sample places in a piece of one knot cell and on its edges. */
function greatestPlace(sheet: Sheet, sign: 1 | -1, inU: Piece, inV: Piece, tilts: readonly Tilt[]): number {
  const spanU = sheet.u.spans[inU.span]!;
  const [firstWhole, lastWhole] = [Math.ceil(inU.from), Math.floor(inU.to)];
  const left = firstWhole === inU.from ? null : tapsAt(inU.from, spanU);
  const right = lastWhole === inU.to ? null : tapsAt(inU.to, spanU);
  const first = Math.min(firstWhole, left?.first ?? firstWhole, right?.first ?? firstWhole);
  const last = Math.max(lastWhole, left ? left.first + 3 : lastWhole, right ? right.first + 3 : lastWhole);
  const tiltU = tilts.filter((tilt) => tilt.along === 'u');
  const tiltV = tilts.filter((tilt) => tilt.along === 'v');
  const tilted = (by: readonly Tilt[], place: number) =>
    by.reduce((sum, { height, slope, at }) => sum + height + slope * (place - at), 0);
  let most = -Infinity;
  const take = (height: number, index: number) => {
    const added = tiltU.length > 0 ? tilted(tiltU, sheet.u.from + index * sheet.step) : 0;
    if (sign * height + added > most) most = sign * height + added;
  };
  let greatestOfAll = -Infinity;
  for (let v = inV.from; ; v = v === inV.from && !Number.isInteger(v) ? Math.ceil(v) : v + 1) {
    if (v > inV.to) v = inV.to;
    fillRow(sheet, v, inV, first, last);
    most = -Infinity;
    if (tiltU.length > 0) {
      for (let i = firstWhole; i <= lastWhole; i++) take(row[i - first]!, i);
    } else {
      for (let i = firstWhole; i <= lastWhole; i++) {
        const value = sign * row[i - first]!;
        if (value > most) most = value;
      }
    }
    if (left) take(tapped(left, first), inU.from);
    if (right) take(tapped(right, first), inU.to);
    if (tiltV.length > 0) most += tilted(tiltV, sheet.v.from + v * sheet.step);
    if (most > greatestOfAll) greatestOfAll = most;
    if (v >= inV.to) return greatestOfAll;
  }
}

/** Fills `row` with the heights at sample columns first to last, at row v of the samples or between two. */
function fillRow(sheet: Sheet, v: number, inV: Piece, first: number, last: number): void {
  const { heights } = sheet;
  const { count } = sheet.u;
  if (Number.isInteger(v)) {
    for (let i = first, at = v * count + first; i <= last; i++, at++) row[i - first] = heights[at]!;
    return;
  }
  const taps = tapsAt(v, sheet.v.spans[inV.span]!);
  const [a, b, c, d] = taps.weights;
  for (let i = first, at = taps.first * count + first; i <= last; i++, at++) {
    row[i - first] =
      a * heights[at]! + b * heights[at + count]! + c * heights[at + 2 * count]! + d * heights[at + 3 * count]!;
  }
}

type Taps = { readonly first: number; readonly weights: readonly [number, number, number, number] };

/** The weights of four samples of the span in the cubic through them, at a place between samples. */
function tapsAt(index: number, span: readonly [number, number]): Taps {
  const first = Math.min(Math.max(Math.floor(index) - 1, span[0]), span[1] - 3);
  const t = index - first;
  return {
    first,
    weights: [
      (-(t - 1) * (t - 2) * (t - 3)) / 6,
      (t * (t - 2) * (t - 3)) / 2,
      (-t * (t - 1) * (t - 3)) / 2,
      (t * (t - 1) * (t - 2)) / 6,
    ],
  };
}

function tapped(taps: Taps, rowFirst: number): number {
  const at = taps.first - rowFirst;
  const [a, b, c, d] = taps.weights;
  return a * row[at]! + b * row[at + 1]! + c * row[at + 2]! + d * row[at + 3]!;
}

/** Every fourth difference within a span, along u and along v; a column of them at a time would miss the cache. */
function refuseUncubic(name: string, heights: Float64Array, u: Lines, v: Lines): void {
  let worst = 0;
  for (let j = 0; j < v.count; j++) {
    for (const [first, last] of u.spans)
      worst = Math.max(worst, fourthIn(heights, j * u.count, first + 2, last - 2, 1));
  }
  for (const [first, last] of v.spans) {
    for (let j = first + 2; j <= last - 2; j++) {
      worst = Math.max(worst, fourthIn(heights, j * u.count, 0, u.count - 1, u.count));
    }
  }
  if (!(worst <= CUBIC)) {
    throw new RangeError(`${name}: the samples are not cubic between knots, or are rounded (by ${worst} mm)`);
  }
}

/** The greatest size of a fourth difference at columns first to last of a row, neighbours `stride` apart. */
function fourthIn(heights: Float64Array, rowAt: number, first: number, last: number, stride: number): number {
  let worst = 0;
  for (let at = rowAt + first; at <= rowAt + last; at++) {
    const outer = heights[at - 2 * stride]! + heights[at + 2 * stride]!;
    const inner = heights[at - stride]! + heights[at + stride]!;
    const fourth = Math.abs(outer - 4 * inner + 6 * heights[at]!);
    if (fourth > worst) worst = fourth;
  }
  return worst;
}

/** The ranges of f_uu and f_vv on every knot cell: (2) and (3) of the module's proof. */
function bendsOf(heights: Float64Array, u: Lines, v: Lines, step: number): Float64Array {
  const bends = new Float64Array(4 * u.spans.length * v.spans.length);
  let at = 0;
  for (const spanV of v.spans) {
    for (const spanU of u.spans) {
      const [uuLeast, uuMost] = bendRange(heights, step, spanU, 1, spanV, u.count);
      const [vvLeast, vvMost] = bendRange(heights, step, spanV, u.count, spanU, 1);
      bends.set([uuLeast, uuMost, vvLeast, vvMost], at);
      at += 4;
    }
  }
  return bends;
}

/** The range of the second derivative along one axis on a knot cell; strides are steps in `heights`. */
function bendRange(
  heights: Float64Array,
  step: number,
  along: readonly [number, number],
  stride: number,
  across: readonly [number, number],
  acrossStride: number,
): [number, number] {
  const rows = across[1] - across[0] + 1;
  const ends = [new Float64Array(rows), new Float64Array(rows)] as const;
  let least = Infinity;
  let most = -Infinity;
  for (let j = 0; j < rows; j++) {
    const [a, b] = secondAtEnds(heights, step, (across[0] + j) * acrossStride + along[0] * stride, stride, along);
    ends[0][j] = a;
    ends[1][j] = b;
    least = Math.min(least, a, b);
    most = Math.max(most, a, b);
  }
  let fourth = 0;
  for (const end of ends) {
    for (const corner of secondAtEnds(end, step, 0, 1, across)) fourth = Math.max(fourth, Math.abs(corner));
  }
  const between = (step * step * fourth) / 8;
  return [least - between, most + between];
}

/** The second derivative at both ends of a span, from the two outermost interior second differences. */
function secondAtEnds(
  values: Float64Array,
  step: number,
  start: number,
  stride: number,
  span: readonly [number, number],
): [number, number] {
  const steps = span[1] - span[0];
  const second = (at: number) => (values[at - stride]! - 2 * values[at]! + values[at + stride]!) / (step * step);
  const atFirst = second(start + stride);
  const atLast = second(start + (steps - 1) * stride);
  const each = (atLast - atFirst) / (steps - 2);
  return [atFirst - each, atLast + each];
}
