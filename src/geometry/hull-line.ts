/**
 * The line under a few points that stands highest at a middle: the edge of their lower hull over it. Of several, the
 * flattest.
 */

export interface HullPoint {
  readonly x: number;
  readonly z: number;
}

export interface HullLine {
  /** Its height at the middle, and its pitch. */
  readonly z: number;
  readonly pitch: number;
  /** Which points it rests on. */
  readonly on: readonly number[];
}

/**
 * Finds the line under points.
 *
 * @returns null where no point lies on one side of the middle: then it can stand as high as one likes
 */
export function lineUnder(points: readonly HullPoint[], middle: number): HullLine | null {
  let best: { z: number; on: [number, number] } | null = null;
  for (const [i, a] of points.entries()) {
    if (a.x >= middle) continue;
    for (const [j, b] of points.entries()) {
      if (b.x <= middle) continue;
      const z = a.z + ((b.z - a.z) * (middle - a.x)) / (b.x - a.x);
      if (best === null || z < best.z) best = { z, on: [i, j] };
    }
  }
  if (!best) return null;
  const at = points.findIndex((p) => p.x === middle && p.z <= (best as { z: number }).z);
  if (at < 0) {
    const [a, b] = best.on.map((k) => points[k] as HullPoint) as [HullPoint, HullPoint];
    return { z: best.z, pitch: (b.z - a.z) / (b.x - a.x), on: best.on };
  }
  return throughMiddle(points, middle, at);
}

/** Through a point at the middle many lines go: the flattest that stays under the others. */
function throughMiddle(points: readonly HullPoint[], middle: number, first: number): HullLine {
  let at = first;
  for (const [k, p] of points.entries()) if (p.x === middle && p.z < (points[at] as HullPoint).z) at = k;
  const { z } = points[at] as HullPoint;
  let least = -Number.MAX_VALUE;
  let most = Number.MAX_VALUE;
  for (const p of points) {
    if (p.x < middle) least = Math.max(least, (z - p.z) / (middle - p.x));
    if (p.x > middle) most = Math.min(most, (p.z - z) / (p.x - middle));
  }
  return { z, pitch: Math.min(Math.max(0, least), most), on: [at] };
}
