/**
 * The built recess: hidden surfaces, six at the most, and the trims that ride on them.
 *
 * Free space is x >= left, x <= right, y <= back, z >= floor, z <= ceiling and slope, less the bands. Fields hold obstructions
 * (larger is further into the free space); `trueOf` (recess-spec.ts) turns one into a room coordinate.
 */
import { type HeightField, heightAt, type Rect } from '../geometry/height-field.ts';
import { buildFields, misplacedDefect } from './defect-shapes.ts';
import { wrongWithMeasured } from './measured.ts';
import {
  axesOf,
  type Extents,
  extentsOf,
  type RecessSpec,
  type Side,
  sides,
  type Trim,
  trueOf,
} from './recess-spec.ts';

export interface Recess {
  readonly spec: RecessSpec;
  readonly fields: Readonly<Record<Side, HeightField>>;
  readonly extents: Extents;
}

/** A place in the room, mm. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/**
 * Builds the hidden surfaces of a spec.
 *
 * @throws {RangeError} if a defect stands on a side that cannot have it, what was measured is no net of places, or a
 *   band is not a rectangle of its surface
 */
export function buildRecess(spec: RecessSpec): Recess {
  const misplaced = misplacedDefect(spec);
  if (misplaced)
    throw new RangeError(
      `recess: surfaces.${misplaced.side}.defects[${misplaced.index}] cannot stand on the ${misplaced.side}`,
    );
  for (const side of sides) {
    const wrong = wrongWithMeasured(spec.surfaces[side]?.measured);
    if (wrong) throw new RangeError(`recess: surfaces.${side}.measured ${wrong}`);
  }
  for (const trim of spec.trims) checkTrim(trim);
  return { spec, fields: buildFields(spec), extents: extentsOf(spec) };
}

/** Gives the bare surface's place at (u, v) of its own axes, mm. */
export function placeOn(recess: Recess, side: Side, at: { u: number; v: number }): Place {
  return placeAt(side, at, heightAt(recess.fields[side], at.u, at.v));
}

/** Gives the place whose own coordinates are (u, v) and whose obstruction is as told. */
export function placeAt(side: Side, at: { u: number; v: number }, obstruction: number): Place {
  const across = trueOf(side, obstruction);
  if (side === 'left' || side === 'right') return { x: across, y: at.u, z: at.v };
  if (side === 'back') return { x: at.u, y: across, z: at.v };
  return { x: at.u, y: at.v, z: across };
}

/** Gives a place's own coordinates on a side and its obstruction there. */
export function ownCoordinates(side: Side, p: Place): { u: number; v: number; obstruction: number } {
  const axes = axesOf(side);
  return { u: p[axes.u], v: p[axes.v], obstruction: trueOf(side, p[axes.across]) };
}

/** Gives the rectangle of a side's own axes within reach. */
export function reachOf(recess: Pick<Recess, 'extents'>, side: Side): Rect {
  const axes = axesOf(side);
  const [u0, u1] = recess.extents[axes.u];
  const [v0, v1] = recess.extents[axes.v];
  return { u0, u1, v0, v1 };
}

/** Says whether (u, v) lies within reach of a side; the border counts as within. */
export function withinReach(recess: Pick<Recess, 'extents'>, side: Side, at: { u: number; v: number }): boolean {
  const r = reachOf(recess, side);
  return at.u >= r.u0 && at.u <= r.u1 && at.v >= r.v0 && at.v <= r.v1;
}

/** Gives the bands on a side, in the spec's order. */
export function trimsOn(spec: Pick<RecessSpec, 'trims'>, side: Side): readonly Trim[] {
  return spec.trims.filter((t) => t.surface === side);
}

function checkTrim(trim: Trim): void {
  const [u0, u1] = trim.uMm;
  const [v0, v1] = trim.vMm;
  if (u0 > u1 || v0 > v1) throw new RangeError(`recess: trim ${trim.name} must run from a smaller to a larger place`);
  const points = trim.profile.mm;
  const [from, to] = trim.profile.along === 'u' ? trim.uMm : trim.vMm;
  let ascends = points.length > 1 && points[0]?.[0] === from && points[points.length - 1]?.[0] === to;
  for (let i = 1; i < points.length; i++) ascends &&= (points[i]?.[0] as number) > (points[i - 1]?.[0] as number);
  if (!ascends) throw new RangeError(`recess: the profile of trim ${trim.name} must ascend from ${from} to ${to}`);
  if (!sides.includes(trim.surface)) throw new RangeError(`recess: trim ${trim.name} stands on no side`);
}
