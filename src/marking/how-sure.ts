/**
 * How sure a learner said to be of each size, against what it came to, and over many sizes whether that is borne out.
 */
import { payingShares, type SureLevel, sureLevels } from '../survey/how-sure.ts';
import { type SizeName, toBeFound } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import type { SizeLedger } from './ledger.ts';

/** A size counts as right when it is this near to what the room allows, mm: the limit is ours. */
export const rightWithinMm = 2;

export interface SizeSure {
  readonly size: SizeName;
  readonly level: SureLevel;
  /** + is too large. */
  readonly missMm: number;
  readonly right: boolean;
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
}

/** What sizes of one degree came to. */
export interface Borne {
  readonly level: SureLevel;
  readonly said: number;
  readonly right: number;
  /** The shares of right ones at which that degree is the one to say. */
  readonly paying: readonly [number, number];
  /** Where the share lies: under, in or over those; null where nothing was said so. */
  readonly lies: 'under' | 'in' | 'over' | null;
}

/** Holds how sure a learner said to be against the ledgers of one recess. */
export function howSure(survey: Survey, ledgers: readonly SizeLedger[]): readonly SizeSure[] {
  const { brief } = survey.world.exercise;
  return ledgers.flatMap(({ size, missMm, bay }): SizeSure[] => {
    const level = survey.proposal?.sure?.[size];
    if (!level || missMm === null || !toBeFound(size, brief)) return [];
    return [{ size, level, missMm, right: Math.abs(missMm) <= rightWithinMm, ...(bay ? { bay } : {}) }];
  });
}

/** Adds up how sure sizes were and how many of them were right, the surest first. */
export function borneOut(all: readonly SizeSure[]): readonly Borne[] {
  return sureLevels.map((level) => {
    const of = all.filter((s) => s.level === level);
    const right = of.filter((s) => s.right).length;
    const paying = payingShares(level);
    const share = right / of.length;
    const lies = of.length === 0 ? null : share < paying[0] ? 'under' : share > paying[1] ? 'over' : 'in';
    return { level, said: of.length, right, paying, lies };
  });
}
