/**
 * Rooms kept inside limits: each surface by one factor, what no rule sees as drawn, half of the rooms at the limit. That the
 * limits are kept is held by code of its own: the proof `preset`.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../../src/chance/keyed-draws.ts';
import { type CodeParts, specOf } from '../../../src/exercise/exercise-code.ts';
import { families, familyOf } from '../../../src/recess/families/families.ts';
import { limitSpec, targetOf } from '../../../src/recess/limits/limit-spec.ts';
import { isSeen } from '../../../src/recess/limits/limits.ts';
import { uk2020 } from '../../../src/recess/limits/uk-warranty.ts';
import { type Defect, type RecessSpec, recessSpecSchema, type Side } from '../../../src/recess/recess-spec.ts';
import { severities } from '../../../src/recess/severity.ts';
import { sayRecess } from '../../../src/recess/trade-words.ts';
import { inventedSeverities, roomSpec } from '../../helpers/rooms.ts';

const limited = severities.filter((s) => s.limits);

/** What is drawn before it is kept inside anything: the same key, the same family. */
function drawnBefore(parts: Omit<CodeParts, 'kit'>): RecessSpec {
  const severity = severities.find((s) => s.name === parts.severity)!;
  const { key } = specOf(parts);
  return familyOf(parts.family).draw({ key, structure: parts.structure, severity });
}

const rooms = families.flatMap((family) =>
  family.structures.flatMap(({ name: structure }, i) =>
    limited.map(({ name: severity }, j) => ({
      family: family.name as string,
      structure,
      severity,
      seed: 1000 * i + 7 * j + 5,
    })),
  ),
);

describe.each(rooms)('$family, $structure, $severity', (parts) => {
  const before = drawnBefore(parts);
  const after = specOf(parts);
  const { limits } = limited.find((s) => s.name === parts.severity)!;

  it('is a spec, bit for bit through JSON, and the same again', () => {
    expect(v.is(recessSpecSchema, after)).toBe(true);
    expect(JSON.parse(JSON.stringify(after))).toStrictEqual(after);
    expect(specOf(parts)).toStrictEqual(after);
  });

  it('differs from what was drawn in the sizes of its surfaces alone', () => {
    expect({ ...after, surfaces: null, second: null }).toStrictEqual({ ...before, surfaces: null, second: null });
    expect(Object.keys(after.surfaces)).toEqual(Object.keys(before.surfaces));
  });

  it('has every surface scaled by one factor, what no rule sees as it was drawn', () => {
    for (const [side, drawn] of Object.entries(before.surfaces) as [
      Side,
      NonNullable<RecessSpec['surfaces'][Side]>,
    ][]) {
      const kept = after.surfaces[side]!;
      const same = (d: Defect) => JSON.stringify({ ...d, mm: 0 });
      const factors: number[] = [];
      for (const d of drawn.defects) {
        const now = kept.defects.find((k) => same(k) === same(d) && Math.sign(k.mm) === Math.sign(d.mm));
        const twice = drawn.defects.filter((k) => same(k) === same(d)).length > 1;
        if (!isSeen(limits!, side, d)) expect(kept.defects).toContainEqual(d);
        else if (now && !twice && Math.abs(d.mm) > 1) factors.push(now.mm / d.mm);
        else if (!now) expect(Math.abs(d.mm)).toBeLessThan(0.1);
      }
      factors.push(kept.wobbleMm / drawn.wobbleMm);
      expect(Math.max(...factors) - Math.min(...factors)).toBeLessThan(0.01);
      expect(Math.max(...factors)).toBeLessThan(5);
      expect(kept.wobbleMm).toBeLessThan(3);
    }
  });
});

describe('limitSpec', () => {
  it('leaves a spec alone that is to be kept inside nothing', () => {
    const spec = roomSpec({ defects: { left: [{ kind: 'lean', mm: 40 }] } });
    expect(limitSpec(spec, undefined)).toBe(spec);
    for (const severity of inventedSeverities) expect(severity.limits).toBeUndefined();
  });

  it('shrinks the surface that takes too much, and no other, where the room is not at the limit', () => {
    const seed = Array.from({ length: 99 }, (_, i) => `room ${i}`).find((s) => !targetOf(drawKey(s)).atLimit)!;
    const spec = roomSpec({
      seed,
      defects: { left: [{ kind: 'lean', mm: 16 }], right: [{ kind: 'lean', mm: 1 }], back: [{ kind: 'skew', mm: 9 }] },
    });
    const { share } = targetOf(spec.key);
    const { surfaces } = limitSpec(spec, uk2020);
    expect(surfaces.left!.defects[0]!.mm).toBeCloseTo(8 * share, 2);
    expect(surfaces.right).toEqual(spec.surfaces.right);
    // Square corners have no number there.
    expect(surfaces.back).toEqual(spec.surfaces.back);
  });

  it('brings the worst surface of a room at the limit up to its share, and all others with it', () => {
    const seed = Array.from({ length: 99 }, (_, i) => `room ${i}`).find((s) => targetOf(drawKey(s)).atLimit)!;
    const spec = roomSpec({ seed, defects: { left: [{ kind: 'lean', mm: 4 }], right: [{ kind: 'lean', mm: 1 }] } });
    const { share } = targetOf(spec.key);
    const { surfaces } = limitSpec(spec, uk2020);
    expect(surfaces.left!.defects[0]!.mm).toBeCloseTo(8 * share, 2);
    expect(surfaces.right!.defects[0]!.mm).toBeCloseTo(2 * share, 2);
  });
});

describe('targets of 2,000 keys', () => {
  const targets = Array.from({ length: 2000 }, (_, i) => targetOf(drawKey(`target ${i}`)));

  it('half are at the limit, from 0.94 to 0.97; the rest from 0.4 to 0.9', () => {
    const at = targets.filter((t) => t.atLimit);
    expect(at.length).toBeGreaterThan(900);
    expect(at.length).toBeLessThan(1100);
    for (const { atLimit, share } of targets) {
      expect(share).toBeGreaterThanOrEqual(atLimit ? 0.94 : 0.4);
      expect(share).toBeLessThan(atLimit ? 0.97 : 0.9);
    }
  });
});

describe('in trade words', () => {
  it('a room says which document it is drawn inside, and whether near; an invented one says nothing of it', () => {
    for (const { name: severity, limits } of severities) {
      const said = Array.from({ length: 12 }, (_, seed) => {
        const spec = specOf({ family: 'alcove', severity, structure: 'belly', seed });
        const lines = sayRecess(spec).filter((line) => line.startsWith('drawn inside'));
        expect(lines.length).toBe(limits ? 1 : 0);
        for (const line of lines) {
          expect(line).toContain(`${limits!.document}, ${limits!.edition}`);
          expect(line.endsWith('near the limit')).toBe(targetOf(spec.key).atLimit);
        }
        return lines.length;
      });
      expect(said).toHaveLength(12);
    }
  });
});
