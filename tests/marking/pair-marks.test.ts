/**
 * The marks of a pair: each recess is marked as if it stood alone, the graver verdict and the fewer points count, and two
 * faces that do not lie in one line are told.
 */
import { describe, expect, it } from 'vitest';
import { samplesOf } from '../../src/exchange/samples-file.ts';
import { baysOf } from '../../src/exercise/bays.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { lineOf } from '../../src/marking/ledger.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { pairStructures } from '../../src/recess/families/alcove-pair-structures.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { atXMm, drawnPair, pairExercise, setBackMm } from '../helpers/pairs.ts';
import { acted, surveyOf } from '../helpers/surveying.ts';
import { verdictOn } from '../oracle/compare.ts';
import { roomOf } from '../oracle/key-oracle.ts';
import { readSamples } from '../oracle/samples.ts';

const careful = findLearner('careful')!;
const seeds = Array.from({ length: 5 }, (_, i) => 4111 + 977 * i);

describe('a pair that was surveyed with care', () => {
  const cases = pairStructures.map((s, i) => ({
    structure: s.name,
    severity: ['settled', 'old'][i % 2]!,
    seed: seeds[i]!,
  }));

  it.each(cases)('$structure, $severity, $seed: both fit, and each ledger adds up', (parts) => {
    const report = markSurvey(careful.survey(surveyOf(drawnPair(parts))));
    // A patch between two readings may cost a clearance; neither carcass may be scrap.
    expect(['good', 'rework']).toContain(report.marks?.verdict.word);
    expect(report.marks?.ledgers.map((l) => l.bay ?? 1)).toEqual([1, 1, 1, 1, 1, 2, 2, 2, 2, 2]);
    for (const l of report.marks!.ledgers) {
      if (l.missMm === null) continue;
      const sum = l.lines.reduce((total, line) => total + line.mm, 0);
      expect(sum).toBe(l.missMm);
      expect(Math.abs(lineOf(l, 'set-up'))).toBeLessThan(2.5);
    }
  });

  it.each(cases)('$structure, $severity, $seed: the key of each recess is the oracle’s', (parts) => {
    for (const { exercise } of baysOf(drawnPair(parts))) {
      const recess = buildRecess(exercise.spec);
      const key = answerKey(recess, exercise, { carcass: { widthMm: 700, heightMm: 2000, depthMm: 300 } });
      if (!key.ok) throw new Error(key.error.says);
      const verdict = verdictOn(
        roomOf(readSamples(samplesOf(recess, exercise, 4))),
        JSON.parse(JSON.stringify(key.key)),
      );
      expect(verdict.disagreements).toEqual([]);
    }
  });
});

describe('one line past the breast', () => {
  const exercise = pairExercise({}, {}, { errors: false });
  const proposed = { width: 900, height: 2200, depth: 400 };
  const at = (x: number, y: number) => ({ act: 'stand', xMm: x, yMm: y - setBackMm, heightMm: 1000 }) as const;
  const readBack = (bay?: 2) =>
    ({
      act: 'read',
      datum: bay ? 'F2' : 'F',
      place: { surface: 'back', xMm: 0, zMm: 800, ...(bay ? { bay } : {}) },
    }) as const;
  const stepped = (mm: number) =>
    markSurvey(
      acted(
        surveyOf(exercise),
        ...[at(0, 0), { act: 'settle' } as const, readBack()],
        ...[at(atXMm, mm), { act: 'settle' } as const, readBack(2)],
        { act: 'propose', carcassMm: proposed, second: { carcassMm: proposed } },
        { act: 'hand-in' },
      ),
    ).marks!;

  it('two set-ups that lie in one line make no step', () => {
    // Both stand by the hand's frame, turned by at most 6 mrad: at the breast's middle the two lines are one.
    expect(stepped(0).verdict.reasons.map((r) => r.code)).not.toContain('face-line/stepped');
  });

  it('a second set-up 20 further in stands 20 behind the first', () => {
    const reason = stepped(20).verdict.reasons.find((r) => r.code === 'face-line/stepped');
    expect(Math.abs((reason?.mm ?? 0) - 20)).toBeLessThan(0.01);
  });
});

describe('over both', () => {
  const exercise = pairExercise({}, {}, { errors: false });
  const report = (left: number, right: number) =>
    markSurvey(
      acted(
        surveyOf(exercise),
        {
          act: 'propose',
          carcassMm: { width: left, height: 2200, depth: 400 },
          second: { carcassMm: { width: right, height: 2200, depth: 400 } },
        },
        { act: 'hand-in' },
      ),
    ).marks!;

  it('the graver verdict counts, and says which recess it is of', () => {
    expect(report(1010, 900).verdict.word).toBe('scrap');
    expect(report(1010, 900).verdict.reasons[0]?.code).toBe('carcass/does-not-go-in');
    expect(report(1010, 900).verdict.reasons[0]?.bay).toBeUndefined();
    expect(report(900, 1010).verdict.reasons[0]).toMatchObject({ code: 'carcass/does-not-go-in', bay: 2 });
  });

  it('heading by heading the fewer points count', () => {
    const { score, bays } = report(900, 1010);
    score.headings.forEach((h, i) => {
      const both = bays!.map((b) => b.marks.score.headings[i]!.points);
      expect(h.points).toBe(Math.min(...both));
    });
  });
});
