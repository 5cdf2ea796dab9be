/**
 * Drawn runs and plain walls: sizes in bounds, trims that hang together, briefs that keep clear of what stays.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { briefSchema } from '../../../src/exercise/brief.ts';
import type { Exercise } from '../../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../../src/exercise/exercise-code.ts';
import { familyOf } from '../../../src/recess/families/families.ts';
import { type FamilyName, recessSpecSchema, type Trim } from '../../../src/recess/recess-spec.ts';
import { severities } from '../../../src/recess/severity.ts';

function drawn(family: FamilyName, count: number): Exercise[] {
  const { structures } = familyOf(family);
  return Array.from({ length: count }, (_, i) => {
    const severity = severities[i % severities.length]!.name;
    const structure = structures[i % structures.length]!.name;
    const opened = openCode(writeCode({ family, severity, structure, kit: 'site', seed: 11 + 7001 * i }));
    if (!opened.ok) throw new Error(opened.error.says);
    return opened.value;
  });
}

const families = { run: drawn('run', 300), 'plain-wall': drawn('plain-wall', 300) } as const;
const within = (mm: number, from: number, to: number) => mm % 10 === 0 && mm >= from && mm <= to;
const share = (of: readonly Exercise[], which: (e: Exercise) => boolean) => of.filter(which).length / of.length;
const edgeOff = (t: Trim, at: number) => Math.min(Math.abs(t.vMm[0] - at), Math.abs(t.vMm[1] - at));

describe.each(Object.entries(families))('300 drawn of %s', (_, exercises) => {
  it('are specs and briefs by their schemas, bit for bit through JSON', () => {
    for (const { spec, brief } of exercises) {
      expect(v.is(recessSpecSchema, spec)).toBe(true);
      expect(v.is(briefSchema, brief)).toBe(true);
      expect(JSON.parse(JSON.stringify({ spec, brief }))).toStrictEqual({ spec, brief });
    }
  });

  it('name every trim once, give each a fate, and cut out only what stands on the back and may be cut', () => {
    for (const { spec, brief } of exercises) {
      const names = spec.trims.map((t) => t.name);
      expect(new Set(names).size).toBe(names.length);
      expect(Object.keys(brief.fates).sort()).toEqual([...names].sort());
      for (const name of brief.cutOuts ?? []) {
        expect(brief.fates[name]).toBe('cut');
        expect(spec.trims.find((t) => t.name === name)!.surface).toBe('back');
      }
    }
  });

  it('have no box in the way of another', () => {
    for (const { spec } of exercises) {
      const boxes = spec.trims.filter((t) => ['radiator', 'socket-box', 'pipe-boxing'].includes(t.kind));
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const apart = (x: readonly [number, number], y: readonly [number, number]) =>
            Math.max(x[0] - y[1], y[0] - x[1]);
          expect(Math.max(apart(a.uMm, b.uMm), apart(a.vMm, b.vMm))).toBeGreaterThanOrEqual(90);
        }
      });
    }
  });

  it('keep every edge of a band that stays 15 off the nominal carcass’s top and bottom', () => {
    let held = 0;
    for (const { spec, brief } of exercises) {
      if (brief.shelves) continue;
      const bottom = brief.plinthMm + brief.finishMm.reduce((sum, f) => sum + f.mm, 0);
      const top = bottom + brief.carcassMm.height.nominalMm;
      for (const t of spec.trims)
        if (brief.fates[t.name] === 'stays' && t.surface !== 'ceiling') {
          expect(Math.min(edgeOff(t, bottom), edgeOff(t, top))).toBeGreaterThanOrEqual(15);
          held++;
        }
    }
    expect(held).toBeGreaterThan(50);
  });
});

describe('runs', () => {
  const { run } = families;

  it('are 1,900 to 4,400 wide, 2,200 to 2,600 high, 350 to 650 deep, their walls run on, nothing open', () => {
    for (const { spec } of run) {
      expect(within(spec.openingMm.width, 1900, 4400)).toBe(true);
      expect(within(spec.openingMm.height, 2200, 2600)).toBe(true);
      expect(within(spec.openingMm.depth, 350, 650)).toBe(true);
      expect(spec.breastSide).toBeNull();
      expect(Object.keys(spec.surfaces).sort()).toEqual(['back', 'ceiling', 'floor', 'left', 'right']);
    }
  });

  it('have radiators that come off, beams, pipes and sockets, and a floor finish to come, now and then', () => {
    const has = (kind: Trim['kind']) => share(run, (e) => e.spec.trims.some((t) => t.kind === kind));
    expect([has('radiator') > 0.4, has('beam') > 0.25, has('pipe-boxing') > 0.2, has('socket-box') > 0.6]).toEqual([
      true,
      true,
      true,
      true,
    ]);
    for (const { spec, brief } of run)
      for (const t of spec.trims) if (t.kind === 'radiator') expect(brief.fates[t.name]).toBe('off');
    expect(share(run, (e) => e.brief.finishMm.length > 0)).toBeGreaterThan(0.4);
    expect(new Set(run.map((e) => e.spec.reference.kind)).size).toBe(3);
  });

  it('ask for three to eight carcasses of 300 to 800, with infills at both ends', () => {
    for (const { brief } of run) {
      const wide = brief.carcassMm.width.nominalMm / brief.modules!.count;
      expect(wide).toBeGreaterThan(300);
      expect(wide).toBeLessThan(800);
      expect(brief.modules!.mostInfillMm).toBeGreaterThan(brief.askMm.left);
    }
  });
});

describe('plain walls', () => {
  const walls = families['plain-wall'];

  it('are open to both sides, and are for shelves or for a carcass', () => {
    for (const { spec } of walls) expect(Object.keys(spec.surfaces).sort()).toEqual(['back', 'ceiling', 'floor']);
    const shelved = share(walls, (e) => e.brief.shelves !== undefined);
    expect(shelved).toBeGreaterThan(0.4);
    expect(shelved).toBeLessThan(0.6);
  });

  it('have two shelves or more, clear of all that is on the wall and of each other', () => {
    for (const { spec, brief } of walls) {
      if (!brief.shelves) continue;
      const { heightsMm, thicknessMm, lengthMm } = brief.shelves;
      expect(heightsMm.length).toBeGreaterThanOrEqual(2);
      heightsMm.forEach((z, i) => {
        expect(z - (heightsMm[i - 1] ?? 0)).toBeGreaterThan(150);
        for (const t of spec.trims) {
          const beside = t.uMm[1] < -lengthMm / 2 || t.uMm[0] > lengthMm / 2;
          if (t.surface === 'back' && !beside) expect(t.vMm[0] > z + thicknessMm + 40 || t.vMm[1] < z - 40).toBe(true);
        }
      });
    }
  });
});
