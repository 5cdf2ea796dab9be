/**
 * Reading plans: made of the brief alone, as dense as they say, within the places that count.
 */
import { describe, expect, it } from 'vitest';
import {
  carcassDepths,
  carcassHeights,
  carefulDensity,
  evenSteps,
  planReadings,
} from '../../src/learners/reading-plan.ts';
import { bookedOffsets, putTo } from '../../src/survey/offsets.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { acted, standing, surveyOf } from '../helpers/surveying.ts';

const exercises = drawnParts('plans', 30).map(exerciseOf);

describe('even steps', () => {
  it('run from one end to the other, both ends too', () => {
    expect(evenSteps(0, 100, 5)).toEqual([0, 25, 50, 75, 100]);
    expect(evenSteps(100, 0, 3)).toEqual([100, 50, 0]);
    expect(evenSteps(10, 30, 1)).toEqual([20]);
  });
});

describe('the careful plan of 30 briefs, seed "plans"', () => {
  const d = carefulDensity;

  it('is seven heights by three depths a side, five by three on the back, five by three on floor and ceiling', () => {
    expect(d).toEqual({
      wallHeights: 7,
      wallDepths: 3,
      backHeights: 5,
      backWidths: 3,
      flatWidths: 5,
      flatDepths: 3,
    });
  });

  it('is as dense as it says on each side, and leaves out a depth that is made as it stands', () => {
    for (const { brief } of exercises) {
      const plan = planReadings(brief, d);
      const count = (surface: string, size: string) =>
        plan.filter((r) => r.place.surface === surface && r.for?.some((f) => f === size)).length;
      for (const side of ['left', 'right']) expect(count(side, 'carcass-width')).toBe(d.wallHeights * d.wallDepths);
      for (const side of ['left', 'right']) expect(count(side, 'frame-width')).toBe(d.wallHeights);
      for (const flat of ['floor', 'ceiling']) expect(count(flat, 'carcass-height')).toBe(d.flatWidths * d.flatDepths);
      for (const flat of ['floor', 'ceiling']) expect(count(flat, 'frame-height')).toBe(d.flatWidths);
      expect(count('back', 'carcass-depth')).toBe(brief.carcassMm.depth.find ? d.backHeights * d.backWidths : 0);
    }
  });

  it('reads from mouth to back and from plinth to top, the ends within a hand of the carcass', () => {
    for (const { brief } of exercises) {
      const walls = planReadings(brief, d).filter(
        (r) => r.place.surface === 'left' && r.for?.includes('carcass-width'),
      );
      const ys = walls.map((r) => r.place.yMm!);
      const zs = walls.map((r) => r.place.zMm!);
      const back = brief.carcassFrontMm + brief.carcassMm.depth.nominalMm;
      const top = brief.plinthMm + brief.carcassMm.height.nominalMm;
      expect(Math.min(...ys) - brief.mouthMm).toBeLessThanOrEqual(20);
      expect(back - Math.max(...ys)).toBeLessThanOrEqual(20);
      expect(Math.min(...zs) - brief.plinthMm).toBeLessThanOrEqual(30);
      expect(top - Math.max(...zs)).toBeLessThanOrEqual(30);
      expect([carcassDepths(brief).to, carcassHeights(brief).from >= brief.plinthMm]).toEqual([back, true]);
    }
  });

  it('books each reading to a size that its place would put it to as well', () => {
    for (const exercise of exercises.slice(0, 10)) {
      const survey = acted(surveyOf(exercise), ...standing);
      for (const { datum, place, for: sizes } of planReadings(exercise.brief, d)) {
        const booked = acted(survey, { act: 'book', what: 'offset', valueMm: 500, datum, place });
        const put = putTo(bookedOffsets(booked)[0]!, exercise.brief);
        for (const size of sizes!) expect(put).toContain(size);
      }
    }
  });
});
