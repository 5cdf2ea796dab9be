/**
 * The site as the finished work meets it: the hidden surfaces with the trims that stay.
 *
 * Every question is a greatest obstruction over a rectangle; `trueOf` turns it into a room coordinate.
 */
import type { Brief } from '../exercise/brief.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { type Extreme, type Rect, rangeMax, rangeMin } from '../geometry/range.ts';
import { highestOver } from '../recess/band.ts';
import { type Place, placeAt, type Recess } from '../recess/recess.ts';
import type { Side, Trim } from '../recess/recess-spec.ts';
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
    recess,
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

/** Gives the greatest obstruction of a side over a rectangle of its own axes, staying trims in place. */
export function highest(site: Site, side: Side, rect: Rect): Extreme {
  return highestOver(site.recess.fields[side], site.staying[side], rect);
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
