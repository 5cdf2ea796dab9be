/**
 * A survey as it concerns one recess of a pair, in that recess's own frame: its bookings, its readings, what was proposed
 * for it. With one recess, it is the survey itself.
 */
import type { BayNumber } from '../exercise/bays.ts';
import type { Plane, Point } from '../geometry/plane.ts';
import type { Act, ActOf, PlaceSaid } from './act.ts';
import type { FoundPlace } from './place.ts';
import type { Entry, Survey } from './survey.ts';
import { type Bay, bayOf } from './world.ts';

/** Gives a survey as it concerns each recess, from left to right. */
export function eachBay(survey: Survey): readonly { readonly bay: BayNumber; readonly survey: Survey }[] {
  const { bays } = survey.world;
  if (bays.length === 1) return [{ bay: 1, survey }];
  const known = parted.get(survey);
  if (known) return known;
  const parts = bays.map((b) => ({ bay: b.bay, survey: inBay(survey, b) }));
  parted.set(survey, parts);
  return parts;
}

/** Surveys that were parted before: a survey never changes, and it is asked for again and again between two acts. */
const parted = new WeakMap<Survey, ReturnType<typeof eachBay>>();

/** Puts a recess's number on what is of the second; the first's stays as it is. */
export function ofBay<T extends object>(bay: BayNumber, what: T): T & { readonly bay?: 2 } {
  return bay === 1 ? what : { ...what, bay };
}

/** Gives a survey as it concerns one recess; with one recess, the survey itself. */
export function surveyIn(survey: Survey, bay: BayNumber): Survey {
  return eachBay(survey).find((b) => b.bay === bay)?.survey ?? survey;
}

/** Turns an act said in one recess's frame into the whole room's; what is proposed there joins what was for the other. */
export function actInRoom(survey: Pick<Survey, 'world' | 'proposal'>, bay: BayNumber, act: Act): Act {
  const its = survey.world.bays.length > 1 ? bayOf(survey.world, bay) : null;
  if (!its) return act;
  if (act.act === 'say') return { ...act, of: bayWords[bay] };
  if (act.act === 'propose') return joined(bay, act, survey.proposal);
  const { atXMm } = its;
  switch (act.act) {
    case 'stand':
      return { ...act, xMm: act.xMm + atXMm };
    case 'aim':
      return 'referenceXMm' in act.at ? { ...act, at: { referenceXMm: act.at.referenceXMm + atXMm } } : act;
    default:
      return bay === 1 ? act : withPlaces(act, (said) => ('surface' in said ? { ...said, bay } : said));
  }
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
    whole: { survey, atXMm },
    world: { ...survey.world, exercise, recess, bays: [{ ...bay, bay: 1, atXMm: 0 }] },
    entries: survey.entries.map((e) => entryIn(bay, e)),
    standing: standing && { ...standing, at: point(standing.at) },
    planes: Object.fromEntries(Object.entries(survey.planes).map(([name, p]) => [name, plane(p)])),
    marks: survey.marks.map((m) => ({ ...m, point: point(m.point) })),
    readings: survey.readings
      .filter((r) => r.place === null || ours(r.place))
      .map((r) => ({
        ...r,
        said: own(r.said),
        point: point(r.point),
        plane: plane(r.plane),
        place: r.place && place(r.place),
      })),
    spans: survey.spans.filter((s) => ours(s.from)).map((s) => ({ ...s, from: place(s.from), end: place(s.end) })),
    bookings: survey.bookings
      .filter((b) => isOurs(bay, b.said.place))
      .map((b) => ({ ...b, said: withPlaces(b.said, own) as ActOf<'book'> })),
    answers: survey.answers.filter((a) => a.of === undefined || a.of === bayWords[bay.bay]),
    proposal: proposedFor(bay.bay, survey.proposal),
  };
}

/** An entry as one recess has it, in its place in the log; what was done at a place of the other is an empty note. */
function entryIn(bay: Bay, entry: Entry): Entry {
  const { act, outcome } = entry;
  const { atXMm } = bay;
  const shifted = (x: number) => x - atXMm;
  const seen =
    outcome.ok && outcome.seen
      ? outcome.seen.map((s) => ('mark' in s.at ? s : { ...s, at: { referenceXMm: shifted(s.at.referenceXMm) } }))
      : null;
  const told = outcome.ok && seen ? { ...outcome, seen } : outcome;
  if (act.act === 'stand') return { ...entry, act: { ...act, xMm: shifted(act.xMm) }, outcome: told };
  if (act.act === 'aim' && 'referenceXMm' in act.at)
    return { ...entry, act: { ...act, at: { referenceXMm: shifted(act.at.referenceXMm) } }, outcome: told };
  if ('place' in act && !isOurs(bay, act.place))
    return { ...entry, act: { act: 'note', text: 'in the other recess' }, outcome: told };
  return { ...entry, act: withPlaces(act, own), outcome: told };
}

function isOurs(bay: Bay, said: PlaceSaid): boolean {
  return !('surface' in said) || (said.bay ?? 1) === bay.bay;
}

/** A place as it is said in its own recess: without the recess's number. */
function own(said: PlaceSaid): PlaceSaid {
  if (!('surface' in said) || said.bay === undefined) return said;
  const { bay: _bay, ...rest } = said;
  return rest;
}

/** An act with each place that it says changed. */
function withPlaces(act: Act, change: (said: PlaceSaid) => PlaceSaid): Act {
  switch (act.act) {
    case 'mark':
    case 'read':
    case 'span':
    case 'edge':
    case 'plumb':
      return { ...act, place: change(act.place) };
    case 'book':
      return {
        ...act,
        place: change(act.place),
        ...(typeof act.to === 'object' ? { to: change(act.to) } : {}),
      };
    case 'diagonal':
      return { ...act, from: change(act.from), to: change(act.to) };
    default:
      return act;
  }
}

/** What is proposed for one recess, beside what was proposed for the other. */
function joined(bay: BayNumber, act: ActOf<'propose'>, before: ActOf<'propose'> | null): ActOf<'propose'> {
  if (bay === 1) return before?.second ? { ...act, second: before.second } : act;
  const { carcassMm, frameMm, allowanceMm, sure } = act;
  const second = {
    ...(carcassMm && { carcassMm }),
    ...(frameMm && { frameMm }),
    ...(allowanceMm && { allowanceMm }),
    ...(sure && { sure }),
  };
  return { act: 'propose', ...before, second };
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
