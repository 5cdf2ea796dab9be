/**
 * Dashes and dots: a path cut into the pieces of a pattern, for a canvas that draws only whole lines.
 */

/** A straight piece, px. */
export type Piece = readonly [x0: number, y0: number, x1: number, y1: number];

/**
 * Cuts a path by a pattern, which runs on round its corners.
 *
 * @param points - x, y, x, y, ...
 * @param pattern - on, off, on, off, ..., px, an even count, all > 0
 * @throws {RangeError} if the pattern is not so
 */
export function dashed(points: readonly number[], pattern: readonly number[]): readonly Piece[] {
  if (pattern.length === 0 || pattern.length % 2 !== 0 || pattern.some((p) => !(p > 0)))
    throw new RangeError(`dash: pattern must be an even count of lengths > 0, got ${pattern.join(' ')}`);
  const pieces: Piece[] = [];
  let at = 0;
  let left = pattern[0] as number;
  for (const [x0, y0, x1, y1] of stretches(points)) {
    const long = length(x0, y0, x1, y1);
    let gone = 0;
    while (long - gone > 1e-9) {
      const go = Math.min(left, long - gone);
      if (at % 2 === 0) {
        const [a, b] = [gone / long, (gone + go) / long];
        pieces.push([x0 + (x1 - x0) * a, y0 + (y1 - y0) * a, x0 + (x1 - x0) * b, y0 + (y1 - y0) * b]);
      }
      gone += go;
      left -= go;
      if (left <= 1e-9) {
        at = (at + 1) % pattern.length;
        left = pattern[at] as number;
      }
    }
  }
  return pieces;
}

/**
 * Puts dots along a path, the first at its beginning.
 *
 * @param apartPx - > 0
 * @returns x, y, x, y, ...
 * @throws {RangeError} if they are not apart
 */
export function dotted(points: readonly number[], apartPx: number): readonly number[] {
  if (!(apartPx > 0)) throw new RangeError(`dots: must be > 0 px apart, got ${apartPx}`);
  const dots: number[] = [];
  let next = 0;
  for (const [x0, y0, x1, y1] of stretches(points)) {
    const long = length(x0, y0, x1, y1);
    for (; next <= long; next += apartPx) {
      const share = long === 0 ? 0 : next / long;
      dots.push(x0 + (x1 - x0) * share, y0 + (y1 - y0) * share);
    }
    next -= long;
  }
  return dots;
}

function stretches(points: readonly number[]): readonly Piece[] {
  const found: Piece[] = [];
  for (let i = 2; i + 1 < points.length; i += 2)
    found.push([points[i - 2]!, points[i - 1]!, points[i]!, points[i + 1]!]);
  return found;
}

function length(x0: number, y0: number, x1: number, y1: number): number {
  return Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
}
