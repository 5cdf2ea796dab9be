/**
 * Exercise files: what a code cannot carry, written out.
 */
import * as v from 'valibot';
import { type Exercise, exerciseSchema, type Find, findSchema, narrowed } from '../exercise/exercise.ts';
import { openCode } from '../exercise/exercise-code.ts';
import { domainSource } from '../marking/domain.ts';
import { siteOf } from '../marking/site.ts';
import { crossingIn, sayNoSpace } from '../recess/free-space.ts';
import { buildRecess } from '../recess/recess.ts';
import { extentsOf } from '../recess/recess-spec.ts';
import { firstDifference } from './first-difference.ts';
import { type Refusal, refuse, type Taken, takeBySchema, takeJson } from './refusal.ts';

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
  if (!taken.ok) return taken;
  return ofItsCode(taken.value, where) ?? agreeing(taken.value, where);
}

/** Writes an exercise as a file's text. */
export function writeExerciseFile(exercise: Exercise): string {
  return `${JSON.stringify(exercise, null, 2)}\n`;
}

/** What takes a file of another format. */
const takers: Readonly<Record<string, string>> = {
  'offtrue-room': 'it is a room of your own: `offtrue own FILE --out exercise.json` makes an exercise of it',
  'offtrue-exercise': 'it is an exercise already: give it in place of a code',
  'offtrue-log': 'it is a field log: `offtrue mark FILE` takes it',
};

/** Refuses a file of another format or a newer version, in words; null when it is of this version. */
export function newerVersion(data: unknown, format: string, where: string): Refusal | null {
  const head = (typeof data === 'object' && data !== null ? data : {}) as { format?: unknown; version?: unknown };
  if (head.format !== format) {
    const hint = Object.hasOwn(takers, String(head.format)) ? takers[String(head.format)] : undefined;
    const got =
      head.format === undefined ? 'none: it does not say what kind of file it is' : JSON.stringify(head.format);
    return refuse(`${where}, format: expected "${format}", got ${got}${hint ? `; ${hint}` : ''}`);
  }
  if (typeof head.version === 'number' && head.version > 1)
    return refuse(`${where}: it was written by a newer program (version ${head.version}); this one reads version 1`);
  return null;
}

/**
 * Refuses an exercise that names a code and is not what the code stands for: its logs would name the code alone, and so
 * be marked against another room or brief.
 */
function ofItsCode(exercise: Exercise, where: string): Refusal | null {
  if (exercise.code === null) return null;
  const whole = openCode(exercise.code);
  if (!whole.ok) return refuse(`${where}, code: ${whole.error.says}`);
  const named = exercise.find === null ? whole.value : narrowed(whole.value, exercise.find);
  const differs = firstDifference(named, exercise, '');
  if (!differs) return null;
  const { field, of, and } = differs;
  return refuse(
    `${where}, ${field}: expected ${JSON.stringify(of) ?? 'none'} as its code has it, or code null, got ${JSON.stringify(and) ?? 'none'}`,
  );
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
  const { y, z } = extentsOf(spec);
  const { heightMm, wavesMm } = spec.reference;
  if (heightMm < z[0] || heightMm > z[1])
    return refuse(`${where}, spec.reference.heightMm: expected ${z[0]} to ${z[1]}, got ${heightMm}`);
  const astray = wavesMm.findIndex((wave) => wave < y[0] || wave > y[1]);
  if (astray >= 0)
    return refuse(`${where}, spec.reference.wavesMm.${astray}: expected ${y[0]} to ${y[1]}, got ${wavesMm[astray]}`);
  const fateless = spec.trims.find((t) => brief.fates[t.name] === undefined);
  if (fateless) return refuse(`${where}, brief.fates: expected a fate for ${JSON.stringify(fateless.name)}, got none`);
  const stranger = Object.keys(brief.fates).find((name) => !spec.trims.some((t) => t.name === name));
  if (stranger) return refuse(`${where}, brief.fates: expected trims of the spec, got ${JSON.stringify(stranger)}`);
  try {
    const recess = buildRecess(spec);
    const crossing = crossingIn(recess);
    if (crossing) return refuse(`${where}, spec.surfaces: ${sayNoSpace(crossing)}`);
    domainSource(siteOf(recess, exercise));
  } catch (error) {
    if (error instanceof RangeError) return refuse(`${where}: ${error.message}`);
    throw error;
  }
  return { ok: true, value: exercise };
}
