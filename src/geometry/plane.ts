/**
 * Planes in the room and small turns.
 *
 * Frame: right-handed room coordinates in mm, x right along the face line, y into the recess, z up. A plane is all
 * points p with n . p = c, n of unit length; distances are positive on the side that n points to.
 */

export interface Plane {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** mm */
  readonly c: number;
}

/** A place in the room, mm. */
export interface Point {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** A direction in plan. */
export interface PlanDirection {
  readonly x: number;
  readonly y: number;
}

/** Distance of a point from a plane, mm, + on the side that the normal points to. */
export function signedDistance(plane: Plane, p: Point): number {
  return plane.nx * p.x + plane.ny * p.y + plane.nz * p.z - plane.c;
}

/**
 * Where a line meets a plane.
 *
 * @param origin - mm
 * @param direction - any length but zero; the answer is in its units
 * @returns t with origin + t * direction on the plane, < 0 behind the origin; `null` if the line runs along the plane,
 *   or so nearly that the place lies more than 1e12 lengths of `direction` away
 */
export function rayMeetsPlane(plane: Plane, origin: Point, direction: Point): number | null {
  const away = 0 - signedDistance(plane, origin);
  const closing = plane.nx * direction.x + plane.ny * direction.y + plane.nz * direction.z;
  if (Math.abs(closing) * farthest <= Math.abs(away) || closing === 0) return null;
  return away / closing;
}

/**
 * The step from plane a to plane b through a point: go from the point square to `a`, and see how much further b is than a.
 * For parallel planes that is their distance everywhere; for planes that are nearly so, it holds at this point.
 *
 * @param at - mm
 * @returns mm, + when b lies on the side that a's normal points to
 * @throws {RangeError} if b runs along a's normal
 */
export function parallelStep(a: Plane, b: Plane, at: Point): number {
  const toB = rayMeetsPlane(b, at, { x: a.nx, y: a.ny, z: a.nz });
  if (toB === null) throw new RangeError('parallel step: the planes stand square to each other');
  return toB + signedDistance(a, at);
}

/**
 * A direction turned by a Cayley rotation: cos = (1 - t²)/(1 + t²), sin = 2t/(1 + t²).
 *
 * @param t - tangent of half the angle; > 0 turns anticlockwise seen from above
 * @source A. Cayley, 1846, rational form of a rotation (from memory)
 */
export function turned(direction: PlanDirection, t: number): PlanDirection {
  const d = 1 + t * t;
  return rotated(direction, (1 - t * t) / d, (2 * t) / d);
}

/**
 * A direction turned by the angle whose tangent is `slope`, less than a right angle.
 *
 * @param slope - plain ratio; > 0 turns anticlockwise seen from above
 */
export function turnedBySlope(direction: PlanDirection, slope: number): PlanDirection {
  const d = Math.sqrt(1 + slope * slope);
  return rotated(direction, 1 / d, slope / d);
}

const farthest = 1e12;

function rotated(direction: PlanDirection, cos: number, sin: number): PlanDirection {
  return { x: direction.x * cos - direction.y * sin, y: direction.x * sin + direction.y * cos };
}
