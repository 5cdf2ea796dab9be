/**
 * The line under a set of places that stands highest at their middle: it rests on one place on either side of it.
 *
 * With the pitch s the line can stand at the middle as high as the least of z - s right over all places: concave in s. Every
 * place that decides for one pitch bounds all pitches, so the crossing of the two latest bounds, one from either side, is tried
 * next, until the height found is near enough to what they allow. Of several pitches that stand as high, the flattest.
 */

/** A pitch tried: how high the line can stand at the middle, and the place that it rests on. */
export interface Rest {
  readonly pitch: number;
  /** Proved to be under all places, mm. */
  readonly heightMm: number;
  /** The place: how far right of the middle, and its height, mm. */
  readonly right: number;
  readonly z: number;
}

export interface RestingLine<R extends Rest> {
  readonly best: R;
  /** The place on the other side of the middle; null where one at the middle decides alone. */
  readonly other: R | null;
  /** No line under all places stands higher at the middle than this. */
  readonly boundMm: number;
}

/** How near the height is brought to its bound, mm. */
export const restWithinMm = 0.001;

/**
 * Finds the line.
 *
 * @param rest - for a pitch, what decides there
 * @param start - the pitch to begin with
 * @returns `boundMm - best.heightMm` is at most 0.001 mm, 0.002 where the flattest of several is taken
 */
export function restingLine<R extends Rest>(rest: (pitch: number) => R, start: number): RestingLine<R> {
  const found = steepened(rest, start);
  return flattened(rest, found);
}

/** More pitches than any surface needs; past it the bound is left as it is. */
const mostTried = 200;

function steepened<R extends Rest>(rest: (pitch: number) => R, start: number): RestingLine<R> {
  let left: R | null = null;
  let right: R | null = null;
  let last = rest(start);
  let best = last;
  let boundMm = last.z;
  for (let tried = 1, step = 0.05; tried < mostTried; tried++, step *= 2) {
    // A place left of the middle lets a steeper line stand higher there, one right of it a flatter line.
    if (last.right === 0) return { best: last, other: null, boundMm: last.z };
    if (last.right < 0) left = last;
    else right = last;
    let pitch = last.pitch + (last.right < 0 ? step : 0 - step);
    if (left && right) {
      pitch = (left.z - right.z) / (left.right - right.right);
      boundMm = left.z - pitch * left.right;
      if (boundMm - best.heightMm <= restWithinMm) break;
    }
    last = rest(pitch);
    if (last.heightMm > best.heightMm) best = last;
  }
  return { best, other: best.right < 0 ? right : left, boundMm };
}

function flattened<R extends Rest>(rest: (pitch: number) => R, found: RestingLine<R>): RestingLine<R> {
  const { best, boundMm } = found;
  const asHigh = (pitch: number) => rest(pitch).heightMm >= boundMm - 2 * restWithinMm;
  const first = best.pitch > 0 ? Math.max(0, best.pitch - 0.001) : Math.min(0, best.pitch + 0.001);
  if (best.pitch === 0 || !asHigh(first)) return found;
  let high = first;
  let low = 0;
  if (asHigh(low)) high = low;
  while (Math.abs(high - low) > 1e-6) {
    const middle = (high + low) / 2;
    if (asHigh(middle)) high = middle;
    else low = middle;
  }
  return { best: rest(high), other: null, boundMm };
}
