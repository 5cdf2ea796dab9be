/**
 * The chain of K1 to K5 for a size that was surveyed by offsets.
 */

import { unitsOf } from '../exercise/kit.ts';
import type { Plane } from '../geometry/plane.ts';
import { graduationMm } from '../recess/lengths.ts';
import type { Place } from '../recess/recess.ts';
import type { Side } from '../recess/recess-spec.ts';
import { datumParts, saidKey } from '../survey/act.ts';
import {
  type BookedOffset,
  baseDatum,
  bookedOffsets,
  broughtOver,
  carriedStep,
  grouped,
  handPlace,
  mean,
  type OffsetGroup,
  putTo,
  samePlace,
} from '../survey/offsets.ts';
import { boxSent } from '../survey/sent.ts';
import { rightRule, type SlopeEdge, sizeRules, type Term } from '../survey/size.ts';
import { chainage, isOfSlope, rightOf } from '../survey/slope-edge.ts';
import type { Reading, Survey } from '../survey/survey.ts';
import { standingBy } from '../survey/working-out.ts';
import { type Domain, type DomainSource, nearestIn, offsetAtPoint, trueOffset } from './domain.ts';
import { touchesWork } from './touch.ts';

/** The steps of a chain, mm in terms of offsets. */
export interface Chain {
  readonly how: 'offsets' | 'spans';
  readonly k1: number;
  /** K2; for spans the least true span. */
  readonly k2: number;
  readonly k3: number;
  readonly k4: number;
  /** K4 with the steps left out that were never carried over. */
  readonly k4NotCarried: number;
  readonly k5: number;
  readonly roundingMm: number;
  readonly counting: readonly number[];
}

/** How near a booking's place must be to its reading's, and a wall point to the places that count, mm. */
export const placeWithinMm = 20;

/** A place read, with everything that the chain asks of it. */
interface ReadPlace {
  readonly side: Side;
  readonly datum: string;
  /** True, at the nearest place that counts. */
  readonly trueMm: number;
  /** x of the nearest place that counts, of a place on a slope. */
  readonly trueX: number;
  /** From the datum as set up. */
  readonly setUpMm: number;
  readonly seenMm: number;
  readonly writtenMm: number;
  /** What of each of these is allowed for, mm. */
  readonly allowedMm: number;
  readonly plane: Plane;
  readonly at: Place;
  /** The readings behind it, in the order of booking. */
  readonly readings: readonly Reading[];
}

/** The lines of a survey as they stood, or as they would have. */
export interface Lines {
  /** A reading's true offset from its line, mm. */
  offset(reading: Reading): number;
  planeAt(reading: Reading): Plane;
  /** Every datum as it was last thrown. */
  readonly planes: Readonly<Record<string, Plane>>;
}

/**
 * Gives the chain of a size surveyed by offsets.
 *
 * @returns null when a side has no live reading in a place that counts
 */
export function offsetChain(survey: Survey, source: DomainSource, domain: Domain): Chain | null {
  const { size } = domain;
  const graduation = graduationMm(unitsOf(survey.world.exercise.kit));
  const { offsets, places, base } = placesRead(survey, source, domain);
  const sheet = sheetOf(survey, size);
  const rule = (value: (p: ReadPlace) => number, truly = false) =>
    rightRule(
      size,
      places.map((p) => ({ side: p.side, valueMm: value(p), xMm: truly ? p.trueX : sheet.xOf(p.at) })),
      truly ? domain.edge : sheet.edge,
    );
  const steps = new Map(places.map((p) => [p, stepsOf(survey, p, base)]));
  const over = (p: ReadPlace, which: 'true' | 'seen' | 'written' | 'booked') => steps.get(p)?.[which] ?? 0;
  const k1 = rule((p) => p.trueMm, true);
  const k4 = rule((p) => p.writtenMm + over(p, 'written'));
  if (!k1 || !k4) return null;
  const k5 = rightRule(size, allTerms(survey, offsets, { base, square: sheet.square }), sheet.edge);
  return {
    how: 'offsets',
    k1: k1.valueMm,
    k2: rule((p) => p.setUpMm + over(p, 'true'))?.valueMm ?? k1.valueMm,
    k3: rule((p) => p.seenMm + over(p, 'seen'))?.valueMm ?? k1.valueMm,
    k4: k4.valueMm,
    k4NotCarried: rule((p) => p.writtenMm + over(p, 'booked'))?.valueMm ?? k4.valueMm,
    k5: k5?.valueMm ?? k4.valueMm,
    roundingMm: k4.counting.reduce((sum, i) => sum + rounding(places[i] as ReadPlace, graduation / 2), 0),
    counting: (k5?.counting ?? []).flatMap((i) => grouped(offsets)[i]?.bookings.map((b) => b.n) ?? []),
  };
}

