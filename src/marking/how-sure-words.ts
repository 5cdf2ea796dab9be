/**
 * How sure a learner was, in words: each size against what came of it, and what many of them show.
 */
import { sayLength, sayWithUnit } from '../recess/lengths.ts';
import type { SureLevel } from '../survey/how-sure.ts';
import { type Borne, rightWithinMm, type SizeSure } from './how-sure.ts';
import { sizeWords } from './size-words.ts';

export const sureWords: Readonly<Record<SureLevel, string>> = {
  sure: 'sure',
  fairly: 'fairly sure',
  guess: 'a guess',
};

/** Fewer than this tell nothing yet. */
export const fewestToTell = 5;

/** Says of a size how sure the learner was and what it came to: `carcass width: sure; 0.4 too small, within 2`. */
export function saySure(s: SizeSure): string {
  const words = sizeWords[s.size];
  const name = s.bay === undefined ? words : `right-hand recess, ${words}`;
  return `${name}: ${sureWords[s.level]}; ${sayMiss(s.missMm)}, ${s.right ? 'within' : 'not within'} ${sayLength(rightWithinMm)}`;
}

/** Says how far off a size came: `0.4 too small`. */
export function sayMiss(mm: number): string {
  const much = sayLength(Math.abs(mm));
  return much === sayLength(0) ? 'on it' : `${much} too ${mm > 0 ? 'large' : 'small'}`;
}

/** Says what sizes of one degree came to: `sure: 7 of 9 came within 2 mm`. */
export function sayBorne(b: Borne): string {
  if (b.lies === null) return `${sureWords[b.level]}: none said so yet`;
  return `${sureWords[b.level]}: ${b.right} of ${b.said} came within ${sayWithUnit(rightWithinMm)}${sayLies(b)}`;
}

function sayLies(b: Borne): string {
  const [from, to] = b.paying.map((share) => Math.round(100 * share)) as [number, number];
  if (b.said < fewestToTell) return '; too few to tell';
  if (b.lies === 'under') return `; fewer than the ${from} in 100 that bear it out, so say less`;
  if (b.lies === 'over') return `; more than ${to} in 100, so you may say more`;
  return '; that bears it out';
}
