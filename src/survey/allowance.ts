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

/** Gives what is allowed for in an offset, mm: it is added to what was booked; 0 where nothing is. */
export function allowedIn(
  survey: Survey,
  offset: { readonly n: number; readonly said: ActOf<'book'>; readonly datum: string },
): number {
  const { said, datum } = offset;
  const allowed = allowedFor(survey);
  if (allowed.errors.size === 0 || !('surface' in said.place) || datumParts(datum).drawn) return 0;
  const n = readingOf(survey, offset);
  const level = allowed.levels.get(n)?.find((l) => l.setUp === datumParts(datum).setUp);
  if (!level) return 0;
  const place = wholePlace(survey, level, said.place);
  const { besideMm, isPast } = besideAt(allowed, { level, n, kind: datumParts(datum).kind, place });
  return isPast ? besideMm : 0 - besideMm;
}

/** Gives what is allowed for in a step that was carried over, mm: it is added to what was booked. */
export function allowedInStep(survey: Survey, said: ActOf<'carry'>): number {
  const allowed = allowedFor(survey);
  if (allowed.errors.size === 0 || said.reading === undefined) return 0;
  const n = said.reading;
  const read = survey.entries.find((e) => e.n === n)?.act;
  const mark = read?.act === 'read' && 'mark' in read.place ? allowed.marks.get(read.place.mark) : undefined;
  if (!mark) return 0;
  const beside = (datum: string) => {
    const { kind, setUp } = datumParts(datum);
    const level = allowed.levels.get(n)?.find((l) => l.setUp === setUp) ?? allowed.last.get(setUp);
    return level ? besideAt(allowed, { level, n: allowed.readings.get(setUp) ?? n, kind, place: mark }).besideMm : 0;
  };
  return beside(said.to) - beside(said.from);
}

/** A place on the straight outline, in the whole room's frame. */
function wholePlace(survey: Survey, level: ReckonedLevel, place: SurfacePlace): Point {
  const { openingMm } = survey.world.exercise.brief;
  const atXMm = survey.whole?.atXMm ?? 0;
  const own = { ...level, at: { ...level.at, x: level.at.x - atXMm } };
  const there = reckonedPlace({ openingMm, slope: survey.world.exercise.spec.slope }, own, place);
  return { ...there, x: there.x + atXMm };
}

/**
 * How far a line stands beside where it should at a place, to first order: + right of it, behind or above; and whether the
 * place lies on that side of the line.
 */
function besideAt(
  allowed: Allowed,
  of: { level: ReckonedLevel; n: number; kind: DatumKind; place: Point },
): { besideMm: number; isPast: boolean } {
  const { level, n, kind, place } = of;
  const error = allowed.errors.get(bodyAt(allowed, level.level, n)) ?? nothing;
  const right = { x: level.facing.y, y: 0 - level.facing.x };
  const ahead = (p: Point) => (p.x - level.at.x) * level.facing.x + (p.y - level.at.y) * level.facing.y;
  const aside = (p: Point) => (p.x - level.at.x) * right.x + (p.y - level.at.y) * right.y;
  if (kind === 'L')
    return {
      besideMm: error.levelFore * ahead(place) + error.levelSide * aside(place),
      isPast: place.z > level.at.z,
    };
  const anchors = allowed.anchors(level);
  const from = mean(anchors[kind]) ?? level.at;
  const lean = (kind === 'F' ? error.plumbF : error.plumbS) * (place.z - from.z);
  const linedUp = anchors.S.length > anchors.F.length ? 'S' : 'F';
  const along = kind === 'F' ? aside : ahead;
  // Turned anticlockwise S goes to the left ahead of the level; F, square to it, the other way about.
  const turn = kind === linedUp ? 0 : 0 - error.square * (along(place) - along(from));
  const normal = kind === 'F' ? level.facing : right;
  // A level that faces the room or a side has its own way for behind and right.
  const way = Math.sign(Math.abs(normal.y) >= Math.abs(normal.x) ? normal.y : normal.x);
  return { besideMm: (lean + turn) * way, isPast: (kind === 'F' ? ahead : aside)(place) * way > 0 };
}

