/**
 * Linings: what is sent for one, by the wall that it reaches through, the packing beside it and the finish under it.
 */
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { sayReport } from '../../src/marking/report-words.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { Act } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const doorway = exerciseOf('doorway', 'in-wind', 11);
const { brief } = doorway;
const key = keyOf(doorway);
const [thin, thick] = key.wallMm!;
const { askMm } = brief;
/** What goes in with what is asked, to the half millimetre. */
const width = Math.floor(2 * (key.widestMm! - askMm.left - askMm.right)) / 2;
const height = Math.floor(2 * (key.tallestMm! - askMm.top)) / 2;
const good = { width, height, depth: Math.ceil(2 * (thick + 3)) / 2 };

function exerciseOf(family: string, structure: string, seed: number): Exercise {
  const opened = openCode(writeCode({ family, severity: 'settled', structure, kit: 'site', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  const lining = { ...opened.value.brief.lining!, leastStockMm: 3 };
  return { ...opened.value, code: null, brief: { ...opened.value.brief, lining } };
}

function keyOf(exercise: Exercise) {
  const result = answerKey(buildRecess(exercise.spec), exercise);
  if (!result.ok) throw new Error(result.error.says);
  return result.key;
}

function acted(exercise: Exercise, ...acts: Act[]): Survey {
  return acts.reduce((survey, act) => perform(survey, act).survey, beginSurvey(openWorld(exercise)));
}

function judged(liningMm: typeof good) {
  return markSurvey(acted(doorway, { act: 'propose', liningMm }, { act: 'hand-in' })).marks!.verdict;
}

describe('what is sent', () => {
  it.each([
    ['carcass/outside', 'scrap', { ...good, width: 3000 }],
    ['carcass/does-not-go-in', 'scrap', { ...good, width: width + 30 }],
    ['lining/does-not-cover', 'scrap', { ...good, depth: thick - 1 }],
    ['carcass/clearance', 'rework', { ...good, height: height + Math.ceil(askMm.top / 2) + 1 }],
    ['lining/stock-short', 'rework', { ...good, depth: thick + 0.5 }],
    ['lining/stock-over', 'rework', { ...good, depth: thin + brief.lining!.mostStockMm + 2.5 }],
  ] as const)('%s is %s', (code, word, liningMm) => {
    const verdict = judged(liningMm);
    expect(verdict.word).toBe(word);
    expect(verdict.reasons.map((r) => r.code)).toContain(code);
    expect(verdict.reasons.every((r) => r.piece === 'lining')).toBe(true);
  });

  it('goes in with what is asked and reaches the far face: good, but for the sheet', () => {
    const verdict = judged(good);
    expect(verdict.word).toBe('good');
    expect(verdict.carcass!.clearanceMm.back).toBeNull();
    expect(verdict.carcass!.farEdgeMm![0]).toBeCloseTo(good.depth - thick, 0);
    expect(verdict.carcass!.farEdgeMm![1]).toBeCloseTo(good.depth - thin, 0);
  });

  it('a carcass in its place is nothing sent', () => {
    const marks = markSurvey(acted(doorway, { act: 'propose', carcassMm: good }, { act: 'hand-in' })).marks!;
    expect(marks.verdict.word).toBe('nothing');
    expect(marks.ledgers.map((l) => [l.size, l.how])).toEqual([
      ['lining-width', 'not-proposed'],
      ['lining-height', 'not-proposed'],
      ['lining-depth', 'not-proposed'],
    ]);
  });

  it('is called a lining throughout the report', () => {
    const { depth } = good;
    for (const liningMm of [good, { ...good, width: width + 30 }, { ...good, depth: depth - 9 }]) {
      const report = markSurvey(acted(doorway, { act: 'propose', liningMm }, { act: 'hand-in' }));
      const words = sayReport(report).join('\n');
      expect(words).toContain('lining');
      expect(words).not.toContain('carcass');
    }
  });
});

describe('the key', () => {
  it('of the depth is the wall’s greatest thickness with the least stock, whatever stands behind', () => {
    const marks = markSurvey(acted(doorway, { act: 'propose', liningMm: good }, { act: 'hand-in' })).marks!;
    const depth = marks.ledgers.find((l) => l.size === 'lining-depth')!;
    expect(depth.keyMm).toBeCloseTo(thick + 3, 2);
    expect(depth.how).toBe('not-surveyed');
    expect(key.deepestMm).toBeNull();
  });

  it('of the height gives way to the finish to come, by its thickness', () => {
    const bare = keyOf({ ...doorway, brief: { ...brief, finishMm: [] } });
    const raised = keyOf({ ...doorway, brief: { ...brief, finishMm: [{ surface: 'floor', mm: 15 }] } });
    // The lining stands higher up the jambs and under the head, so the rest moves a little.
    expect(bare.tallestMm! - raised.tallestMm!).toBeCloseTo(15, 2);
  });
});

describe('the far face', () => {
  const standing = acted(doorway, { act: 'stand', xMm: 0, yMm: 0, heightMm: 900 }, { act: 'settle' });
  const read = (xMm: number, zMm: number) =>
    perform(standing, { act: 'read', datum: 'F', place: { surface: 'back', xMm, zMm } }).outcome;

  it('is read beside the jambs and under the head, and is air elsewhere', () => {
    const half = brief.openingMm.width / 2;
    expect(read(0, 900)).toMatchObject({ ok: false, error: { code: 'place/open' } });
    for (const x of [-half + 45, half - 45]) expect(read(x, 900)).toMatchObject({ ok: true });
    expect(read(0, brief.openingMm.height - 45)).toMatchObject({ ok: true });
  });

  it('jambs and head begin at the near face: nothing is read in front of it', () => {
    const at = (place: { surface: 'left' | 'ceiling' | 'floor'; xMm?: number; yMm: number; zMm?: number }) =>
      perform(standing, { act: 'read', datum: place.surface === 'left' ? 'S' : 'L', place }).outcome;
    expect(at({ surface: 'left', yMm: -40, zMm: 900 })).toMatchObject({ error: { code: 'place/outside' } });
    expect(at({ surface: 'ceiling', xMm: 0, yMm: -40 })).toMatchObject({ error: { code: 'place/outside' } });
    expect(at({ surface: 'floor', xMm: 0, yMm: -40 })).toMatchObject({ ok: true });
  });
});
