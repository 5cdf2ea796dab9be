/**
 * Lining up: what a level's lines are seen to do at marks and along the reference, and what a slide or a turn is reckoned
 * to make of it. It is made from what is seen and from dead reckoning alone.
 */
import type { Point } from '../../geometry/plane.ts';
import { sayLength, sayWithUnit, sayWritten } from '../../recess/lengths.ts';
import type { Side } from '../../recess/recess-spec.ts';
import { type DatumKind, datumParts, type Target } from '../../survey/act.ts';
import type { LearnerView } from '../../survey/learner-view.ts';
import { lineWidth } from '../../survey/level.ts';
import type { Seen } from '../../survey/outcome.ts';
import type { ReckonedLevel } from '../../survey/reckoning.ts';

/** One place that a line is looked at. */
export interface Look {
  readonly key: string;
  readonly kind: DatumKind;
  readonly datum: string;
  readonly at: Seen['at'];
  /** What is looked at: `mark 2`, `cornice return, 540 left`. */
  readonly says: string;
  /** The same where the reference needs no name: `540 left`. */
  readonly short: string;
  /** How far off the line falls, mm along its normal: as told, or reckoned from its stated width. */
  readonly offMm: number;
  readonly widthMm: number;
  /** How far along the line the place lies from the level, mm: what a turn moves there, by its slope. */
  readonly reachMm: number;
  /** In the loupe the line stands upright and moves across, or lies flat and moves up; the way that + falls. */
  readonly shown: { readonly across: boolean; readonly sign: 1 | -1 };
  /** What - and + are called. */
  readonly ways: readonly [minus: string, plus: string];
  /** The aids tell how far off it is in mm. */
  readonly inMm: boolean;
}

/** A line further off than this is not meant to run through there, mm. */
const notMeantMm = 400;

type Seeing = Pick<LearnerView, 'outline' | 'brief' | 'kit' | 'marks'>;

/** Gives what a level's lines are seen to do, at places that they can be meant to run through. */
export function looksOf(view: Seeing, level: ReckonedLevel): readonly Look[] {
  return level.seen.flatMap((seen) => {
    const look = lookOf(view, level, seen);
    return look && Math.abs(look.offMm) <= notMeantMm ? [look] : [];
  });
}

/** Gives all that a level sees and can be turned to: marks of any line, and places along the reference. */
export function targetsOf(
  view: Seeing,
  level: ReckonedLevel,
): readonly { readonly at: Target; readonly says: string }[] {
  return level.seen.map(({ at }) => ({
    at: 'mark' in at ? { mark: at.mark } : { referenceXMm: at.referenceXMm },
    says: sayTarget(view, at),
  }));
}

/** Gives the two looks of one line that lie furthest apart along it: marks where there are two, else the reference. */
export function widestPair(looks: readonly Look[], kind: DatumKind): readonly Look[] {
  const all = looks.filter((l) => l.kind === kind);
  const marks = all.filter((l) => 'mark' in l.at);
  const pick = (of: readonly Look[]) => {
    const sorted = [...of].sort((a, b) => a.reachMm - b.reachMm || (a.key < b.key ? -1 : 1));
    const [first, last] = [sorted[0], sorted.at(-1)];
    return first && last && first !== last ? [first, last] : sorted;
  };
  const apart = pick(marks);
  const [a, b] = apart;
  if (a && b && b.reachMm - a.reachMm >= 100) return apart;
  const along = pick(all);
  return along.length > 0 ? along : apart;
}

/** Gives how far off the line would fall after the level was slid square to it and turned, as reckoned. */
export function reckonedOff(look: Look, by: { slideMm: number; turnMmPerM: number }): number {
  const turned = look.kind === 'L' ? 0 : (by.turnMmPerM * look.reachMm) / 1000;
  return look.offMm + by.slideMm + turned;
}

/** Gives the way that a slide square to a line goes, in the hand's frame. */
export function slideWay(level: ReckonedLevel, kind: DatumKind): Point {
  const { x, y } = level.facing;
  if (kind === 'L') return { x: 0, y: 0, z: 1 };
  return kind === 'F' ? { x, y, z: 0 } : { x: y, y: 0 - x, z: 0 };
}