/** How a size lies along the face line: where each place does, and a sloped edge. */
export interface Layout {
  readonly edge: SlopeEdge | null;
  xOf(place: { readonly at: Place; readonly trueX: number }): number;
}

/** The right rule over the places read, by other lines than those that stood. */
export interface SetUpSteps {
  /**
   * Gives K2 from those lines. An end of a run is taken from where its square line then crosses the face line: that is
   * its datum, wherever it stands.
   *
   * @returns null when a side has no live reading in a place that counts
   */
  from(lines: Lines, layout: Layout): number | null;
  /** As the sheet has it. */
  readonly sheet: Layout;
  /** As it truly lies, of a sloped edge; null of other sizes. */
  readonly truly: Layout | null;
  /** What it makes that the rule's end was held a little beside the places that count, mm, from lines that stand true. */
  readonly besideMm: number;
  /** What of the line is what was allowed for, mm. */
  readonly allowedMm: number;
}

/** Gives the steps of a size, to be asked with lines as they would have stood. */
export function setUpSteps(survey: Survey, source: DomainSource, domain: Domain): SetUpSteps {
  const { size } = domain;
  const { places, base } = placesRead(survey, source, domain);
  const sheet = sheetOf(survey, size);
  const datumMoved = (lines: Lines) => {
    const [was, is] = [survey.planes[base ?? ''], lines.planes[base ?? '']];
    if ((size !== 'run-left' && size !== 'run-right') || !was || !is) return 0;
    return (is.c / is.nx - was.c / was.nx) * (size === 'run-left' ? 1 : -1);
  };
  return {
    sheet: { edge: sheet.edge, xOf: ({ at }) => sheet.xOf(at) },
    truly: isOfSlope(size) && domain.edge ? { edge: domain.edge, xOf: ({ at }) => at.x } : null,
    besideMm: heldBeside(source, domain, places),
    allowedMm: allowedOfLine(survey, domain, places, base),
    from: (lines, layout) => {
      const terms = places.map((p) => {
        const first = p.readings[0] as Reading;
        const from = { ...p, plane: lines.planeAt(first) };
        const basePlane = base === null || base === p.datum ? undefined : lines.planes[base];
        const step = basePlane ? broughtOver(p.side, trueStep(basePlane, from, base ?? p.datum)) : 0;
        return { side: p.side, valueMm: mean(p.readings.map((r) => lines.offset(r))) + step, xMm: layout.xOf(p) };
      });
      const value = rightRule(size, terms, layout.edge)?.valueMm;
      return value === undefined ? null : value - datumMoved(lines);
    },
  };
}

/** The right rule at the wall points themselves, less the same at the places that count. */
function heldBeside(source: DomainSource, { size, edge }: Domain, places: readonly ReadPlace[]): number {
  const rule = (value: (p: ReadPlace) => number, xOf: (p: ReadPlace) => number) =>
    rightRule(
      size,
      places.map((p) => ({ side: p.side, valueMm: value(p), xMm: xOf(p) })),
      edge,
    )?.valueMm ?? 0;
  const own = rule(
    (p) => mean(p.readings.map((r) => offsetAtPoint(source, size, { side: p.side, at: r.point }))),
    (p) => p.at.x,
  );
  return (
    own -
    rule(
      (p) => p.trueMm,
      (p) => p.trueX,
    )
  );
}

