/**
 * Files of a room of one's own: read, checked for sense, made into an exercise.
 */
import * as v from 'valibot';
import type { Exercise } from '../exercise/exercise.ts';
import { ownExercise } from '../exercise/own/own-exercise.ts';
import { type OwnRoom, ownRoomSchema } from '../exercise/own/own-room.ts';
import { newerVersion, takeExercise } from './exercise-file.ts';
import { nearestWord } from './nearest-word.ts';
import { type Refusal, refuse, type Taken, takeBySchema, takeJson } from './refusal.ts';

/** Reads the file's text. */
export function readOwnRoom(text: string): Taken<OwnRoom> {
  const json = takeJson(text, 'room');
  return json.ok ? takeOwnRoom(json.value) : json;
}

/** Takes a room as data; a word that is not known is refused with the nearest that is. */
export function takeOwnRoom(data: unknown): Taken<OwnRoom> {
  const newer = newerVersion(data, 'offtrue-room', 'room');
  if (newer) return newer;
  const taken = takeBySchema(ownRoomSchema, data, 'room');
  return taken.ok ? taken : (unknownWord(data) ?? taken);
}

/** Makes the exercise of a room, checked as every exercise file is. */
export function exerciseOfRoom(room: OwnRoom): Taken<Exercise> {
  const made = ownExercise(room);
  if (!made.ok) return refuse(`room, ${made.error.field}: ${made.error.says}`, { field: made.error.field });
  return takeExercise(JSON.parse(JSON.stringify(made.value)), 'room');
}

/** Writes a room as a file's text. */
export function writeOwnRoom(room: OwnRoom): string {
  return `${JSON.stringify(room, null, 2)}\n`;
}

/** Says which word is not known, and the nearest known one; null when the first thing wrong is no such word. */
function unknownWord(data: unknown): Refusal | null {
  const issue = v.safeParse(ownRoomSchema, data, { abortEarly: true }).issues?.[0];
  const path = issue?.path?.map((p) => p.key as string | number) ?? [];
  const last = path.at(-1);
  if (!issue || last === undefined) return null;
  const field = path.join('.');
  if (issue.expected === 'never') {
    const known = fieldsAt(data, path.slice(0, -1));
    return said(`room, ${field}`, String(last), known);
  }
  const got = valueAt(data, path);
  const words = [...(issue.expected ?? '').matchAll(/"([^"]+)"/g)].map((m) => m[1] as string);
  return typeof got === 'string' && words.length > 1 ? said(`room, ${field}`, got, words) : null;
}

function said(where: string, word: string, known: readonly string[]): Refusal | null {
  const nearest = nearestWord(word, known);
  const hint = nearest ? `; the nearest word that is known is ${JSON.stringify(nearest)}` : '';
  return refuse(`${where}: expected one of ${known.join(', ')}, got ${JSON.stringify(word)}${hint}`);
}

function valueAt(data: unknown, path: readonly (string | number)[]): unknown {
  return path.reduce<unknown>((part, name) => (part as Record<string | number, unknown> | undefined)?.[name], data);
}

/** What the parts of a schema are called, as far as one walks through them. */
interface Part {
  readonly type?: string;
  readonly entries?: Readonly<Record<string, Part>>;
  readonly wrapped?: Part;
  readonly item?: Part;
  readonly key?: string;
  readonly options?: readonly (Part | string)[];
  readonly literal?: unknown;
}

/** The fields that the schema knows at a place of the data. */
function fieldsAt(data: unknown, path: readonly (string | number)[]): string[] {
  let part: Part = ownRoomSchema as Part;
  for (const [depth, name] of path.entries()) {
    part = openedUp(part, valueAt(data, path.slice(0, depth)));
    part = (part.item ?? part.entries?.[name] ?? {}) as Part;
  }
  return Object.keys(openedUp(part, valueAt(data, path)).entries ?? {});
}

/** Takes off what is optional, and of several forms takes the one that the data is of. */
function openedUp(part: Part, data: unknown): Part {
  if (part.wrapped) return openedUp(part.wrapped, data);
  if (part.type !== 'variant') return part;
  const word = (data as Record<string, unknown> | undefined)?.[part.key ?? ''];
  const options = part.options as readonly Part[];
  return (
    options.find((o) => {
      const mark = o.entries?.[part.key ?? ''];
      return mark?.literal === word || (mark?.options as readonly unknown[] | undefined)?.includes(word);
    }) ?? {}
  );
}
