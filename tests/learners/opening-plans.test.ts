/**
 * Reading plans of reveals, door openings and spaces under a slope: no fewer than the least that the trade asks.
 *
 * @source smallest of three with diagonals for a reveal, three heights by both faces for a door opening, five chainages along
 *   a rake: common practice, no source
 */
import { describe, expect, it } from 'vitest';
import type { Brief } from '../../src/exercise/brief.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { carefulDensity, type PlannedReading, planReadings } from '../../src/learners/reading-plan.ts';
import { planUnderSlope, standingPlace } from '../../src/learners/sloped-plan.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import type { Side } from '../../src/recess/recess-spec.ts';

function briefsOf(family: string): readonly Brief[] {
  const { structures } = familyOf(family);
  return Array.from({ length: 40 }, (_, i) => {
    const structure = structures[i % structures.length]!.name;
    const opened = openCode(writeCode({ family, severity: 'old', structure, kit: 'site', seed: 300 + i }));
    if (!opened.ok) throw new Error(opened.error.says);
    return opened.value.brief;
  });
}

const on = (plan: readonly PlannedReading[], surface: Side) => plan.filter((r) => r.place.surface === surface);
const different = (plan: readonly PlannedReading[], axis: 'xMm' | 'yMm' | 'zMm') => {
  const places = [...new Set(plan.map((r) => r.place[axis]!))].sort((a, b) => a - b);
  return { count: places.length, from: places[0]!, to: places.at(-1)! };
};

describe.each(['reveal', 'doorway'])('%s', (family) => {
  it('each jamb at three heights and more, at both edges; head and floor at three and two', () => {
    for (const brief of briefsOf(family)) {
      const plan = planReadings(brief, carefulDensity);
      for (const jamb of ['left', 'right'] as const) {
        const heights = different(on(plan, jamb), 'zMm');
        const edges = different(on(plan, jamb), 'yMm');
        expect(heights.count).toBeGreaterThanOrEqual(3);
        expect(heights.to - heights.from).toBeGreaterThan(0.85 * brief.carcassMm.height.nominalMm);
        expect(edges.from).toBeLessThanOrEqual(15);
        expect(edges.to).toBeGreaterThanOrEqual(brief.openingMm.depth - 15);
      }
      for (const flat of ['floor', 'ceiling'] as const) {
        expect(different(on(plan, flat), 'xMm').count).toBeGreaterThanOrEqual(3);
        expect(different(on(plan, flat), 'yMm').count).toBeGreaterThanOrEqual(2);
      }
    }
  });

  it('the far face at three heights and more beside each jamb', () => {
    for (const brief of briefsOf(family)) {
      const back = on(planReadings(brief, carefulDensity), 'back');
      for (const sign of [-1, 1]) {
        const beside = back.filter((r) => sign * r.place.xMm! > brief.openingMm.width / 2 - 90);
        expect(different(beside, 'zMm').count).toBeGreaterThanOrEqual(3);
      }
      expect(back.every((r) => r.for?.[0] === 'lining-depth')).toBe(true);
    }
  });
});

describe.each(['under-stair', 'roof-slope'])('%s', (family) => {
  it('the slope at five chainages and more, from end to end of the sloped top, at three depths', () => {
    for (const brief of briefsOf(family)) {
      const slope = on(planUnderSlope(brief, carefulDensity), 'slope');
      expect(different(slope, 'xMm').count).toBeGreaterThanOrEqual(5);
      expect(different(slope, 'yMm').count).toBeGreaterThanOrEqual(3);
      const { from, to } = different(slope, 'xMm');
      const { lowMm, highMm } = brief.slope!;
      const { width, height } = brief.carcassMm;
      const flat = Math.max(0, (width.nominalMm * (highMm - height.nominalMm)) / (highMm - lowMm));
      expect(to - from).toBeGreaterThan(width.nominalMm - flat - 30);
    }
  });

  it('the level line stands under the low end, and the square line within a rule of either wall', () => {
    for (const brief of briefsOf(family)) {
      const { xMm, heightMm } = standingPlace(brief);
      expect(heightMm).toBeLessThan(0.75 * (brief.plinthMm + brief.slope!.lowMm));
      expect(brief.openingMm.width / 2 + Math.abs(xMm)).toBeLessThanOrEqual(1900);
      expect(Math.sign(xMm)).toBe(brief.slope!.low === 'left' ? 1 : -1);
    }
  });
});
