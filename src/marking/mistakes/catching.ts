/**
 * What would have caught a mistake: an act, where, and what it shows with errors off. It is acted through the same door
 * as everyone's, where the level last stood, so that what is told is what the rule itself would have said.
 */

import { signedDistance } from '../../geometry/plane.ts';
import { obstructionAt } from '../../recess/band.ts';
import { sayLength } from '../../recess/lengths.ts';
import { type Place, placeAt } from '../../recess/recess.ts';
import { axesOf, type Side, type Trim } from '../../recess/recess-spec.ts';
import { type Act, datumName, datumParts, type SurfacePlace } from '../../survey/act.ts';
import { type FoundPlace, findPlace } from '../../survey/place.ts';
import { meetsBare, type SizeName, sizeRules } from '../../survey/size.ts';
import { finderOf, type Survey } from '../../survey/survey.ts';
import { trueOffset } from '../domain.ts';
import { sayBookedPlace, sayOn } from '../place-words.ts';
import { touchesWork } from '../touch.ts';
import { handPlaceOf, wouldSee } from '../without-errors.ts';
import type { Evidence } from './evidence.ts';
import type { Caught } from './mistake.ts';

/** Catches by a reading at a place; null when it cannot be held there from a line that is thrown now. */
export function byReading(from: Evidence, size: SizeName, place: SurfacePlace): Caught | null {
  const { whole } = from;
  if (!whole.standing) return null;
  const datum = datumName(sizeRules[size].datum, whole.standing.setUp);
  const said = place.along === undefined ? place : { ...place, along: sameNow(whole, place.along) };
  return byAct(whole, { act: 'read', datum, place: said });
}

/** Catches by reading a place of the sheet again, from the datum that it was booked from. */
export function byReadingAgain(from: Evidence, datum: string, place: SurfacePlace): Caught | null {
  const now = sameNow(from.whole, datum);
  const said = place.along === undefined ? place : { ...place, along: sameNow(from.whole, place.along) };
  return byAct(from.whole, { act: 'read', datum: now, place: said });
}

/**
 * Catches by the reading that counts most on a side, of those that can be held: the places of a grid over all that
 * counts, the one that decides first.
 */
export function byTightest(
  from: Evidence,
  size: SizeName,
  side: Side,
  within: (at: { u: number; v: number }) => boolean = () => true,
): Caught | null {
  const least = sizeRules[size].counts === 'least' ? 1 : -1;
  const ranked = gridOver(from, size, side)
    .filter(within)
    .map((at, i) => ({ at, i, mm: least * trueOffset(from.source, size, { side, ...at }) }))
    .sort((a, b) => a.mm - b.mm || a.i - b.i);
  for (const { at } of ranked.slice(0, tries)) {
    const place = handPlaceOf(from, side, at);
    const found = foundNow(from.whole, place);
    if (!found || !touchesWork(from.source.site, found, size)) continue;
    const caught = byReading(from, size, place);
    if (caught) return caught;
  }
  return ranked[0] ? byReckoning(from, { size, side, at: ranked[0].at }) : null;
}

/** Where no line that is thrown now reaches a place: how far it lies from the line that the size was read from. */
function byReckoning(from: Evidence, of: { size: SizeName; side: Side; at: { u: number; v: number } }): Caught | null {
  const { survey } = from;
  const { size, side, at } = of;
  const datum = from.figures(size).find((f) => f.side === side)?.offset.datum;
  const plane = datum === undefined ? undefined : survey.planes[datum];
  if (datum === undefined || !plane) return null;
  const { recess, exercise } = survey.world;
  const bands = meetsBare(size) ? [] : from.source.site.staying[side];
  const point = placeAt(side, at, obstructionAt(recess.fields[side], bands, at));
  const seenMm = Math.abs(signedDistance(plane, point));
  const where = sayOn(side, point, exercise.spec);
  return {
    act: null,
    where,
    seenMm,
    says: `Hold the rule at the ${where}: from ${datum}, as it stood, it would have shown ${sayLength(seenMm)}.`,
  };
}

