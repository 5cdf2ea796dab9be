/**
 * Working out: sizes from what stands on the sheet, by the right rules, each with its uncertainty at the places read.
 *
 * What was not read is not in an uncertainty.
 */
import { unitsOf } from '../exercise/kit.ts';
import type { Side } from '../recess/recess-spec.ts';
import { eachBay, ofBay } from './in-bay.ts';
import { baseDatum, bookedOffsets, broughtOver, carriedStep, grouped, type OffsetGroup, putTo } from './offsets.ts';
import {
  forWorkshop,
  offsetsOverMade,
  rightRule,
  type SizeName,
  type SlopeEdge,
  sizesOf,
  type Term,
  toBeFound,
} from './size.ts';
import { chainage, isOfSlope, leftFromSquare, slopeEdge } from './slope-edge.ts';
import type { Survey } from './survey.ts';
import { type UncertainTerm, uSize } from './uncertainty.ts';

/** An offset in the table of a size. */
export interface WorkedTerm {
  readonly side: Side;
  readonly datum: string;
  readonly bookings: readonly number[];
  /** Brought to the one datum, mm. */
  readonly valueMm: number;
  /** What of it is allowed for, for a level that is out of true, mm; left out where nothing is. */
  readonly allowedMm?: number;
  /** Whether it is the one of its side that counts. */
  readonly counts: boolean;
  /** Where it was read, as its uncertainty asks. */
  readonly at: UncertainTerm;
  /** Of a place on a slope: how far right of the square line, mm. */
  readonly xMm?: number;
}

export interface WorkedSize {
  readonly size: SizeName;
  readonly find: boolean;
  readonly base: string | null;
  readonly terms: readonly WorkedTerm[];
  /** Datums used whose step to the base was never carried over. */
  readonly notCarried: readonly string[];
  /** In terms of offsets, mm; null where a side has none. */
  readonly offsetsMm: number | null;
  /** What is made of it: what is asked taken off, or the least stock put on, and rounded for the workshop. */
  readonly workshopMm: number | null;
  /** Standard uncertainty (k = 1) at the places read, to first order, mm. */
  readonly uMm: number | null;
  /** Of a sloped edge: where it lies by the sheet. */
  readonly edge?: SlopeEdge;
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
}

/** Works out every size that the brief asks for; of a pair, the left recess's first. */
export function workOut(survey: Survey): readonly WorkedSize[] {
  return eachBay(survey).flatMap(({ bay, survey: own }) =>
    sizesOf(own.world.exercise.brief).map((size) => ofBay(bay, workOutSize(own, size))),
  );
}

/** Works out one size. */
export function workOutSize(survey: Survey, size: SizeName): WorkedSize {
  const { brief } = survey.world.exercise;
  const groups = grouped(bookedOffsets(survey).filter((o) => putTo(o, brief).includes(size)));
  const base = baseDatum(
    survey,
    groups.map((g) => g.datum),
  );
  const square = isOfSlope(size) ? standingBy(survey) : null;
  const terms = groups.map(
    (g): Term => ({
      side: g.side,
      valueMm: g.meanMm + overTo(survey, g, base),
      ...(square && g.side === 'slope' ? { xMm: chainage(survey, square.datum, g.at) } : {}),
    }),
  );
  const result = rightRule(size, terms, square?.edge);
  const counting = new Set(result?.counting ?? []);
  const worked: WorkedTerm[] = groups.map((g, i) => ({
    side: g.side,
    datum: g.datum,
    bookings: g.bookings.map((b) => b.n),
    valueMm: terms[i]?.valueMm ?? g.meanMm,
    ...(g.allowedMm === 0 ? {} : { allowedMm: g.allowedMm }),
    counts: counting.has(i),
    at: uncertainTerm(g),
    ...(terms[i]?.xMm === undefined ? {} : { xMm: terms[i].xMm }),
  }));
  const notCarried = groups.filter((g) => base !== null && !carriedStep(survey, g.datum, base)).map((g) => g.datum);
  const made = result ? result.valueMm - offsetsOverMade(size, brief) : null;
  return {
    size,
    find: toBeFound(size, brief),
    base,
    terms: worked,
    notCarried: [...new Set(notCarried)],
    offsetsMm: result ? result.valueMm : null,
    workshopMm: made === null ? null : forWorkshop(size, made, unitsOf(survey.world.exercise.kit)),
    uMm: result
      ? uSize(
          survey.world.exercise,
          size,
          result.counting.map((i) => counted(worked[i])),
        )
      : null,
    ...(square?.edge ? { edge: square.edge } : {}),
  };
}

/**
 * Gives where the sloped edge lies by the sheet: from the square line that the walls were read from, the carcass between
 * them as wide as it is worked out, or as it was sent. With no width to go by, it stands in the middle of the room.
 */
export function standingBy(
  survey: Survey,
  sentMm?: number,
): { readonly datum: string | null; readonly edge: SlopeEdge | null } {
  const { brief } = survey.world.exercise;
  const width = workOutSize(survey, 'carcass-width');
  const made = width.find ? width.workshopMm : null;
  const widthMm = sentMm ?? made ?? brief.carcassMm.width.nominalMm;
  if (width.offsetsMm === null) return { datum: null, edge: slopeEdge(brief, { leftMm: 0 - widthMm / 2, widthMm }) };
  const counting = width.terms.flatMap((t, i) => (t.counts ? [i] : []));
  const leftMm = leftFromSquare(brief, { terms: width.terms, counting, widthMm });
  return { datum: width.base, edge: slopeEdge(brief, { leftMm, widthMm }) };
}

function overTo(survey: Survey, group: OffsetGroup, base: string | null): number {
  const step = base === null ? null : carriedStep(survey, group.datum, base);
  return step ? broughtOver(group.side, step.stepMm) : 0;
}

function counted(term: WorkedTerm | undefined): UncertainTerm {
  if (!term) throw new RangeError('working out: a counting offset is not on the sheet');
  return term.at;
}

function uncertainTerm(group: OffsetGroup): UncertainTerm {
  const isSide = group.side === 'left' || group.side === 'right';
  const isBack = group.side === 'back';
  return {
    lengthMm: Math.abs(group.meanMm),
    readings: group.bookings.length,
    y: isSide ? group.at.u : isBack ? 0 : group.at.v,
    x: isSide ? 0 : group.at.u,
    ...(isSide || isBack ? { z: group.at.v } : {}),
  };
}
