/**
 * Kits: what a rule may be off by, and the presets that codes point into.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import {
  aidsSchema,
  isPhysical,
  type Kit,
  kitSchema,
  levelLimits,
  permittedError,
  presets,
  ruleLimits,
  statedKit,
} from '../../src/exercise/kit.ts';

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

describe('a kit as it is handed out', () => {
  it('is as it was, but for what is wrong with it', () => {
    for (const { kit } of presets.slice(0, 3)) expect(statedKit(kit)).toEqual(kit);
    const { kit } = presets[0]!;
    const knock = { afterReadings: 7, byXMm: 3, byYMm: 0, byZMm: 0, turnMmPerM: 2, leanMmPerM: 0 };
    const wrong: Kit = {
      ...kit,
      level: { ...kit.level, pivotMm: 35, faults: [{ plumbSMmPerM: 2.25 }], knock, spare: true },
      rule: { ...kit.rule, wornMm: 4 },
    };
    expect(v.parse(kitSchema, wrong)).toEqual(wrong);
    expect(statedKit(wrong)).toEqual({ ...kit, level: { ...kit.level, pivotMm: 35, faults: 'drawn', spare: true } });
    expect(levelLimits(kit)).toBeNull();
    expect(levelLimits(wrong)).toEqual({ level: 0.3, plumb: 0.3, square: 0.3 });
    expect([isPhysical(kit), isPhysical(wrong)]).toEqual([false, true]);
  });
});
