/**
 * The careful proof: what care is worth with a common kit. A careful learner with a class II rule and a level of
 * 0.3 mm/m, in half of the alcoves within that and in half out by all of it in everything, reads five heights by three depths a side: the worst of the sizes that are asked for lies within 2.5 mm of
 * the key in 90 of 100 alcoves, and the interval at k = 2 holds the right rule at the same places, true, in 93.
 */

import { openCode } from '../../src/exercise/exercise-code.ts';
import type { Kit, SetFaults } from '../../src/exercise/kit.ts';
import { surveyWithCare } from '../../src/learners/careful.ts';
import { carefulDensity } from '../../src/learners/reading-plan.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { sizeNames } from '../../src/survey/size.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { workOut } from '../../src/survey/working-out.ts';
import { openWorld } from '../../src/survey/world.ts';
import { drawnCode, drawsOf } from './draws.ts';
import {
  type Case,
  count,
  counted,
  eachCase,
  fail,
  keep,
  type Proof,
  percent,
  type Result,
  type Tally,
  table,
} from './proof.ts';
import { offsetsBooked, offsetsTrue } from './uncertainty.ts';

export const carefulProof: Proof = {
  name: 'careful',
  says: 'five heights by three depths a side, a class II rule, a level within 0.3 mm/m: the worst size within 2.5 mm of the key in 90 of 100 alcoves; k = 2 holds the places read in 93',
  full: 1000,
  small: 16,
  prove: (share) => eachCase(share, proveCareful),
  conclude,
};

const withinMm = 2.5;
const leastWithin = 0.9;
const leastHeld = 0.93;
const density = { ...carefulDensity, wallHeights: 5 };
const limitMm = 0.3;
const limits = { level: limitMm, plumb: limitMm, square: limitMm };
const kinds = ['within', 'at the limit'] as const;

function proveCareful(tally: Tally, at: Case): void {
  const code = drawnCode(drawsOf('careful', at.seed, at.index), at.index);
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const { kit } = opened.value;
  const faults = at.index % 2 === 0 ? ('within' as const) : [atTheLimit(at)];
  const own: Kit = { ...kit, level: { ...kit.level, limitsMmPerM: limits, faults } };
  const survey = surveyWithCare(beginSurvey(openWorld({ ...opened.value, code: null, kit: own })), density);
  const { marks } = markSurvey(survey);
  let worst = { mm: 0, size: '' };
  const kind = kinds[at.index % 2] ?? '';
  count(tally, 'alcoves');
  count(tally, kind);
  for (const worked of workOut(survey)) {
    const ledger = marks?.ledgers.find((l) => l.size === worked.size);
    if (!worked.find) continue;
    if (ledger?.how !== 'offsets' || ledger.missMm === null || worked.uMm === null) {
      fail(tally, at, `${code}, ${worked.size}: not surveyed by offsets`);
      continue;
    }
    if (Math.abs(ledger.missMm) > worst.mm) worst = { mm: Math.abs(ledger.missMm), size: worked.size };
    count(tally, worked.size);
    if (Math.abs(offsetsBooked(ledger) - offsetsTrue(ledger)) <= 2 * worked.uMm) count(tally, `${worked.size} held`);
    if (Math.abs(ledger.missMm) <= withinMm) count(tally, `${worked.size} within`);
    keep(tally, `${worked.size} miss`, Math.abs(ledger.missMm));
    keep(tally, `${worked.size} u`, worked.uMm);
    for (const { name, mm } of ledger.lines) keep(tally, `${worked.size} ${name}`, mm);
  }
  keep(tally, 'worst', worst.mm);
  if (worst.mm <= withinMm) {
    count(tally, 'within 2.5');
    count(tally, `${kind}: within 2.5`);
  } else count(tally, `worst is ${worst.size}`);
}

/** Every error of the level as large as is stated, either way. */
function atTheLimit(at: Case): SetFaults {
  const draws = drawsOf('careful/limit', at.seed, at.index);
  const out = () => draws.sign() * limitMm;
  return {
    levelForeMmPerM: out(),
    levelSideMmPerM: out(),
    plumbFMmPerM: out(),
    plumbSMmPerM: out(),
    squareMmPerM: out(),
  };
}

const alcoveSizes = sizeNames.slice(0, 5);

function conclude(tally: Tally): Result {
  const failures: string[] = [];
  const all = counted(tally, 'alcoves');
  const within = counted(tally, 'within 2.5');
  if (!(within >= leastWithin * all && all > 0))
    failures.push(`the worst size is within ${withinMm} mm in only ${within} of ${all} alcoves`);
  let [sizes, heldInAll] = [0, 0];
  const rows = alcoveSizes.map((size) => {
    const of = counted(tally, size);
    const held = counted(tally, `${size} held`);
    sizes += of;
    heldInAll += held;
    if (!(held >= leastHeld * of && of > 0)) failures.push(`${size}: only ${held} of ${of} are held at k = 2`);
    const misses = [...(tally.series[`${size} miss`] ?? [])].sort((a, b) => a - b);
    return [
      size,
      String(of),
      percent(counted(tally, `${size} within`), of),
      (misses[Math.floor(misses.length / 2)] ?? 0).toFixed(2),
      (misses[Math.floor(misses.length * 0.95)] ?? 0).toFixed(2),
      percent(held, of),
      meanOf(tally.series[`${size} u`]).toFixed(2),
      ...(['coverage', 'set-up', 'rule', 'booking'] as const).map((l) =>
        rmsOf(tally.series[`${size} ${l}`]).toFixed(2),
      ),
      String(counted(tally, `worst is ${size}`)),
    ];
  });
  const head = [
    'size',
    'alcoves',
    'within 2.5',
    'median miss, mm',
    '95th, mm',
    'held at k = 2',
    'mean u',
    'rms coverage',
    'rms set-up',
    'rms rule',
    'rms booking',
    'is the worst, past 2.5',
  ];
  return {
    lines: [
      `worst size within ${withinMm} mm: ${within} of ${all}, ${percent(within, all)}`,
      ...kinds.map((kind) => {
        const [of, good] = [counted(tally, kind), counted(tally, `${kind}: within 2.5`)];
        return `level ${kind} of 0.3 mm/m: ${good} of ${of}, ${percent(good, of)}`;
      }),
      `held at k = 2, all sizes together: ${heldInAll} of ${sizes}, ${percent(heldInAll, sizes)}`,
      '',
      ...table([head, ...rows]),
    ],
    failures,
  };
}

function meanOf(values: readonly number[] = []): number {
  return values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);
}

function rmsOf(values: readonly number[] = []): number {
  return Math.sqrt(meanOf(values.map((v) => v * v)));
}
