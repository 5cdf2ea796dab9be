/**
 * Drawn briefs: every field there and sane, and what they promise of the hidden room held against the room as built.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { briefSchema, nominalCarcass } from '../../../src/exercise/brief.ts';
import { answerKey } from '../../../src/marking/answer-key.ts';
import { trimSizes } from '../../../src/recess/families/alcove.ts';
import { buildRecess } from '../../../src/recess/recess.ts';
import { sampled, spread } from '../../helpers/height-fields.ts';
import { drawnParts, exerciseOf } from '../../helpers/rooms.ts';

const exercises = drawnParts('briefs', 1000).map(exerciseOf);

describe('1,000 drawn briefs, seed "briefs"', () => {
  it('are briefs by the schema, with every field of the model', () => {
    for (const { brief } of exercises) {
      expect(v.is(briefSchema, brief)).toBe(true);
      expect(Object.keys(brief).sort()).toEqual(
        [
          'openingMm',
          'mouthMm',
          'reference',
          'referenceWaverMm',
          'carcassFrontMm',
          'carcassMm',
          'askMm',
          'plinthMm',
          'frame',
          'finishMm',
          'fates',
          'access',
        ].sort(),
      );
    }
  });

  it('say the opening and the mouth as the eye sees them, to the nearest 10', () => {
    for (const { brief, spec } of exercises) {
      expect(brief.openingMm).toEqual(spec.openingMm);
      expect(brief.mouthMm).toBe(spec.mouthMm);
      for (const mm of [...Object.values(brief.openingMm), brief.mouthMm]) expect(Math.abs(mm % 10)).toBe(0);
      expect(brief.reference).toBe(spec.reference.kind);
    }
  });

  it('say about how far the reference wavers: within it in nine of ten, never twice as much', () => {
    const shares = exercises.map(
      ({ brief, spec }) => Math.max(...spec.reference.wavesMm.map(Math.abs)) / brief.referenceWaverMm,
    );
    expect(shares.filter((s) => s <= 1).length / shares.length).toBeGreaterThan(0.9);
    expect(Math.max(...shares)).toBeLessThan(2);
  });

  it('ask for a carcass smaller than the opening, in tens, or eighths of an inch, its plinth and front taken off', () => {
    for (const { brief, spec, kit } of exercises) {
      const whole = kit.rule.units === undefined ? 10 : 25.4 / 8;
      const { widthMm, heightMm, depthMm } = nominalCarcass(brief);
      const { width, height, depth } = brief.openingMm;
      for (const mm of [widthMm, heightMm, depthMm]) expect(mm / whole).toBeCloseTo(Math.round(mm / whole), 9);
      expect(widthMm).toBeGreaterThan(width - 120);
      expect(widthMm).toBeLessThan(width - 2 * brief.askMm.left);
      expect(heightMm + brief.plinthMm).toBeLessThan(height - brief.askMm.top);
      expect(depthMm + brief.carcassFrontMm).toBeLessThan(depth - brief.askMm.back);
      expect(depthMm).toBeGreaterThan(150);
      expect(brief.carcassFrontMm).toBe(brief.frame?.thicknessMm);
      expect(trimSizes(spec).skirtingHeightMm === brief.plinthMm).toBe(false);
    }
  });

  it('have each size to be found, the depth now and then made as it stands', () => {
    const found = (name: 'width' | 'height' | 'depth') =>
      exercises.filter((e) => e.brief.carcassMm[name].find).length / exercises.length;
    expect([found('width'), found('height')]).toEqual([1, 1]);
    expect(found('depth')).toBeGreaterThan(0.6);
    expect(found('depth')).toBeLessThan(0.74);
  });

  it('say what stays, comes off or may be cut, for every trim and no other', () => {
    const met = new Set<string>();
    for (const { brief, spec } of exercises) {
      expect(Object.keys(brief.fates).sort()).toEqual(spec.trims.map((t) => t.name).sort());
      for (const t of spec.trims) {
        const fate = brief.fates[t.name]!;
        expect(t.kind === 'skirting' ? ['stays', 'off'] : ['stays', 'cut']).toContain(fate);
        met.add(`${t.kind} ${fate}`);
        // All of one kind go together.
        for (const other of spec.trims.filter((o) => o.kind === t.kind)) expect(brief.fates[other.name]).toBe(fate);
      }
    }
    expect(met.size).toBe(4);
  });

  it('have stock to scribe, least under most, and room to stand the nominal up', () => {
    for (const { brief } of exercises) {
      expect(brief.frame!.leastStockMm).toBeGreaterThanOrEqual(3);
      expect(brief.frame!.mostStockMm).toBeGreaterThan(4 * brief.frame!.leastStockMm);
      const { heightMm, depthMm } = nominalCarcass(brief);
      expect(brief.access!.plinthSeparate).toBe(true);
      expect(brief.access!.clearHeightMm).toBeGreaterThan(Math.hypot(heightMm, depthMm));
    }
  });
});

describe('what 1,000 briefs promise of the built room, seed "briefs"', () => {
  const keys = exercises.map((exercise) => {
    const found = answerKey(buildRecess(exercise.spec), exercise, { carcass: nominalCarcass(exercise.brief) });
    if (!found.ok) throw new Error(`${exercise.code}: ${found.error.says}`);
    return found.key;
  });

  it('no edge of a band on a wall that stays lies within 15 mm of the nominal carcass’s top or bottom', () => {
    let bands = 0;
    exercises.forEach(({ brief, spec }, i) => {
      const { bottomMm } = keys[i]!.carcass!.at;
      for (const t of spec.trims) {
        if (brief.fates[t.name] !== 'stays' || t.surface === 'ceiling') continue;
        bands++;
        for (const edge of t.vMm) {
          expect(Math.abs(edge - bottomMm)).toBeGreaterThan(15);
          expect(Math.abs(edge - bottomMm - brief.carcassMm.height.nominalMm)).toBeGreaterThan(15);
        }
      }
    });
    expect(bands).toBeGreaterThan(900);
  });

  it('the bottom so found is the plinth over the floor’s high point, by samples, in 100 of them', () => {
    for (let i = 0; i < 1000; i += 10) {
      const { brief, spec } = exercises[i]!;
      const { fields } = buildRecess(spec);
      const half = brief.openingMm.width / 2;
      const back = brief.carcassFrontMm + brief.carcassMm.depth.nominalMm;
      const rows = sampled(fields.floor, spread(-half, half, 40), spread(brief.mouthMm, back, 20));
      const high = Math.max(...rows.flat());
      const over = keys[i]!.carcass!.at.bottomMm - brief.plinthMm - high;
      expect(over).toBeGreaterThan(-0.001);
      expect(over).toBeLessThan(0.1);
    }
  });

  it('the nominal carcass itself goes in, stands up, and lets every size be found', () => {
    exercises.forEach((exercise, i) => {
      const { carcass, widestMm, tallestMm, deepestMm, opening } = keys[i]!;
      if (!carcass!.goesInBare) expect.fail(`${exercise.code}: the nominal does not go in`);
      expect(carcass!.standsUp!.ok).toBe(true);
      for (const size of [widestMm, tallestMm, deepestMm]) expect(size).not.toBeNull();
      expect(opening).not.toBeNull();
    });
    // With all that is asked to spare, nearly always.
    expect(keys.filter((k) => k.carcass!.fits === 'yes').length / keys.length).toBeGreaterThan(0.93);
  });

  it('what can be made is near to the nominal: never smaller, and within 70 mm', () => {
    exercises.forEach(({ brief }, i) => {
      const { widestMm, tallestMm, deepestMm } = keys[i]!;
      const { widthMm, heightMm, depthMm } = nominalCarcass(brief);
      for (const spare of [widestMm! - widthMm, tallestMm! - heightMm, deepestMm! - depthMm]) {
        expect(spare).toBeGreaterThanOrEqual(0);
        expect(spare).toBeLessThan(70);
      }
    });
  });
});