/** The right rule from the lines as they stood, with what is allowed for, less the same without it. */
function allowedOfLine(survey: Survey, { size }: Domain, places: readonly ReadPlace[], base: string | null): number {
  const steps = places.map((p) => stepsOf(survey, p, base));
  if (places.every((p, i) => p.allowedMm === 0 && steps[i]?.allowed === 0)) return 0;
  const sheet = sheetOf(survey, size);
  const rule = (allows: 0 | 1) =>
    rightRule(
      size,
      places.map((p, i) => {
        const { true: step, allowed } = steps[i] as ReturnType<typeof stepsOf>;
        const without = p.setUpMm + step - p.allowedMm - allowed;
        return { side: p.side, valueMm: without + allows * (p.allowedMm + allowed), xMm: sheet.xOf(p.at) };
      }),
      sheet.edge,
    )?.valueMm ?? 0;
  return rule(1) - rule(0);
}

/** Finds the reading behind a booking: of its place, from its datum; the one it names, else the last such. */
export function readingBehind(survey: Survey, o: BookedOffset): Reading | null {
  const fits = (r: Reading) => r.datum === o.datum && r.side === o.side && samePlaceAs(survey, r, o);
  const named = survey.readings.find((r) => r.n === o.said.reading);
  if (named) return fits(named) ? named : null;
  return survey.readings.filter((r) => r.n < o.n && fits(r)).at(-1) ?? null;
}

/** Gives the offset that the middle of the line as seen on the rule tells, from whichever end. */
export function middleSeen(r: Pick<Reading, 'edgesMm' | 'fromFarEnd'>, rule: { readonly lengthMm: number }): number {
  const middle = (r.edgesMm[0] + r.edgesMm[1]) / 2;
  return r.fromFarEnd ? rule.lengthMm - middle : middle;
}

function placesRead(survey: Survey, source: DomainSource, domain: Domain) {
  const { size } = domain;
  const offsets = bookedOffsets(survey).filter((o) => putTo(o, source.site.brief).includes(size));
  const places = grouped(offsets).flatMap((g) => readPlaces(survey, source, { domain, group: g }));
  const base = faceBase(
    survey,
    size,
    baseDatum(
      survey,
      offsets.map((o) => o.datum),
    ),
  );
  return { offsets, places, base };
}

function readPlaces(survey: Survey, source: DomainSource, of: { domain: Domain; group: OffsetGroup }): ReadPlace[] {
  const { domain, group } = of;
  const found = group.bookings.flatMap((b) => {
    const reading = readingBehind(survey, b);
    if (!reading?.place || !touchesWork(source.site, reading.place, domain.size)) return [];
    const near = nearestIn(domain, reading.place, placeWithinMm);
    return near ? [{ b, reading, near }] : [];
  });
  const first = found[0];
  if (!first) return [];
  const allowedMm = mean(found.map(({ b }) => b.allowedMm));
  const place: ReadPlace = {
    side: group.side,
    datum: group.datum,
    trueMm: mean(found.map(({ near }) => trueOffset(source, domain.size, { side: group.side, ...near }))),
    trueX: mean(found.map(({ near }) => near.u)),
    setUpMm: mean(found.map(({ reading }) => offsetFrom(reading))) + allowedMm,
    seenMm: mean(found.map(({ reading }) => middleSeen(reading, survey.world.exercise.kit.rule))) + allowedMm,
    writtenMm: mean(found.map(({ b }) => b.valueMm)),
    allowedMm,
    plane: first.reading.plane,
    at: first.reading.point,
    readings: found.map(({ reading }) => reading),
  };
  return [place];
}

function offsetFrom(r: Reading): number {
  const { plane, point } = r;
  return Math.abs(plane.nx * point.x + plane.ny * point.y + plane.nz * point.z - plane.c);
}

function samePlaceAs(survey: Survey, r: Reading, o: BookedOffset): boolean {
  if (!r.place || !('surface' in r.said) || !('surface' in o.said.place)) return false;
  if (saidKey(r.said) === saidKey(o.said.place)) return true;
  return samePlace(handPlace(survey, r.said), o.at, placeWithinMm);
}

