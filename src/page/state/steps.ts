/**
 * The steps of the job, named with the trade's verbs, and how far a survey has come in each.
 */

import type { LearnerView } from '../../survey/learner-view.ts';
import { sizesOf, toBeFound } from '../../survey/size.ts';
import { canCheck, isChecked } from './practice.ts';
import { canSquareBack } from './square-back.ts';

export const stepNames = [
  'Check',
  'Set up',
  'Mark',
  'Square back',
  'Try',
  'Read',
  'Carry over',
  'Close',
  'Work out',
  'Fit',
] as const;
export type StepName = (typeof stepNames)[number] | 'Book';

export interface Step {
  readonly name: StepName;
  readonly done: boolean;
  /** A count, where there is one. */
  readonly told: string;
}

/** Gives the steps as they stand. */
export function steps(view: LearnerView): readonly Step[] {
  const offsets = view.bookings.filter((b) => !b.struck && b.said.what === 'offset' && !b.said.check).length;
  const found = sizesOf(view.brief).filter((s) => toBeFound(s, view.brief));
  const worked = view.worked.filter((w) => found.includes(w.size) && w.workshopMm !== null).length;
  const told: Partial<Record<StepName, string>> = {
    Mark: view.marks.length > 0 ? String(view.marks.length) : '',
    Read: offsets > 0 ? String(offsets) : '',
    Close: view.checks.length > 0 ? String(view.checks.length) : '',
    'Carry over': view.carries.length > 0 ? String(view.carries.length) : '',
  };
  const done: Partial<Record<StepName, boolean>> = {
    Check: isChecked(view),
    Try: view.tools.length > 0,
    'Set up': view.level?.settled ?? false,
    Mark: view.marks.length > 1,
    Read: worked === found.length,
    'Carry over': view.carries.length > 0,
    Close: view.checks.length > 0,
    Fit: view.handedIn,
  };
  const missing: Partial<Record<StepName, boolean>> = {
    Check: !canCheck(view.kit),
    'Square back': !canSquareBack(view),
    Try: view.kit.tools === undefined,
  };
  return stepNames
    .filter((name) => !missing[name])
    .map((name) => ({ name, done: done[name] ?? false, told: told[name] ?? '' }));
}
