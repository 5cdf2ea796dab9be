/**
 * The certified maximum of a height field over the part of a rectangle that lies on and under a straight line.
 *
 * Under the line's lower end the part is a rectangle. Above that it is a triangle, which is bound from its own rectangle: on
 * and under the line, `line - v` is never negative, so any share of it that is >= 0 can be added and what comes out is still
 * a bound (a Lagrange multiplier). With the field's own slope across the line as the share, the bound is off by second
 * order only; triangles are halved, the highest bound first, until it is near enough to a value found.
 */
import { type HeightField, heightAt, type Rect, slopesAt } from './height-field.ts';
import { type Extreme, type Linear, rangeMax } from './range.ts';

/** The line v = at + perU * u; `at` in mm. */
export interface UpperLine {
  readonly at: number;
  readonly perU: number;
}

/** More triangles than any field of a room needs; past it the bound is left as it is. */
const mostTriangles = 4000;
const defaultWithin = 0.001;

/**
 * The largest value of the field (plus a linear function) over the places of a closed rectangle on and under a line.
 *
 * @param rect - as for `rangeMax`
 * @returns as `rangeMax`; null where no place of the rectangle lies on or under the line
 * @throws {RangeError} as `rangeMax`
 */
export function rangeMaxUnder(
  field: HeightField,
  rect: Rect,
  asked: { readonly line: UpperLine; readonly plus?: Linear | undefined },
): Extreme | null {
  const { line } = asked;
  const plus = asked.plus ?? level;
  const far = { at: line.at, perU: line.perU, field, plus };
  const whole = stretchOver(rect, line, rect.v1);
  const touched = stretchOver(rect, line, rect.v0);
  if (!touched) return null;
  let best: Extreme | null = whole ? over(far, { ...rect, u0: whole[0], u1: whole[1] }) : null;
  const parts: [number, number][] = whole
    ? [
        [touched[0], whole[0]],
        [whole[1], touched[1]],
      ]
    : [touched];
  for (const [from, to] of parts) {
    if (whole && !(from < to)) continue;
    const ends = [lineAt(line, from), lineAt(line, to)];
    const low = Math.min(Math.max(Math.min(...ends), rect.v0), rect.v1);
    const high = Math.max(low, Math.min(Math.max(...ends), rect.v1));
    best = higher(best, over(far, { u0: from, u1: to, v0: rect.v0, v1: low }));
    if (from < to && high > low) best = overTriangles(far, { u0: from, u1: to, v0: low, v1: high }, best);
  }
  return best;
}

interface Asked extends UpperLine {
  readonly field: HeightField;
  readonly plus: Linear;
}

interface Triangle {
  readonly box: Rect;
  readonly bound: number;
}

const level: Linear = { at: 0, perU: 0, perV: 0 };

/** The stretch of u where a line stands at or over a height; null where it does not. */
function stretchOver(rect: Rect, line: UpperLine, v: number): [number, number] | null {
  const from = lineAt(line, rect.u0);
  const to = lineAt(line, rect.u1);
  if (from >= v && to >= v) return [rect.u0, rect.u1];
  if (from < v && to < v) return null;
  const at = Math.max(rect.u0, Math.min(rect.u1, (v - line.at) / line.perU));
  return from >= v ? [rect.u0, at] : [at, rect.u1];
}

function overTriangles(asked: Asked, first: Rect, before: Extreme): Extreme {
  let best = before;
  let bound = best.bound;
  const open: Triangle[] = [];
  const add = (box: Rect) => {
    const found = boundOf(asked, box);
    if (found.inside.value > best.value) best = found.inside;
    open.push({ box, bound: found.bound });
  };
  add(first);
  for (let made = 1; open.length > 0; made += 2) {
    const top = takeHighest(open);
    if (top.bound <= best.value + defaultWithin || made > mostTriangles) {
      bound = Math.max(bound, top.bound);
      break;
    }
    const { u0, u1, v0, v1 } = top.box;
    const u = (u0 + u1) / 2;
    const v = Math.max(v0, Math.min(v1, lineAt(asked, u)));
    const rising = asked.perU > 0;
    const beneath = over(asked, rising ? { u0: u, u1, v0, v1: v } : { u0, u1: u, v0, v1: v });
    if (beneath.value > best.value) best = beneath;
    bound = Math.max(bound, beneath.bound);
    add({ u0, u1: u, v0: rising ? v0 : v, v1: rising ? v : v1 });
    add({ u0: u, u1, v0: rising ? v : v0, v1: rising ? v1 : v });
  }
  return { ...best, bound: Math.max(bound, best.value) };
}

/** A bound on a triangle, and a value that is taken in it. */
function boundOf(asked: Asked, box: Rect): { bound: number; inside: Extreme } {
  const { field, plus } = asked;
  const middle = (box.u0 + box.u1) / 2;
  const across = slopesAt(field, middle, Math.max(box.v0, Math.min(box.v1, lineAt(asked, middle)))).perV + plus.perV;
  const share = Math.max(0, across);
  const tilted = {
    at: plus.at + share * asked.at,
    perU: plus.perU + share * asked.perU,
    perV: plus.perV - share,
  };
  const found = rangeMax(field, box, { plus: tilted, within: defaultWithin / 4 });
  const { u } = found;
  const v = Math.max(box.v0, Math.min(found.v, lineAt(asked, u)));
  const value = heightAt(field, u, v) + (plus.at + plus.perU * u + plus.perV * v);
  return { bound: found.bound, inside: { value, bound: value, u, v, nodes: found.nodes } };
}

function over(asked: Asked, rect: Rect): Extreme {
  const { field, plus } = asked;
  return plus === level ? rangeMax(field, rect) : rangeMax(field, rect, { plus });
}

function takeHighest(open: Triangle[]): Triangle {
  let at = 0;
  for (let k = 1; k < open.length; k++) if (open[k]!.bound > open[at]!.bound) at = k;
  const [top] = open.splice(at, 1);
  return top!;
}

function higher(a: Extreme | null, b: Extreme): Extreme {
  if (!a) return b;
  const top = b.value > a.value ? b : a;
  return { ...top, bound: Math.max(a.bound, b.bound), nodes: a.nodes + b.nodes };
}

function lineAt(line: UpperLine, u: number): number {
  return line.at + line.perU * u;
}
