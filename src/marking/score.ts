/**
 * The score: points by heading, each with why, then the cap that scrap or rework puts on the total.
 *
 * A heading that the exercise does not have is left out and the rest is scaled to 100.
 */
import type { Exercise } from '../exercise/exercise.ts';
import type { Scale } from '../exercise/headings.ts';
import { wayIn } from '../exercise/way-in.ts';
import type { ClosingCheck } from '../survey/closing-checks.ts';
import { bookedOffsets } from '../survey/offsets.ts';
import { sizesSent } from '../survey/sent.ts';
import { sizesOf, toBeFound } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { standsUp } from './answer-key.ts';
import type { CutOutMark } from './cut-outs.ts';
import { faceLineOff } from './face-line.ts';
import { instrumentHeading } from './instrument-heading.ts';
import { type LineName, lineOf, type SizeLedger } from './ledger.ts';
import { readingBehind } from './offset-chain.ts';
import type { Verdict } from './verdict.ts';

export const headingNames = [
  'set-up',
  'coverage',
  'rule',
  'booking',
  'checks',
  'working-out',
  'will-it-go',
  'instrument',
] as const;
export type HeadingName = (typeof headingNames)[number];

/** What a part of a heading is about and what it came to: a size, a share, an answer. */
export interface Evidence {
  readonly what: string;
  readonly of: string;
  readonly value: number | string;
  /** Acts of the log that show it. */
  readonly acts: readonly number[];
}

export interface Heading {
  readonly name: HeadingName;
  readonly points: number;
  readonly of: number;
  readonly evidence: readonly Evidence[];
}

export interface Score {
  readonly headings: readonly Heading[];
  /** Out of 100, to a tenth, before and after the cap. */
  readonly uncapped: number;
  readonly total: number;
  readonly cap: 'scrap' | 'rework' | null;
}

/** What the score is made from. */
export interface ScoreSource {
  readonly survey: Survey;
  readonly ledgers: readonly SizeLedger[];
  readonly checks: readonly ClosingCheck[];
  readonly booking: BookingShare;
  readonly verdict: Verdict;
  readonly cutOuts?: readonly CutOutMark[];
}

/** How many live bookings are right, and which are not. */
export interface BookingShare {
  readonly right: number;
  readonly all: number;
  readonly notRight: readonly number[];
}

/** Scores a survey. */
export function scoreOf(from: ScoreSource): Score {
  const found = from.ledgers.filter((l) => l.how !== 'as-it-stands');
  const { headings } = from.survey.world.exercise;
  const list: Heading[] = [
    setUpHeading(from, found),
    worst('coverage', { ledgers: found, scale: headings.coverage, lines: ['coverage', 'method'] }),
    worst('rule', { ledgers: found, scale: headings.rule, lines: ['rule', 'booking'] }),
    bookingHeading(from),
    checksHeading(from),
    workingOutHeading(from),
    ...willItGoHeading(from),
    ...instrumentHeading(from.survey),
  ];
  return totalOf(list, from.verdict.word, headings);
}

/** Adds up headings, scaled to 100, and puts the cap of the verdict on. */
export function totalOf(list: readonly Heading[], word: Verdict['word'], headings: Exercise['headings']): Score {
  const earned = list.reduce((sum, h) => sum + h.points, 0);
  const available = list.reduce((sum, h) => sum + h.of, 0);
  const uncapped = tenth((100 * earned) / available);
  const cap = word === 'scrap' || word === 'rework' ? word : null;
  const most = cap ? headings.caps[cap] : 100;
  return { headings: list, uncapped, total: word === 'nothing' ? 0 : Math.min(uncapped, most), cap };
}

/** Points on a straight line: full at or under one size, none at or over the other. */
export function onScale(scale: Scale, mm: number): number {
  if (mm <= scale.fullMm) return scale.points;
  if (mm >= scale.noneMm) return 0;
  return (scale.points * (scale.noneMm - mm)) / (scale.noneMm - scale.fullMm);
}

