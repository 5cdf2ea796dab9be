/**
 * Plan polygons: what stands in the way of a line of sight, and where a level may stand.
 *
 * Frame: x right, y into the recess, mm. A polygon is a ring of at least three corners, either way round, not closed by a
 * repeated corner and not crossing itself. Its inside is open; its border is a thing of its own, and each function says what it does there.
 */

export interface PlanPoint {
  readonly x: number;
  readonly y: number;
}

export type Polygon = readonly PlanPoint[];

/**
 * Whether a point lies in the closed polygon: the border counts as in.
 *
 * @source crossing number, any textbook on computational geometry (from memory)
 */
export function contains(polygon: Polygon, point: PlanPoint): boolean {
  checkCorners(polygon);
  return sideOf(polygon, point) >= 0;
}

/**
 * Whether the closed segment from a to b enters the polygon's open inside. Running along the border, or touching it from
 * without, does not count; a segment that is a single point counts when that point is inside.
 */
export function segmentMeets(polygon: Polygon, a: PlanPoint, b: PlanPoint): boolean {
  checkCorners(polygon);
  const stops = [0, 1];
  for (let k = 0; k < polygon.length; k++) addCrossing(stops, a, b, edgeAt(polygon, k));
  stops.sort((s, t) => s - t);
  // Between two neighbouring stops the segment is all inside, all outside or all on the border.
  for (let k = 1; k < stops.length; k++) {
    if (sideOf(polygon, along(a, b, (stops[k - 1]! + stops[k]!) / 2)) > 0) return true;
  }
  return false;
}

/** Area in mm², >= 0 whichever way round the corners are listed. */
export function area(polygon: Polygon): number {
  checkCorners(polygon);
  const first = polygon[0]!;
  let twice = 0;
  for (let k = 0; k < polygon.length; k++) {
    const { p, q } = edgeAt(polygon, k);
    twice += cross(p, q, first);
  }
  return Math.abs(twice) / 2;
}

interface Edge {
  readonly p: PlanPoint;
  readonly q: PlanPoint;
}

/** Nearer than this to an edge is on it, mm: far below anything that is measured, far above rounding. */
const borderMm = 1e-6;

function checkCorners(polygon: Polygon): void {
  if (polygon.length < 3) throw new RangeError(`polygon: needs at least 3 corners, got ${polygon.length}`);
}

function edgeAt(polygon: Polygon, k: number): Edge {
  return { p: polygon[k]!, q: polygon[(k + 1) % polygon.length]! };
}

/** 1 inside, 0 on the border, -1 outside. */
function sideOf(polygon: Polygon, point: PlanPoint): -1 | 0 | 1 {
  let inside = false;
  for (let k = 0; k < polygon.length; k++) {
    const { p, q } = edgeAt(polygon, k);
    if (distance(point, p, q) <= borderMm) return 0;
    if (p.y > point.y !== q.y > point.y && cross(p, q, point) > 0 === q.y > p.y) inside = !inside;
  }
  return inside ? 1 : -1;
}

/** Twice the signed area of p, q, r: > 0 when they turn anticlockwise. */
function cross(p: PlanPoint, q: PlanPoint, r: PlanPoint): number {
  return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
}

/** From a point to the closed segment pq, mm. */
function distance(point: PlanPoint, p: PlanPoint, q: PlanPoint): number {
  const dx = q.x - p.x;
  const dy = q.y - p.y;
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.max(0, Math.min(1, ((point.x - p.x) * dx + (point.y - p.y) * dy) / long));
  const ex = p.x + t * dx - point.x;
  const ey = p.y + t * dy - point.y;
  return Math.sqrt(ex * ex + ey * ey);
}

function along(a: PlanPoint, b: PlanPoint, t: number): PlanPoint {
  return { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) };
}

/** Adds where the segment ab crosses an edge's line, as a share of ab in (0, 1); its corners are crossed there too. */
function addCrossing(stops: number[], a: PlanPoint, b: PlanPoint, edge: Edge): void {
  const atA = cross(edge.p, edge.q, a);
  const atB = cross(edge.p, edge.q, b);
  const t = atA === atB ? 0 : atA / (atA - atB);
  if (t > 0 && t < 1) stops.push(t);
}
