/**
 * How sure: said with the sizes, held against what came of them, and over many sizes whether that is borne out.
 *
 * @source certainty-based marking, the published scheme: 1, 2, 3 marks for what is right, 0, -2, -6 for what is not; its
 *   thresholds are worked out here by trying every per cent
 */
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { digestOf, reportDigest } from '../../src/exchange/digest.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { borneOut, rightWithinMm, type SizeSure } from '../../src/marking/how-sure.ts';
import { sayBorne, saySure } from '../../src/marking/how-sure-words.ts';
import { markSurvey, reportOf } from '../../src/marking/report.ts';
import { actSchema } from '../../src/survey/act.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { payingShares, type SureLevel } from '../../src/survey/how-sure.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const pays = { sure: [3, -6], fairly: [2, -2], guess: [1, 0] } as const;

test('each degree is the one that pays best over its own shares, of all hundredths', () => {
  for (let percent = 0; percent <= 100; percent++) {
    const p = percent / 100;
    const worth = (level: SureLevel) => p * pays[level][0] + (1 - p) * pays[level][1];
    for (const level of ['sure', 'fairly', 'guess'] as const) {
      const [from, to] = payingShares(level);
      const isBest = (['sure', 'fairly', 'guess'] as const).every((l) => worth(l) <= worth(level) + 1e-9);
      expect(p >= from - 1e-9 && p <= to + 1e-9).toBe(isBest);
    }
  }
});

/** A careful survey up to its proposal, and what was said of how sure. */
function surveyed(family: string, sure: Record<string, SureLevel>): Survey {
  const opened = openCode(writeCode({ family, structure: 'wound', severity: 'old', kit: 'site', seed: 99 }));
  if (!opened.ok) throw new Error(opened.error.says);
  const done = findLearner('careful')!.survey(beginSurvey(openWorld(opened.value)));
  const before = done.entries
    .filter((e) => e.act.act !== 'propose' && e.act.act !== 'hand-in')
    .reduce((now, e) => fold(now, e.act, e.outcome), beginSurvey(done.world));
  const sent = perform(before, { ...done.proposal!, sure });
  expect(sent.outcome.ok).toBe(true);
  return perform(sent.survey, { act: 'hand-in' }).survey;
}

describe('a survey that says how sure', () => {
  const survey = surveyed('alcove', { 'carcass-width': 'sure', 'frame-height': 'guess' });
  const report = reportOf(survey);

  test('has each size that was said against its ledger', () => {
    expect(report.howSure?.map((s) => [s.size, s.level])).toEqual([
      ['carcass-width', 'sure'],
      ['frame-height', 'guess'],
    ]);
    for (const s of report.howSure ?? []) {
      const ledger = report.marks!.ledgers.find((l) => l.size === s.size)!;
      expect(s.missMm).toBe(ledger.missMm);
      expect(s.right).toBe(Math.abs(ledger.missMm!) <= rightWithinMm);
    }
  });

  test('is marked as if nothing had been said: the digest stays', () => {
    expect(reportDigest(report)).toBe(digestOf(markSurvey(survey)));
    expect(reportOf(surveyed('alcove', {})).howSure).toBeUndefined();
    expect(markSurvey(survey).marks).toEqual(markSurvey(surveyed('alcove', {})).marks);
  });

  test('a word that is none is no act', () => {
    expect(v.safeParse(actSchema, { act: 'propose', sure: { 'carcass-width': 'sure' } }).success).toBe(true);
    expect(v.safeParse(actSchema, { act: 'propose', sure: { 'carcass-width': 'very' } }).success).toBe(false);
    expect(v.safeParse(actSchema, { act: 'propose', sure: { width: 'sure' } }).success).toBe(false);
  });
});

test('shares lie under, in or over the stretch that bears a degree out', () => {
  const sizes = (level: SureLevel, right: number, not: number): SizeSure[] =>
    Array.from({ length: right + not }, (_, i) => ({ size: 'carcass-width', level, missMm: 0, right: i < right }));
  const lies = (all: readonly SizeSure[]) => borneOut(all).map((b) => b.lies);
  expect(lies([...sizes('sure', 9, 1), ...sizes('fairly', 7, 3), ...sizes('guess', 3, 7)])).toEqual(['in', 'in', 'in']);
  expect(lies([...sizes('sure', 7, 3), ...sizes('fairly', 9, 1), ...sizes('guess', 9, 1)])).toEqual([
    'under',
    'over',
    'over',
  ]);
  expect(lies(sizes('sure', 8, 2))).toEqual(['in', null, null]);
  expect(borneOut([]).map(sayBorne)).toEqual([
    'sure: none said so yet',
    'fairly sure: none said so yet',
    'a guess: none said so yet',
  ]);
  const [told] = borneOut(sizes('sure', 3, 3));
  expect(sayBorne(told!)).toBe('sure: 3 of 6 came within 2 mm; fewer than the 80 in 100 that bear it out, so say less');
  expect(saySure({ size: 'carcass-width', level: 'fairly', missMm: -0.42, right: true })).toBe(
    'carcass width: fairly sure; 0.4 too small, within 2',
  );
});
