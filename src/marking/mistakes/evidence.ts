/**
 * The evidence that mistakes are found on: the figures of each size with the readings behind them, the places read, and
 * what the true room has there.
 */
import type { BayNumber } from '../../exercise/bays.ts';
import type { Brief } from '../../exercise/brief.ts';
import { ownCoordinates } from '../../recess/recess.ts';
import type { Side, Trim } from '../../recess/recess-spec.ts';
import { type BookedOffset, baseDatum, bookedOffsets, broughtOver, carriedStep, putTo } from '../../survey/offsets.ts';
import type { FoundPlace } from '../../survey/place.ts';
import { rightRule, type SizeName, sizeRules, sizesOf, toBeFound } from '../../survey/size.ts';
import { liveBookings, type Reading, type Span, type Survey } from '../../survey/survey.ts';
import { squareAt } from '../cut-outs.ts';
import { type Domain, type DomainSource, domainOf, domainSource, nearestIn, trueOffset } from '../domain.ts';
import type { SizeLedger } from '../ledger.ts';
import { middleSeen, placeWithinMm, readingBehind } from '../offset-chain.ts';
import type { Marks } from '../report.ts';
import { siteOf } from '../site.ts';
import { spanBehind } from '../span-chain.ts';
import { touchesWork } from '../touch.ts';

/** A figure on the sheet that is put to a size, with what is known of it. */
export interface Figure {
  readonly offset: BookedOffset;
  readonly n: number;
  readonly side: Side;
  /** As written, brought to the size's one datum by the steps that were carried. */
  readonly valueMm: number;
  /** What was added to bring it there. */
  readonly overMm: number;
  /** The reading of that place, from that datum; null where none was taken. */
  readonly reading: Reading | null;
  /** The middle of the line as seen. */
  readonly seenMm: number | null;
}

/** A place where a size was read, by rule or by tape. */
export interface PlaceRead {
  readonly n: number;
  readonly side: Side;
  readonly at: FoundPlace;
  /** True, where the place counts for the size; null where it does not. */
  readonly trueMm: number | null;
}

export interface Evidence {
  /** The survey as it concerns one recess, in that recess's frame. */
  readonly survey: Survey;
  /** The survey of the whole room, which acts are acted in. */
  readonly whole: Survey;
  readonly bay: BayNumber;
  readonly marks: Marks;
  readonly brief: Brief;
  readonly source: DomainSource;
  /** The sizes that are to be found and were sent. */
  readonly sizes: readonly SizeName[];
  figures(size: SizeName): readonly Figure[];
  placesRead(size: SizeName): readonly PlaceRead[];
  ledger(size: SizeName): SizeLedger;
  domain(size: SizeName): Domain;
}

/** Gathers the evidence of a recess of a survey that was handed in; its marks are those of that recess alone. */
export function gatherEvidence(whole: Survey, own: { bay: BayNumber; survey: Survey; marks: Marks }): Evidence {
  const { survey, marks, bay } = own;
  const { exercise, recess } = survey.world;
  const { brief } = exercise;
  const source = domainSource(siteOf(recess, exercise), squareAt(survey) ?? 0);
  const ledger = (size: SizeName) => {
    const found = marks.ledgers.find((l) => l.size === size);
    if (!found) throw new RangeError(`evidence: no ledger was kept of the ${size}`);
    return found;
  };
  const sizes = sizesOf(brief).filter((size) => toBeFound(size, brief) && ledger(size).proposedMm !== null);
  const domains = new Map(sizes.map((size) => [size, domainOf(source, size)]));
  const domain = (size: SizeName) => domains.get(size) ?? domainOf(source, size);
  const figures = new Map(sizes.map((size) => [size, figuresOf(survey, size)]));
  const places = new Map(sizes.map((size) => [size, placesOf(survey, source, domain(size))]));
  return {
    survey,
    whole,
    bay,
    marks,
    brief,
    source,
    sizes,
    figures: (size) => figures.get(size) ?? [],
    placesRead: (size) => places.get(size) ?? [],
    ledger,
    domain,
  };
}

/** Gives the true offset of the place that decides on a side, mm; null where the size has none there. */
export function decidedMm(from: Evidence, size: SizeName, side: Side): number | null {
  const decided = from.domain(size).decidedAt.find((d) => d.side === side);
  if (!decided) return null;
  const { u, v } = ownCoordinates(side, decided.at);
  return trueOffset(from.source, size, { side, u, v });
}

