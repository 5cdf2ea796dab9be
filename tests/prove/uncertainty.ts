/**
 * Coverage of the stated uncertainty: what the careful learner works out, against the right rule at the same places,
 * true. The interval of two standard uncertainties must hold it in at least 93 of 100 surveys, size by size.
 *
 * From a ledger: K1 = key + coverage, and K5 = proposal less working out and allowance, both in terms of offsets.
 */
import { openCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { type LineName, type SizeLedger, toGrain } from '../../src/marking/ledger.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { sizeNames } from '../../src/survey/size.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { workOut } from '../../src/survey/working-out.ts';
import { openWorld } from '../../src/survey/world.ts';
import { drawnCode, drawsOf } from './draws.ts';
import {
  type Case,
  count,
  eachCase,
  fail,
  keep,
  most,
  type Proof,
  percent,
  type Result,
  type Tally,
  table,
} from './proof.ts';

export const uncertaintyProof: Proof = {
  name: 'uncertainty',
  says: 'the interval at k = 2 holds the right rule at the same places, true, in at least 93 of 100 surveys',
  full: 1000,
  small: 90,
  prove: (share) => eachCase(share, proveUncertainty),
  conclude,
};

const leastShare = 0.93;

function proveUncertainty(tally: Tally, at: Case): void {
  const code = drawnCode(drawsOf('uncertainty', at.seed, at.index), at.index);
  const opened = openCode(code);
  const careful = findLearner('careful');
  if (!opened.ok || !careful) throw new Error(`${code}: no exercise or no learner`);
  const survey = careful.survey(beginSurvey(openWorld(opened.value)));
  const { marks } = markSurvey(survey);
  for (const worked of workOut(survey)) {
    const ledger = marks?.ledgers.find((l) => l.size === worked.size);
    if (!worked.find) continue;
    if (ledger?.how !== 'offsets' || worked.uMm === null || !(worked.uMm > 0)) {
      fail(tally, at, `${code}, ${worked.size}: not surveyed by offsets, or no uncertainty stated`);
      continue;
    }
    const off = offsetsBooked(ledger) - offsetsTrue(ledger);
    count(tally, worked.size);
    if (Math.abs(off) <= 2 * worked.uMm) count(tally, `${worked.size} held`);
    keep(tally, worked.size, off / worked.uMm);
    keep(tally, `${worked.size} mm`, off);
    keep(tally, `${worked.size} u`, worked.uMm);
    most(tally, worked.size, { value: Math.abs(off) / worked.uMm, where: code });
  }
}

export function offsetsTrue(ledger: SizeLedger): number {
  return ledger.keyMm + ledger.overMadeMm + line(ledger, 'coverage');
}

export function offsetsBooked(ledger: SizeLedger): number {
  const made = toGrain((ledger.proposedMm ?? 0) + ledger.overMadeMm);
  return made - line(ledger, 'working-out') - line(ledger, 'allowance');
}

function line(ledger: SizeLedger, name: LineName): number {
  return ledger.lines.find((l) => l.name === name)?.mm ?? 0;
}

/** What the rooms of this proof ask for: a carcass and its frame. */
const alcoveSizes = sizeNames.slice(0, 5);

function conclude(tally: Tally): Result {
  const rows: string[][] = [];
  const failures: string[] = [];
  for (const size of alcoveSizes) {
    const all = tally.counts[size] ?? 0;
    const held = tally.counts[`${size} held`] ?? 0;
    const [mean, deviation] = spreadOf(tally.series[size] ?? []);
    const [meanMm, deviationMm] = spreadOf(tally.series[`${size} mm`] ?? []);
    const [u] = spreadOf(tally.series[`${size} u`] ?? []);
    if (!(held >= leastShare * all && all > 0)) failures.push(`${size}: only ${held} of ${all} are held at k = 2`);
    rows.push([
      size,
      String(all),
      percent(held, all),
      mean.toFixed(3),
      deviation.toFixed(3),
      (tally.most[size]?.value ?? 0).toFixed(2),
      meanMm.toFixed(3),
      deviationMm.toFixed(3),
      u.toFixed(3),
    ]);
  }
  const head = [
    'size',
    'surveys',
    'held at k = 2',
    'mean, u',
    'deviation, u',
    'farthest, u',
    'mean, mm',
    'deviation, mm',
    'mean u, mm',
  ];
  return { lines: table([head, ...rows]), failures };
}

function spreadOf(values: readonly number[]): [mean: number, deviation: number] {
  const count = Math.max(1, values.length);
  const mean = values.reduce((sum, v) => sum + v, 0) / count;
  return [mean, Math.sqrt(values.reduce((sum, v) => sum + (v - mean) * (v - mean), 0) / Math.max(1, count - 1))];
}
