/**
 * The history of the lines: for each touch of a level what it was lined up on, then marks, knocks and readings, in the
 * order of the log. It is what tells which datum came from what.
 */
import { type Plane, type Point, signedDistance } from '../geometry/plane.ts';
import type { Act } from '../survey/act.ts';
import { type DatumKind, datumParts } from '../survey/act.ts';
import { fold } from '../survey/acting.ts';
import { planeOf, type Standing } from '../survey/level.ts';
import { beginSurvey, type Mark, type Survey } from '../survey/survey.ts';
import { referenceAt, type World } from '../survey/world.ts';

/** What a line was lined up on, and by how much it missed that. */
export interface Target {
  /** A mark's number; null for the reference. */
  readonly mark: number | null;
  readonly at: Point;
  /** Signed distance from the plane as it was left. */
  readonly missMm: number;
  /** The plumb dot was put on it: it counts at the height of the crossing point. */
  readonly dot: boolean;
}

/** The plane that was lined up, and on what; none: it was stood by eye. */
export interface Guide {
  readonly kind: 'F' | 'S';
  readonly targets: readonly Target[];
}

export type HistoryEvent =
  | {
      readonly what: 'touch';
      readonly standing: Standing;
      readonly guide: Guide | null;
      readonly anchor: Point;
      /** Left out where it was not knocked since it was stood: how it stood before the knock. */
      readonly beforeKnock?: Standing;
    }
  | { readonly what: 'knock'; readonly setUp: number }
  | { readonly what: 'mark'; readonly mark: Mark; readonly setUp: number; readonly kind: DatumKind }
  | { readonly what: 'read'; readonly n: number; readonly datum: string };

/** How near a line must run to marks, and to the reference at both ends, to have been lined up on them, mm. */
const onMarksMm = 3;
const onReferenceMm = 25;
/** Targets nearer together than this tell no direction, mm. */
export const tellsDirectionMm = 300;

/** Tells the history of a survey's lines. */
export function setUpHistory(survey: Survey): readonly HistoryEvent[] {
  const { world } = survey;
  const events: HistoryEvent[] = [];
  const anchors = anchorsOf(survey);
  const shaken = new Map<number, Standing>();
  const dots = new Map<number, number>();
  let now = beginSurvey(world);
  for (const { act, outcome, n } of survey.entries) {
    const before = now;
    now = fold(before, act, outcome);
    if (!outcome.ok) continue;
    const standing = now.standing;
    if (act.act === 'stand' && act.over !== undefined && standing) dots.set(standing.setUp, act.over);
    if (act.act === 'move' && standing) dots.delete(standing.setUp);
    if (standing && isTouch(act) && moved(before, standing)) {
      const beforeKnock = shaken.get(standing.setUp);
      const guide = beforeKnock ? null : guideOf(now, standing, { act, dot: dots.get(standing.setUp) });
      const anchor = anchors.get(standing.setUp) ?? standing.at;
      events.push({ what: 'touch', standing, guide, anchor, ...(beforeKnock ? { beforeKnock } : {}) });
    } else if (act.act === 'mark') {
      const mark = now.marks.find((m) => m.mark === outcome.mark);
      const { kind, setUp } = datumParts(mark?.datum ?? '');
      if (mark) events.push({ what: 'mark', mark, setUp, kind });
    } else if (act.act === 'read') {
      events.push({ what: 'read', n, datum: act.datum });
      const still = before.levels.find((l, i) => l !== now.levels[i]);
      if (still) {
        events.push({ what: 'knock', setUp: still.setUp });
        if (!shaken.has(still.setUp)) shaken.set(still.setUp, still);
      }
    }
  }
  return events;
}

function isTouch(act: Act): boolean {
  return ['stand', 'move', 'turn', 'raise', 'settle', 'aim'].includes(act.act);
}

/** A level that is only looked at is not touched: a knock goes on counting as one. */
function moved(before: Survey, standing: Standing): boolean {
  const was = before.levels.find((l) => l.setUp === standing.setUp);
  return !was || was.at !== standing.at || was.facing !== standing.facing;
}

/** Where each set-up's lines crossed when the first reading was taken from it. */
function anchorsOf(survey: Survey): ReadonlyMap<number, Point> {
  const anchors = new Map<number, Point>();
  let now = beginSurvey(survey.world);
  for (const { act, outcome } of survey.entries) {
    if (act.act === 'read' && outcome.ok) {
      const standing = now.levels.find((l) => l.setUp === datumParts(act.datum).setUp);
      if (standing && !anchors.has(standing.setUp)) anchors.set(standing.setUp, standing.at);
    }
    now = fold(now, act, outcome);
  }
  return anchors;
}

interface Touch {
  readonly act: Act;
  readonly dot: number | undefined;
}

function guideOf(survey: Survey, standing: Standing, touch: Touch): Guide | null {
  const aimed = touch.act.act === 'aim' ? touch.act : null;
  const kinds = aimed ? [aimed.plane] : (['F', 'S'] as const);
  const guides = kinds.map((kind): Guide => {
    const plane = planeOf(standing, kind);
    const marks = survey.marks.filter((m) => {
      if (aimed && 'mark' in aimed.at && aimed.at.mark === m.mark) return true;
      const of = datumParts(m.datum);
      return of.kind === kind && of.setUp !== standing.setUp && Math.abs(signedDistance(plane, m.point)) <= onMarksMm;
    });
    const targets = marks.map((m) => targetOn(plane, m));
    const over = survey.marks.find((m) => m.mark === touch.dot);
    return { kind, targets: over ? [...targets, dotTarget(plane, over, standing)] : targets };
  });
  const best = guides.reduce((a, b) => (spread(standing, b) > spread(standing, a) ? b : a));
  const tells = spread(standing, best) >= tellsDirectionMm || (aimed && 'mark' in aimed.at);
  if (tells) return best;
  // Marks that tell no direction are lined up beside what does.
  return onReference(survey.world, standing) ?? (best.targets.length > 0 ? best : null);
}

function targetOn(plane: Plane, m: Mark): Target {
  return { mark: m.mark, at: m.point, missMm: signedDistance(plane, m.point), dot: false };
}

function dotTarget(plane: Plane, m: Mark, standing: Standing): Target {
  const at = { ...m.point, z: standing.at.z };
  return { mark: m.mark, at, missMm: signedDistance(plane, at), dot: true };
}

/** How far apart a guide's targets lie along its plane, mm; -1 where it has none. */
function spread(standing: Standing, guide: Guide): number {
  if (guide.targets.length === 0) return -1;
  const along = guide.targets.map((t) => alongPlane(planeOf(standing, guide.kind), standing.at, t.at));
  return Math.max(...along) - Math.min(...along);
}

/** Gives how far along an upright plane a point lies from its crossing point, mm. */
export function alongPlane(plane: Plane, from: Point, p: Point): number {
  return plane.nx * (p.y - from.y) - plane.ny * (p.x - from.x);
}

/** The whole of the reference, where F runs along it. */
function onReference(world: World, standing: Standing): Guide | null {
  const plane = planeOf(standing, 'F');
  const half = world.exercise.brief.openingMm.width / 2;
  const [from, to] = world.exercise.spec.reference.overMm ?? [-half, half];
  const targets = [0, 1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6, 1].map((share): Target => {
    const at = referenceAt(world, from + share * (to - from));
    return { mark: null, at, missMm: signedDistance(plane, at), dot: false };
  });
  return targets.every((t) => Math.abs(t.missMm) <= onReferenceMm) ? { kind: 'F', targets } : null;
}
