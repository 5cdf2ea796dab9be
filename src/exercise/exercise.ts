/**
 * An exercise: a recess, a brief, a kit, the aids allowed, and what earns points.
 *
 * An exercise code stands for all of it; what a code cannot carry is an exercise file, the same data written out.
 */
import * as v from 'valibot';
import { recessSpecSchema } from '../recess/recess-spec.ts';
import { briefSchema } from './brief.ts';
import { headingsSchema } from './headings.ts';
import { aidsSchema, kitSchema } from './kit.ts';

/** What a carcass and its frame may be asked for. */
export const findSchema = v.pipe(v.array(v.picklist(['width', 'height', 'depth', 'frame'])), v.minLength(1));
export type Find = readonly v.InferOutput<typeof findSchema>[number][];

export const exerciseSchema = v.strictObject({
  format: v.literal('offtrue-exercise'),
  version: v.literal(1),
  /** The code that stands for it; null where none does. */
  code: v.nullable(v.string()),
  /** What is to be found, where that is less than the code's own brief asks; null: all of it. */
  find: v.nullable(findSchema),
  assessed: v.boolean(),
  spec: recessSpecSchema,
  brief: briefSchema,
  kit: kitSchema,
  aids: aidsSchema,
  headings: headingsSchema,
});

export type Exercise = Readonly<v.InferOutput<typeof exerciseSchema>>;

/** Narrows an exercise to what is to be found: other sizes are made as they stand, the frame is left out unless named. */
export function narrowed(exercise: Exercise, find: Find): Exercise {
  const { brief } = exercise;
  const size = (name: 'width' | 'height' | 'depth') => ({ ...brief.carcassMm[name], find: find.includes(name) });
  const carcassMm = { width: size('width'), height: size('height'), depth: size('depth') };
  const frame = find.includes('frame') ? brief.frame : null;
  return { ...exercise, find: [...find], brief: { ...brief, carcassMm, frame } };
}
