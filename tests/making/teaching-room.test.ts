import { describe, expect, test } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { surveyWithCare } from '../../src/learners/careful.ts';
import { minimumReadings } from '../../src/learners/minimum-readings.ts';
import { carefulDensity } from '../../src/learners/reading-plan.ts';
import { surveyByThreeWidths } from '../../src/learners/three-widths.ts';
import { costOf, leastCostMm, testRoom } from '../../src/making/teaching-room.ts';
import { markSurvey } from '../../src/marking/report.ts';
import type { Defect, Side } from '../../src/recess/recess-spec.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';

/** A true room with what is asked for put on; rule and hand without error. */
function straight(defects: Partial<Record<Side, readonly Defect[]>> = {}) {
  return exerciseIn(roomSpec({ defects }));
}

const careful = { survey: (start: Parameters<typeof surveyWithCare>[0]) => surveyWithCare(start, carefulDensity) };
const byWidths = { survey: surveyByThreeWidths };

describe('a room is tested against a mistake', () => {
  test('in a straight room a mistake costs nothing, so it teaches nothing', () => {
    const tested = testRoom(straight(), byWidths);
    expect(tested).toMatchObject({ teaches: false, why: 'cheap', careful: 'good' });
    expect(tested.costMm).toBeLessThan(leastCostMm);
  });

  test('a patch of thick plaster low at the back: widths at the front miss it, by about as much as it is thick', () => {
    const bump = { kind: 'hump', mm: 9, u: 300, v: 500, width: 700 } as const;
    const tested = testRoom(straight({ left: [bump] }), byWidths);
    expect(tested).toMatchObject({ teaches: true, why: 'teaches', size: 'carcass-width' });
    expect(tested.costMm).toBeGreaterThan(6);
    expect(tested.costMm).toBeLessThan(12);
  });

  test('one who makes no mistake loses nothing to speak of', () => {
    const bump = { kind: 'hump', mm: 9, u: 300, v: 500, width: 700 } as const;
    expect(testRoom(straight({ left: [bump] }), careful).costMm).toBeLessThan(leastCostMm);
  });

  test('where a careful survey by the least readings fails too, nothing is taught', () => {
    // A boss a hand wide between three heights: halving never comes to it.
    const boss = { kind: 'hump', mm: 40, u: 200, v: 1650, width: 260 } as const;
    const tested = testRoom(straight({ left: [boss] }), byWidths);
    expect(tested).toMatchObject({ teaches: false, why: 'hard', costMm: 0, size: null });
    expect(['scrap', 'rework']).toContain(tested.careful);
  });

  test('the cost is by how much further a size is off, the worst of all sizes', () => {
    const opened = openCode(
      writeCode({ family: 'alcove', severity: 'old', structure: 'low-hump', kit: 'guided', seed: 77 }),
    );
    if (!opened.ok) throw new Error(opened.error.says);
    const start = () => beginSurvey(openWorld(opened.value));
    const right = markSurvey(surveyWithCare(start(), minimumReadings('alcove', opened.value.brief))).marks;
    const wrong = markSurvey(surveyByThreeWidths(start())).marks;
    if (!right || !wrong) throw new Error('not marked');
    const losses = right.ledgers.map((l, i) => Math.abs(wrong.ledgers[i]?.missMm ?? 0) - Math.abs(l.missMm ?? 0));
    const { costMm, size } = costOf(wrong, right);
    expect(costMm).toBe(Math.max(0, ...losses));
    expect(right.ledgers[losses.indexOf(costMm)]?.size).toBe(size);
    expect(costOf(right, right)).toEqual({ costMm: 0, size: null });
  });
});

describe('the least that is read', () => {
  test('three heights by two depths on a side wall; a long back every 600', () => {
    const brief = { openingMm: { width: 3000, height: 2400, depth: 600 } };
    expect(minimumReadings('alcove', brief)).toMatchObject({
      wallHeights: 3,
      wallDepths: 2,
      backHeights: 3,
      backWidths: 3,
    });
    expect(minimumReadings('run', brief)).toMatchObject({ backWidths: 6, flatWidths: 6 });
    expect(minimumReadings('roof-slope', brief).flatWidths).toBeGreaterThanOrEqual(5);
  });
});
