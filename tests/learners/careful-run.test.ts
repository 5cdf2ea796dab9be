/**
 * The careful learner in runs and at plain walls: set-ups that are carried, boxes booked from the lines, what it sends fits.
 */
import { describe, expect, it } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey, reportOf } from '../../src/marking/report.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { severities } from '../../src/recess/severity.ts';
import { bookedOffsets } from '../../src/survey/offsets.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { surveyOf } from '../helpers/surveying.ts';

function surveysOf(family: string, count: number): Survey[] {
  const { structures } = familyOf(family);
  return Array.from({ length: count }, (_, i) => {
    const severity = severities[i % severities.length]!.name;
    const structure = structures[i % structures.length]!.name;
    const opened = openCode(writeCode({ family, severity, structure, kit: 'site', seed: 40_009 + 977 * i }));
    if (!opened.ok) throw new Error(opened.error.says);
    return findLearner('careful')!.survey(surveyOf(opened.value));
  });
}

const runs = surveysOf('run', 14);
const walls = surveysOf('plain-wall', 14);

describe('in 14 runs', () => {
  it('sends what fits in all but one at the most', () => {
    const bad = runs.filter((s) => ['scrap', 'rework', 'nothing'].includes(markSurvey(s).marks!.verdict!.word));
    expect(bad.length).toBeLessThanOrEqual(1);
  });

  it('reads the back and the floor at least every 600, the floor on the front line too', () => {
    for (const s of runs) {
      const { brief } = s.world.exercise;
      const gaps = (side: string, keep: (o: { u: number; v: number }) => boolean) => {
        const at = bookedOffsets(s)
          .filter((o) => o.side === side && o.edge === undefined && keep(o.at))
          .map((o) => o.at.u)
          .sort((a, b) => a - b);
        return Math.max(...at.slice(1).map((u, i) => u - at[i]!));
      };
      expect(gaps('floor', ({ v }) => v < 60)).toBeLessThanOrEqual(600);
      if (brief.carcassMm.depth.find) expect(gaps('back', () => true)).toBeLessThanOrEqual(600);
    }
  });

  it('carries each further square line to the first by a step that was read', () => {
    const carried = runs.filter((s) => s.carries.length > 0);
    expect(carried.length).toBeGreaterThan(2);
    for (const { said } of carried.flatMap((s) => s.carries)) {
      expect(said.to).toBe('S');
      expect(said.reading).toBeDefined();
    }
    const wide = runs.filter((s) => s.world.exercise.brief.openingMm.width > 3900);
    expect(wide.length).toBeGreaterThan(0);
    for (const s of wide) {
      expect(s.carries.length).toBe(2);
      // Both steps are to a line that no width was read from: no step is missing for all that.
      expect(reportOf(s).findings!.map((f) => f.mistake)).not.toContain('M23');
    }
  });

  it('sets out every joint from S, and every box that the back is cut for', () => {
    for (const s of runs) {
      const { brief } = s.world.exercise;
      expect(s.proposal!.runMm!.length).toBe(brief.modules!.count + 1);
      expect(s.proposal!.cutOutsMm?.map((c) => c.name) ?? []).toEqual(brief.cutOuts ?? []);
    }
  });
});

describe('at 14 plain walls', () => {
  it('sends what fits in all but one at the most: shelves or a carcass', () => {
    const bad = walls.filter((s) => ['scrap', 'rework', 'nothing'].includes(markSurvey(s).marks!.verdict!.word));
    expect(bad.length).toBeLessThanOrEqual(1);
    const shelved = walls.filter((s) => s.proposal!.shelfMm);
    expect(shelved.length).toBeGreaterThan(2);
    expect(walls.length - shelved.length).toBeGreaterThan(2);
    for (const s of walls) expect(s.proposal!.shelfMm !== undefined).toBe(s.world.exercise.brief.shelves !== undefined);
  });
});
