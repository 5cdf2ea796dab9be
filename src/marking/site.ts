/**
 * The site as the finished work meets it: the hidden surfaces with the trims that stay.
 *
 * Every question is a greatest obstruction over a rectangle; `trueOf` turns it into a room coordinate. A finish to come is
 * on the surfaces here, which it was not when they were surveyed.
 */
import { type Brief, finishOn } from '../exercise/brief.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { type HeightField, heightField, unitsPerMm } from '../geometry/height-field.ts';
import { type Extreme, type Rect, rangeMax, rangeMin } from '../geometry/range.ts';
import { highestOver } from '../recess/band.ts';
import { type Place, placeAt, type Recess } from '../recess/recess.ts';
import { isOpen, type Side, type Trim } from '../recess/recess-spec.ts';
import { trimsStaying } from '../survey/world.ts';

export interface Site {
  readonly recess: Recess;
  readonly brief: Brief;
  readonly staying: Readonly<Record<Side, readonly Trim[]>>;
}

/** A stretch of room coordinates, closed, mm. */
export type Stretch = readonly [number, number];

/** Gives the site of an exercise whose recess is built. */
export function siteOf(recess: Recess, exercise: Exercise): Site {
  const staying = trimsStaying(exercise);
  const on = (side: Side) => staying.filter((t) => t.surface === side);
  return {
    recess: withFinish(recess, exercise.brief),
    brief: exercise.brief,
    staying: {
      left: on('left'),
      right: on('right'),
      back: on('back'),
      floor: on('floor'),
      ceiling: on('ceiling'),
      slope: on('slope'),
    },
  };
}

/** Gives a recess with the finish to come on its surfaces: each comes forward by a whole number of 1/1024 mm. */
function withFinish(recess: Recess, brief: Brief): Recess {
  if (brief.finishMm.length === 0) return recess;
  const raised = (side: Side): HeightField => {
    const field = recess.fields[side];
    const units = Math.round(finishOn(brief, side) * unitsPerMm);
    if (units === 0 || isOpen(recess.spec, side)) return field;
    return heightField({ ...field, control: field.control.map((c) => c + units) });
  };
  const fields: Recess['fields'] = {
    left: raised('left'),
    right: raised('right'),
    back: raised('back'),
    floor: raised('floor'),
    ceiling: raised('ceiling'),
    slope: raised('slope'),
  };
  return { ...recess, fields };
}

/** Gives the greatest obstruction of a side over a rectangle of its own axes, staying trims in place. */
export function highest(site: Site, side: Side, rect: Rect): Extreme {
  return highestOver(site.recess.fields[side], site.staying[side], rect);
}

/** Gives the sides that may be over a carcass: ceiling and slope, where they are there. */
export function overheadSides(site: Site): readonly Side[] {
  const built = (['ceiling', 'slope'] as const).filter((side) => !isOpen(site.recess.spec, side));
  return built.length > 0 ? built : ['ceiling'];
}

/** Gives the greatest obstruction of the bare surface. */
export function bareHighest(site: Site, side: Side, rect: Rect): Extreme {
  return rangeMax(site.recess.fields[side], rect);
}

/** Gives the least obstruction of the bare surface: its deepest hollow. */
export function bareLowest(site: Site, side: Side, rect: Rect): Extreme {
  return rangeMin(site.recess.fields[side], rect);
}

/** Gives where in the room an extreme is taken. */
export function placeOf(side: Side, extreme: Extreme): Place {
  return placeAt(side, extreme, extreme.value);
}

/** Says whether a stretch along an axis lies within reach. */
export function reaches(site: Site, axis: 'x' | 'y' | 'z', stretch: Stretch): boolean {
  const [from, to] = site.recess.extents[axis];
  return stretch[0] >= from && stretch[1] <= to;
}

/** Gives the highest point of the floor that the carcass stands over: |x| <= half the opening, from the mouth to its back. */
export function floorHighPoint(site: Site, backMm: number): Extreme {
  const half = site.brief.openingMm.width / 2;
  return bareHighest(site, 'floor', { u0: -half, u1: half, v0: site.brief.mouthMm, v1: backMm });
}
