/**
 * Square back, step by step: how far a survey has come in it, told from acts and what was seen in them.
 */
import { isThere, topAt } from '../../drawing/outline-shape.ts';
import { beginsAtMouth } from '../../recess/recess-spec.ts';
import { datumParts } from '../../survey/act.ts';
import type { LearnerView, SeenMark } from '../../survey/learner-view.ts';
import type { Seen } from '../../survey/outcome.ts';
import type { Entry } from '../../survey/survey.ts';

export const squareBackSteps = ['face', 'marks', 'out', 'stand', 'cast', 'close'] as const;
export type SquareBackStep = (typeof squareBackSteps)[number];

export interface SquareBack {
  readonly done: Readonly<Record<SquareBackStep, boolean>>;
  /** The first step that is not done; the last once all are. */
  readonly now: SquareBackStep;
  /** Marks of the first face line. */
  readonly faceMarks: readonly SeenMark[];
  /** Marks of the square line on the floor: the nearest to the recess, and the furthest out. */
  readonly near: SeenMark | null;
  readonly far: SeenMark | null;
}

/** A line within so many of its own widths of a mark runs through it, as near as the eye can lay it. */
export const onMarkWidths = 1;
/** Marks of a face line stand so far above each other at least, and those of a square line so far apart, mm. */
const leastApartMm = 300;
/** A wall that begins no nearer than this behind the face line may not be met by it: it is stood by hand, mm. */
const byHandMm = 15;

/** Tells how far a survey has come. */
export function squareBack(view: Pick<LearnerView, 'marks'>, entries: readonly Entry[]): SquareBack {
  const faceMarks = firstOf(view.marks, 'F');
  const floor = firstOf(view.marks, 'S')
    .filter((m) => m.place.surface === 'floor' && m.at)
    .sort((a, b) => (b.at?.y ?? 0) - (a.at?.y ?? 0));
  const [near, far] = pairOf(floor);
  const stood = far ? stoodOver(entries, far.mark) : null;
  const cast = stood && near ? castBack(entries, { from: stood, mark: near.mark }) : null;
  const done = {
    face: entries.some((e) => alongReference(seenIn(e))),
    marks: keepsFace(faceMarks),
    out: near !== null && far !== null,
    stand: stood !== null,
    cast: cast !== null,
    close: cast !== null && entries.slice(cast).some((e) => closes(seenIn(e), faceMarks)),
  };
  const now = squareBackSteps.find((step) => !done[step]) ?? 'close';
  return { done, now, faceMarks, near, far };
}

/** Marks of the first set-up that has any of that kind. */
function firstOf(marks: readonly SeenMark[], kind: 'F' | 'S'): readonly SeenMark[] {
  const ours = marks.filter((m) => datumParts(m.datum).kind === kind);
  const first = Math.min(...ours.map((m) => datumParts(m.datum).setUp));
  return ours.filter((m) => datumParts(m.datum).setUp === first);
}

function pairOf(sorted: readonly SeenMark[]): readonly [SeenMark | null, SeenMark | null] {
  const [near, far] = [sorted[0] ?? null, sorted.at(-1) ?? null];
  if (!near?.at || !far?.at || near.at.y - far.at.y < leastApartMm) return [near, null];
  return [near, far];
}

/** Far enough apart to tell which way the line runs; on a wall, at two heights. */
function keepsFace(marks: readonly SeenMark[]): boolean {
  const at = marks.flatMap((m) => m.at ?? []);
  const wide = at.some((a) => at.some((b) => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) >= 2 * leastApartMm));
  const walls = (['left', 'right'] as const).map((side) => marks.filter((m) => m.place.surface === side));
  return wide && walls.every((on) => on.length === 0 || highAndLow(on));
}

function highAndLow(marks: readonly SeenMark[]): boolean {
  const heights = marks.map((m) => m.at?.z ?? 0);
  return Math.max(...heights) - Math.min(...heights) >= leastApartMm;
}

function seenIn({ outcome }: Entry): readonly Seen[] {
  return outcome.ok ? (outcome.seen ?? []) : [];
}

/** The face line runs along the reference, within a width: at both ends of it, or where it wavers on the mean of each half. */
function alongReference(seen: readonly Seen[]): boolean {
  const along = seen.filter((s) => 'referenceXMm' in s.at).map((s) => s.offWidths);
  const [first, last] = [along[0], along.at(-1)];
  if (first === undefined || last === undefined || along.length < 2) return false;
  const half = Math.ceil(along.length / 2);
  const halves = [along.slice(0, half), along.slice(0 - half)];
  const means = halves.map((of) => of.reduce((sum, off) => sum + off, 0) / of.length);
  return [[first, last], means].some((ends) => ends.every((off) => Math.abs(off) <= onMarkWidths));
}

/** The set-up that stands over a mark, and the act after it was stood; null where none ever did. */
function stoodOver(entries: readonly Entry[], mark: number): { setUp: number; after: number } | null {
  const stands = entries.filter(({ act, outcome }) => act.act === 'stand' && act.over === mark && outcome.ok);
  const last = stands.at(-1);
  return last?.outcome.ok && last.outcome.setUp !== undefined ? { setUp: last.outcome.setUp, after: last.n } : null;
}

/** The number of the act in which that set-up's square line was first seen on the near mark; null before. */
function castBack(
  entries: readonly Entry[],
  of: { from: { setUp: number; after: number }; mark: number },
): number | null {
  const found = entries.slice(of.from.after).find((e) =>
    seenIn(e).some((s) => {
      const { kind, setUp } = datumParts(s.datum);
      const on = 'mark' in s.at && s.at.mark === of.mark;
      return on && kind === 'S' && setUp === of.from.setUp && Math.abs(s.offWidths) <= onMarkWidths;
    }),
  );
  return found?.n ?? null;
}

/** A face line is seen on the first marks again: on two of them at least, and off none that it can be meant for. */
function closes(seen: readonly Seen[], marks: readonly SeenMark[]): boolean {
  const on = seen.filter(({ at }) => 'mark' in at && marks.some((m) => m.mark === at.mark));
  return on.length > 1 && on.every((s) => Math.abs(s.offWidths) <= onMarkWidths);
}

/** Where the first face line is marked: on walls that it meets, at two heights, else on the floor under its end. */
export function faceMarksFor(view: Pick<LearnerView, 'outline' | 'brief'>): {
  readonly walls: readonly ('left' | 'right')[];
  readonly heightsMm: readonly number[];
  readonly floorXMm: readonly number[];
} {
  const { outline, brief } = view;
  const half = outline.openingMm.width / 2;
  const faceMm = 0 - (brief.setBackMm ?? 0);
  const end = { left: 0 - half, right: half };
  const met = (side: 'left' | 'right') =>
    isThere(outline, side) && !(beginsAtMouth(outline, side) && outline.mouthMm > faceMm - byHandMm);
  const walls = (['left', 'right'] as const).filter(met);
  const others = (['left', 'right'] as const).filter((side) => !met(side));
  const top = Math.min(...walls.map((side) => topAt(outline, end[side])), outline.openingMm.height);
  const high = Math.min(1700, 50 * Math.floor((top - 250) / 50));
  return {
    walls,
    heightsMm: [Math.min(400, high - leastApartMm), high],
    floorXMm: others.map((side) => Math.round(end[side] * 0.9)),
  };
}

/** Whether there is a floor out in the room to throw the square on to: before a window there is none but its board. */
export function canSquareBack({ outline }: Pick<LearnerView, 'outline'>): boolean {
  return outline.family !== 'reveal';
}