/** Catches by an upright edge of a box on the back, read from the square line that is thrown now. */
export function byEdge(from: Evidence, trim: Trim): Caught | null {
  const { whole } = from;
  if (!whole.standing) return null;
  const datum = datumName('S', whole.standing.setUp);
  const zMm = Math.round((trim.vMm[0] + trim.vMm[1]) / 2);
  for (const edge of ['left', 'right'] as const) {
    const xMm = Math.round(trim.uMm[edge === 'left' ? 0 : 1]);
    const seen = wouldSee(whole, { act: 'read', datum, place: { surface: 'back', xMm, zMm, edge } })?.edgesMm;
    if (!seen) continue;
    const seenMm = (seen[0] + seen[1]) / 2;
    return {
      act: { act: 'read', datum, place: { surface: 'back', xMm, zMm, edge } },
      where: `the ${edge} edge of the ${trim.name}`,
      seenMm,
      says: `Hold the rule at the ${edge} edge of the ${trim.name}: from ${datum} it would have shown ${sayLength(seenMm)}.`,
    };
  }
  return null;
}

/** Catches by a tape from a place to the side across from it. */
export function byTape(from: Evidence, place: SurfacePlace, to: 'left' | 'right' | 'floor' | 'ceiling'): Caught | null {
  const done = wouldSee(from.whole, { act: 'span', place, to });
  if (done?.tapeMm === undefined) return null;
  const where = sayBookedPlace(place, from.whole.world.exercise.spec);
  return {
    act: { act: 'span', place, to },
    where,
    seenMm: done.tapeMm,
    says: `A tape from ${where}, to the ${to} would have shown ${sayLength(done.tapeMm)}.`,
  };
}

/** Catches by looking along the reference again: where the face line is furthest off it. */
export function byLooking(from: Evidence): Caught | null {
  const act: Act = { act: 'settle' };
  const looks = (wouldSee(from.whole, act)?.seen ?? []).filter((s) => 'referenceXMm' in s.at);
  const [worst] = [...looks].sort(
    (a, b) => Math.abs(b.offMm ?? 0) - Math.abs(a.offMm ?? 0) || looks.indexOf(a) - looks.indexOf(b),
  );
  if (!worst || !('referenceXMm' in worst.at) || worst.offMm === undefined) return null;
  const x = worst.at.referenceXMm;
  const where = `the reference, ${x === 0 ? 'in the middle' : `${sayLength(Math.abs(x))} ${x > 0 ? 'right' : 'left'} of the middle`}`;
  const way = worst.offMm > 0 ? 'behind' : 'in front of';
  return {
    act,
    where,
    seenMm: worst.offMm,
    says: `Look along the reference from end to end: ${worst.datum} falls ${sayLength(Math.abs(worst.offMm))} ${way} it, ${where.slice(15)}.`,
  };
}

/** A datum of the same kind, of the set-up that stands now. */
function sameNow(survey: Survey, datum: string): string {
  return survey.standing ? datumName(datumParts(datum).kind, survey.standing.setUp) : datum;
}

function byAct(survey: Survey, act: Act & { act: 'read' }): Caught | null {
  const seen = wouldSee(survey, act)?.edgesMm;
  if (!seen || !('surface' in act.place)) return null;
  const seenMm = (seen[0] + seen[1]) / 2;
  const where = sayBookedPlace(act.place, survey.world.exercise.spec);
  return {
    act,
    where,
    seenMm,
    says: `Hold the rule at the ${where}: from ${act.datum} it would have shown ${sayLength(seenMm)}.`,
  };
}

function foundNow(survey: Survey, place: SurfacePlace): FoundPlace | null {
  const found = findPlace(finderOf(survey), place);
  return found.ok ? found.value : null;
}

const steps = 8;
const tries = 24;

/** The place that decides, then a grid over the places that count, a hand's sureness off their edges. */
function gridOver(from: Evidence, size: SizeName, side: Side): { u: number; v: number }[] {
  const { decidedAt, rects } = from.domain(size);
  const decided = decidedAt.filter((d) => d.side === side).map(({ at }) => ownOf(side, at));
  const grid = (rects[side] ?? []).flatMap((r) => {
    const stops = (low: number, high: number) =>
      high - low < 2 * edgeMm
        ? [(low + high) / 2]
        : Array.from({ length: steps + 1 }, (_, i) => low + edgeMm + ((high - low - 2 * edgeMm) * i) / steps);
    return stops(r.u0, r.u1).flatMap((u) => stops(r.v0, r.v1).map((v) => ({ u, v })));
  });
  return [...decided, ...grid];
}

const edgeMm = 12;

function ownOf(side: Side, at: Place): { u: number; v: number } {
  const axes = axesOf(side);
  return { u: at[axes.u], v: at[axes.v] };
}
