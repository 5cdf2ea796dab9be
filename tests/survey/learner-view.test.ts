/**
 * What a learner sees, and their own reckoning: made of acts and outcomes alone, the same whatever the hidden room is.
 */
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { learners } from '../../src/learners/learner.ts';
import { fold } from '../../src/survey/acting.ts';
import { isThrown, learnerView } from '../../src/survey/learner-view.ts';
import { reckon, reckonedPlace } from '../../src/survey/reckoning.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { drawnParts, exerciseOf, roomSpec } from '../helpers/rooms.ts';
import { acted, standing, surveyIn, surveyOf } from '../helpers/surveying.ts';

/** The same brief, kit and trims round a true room whose hand's frame is another. */
function straightened(exercise: Exercise): Exercise {
  const { openingMm, mouthMm, breastSide, trims, structure, severity } = exercise.spec;
  const spec = roomSpec({ openingMm, mouthMm, breastSide, trims, seed: 'another' });
  return { ...exercise, spec: { ...spec, structure, severity } };
}

describe('the learner’s view', () => {
  const cases = learners.flatMap((l) => drawnParts(`view ${l.name}`, 3).map((parts) => ({ l, name: l.name, parts })));

  it.each(cases)(
    'of the $name learner in $parts.structure, $parts.seed is the same over another hidden room',
    ({ l, parts }) => {
      const exercise = exerciseOf(parts);
      const survey = l.survey(surveyOf(exercise));
      const other = survey.entries.reduce<Survey>(
        (now, e) => fold(now, e.act, e.outcome),
        surveyOf(straightened(exercise)),
      );
      expect(other.world.hand).not.toEqual(survey.world.hand);
      expect(JSON.stringify(learnerView(other))).toBe(JSON.stringify(learnerView(survey)));
    },
  );

  it('tells no secret number: neither the hand’s frame nor the rule’s errors nor where the level truly stands', () => {
    const careful = learners[0]!;
    for (const parts of drawnParts('secret', 3)) {
      const survey = careful.survey(surveyOf(exerciseOf(parts)));
      const said = new Set(JSON.stringify(learnerView(survey)).match(/-?\d+\.\d{4,}/g));
      const { hand, rule } = survey.world;
      const { at, facing } = survey.standing!;
      for (const secret of [
        ...Object.values(hand.shift),
        hand.xAxis.y,
        rule.zero,
        rule.scale,
        at.x,
        at.y,
        at.z,
        facing.x,
      ])
        expect(said).not.toContain(String(secret));
    }
  });

  it('shows what is written, thrown, marked and off', () => {
    const survey = acted(
      surveyIn(),
      ...standing,
      { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } },
      { act: 'mark', place: { surface: 'left', along: 'F', zMm: 900 } },
      { act: 'rub-out', mark: 1 },
      { act: 'read', datum: 'S', place: { surface: 'left', yMm: 0, zMm: 900 } },
      { act: 'span', place: { surface: 'left', yMm: 0, zMm: 900 }, to: 'right' },
      { act: 'note', text: 'x' },
    );
    const view = learnerView(survey);
    expect(view.marks.map((m) => [m.mark, m.datum])).toEqual([[2, 'F']]);
    expect(view.readings).toMatchObject([{ n: 6, datum: 'S', on: 'left', readOutMm: null }]);
    expect(view.tapes).toHaveLength(1);
    expect([view.acts, view.notes, view.handedIn]).toEqual([8, ['x'], false]);
    expect(view.level).toMatchObject({ setUp: 1, at: { x: 0, y: 0, z: 1100 }, settled: true });
    expect([isThrown(view, 'S'), isThrown(view, 'S2')]).toEqual([true, false]);
    expect(isThrown(learnerView(acted(survey, { act: 'raise', byMm: 1 })), 'S')).toBe(false);
    expect(view.seen).toHaveLength(7);
  });
});

describe('dead reckoning', () => {
  const { exercise } = surveyIn().world;
  const steps = (...acts: Parameters<typeof acted>[1][]) => acted(surveyIn(), ...acts).entries;

  it('is nothing before the level stands', () => {
    expect(reckon(exercise, steps({ act: 'note', text: 'x' }))).toBeNull();
  });

  it('adds up moves, turns and raises in the hand’s own frame', () => {
    const level = reckon(
      exercise,
      steps(
        { act: 'stand', xMm: 10, yMm: -20, heightMm: 1000 },
        { act: 'move', byXMm: 3, byYMm: 4 },
        { act: 'raise', byMm: 50 },
        { act: 'settle' },
        { act: 'turn', byMmPerM: 10, quarters: -1 },
      ),
    )!;
    expect(level.at).toEqual({ x: 13, y: -16, z: 1050 });
    expect(Math.atan2(level.facing.y, level.facing.x)).toBeCloseTo(Math.atan(0.01), 12);
    expect(level.settled).toBe(true);
  });

  it('takes an aim to go through where the mark is reckoned to be', () => {
    const level = reckon(
      exercise,
      steps(
        ...standing,
        { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } },
        { act: 'turn', byMmPerM: 80 },
        { act: 'aim', plane: 'S', at: { mark: 1 } },
      ),
    )!;
    expect(level.facing.x).toBeCloseTo(0, 9);
    expect(level.facing.y).toBeCloseTo(1, 9);
  });

  it('puts a place along a line where the line is reckoned to meet the straight wall', () => {
    const level = reckon(
      exercise,
      steps({ act: 'stand', xMm: 0, yMm: 30, heightMm: 1000 }, { act: 'settle' }, { act: 'turn', byMmPerM: 20 }),
    );
    // F is turned anticlockwise by 20 mm a metre: on the left wall, half a metre off, it falls 10 nearer.
    expect(reckonedPlace(exercise.spec, level, { surface: 'left', along: 'F', zMm: 900 }).y).toBeCloseTo(20, 9);
    expect(reckonedPlace(exercise.spec, level, { surface: 'right', along: 'F', zMm: 900 }).y).toBeCloseTo(40, 9);
    expect(reckonedPlace(exercise.spec, level, { surface: 'back', along: 'L', xMm: 5 })).toEqual({
      x: 5,
      y: 500,
      z: 1000,
    });
    expect(reckonedPlace(exercise.spec, level, { surface: 'floor', xMm: 5, yMm: 6 })).toEqual({ x: 5, y: 6, z: 0 });
  });

  it('ignores what was refused', () => {
    const survey = acted(surveyIn(), ...standing);
    const refused = {
      n: 3,
      act: { act: 'move', byXMm: 0, byYMm: 900 },
      outcome: { ok: false, error: { code: 'stand/not-there' } },
    } as const;
    expect(reckon(exercise, [...survey.entries, refused])!.at).toEqual({ x: 0, y: 0, z: 1100 });
  });
});
