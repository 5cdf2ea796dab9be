/**
 * The body of a level: the faults that are fixed to it, and how it sits on what it turns about.
 *
 * Faults are ratios (mm a mm), fixed to the body, so that turning it round shows them. They are drawn from the room's key
 * or set in the kit, and stand in no outcome: readings feel them through the planes that it throws.
 */
import { between, type DrawKey, pick, purpose } from '../chance/keyed-draws.ts';
import { type Kit, levelLimits } from '../exercise/kit.ts';

export interface Faults {
  /** The level line: + when it rises away in front of the level, and to its right. */
  readonly levelFore: number;
  readonly levelSide: number;
  /** The upright planes: + when the top of F leans away in front, that of S to the right. */
  readonly plumbF: number;
  readonly plumbS: number;
  /** + when S stands more than 90° anticlockwise from F, seen from above. */
  readonly square: number;
}

export interface LevelBody {
  /** Null: without faults. */
  readonly faults: Faults | null;
  /** How far beside the crossing point its axis stands: half-way between behind it and to its left. */
  readonly pivotMm: number;
}

/** What the instrument can be checked for. */
export const checkNames = ['level', 'plumb', 'square'] as const;
export type CheckName = (typeof checkNames)[number];

export const trueBody: LevelBody = { faults: null, pivotMm: 0 };

const whyFaults = purpose('survey/level-faults');
const drawsABody = 16;

/** Gives the levels of a kit, then the one in the van where there is one. */
export function drawBodies(key: DrawKey, kit: Kit): readonly LevelBody[] {
  const bodies = Array.from({ length: kit.level.count }, (_, i) => bodyOf(key, kit, i));
  return kit.level.spare
    ? [...bodies, { ...bodyOf(key, kit, bodies.length), faults: within(key, kit, bodies.length) }]
    : bodies;
}

/** Says by how much a level is out of its stated limits in one of the three ways, mm a metre; 0 within them. */
export function outOfTrue(body: LevelBody, kit: Kit, check: CheckName): number {
  const limits = levelLimits(kit);
  if (!limits) return 0;
  return Math.max(0, worstFault(body, check) - limits[check]);
}

/** Gives the greatest of a level's errors of one kind, mm a metre, its sign left off. */
export function worstFault({ faults }: LevelBody, check: CheckName): number {
  if (!faults) return 0;
  const all = {
    level: [faults.levelFore, faults.levelSide],
    plumb: [faults.plumbF, faults.plumbS],
    square: [faults.square],
  }[check];
  return 1000 * Math.max(...all.map(Math.abs));
}

function bodyOf(key: DrawKey, kit: Kit, index: number): LevelBody {
  const pivotMm = kit.level.pivotMm ?? 0;
  const said = kit.level.faults;
  if (said === undefined) return { faults: null, pivotMm };
  if (typeof said !== 'string') return { faults: setFaults(said[index]), pivotMm };
  const faults = within(key, kit, index);
  return { faults: said === 'drawn' ? oneOut(key, kit, { index, faults }) : faults, pivotMm };
}

function setFaults(said: Exclude<Kit['level']['faults'], string | undefined>[number] | undefined): Faults {
  return {
    levelFore: (said?.levelForeMmPerM ?? 0) / 1000,
    levelSide: (said?.levelSideMmPerM ?? 0) / 1000,
    plumbF: (said?.plumbFMmPerM ?? 0) / 1000,
    plumbS: (said?.plumbSMmPerM ?? 0) / 1000,
    square: (said?.squareMmPerM ?? 0) / 1000,
  };
}

/** Faults within what is stated, each evenly spread. */
function within(key: DrawKey, kit: Kit, index: number): Faults | null {
  const limits = levelLimits(kit);
  if (!limits) return null;
  const draw = (i: number, most: number) =>
    between(key, whyFaults, { index: drawsABody * index + i, from: -most / 1000, to: most / 1000 });
  return {
    levelFore: draw(0, limits.level),
    levelSide: draw(1, limits.level),
    plumbF: draw(2, limits.plumb),
    plumbS: draw(3, limits.plumb),
    square: draw(4, limits.square),
  };
}

/** One in four stays as it is; the others are out by three to eight limits in one thing. */
function oneOut(key: DrawKey, kit: Kit, of: { index: number; faults: Faults | null }): Faults | null {
  const limits = levelLimits(kit);
  const at = drawsABody * of.index;
  const kind = pick(key, whyFaults, { index: at + 5, count: 4 });
  if (!limits || !of.faults || kind === 3) return of.faults;
  const sign = pick(key, whyFaults, { index: at + 6, count: 2 }) === 0 ? -1 : 1;
  const first = pick(key, whyFaults, { index: at + 7, count: 2 }) === 0;
  const check = checkNames[kind] as CheckName;
  const out = (sign * limits[check] * between(key, whyFaults, { index: at + 8, from: 3, to: 8 })) / 1000;
  if (check === 'level') return { ...of.faults, [first ? 'levelFore' : 'levelSide']: out };
  if (check === 'plumb') return { ...of.faults, [first ? 'plumbF' : 'plumbS']: out };
  return { ...of.faults, square: out };
}
