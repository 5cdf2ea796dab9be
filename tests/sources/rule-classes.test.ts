/**
 * What a rule of a class may be off by.
 *
 * | statement | source | status |
 * |---|---|---|
 * | between two marks ± (a + b L) mm, L in metres rounded up to the next whole metre; c more where one end is a surface; classes I to III | UK SI 2016/1153, Schedule 1I (2014/32/EU, Annex X), https://legislation.gov.uk/uksi/2016/1153/schedule/1I/data.html | V: the publisher's page, read in part |
 * | a folding joint's 0.3 mm of class II | as above | V |
 * | a folding joint's 0.5 mm: that it is class III's | as above, where the stored text is cut off | M |
 * | limits at 1, 2 and 3 m: I 0.2 0.3 0.4, II 0.5 0.7 0.9, III 1.0 1.4 1.8 | worked out from it; at 2 and 3 m also a retailer's printed table | D, V* |
 * | class III folding rule, butt end, 1.9 m: 0.6 + 0.8 + 0.3 = 1.7 | worked out from it | D |
 * | as a rectangular input class II at 2 m is u = 0.404, class III 0.808; a reading to 0.5 mm is 0.144 | closed form | D |
 *
 * The rule here is held by its butt end and folds every 200 mm, so c always counts and the joint's part counts beyond the
 * first leg. Tolerance: half a unit in the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../src/chance/keyed-draws.ts';
import { type Kit, permittedError, type RuleClass, ruleLimits } from '../../src/exercise/kit.ts';
import { drawRuleErrors, edgeDeviationMm, ruleError } from '../../src/survey/rule.ts';
import { uReading } from '../../src/survey/uncertainty.ts';

const ruleOf = (accuracyClass: RuleClass): Kit['rule'] => ({ accuracyClass, lengthMm: 2000, legMm: 200, errors: true });
/** As printed: a, b, c, and the joint's part. */
const printed = { I: [0.1, 0.1, 0.1, 0], II: [0.3, 0.2, 0.2, 0.3], III: [0.6, 0.4, 0.3, 0.5] } as const;
const classes = ['I', 'II', 'III'] as const;
/** Of a tape's two marks: without the butt end and the joints. */
const betweenMarks = (name: RuleClass, mm: number) =>
  permittedError(ruleOf(name), mm) - printed[name][2] - (mm > 200 ? printed[name][3] : 0);

describe('limits of error', () => {
  it.each(classes)('class %s has the printed a, b, c and joint', (name) => {
    const { a, b, c, joint } = ruleLimits[name];
    expect([a, b, c, joint]).toEqual(printed[name]);
  });

  it.each([
    ['I', 0.2, 0.3, 0.4],
    ['II', 0.5, 0.7, 0.9],
    ['III', 1.0, 1.4, 1.8],
  ] as const)('class %s between marks: %d at 1 m, %d at 2 m, %d at 3 m', (name, one, two, three) => {
    [one, two, three].forEach((mm, i) => {
      expect(Math.abs(betweenMarks(name, 1000 * (i + 1)) - mm)).toBeLessThan(0.05);
      expect(betweenMarks(name, 1000 * (i + 1))).toBeCloseTo(mm, 9);
    });
  });

  it.each(classes)('class %s has its edge between 1.000 and 1.001 m', (name) => {
    const b = printed[name][1];
    expect(betweenMarks(name, 1000)).toBeCloseTo(printed[name][0] + b, 9);
    expect(betweenMarks(name, 1001)).toBeCloseTo(printed[name][0] + 2 * b, 9);
    expect(betweenMarks(name, 2000)).toBe(betweenMarks(name, 1001));
  });

  it('class III, butt end, 1.9 m is 1.7, and its joints', () => {
    expect(permittedError(ruleOf('III'), 1900) - printed.III[3]).toBeCloseTo(1.7, 9);
  });
});

describe('as uncertainties', () => {
  it.each([
    ['II', 0.404],
    ['III', 0.808],
  ] as const)('class %s at 2 m, rectangular, is %d', (name, u) => {
    expect(Math.abs(betweenMarks(name, 2000) / Math.sqrt(3) - u)).toBeLessThan(0.0005);
  });

  it('writing to the half millimetre is 0.144 of what one reading is', () => {
    expect(Math.abs(Math.sqrt(uReading ** 2 - edgeDeviationMm ** 2 / 2) - 0.144)).toBeLessThan(0.0005);
  });
});

describe.each(classes)('drawn rules of class %s, seeds "class 0" to "class 999"', (name) => {
  const rules = Array.from({ length: 1000 }, (_, i) => drawRuleErrors(drawKey(`class ${i}`), ruleOf(name)));

  it('never pass the class at any length, and come near it', () => {
    let most = 0;
    for (const rule of rules)
      for (let mm = 25; mm <= 2000; mm += 25) {
        const share = Math.abs(ruleError(rule, 200, mm)) / permittedError(ruleOf(name), mm);
        expect(share).toBeLessThanOrEqual(1);
        most = Math.max(most, share);
      }
    expect(most).toBeGreaterThan(0.4);
  });

  it('are as often long as short', () => {
    const long = rules.filter((rule) => ruleError(rule, 200, 900) > 0).length;
    expect(Math.abs(long - 500) / Math.sqrt(250)).toBeLessThan(4.5);
  });
});
