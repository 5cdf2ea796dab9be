/**
 * What is allowed for: a level that is used though a check found it out of true has its error, as the learner wrote it
 * down, taken out of every offset from its lines, by where it is reckoned to have stood and what it was seen to be lined up
 * on. It is as good as the estimate and the reckoning are.
 *
 * An upright line that was lined up runs through what it was lined up on; the other stands square to it, and has the error
 * of the square. Where nothing was seen on its line, F was lined up, at the height of the crossing point.
 */
import type { Point } from '../geometry/plane.ts';
import { type ActOf, type DatumKind, datumParts, type SurfacePlace, saidKey } from './act.ts';
import { type ReckonedLevel, reckonedPlace, reckonWhole } from './reckoning.ts';
import type { Survey } from './survey.ts';
import { referenceAt } from './world.ts';

/** A level's errors as they were written down: ratios, signs as its faults have. */
interface Written {
  readonly levelFore: number;
  readonly levelSide: number;
  readonly plumbF: number;
  readonly plumbS: number;
  readonly square: number;
}

const nothing: Written = { levelFore: 0, levelSide: 0, plumbF: 0, plumbS: 0, square: 0 };

/** A line within so much of its own width runs through what it is seen at. */
const onItWidths = 0.5;

/**
 * Gives how far the datum of an offset is reckoned to stand beside where it should, mm: + right of it, behind or above; 0
 * where nothing is allowed for.
 */
export function stoodBeside(
  survey: Survey,
  offset: { readonly n: number; readonly said: ActOf<'book'>; readonly datum: string },
): number {
  const allowed = allowedFor(survey);
  if (allowed.errors.size === 0 || !('surface' in offset.said.place)) return 0;
  const reading = readingOf(survey, offset);
  const { kind, setUp, drawn } = datumParts(offset.datum);
  const level = drawn ? undefined : allowed.levels.get(reading)?.find((l) => l.setUp === setUp);
  const error = level && allowed.errors.get(level.level);
  if (!level || !error) return 0;
  const { openingMm } = survey.world.exercise.brief;
  const place = reckonedPlace({ openingMm, slope: survey.world.exercise.spec.slope }, level, offset.said.place);
  return besideAt(error, { level, kind, place, anchors: anchorsOf(survey, level, allowed.marks) });
}

/** How far a line stands beside where it should at a place, to first order. */
function besideAt(
  error: Written,
  of: { level: ReckonedLevel; kind: DatumKind; place: Point; anchors: Readonly<Record<'F' | 'S', readonly Point[]>> },
): number {
  const { level, kind, place, anchors } = of;
  const right = { x: level.facing.y, y: 0 - level.facing.x };
  const ahead = (p: Point) => (p.x - level.at.x) * level.facing.x + (p.y - level.at.y) * level.facing.y;
  const aside = (p: Point) => (p.x - level.at.x) * right.x + (p.y - level.at.y) * right.y;
  if (kind === 'L') return error.levelFore * ahead(place) + error.levelSide * aside(place);
  const from = mean(anchors[kind]) ?? level.at;
  const lean = (kind === 'F' ? error.plumbF : error.plumbS) * (place.z - from.z);
  const linedUp = anchors.S.length > anchors.F.length ? 'S' : 'F';
  const along = kind === 'F' ? aside : ahead;
  // Turned anticlockwise S goes to the left ahead of the level; F, square to it, the other way about.
  const turn = kind === linedUp ? 0 : 0 - error.square * (along(place) - along(from));
  const n = kind === 'F' ? level.facing : right;
  // A level that faces the room or a side has its own way for behind and right.
  const way = kind === 'F' ? (Math.abs(n.y) >= Math.abs(n.x) ? n.y : n.x) : Math.abs(n.x) >= Math.abs(n.y) ? n.x : n.y;
  return (lean + turn) * Math.sign(way);
}

function mean(points: readonly Point[]): Point | null {
  if (points.length === 0) return null;
  const of = (axis: keyof Point) => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  return { x: of('x'), y: of('y'), z: of('z') };
}

/** What each upright line was seen to run through when the level was last touched. */
function anchorsOf(
  survey: Survey,
  level: ReckonedLevel,
  marks: ReadonlyMap<number, Point>,
): Readonly<Record<'F' | 'S', readonly Point[]>> {
  const of = (kind: 'F' | 'S') =>
    level.seen.flatMap(({ datum, at, offWidths }): Point[] => {
      if (datumParts(datum).kind !== kind || Math.abs(offWidths) > onItWidths) return [];
      const mark = 'mark' in at ? marks.get(at.mark) : undefined;
      if ('mark' in at) return mark ? [mark] : [];
      return [{ ...referenceAt(survey.world, at.referenceXMm), y: 0 - (survey.world.exercise.brief.setBackMm ?? 0) }];
    });
  return { F: of('F'), S: of('S') };
}

interface Allowed {
  /** By the number of the level. */
  readonly errors: ReadonlyMap<number, Written>;
  /** Where the levels were reckoned to stand at each reading. */
  readonly levels: ReadonlyMap<number, readonly ReckonedLevel[]>;
  readonly marks: ReadonlyMap<number, Point>;
}

const none: Allowed = { errors: new Map(), levels: new Map(), marks: new Map() };
/** A survey never changes, and it is asked for every offset of it. */
const known = new WeakMap<Survey['entries'], Allowed>();

function allowedFor(survey: Survey): Allowed {
  const before = known.get(survey.entries);
  if (before) return before;
  const errors = writtenErrors(survey.entries);
  const found = errors.size === 0 ? none : { errors, ...standings(survey) };
  known.set(survey.entries, found);
  return found;
}

function standings(survey: Survey): Pick<Allowed, 'levels' | 'marks'> {
  const levels = new Map<number, readonly ReckonedLevel[]>();
  const { marks } = reckonWhole(survey.world.exercise, survey.entries, ({ n, act }, now) => {
    if (act.act === 'read') levels.set(n, now);
  });
  return { levels, marks };
}

/** The last verdict on each level by each check, since it was swapped, where its error is allowed for. */
function writtenErrors(entries: Survey['entries']): ReadonlyMap<number, Written> {
  const errors = new Map<number, Written>();
  for (const { act, outcome } of entries) {
    if (act.act !== 'check' || act.verdict === undefined || !outcome.ok) continue;
    const level = act.level ?? 1;
    if (outcome.swapped) errors.delete(level);
    else {
      const error = act.allow ? (act.errorMmPerM ?? 0) / 1000 : 0;
      const one = { ...(errors.get(level) ?? nothing), [nameOf(act)]: error };
      if (act.allow || errors.has(level)) errors.set(level, one);
    }
  }
  return errors;
}

function nameOf({ check, of }: ActOf<'check'>): keyof Written {
  if (check === 'level') return of === 'side' ? 'levelSide' : 'levelFore';
  if (check === 'plumb') return of === 'F' ? 'plumbF' : 'plumbS';
  return 'square';
}

/** The reading behind a booking: the one it names, else the last of its place before it. */
function readingOf(survey: Survey, offset: { n: number; said: ActOf<'book'>; datum: string }): number {
  if (offset.said.reading !== undefined) return offset.said.reading;
  const key = saidKey(offset.said.place as SurfacePlace);
  const fits = survey.entries.filter(
    ({ n, act, outcome }) =>
      n < offset.n &&
      outcome.ok &&
      act.act === 'read' &&
      act.datum === offset.datum &&
      'surface' in act.place &&
      saidKey(act.place) === key,
  );
  return fits.at(-1)?.n ?? 0;
}
