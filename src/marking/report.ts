/**
 * The report on a survey: verdict, score, ledgers, closing checks and counts, as plain data.
 */
import type { BayNumber } from '../exercise/bays.ts';
import { type ClosingCheck, closingChecks } from '../survey/closing-checks.ts';
import { eachBay, ofBay } from '../survey/in-bay.ts';
import { sizesOf } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { type AnswerKey, answerKey } from './answer-key.ts';
import { bookingShare } from './booking-share.ts';
import { type CutOutMark, markCutOuts, squareAt } from './cut-outs.ts';
import { domainSource } from './domain.ts';
import { howSure, type SizeSure } from './how-sure.ts';
import { keepLedger, type SizeLedger } from './ledger.ts';
import { type Finding, findMistakes } from './mistakes/findings.ts';
import { type BayMarks, pairMarks } from './pair-marks.ts';
import { type Score, scoreOf } from './score.ts';
import { siteOf } from './site.ts';
import { siteMinutes } from './site-minutes.ts';
import { judge, type Verdict } from './verdict.ts';

export interface Report {
  readonly format: 'offtrue-report';
  readonly version: 1;
  /** The exercise's code; null where none stands for it. */
  readonly exercise: string | null;
  /** What was marked; null where the survey was never handed in. */
  readonly marks: Marks | null;
  readonly counts: Counts;
  /**
   * The mistakes that the survey shows, the costliest first. They are told beside what was marked and stand outside its
   * digest: the library grows, and an old log keeps its digest.
   */
  readonly findings?: readonly Finding[];
  /** How sure the learner said to be, against what came of it; left out where nothing was said. Outside the digest too. */
  readonly howSure?: readonly SizeSure[];
  /** How long it would take on site, reckoned from the acts. Outside the digest too. */
  readonly minutes?: number;
}

export interface Marks {
  readonly verdict: Verdict;
  readonly score: Score;
  readonly ledgers: readonly SizeLedger[];
  readonly checks: readonly ClosingCheck[];
  /** Left out where the brief has none. */
  readonly cutOuts?: readonly CutOutMark[];
  readonly key: Omit<AnswerKey, 'brief' | 'carcass' | 'frame'> | null;
  /** The marks of each recess of a pair; left out where there is one. */
  readonly bays?: readonly { readonly bay: BayNumber; readonly marks: Marks }[];
}

export interface Counts {
  readonly acts: number;
  readonly refused: number;
  readonly setUps: number;
  readonly marks: number;
  readonly readings: number;
  readonly spans: number;
  readonly bookings: number;
  readonly struck: number;
}

/** Marks a survey. It draws nothing: the same survey gives the same report, to the bit. */
export function markSurvey(survey: Survey): Report {
  return {
    format: 'offtrue-report',
    version: 1,
    exercise: survey.world.exercise.code,
    marks: survey.handedIn ? marksOf(survey) : null,
    counts: countsOf(survey),
  };
}

/** Marks a survey and finds its mistakes. */
export function reportOf(survey: Survey): Report {
  const report = markSurvey(survey);
  const recesses = report.marks ? eachMarked(survey) : [];
  const sure = recesses.flatMap((own) => howSure(own.survey, own.marks.ledgers).map((s) => ofBay(own.bay, s)));
  return {
    ...report,
    findings: report.marks ? findMistakes(survey, recesses) : [],
    ...(sure.length > 0 ? { howSure: sure } : {}),
    minutes: siteMinutes(survey.entries.map((e) => e.act)),
  };
}

function marksOf(survey: Survey): Marks {
  const [left, right] = eachMarked(survey);
  if (!left) throw new RangeError('report: a survey has no recess');
  return right ? pairMarks(survey, [left, right]) : left.marks;
}

function eachMarked(survey: Survey): readonly BayMarks[] {
  return eachBay(survey).map(({ bay, survey: own }) => ({ bay, survey: own, marks: marksOfOne(own) }));
}

function marksOfOne(survey: Survey): Marks {
  const { exercise, recess } = survey.world;
  const source = domainSource(siteOf(recess, exercise), squareAt(survey) ?? 0);
  const ledgers = sizesOf(exercise.brief).map((size) => keepLedger(survey, source, size));
  const checks = closingChecks(survey);
  const booking = bookingShare(survey);
  const cutOuts = markCutOuts(survey);
  const verdict = judge(survey, { ledgers, cutOuts }, booking.all === 0 ? 1 : booking.right / booking.all);
  return {
    verdict,
    score: scoreOf({ survey, ledgers, checks, booking, cutOuts, verdict }),
    ledgers,
    checks,
    ...(cutOuts.length > 0 ? { cutOuts } : {}),
    key: sizesOfKey(answerKey(recess, exercise)),
  };
}

function sizesOfKey(result: ReturnType<typeof answerKey>): Marks['key'] {
  if (!result.ok) return null;
  const { brief: _brief, carcass: _carcass, frame: _frame, ...sizes } = result.key;
  return sizes;
}

function countsOf(survey: Survey): Counts {
  return {
    acts: survey.entries.length,
    refused: survey.entries.filter((e) => !e.outcome.ok).length,
    setUps: survey.setUps,
    marks: survey.marksMade,
    readings: survey.readings.length,
    spans: survey.spans.length,
    bookings: survey.bookings.length,
    struck: survey.bookings.filter((b) => b.struck).length,
  };
}
