/**
 * The field sheet: booking, striking through, carrying over, handing in.
 */
import { type ActOf, datumParts } from './act.ts';
import { type Outcome, refused } from './outcome.ts';
import type { Survey } from './survey.ts';

export function bookOutcome(survey: Survey, act: ActOf<'book'>): Outcome {
  const isOffset = act.what === 'offset';
  if (isOffset ? act.datum === undefined || act.to !== undefined : act.datum !== undefined || act.to === undefined)
    return refused('book/datum');
  if (isOffset && !('surface' in act.place)) return refused('place/needs-surface');
  if (act.reading !== undefined && !wasRead(survey, act.reading)) return refused('book/no-such-reading');
  return { ok: true };
}

export function strikeOutcome(survey: Survey, booking: number): Outcome {
  return survey.bookings.some((b) => b.n === booking && !b.struck) ? { ok: true } : refused('strike/none');
}

export function carryOutcome(act: ActOf<'carry'>): Outcome {
  const from = datumParts(act.from);
  const to = datumParts(act.to);
  return from.kind === to.kind && from.setUp !== to.setUp ? { ok: true } : refused('carry/not-parallel');
}

export function handInOutcome(survey: Survey): Outcome {
  return survey.proposal ? { ok: true } : refused('hand-in/nothing');
}

function wasRead(survey: Survey, n: number): boolean {
  const entry = survey.entries[n - 1];
  return entry?.outcome.ok === true && ['read', 'span', 'diagonal'].includes(entry.act.act);
}
