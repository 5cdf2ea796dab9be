/**
 * The ground of a planted survey: an alcove and an exercise in which nothing goes wrong unless it is planted.
 *
 * The rule, the hand and the pencil are without error; what could only be cut comes off instead, so that everything that
 * counts can be read. For each size the places read are where it is tightest, and some others that count for it. A size
 * whose tightest place cannot be read (behind a skirting, along a floor that rises) is not asked for.
 */
import type { Brief } from '../../../src/exercise/brief.ts';
import type { Exercise } from '../../../src/exercise/exercise.ts';
import { openCode } from '../../../src/exercise/exercise-code.ts';
import type { Point } from '../../../src/geometry/plane.ts';
import { buildRecess } from '../../../src/recess/recess.ts';
import type { Side } from '../../../src/recess/recess-spec.ts';
import type { Draws } from '../draws.ts';
import { clearAll, type Hand, saidPlace, standSquare, takeHand } from './hand.ts';
import {
  type OwnPlace,
  offsetAt,
  type Patches,
  type PlainRoom,
  type PlainSize,
  placesOf,
  plainSizes,
  pointAt,
  takes,
  tightest,
} from './plain-room.ts';

/** A place that is read for a size. */
export interface Term extends OwnPlace {
  readonly size: PlainSize;
  /** True, from x = 0, y = 0 or z = 0. */
  readonly offset: number;
  readonly point: Point;
}

export interface Ground {
  readonly code: string;
  readonly room: PlainRoom;
  readonly exercise: Exercise;
  readonly places: Readonly<Record<PlainSize, Patches>>;
  /** Where the level stands: on the face line. */
  readonly stand: Point;
  /** The sizes that are asked for. */
  readonly sizes: readonly PlainSize[];
  readonly terms: readonly Term[];
}

/** Which datum a size is read from. */
export function datumOf(size: PlainSize): 'F' | 'S' | 'L' {
  return size === 'carcass-depth' ? 'F' : size.endsWith('width') ? 'S' : 'L';
}

export function isBare(size: PlainSize): boolean {
  return size.startsWith('frame');
}

/** The right rule in plain arithmetic, over the values of terms: least or most of each side, added up. */
export function ruled<T extends { side: Side }>(
  size: PlainSize,
  terms: readonly T[],
  value: (term: T) => number,
): number {
  const { sides, least } = takes[size];
  return sides.reduce((sum, side) => {
    const values = terms.filter((t) => t.side === side).map(value);
    return sum + (least ? Math.min(...values) : Math.max(...values));
  }, 0);
}

/** What lies between a size that is made and its offsets, by the brief: offsets = made + this. */
export function overMade(brief: Brief, size: PlainSize): number {
  const { askMm } = brief;
  if (size === 'carcass-width') return askMm.left + askMm.right;
  if (size === 'carcass-height') return askMm.top + brief.plinthMm;
  if (size === 'carcass-depth') return askMm.back + brief.carcassFrontMm;
  return -2 * (brief.frame?.leastStockMm ?? 0);
}

/** Lays out the ground of a code. */
export function groundOf(draws: Draws, code: string): Ground {
  const exercise = exactExercise(code);
  const room = { exercise, recess: buildRecess(exercise.spec) };
  const places = placesOf(room);
  const { height } = exercise.brief.openingMm;
  const stand = { x: draws.between(-80, 80), y: 0, z: height * draws.between(0.35, 0.55) };
  const hand = takeHand(exercise);
  clearAll(hand);
  standSquare(hand, stand);
  const found = plainSizes.flatMap((size) => termsOf(draws, { room, places, hand }, size) ?? []);
  const has = (size: PlainSize) => found.some((t) => t.size === size);
  const framed = has('frame-width') && has('frame-height');
  const sizes = plainSizes.filter((size) => (isBare(size) ? framed : has(size)));
  const asked = askedFor(exercise, sizes);
  return {
    code,
    room: { ...room, exercise: asked },
    exercise: asked,
    places,
    stand,
    sizes,
    terms: found.filter((t) => sizes.includes(t.size)),
  };
}

/** A term at a place: its true offset and point. */
export function termAt(room: PlainRoom, size: PlainSize, at: OwnPlace): Term {
  const offset = offsetAt(room, at, isBare(size));
  return { size, side: at.side, u: at.u, v: at.v, offset, point: pointAt(at, offset) };
}

/** A random place of some patches. */
export function anyPlace(draws: Draws, side: Side, patches: Patches): OwnPlace {
  const { u, v } = draws.one(patches[side] ?? []);
  return { side, u: draws.between(u[0], u[1]), v: draws.between(v[0], v[1]) };
}

export function canRead(hand: Hand, size: PlainSize, at: OwnPlace): boolean {
  return hand.couldAct({ act: 'read', datum: datumOf(size), place: saidPlace(hand.world, at) });
}

/** Says whether two places of a side lie further apart than a hand may be off, along u or along v. */
export function apart(a: OwnPlace, b: OwnPlace): boolean {
  return a.side !== b.side || Math.abs(a.u - b.u) > apartMm || Math.abs(a.v - b.v) > apartMm;
}

const apartMm = 26;
const othersASide = 3;

function exactExercise(code: string): Exercise {
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const { brief, kit } = opened.value;
  const fates = Object.entries(brief.fates).map(([name, fate]) => [name, fate === 'stays' ? 'stays' : 'off'] as const);
  return {
    ...opened.value,
    code: null,
    kit: { ...kit, rule: { ...kit.rule, errors: false } },
    brief: { ...brief, fates: Object.fromEntries(fates) },
  };
}

/** The tightest places of a size and some others; null where a tightest one cannot be read. */
function termsOf(
  draws: Draws,
  from: { room: PlainRoom; places: Ground['places']; hand: Hand },
  size: PlainSize,
): Term[] | null {
  const { room, hand } = from;
  const { sides, least } = takes[size];
  const terms: Term[] = [];
  for (const side of sides) {
    const patches = from.places[size];
    const place = tightest(room, { side, patches: patches[side] ?? [], bare: isBare(size), least });
    if (!canRead(hand, size, place)) return null;
    terms.push(termAt(room, size, place));
  }
  for (const side of sides)
    for (let i = 0; i < othersASide; i++) {
      const place = anyPlace(draws, side, from.places[size]);
      if (terms.every((t) => apart(t, place)) && canRead(hand, size, place)) terms.push(termAt(room, size, place));
    }
  return terms;
}

function askedFor(exercise: Exercise, sizes: readonly PlainSize[]): Exercise {
  const { brief } = exercise;
  const size = (name: 'width' | 'height' | 'depth') => ({
    nominalMm: brief.carcassMm[name].nominalMm,
    find: sizes.includes(`carcass-${name}`),
  });
  return {
    ...exercise,
    brief: {
      ...brief,
      carcassMm: { width: size('width'), height: size('height'), depth: size('depth') },
      frame: sizes.includes('frame-width') ? brief.frame : null,
    },
  };
}
