/**
 * Where straight lines meet a height field: a laser line or a rule against a wall, and the way between two points.
 *
 * Frame: (u, v, w) in mm, the field's own. A line is u + t du, v + t dv, w + t dw.
 */

import { domainOf, type HeightField, heightAt, jetInto, knotStepMm, slopesOf } from './height-field.ts';
import { searchSegment, segmentFound } from './segment-search.ts';

/** A line with an origin and a direction of unit length. */
export interface Ray {
  readonly u: number;
  readonly v: number;
  readonly w: number;
  readonly du: number;
  readonly dv: number;
  readonly dw: number;
}

/** A place in the field's frame, mm. */
export interface FieldPoint {
  readonly u: number;
  readonly v: number;
  readonly w: number;
}

/**
 * Where a line meets the sheet w = S(u, v).
 *
 * The gap g(t) between line and sheet changes at least by m = |dw| - |du| Gu - |dv| Gv per mm of the line, where Gu and
 * Gv bound the sheet's slopes. Where m > 0 there is at most one such place, and |g| / m bounds the distance to it. Outside
 * its domain the sheet is carried on level, which keeps g so, and a meeting place out there is no hit.
 *
 * @param ray - mm; direction of unit length within 1e-9
 * @returns t in mm, < 0 behind the origin, and a bound of its error, below 1e-6 unless the line nearly grazes the sheet;
 *   `null` when m is not > 1e-6 or the line meets the sheet outside the closed domain
 * @throws {RangeError} if the direction is not of unit length, or a coordinate is not within 2^20 mm of zero
 */
export function hitField(field: HeightField, ray: Ray): { t: number; error: number } | null {
  checkRay(ray);
  const { du, dv, dw } = ray;
  const slopes = slopesOf(field);
  const m = Math.abs(dw) - Math.abs(du) * slopes.perU - Math.abs(dv) * slopes.perV;
  if (!(m > leastClosing)) return null;
  const spansU = field.countU - 3;
  const spansV = field.countV - 3;
  let t = 0;
  let low = -farthest;
  let high = farthest;
  for (let round = 0; ; round++) {
    const s = (ray.u + t * du - field.u0) / knotStepMm;
    const r = (ray.v + t * dv - field.v0) / knotStepMm;
    const inS = Math.max(0, Math.min(spansU, s));
    const inR = Math.max(0, Math.min(spansV, r));
    jetInto(field, inS, inR, jet);
    const gap = ray.w + t * dw - jet[0]!;
    const off = Math.abs(gap) / m;
    if (off <= wanted || round === lastRound) return s === inS && r === inR ? { t, error: off + rounding / m } : null;
    const closing = dw - (s === inS ? du * jet[1]! : 0) - (r === inR ? dv * jet[2]! : 0);
    // The gap grows along the line when dw > 0, so where it is positive the place lies behind.
    if (gap > 0 === dw > 0) {
      high = t;
      low = Math.max(low, t - off);
    } else {
      low = t;
      high = Math.min(high, t + off);
    }
    const next = t - gap / closing;
    t = round < newtonRounds && next >= low && next <= high ? next : low + (high - low) / 2;
  }
}

/**
 * The highest that a field stands over a straight way: the largest of S(u(t), v(t)) - w(t) for t in [0, 1]. Not above zero:
 * the way is free.
 *
 * @param p - where the way begins, mm
 * @param q - where it ends; may be p
 * @returns mm: value at t, and bound, value <= true maximum <= bound <= value + 0.001
 * @throws {RangeError} if an end lies outside the closed domain, or a coordinate is not within 2^20 mm of zero
 */
export function highestOverSegment(
  field: HeightField,
  p: FieldPoint,
  q: FieldPoint,
): { value: number; bound: number; t: number } {
  checkEnds(field, p, q);
  searchSegment(field, p, q);
  const { t } = segmentFound;
  const d = domainOf(field);
  const u = Math.max(d.u0, Math.min(d.u1, p.u + t * (q.u - p.u)));
  const v = Math.max(d.v0, Math.min(d.v1, p.v + t * (q.v - p.v)));
  const value = heightAt(field, u, v) - (p.w + t * (q.w - p.w));
  return { value, bound: Math.max(segmentFound.bound, value), t };
}

/** Lines that close in on the sheet more slowly than this are held to graze it. */
const leastClosing = 1e-6;
/** Good enough, mm. */
const wanted = 1e-7;
/** More than all rounding in a gap: coordinates are limited, so t of a hit is below 4e6 mm. */
const rounding = 4e-9;
const coordinateLimit = 1_048_576;
const unitWithin = 1e-9;
const farthest = 1e15;
/** After these the bracket is halved. */
const newtonRounds = 8;
const lastRound = 80;
const jet = new Float64Array(3);

function checkRay(ray: Ray): void {
  const { du, dv, dw } = ray;
  checkPlace('ray', ray);
  const length = Math.sqrt(du * du + dv * dv + dw * dw);
  if (!(Math.abs(length - 1) <= unitWithin)) {
    throw new RangeError(`ray: direction must have length 1 within ${unitWithin}, got ${length}`);
  }
}

function checkPlace(name: string, p: FieldPoint): void {
  const { u, v, w } = p;
  if (!(Math.abs(u) <= coordinateLimit && Math.abs(v) <= coordinateLimit && Math.abs(w) <= coordinateLimit)) {
    throw new RangeError(`${name}: place must lie within ${coordinateLimit} mm of zero, got (${u}, ${v}, ${w})`);
  }
}

function checkEnds(field: HeightField, p: FieldPoint, q: FieldPoint): void {
  checkPlace('segment', p);
  checkPlace('segment', q);
  const d = domainOf(field);
  for (const { u, v } of [p, q]) {
    if (!(u >= d.u0 && u <= d.u1 && v >= d.v0 && v <= d.v1)) {
      throw new RangeError(`segment: end (${u}, ${v}) mm must lie in [${d.u0}, ${d.u1}] x [${d.v0}, ${d.v1}]`);
    }
  }
}