/** Names the two ways of a slide: where - and + go. */
export function slideWords(level: ReckonedLevel, kind: DatumKind): readonly [string, string] {
  if (kind === 'L') return ['down', 'up'];
  const n = slideWay(level, kind);
  if (Math.abs(n.y) >= Math.abs(n.x)) return n.y > 0 ? ['out', 'in'] : ['in', 'out'];
  return n.x > 0 ? ['left', 'right'] : ['right', 'left'];
}

/** Says how far off a line falls; in widths of it, or in mm where the aids tell mm. */
export function sayOff(look: Look, offMm = look.offMm): string {
  const widths = Math.round((offMm / look.widthMm) * 10) / 10;
  if (Math.abs(widths) < 0.1) return 'on it';
  const size = Math.abs(widths);
  const shows = look.inMm && sayLength(Math.abs(offMm)) !== sayLength(0);
  const much = shows ? sayWithUnit(Math.abs(offMm)) : size === 1 ? '1 width' : `${size} widths`;
  return `${much} ${look.ways[widths < 0 ? 0 : 1]}`;
}

function lookOf(view: Seeing, level: ReckonedLevel, seen: Seen): Look | null {
  const { kind } = datumParts(seen.datum);
  const { at } = seen;
  const found = 'mark' in at ? view.marks.find((m) => m.mark === at.mark) : null;
  const place: Point | undefined =
    'mark' in at ? found?.at : { x: at.referenceXMm, y: 0 - (view.brief.setBackMm ?? 0), z: 0 };
  if (!place) return null;
  const n = slideWay(level, kind);
  const d = { x: place.x - level.at.x, y: place.y - level.at.y, z: place.z - level.at.z };
  const widthMm = lineWidth(view.kit, Math.sqrt(d.x * d.x + d.y * d.y + d.z * d.z));
  return {
    key: 'mark' in at ? `mark ${at.mark}` : `reference ${at.referenceXMm}`,
    kind,
    datum: seen.datum,
    at,
    says: sayTarget(view, at),
    short: 'mark' in at ? `mark ${at.mark}` : sayAlong(at.referenceXMm),
    offMm: seen.offMm ?? seen.offWidths * widthMm,
    widthMm,
    reachMm: n.y * d.x - n.x * d.y,
    shown: kind === 'L' ? { across: false, sign: 1 } : shownOn(found?.place.surface ?? 'floor', n),
    ways: waysOf(kind, n),
    inMm: seen.offMm !== undefined,
  };
}

function sayTarget(view: Seeing, at: Seen['at']): string {
  if ('mark' in at) return `mark ${at.mark}`;
  const name = view.brief.reference.replaceAll('-', ' ');
  return `${name}, ${sayAlong(at.referenceXMm)}`;
}

function sayAlong(xMm: number): string {
  return xMm === 0 ? 'middle' : `${sayWritten(Math.abs(xMm))} ${xMm < 0 ? 'left' : 'right'}`;
}

function waysOf(kind: DatumKind, n: Point): readonly [string, string] {
  if (kind === 'L') return ['below', 'above'];
  if (Math.abs(n.y) >= Math.abs(n.x)) return n.y > 0 ? ['in front', 'behind'] : ['behind', 'in front'];
  return n.x > 0 ? ['left', 'right'] : ['right', 'left'];
}

/** A wall is looked at face on; floor, ceiling and reference from above. */
function shownOn(surface: Side, n: Point): Look['shown'] {
  const sign = (v: number): 1 | -1 => (v < 0 ? -1 : 1);
  if (surface === 'left') return { across: true, sign: sign(n.y) };
  if (surface === 'right') return { across: true, sign: sign(0 - n.y) };
  if (surface === 'back') return { across: true, sign: sign(n.x) };
  return Math.abs(n.y) >= Math.abs(n.x) ? { across: false, sign: sign(n.y) } : { across: true, sign: sign(n.x) };
}
