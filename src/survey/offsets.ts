/**
 * Offsets as they stand on the sheet: bookings with their places, put to sizes and brought to one datum.
 */
import { type Brief, finishOn, nominalCarcass } from '../exercise/brief.ts';
import { slopedStretch } from '../exercise/carcass-shape.ts';
import { axesOf, type Side } from '../recess/recess-spec.ts';
import { type ActOf, type BandEdge, datumParts, type SurfacePlace } from './act.ts';
import { allowedIn, allowedInStep } from './allowance.ts';
import { type SizeName, sizeRules, sizesOf } from './size.ts';
import { liveBookings, type Survey } from './survey.ts';

/** An offset on the sheet. */
export interface BookedOffset {
  readonly n: number;
  readonly said: ActOf<'book'>;
  readonly side: Side;
  readonly datum: string;
  /** Where on its surface, in the hand's own coordinates, mm. */
  readonly at: { readonly u: number; readonly v: number };
  /** As it was booked, with what is allowed for taken out of it. */
  readonly valueMm: number;
  /** How much that is, mm: added to what was booked. */
  readonly allowedMm: number;
  readonly check: boolean;
  /** The edge of a band that the rule was held against; left out, it was held on the surface. */
  readonly edge?: BandEdge;
}

/** Bookings of one place from one datum, averaged. */
export interface OffsetGroup {
  readonly side: Side;
  readonly datum: string;
  readonly at: { readonly u: number; readonly v: number };
  readonly bookings: readonly BookedOffset[];
  readonly meanMm: number;
  /** What of the mean is allowed for, mm. */
  readonly allowedMm: number;
}

/** Bookings nearer to each other than this are of one place, mm. */
const onePlaceMm = 5;
/** How far a booking may lie beyond a size's places and still be put to it, mm: the hand is not surer. */
const slackMm = 20;

/** Gives the live offsets of a survey, closing checks too, in the order of booking. */
export function bookedOffsets(survey: Survey): readonly BookedOffset[] {
  return liveBookings(survey).flatMap((b) => {
    const { said } = b;
    if (said.what !== 'offset' || said.datum === undefined || !('surface' in said.place)) return [];
    const side = said.place.surface;
    const allowedMm = allowedIn(survey, { n: b.n, said, datum: said.datum });
    const offset: BookedOffset = {
      n: b.n,
      said,
      side,
      datum: said.datum,
      at: handPlace(survey, said.place),
      valueMm: said.valueMm + allowedMm,
      allowedMm,
      check: said.check ?? false,
      ...(said.place.edge ? { edge: said.place.edge } : {}),
    };
    return [offset];
  });
}

/** Gives the hand's own coordinates of a place; along F is y = 0, along S x = 0, along L the level's height. */
export function handPlace(survey: Survey, place: SurfacePlace): { u: number; v: number } {
  const axes = axesOf(place.surface);
  const along = place.along === undefined ? null : datumParts(place.along).kind;
  const coordinate = (axis: 'x' | 'y' | 'z') =>
    place[`${axis}Mm`] ?? (along === 'L' && axis === 'z' ? lineHeight(survey, place) : 0);
  return { u: coordinate(axes.u), v: coordinate(axes.v) };
}

/**
 * Gives the sizes that an offset is put to: those it says, else those whose places it lies in by the brief.
 */
export function putTo(offset: BookedOffset, brief: Brief): readonly SizeName[] {
  if (offset.check || offset.edge !== undefined) return [];
  if (offset.said.for !== undefined) return offset.said.for;
  return sizesOf(brief).filter((size) => {
    const rule = sizeRules[size];
    const right = rule.sides.includes(offset.side) && datumParts(offset.datum).kind === rule.datum;
    if (!right) return false;
    if (size === 'shelf-depth') return onShelfLine(offset, brief);
    if (offset.side === 'slope') return inSlopedPart(offset, brief);
    return size.startsWith('frame') ? atFaceLine(offset, brief) : inCarcassPlaces(offset, brief);
  });
}

/** Puts offsets of one place from one datum together. */
export function grouped(offsets: readonly BookedOffset[]): readonly OffsetGroup[] {
  const groups: { side: Side; datum: string; at: { u: number; v: number }; bookings: BookedOffset[] }[] = [];
  for (const o of offsets) {
    const home = groups.find(
      (g) =>
        g.side === o.side && g.datum === o.datum && g.bookings[0]?.edge === o.edge && samePlace(g.at, o.at, onePlaceMm),
    );
    if (home) home.bookings.push(o);
    else groups.push({ side: o.side, datum: o.datum, at: o.at, bookings: [o] });
  }
  return groups.map((g) => ({
    ...g,
    meanMm: mean(g.bookings.map((b) => b.valueMm)),
    allowedMm: mean(g.bookings.map((b) => b.allowedMm)),
  }));
}

