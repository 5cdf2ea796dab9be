/**
 * Kits: what a rule may be off by, and the presets that codes point into.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { aidsSchema, type Kit, kitSchema, permittedError, presets, ruleLimits } from '../../src/exercise/kit.ts';

const ruleOf = (accuracyClass: Kit['rule']['accuracyClass']): Kit['rule'] => ({
  accuracyClass,
  lengthMm: 2000,
  legMm: 200,
  errors: true,
});

describe('the permitted error of a rule', () => {
  it('never shrinks with the length, and steps at a joint and at each whole metre', () => {
    for (const name of ['I', 'II', 'III'] as const) {
      const at = (mm: number) => permittedError(ruleOf(name), mm);
      for (let mm = 1; mm <= 2000; mm++) expect(at(mm)).toBeGreaterThanOrEqual(at(mm - 1));
      expect(at(201) - at(200)).toBeCloseTo(ruleLimits[name].joint, 12);
      expect(at(1001) - at(1000)).toBeCloseTo(ruleLimits[name].b, 12);
      expect(at(999)).toBe(at(201));
    }
  });

  it('grows from class to class', () => {
    for (const mm of [0, 150, 700, 1500])
      expect(permittedError(ruleOf('I'), mm)).toBeLessThan(permittedError(ruleOf('II'), mm));
    for (const mm of [0, 150, 700, 1500])
      expect(permittedError(ruleOf('II'), mm)).toBeLessThan(permittedError(ruleOf('III'), mm));
  });
});

describe('presets', () => {
  it('stand in the order that codes point into; new ones come after', () => {
    expect(presets.map((p) => p.name).slice(0, 3)).toEqual(['guided', 'site', 'test']);
    expect(presets.length).toBeLessThanOrEqual(13);
  });

  it('are kits and aids by the schema, with errors on, and only what is assessed gives no aid', () => {
    for (const { kit, aids, assessed } of presets) {
      expect(v.is(kitSchema, kit)).toBe(true);
      expect(v.is(aidsSchema, aids)).toBe(true);
      expect(kit.rule.errors).toBe(true);
      if (assessed) expect(aids).toEqual({ readsRule: false, seenInMm: false });
    }
    expect(presets.filter((p) => p.assessed).map((p) => p.name)).toContain('test');
  });
});
