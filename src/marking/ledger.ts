/**
 * The error ledger: where each millimetre between a proposal and the key came from, by steps that are each computed.
 *
 * In terms of offsets: K0 the right rule over all places that count, true; K1 over the places read, true; K2 the same
 * readings at their own wall points, from the datums as set up; K3 as seen on the rule; K4 as written; K5 over all live
 * bookings; P what was proposed. A line is one step less the one before, + is a piece too large. Each K is rounded once,
 * to 1/1024 mm, so the lines add up exactly.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { isPhysical } from '../exercise/kit.ts';
import { boxSent } from '../survey/sent.ts';
import { boxSize, offsetsOverMade, type SizeName, sizeRules, toBeFound } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { type Domain, type DomainSource, domainOf } from './domain.ts';
import { type Chain, offsetChain } from './offset-chain.ts';
import { type SetUpPart, splitSetUp } from './set-up-split.ts';
import { spanChain } from './span-chain.ts';

export const lineNames = [
  'coverage',
  'method',
  'set-up',
  'rule',
  'booking',
  'transfer',
  'not-read',
  'working-out',
  'allowance',
  'not-surveyed',
] as const;
export type LineName = (typeof lineNames)[number];

export interface LedgerLine {
  readonly name: LineName;
  /** + is a piece too large. */
  readonly mm: number;
  /** The part of a booking line that rounding to the half graduation explains. */
  readonly ofWhichRoundingMm?: number;
  /** The set-up line by cause, where the kit's levels are more than lines without faults. */
  readonly parts?: readonly SetUpPart[];
}

/** How a size was come by. */
export type Method = 'offsets' | 'spans' | 'not-surveyed' | 'as-it-stands' | 'not-proposed';

export interface SizeLedger {
  readonly size: SizeName;
  readonly how: Method;
  /** K0 in terms of what is made: the key less what is asked, or with the least stock. */
  readonly keyMm: number;
  readonly proposedMm: number | null;
  /** The sum of the lines; null where nothing was proposed. */
  readonly missMm: number | null;
  readonly lines: readonly LedgerLine[];
  /** What brings the made size into terms of offsets: what is asked, the plinth or the front. */
  readonly overMadeMm: number;
  /** The bookings that count in K5, by their numbers. */
  readonly counting: readonly number[];
  readonly decidedAt: Domain['decidedAt'];
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
}

/** Keeps the ledger of one size. */
export function keepLedger(survey: Survey, source: DomainSource, size: SizeName): SizeLedger {
  const { exercise } = survey.world;
  const domain = domainOf(source, size, boxSent(survey)?.width);
  const overMadeMm = offsetsOverMade(size, exercise.brief);
  const proposedMm = proposedSize(survey, size);
  const base = { size, overMadeMm, proposedMm, decidedAt: domain.decidedAt };
  if (!toBeFound(size, exercise.brief)) return asItStands(exercise, base);
  const k0 = toGrain(domain.wholeMm);
  const keyMm = k0 - overMadeMm;
  if (proposedMm === null) return { ...base, how: 'not-proposed', keyMm, missMm: null, lines: [], counting: [] };
  const p = toGrain(proposedMm + overMadeMm);
  const chain = offsetChain(survey, source, domain) ?? spanChain(survey, source, domain);
  if (!chain) {
    const lines: LedgerLine[] = [{ name: 'not-surveyed', mm: p - k0 }];
    return { ...base, how: 'not-surveyed', keyMm, missMm: p - k0, lines, counting: [] };
  }
  const split = chain.how === 'offsets' && isPhysical(exercise.kit);
  const parts = split ? partsOf(survey, { source, domain, ofLineMm: toGrain(chain.k2) - toGrain(chain.k1) }) : null;
  const lines = [...linesOf(k0, chain, parts), ...lastLines(survey, size, p - toGrain(chain.k5))];
  return { ...base, how: chain.how, keyMm, missMm: p - k0, lines, counting: chain.counting };
}

