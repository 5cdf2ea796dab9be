/**
 * The costs proof: what each way of working costs in the width of a carcass, over drawn alcoves. Six offsets a side wall,
 * three heights at the front and at the back, are read from a level without faults, then with one thing otherwise: the
 * level's faults, the eye, the places, the marks that the square line is carried over by.
 *
 * The ranking is that of the trade's job map, part A3: leaving out the back costs far more than a level out of plumb by
 * 2 mm/m, marks 300 mm apart more than marks 1200 apart. Its figures (48 % against 3.3 % that jam; 5.3 mm against 1.1 at
 * 2.4 m) are those of a model of its own, with rooms of its own: they are printed beside, not held.
 */
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode } from '../../src/exercise/exercise-code.ts';
import type { SetFaults } from '../../src/exercise/kit.ts';
import { signedDistance } from '../../src/geometry/plane.ts';
import { clearWhatComesOff, lineHeight } from '../../src/learners/careful.ts';
import type { Hand } from '../../src/learners/hand.ts';
import { standOnReference } from '../../src/learners/lining-up.ts';
import { onSideWall, type Slip, surveyWith } from '../../src/learners/mistaken/method.ts';
import { carefulDensity } from '../../src/learners/reading-plan.ts';
import { type DomainSource, domainSource } from '../../src/marking/domain.ts';
import { keepLedger, lineOf } from '../../src/marking/ledger.ts';
import { siteOf } from '../../src/marking/site.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { type Draws, drawnCode, drawsOf } from './draws.ts';
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

export const costsProof: Proof = {
  name: 'costs',
  says: 'leaving out the back costs far more than 2 mm/m of plumb, marks 300 apart more than marks 1200 apart',
  full: 1000,
  small: 10,
  prove: (share) => eachCase(share, proveCosts),
  conclude,
};

interface Way {
  readonly name: string;
  /** In the job map: the share that jams. */
  readonly printed?: string;
  faults?(draws: Draws): SetFaults;
  slip?(draws: Draws): Slip;
  /** How far apart the marks are that the square line is carried over by, mm. */
  readonly apartMm?: number;
  /** The rule, the hand and the eye are without error. */
  readonly exact?: boolean;
}

const either = (mmPerM: number) => (draws: Draws) => mmPerM * draws.sign();

const ways: readonly Way[] = [
  { name: 'without error', printed: '0.4 %', exact: true },
  { name: 'as the kit is', exact: false },
  { name: 'plumb out by 1 mm/m', printed: '0.6 %', faults: (d) => ({ plumbSMmPerM: either(1)(d) }) },
  { name: 'plumb out by 2 mm/m', printed: '3.3 %', faults: (d) => ({ plumbSMmPerM: either(2)(d) }) },
  { name: 'square out by 5 mm/m', printed: '1.1 %', faults: (d) => ({ squareMmPerM: either(5)(d) }) },
  {
    name: 'the edge of the line',
    printed: '3.5 %',
    slip: () => ({ habit: () => ({ written: ([, far]) => half(far) }) }),
  },
  {
    name: 'the eye off by 1.5 mm',
    printed: '1.1 %',
    slip: (d) => ({ habit: () => ({ written: ([low, high]) => half((low + high) / 2 + 1.5 * bellOf(d)) }) }),
  },
  { name: 'the back left out', printed: '48 %', slip: () => ({ plans: frontAlone }) },
  { name: 'marks 300 apart', apartMm: 300 },
  { name: 'marks 600 apart', apartMm: 600 },
  { name: 'marks 1200 apart', apartMm: 1200 },
];

const density = { ...carefulDensity, wallHeights: 3, wallDepths: 2 };
const clearanceMm = 5;
/** Where the nearer mark is put out in the room, and how far from the first mark the line is looked at, mm. */
const nearMarkMm = -150;
const lookedAtMm = 2400;
/** The pencil's and the plumb dot's slip, each along the line's normal: standard deviations of the kit. */
const slips = { pencil: 0.2, dot: 0.3, aim: 0.2 };

function proveCosts(tally: Tally, at: Case): void {
  const code = drawnCode(drawsOf('costs', at.seed, at.index), at.index);
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const exercise = opened.value;
  const source = domainSource(siteOf(buildRecess(exercise.spec), exercise));
  for (const way of ways) {
    const draws = drawsOf('costs', way.name, at.seed, at.index);
    const survey = surveyWith(beginSurvey(openWorld(kitOf(exercise, way, draws))), slipOf(way, draws));
    tell(tally, at, { survey, source, way, code });
  }
}

function tell(tally: Tally, at: Case, of: { survey: Survey; source: DomainSource; way: Way; code: string }): void {
  const { name, apartMm } = of.way;
  const ledger = keepLedger(of.survey, of.source, 'carcass-width');
  if (ledger.how !== 'offsets' || ledger.missMm === null) {
    fail(tally, at, `${of.code}, ${name}: ${ledger.how}`);
    return;
  }
  count(tally, name);
  if (ledger.missMm > clearanceMm) count(tally, `${name}: jams`);
  keep(tally, `${name}: miss`, ledger.missMm);
  keep(tally, `${name}: set-up`, lineOf(ledger, 'set-up'));
  if (apartMm !== undefined) keep(tally, `${name}: far`, farOff(of.survey, apartMm));
}

