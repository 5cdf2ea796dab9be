/**
 * The best straight line through places: least squares, weighed by how sure each is, with how sure the line is.
 */

export interface LinePoint {
  readonly x: number;
  readonly y: number;
  /** Its standard uncertainty; left out, all are alike and the scatter about the line tells it. */
  readonly u?: number;
}

export interface BestLine {
  /** y where x is 0, and the rise for each 1 along. */
  readonly at0: number;
  readonly slope: number;
  readonly uAt0: number;
  readonly uSlope: number;
  readonly covariance: number;
  /** The root of the scatter's square over the degrees of freedom; of places of known uncertainty it should be near 1. */
  readonly scatter: number;
  readonly freedom: number;
}

/**
 * Gives the best line.
 *
 * @returns null where the places tell no direction: fewer than two, or all at one x
 * @source ISO/TS 28037:2010 6 (weighed, uncertainties from those of the places) and JCGM 100:2008 H.3 (from the scatter)
 */
export function bestLine(points: readonly LinePoint[]): BestLine | null {
  const weight = (p: LinePoint) => (p.u === undefined ? 1 : 1 / (p.u * p.u));
  const weights = points.reduce((sum, p) => sum + weight(p), 0);
  const mean = (of: (p: LinePoint) => number) => points.reduce((sum, p) => sum + weight(p) * of(p), 0) / weights;
  const [x0, y0] = [mean((p) => p.x), mean((p) => p.y)];
  const spread = points.reduce((sum, p) => sum + weight(p) * (p.x - x0) * (p.x - x0), 0);
  if (points.length < 2 || !(spread > 0)) return null;
  const slope = points.reduce((sum, p) => sum + weight(p) * (p.x - x0) * (p.y - y0), 0) / spread;
  const off = (p: LinePoint) => p.y - y0 - slope * (p.x - x0);
  const freedom = points.length - 2;
  const square = points.reduce((sum, p) => sum + weight(p) * off(p) * off(p), 0);
  const scatter = Math.sqrt(square / Math.max(1, freedom));
  const known = points.every((p) => p.u !== undefined);
  const s2 = known ? 1 : scatter * scatter;
  return {
    at0: y0 - slope * x0,
    slope,
    uAt0: Math.sqrt(s2 * (1 / weights + (x0 * x0) / spread)),
    uSlope: Math.sqrt(s2 / spread),
    covariance: (0 - s2 * x0) / spread,
    scatter,
    freedom,
  };
}

/** Gives y of a line at an x, and how sure it is. */
export function alongLine(line: BestLine, x: number): { y: number; u: number } {
  const square = line.uAt0 * line.uAt0 + x * x * line.uSlope * line.uSlope + 2 * x * line.covariance;
  return { y: line.at0 + line.slope * x, u: Math.sqrt(Math.max(0, square)) };
}
