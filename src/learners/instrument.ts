/**
 * Checking the instrument before trusting it: each routine once, a verdict on each, and another level where one is out.
 */
import { levelLimits } from '../exercise/kit.ts';
import type { Act } from '../survey/act.ts';
import { type CheckWay, checkWays, errorShown } from '../survey/instrument-check.ts';
import { type CheckName, checkNames } from '../survey/level-body.ts';
import type { Hand } from './hand.ts';

/** What the checks showed of the level that is used, mm a metre. */
export interface Shown {
  readonly level: number;
  readonly plumb: number;
  readonly square: number;
  /** The checks that it did not pass and that must be allowed for: no other level was at hand. */
  readonly out: readonly CheckName[];
}

const unknown: Shown = { level: 0, plumb: 0, square: 0, out: [] };
/** What marks and the hand may add to what a routine shows, mm a metre: some three standard deviations over a doorway. */
const graceMmPerM = 0.2;

/** Checks the level; swaps one that is out of true; null where the kit states nothing of its level. */
export function checkInstrument(hand: Hand): Shown {
  const limits = levelLimits(hand.now().world.exercise.kit);
  if (!limits) return unknown;
  for (let swaps = 0; swaps < 2; swaps++) {
    const shown = gone(hand);
    const out = checkNames.filter((check) => Math.abs(shown[check]) > limits[check] + graceMmPerM);
    let swapped = false;
    for (const check of checkNames) {
      const verdict = out.includes(check) ? 'do-not-use' : 'use';
      const done = hand.act({ act: 'check', check, verdict, errorMmPerM: Math.round(shown[check] * 100) / 100 });
      swapped = done.ok && done.swapped === true;
      if (swapped) break;
    }
    if (!swapped) return { ...shown, out };
  }
  return unknown;
}

/** Goes through the routines; of the two ways of one, the one that shows more. */
function gone(hand: Hand): Record<CheckName, number> {
  const shown = { level: 0, plumb: 0, square: 0 };
  for (const check of checkNames) {
    const ways: readonly (CheckWay | null)[] = check === 'square' ? [null] : checkWays[check];
    for (const of of ways) {
      const act: Act = { act: 'check', check, ...(of ? { of } : {}) };
      const done = hand.act(act);
      const error = done.ok && done.practiceMm ? errorShown(check, done.practiceMm) : 0;
      if (Math.abs(error) > Math.abs(shown[check])) shown[check] = error;
    }
  }
  return shown;
}
