/** Briefs of kits in inches: round in sixteenths, what is seen of the room as it was, and done with care they all go. */
import { describe, expect, it } from 'vitest';
import { drawBrief } from '../../src/exercise/briefs/briefs.ts';
import { roundIn } from '../../src/exercise/briefs/in-inches.ts';
import { openCode, specOf, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { families } from '../../src/recess/families/families.ts';
import { surveyOf } from '../helpers/surveying.ts';

const sixteenthMm = 25.4 / 16;

function lengthsIn(what: unknown, under = ''): [string, number][] {
  if (typeof what === 'number') return [[under, what]];
  if (typeof what !== 'object' || what === null) return [];
  return Object.entries(what).flatMap(([key, value]) => lengthsIn(value, `${under}.${key}`));
}
const isSeen = (name: string) => /openingMm|mouthMm|setBackMm|referenceWaverMm|count/.test(name);

describe.each(families.map((f) => f.name))('%s', (family) => {
  const structure = families.find((f) => f.name === family)?.structures[0]?.name ?? '';
  const parts = { family, severity: 'settled', structure, seed: 6011 };

  it('is round in sixteenths, its sizes no larger, and what is seen is as it was', () => {
    const drawn = drawBrief(specOf(parts));
    const [was, is] = [lengthsIn(drawn), lengthsIn(roundIn('in-16', drawn))];
    expect(is.map(([name]) => name)).toEqual(was.map(([name]) => name));
    for (const [i, [name, mm]] of is.entries()) {
      const before = was[i]?.[1] ?? 0;
      if (isSeen(name)) expect(mm, name).toBe(before);
      else {
        expect(mm / sixteenthMm, name).toBeCloseTo(Math.round(mm / sixteenthMm), 9);
        expect(Math.abs(mm - before), name).toBeLessThanOrEqual(2 * sixteenthMm);
        if (before >= 100) expect(mm, name).toBeLessThanOrEqual(before);
      }
    }
    expect(roundIn('mm', drawn)).toBe(drawn);
  });

  it('goes, surveyed with care', () => {
    const opened = openCode(writeCode({ ...parts, kit: 'inches' }));
    const careful = findLearner('careful');
    if (!opened.ok || !careful) throw new Error('no room, or nobody to survey it');
    const { marks } = markSurvey(careful.survey(surveyOf(opened.value)));
    expect(marks?.verdict.word).toBe('good');
  });
});
