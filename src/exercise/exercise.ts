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

export const exerciseSchema = v.strictObject({
  format: v.literal('offtrue-exercise'),
  version: v.literal(1),
  /** The code that stands for it; null where none does. */
  code: v.nullable(v.string()),
  assessed: v.boolean(),
  spec: recessSpecSchema,
  brief: briefSchema,
  kit: kitSchema,
  aids: aidsSchema,
  headings: headingsSchema,
});

export type Exercise = Readonly<v.InferOutput<typeof exerciseSchema>>;
