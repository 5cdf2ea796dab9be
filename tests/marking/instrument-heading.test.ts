/**
 * The heading for checking the level: there where it is scored, earned by three routines gone through and judged rightly
 * before the first reading. Exercises that say nothing of it are marked as before.
 */

import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { headingsSchema, usualHeadings } from '../../src/exercise/headings.ts';
import type { Kit } from '../../src/exercise/kit.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { instrumentHeading } from '../../src/marking/instrument-heading.ts';
import { markSurvey } from '../../src/marking/report.ts';
import type { Act, ActOf } from '../../src/survey/act.ts';
import { acted, surveyOf } from '../helpers/surveying.ts';

function exerciseWith(scored: boolean, faults?: Kit['level']['faults']): Exercise {
  const opened = openCode(
    writeCode({ family: 'alcove', severity: 'old', structure: 'closing', kit: 'faulty', seed: 5511 }),
  );
  if (!opened.ok) throw new Error(opened.error.says);
  const { kit, headings } = opened.value;
  return {
    ...opened.value,
    code: null,
    kit: { ...kit, level: { ...kit.level, ...(faults ? { faults } : {}) } },
    headings: scored ? { ...headings, instrument: { points: 10, scored: true } } : headings,
  };
}

const checked = (check: 'level' | 'plumb' | 'square', verdict: 'use' | 'do-not-use'): Act[] => [
  { act: 'check', check },
  { act: 'check', check, verdict },
];
const start: Act[] = [
  { act: 'stand', xMm: 0, yMm: 0, heightMm: 1000 },
  { act: 'settle' },
  { act: 'read', datum: 'S', place: { surface: 'left', yMm: 100, zMm: 1200 } },
];
const pointsOf = (exercise: Exercise, acts: readonly Act[]) =>
  instrumentHeading(acted(surveyOf(exercise), ...acts))[0]?.points;
const good: Kit['level']['faults'] = [{}];
const bad: Kit['level']['faults'] = [{ plumbSMmPerM: 2 }];

describe('the heading', () => {
  it('is not there where the exercise does not say so, and the marks are as before', () => {
    const careful = findLearner('careful')!;
    const [plain, scored] = [false, true].map(
      (s) => markSurvey(careful.survey(surveyOf(exerciseWith(s)))).marks!.score,
    );
    expect(plain!.headings.map((h) => h.name)).not.toContain('instrument');
    expect(scored!.headings.slice(0, -1)).toEqual(plain!.headings);
    expect(scored!.headings.at(-1)).toMatchObject({ name: 'instrument', points: 10, of: 10 });
    expect(v.parse(headingsSchema, usualHeadings)).toEqual(usualHeadings);
  });

  it('gives nothing for nothing, half for a routine judged wrongly, all for three judged rightly', () => {
    expect(pointsOf(exerciseWith(true, good), start)).toBe(0);
    const three = (plumb: 'use' | 'do-not-use') => [
      ...checked('level', 'use'),
      ...checked('square', 'use'),
      ...checked('plumb', plumb),
    ];
    expect(pointsOf(exerciseWith(true, good), [...three('use'), ...start])).toBe(10);
    expect(pointsOf(exerciseWith(true, bad), [...three('do-not-use'), ...start])).toBe(10);
    expect(pointsOf(exerciseWith(true, bad), [...three('use'), ...start])).toBeCloseTo(8.3, 9);
    expect(pointsOf(exerciseWith(true, good), [...checked('level', 'use'), ...start])).toBeCloseTo(3.3, 9);
  });

  it('does not take a verdict without a routine, nor one after the first reading', () => {
    const guessed: Act = { act: 'check', check: 'level', verdict: 'use' };
    expect(pointsOf(exerciseWith(true, good), [guessed, ...start])).toBe(0);
    expect(pointsOf(exerciseWith(true, good), [...start, ...checked('level', 'use')])).toBe(0);
  });

  it('takes one that is out and is allowed for as it is, and not by another size, sign or way', () => {
    const plumb = (of: 'S' | 'F', more: Partial<ActOf<'check'>>): Act[] => [
      { act: 'check', check: 'plumb', of },
      { act: 'check', check: 'plumb', of, verdict: 'use', ...more },
    ];
    const rest = [...checked('level', 'use'), ...checked('square', 'use')];
    const points = (...acts: Act[]) => pointsOf(exerciseWith(true, bad), [...rest, ...acts, ...start]);
    const allowed = (errorMmPerM: number) => plumb('S', { errorMmPerM, allow: true });
    expect(points(...allowed(1.9))).toBe(10);
    expect(points(...allowed(1.9), ...plumb('F', {}))).toBe(10);
    expect(points(...plumb('F', {}), ...allowed(1.9))).toBe(10);
    expect(points(...allowed(-2))).toBeCloseTo(8.3, 9);
    expect(points(...allowed(1.2))).toBeCloseTo(8.3, 9);
    expect(points(...plumb('F', { errorMmPerM: 2, allow: true }))).toBeCloseTo(8.3, 9);
    expect(points(...plumb('F', {}))).toBeCloseTo(8.3, 9);
  });
});
