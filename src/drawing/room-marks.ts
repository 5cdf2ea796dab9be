/**
 * Pencil marks as the learner reckons them, and the datums that only their marks still tell of.
 *
 * Frame: the hand's, mm.
 */
import type { Point } from '../geometry/plane.ts';
import { type DatumKind, datumParts } from '../survey/act.ts';
import type { LearnerView, SeenMark } from '../survey/learner-view.ts';
import { type Reckoned, reckonedPlace } from '../survey/reckoning.ts';

export interface PlacedMark {
  readonly mark: number;
  readonly datum: string;
  /** Where it was reckoned to be when it was made. */
  readonly at: Point;
}

/** A datum of an earlier set-up, between the two of its marks that stand furthest apart. */
export interface KeptDatum {
  readonly name: string;
  readonly kind: DatumKind;
  readonly from: Point;
  readonly to: Point;
}

/** Nearer marks tell no direction, mm. */
const leastApartMm = 100;

/** Places the marks that are still on the walls. */
export function placedMarks(
  view: Pick<LearnerView, 'outline' | 'level'> & { readonly marks: readonly SeenMark[] },
): PlacedMark[] {
  return view.marks.map((m) => ({
    mark: m.mark,
    datum: m.datum,
    at: m.at ?? reckonedPlace(view.outline, view.level, m.place),
  }));
}

/** Gives the levels that stand, the one in hand at the end. */
export function standingLevels(view: Pick<LearnerView, 'level' | 'levels'>): readonly Reckoned[] {
  return view.level ? [...view.levels.slice(0, -1), view.level] : [];
}

/** Names the set-ups that stand now. */
export function setUpsNow(view: Pick<LearnerView, 'level' | 'levels'>): readonly number[] {
  return standingLevels(view).map((l) => l.setUp);
}

/** Finds the datums of set-ups that stand no more, which marks still tell of: an upright one by two marks, a level one by any. */
export function keptDatums(marks: readonly PlacedMark[], now: readonly number[]): KeptDatum[] {
  const names = [...new Set(marks.map((m) => m.datum))];
  return names.flatMap((name) => {
    const { kind, setUp } = datumParts(name);
    if (now.includes(setUp)) return [];
    const on = marks.filter((m) => m.datum === name).map((m) => m.at);
    const [from, to] = furthest(on);
    if (!from || !to || (kind !== 'L' && planApart(from, to) < leastApartMm)) return [];
    return [{ name, kind, from, to }];
  });
}

function furthest(points: readonly Point[]): readonly Point[] {
  let best: readonly Point[] = points[0] ? [points[0], points[0]] : [];
  let far = -1;
  for (const [i, a] of points.entries())
    for (const b of points.slice(i + 1)) {
      const apart = planApart(a, b);
      if (apart > far) {
        best = [a, b];
        far = apart;
      }
    }
  return best;
}

function planApart(a: Point, b: Point): number {
  return Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}
