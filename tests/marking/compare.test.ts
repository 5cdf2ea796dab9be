/**
 * Two surveys of one room side by side: each half is what the survey's own report says, and swapping them swaps the halves.
 */
import { describe, expect, test } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { compareSurveys, type Marked, type Two } from '../../src/marking/compare.ts';
import { sayComparison, sayParting } from '../../src/marking/compare-words.ts';
import { reportOf } from '../../src/marking/report.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

function marked(name: string, of: { family?: string; structure?: string; seed?: number } = {}): Marked {
  const { family = 'alcove', structure = 'closing', seed = 31 } = of;
  const opened = openCode(writeCode({ family, structure, severity: 'old', kit: 'site', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  const survey = findLearner(name)!.survey(beginSurvey(openWorld(opened.value)));
  return { survey, report: reportOf(survey) };
}

describe.each([
  ['alcove', 'closing'],
  ['doorway', 'in-wind'],
  ['run', 'closing-ends'],
])('in a room of the family %s', (family, structure) => {
  const [one, other] = [marked('careful', { family, structure }), marked('front-only', { family, structure })];
  const compared = compareSurveys(one, other);

  test('ledger against ledger adds up to each one’s miss', () => {
    expect(compared.sizes.length).toBeGreaterThan(1);
    for (const s of compared.sizes)
      for (const i of [0, 1] as const) {
        const sum = s.lines.reduce((all, l) => all + l.mm[i], 0);
        expect(sum).toBeCloseTo(s.missMm[i]!, 9);
        const ledger = [one, other][i]!.report.marks!.ledgers.find((l) => l.size === s.size)!;
        expect(s.missMm[i]).toBe(ledger.missMm);
      }
  });

  test('every reading on a side stands in its half', () => {
    for (const i of [0, 1] as const) {
      const shown = compared.sides.reduce((sum, s) => sum + s.read[i].length, 0);
      const { readings, spans } = [one, other][i]!.survey;
      expect(shown).toBe(readings.filter((r) => r.side !== null).length + 2 * spans.length);
    }
  });

  test('swapped, the halves swap', () => {
    const swapped = compareSurveys(other, one);
    const turned = <T>([a, b]: Two<T>): Two<T> => [b, a];
    expect(swapped.score).toEqual(turned(compared.score));
    expect(swapped.sizes.map((s) => s.missMm)).toEqual(compared.sizes.map((s) => turned(s.missMm)));
    expect(swapped.sides.map((s) => s.read)).toEqual(compared.sides.map((s) => turned(s.read)));
  });

  test('it is told in words, both named', () => {
    const said = sayComparison(compared, ['mine', 'hers'], one.survey.world.exercise.spec).join('\n');
    expect(said).toMatch(/mine +hers/);
    expect(said).toContain('Ledger against ledger');
    expect(said).not.toMatch(/undefined|NaN|null/);
  });
});

test('what parts the two is the line that they differ by most', () => {
  const compared = compareSurveys(marked('careful'), marked('front-only'));
  const width = compared.sizes.find((s) => s.size === 'carcass-width')!;
  expect(sayParting(width, ['mine', 'hers'])).toMatch(/^hers lost [\d.]+ by coverage, mine [\d.]+\.$/);
  const same = compareSurveys(marked('careful'), marked('careful'));
  expect(same.sizes.map((s) => sayParting(s, ['mine', 'hers']))).toEqual(same.sizes.map(() => ''));
});

test('two rooms are not compared', () => {
  expect(() => compareSurveys(marked('careful'), marked('careful', { seed: 32 }))).toThrow(RangeError);
});
