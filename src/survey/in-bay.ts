/**
 * A survey as it concerns one recess of a pair, in that recess's own frame: its bookings, its readings, what was proposed
 * for it. With one recess, it is the survey itself.
 */
import type { BayNumber } from '../exercise/bays.ts';
import type { Plane, Point } from '../geometry/plane.ts';
import type { ActOf } from './act.ts';
import type { FoundPlace } from './place.ts';
import type { Survey } from './survey.ts';
import type { Bay } from './world.ts';

/** Gives a survey as it concerns each recess, from left to right. */
export function eachBay(survey: Survey): readonly { readonly bay: BayNumber; readonly survey: Survey }[] {
  const { bays } = survey.world;
  if (bays.length === 1) return [{ bay: 1, survey }];
  return bays.map((b) => ({ bay: b.bay, survey: inBay(survey, b) }));
}

/** Puts a recess's number on what is of the second; the first's stays as it is. */
export function ofBay<T extends object>(bay: BayNumber, what: T): T & { readonly bay?: 2 } {
  return bay === 1 ? what : { ...what, bay };
}

function inBay(survey: Survey, bay: Bay): Survey {
  const { atXMm, recess, exercise } = bay;
  const ours = (place: { readonly bay?: 2 | undefined } | null) => (place?.bay ?? 1) === bay.bay;
  const point = (p: Point): Point => ({ ...p, x: p.x - atXMm });
  const plane = (p: Plane): Plane => ({ ...p, c: p.c - p.nx * atXMm });
  const place = (p: FoundPlace): FoundPlace => ({ ...p, point: point(p.point) });
  const { standing } = survey;
  return {
    ...survey,
    world: { ...survey.world, exercise, recess, bays: [{ ...bay, bay: 1, atXMm: 0 }] },
    standing: standing && { ...standing, at: point(standing.at) },
    planes: Object.fromEntries(Object.entries(survey.planes).map(([name, p]) => [name, plane(p)])),
    marks: survey.marks.map((m) => ({ ...m, point: point(m.point) })),
    readings: survey.readings
      .filter((r) => r.place === null || ours(r.place))
      .map((r) => ({ ...r, point: point(r.point), plane: plane(r.plane), place: r.place && place(r.place) })),
    spans: survey.spans.filter((s) => ours(s.from)).map((s) => ({ ...s, from: place(s.from), end: place(s.end) })),
    bookings: survey.bookings.filter((b) => !('surface' in b.said.place) || ours(b.said.place)),
    answers: survey.answers.filter((a) => a.of === undefined || a.of === bayWords[bay.bay]),
    proposal: proposedFor(bay.bay, survey.proposal),
  };
}

/** How an answer says which recess of a pair it is of. */
export const bayWords: Readonly<Record<BayNumber, string>> = { 1: 'left', 2: 'right' };

/** Gives what was proposed for a recess; null when nothing was. */
function proposedFor(bay: BayNumber, said: ActOf<'propose'> | null): ActOf<'propose'> | null {
  if (!said) return null;
  const { second, ...first } = said;
  if (bay === 1) return first;
  return second ? { act: 'propose', ...second } : null;
}
