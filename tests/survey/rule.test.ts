/**
 * The folding rule: its hidden errors within its class, joints that count once they are passed, what is seen of a line.
 */
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../src/chance/keyed-draws.ts';
import { presets, ruleLimits } from '../../src/exercise/kit.ts';
import {
  alongRule,
  drawRuleErrors,
  drawTilt,
  edgeDeviationMm,
  ruleError,
  seenEdges,
  tiltDeviation,
  unfolded,
} from '../../src/survey/rule.ts';
import { meanAndDeviation } from '../helpers/statistics.ts';

const { rule } = presets[0]!.kit;
const keys = Array.from({ length: 1000 }, (_, i) => drawKey(`rule ${i}`));

describe('a rule’s errors', () => {
  it('each stay within the part of the class that they are of, and use it', () => {
    const errors = keys.map((key) => drawRuleErrors(key, rule));
    const { b, c, joint } = ruleLimits.II;
    const most = (of: (e: (typeof errors)[number]) => number) => Math.max(...errors.map((e) => Math.abs(of(e))));
    for (const [found, limit] of [
      [most((e) => e.zero), c],
      [most((e) => 1000 * e.scale), b],
      [most((e) => 9 * e.joints[4]!), joint],
    ] as const) {
      expect(found).toBeLessThanOrEqual(limit);
      expect(found).toBeGreaterThan(0.98 * limit);
    }
    expect(errors[0]!.joints).toHaveLength(9);
  });

  it('are none where the kit says so', () => {
    const none = drawRuleErrors(keys[0]!, { ...rule, errors: false });
    for (const mm of [0, 300, 1999]) expect(ruleError(none, 200, mm)).toBe(0);
    expect(drawTilt(keys[0]!, { ...rule, errors: false }, 3)).toEqual([0, 0]);
  });

  it('add up along the rule: zero, scale, and the joints that are passed', () => {
    const errors = { zero: 0.1, scale: 0.0002, joints: [0.01, 0.02, 0.04] };
    expect(ruleError(errors, 200, 100)).toBeCloseTo(0.1 + 0.02, 12);
    expect(ruleError(errors, 200, 200)).toBeCloseTo(0.1 + 0.04, 12);
    expect(ruleError(errors, 200, 200.1)).toBeCloseTo(0.1 + 0.04002 + 0.01, 12);
    expect(ruleError(errors, 200, 401)).toBeCloseTo(0.1 + 0.0802 + 0.03, 12);
    expect(ruleError(errors, 200, 1999)).toBeCloseTo(0.1 + 0.3998 + 0.07, 12);
  });
});

describe('a rule as it is held', () => {
  it('unfolds in whole legs, as far as the line', () => {
    for (const [mm, legs] of [
      [1, 1],
      [199.9, 1],
      [200, 1],
      [200.1, 2],
      [1999, 10],
    ] as const)
      expect(unfolded(rule, mm)).toBe(200 * legs);
  });

  it('is long when it tilts, whatever the draw, seeds "rule 0" to "rule 999"', () => {
    for (const key of keys)
      for (const i of [0, 1]) expect(alongRule(700, drawTilt(key, rule, i))).toBeGreaterThanOrEqual(700);
    const slopes = keys.flatMap((key) => [...drawTilt(key, rule, 7)]);
    const { mean, deviation } = meanAndDeviation(slopes);
    expect(Math.abs(mean)).toBeLessThan((4.5 * tiltDeviation) / Math.sqrt(2000));
    expect(Math.abs(deviation / tiltDeviation - 1)).toBeLessThan(0.08);
  });
});

describe('what is seen', () => {
  const line = { middleMm: 512.34, widthMm: 1.7 };

  it('without error is the line’s two edges', () => {
    const [near, far] = seenEdges(keys[0]!, { ...rule, errors: false }, { ...line, index: 1 });
    expect(near).toBeCloseTo(511.49, 9);
    expect(far).toBeCloseTo(513.19, 9);
  });

  it('with error is spread about them by the eye, in tenths', () => {
    const seen = keys.map((key) => seenEdges(key, rule, { ...line, index: 5 }));
    for (const [i, at] of [
      [0, 511.49],
      [1, 513.19],
    ] as const) {
      const { mean, deviation } = meanAndDeviation(seen.map((s) => s[i]!));
      const spread = Math.sqrt(edgeDeviationMm ** 2 + 0.1 ** 2 / 12);
      expect(Math.abs(mean - at)).toBeLessThan((4.5 * spread) / Math.sqrt(1000));
      expect(Math.abs(deviation / spread - 1)).toBeLessThan(0.1);
    }
    for (const mm of seen.flat()) expect(Math.round(mm * 10) / 10).toBe(mm);
  });

  it('never has its far edge before its near one', () => {
    for (const key of keys) {
      const [near, far] = seenEdges(key, rule, { middleMm: 300, widthMm: 0.05, index: 0 });
      expect(far).toBeGreaterThanOrEqual(near);
    }
  });
});