/** Which body a level is, by its number and how often it was swapped before an act. */
function bodyAt({ swaps }: Pick<Allowed, 'swaps'>, level: number, n: number): string {
  return `${level}/${swaps.filter((s) => s.level === level && s.n < n).length}`;
}

function mean(points: readonly Point[]): Point | null {
  if (points.length === 0) return null;
  const of = (axis: keyof Point) => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  return { x: of('x'), y: of('y'), z: of('z') };
}

interface Allowed {
  /** By the body: a level's number, and how often it was swapped. */
  readonly errors: ReadonlyMap<string, Written>;
  readonly swaps: readonly { readonly level: number; readonly n: number }[];
  /** Where the levels were reckoned to stand at each reading. */
  readonly levels: ReadonlyMap<number, readonly ReckonedLevel[]>;
  /** How each set-up's level stood at the last reading beside it, and which that was. */
  readonly last: ReadonlyMap<number, ReckonedLevel>;
  readonly readings: ReadonlyMap<number, number>;
  readonly marks: ReadonlyMap<number, Point>;
  /** What each upright line was seen to run through when the level was last touched. */
  anchors(level: ReckonedLevel): Readonly<Record<'F' | 'S', readonly Point[]>>;
}

/** A survey never changes, and it is asked for every offset of it. Of a pair it is asked of the whole room. */
const known = new WeakMap<Survey['entries'], Allowed>();

function allowedFor(survey: Survey): Allowed {
  const whole = survey.whole?.survey ?? survey;
  const before = known.get(whole.entries);
  if (before) return before;
  const found = gathered(whole);
  known.set(whole.entries, found);
  return found;
}

function gathered(whole: Survey): Allowed {
  const swaps = whole.entries.flatMap(({ n, act, outcome }) =>
    act.act === 'check' && outcome.ok && outcome.swapped ? [{ level: act.level ?? 1, n }] : [],
  );
  const errors = writtenErrors(whole.entries, swaps);
  const levels = new Map<number, readonly ReckonedLevel[]>();
  const last = new Map<number, ReckonedLevel>();
  const readings = new Map<number, number>();
  if (errors.size === 0)
    return { errors, swaps, levels, last, readings, marks: new Map(), anchors: () => ({ F: [], S: [] }) };
  const { marks } = reckonWhole(whole.world.exercise, whole.entries, ({ n, act }, now) => {
    if (act.act !== 'read' && act.act !== 'mark') return;
    levels.set(n, now);
    for (const level of now) {
      last.set(level.setUp, level);
      readings.set(level.setUp, n);
    }
  });
  return { errors, swaps, levels, last, readings, marks, anchors: (level) => anchorsOf(whole, level, marks) };
}

function anchorsOf(
  whole: Survey,
  level: ReckonedLevel,
  marks: ReadonlyMap<number, Point>,
): Readonly<Record<'F' | 'S', readonly Point[]>> {
  const y = 0 - (whole.world.exercise.brief.setBackMm ?? 0);
  const of = (kind: 'F' | 'S') =>
    level.seen.flatMap(({ datum, at, offWidths }): Point[] => {
      if (datumParts(datum).kind !== kind || Math.abs(offWidths) > onItWidths) return [];
      if (!('mark' in at)) return [{ ...referenceAt(whole.world, at.referenceXMm), y }];
      const mark = marks.get(at.mark);
      return mark ? [mark] : [];
    });
  return { F: of('F'), S: of('S') };
}

/** The last verdict on each body by each check, where its error is allowed for. */
function writtenErrors(entries: Survey['entries'], swaps: Allowed['swaps']): ReadonlyMap<string, Written> {
  const errors = new Map<string, Written>();
  for (const { n, act, outcome } of entries) {
    if (act.act !== 'check' || act.verdict === undefined || !outcome.ok) continue;
    const body = bodyAt({ swaps }, act.level ?? 1, n);
    const before = errors.get(body);
    if (!act.allow && !before) continue;
    errors.set(body, { ...(before ?? nothing), [nameOf(act)]: act.allow ? (act.errorMmPerM ?? 0) / 1000 : 0 });
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
