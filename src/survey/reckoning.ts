/**
 * Dead reckoning: where the level stands and faces by the learner's own acts, in the hand's frame. It is what the views
 * draw, and it is as wrong as the hand is.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { type Point, turned, turnedBySlope } from '../geometry/plane.ts';
import { nominalObstruction, type StraightOutline } from '../recess/defect-shapes.ts';
import { axesOf, trueOf } from '../recess/recess-spec.ts';
import { type Act, datumParts, type SurfacePlace, type Target } from './act.ts';
import type { Outcome, Seen } from './outcome.ts';

export interface Reckoned {
  readonly setUp: number;
  readonly at: Point;
  readonly facing: { readonly x: number; readonly y: number };
  readonly settled: boolean;
}

/** An act with what it led to. */
interface Step {
  readonly act: Act;
  readonly outcome: Outcome;
}

/** A kit's level as it is reckoned to stand. */
export interface ReckonedLevel extends Reckoned {
  readonly level: number;
  /** What its lines were last seen to do at marks and along the reference; nothing once it was moved. */
  readonly seen: readonly Seen[];
}

/** Reckons where the level that was touched last stands; null before one is stood. */
export function reckon(exercise: Exercise, steps: readonly Step[]): Reckoned | null {
  const last = reckonAll(exercise, steps).at(-1);
  if (!last) return null;
  return reckonedOf(last);
}

/** Reckons where all levels stand, the one that was touched last at the end. */
export function reckonAll(exercise: Exercise, steps: readonly Step[]): readonly ReckonedLevel[] {
  return reckonWhole(exercise, steps).levels;
}

/**
 * Reckons where all levels stand, and where each mark was put when it was made.
 *
 * @param at - told each step, with where all levels stood before it
 */
export function reckonWhole<S extends Step>(
  exercise: Exercise,
  steps: readonly S[],
  at: (step: S, levels: readonly ReckonedLevel[]) => void = () => undefined,
): { readonly levels: readonly ReckonedLevel[]; readonly marks: ReadonlyMap<number, Point> } {
  const { openingMm } = exercise.brief;
  const outline: StraightOutline = { openingMm, slope: exercise.spec.slope };
  const marks = new Map<number, Point>();
  let levels: readonly ReckonedLevel[] = [];
  for (const step of steps) {
    const { act, outcome } = step;
    at(step, levels);
    if (!outcome.ok) continue;
    if (act.act === 'mark') {
      const { place } = act;
      if (outcome.mark === undefined || !('surface' in place)) continue;
      const from = levels.find((l) => l.setUp === datumParts(place.along ?? 'F').setUp) ?? levels.at(-1);
      if (from) marks.set(outcome.mark, reckonedPlace(outline, from, place));
    } else if (outcome.swapped && act.act === 'check') {
      levels = levels.filter((l) => l.level !== (act.level ?? 1));
    } else {
      const level = levelTouched(act, levels);
      const before = levels.find((l) => l.level === level) ?? null;
      const after = level === null ? null : moved(before, { act, marks, setUp: outcome.setUp });
      if (after && level !== null)
        levels = [...levels.filter((l) => l.level !== level), { ...after, level, seen: outcome.seen ?? [] }];
    }
  }
  return { levels, marks };
}

/** Gives where a level is reckoned to stand, without its number. */
export function reckonedOf({ level: _level, seen: _seen, ...reckoned }: ReckonedLevel): Reckoned {
  return reckoned;
}

/** Says which level an act touched, as `levels` stood before it; null where it touched none. */
function levelTouched(act: Act, levels: readonly ReckonedLevel[]): number | null {
  if (!isTouch(act)) return null;
  return act.level ?? (act.act === 'stand' ? 1 : (levels.at(-1)?.level ?? null));
}

