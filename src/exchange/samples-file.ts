/**
 * Samples of the hidden room: the true coordinate of each bare surface on a grid, for whoever would check the key.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { heightAt, knotStepMm } from '../geometry/height-field.ts';
import { type Recess, reachOf, trueOf } from '../recess/recess.ts';
import { axesOf, type Side, sides } from '../recess/recess-spec.ts';

/**
 * Samples a room.
 *
 * @param stepMm - a whole number from 1 to 128; grids begin at the surfaces' own first knots
 * @returns `offtrue-samples`, version 1: heights unrounded, one row a v
 * @throws {RangeError} if the step is not such a number
 */
export function samplesOf(recess: Recess, exercise: Exercise, stepMm: number) {
  if (!Number.isInteger(stepMm) || stepMm < 1 || stepMm > knotStepMm)
    throw new RangeError(`samples: step must be a whole number from 1 to ${knotStepMm} mm, got ${stepMm}`);
  const { brief, spec } = exercise;
  return {
    format: 'offtrue-samples',
    version: 1,
    stepMm,
    brief,
    mouthMm: brief.mouthMm,
    surfaces: sides.map((side) => sampledSurface(recess, side, stepMm)),
    trims: spec.trims.map(({ name, surface, uMm, vMm, profile }) => ({
      name,
      surface,
      uMm,
      vMm,
      profile,
      fate: brief.fates[name],
    })),
  } as const;
}

function sampledSurface(recess: Recess, side: Side, stepMm: number) {
  const field = recess.fields[side];
  const reach = reachOf(recess, side);
  const axes = axesOf(side);
  const u = { axis: axes.u, fromMm: reach.u0, count: Math.floor((reach.u1 - reach.u0) / stepMm) + 1 };
  const v = { axis: axes.v, fromMm: reach.v0, count: Math.floor((reach.v1 - reach.v0) / stepMm) + 1 };
  const row = (j: number) =>
    Array.from({ length: u.count }, (_, i) =>
      trueOf(side, heightAt(field, u.fromMm + i * stepMm, v.fromMm + j * stepMm)),
    );
  return {
    name: side,
    side,
    knots: { stepMm: knotStepMm, u0Mm: field.u0, v0Mm: field.v0 },
    u,
    v,
    heightsMm: Array.from({ length: v.count }, (_, j) => row(j)),
  };
}
