/**
 * Drawn alcoves: whole sizes, defects in sixteenths, trims that hang together, a reference without mean or slope.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { specOf } from '../../../src/exercise/exercise-code.ts';
import { trimSizes } from '../../../src/recess/families/alcove.ts';
import { alcoveStructures, drawAlcoveStructure } from '../../../src/recess/families/alcove-structures.ts';
import { buildRecess } from '../../../src/recess/recess.ts';
import { extentsOf, type RecessSpec, recessSpecSchema } from '../../../src/recess/recess-spec.ts';
import { severities } from '../../../src/recess/severity.ts';
import { alcoveSides, drawnParts, inventedSeverities } from '../../helpers/rooms.ts';
import { meanAndDeviation } from '../../helpers/statistics.ts';

const parts = drawnParts('alcoves', 600, inventedSeverities);
const specs = parts.map(specOf);
const share = (which: (spec: RecessSpec) => boolean) => specs.filter(which).length / specs.length;

describe('600 drawn alcoves, seed "alcoves"', () => {
  it('are specs by the schema, bit for bit through JSON, and the same when drawn again', () => {
    specs.forEach((spec, i) => {
      expect(v.is(recessSpecSchema, spec)).toBe(true);
      expect(JSON.parse(JSON.stringify(spec))).toStrictEqual(spec);
      if (i % 20 === 0) expect(specOf(parts[i]!)).toStrictEqual(spec);
    });
  });

  it('have whole sizes within their bounds', () => {
    const within = (mm: number, from: number, to: number) => mm % 10 === 0 && mm >= from && mm <= to;
    for (const { openingMm, mouthMm } of specs) {
      expect(within(openingMm.width, 760, 1480)).toBe(true);
      expect(within(openingMm.height, 2220, 2560)).toBe(true);
      expect(within(openingMm.depth, 330, 600)).toBe(true);
      expect(within(-mouthMm, 20, 60)).toBe(true);
    }
    expect(new Set(specs.map((s) => s.openingMm.width)).size).toBeGreaterThan(60);
  });

  it('have their breast on either side, and trims or none', () => {
    expect(share((s) => s.breastSide === 'left')).toBeGreaterThan(0.4);
    expect(share((s) => s.breastSide === 'left')).toBeLessThan(0.6);
    const skirting = share((s) => s.trims.some((t) => t.kind === 'skirting'));
    const cornice = share((s) => s.trims.some((t) => t.kind === 'cornice'));
    expect([skirting > 0.65 && skirting < 0.85, cornice > 0.4 && cornice < 0.6]).toEqual([true, true]);
  });

  it('have defects in whole sixteenths, none of nothing, and their structure’s own among them', () => {
    specs.forEach((spec) => {
      for (const side of alcoveSides)
        for (const { mm } of spec.surfaces[side]!.defects) {
          expect(Number.isInteger(16 * mm)).toBe(true);
          expect(mm === 0).toBe(false);
        }
      const structure = alcoveStructures.find((s) => s.name === spec.structure)!;
      const severity = severities.find((s) => s.name === spec.severity)!;
      const own = drawAlcoveStructure(structure, {
        key: spec.key,
        scale: severity.scale,
        openingMm: spec.openingMm,
        breast: spec.breastSide!,
      });
      for (const { side, defect } of own)
        if (defect.mm !== 0) expect(spec.surfaces[side]!.defects).toContainEqual(defect);
    });
  });

  it('have small defects everywhere, as large as the severity scales them', () => {
    const lean = (severity: string) =>
      meanAndDeviation(
        specs
          .filter((s) => s.severity === severity && s.structure === 'closing')
          .flatMap((s) =>
            (['left', 'right', 'back'] as const).map(
              (side) => s.surfaces[side]!.defects.find((d) => d.kind === 'lean')?.mm ?? 0,
            ),
          ),
      ).deviation;
    for (const { name, scale } of inventedSeverities) {
      expect(lean(name) / scale).toBeGreaterThan(1.6 * 0.7);
      expect(lean(name) / scale).toBeLessThan(1.6 * 1.3);
    }
    for (const spec of specs) {
      const severity = severities.find((s) => s.name === spec.severity)!;
      for (const side of alcoveSides) {
        expect(spec.surfaces[side]!.wobbleMm).toBe(severity.wobbleMm);
        expect(Math.abs(spec.surfaces[side]!.offsetMm)).toBeLessThanOrEqual(1.2 * 3.4507 * severity.scale + 1 / 16);
      }
    }
  });

  it('have skirtings on all three walls, from the floor’s reach up, the breast’s from its arris', () => {
    for (const spec of specs) {
      const { x, y, z } = extentsOf(spec);
      const skirtings = spec.trims.filter((t) => t.kind === 'skirting');
      expect([0, 3]).toContain(skirtings.length);
      for (const t of skirtings) {
        expect(t.name).toBe(`skirting ${t.surface}`);
        expect(t.vMm[0]).toBe(z[0]);
        expect([95, 120, 145, 170]).toContain(t.vMm[1]);
        const start = t.surface === 'back' ? x[0] : t.surface === spec.breastSide ? spec.mouthMm : y[0];
        expect(t.uMm).toEqual([start, t.surface === 'back' ? x[1] : y[1]]);
      }
      const sizes = trimSizes(spec);
      expect(sizes.skirtingHeightMm).toBe(skirtings[0]?.vMm[1] ?? 0);
      if (skirtings.length > 0) expect(sizes.skirtingThicknessMm).toBeGreaterThanOrEqual(15);
      if (skirtings.length > 0) expect(sizes.skirtingThicknessMm).toBeLessThanOrEqual(20);
    }
  });

  it('have cornices along the back and the party wall, on the ceiling', () => {
    for (const spec of specs) {
      const party = spec.breastSide === 'left' ? 'right' : 'left';
      const cornices = spec.trims.filter((t) => t.kind === 'cornice');
      if (cornices.length === 0) continue;
      expect(cornices.map((t) => [t.name, t.surface])).toEqual([
        ['cornice back', 'ceiling'],
        [`cornice ${party}`, 'ceiling'],
      ]);
      const [back, side] = cornices;
      const { x, y } = extentsOf(spec);
      expect(back!.uMm).toEqual(x);
      expect(back!.vMm[1]).toBe(y[1]);
      expect(side!.vMm).toEqual(y);
      expect(party === 'left' ? side!.uMm[0] : side!.uMm[1]).toBe(party === 'left' ? x[0] : x[1]);
      // Deepest at the wall, and the same drop on both.
      const drop = trimSizes(spec).corniceDropMm;
      expect(back!.profile.mm.at(-1)![1]).toBe(drop);
      expect((party === 'left' ? side!.profile.mm[0] : side!.profile.mm.at(-1))![1]).toBe(drop);
    }
  });

  it('have a reference that wavers about y = 0 without mean or slope', () => {
    for (const { reference, openingMm, severity } of specs) {
      const { wavesMm } = reference;
      const { scale } = severities.find((s) => s.name === severity)!;
      const middle = (wavesMm.length - 1) / 2;
      const mean = wavesMm.reduce((sum, w) => sum + w, 0) / wavesMm.length;
      const slope = wavesMm.reduce((sum, w, i) => sum + w * (i - middle), 0) / 28;
      expect(Math.abs(mean)).toBeLessThan(1 / 1024);
      expect(Math.abs(slope)).toBeLessThan(1 / 1024);
      expect(Math.max(...wavesMm.map(Math.abs))).toBeGreaterThan(0);
      expect(Math.max(...wavesMm.map(Math.abs))).toBeLessThan(2 * 1.6 * scale);
      expect(reference.heightMm).toBe(openingMm.height - 90);
    }
  });

  it('can all be built', () => {
    for (const spec of specs) {
      const { fields } = buildRecess(spec);
      for (const side of alcoveSides) expect(fields[side].control.length).toBeGreaterThan(16);
    }
  });
});

describe('the schema of a spec', () => {
  const spec = specs[0]!;
  const refuses = (changed: unknown) => expect(v.is(recessSpecSchema, changed)).toBe(false);

  it('refuses fields that it does not know, at every level', () => {
    refuses({ ...spec, more: 1 });
    refuses({ ...spec, openingMm: { ...spec.openingMm, more: 1 } });
    refuses({ ...spec, surfaces: { ...spec.surfaces, more: spec.surfaces.left } });
    refuses({ ...spec, surfaces: { ...spec.surfaces, left: { ...spec.surfaces.left, more: 1 } } });
    const defects = [{ kind: 'lean', mm: 1, more: 1 }];
    refuses({ ...spec, surfaces: { ...spec.surfaces, left: { ...spec.surfaces.left, defects } } });
    refuses({ ...spec, reference: { ...spec.reference, more: 1 } });
  });

  it('refuses sizes out of bounds, numbers that are none, and humps and steps under 256 wide', () => {
    refuses({ ...spec, openingMm: { ...spec.openingMm, width: 399 } });
    refuses({ ...spec, mouthMm: 1 });
    refuses({ ...spec, key: [1, 2, 3] });
    refuses({ ...spec, version: 2 });
    const onLeft = (defects: unknown[]) => ({
      ...spec,
      surfaces: { ...spec.surfaces, left: { ...spec.surfaces.left, defects } },
    });
    refuses(onLeft([{ kind: 'lean', mm: Number.NaN }]));
    refuses(onLeft([{ kind: 'hump', mm: 1, u: 0, v: 0, width: 255 }]));
    refuses(onLeft([{ kind: 'step', mm: 1, along: 'u', at: 0, width: 255 }]));
    expect(v.is(recessSpecSchema, onLeft([{ kind: 'step', mm: 1, along: 'u', at: 0, width: 256 }]))).toBe(true);
  });
});
