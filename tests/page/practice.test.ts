/**
 * Checks on the page: the steps tell what was read, and the sum is half of what is apart, over the distance.
 *
 * @source two walls, doorway and floor cross: common practice, no source; turned round, an instrument shows twice its error
 */
import { describe, expect, it } from 'vitest';
import {
  canCheck,
  isChecked,
  isSwapped,
  lastOf,
  routines,
  stagesOf,
  statedFor,
  sumOf,
  verdictOf,
} from '../../src/page/state/practice.ts';
import { learnerView } from '../../src/survey/learner-view.ts';
import { acted, surveyIn } from '../helpers/surveying.ts';

const faults = { levelForeMmPerM: 1.2, levelSideMmPerM: -0.8, plumbSMmPerM: 2, plumbFMmPerM: -1.5, squareMmPerM: 0.9 };
const planted = [1.2, -0.8, 2, -1.5, 0.9];
const limits = { level: 0.3, plumb: 0.3, square: 0.3 };
const begun = () => surveyIn({ seed: 'practice' }, { level: { faults: [faults], limitsMmPerM: limits, spare: true } });

describe('each routine', () => {
  it.each(routines.map((r, i) => [r.says, r, planted[i] ?? 0] as const))('%s shows what was planted', (_, r, error) => {
    const survey = acted(begun(), { act: 'check', check: r.check, ...(r.of ? { of: r.of } : {}) });
    const seen = lastOf(learnerView(survey), r, 1);
    const sum = sumOf(r.check, seen?.practiceMm ?? []);
    expect(sum.errorMmPerM).toBeCloseTo(error, 1);
    // As the page tells it: half of what they are apart, over so many metres.
    expect(sum.apartMm / 2 / (sum.overMm / 1000)).toBeCloseTo(Math.abs(error), 1);
    const stages = stagesOf(r, seen?.practiceMm ?? []);
    expect(stages).toHaveLength(3);
    const told = stages.map((s) => s.reads ?? '').join(' ');
    for (const mm of [sum.first, sum.again]) expect(told).toContain(String(Math.round(mm * 10) / 10));
  });
});

it('a swap puts aside what was found of the level that went', () => {
  const first = routines[0]!;
  const gone = acted(begun(), { act: 'check', check: 'level', of: 'fore' });
  const used = acted(gone, { act: 'check', check: 'plumb', verdict: 'use' });
  expect(verdictOf(learnerView(used), 'plumb', 1)?.act.verdict).toBe('use');
  const view = learnerView(acted(used, { act: 'check', check: 'level', verdict: 'do-not-use', errorMmPerM: 1.2 }));
  expect(isSwapped(view, 1)).toBe(true);
  expect(lastOf(view, first, 1)).toBeNull();
  expect(verdictOf(view, 'plumb', 1)).toBeNull();
});

it('all is checked when every level has its three verdicts', () => {
  let survey = surveyIn({ seed: 'practice' }, { level: { faults: [{}, {}], count: 2 } });
  for (const level of [1, 2] as const)
    for (const check of ['level', 'plumb', 'square'] as const) {
      expect(isChecked(learnerView(survey))).toBe(false);
      survey = acted(survey, { act: 'check', check, verdict: 'use', level });
    }
  expect(isChecked(learnerView(survey))).toBe(true);
});

it('there is nothing to check of levels without faults, and what is stated is told else', () => {
  expect(canCheck(learnerView(surveyIn({ seed: 'practice' })).kit)).toBe(false);
  const { kit } = learnerView(begun());
  expect([canCheck(kit), statedFor(kit, 'plumb')]).toEqual([true, 0.3]);
  expect(JSON.stringify(kit)).not.toContain('1.2');
});
