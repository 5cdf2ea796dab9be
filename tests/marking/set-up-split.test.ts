/**
 * The set-up line by cause: the history gone through with nothing taken away gives the lines as they stood, whichever way
 * the level faced and whatever was done after a knock; the parts add up; and next to nothing is left over.
 */
import { describe, expect, it } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { signedDistance } from '../../src/geometry/plane.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { setUpHistory } from '../../src/marking/set-up-history.ts';
import { stoodWithout } from '../../src/marking/stood.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import type { Act } from '../../src/survey/act.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { acted, surveyIn, surveyOf } from '../helpers/surveying.ts';

/** How far a reading's line, gone through again, lies from where it stood: the most, mm. */
function replayedOff(survey: Survey): number {
  const { readings } = stoodWithout(survey.world, setUpHistory(survey), new Set());
  return Math.max(
    ...survey.readings.map((r) => {
      const plane = readings.get(r.n)?.plane;
      return plane ? Math.abs(signedDistance(plane, r.point) - signedDistance(r.plane, r.point)) : Infinity;
    }),
  );
}

const families = ['alcove-pair', 'reveal', 'run', 'under-stair', 'plain-wall'];
const seed = 4_021_117;

describe('the careful learner with two levels, a pivot and a door that slams', () => {
  it.each(families)(
    '%s: gone through again the lines stand as they stood, the parts add up, the rest is under 0.1 mm',
    (family) => {
      const structure = familyOf(family)?.structures[0]?.name ?? '';
      const opened = openCode(writeCode({ family, severity: 'old', structure, kit: 'two-levels', seed }));
      if (!opened.ok) throw new Error(opened.error.says);
      const survey = findLearner('careful')!.survey(surveyOf(opened.value));
      expect(replayedOff(survey)).toBeLessThan(1e-6);
      const lines = (markSurvey(survey).marks?.ledgers ?? []).flatMap((l) => l.lines.filter((x) => x.parts));
      expect(lines.length).toBeGreaterThan(0);
      for (const { mm, parts } of lines) {
        expect(parts!.reduce((sum, p) => sum + p.mm, 0)).toBe(mm);
        expect(Math.abs(parts!.find((p) => p.cause === 'rest')!.mm)).toBeLessThan(0.1);
      }
    },
  );
});

describe('a knock, whichever way the level faces', () => {
  const knock = { afterReadings: 2, byXMm: 3, byYMm: -2, byZMm: 1, turnMmPerM: 4, leanMmPerM: 0 };

  it.each(['recess', 'room', 'left', 'right'] as const)('%s: moved, turned and raised after it', (facing) => {
    const square: Act = {
      act: 'read',
      datum: facing === 'left' || facing === 'right' ? 'F' : 'S',
      place: { surface: 'right', yMm: 200, zMm: 900 },
    };
    const survey = acted(
      surveyIn(
        { seed: `facing ${facing}` },
        { level: { faults: [{ squareMmPerM: 2, plumbFMmPerM: 1 }], pivotMm: 30, knock } },
      ),
      { act: 'stand', xMm: 20, yMm: 10, heightMm: 1100, facing },
      { act: 'settle' },
      { act: 'turn', byMmPerM: 37 },
      square,
      square,
      { act: 'move', byXMm: -11, byYMm: 6 },
      { act: 'raise', byMm: 4 },
      { act: 'settle' },
      { act: 'turn', byMmPerM: -21 },
      square,
      { act: 'turn', byMmPerM: 8 },
      square,
    );
    expect(replayedOff(survey)).toBeLessThan(1e-6);
    // Without the knock it would have gone on standing as it stood for the first two.
    const { readings } = stoodWithout(survey.world, setUpHistory(survey), new Set(['knock']));
    const planes = survey.readings.map((r) => readings.get(r.n)!.plane);
    for (const plane of planes) expect(plane).toEqual(planes[0]);
    expect(planes[0]!.c).not.toBeCloseTo(survey.readings.at(-1)!.plane.c, 1);
  });
});
