/**
 * Cut-outs from what stands on the sheet: a box's edges booked from the square line and from the level line, never from
 * another box, and brought to the datums that the work is set out from.
 */
import type { Trim } from '../recess/recess-spec.ts';
import { type BandEdge, type DatumKind, datumParts } from './act.ts';
import { type BookedOffset, baseDatum, bookedOffsets, carriedStep, mean, putTo } from './offsets.ts';
import { reckon } from './reckoning.ts';
import type { Survey } from './survey.ts';

export interface WorkedCutOut {
  readonly name: string;
  /** The middle from S, + to the right, and from L, + up, mm; null where an edge was not booked. */
  readonly fromS: number | null;
  readonly fromL: number | null;
  /** What is to be cut, the least spare all round put on. */
  readonly width: number | null;
  readonly height: number | null;
}

/** How far from a band, as it is seen, a booking of its edge may be said to be, mm. */
const nearMm = 40;

/** Works out every cut-out that the brief asks for. */
export function workOutCutOuts(survey: Survey): readonly WorkedCutOut[] {
  const { brief } = survey.world.exercise;
  const spare = brief.cutOutSpareMm?.least ?? 0;
  return cutOutTrims(survey).map((trim) => {
    const across = between(survey, trim, ['left', 'right']);
    const up = between(survey, trim, ['bottom', 'top']);
    return {
      name: trim.name,
      fromS: across?.middle ?? null,
      fromL: up?.middle ?? null,
      width: across && across.size + 2 * spare,
      height: up && up.size + 2 * spare,
    };
  });
}

/** Gives the bands that the brief has cut-outs for. */
export function cutOutTrims(survey: Survey): readonly Trim[] {
  const { spec, brief } = survey.world.exercise;
  const names = brief.cutOuts ?? [];
  return spec.trims.filter((t) => names.includes(t.name));
}

/** Gives the live bookings of an edge of a band, closing checks left out. */
export function edgeBookings(survey: Survey, trim: Trim, edge: BandEdge): readonly BookedOffset[] {
  const off = (at: number, [from, to]: readonly [number, number]) => Math.max(from - at, at - to, 0);
  return bookedOffsets(survey).filter(
    (o) =>
      o.edge === edge &&
      !o.check &&
      o.side === trim.surface &&
      datumParts(o.datum).kind === edgeDatum(edge) &&
      off(o.at.u, trim.uMm) <= nearMm &&
      off(o.at.v, trim.vMm) <= nearMm,
  );
}

/** The datum that an edge is booked from: left and right from S, top and bottom from L. */
export function edgeDatum(edge: BandEdge): DatumKind {
  return edge === 'top' || edge === 'bottom' ? 'L' : 'S';
}

/**
 * Gives the datum of a kind that work is set out from: the earliest of those that ends of a run and edges are booked
 * from, or that these are carried to; else the last one thrown; null when none was.
 */
export function setOutDatum(survey: Survey, kind: DatumKind): string | null {
  const { brief } = survey.world.exercise;
  const used = bookedOffsets(survey).filter(
    (o) =>
      datumParts(o.datum).kind === kind &&
      (o.edge !== undefined || putTo(o, brief).some((size) => size === 'run-left' || size === 'run-right')),
  );
  const base = baseDatum(
    survey,
    used.map((o) => o.datum),
  );
  return (
    base ??
    Object.keys(survey.planes)
      .filter((d) => datumParts(d).kind === kind)
      .at(-1) ??
    null
  );
}

/** The middle and the size between two edges from the datum that is set out from; null where one was not booked. */
function between(
  survey: Survey,
  trim: Trim,
  edges: readonly [BandEdge, BandEdge],
): { middle: number; size: number } | null {
  const [u, v] = [trim.uMm, trim.vMm];
  const [from, to] = edges[0] === 'left' ? u : v;
  const [ones, others] = edges.map((edge) => edgesAt(survey, trim, edge)) as [number[], number[]];
  let best: { middle: number; size: number } | null = null;
  for (const one of ones)
    for (const other of others) {
      const size = other - one;
      if (!best || Math.abs(size - (to - from)) < Math.abs(best.size - (to - from)))
        best = { middle: (one + other) / 2, size };
    }
  return best;
}

/**
 * Where an edge lies from the datum that is set out from, + right or up; none when it was not booked. One close by its
 * datum may lie to either side of it as far as the hand knows: then it is both, and the box's size tells which.
 */
function edgesAt(survey: Survey, trim: Trim, edge: BandEdge): number[] {
  const base = setOutDatum(survey, edgeDatum(edge));
  const bookings = edgeBookings(survey, trim, edge);
  const [first] = bookings;
  if (base === null || !first) return [];
  const off = reckonedOff(survey, first);
  const signs = Math.abs(off) < unsureMm ? [-1, 1] : [off < 0 ? -1 : 1];
  return signs.map((sign) =>
    mean(
      bookings.map((o) => {
        const step = carriedStep(survey, o.datum, base);
        return sign * o.valueMm + (step ? step.stepMm : 0);
      }),
    ),
  );
}

/** How surely the hand knows where a datum stands from what it sees, mm. */
const unsureMm = 25;

/** How far right of or above its datum a booked edge lies, by where the level is reckoned to stand. */
function reckonedOff(survey: Survey, o: BookedOffset): number {
  const { exercise } = survey.world;
  const level = reckon(exercise, survey.entries.slice(0, o.said.reading ?? o.n));
  if (!level) return unsureMm;
  return datumParts(o.datum).kind === 'L' ? o.at.v - level.at.z : o.at.u - level.at.x;
}