function setUpHeading(from: ScoreSource, found: readonly SizeLedger[]): Heading {
  const { setUp } = from.survey.world.exercise.headings;
  const off = faceLineOff(from.survey);
  const most = off ? Math.max(Math.abs(off.leftMm), Math.abs(off.rightMm)) : null;
  const followed = most !== null && most <= setUp.referenceWithinMm;
  const setUps = found.filter((l) => l.how === 'offsets');
  const lines = setUps.length === 0 ? null : Math.max(...setUps.map((l) => Math.abs(lineOf(l, 'set-up'))));
  return {
    name: 'set-up',
    points: tenth((followed ? setUp.reference : 0) + (lines === null ? 0 : onScale(setUp.lines, lines))),
    of: setUp.reference + setUp.lines.points,
    evidence: [
      {
        what: 'face line off the reference',
        of: off?.datum ?? 'F',
        value: most === null ? 'none' : mm(most),
        acts: [],
      },
      ...setUps.map((l) => ({ what: 'set-up', of: l.size, value: lineOf(l, 'set-up'), acts: l.counting })),
    ],
  };
}

/** A heading by the worst size; a size that was not surveyed earns nothing. */
function worst(
  name: HeadingName,
  of: { ledgers: readonly SizeLedger[]; scale: Scale; lines: readonly LineName[] },
): Heading {
  const sizes = of.ledgers.map((l) => ({
    l,
    mm: of.lines.reduce((sum, line) => sum + Math.abs(lineOf(l, line)), 0),
    missing: l.how !== 'offsets' && l.how !== 'spans',
  }));
  const missing = sizes.length === 0 || sizes.some((s) => s.missing);
  const most = Math.max(0, ...sizes.map((s) => s.mm));
  return {
    name,
    points: missing ? 0 : tenth(onScale(of.scale, most)),
    of: of.scale.points,
    evidence: sizes.map((s) => ({
      what: of.lines.join(' and '),
      of: s.l.size,
      value: s.missing ? s.l.how : mm(s.mm),
      acts: s.l.counting,
    })),
  };
}

function bookingHeading(from: ScoreSource): Heading {
  const { points } = from.survey.world.exercise.headings.booking;
  const { right, all, notRight } = from.booking;
  return {
    name: 'booking',
    points: all === 0 ? 0 : tenth((points * right) / all),
    of: points,
    evidence: [{ what: 'bookings right', of: 'sheet', value: `${right} of ${all}`, acts: notRight }],
  };
}

function checksHeading(from: ScoreSource): Heading {
  const { exercise } = from.survey.world;
  const { made, actedOn, misclosureMm } = exercise.headings.checks;
  const matter = sizesOf(exercise.brief).filter((s) => toBeFound(s, exercise.brief));
  const checked = matter.filter((s) => from.checks.some((c) => c.sizes.includes(s)));
  const open = from.checks.filter((c) => Math.abs(c.misclosureMm) > misclosureMm);
  const left = open.filter((c) => !wasActedOn(from.survey, c));
  const share = from.checks.length === 0 ? 0 : open.length === 0 ? 1 : (open.length - left.length) / open.length;
  return {
    name: 'checks',
    points: tenth((made * checked.length) / matter.length + actedOn * share),
    of: made + actedOn,
    evidence: [
      { what: 'sizes checked', of: 'sheet', value: `${checked.length} of ${matter.length}`, acts: [] },
      ...from.checks.map((c) => ({
        what: `closing check, ${c.kind}`,
        of: 'misclosure',
        value: mm(c.misclosureMm),
        acts: [c.booking, ...c.against],
      })),
      ...left.map((c) => ({ what: 'misclosure left open', of: c.kind, value: mm(c.misclosureMm), acts: [c.booking] })),
    ],
  };
}

/** A misclosure is acted on when one of its places is read again afterwards. */
function wasActedOn(survey: Survey, check: ClosingCheck): boolean {
  const offsets = bookedOffsets(survey).filter((o) => check.against.includes(o.n));
  return survey.readings.some(
    (r) =>
      r.n > check.booking &&
      offsets.some((o) => {
        const again = readingBehind(survey, { ...o, n: r.n + 1, said: { ...o.said, reading: r.n } });
        return again?.n === r.n;
      }),
  );
}