/** Says whether two places lie within a distance of each other along each axis, the border counting as within. */
export function samePlace(a: { u: number; v: number }, b: { u: number; v: number }, withinMm: number): boolean {
  return Math.abs(a.u - b.u) <= withinMm && Math.abs(a.v - b.v) <= withinMm;
}

/**
 * Gives what is added to an offset to bring it from its own datum to another of its kind, by the steps carried over.
 *
 * @param step - the step from `datum` to `base`, mm, + when `datum` lies right of, behind or above `base`
 * @returns mm: offsets to the left and down shrink by a step, the others grow
 */
export function broughtOver(side: Side, step: number): number {
  return side === 'left' || side === 'floor' ? 0 - step : step;
}

/**
 * Gives the step carried over from one datum to another.
 *
 * @returns mm, with what is allowed for in it; + when `from` lies right of, behind or above `to`; `null` when none was booked, either way round
 */
export function carriedStep(
  survey: Survey,
  from: string,
  to: string,
): { n: number; stepMm: number; allowedMm: number } | null {
  if (from === to) return { n: 0, stepMm: 0, allowedMm: 0 };
  for (const { n, said } of [...survey.carries].reverse()) {
    const way = said.from === from && said.to === to ? 1 : said.from === to && said.to === from ? -1 : 0;
    if (way === 0) continue;
    const allowedMm = allowedInStep(survey, said);
    return { n, stepMm: way * (said.stepMm + allowedMm), allowedMm: way * allowedMm };
  }
  return null;
}

/** Gives the datum that offsets are brought to: of those used and those they are carried to, the earliest set-up's. */
export function baseDatum(survey: Pick<Survey, 'carries'>, datums: readonly string[]): string | null {
  let base: string | null = null;
  const reached = datums.flatMap((d) => [
    d,
    ...survey.carries.flatMap(({ said }) => (said.from === d ? [said.to] : said.to === d ? [said.from] : [])),
  ]);
  for (const d of reached) if (base === null || datumParts(d).setUp < datumParts(base).setUp) base = d;
  return base;
}

/** Gives the mean of one number or more. */
export function mean(values: readonly number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / values.length;
}

function atFaceLine(o: BookedOffset, brief: Brief): boolean {
  const along = 'surface' in o.said.place ? o.said.place.along : undefined;
  if (along !== undefined && datumParts(along).kind === 'F') return (brief.setBackMm ?? 0) === 0;
  const y = o.side === 'left' || o.side === 'right' ? o.at.u : o.at.v;
  return Math.abs(y) <= slackMm;
}

/** On the back, as high as one of the shelves and no further out than their ends. */
function onShelfLine(o: BookedOffset, brief: Brief): boolean {
  const { shelves } = brief;
  if (!shelves || Math.abs(o.at.u) > shelves.lengthMm / 2 + slackMm) return false;
  return shelves.heightsMm.some((z) => o.at.v >= z - slackMm && o.at.v <= z + shelves.thicknessMm + slackMm);
}

function inCarcassPlaces(o: BookedOffset, brief: Brief): boolean {
  const within = (value: number, from: number, to: number) => value >= from - slackMm && value <= to + slackMm;
  const half = brief.openingMm.width / 2;
  const depth = (y: number) => within(y, brief.mouthMm, brief.carcassFrontMm + brief.carcassMm.depth.nominalMm);
  const foot = brief.plinthMm + finishOn(brief, 'floor');
  const height = (z: number) => within(z, foot, foot + brief.carcassMm.height.nominalMm);
  if (o.side === 'back') return within(o.at.u, -half, half) && height(o.at.v);
  if (o.side === 'left' || o.side === 'right') return depth(o.at.u) && height(o.at.v);
  return within(o.at.u, -half, half) && depth(o.at.v);
}

/** Under the sloped part of the nominal's top, which stands in the middle of the room. */
function inSlopedPart(o: BookedOffset, brief: Brief): boolean {
  const nominal = nominalCarcass(brief);
  const stretch = slopedStretch(nominal);
  if (!stretch || !inCarcassPlaces(o, brief)) return false;
  const x = o.at.u + nominal.widthMm / 2;
  // Beside the carcass the slope still counts: it is made wider, by as much as is found.
  const ends = brief.slope?.low === 'left' ? [stretch[0] - 60, stretch[1]] : [stretch[0], stretch[1] + 60];
  return x >= (ends[0] as number) - slackMm && x <= (ends[1] as number) + slackMm;
}

function lineHeight(survey: Survey, place: SurfacePlace): number {
  const plane = survey.planes[place.along ?? ''];
  return plane ? plane.c / plane.nz - survey.world.hand.shift.z : 0;
}
