/**
 * The mistakes library: what is listed has a rule and a learner, findings are told well, and the laws of marking hold with
 * them: it draws nothing, the order of independent acts does not matter, no naive rule beats the right one on the same
 * readings, and one more true reading never costs points for coverage.
 */
import { describe, expect, it, test } from 'vitest';
import { digestOf, reportDigest } from '../../src/exchange/digest.ts';
import { isPhysical } from '../../src/exercise/kit.ts';
import { allLearners } from '../../src/learners/learner.ts';
import { type Slip, surveyWith } from '../../src/learners/mistaken/method.ts';
import { mistakenLearners } from '../../src/learners/mistaken/mistaken.ts';
import {
  averages,
  leastForFrame,
  leastSum,
  mostForCarcass,
  noStock,
  plinthFromMiddle,
} from '../../src/learners/mistaken/wrong-sums.ts';
import { carefulDensity } from '../../src/learners/reading-plan.ts';
import { mistakeIds } from '../../src/marking/mistakes/mistake.ts';
import { entails, mistakes } from '../../src/marking/mistakes/mistakes.ts';
import { markSurvey, type Report, reportOf } from '../../src/marking/report.ts';
import type { Act } from '../../src/survey/act.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { rightRule, type SizeName, type Term } from '../../src/survey/size.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { surveyOf } from '../helpers/surveying.ts';
import { drawsOf } from '../prove/draws.ts';

const rooms = drawnParts('mistakes', 3).map(exerciseOf);
const surveyed = (name: string): readonly Survey[] =>
  rooms.map((room) => allLearners.find((l) => l.name === name)!.survey(surveyOf(room)));

describe('the library', () => {
  it('has a rule, a name and a learner for every mistake that is listed, in the order of the list', () => {
    expect(mistakes.map((m) => m.id)).toEqual([...mistakeIds]);
    expect(new Set(mistakes.map((m) => m.name)).size).toBe(mistakeIds.length);
    expect(mistakenLearners.map((l) => l.mistake)).toEqual([...mistakeIds]);
    expect(new Set(allLearners.map((l) => l.name)).size).toBe(allLearners.length);
  });

  it('lets no mistake entail itself, nor two each other', () => {
    for (const [parent, children] of Object.entries(entails))
      for (const child of children) {
        expect(child).not.toBe(parent);
        expect(entails[child] ?? []).not.toContain(parent);
      }
  });
});

describe.each(['one-width', 'averages', 'swaps-sides', 'no-step', 'random'])(
  'the findings on the %s learner',
  (name) => {
    const done = surveyed(name);
    const reports = done.map(reportOf);

    it('are the same when they are found again, and leave the survey as it was', () => {
      done.forEach((survey, i) => {
        const before = JSON.stringify(survey.entries);
        expect(reportOf(survey)).toEqual(reports[i]);
        expect(JSON.stringify(survey.entries)).toBe(before);
      });
    });

    it('stand outside the digest of what was marked', () => {
      done.forEach((survey, i) => {
        expect(reportDigest(reports[i]!)).toBe(digestOf(markSurvey(survey)));
      });
    });

    it('are the costliest first, each over a millimetre, in plain words without praise or blame', () => {
      for (const { findings = [] } of reports) {
        const costs = findings.map((f) => f.costMm);
        expect(costs).toEqual([...costs].sort((a, b) => b - a));
        for (const f of findings) {
          expect(f.costMm).toBeGreaterThan(1);
          const words = [f.happened, f.did, f.next].map((ws) =>
            ws.map((w) => (typeof w === 'string' ? w : w.his)).join(''),
          );
          for (const said of [...words, ...(f.caught ? [f.caught.says] : [])]) {
            expect(said).toMatch(/\.$/);
            expect(said).not.toMatch(/!|wrong|undefined|NaN|null|well done|error/i);
          }
        }
      }
    });
  },
);

/** Acts again from the start, each act's `reading` moved to where that reading now stands. */
function actedInOrder(from: Survey, order: readonly number[]): Survey {
  const moved = new Map(order.map((n, i) => [n, i + 1]));
  return order.reduce((now, n) => {
    const { act } = from.entries[n - 1]!;
    const named = act.act === 'book' && act.reading !== undefined ? { ...act, reading: moved.get(act.reading)! } : act;
    return perform(now, named).survey;
  }, beginSurvey(from.world));
}

/**
 * What must not hang on the order: the sizes' ledgers without the numbers of acts, and what was found. Of two figures that
 * are written alike the first counts, so what rounding did to that one is left out.
 */
function orderless({ marks, findings = [] }: Report) {
  return {
    ledgers: marks?.ledgers.map(({ counting: _counting, lines, ...rest }) => ({
      ...rest,
      lines: lines.map(({ name, mm }) => ({ name, mm })),
    })),
    verdict: marks?.verdict,
    found: findings.map(({ mistake, costMm, sizes }) => ({ mistake, costMm, sizes })),
  };
}