function workingOutHeading(from: ScoreSource): Heading {
  const { workingOut } = from.survey.world.exercise.headings;
  const sizes = from.ledgers.map((l) => {
    const over = Math.max(0, Math.abs(lineOf(l, 'allowance')) - workingOut.allowanceFreeMm);
    const missing = l.how === 'not-surveyed' || l.how === 'not-proposed';
    return { l, mm: Math.abs(lineOf(l, 'working-out')) + over, missing };
  });
  const missing = sizes.some((s) => s.missing);
  const most = Math.max(0, ...sizes.map((s) => s.mm));
  return {
    name: 'working-out',
    points: missing ? 0 : tenth(onScale(workingOut, most)),
    of: workingOut.points,
    evidence: sizes.map((s) => ({
      what: 'working out',
      of: s.l.size,
      value: s.missing ? s.l.how : mm(s.mm),
      acts: s.l.counting,
    })),
  };
}

/** Stand-up, services and setting out: each that the brief asks for counts alike. */
function willItGoHeading(from: ScoreSource): Heading[] {
  const { exercise } = from.survey.world;
  const parts = [...questionParts(from), ...cutOutParts(from), ...runParts(from)];
  if (parts.length === 0) return [];
  const { points } = exercise.headings.willItGo;
  const right = parts.filter((p) => p.right).length;
  return [
    {
      name: 'will-it-go',
      points: parts.length === 1 ? points * right : tenth((points * right) / parts.length),
      of: points,
      evidence: parts.map((p) => p.evidence),
    },
  ];
}

/** A thing that was to be asked, and whether it came out right. */
interface Part {
  readonly right: boolean;
  readonly evidence: Evidence;
}

/** The questions of the way in that the brief has: each answer against what is true of what was sent. */
function questionParts(from: ScoreSource): Part[] {
  return willItGoTruths(from.survey.world.exercise, from.survey).map(({ question, truth }) => {
    const said = from.survey.answers.filter((a) => a.question === question).at(-1);
    const acts = from.survey.entries.filter((e) => e.act === said).map((e) => e.n);
    return {
      right: said !== undefined && said.answer === truth,
      evidence: { what: willItGoWords[question], of: truth, value: said?.answer ?? 'not asked', acts },
    };
  });
}

function cutOutParts(from: ScoreSource): Part[] {
  const most = from.survey.world.exercise.brief.cutOutSpareMm?.most ?? Number.MAX_VALUE;
  return (from.cutOuts ?? []).map(({ name, spareMm }) => {
    const all = spareMm ? Object.values(spareMm) : [];
    const least = Math.min(...all);
    return {
      right: spareMm !== null && least >= 0 && Math.max(...all) <= most,
      evidence: { what: 'cut-out clears by', of: name, value: spareMm ? mm(least) : 'none', acts: [] },
    };
  });
}

function runParts(from: ScoreSource): Part[] {
  const { run } = from.verdict;
  if (run === undefined) return [];
  const { visibleMm } = from.survey.world.exercise.headings.limits;
  return [
    {
      right: run !== null && run.unevenMm <= visibleMm,
      evidence: { what: 'worst joint off even widths', of: 'run', value: run ? mm(run.unevenMm) : 'none', acts: [] },
    },
  ];
}

const willItGoWords = {
  'stand-up': 'stands up',
  door: 'comes through the door',
  turn: 'comes round the turn',
} as const;

/** The questions that the brief has, with what is true of what was sent. */
function willItGoTruths(exercise: Exercise, survey: Survey) {
  if (!exercise.brief.access) return [];
  const said = sizesSent(survey);
  const up = said ? standsUp(exercise.brief, said) : null;
  const { door, turn } = exercise.brief.access;
  const way = said ? wayIn(exercise.brief, said) : null;
  const truth = (found: { ok: boolean } | null | undefined) => (found?.ok ? 'yes' : 'no');
  return [
    { question: 'stand-up' as const, truth: truth(up) },
    ...(door ? [{ question: 'door' as const, truth: truth(way?.door) }] : []),
    ...(turn ? [{ question: 'turn' as const, truth: truth(way?.turn) }] : []),
  ];
}

function tenth(points: number): number {
  return Math.round(points * 10) / 10;
}

function mm(value: number): number {
  return Math.round(value * 100) / 100;
}
