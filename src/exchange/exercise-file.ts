/**
 * Exercise files: what a code cannot carry, written out.
 */
import * as v from 'valibot';
import { type Exercise, exerciseSchema, type Find, findSchema, narrowed } from '../exercise/exercise.ts';
import { openCode } from '../exercise/exercise-code.ts';
import { domainSource } from '../marking/domain.ts';
import { siteOf } from '../marking/site.ts';
import { buildRecess } from '../recess/recess.ts';
import { refuse, type Taken, takeBySchema, takeJson } from './refusal.ts';

/** A code, narrowed to what is to be found. */
export const narrowedCodeSchema = v.strictObject({ code: v.string(), find: findSchema });

/** What stands for an exercise in a file: its code, its code and what is to be found of it, else all of it. */
export type ExerciseName = string | { readonly code: string; readonly find: Find } | Exercise;

/** Gives what stands for an exercise. */
export function nameOf(exercise: Exercise): ExerciseName {
  const { code, find } = exercise;
  if (code === null) return exercise;
  return find === null ? code : { code, find };
}

/** Reads an exercise file's text. */
export function readExerciseFile(text: string): Taken<Exercise> {
  const json = takeJson(text, 'exercise');
  return json.ok ? takeExercise(json.value, 'exercise') : json;
}

/** Takes an exercise by code or as data, and checks that its parts go together. */
export function takeExercise(data: unknown, where: string): Taken<Exercise> {
  if (typeof data === 'string') {
    const opened = openCode(data);
    return opened.ok ? opened : refuse(`${where}: ${opened.error.says}`);
  }
  const part = v.safeParse(narrowedCodeSchema, data);
  if (part.success) {
    const whole = takeExercise(part.output.code, where);
    return whole.ok ? { ok: true, value: narrowed(whole.value, part.output.find) } : whole;
  }
  const newer = newerVersion(data, 'offtrue-exercise', where);
  if (newer) return newer;
  const taken = takeBySchema(exerciseSchema, data, where);
  return taken.ok ? agreeing(taken.value, where) : taken;
}

/** Writes an exercise as a file's text. */
export function writeExerciseFile(exercise: Exercise): string {
  return `${JSON.stringify(exercise, null, 2)}\n`;
}

/** Refuses a file of another format or a newer version, in words; null when it is of this version. */
export function newerVersion(data: unknown, format: string, where: string): ReturnType<typeof refuse> | null {
  const head = (typeof data === 'object' && data !== null ? data : {}) as { format?: unknown; version?: unknown };
  if (head.format !== format)
    return refuse(`${where}, format: expected "${format}", got ${JSON.stringify(head.format)}`);
  if (typeof head.version === 'number' && head.version > 1)
    return refuse(`${where}: it was written by a newer program (version ${head.version}); this one reads version 1`);
  return null;
}

function agreeing(exercise: Exercise, where: string): Taken<Exercise> {
  const { spec, brief } = exercise;
  for (const name of ['width', 'height', 'depth'] as const)
    if (spec.openingMm[name] !== brief.openingMm[name])
      return refuse(
        `${where}, brief.openingMm.${name}: expected the spec's ${spec.openingMm[name]}, got ${brief.openingMm[name]}`,
      );
  if (spec.mouthMm !== brief.mouthMm)
    return refuse(`${where}, brief.mouthMm: expected the spec's ${spec.mouthMm}, got ${brief.mouthMm}`);
  const fateless = spec.trims.find((t) => brief.fates[t.name] === undefined);
  if (fateless) return refuse(`${where}, brief.fates: expected a fate for ${JSON.stringify(fateless.name)}, got none`);
  const stranger = Object.keys(brief.fates).find((name) => !spec.trims.some((t) => t.name === name));
  if (stranger) return refuse(`${where}, brief.fates: expected trims of the spec, got ${JSON.stringify(stranger)}`);
  try {
    domainSource(siteOf(buildRecess(spec), exercise));
  } catch (error) {
    if (error instanceof RangeError) return refuse(`${where}: ${error.message}`);
    throw error;
  }
  return { ok: true, value: exercise };
}