/**
 * Gives what the places read on a side cost against all that count: true, nothing of rule or set-up in it.
 *
 * @returns mm, >= 0 but for the key's last hundredth; 0 where nothing was read there
 */
export function leftOutMm(from: Evidence, size: SizeName, side: Side): number {
  const read = from.placesRead(size).flatMap((p) => (p.side === side && p.trueMm !== null ? [p.trueMm] : []));
  const decided = decidedMm(from, size, side);
  if (read.length === 0 || decided === null) return 0;
  return sizeRules[size].counts === 'least' ? Math.min(...read) - decided : decided - Math.max(...read);
}

/** Gives the trim that stays at a true place of a side; null on the bare surface. */
export function stayingAt(from: Evidence, side: Side, at: { u: number; v: number }): Trim | null {
  const covers = (t: Trim) => at.u >= t.uMm[0] && at.u <= t.uMm[1] && at.v >= t.vMm[0] && at.v <= t.vMm[1];
  return from.source.site.staying[side].find(covers) ?? null;
}

/** Works the right rule over figures, by a value of each; null where a side has none. */
export function ruledOver(
  size: SizeName,
  figures: readonly Figure[],
  value: (f: Figure) => number = (f) => f.valueMm,
): number | null {
  return (
    rightRule(
      size,
      figures.map((f) => ({ side: f.side, valueMm: value(f) })),
    )?.valueMm ?? null
  );
}

/** Gives what was proposed, in terms of offsets and less what was said to be allowed, mm. */
export function proposedOffsets(from: Evidence, size: SizeName): number {
  const { proposedMm, overMadeMm } = from.ledger(size);
  const allowed = from.survey.proposal?.allowanceMm?.[size] ?? 0;
  return (proposedMm ?? 0) + overMadeMm + (sizeRules[size].counts === 'least' ? allowed : 0 - allowed);
}

function figuresOf(survey: Survey, size: SizeName): readonly Figure[] {
  const { brief } = survey.world.exercise;
  const offsets = bookedOffsets(survey).filter((o) => putTo(o, brief).includes(size));
  const base = baseDatum(
    survey,
    offsets.map((o) => o.datum),
  );
  return offsets.map((offset): Figure => {
    const step = base === null ? null : carriedStep(survey, offset.datum, base);
    const overMm = step ? broughtOver(offset.side, step.stepMm) : 0;
    const reading = readingBehind(survey, offset);
    return {
      offset,
      n: offset.n,
      side: offset.side,
      valueMm: offset.valueMm + overMm,
      overMm,
      reading,
      seenMm: reading ? middleSeen(reading, survey.world.exercise.kit.rule) : null,
    };
  });
}

function placesOf(survey: Survey, source: DomainSource, domain: Domain): readonly PlaceRead[] {
  const { size } = domain;
  const { brief } = source.site;
  const placeRead = (n: number, at: FoundPlace): PlaceRead => {
    const near = touchesWork(source.site, at, size) ? nearestIn(domain, at, placeWithinMm) : null;
    return { n, side: at.side, at, trueMm: near && trueOffset(source, size, { side: at.side, ...near }) };
  };
  const byRule = bookedOffsets(survey)
    .filter((o) => putTo(o, brief).includes(size))
    .flatMap((o) => {
      const place = readingBehind(survey, o)?.place;
      return place ? [placeRead(o.n, place)] : [];
    });
  const byTape = spansOf(survey, size).flatMap(({ n, span }) => [placeRead(n, span.from), placeRead(n, span.end)]);
  return [...byRule, ...byTape];
}

/** Gives the live tape sizes that a size was come by through, with what they truly are. */
export function spansOf(
  survey: Survey,
  size: SizeName,
): readonly { readonly n: number; readonly span: Span; readonly writtenMm: number }[] {
  const { sides } = sizeRules[size];
  return liveBookings(survey).flatMap((b) => {
    const { what, place, to, check } = b.said;
    if (what !== 'span' || check === true || !('surface' in place) || typeof to !== 'string') return [];
    if (!sides.includes(place.surface) || !sides.includes(to)) return [];
    if (b.said.for !== undefined && !b.said.for.includes(size)) return [];
    const span = spanBehind(survey, b);
    return span ? [{ n: b.n, span, writtenMm: b.said.valueMm }] : [];
  });
}
