/**
 * A size done over by draws: the places read again and again with the same kit, every time through the same sum.
 *
 * First order takes the places that count and lets each be off by itself. A sum that picks the smallest of many picks
 * among chances as well: by draws it is seen to come out small, and by how much, where several places nearly count.
 * It is what the kit and the brief state that is drawn, never the hidden truth; what was not read is not in it.
 *
 * @source JCGM 101:2008 7: propagation by draws; the smallest of n is low by so many deviations: order statistics
 */
import { drawKey } from '../chance/keyed-draws.ts';
import type { Spread } from '../chance/spread.ts';
import type { Brief } from '../exercise/brief.ts';
import { type Kit, levelLimits, permittedError } from '../exercise/kit.ts';
import { type Budget, byDraws, type Drawn, type Input } from './budget.ts';
import { rightRule } from './size.ts';
import { readingDeviation, setUpDeviations } from './uncertainty.ts';
import type { WorkedSize, WorkedTerm } from './working-out.ts';

/** Draws enough that the ends of 95 in 100 stand to a few hundredths of their distance. */
export const drawsASize = 1000;
/** First order and draws say the same to within this: what the workshop rounds to. */
const differMm = 0.5;
const differMeanMm = 0.25;

/** Gives what draws make of a worked size, in terms of offsets; null where it has no sum. */
export function drawnSize(from: { kit: Kit; brief: Brief }, worked: WorkedSize, count = drawsASize): Drawn | null {
  const budget = sizeBudget(from, worked);
  return budget && byDraws(budget, { key: drawKey(`survey/drawn-size/${worked.size}`), count });
}

/** Says whether draws tell something else than first order: on the whole, or at an end of 95 in 100. */
export function tellsMore(worked: WorkedSize, drawn: Drawn): boolean {
  const { offsetsMm, uMm } = worked;
  if (offsetsMm === null || uMm === null) return false;
  const ends = [drawn.low - (offsetsMm - 2 * uMm), drawn.high - (offsetsMm + 2 * uMm)];
  return Math.abs(drawn.mean - offsetsMm) >= differMeanMm || ends.some((off) => Math.abs(off) >= differMm);
}

/** Gives the budget of a worked size: what all its places share, then what the eye does at each. */
export function sizeBudget(from: { kit: Kit; brief: Brief }, worked: WorkedSize): Budget | null {
  const { terms, size, edge, offsetsMm } = worked;
  if (offsetsMm === null) return null;
  const shared = sharedInputs(from);
  const eye = terms.map(({ at }, i): Input => ({ name: `eye ${i}`, value: 0, spread: eyeAt(from.kit, at.readings) }));
  const moves = terms.map((t) => shared.map((s) => s.moves(t)));
  const movedBy = (values: readonly number[], i: number) =>
    (moves[i] ?? []).reduce((sum, by, k) => sum + (values[k] ?? 0) * by, values[shared.length + i] ?? 0);
  return {
    inputs: [...shared.map((s) => s.input), ...eye],
    model: (values) => {
      const moved = terms.map((t, i) => ({ ...t, valueMm: t.valueMm + movedBy(values, i) }));
      return rightRule(size, moved, edge ?? null)?.valueMm ?? offsetsMm;
    },
  };
}

interface Shared {
  readonly input: Input;
  /** What one of it does to an offset, mm. */
  moves(term: WorkedTerm): number;
}

/** The rule's error, where the face line stands and which way it runs, and the level's errors. */
function sharedInputs({ kit, brief }: { kit: Kit; brief: Brief }): readonly Shared[] {
  const shared: Shared[] = [];
  const add = (name: string, spread: Spread, moves: Shared['moves']) =>
    shared.push({ input: { name, value: 0, spread }, moves });
  if (kit.rule.errors) add('rule', { kind: 'even', half: 1 }, ({ at }) => permittedError(kit.rule, at.lengthMm));
  const { shift, turn } = setUpDeviations(brief);
  add('face line stands', { kind: 'normal', u: shift }, ({ side }) => (side === 'back' ? 1 : 0));
  add('face line runs', { kind: 'normal', u: turn }, turned);
  const limits = levelLimits(kit);
  if (!limits) return shared;
  const limit = (mmPerM: number): Spread => ({ kind: 'even', half: mmPerM / 1000 });
  add('square', limit(limits.square), (t) => (t.side === 'back' ? 0 : turned(t)));
  add('plumb', limit(limits.plumb), leaning(brief));
  add('level, fore', limit(limits.level), ({ side, at }) => rising(side) * at.y);
  add('level, side', limit(limits.level), ({ side, at }) => rising(side) * at.x);
  return shared;
}

/** A line turned anticlockwise goes from the left wall's back towards the right, and from the back's right end. */
function turned({ side, at }: WorkedTerm): number {
  if (side === 'back') return at.x;
  return side === 'left' ? at.y : side === 'right' ? 0 - at.y : 0;
}

/** F is lined up about as high as the opening: from there down it leans away; S leans from the floor. */
function leaning(brief: Brief): Shared['moves'] {
  return ({ side, at }) => {
    const z = at.z ?? brief.openingMm.height;
    if (side === 'back') return z - brief.openingMm.height;
    return side === 'left' ? z : side === 'right' ? 0 - z : 0;
  };
}

function rising(side: WorkedTerm['side']): number {
  return side === 'floor' ? 1 : side === 'ceiling' || side === 'slope' ? -1 : 0;
}

function eyeAt(kit: Kit, readings: number): Spread {
  return { kind: 'normal', u: kit.rule.errors ? readingDeviation(kit) / Math.sqrt(Math.max(1, readings)) : 0 };
}
