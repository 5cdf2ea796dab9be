/**
 * Findings: the mistakes that a survey shows, with what each cost and what would have caught it. The costliest comes
 * first; what another entails is left to that one.
 */
import { ofBay } from '../../survey/in-bay.ts';
import type { Survey } from '../../survey/survey.ts';
import type { BayMarks } from '../pair-marks.ts';
import { gatherEvidence } from './evidence.ts';
import type { Found, MistakeId } from './mistake.ts';
import { entails, mistakes } from './mistakes.ts';

export interface Finding extends Found {
  readonly mistake: MistakeId;
  readonly name: string;
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
}

/** How many are shown of one attempt; the rest stand in the data. */
export const mostShown = 2;

/** Finds the mistakes of a survey that was handed in, the costliest first. It draws nothing. */
export function findMistakes(whole: Survey, recesses: readonly BayMarks[]): readonly Finding[] {
  return recesses
    .flatMap((own) => findIn(whole, own).map((f) => ofBay(own.bay, f)))
    .map((f, i) => ({ f, i }))
    .sort((a, b) => b.f.costMm - a.f.costMm || a.i - b.i)
    .map(({ f }) => f);
}

function findIn(whole: Survey, own: BayMarks): readonly Finding[] {
  const evidence = gatherEvidence(whole, own);
  const all = mistakes.flatMap(({ id, name, find }): Finding[] => {
    const found = find(evidence);
    return found ? [{ mistake: id, name, ...found }] : [];
  });
  const left = new Set(all.flatMap((f) => entails[f.mistake] ?? []));
  return all.filter((f) => !left.has(f.mistake));
}
