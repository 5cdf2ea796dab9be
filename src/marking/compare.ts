/**
 * Two surveys of one room side by side: where each was read, and ledger against ledger.
 */
import type { BayNumber } from '../exercise/bays.ts';
import { ownCoordinates } from '../recess/recess.ts';
import { type Side, sides } from '../recess/recess-spec.ts';
import { eachBay } from '../survey/in-bay.ts';
import { type SizeName, sizeRules } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import type { LineName, SizeLedger } from './ledger.ts';
import type { Counts, Report } from './report.ts';
import type { VerdictWord } from './verdict.ts';

/** One thing of each: the first survey's, then the other's. */
export type Two<T> = readonly [T, T];

/** A place that was read, by its surface's own true coordinates, mm. */
export interface ReadAt {
  readonly u: number;
  readonly v: number;
}

export interface SideCompared {
  readonly bay: BayNumber;
  readonly side: Side;
  readonly read: Two<readonly ReadAt[]>;
  /** Where sizes are decided on it. */
  readonly decided: readonly (ReadAt & {
    readonly size: SizeName;
    /** How far along the surface the nearest reading was, mm; null where none was on that side. */
    readonly nearestMm: Two<number | null>;
  })[];
}

export interface SizeCompared {
  readonly size: SizeName;
  readonly bay: BayNumber;
  readonly keyMm: number;
  readonly proposedMm: Two<number | null>;
  readonly missMm: Two<number | null>;
  /** The lines that either has, in the ledger's order. */
  readonly lines: readonly { readonly name: LineName; readonly mm: Two<number> }[];
}

export interface Comparison {
  readonly verdict: Two<VerdictWord>;
  readonly score: Two<number>;
  readonly counts: Two<Counts>;
  readonly sizes: readonly SizeCompared[];
  readonly sides: readonly SideCompared[];
}

/** A survey with its report, which has marks. */
export interface Marked {
  readonly survey: Survey;
  readonly report: Report;
}

/**
 * Compares two surveys that were handed in.
 *
 * @throws {RangeError} if they are of two exercises, or one was never handed in
 */
export function compareSurveys(one: Marked, other: Marked): Comparison {
  const [a, b] = [one.report.marks, other.report.marks];
  if (!a || !b) throw new RangeError('compare: a survey is not handed in');
  const [mine, its] = [one.survey, other.survey];
  if (JSON.stringify(mine.world.exercise) !== JSON.stringify(its.world.exercise))
    throw new RangeError('compare: the two surveys are of different exercises');
  return {
    verdict: [a.verdict.word, b.verdict.word],
    score: [a.score.total, b.score.total],
    counts: [one.report.counts, other.report.counts],
    sizes: a.ledgers.flatMap((l, i) => sizeCompared(l, b.ledgers[i] as SizeLedger)),
    sides: eachBay(mine).flatMap(({ bay, survey }, i) =>
      sidesCompared(bay, [survey, eachBay(its)[i]?.survey ?? survey], ledgersIn(a.ledgers, bay)),
    ),
  };
}

function ledgersIn(ledgers: readonly SizeLedger[], bay: BayNumber): readonly SizeLedger[] {
  return ledgers.filter((l) => (l.bay ?? 1) === bay);
}

function sizeCompared(a: SizeLedger, b: SizeLedger): SizeCompared[] {
  if (a.how === 'as-it-stands' && b.how === 'as-it-stands') return [];
  const names = [...a.lines, ...b.lines].map((l) => l.name);
  const line = (of: SizeLedger, name: LineName) => of.lines.find((l) => l.name === name)?.mm ?? 0;
  return [
    {
      size: a.size,
      bay: a.bay ?? 1,
      keyMm: a.keyMm,
      proposedMm: [a.proposedMm, b.proposedMm],
      missMm: [a.missMm, b.missMm],
      lines: names
        .filter((name, i) => names.indexOf(name) === i)
        .map((name) => ({ name, mm: [line(a, name), line(b, name)] })),
    },
  ];
}

function sidesCompared(bay: BayNumber, two: Two<Survey>, ledgers: readonly SizeLedger[]): SideCompared[] {
  return sides.flatMap((side): SideCompared[] => {
    const read: Two<readonly ReadAt[]> = [readOn(two[0], side), readOn(two[1], side)];
    const decided = ledgers.flatMap(({ size, how, decidedAt }) =>
      how === 'as-it-stands'
        ? []
        : decidedAt
            .filter((d) => d.side === side)
            .map(({ at }) => {
              const { u, v } = ownCoordinates(side, at);
              const nearest = (of: Survey) => nearestMm(readFor(of, side, size), { u, v });
              return { size, u, v, nearestMm: [nearest(two[0]), nearest(two[1])] as const };
            }),
    );
    return read[0].length + read[1].length + decided.length === 0 ? [] : [{ bay, side, read, decided }];
  });
}

function readOn(survey: Survey, side: Side): readonly ReadAt[] {
  const byRule = survey.readings.filter((r) => r.side === side).map((r) => r.point);
  return [...byRule, ...tapedOn(survey, side)].map((point) => place(side, point));
}

/** The ends of tapes on a side. */
function tapedOn(survey: Survey, side: Side) {
  return survey.spans.flatMap(({ from, end }) => [from, end].filter((p) => p.side === side).map((p) => p.point));
}

/** The readings of a side from a line that the size is read from, and the ends of tapes. */
function readFor(survey: Survey, side: Side, size: SizeName): readonly ReadAt[] {
  const { datum } = sizeRules[size];
  const byRule = survey.readings.filter((r) => r.side === side && r.datum.startsWith(datum)).map((r) => r.point);
  return [...byRule, ...tapedOn(survey, side)].map((point) => place(side, point));
}

function place(side: Side, point: Survey['readings'][number]['point']): ReadAt {
  const { u, v } = ownCoordinates(side, point);
  return { u, v };
}

function nearestMm(read: readonly ReadAt[], at: ReadAt): number | null {
  const off = read.map((r) => Math.sqrt((r.u - at.u) * (r.u - at.u) + (r.v - at.v) * (r.v - at.v)));
  return off.length === 0 ? null : Math.min(...off);
}
