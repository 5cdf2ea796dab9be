/**
 * A brief as a shop that works in inches would write it: what it asks is whole sixteenths, and sizes are whole eighths, no
 * larger than they were. What the eye sees of the room stays as it is.
 */
import { graduationMm, type Units } from '../../recess/lengths.ts';
import type { Brief } from '../brief.ts';

const sixteenthMm = graduationMm('in-16');
/** From here on it is a size, and not what is asked beside one, mm. */
const sizeFromMm = 100;

/** What is of the room, or no length. */
const asSeen: ReadonlySet<string> = new Set(['openingMm', 'mouthMm', 'setBackMm', 'referenceWaverMm', 'count']);

/** Gives a brief with lengths that are round in the unit of the rule. */
export function roundIn(units: Units, brief: Brief): Brief {
  return units === 'mm' ? brief : rounded(brief);
}

function rounded<T>(what: T): T {
  if (typeof what === 'number') return roundedLength(what) as T;
  if (Array.isArray(what)) return what.map(rounded) as T;
  if (typeof what !== 'object' || what === null) return what;
  return Object.fromEntries(
    Object.entries(what).map(([key, value]) => [key, asSeen.has(key) ? value : rounded(value)]),
  ) as T;
}

function roundedLength(mm: number): number {
  if (mm < sizeFromMm) return Math.round(mm / sixteenthMm) * sixteenthMm;
  return Math.floor(mm / (2 * sixteenthMm)) * (2 * sixteenthMm);
}