/** Gives a place on the straight outline, in the hand's frame; one that lies along a line, where that is reckoned to be. */
export function reckonedPlace(outline: StraightOutline, level: Reckoned | null, place: SurfacePlace): Point {
  const axes = axesOf(place.surface);
  const across = trueOf(place.surface, nominalObstruction(outline, place.surface, place.xMm ?? 0));
  const at: Point = { x: place.xMm ?? 0, y: place.yMm ?? 0, z: place.zMm ?? 0, [axes.across]: across };
  if (place.along === undefined || !level) return at;
  const free = place[`${axes.u}Mm`] === undefined ? axes.u : axes.v;
  const kind = datumParts(place.along).kind;
  if (kind === 'L') return free === 'z' ? { ...at, z: level.at.z } : at;
  const n = kind === 'F' ? level.facing : { x: level.facing.y, y: 0 - level.facing.x };
  const off = n.x * (at.x - level.at.x) + n.y * (at.y - level.at.y);
  const slope = free === 'x' ? n.x : free === 'y' ? n.y : 0;
  return Math.abs(slope) < 0.01 ? at : { ...at, [free]: at[free] - off / slope };
}

const facings = {
  recess: { x: 0, y: 1 },
  room: { x: 0, y: -1 },
  left: { x: -1, y: 0 },
  right: { x: 1, y: 0 },
} as const;

function moved(
  level: Reckoned | null,
  step: { act: Act; marks: ReadonlyMap<number, Point>; setUp: number | undefined },
): Reckoned | null {
  const { act } = step;
  if (act.act === 'stand') {
    const over = act.over === undefined ? undefined : step.marks.get(act.over);
    const at = { x: over?.x ?? act.xMm, y: over?.y ?? act.yMm, z: act.heightMm };
    return { setUp: step.setUp ?? 1, at, facing: facings[act.facing ?? 'recess'], settled: false };
  }
  if (!level) return null;
  switch (act.act) {
    case 'move':
      return { ...level, at: { ...level.at, x: level.at.x + act.byXMm, y: level.at.y + act.byYMm }, settled: false };
    case 'raise':
      return { ...level, at: { ...level.at, z: level.at.z + act.byMm }, settled: false };
    case 'settle':
      return { ...level, settled: true };
    case 'turn':
      return { ...level, facing: turnedTo(level.facing, act.byMmPerM / 1000, act.quarters ?? 0) };
    case 'aim':
      return aimed(level, { plane: act.plane, at: targetPlace(act.at, step.marks) });
    default:
      return level;
  }
}

function isTouch(act: Act): act is Extract<Act, { act: 'stand' | 'move' | 'turn' | 'raise' | 'settle' | 'aim' }> {
  return ['stand', 'move', 'turn', 'raise', 'settle', 'aim'].includes(act.act);
}

function turnedTo(facing: Reckoned['facing'], slope: number, quarters: number): Reckoned['facing'] {
  let next = turnedBySlope(facing, slope);
  for (let i = 0; i < Math.abs(quarters); i++) next = turned(next, quarters > 0 ? 1 : -1);
  return next;
}

function targetPlace(target: Target, marks: ReadonlyMap<number, Point>): Point | null {
  if ('mark' in target) return marks.get(target.mark) ?? null;
  return { x: target.referenceXMm, y: 0, z: 0 };
}

function aimed(level: Reckoned, shot: { plane: 'F' | 'S'; at: Point | null }): Reckoned {
  if (!shot.at) return level;
  const dx = shot.at.x - level.at.x;
  const dy = shot.at.y - level.at.y;
  const far = Math.sqrt(dx * dx + dy * dy);
  if (far < 1) return level;
  const along = { x: dx / far, y: dy / far };
  const facing = shot.plane === 'S' ? along : { x: 0 - along.y, y: along.x };
  const same = facing.x * level.facing.x + facing.y * level.facing.y >= 0;
  return { ...level, facing: same ? facing : { x: 0 - facing.x, y: 0 - facing.y } };
}
