/**
 * The careful learner's level knocked so far over that it can no longer level itself: it is stood anew, its lines are marked
 * anew, and all is read again; nothing is read from lines that are not thrown.
 */
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import type { Kit } from '../../src/exercise/kit.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { datumParts } from '../../src/survey/act.ts';
import { bookedOffsets } from '../../src/survey/offsets.ts';
import { surveyOf } from '../helpers/surveying.ts';

function knockedOver(family: string, afterReadings: number): Exercise {
  const structure = familyOf(family)?.structures[0]?.name ?? '';
  const opened = openCode(writeCode({ family, severity: 'old', structure, kit: 'site', seed: 77_130 }));
  if (!opened.ok) throw new Error(opened.error.says);
  const { kit } = opened.value;
  const knock = { afterReadings, byXMm: 2, byYMm: -3, byZMm: 1, turnMmPerM: 4, leanMmPerM: 200 };
  const level: Kit['level'] = { ...kit.level, rangeMmPerM: 70, faults: 'within', knock };
  return { ...opened.value, code: null, kit: { ...kit, level } };
}

describe('knocked out of range', () => {
  it.each([
    ['alcove', 25],
    ['doorway', 17],
    ['plain-wall', 9],
    ['alcove-pair', 31],
  ])('%s, after %i readings: stood anew, all read again, every size surveyed', (family, after) => {
    const exercise = knockedOver(family, after);
    const survey = findLearner('careful')!.survey(surveyOf(exercise));
    const refused = survey.entries.filter((e) => !e.outcome.ok && e.outcome.error.code === 'level/out-of-range');
    expect(refused.length).toBeGreaterThan(0);
    const stands = survey.entries.filter((e) => e.act.act === 'stand' && e.outcome.ok);
    expect(stands.length).toBe(family === 'alcove-pair' ? 3 : 2);
    // Nothing that was booked from the lines before the knock stands, where what was read again took its place.
    const first = bookedOffsets(survey).filter((o) => datumParts(o.datum).setUp === 1);
    expect(first).toEqual([]);
    const { marks } = markSurvey(survey);
    const found = marks?.ledgers.filter((l) => l.how !== 'as-it-stands') ?? [];
    expect(found.length).toBeGreaterThan(0);
    for (const l of found) {
      expect([l.size, l.how]).toEqual([l.size, 'offsets']);
      expect(Math.abs(l.missMm ?? Infinity)).toBeLessThan(4);
    }
  });
});