function allTerms(
  survey: Survey,
  offsets: readonly BookedOffset[],
  on: { base: string | null; square: string | null },
): Term[] {
  const { base, square } = on;
  return grouped(offsets).map((g) => {
    const step = base === null ? null : carriedStep(survey, g.datum, base);
    const xMm = chainage(survey, square, g.at);
    return { side: g.side, valueMm: g.meanMm + (step ? broughtOver(g.side, step.stepMm) : 0), xMm };
  });
}

/** Where a sloped edge lies by the sheet, and how chainages are taken; of other sizes nothing is asked. */
function sheetOf(survey: Survey, size: Domain['size']) {
  if (!isOfSlope(size)) return { edge: null, square: null, xOf: () => 0 };
  const { datum, edge } = standingBy(survey, boxSent(survey)?.width);
  const plane = datum === null ? undefined : survey.planes[datum];
  return { edge, square: datum, xOf: (at: Place) => (plane ? rightOf(plane, at) : at.x) };
}

/** The steps from a place's datum to the base, by how they are known. */
function stepsOf(survey: Survey, p: ReadPlace, base: string | null) {
  if (base === null || base === p.datum) return { true: 0, seen: 0, written: 0, booked: 0, allowed: 0 };
  const basePlane = survey.planes[base];
  const step = basePlane ? trueStep(basePlane, p, base) : 0;
  const carried = carriedStep(survey, p.datum, base);
  const allowed = carried ? broughtOver(p.side, carried.allowedMm) : 0;
  const truly = broughtOver(p.side, step) + allowed;
  if (!carried) return { true: truly, seen: truly, written: truly, booked: 0, allowed };
  const written = broughtOver(p.side, carried.stepMm);
  const said = survey.carries.find((c) => c.n === carried.n)?.said;
  const reading = survey.readings.find((r) => r.n === said?.reading);
  // A rule gives a step's length, its way is plain to see: a way that is written wrong is a booking.
  const sign = step < 0 ? -1 : 1;
  // A step that was never read was not seen wrong: what is written of it is a booking.
  const seen = reading
    ? broughtOver(p.side, sign * middleSeen(reading, survey.world.exercise.kit.rule)) + allowed
    : truly;
  return { true: truly, seen, written, booked: written, allowed };
}

/** How far a place's datum stands right of, behind or above the base, at the wall point. */
function trueStep(basePlane: Plane, p: Pick<ReadPlace, 'plane' | 'at'>, base: string): number {
  const { kind } = datumParts(base);
  return across(p.plane, kind, p.at) - across(basePlane, kind, p.at);
}

function across(plane: Plane, kind: 'F' | 'S' | 'L', at: Place): number {
  if (kind === 'L') return (plane.c - plane.nx * at.x - plane.ny * at.y) / plane.nz;
  const level = plane.c - plane.nz * at.z;
  return kind === 'S' ? (level - plane.ny * at.y) / plane.nx : (level - plane.nx * at.x) / plane.ny;
}

/** A depth is from the face line: a base far off it gives way to the face datum that was lined up on the reference. */
function faceBase(survey: Survey, size: Domain['size'], base: string | null): string | null {
  if (sizeRules[size].datum !== 'F' || base === null) return base;
  const setBack = survey.world.exercise.brief.setBackMm ?? 0;
  const off = (datum: string) => {
    const plane = survey.planes[datum];
    return plane ? Math.abs(across(plane, 'F', { x: 0, y: 0, z: 0 }) + setBack) : placeWithinMm;
  };
  if (off(base) <= placeWithinMm) return base;
  const faces = Object.keys(survey.planes).filter((d) => datumParts(d).kind === 'F' && off(d) <= placeWithinMm);
  return faces[0] ?? base;
}

/** What half a graduation of the rule explains. */
function rounding(p: ReadPlace, halfMm: number): number {
  return Math.min(Math.max(p.writtenMm - p.seenMm, -halfMm), halfMm);
}
