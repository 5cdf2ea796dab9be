/**
 * First-order uncertainties of what is worked out, from what the kit and the brief state: never from the hidden truth.
 *
 * All are standard uncertainties (k = 1), mm. The rule's error is common to every offset read with it, so its parts add
 * as they stand; what the eye does is new at each reading, so its parts add as squares.
 *
 * @source JCGM 100:2008 (GUM) 5.1 and 5.2, first order; a half-width a of equal chance gives a / sqrt(3) (4.3.7)
 */

import type { Exercise } from '../exercise/exercise.ts';
import { levelLimits, permittedError, unitsOf } from '../exercise/kit.ts';
import { graduationMm } from '../recess/lengths.ts';
import { edgeDeviationMm } from './rule.ts';
import type { SizeName } from './size.ts';

/** What enters a size on one side. */
export interface UncertainTerm {
  readonly lengthMm: number;
  /** How many readings were averaged. */
  readonly readings: number;
  /** How far into the recess, and how far right of the middle, mm. */
  readonly y: number;
  readonly x: number;
  /** How high, mm; left out on floor and ceiling. */
  readonly z?: number;
}

/** What the eye and the half-millimetre do to one reading. */
export const uReading = Math.sqrt((edgeDeviationMm * edgeDeviationMm) / 2 + (0.25 * 0.25) / 3);

/** Gives the same of a rule: one marked in inches is read to half of its own graduation. */
export function readingDeviation(kit: Exercise['kit']): number {
  const units = unitsOf(kit);
  if (units === 'mm') return uReading;
  const quarter = graduationMm(units) / 4;
  return Math.sqrt((edgeDeviationMm * edgeDeviationMm) / 2 + (quarter * quarter) / 3);
}

/** Gives the standard uncertainty of a size at the places read. */
export function uSize(exercise: Exercise, size: SizeName, terms: readonly UncertainTerm[]): number {
  let rule = 0;
  let eye = 0;
  const own = readingDeviation(exercise.kit);
  for (const t of terms) {
    rule += permittedError(exercise.kit.rule, t.lengthMm) / Math.sqrt(3);
    eye += (own * own) / Math.max(1, t.readings);
  }
  const level = uLevel(exercise, size, terms);
  const followed = uSetUp(exercise, size, terms);
  const setUp = level === 0 ? followed : Math.sqrt(followed * followed + level * level);
  return exercise.kit.rule.errors ? Math.sqrt(rule * rule + eye + setUp * setUp) : setUp;
}

/**
 * Gives what following a reference that wavers does: it moves the face line, and turns it and the square line with it.
 *
 * @returns standard deviations, mm and a ratio
 */
export function setUpDeviations({ referenceWaverMm, openingMm }: Exercise['brief']): { shift: number; turn: number } {
  const at = referenceWaverMm / Math.sqrt(3);
  return { shift: Math.sqrt((at * at) / 2), turn: (at * Math.sqrt(2)) / (0.9 * openingMm.width) };
}

function uSetUp(exercise: Exercise, size: SizeName, terms: readonly UncertainTerm[]): number {
  const { shift, turn } = setUpDeviations(exercise.brief);
  const [first, second] = terms;
  if (size.endsWith('depth') && first) return Math.sqrt(shift * shift + turn * turn * first.x * first.x);
  if (isRunEnd(size) && first) return turn * Math.abs(first.y);
  if (!size.endsWith('width') || !first || !second) return 0;
  return turn * Math.abs(first.y - second.y);
}

function isRunEnd(size: SizeName): boolean {
  return size === 'run-left' || size === 'run-right';
}

/**
 * What a level within its stated limits does: its errors are each evenly spread and move what is read by how far apart
 * the places are. F is lined up where the reference runs, about as high as the opening.
 */
function uLevel({ kit, brief }: Exercise, size: SizeName, terms: readonly UncertainTerm[]): number {
  const limits = levelLimits(kit);
  const [first, second] = terms;
  if (!limits || !first) return 0;
  const u = (limit: number) => limit / 1000 / Math.sqrt(3);
  const apart = (a: number, b: number) => (a - b) * (a - b);
  const high = (t: UncertainTerm) => t.z ?? brief.openingMm.height;
  if (size.endsWith('depth')) return u(limits.plumb) * Math.abs(high(first) - brief.openingMm.height);
  if (isRunEnd(size)) {
    // From where the square line crosses the face line, at the height that this is lined up at.
    const [lean, askew] = [u(limits.plumb) * high(first), u(limits.square) * first.y];
    return Math.sqrt(lean * lean + askew * askew);
  }
  if (!second) return 0;
  const ways = apart(first.y, second.y);
  if (size.endsWith('height')) return u(limits.level) * Math.sqrt(ways + apart(first.x, second.x));
  if (!size.endsWith('width')) return 0;
  const up = u(limits.plumb);
  const square = u(limits.square);
  return Math.sqrt(up * up * apart(high(first), high(second)) + square * square * ways);
}
