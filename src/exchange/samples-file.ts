/**
 * Samples of the hidden room: the true coordinate of each bare surface on a grid, for whoever would check the key.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { heightAt, knotStepMm } from '../geometry/height-field.ts';
import { type Recess, reachOf } from '../recess/recess.ts';
import { axesOf, builtSides, type Side, trueOf } from '../recess/recess-spec.ts';

interface Grid {
  readonly u: { readonly fromMm: number; readonly count: number };
  readonly v: { readonly fromMm: number; readonly count: number };
  readonly stepMm: number;
}

/**
 * Samples a room.
 *
 * @param stepMm - a whole number from 1 to 128; grids begin at the surfaces' own first knots
 * @returns `offtrue-samples`, version 1: heights unrounded, one row a v
 * @throws {RangeError} if the step is not such a number
 */
export function samplesOf(recess: Recess, exercise: Exercise, stepMm: number) {
  const { trims, ...head } = headAndTrims(exercise, stepMm);
  const surfaces = builtSides(exercise.spec).map((side) => {
    const { rows, ...grid } = sampledSurface(recess, side, stepMm);
    return { ...grid, heightsMm: [...rows] };
  });
  return { ...head, surfaces, trims } as const;
}

/**
 * Writes the samples of a room as JSON, a row at a time: on a fine grid they are more than one text can hold.
 *
 * @throws {RangeError} if the step is not a whole number from 1 to 128, before the first piece
 */
export function* writeSamples(recess: Recess, exercise: Exercise, stepMm: number): Generator<string> {
  const { trims, ...head } = headAndTrims(exercise, stepMm);
  yield `${JSON.stringify(head).slice(0, -1)},"surfaces":[`;
  for (const [i, side] of builtSides(exercise.spec).entries()) {
    const { rows, ...grid } = sampledSurface(recess, side, stepMm);
    yield `${i > 0 ? ',' : ''}${JSON.stringify(grid).slice(0, -1)},"heightsMm":[`;
    let first = true;
    for (const row of rows) {
      yield `${first ? '' : ','}${JSON.stringify(row)}`;
      first = false;
    }
    yield ']}';
  }
  yield `],"trims":${JSON.stringify(trims)}}`;
}

function headAndTrims({ brief, spec }: Exercise, stepMm: number) {
  if (!Number.isInteger(stepMm) || stepMm < 1 || stepMm > knotStepMm)
    throw new RangeError(`samples: step must be a whole number from 1 to ${knotStepMm} mm, got ${stepMm}`);
  return {
    format: 'offtrue-samples',
    version: 1,
    stepMm,
    brief,
    mouthMm: brief.mouthMm,
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
  const knots = { stepMm: knotStepMm, u0Mm: field.u0, v0Mm: field.v0 };
  return { name: side, side, knots, u, v, rows: sampledRows(recess, side, { u, v, stepMm }) };
}

function* sampledRows(recess: Recess, side: Side, grid: Grid): Generator<number[]> {
  const field = recess.fields[side];
  const { u, v, stepMm } = grid;
  for (let j = 0; j < v.count; j++)
    yield Array.from({ length: u.count }, (_, i) =>
      trueOf(side, heightAt(field, u.fromMm + i * stepMm, v.fromMm + j * stepMm)),
    );
}
