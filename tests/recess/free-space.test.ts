import { describe, expect, test } from 'vitest';
import { heightAt } from '../../src/geometry/height-field.ts';
import { crossingIn, leastFreeMm, noSpaceIn, sayNoSpace } from '../../src/recess/free-space.ts';
import { buildRecess, type Recess, reachOf } from '../../src/recess/recess.ts';
import type { Defect, RecessSpec, Side } from '../../src/recess/recess-spec.ts';

const straight = { offsetMm: 0, wobbleMm: 0, defects: [] };

function room(bad: Partial<Record<Side, readonly Defect[]>>, more: Partial<RecessSpec> = {}): Recess {
  const side = (name: Side) => ({ ...straight, defects: [...(bad[name] ?? [])] });
  return buildRecess({
    format: 'offtrue-spec',
    version: 1,
    family: 'own',
    structure: 'own',
    severity: 'own',
    openingMm: { width: 420, height: 2000, depth: 400 },
    mouthMm: 0,
    breastSide: null,
    key: [1, 2, 3, 4],
    surfaces: {
      left: side('left'),
      right: side('right'),
      back: side('back'),
      floor: side('floor'),
      ceiling: side('ceiling'),
    },
    trims: [],
    reference: { kind: 'best-fit', heightMm: 0, wavesMm: [0, 0] },
    ...more,
  });
}

/** The least space between the side walls, looked for on a net of places: never less than the true least. */
function leastSampled(recess: Recess): number {
  const r = reachOf(recess, 'left');
  let least = Number.POSITIVE_INFINITY;
  for (let u = r.u0; u <= r.u1; u += 8)
    for (let v = r.v0; v <= r.v1; v += 8)
      least = Math.min(least, 0 - heightAt(recess.fields.left, u, v) - heightAt(recess.fields.right, u, v));
  return least;
}

describe('free space', () => {
  test('a straight room has it', () => {
    expect(noSpaceIn(room({}))).toBeNull();
  });

  test.each([
    [150, 190],
    [195, 195],
    [199, 120],
    [100, 100],
  ])('bellies of %d and %d: the least space is certified, and no sample undercuts it', (a, b) => {
    const recess = room({ left: [{ kind: 'bow', mm: a, crownV: 900 }], right: [{ kind: 'bow', mm: b, crownV: 1100 }] });
    const least = leastSampled(recess);
    const none = noSpaceIn(recess);
    if (least >= leastFreeMm + 0.5) return expect(none).toBeNull();
    expect(none).toMatchObject({ why: 'cross', side: 'left', with: 'right' });
    expect(none?.mm).toBeLessThanOrEqual(least + 1e-9);
    expect(none?.mm).toBeGreaterThan(least - 0.5);
  });

  test('walls that truly cross are told apart from walls that come near', () => {
    const defects = (mm: number): Defect[] => [{ kind: 'taper', mm }];
    const near = room({ left: defects(170), right: defects(170) });
    expect(crossingIn(near)).toBeNull();
    expect(noSpaceIn(near)).not.toBeNull();
    const cross = room({ left: defects(190), right: defects(190) });
    expect(crossingIn(cross)).toMatchObject({ side: 'left', with: 'right' });
    expect(sayNoSpace(crossingIn(cross) as NonNullable<ReturnType<typeof crossingIn>>)).toMatch(
      /left and the right cross/,
    );
  });

  test('a hollow that leaves what the room reaches', () => {
    const none = noSpaceIn(room({ back: [{ kind: 'bow', mm: -260, crownV: 1000 }] }));
    expect(none).toMatchObject({ why: 'out', side: 'back' });
    expect(sayNoSpace(none as NonNullable<typeof none>)).toMatch(
      /within 200 of its straight outline, got 2\d\d(\.\d)? out of/,
    );
  });

  test('a back wall that comes through the face line', () => {
    const openingMm = { width: 420, height: 2000, depth: 100 };
    const none = noSpaceIn(room({ back: [{ kind: 'lean', mm: 130 }] }, { openingMm }));
    expect(none).toMatchObject({ why: 'cross', side: 'back', with: 'back' });
    expect(sayNoSpace(none as NonNullable<typeof none>)).toContain('the face line');
  });

  test('a slope over the floor counts over the outline alone', () => {
    const surfaces = { left: straight, right: straight, back: straight, floor: straight, slope: straight };
    const under = (lowMm: number) => room({}, { surfaces, slope: { low: 'left', lowMm, riseMmPerM: 1500 } });
    expect(noSpaceIn(under(120))).toBeNull();
    const humped = { ...straight, defects: [{ kind: 'hump', mm: 90, u: -150, v: 200, width: 500 } as const] };
    const met = room(
      {},
      { surfaces: { ...surfaces, floor: humped }, slope: { low: 'left', lowMm: 100, riseMmPerM: 100 } },
    );
    expect(noSpaceIn(met)).toMatchObject({ side: 'floor', with: 'slope' });
  });
});