/** Gives a line of a ledger, mm; 0 when it has none. */
export function lineOf(ledger: SizeLedger, name: LineName): number {
  return ledger.lines.find((l) => l.name === name)?.mm ?? 0;
}

/** Gives the size that was proposed, mm; null when it was not. */
export function proposedSize(survey: Survey, size: SizeName): number | null {
  const said = survey.proposal;
  const box = boxSize(size);
  if (box) return boxSent(survey)?.[box] ?? null;
  if (size === 'slope-low') return said?.carcassMm?.slope?.low ?? null;
  if (size === 'slope-high') return said?.carcassMm?.slope?.high ?? null;
  if (size === 'frame-width') return said?.frameMm?.width ?? null;
  if (size === 'shelf-depth') return said?.shelfMm?.depth ?? null;
  const ends = said?.runMm;
  if (size === 'run-left') return ends ? 0 - (ends[0] as number) : null;
  if (size === 'run-right') return ends?.at(-1) ?? null;
  return said?.frameMm?.height ?? null;
}

/** Rounds a step of the chain, once. */
export function toGrain(mm: number): number {
  return Math.round(mm * 1024) / 1024;
}

/** The parts of the set-up line, each rounded once; the rest takes up what rounding leaves. */
function partsOf(survey: Survey, from: Parameters<typeof splitSetUp>[1]): readonly SetUpPart[] {
  const parts = splitSetUp(survey, from).map((p) => ({ ...p, mm: toGrain(p.mm) }));
  const causes = parts.slice(0, -1);
  const sum = causes.reduce((all, p) => all + p.mm, 0);
  return [...causes, { cause: 'rest', mm: from.ofLineMm - sum }];
}

function linesOf(k0: number, chain: Chain, parts: readonly SetUpPart[] | null): LedgerLine[] {
  const k = { k1: toGrain(chain.k1), k2: toGrain(chain.k2), k3: toGrain(chain.k3), k4: toGrain(chain.k4) };
  const carried = toGrain(chain.k4NotCarried);
  const booking: LedgerLine = {
    name: 'booking',
    mm: k.k4 - k.k3,
    ofWhichRoundingMm: toGrain(chain.roundingMm),
  };
  const second: LedgerLine = {
    name: chain.how === 'spans' ? 'method' : 'set-up',
    mm: k.k2 - k.k1,
    ...(parts ? { parts } : {}),
  };
  return [
    { name: 'coverage', mm: k.k1 - k0 },
    second,
    { name: 'rule', mm: k.k3 - k.k2 },
    booking,
    ...(chain.k4NotCarried === chain.k4 ? [] : [{ name: 'transfer' as const, mm: carried - k.k4 }]),
    { name: 'not-read', mm: toGrain(chain.k5) - carried },
  ];
}

/** What was done after the bookings: the working out, less an allowance that was said. */
function lastLines(survey: Survey, size: SizeName, mm: number): LedgerLine[] {
  const said = survey.proposal?.allowanceMm?.[size] ?? 0;
  const allowance = toGrain(sizeRules[size].counts === 'least' ? 0 - said : said);
  return [
    { name: 'working-out', mm: mm - allowance },
    ...(said === 0 ? [] : [{ name: 'allowance' as const, mm: allowance }]),
  ];
}

function asItStands(
  exercise: Exercise,
  base: Pick<SizeLedger, 'size' | 'overMadeMm' | 'proposedMm' | 'decidedAt'>,
): SizeLedger {
  const { carcassMm, slope } = exercise.brief;
  const ends = { 'slope-low': slope?.lowMm, 'slope-high': slope?.highMm };
  const keyMm = ends[base.size as 'slope-low'] ?? carcassMm[boxSize(base.size) ?? 'width'].nominalMm;
  if (base.proposedMm === null) return { ...base, how: 'not-proposed', keyMm, missMm: null, lines: [], counting: [] };
  const mm = toGrain(base.proposedMm - keyMm);
  return { ...base, how: 'as-it-stands', keyMm, missMm: mm, lines: [{ name: 'working-out', mm }], counting: [] };
}
