/**
 * How long a survey would take on site, reckoned from its acts. What each act takes is ours, no source: it is for holding
 * one survey against another, not for a quotation.
 */
import type { Act, ActName } from '../survey/act.ts';

/** Minutes an act: with the walking, the steps and the writing. */
const minutesOf: Readonly<Record<ActName, number>> = {
  stand: 3,
  move: 0.5,
  turn: 0.5,
  raise: 0.5,
  settle: 0.5,
  aim: 1,
  check: 5,
  mark: 0.5,
  'rub-out': 0.2,
  clear: 10,
  read: 0.4,
  span: 0.8,
  diagonal: 1,
  edge: 1,
  plumb: 1,
  'three-four-five': 4,
  book: 0.2,
  strike: 0.1,
  carry: 0.5,
  note: 0.5,
  say: 1,
  propose: 5,
  'hand-in': 0,
};

/** Gives the minutes that acts would take, to the whole minute. */
export function siteMinutes(acts: readonly Act[]): number {
  return Math.round(acts.reduce((sum, { act }) => sum + minutesOf[act], 0));
}