/** How far S2 has run off S, so far from the mark that the level stands over. */
function farOff(survey: Survey, apartMm: number): number {
  const [s, s2] = [survey.planes['S'], survey.planes['S2']];
  if (!s || !s2) throw new Error('no second square line');
  const from = nearMarkMm - apartMm;
  const x = s.c / s.nx - (s.ny / s.nx) * (from + lookedAtMm);
  return signedDistance(s2, { x, y: from + lookedAtMm, z: 0 });
}

function kitOf(exercise: Exercise, way: Way, draws: Draws): Exercise {
  const { kit } = exercise;
  const level = way.faults ? { ...kit.level, faults: [way.faults(draws)] } : kit.level;
  return { ...exercise, code: null, kit: { ...kit, level, rule: { ...kit.rule, errors: way.exact !== true } } };
}

/** The side walls alone, nothing checked and nothing closed: what it costs shows in the width. */
function slipOf(way: Way, draws: Draws): Slip {
  const own = way.slip?.(draws) ?? {};
  const { apartMm } = way;
  return {
    density,
    checks: false,
    watches: false,
    closes: false,
    begins: apartMm === undefined ? begin : (hand) => carryOver(hand, apartMm),
    ...own,
    plans: (readings, hand) => {
      const walls = readings.filter((r) => onSideWall(r) && r.place.along === undefined);
      return own.plans?.(walls, hand) ?? walls;
    },
  };
}

function begin(hand: Hand): void {
  clearWhatComesOff(hand);
  standOnReference(hand, lineHeight(hand.now().world.exercise.brief.openingMm.height));
}

/** Marks the square line on the floor out in the room, stands over the farther mark and casts it back through the nearer. */
function carryOver(hand: Hand, apartMm: number): void {
  begin(hand);
  const mark = (yMm: number) => hand.act({ act: 'mark', place: { surface: 'floor', along: 'S', yMm } });
  const near = mark(nearMarkMm);
  const far = mark(nearMarkMm - apartMm);
  if (!near.ok || !far.ok || near.mark === undefined || far.mark === undefined) throw new Error('no marks');
  const heightMm = lineHeight(hand.now().world.exercise.brief.openingMm.height);
  hand.act({ act: 'stand', xMm: 0, yMm: nearMarkMm - apartMm, heightMm, over: far.mark });
  hand.act({ act: 'settle' });
  const aimed = hand.act({ act: 'aim', plane: 'S', at: { mark: near.mark } });
  if (!aimed.ok) throw new Error(aimed.error.code);
}

const frontAlone: NonNullable<Slip['plans']> = (readings) => {
  const front = Math.min(...readings.map((r) => r.place.yMm ?? 0));
  return readings.filter((r) => r.place.yMm === front);
};

function half(mm: number): number {
  return Math.round(mm * 2) / 2;
}

/** Near to normal: the sum of twelve even draws, less six. */
function bellOf(draws: Draws): number {
  return Array.from({ length: 12 }, () => draws.between(0, 1)).reduce((sum, x) => sum + x, -6);
}

/** The line's sideways spread at a distance from the far mark, marks b apart: each mark's slip by its lever. */
function closedForm(apartMm: number): number {
  const t = lookedAtMm / apartMm;
  return Math.hypot((1 - t) * Math.hypot(slips.pencil, slips.dot), t * Math.hypot(slips.pencil, slips.aim));
}

function conclude(tally: Tally): Result {
  const jams = (name: string) => counted(tally, `${name}: jams`) / Math.max(1, counted(tally, name));
  const rms = (what: string) => rootMean(tally.series[what] ?? []);
  const rows = ways.map(({ name, printed, apartMm }) => [
    name,
    String(counted(tally, name)),
    percent(counted(tally, `${name}: jams`), counted(tally, name)),
    printed ?? '-',
    rms(`${name}: miss`).toFixed(2),
    rms(`${name}: set-up`).toFixed(2),
    apartMm === undefined ? '-' : rms(`${name}: far`).toFixed(2),
    apartMm === undefined ? '-' : closedForm(apartMm).toFixed(2),
  ]);
  const [back, plumb] = ['the back left out', 'plumb out by 2 mm/m'] as const;
  const failures = [
    ...(jams(back) > 3 * jams(plumb) && rms(`${back}: miss`) > 1.5 * rms(`${plumb}: miss`)
      ? []
      : ['leaving out the back does not cost far more than 2 mm/m of plumb']),
    ...(rms('marks 300 apart: set-up') > 1.5 * rms('marks 1200 apart: set-up')
      ? []
      : ['marks 300 apart do not cost more than marks 1200 apart']),
    ...ways.flatMap(({ name, apartMm }) => offClosedForm(tally, name, apartMm)),
  ];
  const head = [
    'way',
    'alcoves',
    'width jams by 5 mm',
    'job map',
    'rms miss, mm',
    'rms set-up line, mm',
    'line off at 2.4 m, rms',
    'closed form',
  ];
  return { lines: table([head, ...rows]), failures };
}

/** The square line runs off as its marks' slips and levers say. */
function offClosedForm(tally: Tally, name: string, apartMm: number | undefined): string[] {
  const far = tally.series[`${name}: far`] ?? [];
  if (apartMm === undefined) return [];
  const [seen, wanted] = [rootMean(far), closedForm(apartMm)];
  // Of n values a standard deviation is known to 1 / sqrt(2 n) of itself.
  const slack = 4 * wanted * Math.sqrt(1 / (2 * Math.max(1, far.length)));
  return Math.abs(seen - wanted) <= slack ? [] : [`${name}: ${seen} off at 2.4 m, by the closed form ${wanted}`];
}

function rootMean(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / Math.max(1, values.length));
}