test('the order of readings and bookings does not matter', () => {
  let moved = 0;
  for (const name of ['front-only', 'near-edge'])
    for (const survey of surveyed(name)) {
      // Where a level can move, its marks are looked at between readings: those do not stand by themselves.
      if (isPhysical(survey.world.exercise.kit)) continue;
      const isOwn = (act: Act) =>
        act.act === 'read' || (act.act === 'book' && act.check !== true && act.what === 'offset');
      const own = survey.entries.map((e, i) => (isOwn(e.act) ? i : -1)).filter((i) => i >= 0);
      const first = own[0]!;
      const end = survey.entries.findIndex((e, i) => i > first && !isOwn(e.act));
      const blocks: number[][] = [[]];
      for (let i = first; i < end; i++) {
        blocks.at(-1)!.push(i + 1);
        if (survey.entries[i]!.act.act === 'book') blocks.push([]);
      }
      // What closes begins with a tape: nothing of the plan stands after it.
      const last = blocks.pop()!;
      const numbers = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => from + i + 1);
      const order = [...numbers(0, first), ...blocks.reverse().flat(), ...last, ...numbers(end, survey.entries.length)];
      moved += blocks.length;
      expect(orderless(reportOf(actedInOrder(survey, order)))).toEqual(orderless(reportOf(survey)));
    }
  expect(moved).toBeGreaterThan(100);
});

/** Naive rules, over the offsets of two sides read at the same places. */
const naive: Readonly<Record<string, (left: readonly number[], right: readonly number[]) => number>> = {
  'least sum': (left, right) => Math.min(...left.map((l, i) => l + right[i]!)),
  'most sum': (left, right) => Math.max(...left.map((l, i) => l + right[i]!)),
  mean: (left, right) =>
    left.reduce((s, v) => s + v, 0) / left.length + right.reduce((s, v) => s + v, 0) / right.length,
  most: (left, right) => Math.max(...left) + Math.max(...right),
  least: (left, right) => Math.min(...left) + Math.min(...right),
};

/** @source sum of least <= least of sums, and sum of most >= most of sums: plain arithmetic */
test('no naive rule beats the right rule on the same readings', () => {
  const draws = drawsOf('mistakes', 'naive');
  for (let i = 0; i < 500; i++) {
    const count = 2 + draws.pick(12);
    const left = Array.from({ length: count }, () => draws.between(500, 520));
    const right = Array.from({ length: count }, () => draws.between(500, 520));
    const terms: Term[] = [
      ...left.map((valueMm): Term => ({ side: 'left', valueMm })),
      ...right.map((valueMm): Term => ({ side: 'right', valueMm })),
    ];
    const ruled = (size: SizeName) => rightRule(size, terms)!.valueMm;
    // Every place read has to be passed by the carcass, and covered by the frame: a rule is beaten by one that does both.
    const most = Math.min(...left) + Math.min(...right);
    for (const rule of Object.values(naive)) {
      const made = rule(left, right);
      if (made <= most + 1e-9) expect(made).toBeLessThanOrEqual(ruled('carcass-width') + 1e-9);
      expect(rule(left, right)).toBeGreaterThanOrEqual(ruled('carcass-width') - 1e-9);
      expect(rule(left, right)).toBeLessThanOrEqual(ruled('frame-width') + 1e-9);
    }
  }
});

test('no naive rule earns more on the same readings than the right rule does', () => {
  const sparse = { ...carefulDensity, wallHeights: 4, wallDepths: 2 };
  const slips = [leastSum, averages, mostForCarcass, leastForFrame, noStock, plinthFromMiddle];
  let lost = 0;
  for (const room of rooms) {
    const sent = (slip: Slip) => surveyWith(surveyOf(room), { ...slip, density: sparse });
    const right = sent({});
    const score = (s: Survey) => markSurvey(s).marks!.score;
    for (const slip of slips) {
      const naive = sent(slip);
      expect(naive.readings.map((r) => r.edgesMm)).toEqual(right.readings.map((r) => r.edgesMm));
      expect(score(naive).total).toBeLessThanOrEqual(score(right).total);
      expect(score(naive).uncapped).toBeLessThanOrEqual(score(right).uncapped);
      if (score(naive).total < score(right).total) lost++;
    }
  }
  expect(lost).toBeGreaterThan(6);
});

test('one more true reading never lowers the points for coverage', () => {
  const draws = drawsOf('mistakes', 'one more');
  let rises = 0;
  let taken = 0;
  for (const name of ['front-only', 'one-width', 'wall-as-plumb'])
    for (const survey of surveyed(name)) {
      const points = (s: Survey) => markSurvey(s).marks!.score.headings.find((h) => h.name === 'coverage')!.points;
      const end = survey.entries.findIndex((e) => e.act.act === 'propose');
      const before = survey.entries
        .slice(0, end)
        .reduce((now, e) => fold(now, e.act, e.outcome), beginSurvey(survey.world));
      for (let i = 0; i < 6; i++) {
        const { height, depth } = survey.world.exercise.brief.openingMm;
        const place = {
          surface: draws.one(['left', 'right'] as const),
          yMm: Math.round(draws.between(0, depth - 30)),
          zMm: Math.round(draws.between(200, height - 200)),
        };
        const seen = perform(before, { act: 'read', datum: 'S', place });
        if (!seen.outcome.ok || !seen.outcome.edgesMm) continue;
        const [low, high] = seen.outcome.edgesMm;
        const valueMm = (low + high) / 2;
        const booked = perform(seen.survey, {
          act: 'book',
          what: 'offset',
          valueMm,
          datum: 'S',
          place,
          for: ['carcass-width'],
        });
        const after = perform(perform(booked.survey, survey.proposal!).survey, { act: 'hand-in' }).survey;
        taken++;
        if (points(after) > points(survey)) rises++;
        expect(points(after)).toBeGreaterThanOrEqual(points(survey));
      }
    }
  expect(taken).toBeGreaterThan(25);
  expect(rises).toBeGreaterThan(2);
});
