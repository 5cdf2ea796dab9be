/**
 * Before hand-in, nothing that the page holds outside the survey core tells the hidden room.
 */
import { describe, expect, test } from 'vitest';
import { nameOf } from '../../src/exchange/exercise-file.ts';
import { writeLog } from '../../src/exchange/log-file.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { heightAt } from '../../src/geometry/height-field.ts';
import { signedDistance } from '../../src/geometry/plane.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { openCore } from '../../src/page/state/core.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const seeds = [3, 1905, 77_777];

/** Every number that a text holds. */
function numbersOf(text: string): number[] {
  return (text.match(/-?\d+(?:\.\d+)?(?:e-?\d+)?/g) ?? []).map(Number);
}

/** A number that no rounding to a tenth or a half could give by chance. */
function isTelling(mm: number): boolean {
  const tenths = Math.abs(mm * 10);
  return Math.abs(tenths - Math.round(tenths)) > 0.02;
}

describe.each(seeds)('seed %i', (seed) => {
  const opened = openCode(writeCode({ family: 'alcove', severity: 'old', structure: 'wound', kit: 'guided', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  const exercise = opened.value;
  const survey = findLearner('careful')?.survey(beginSurvey(openWorld(exercise)));
  if (!survey) throw new Error('no learner');
  const before = survey.entries.slice(0, -1);
  const core = openCore(exercise, before);
  const held = JSON.stringify(core.view());
  const log = writeLog({ exercise: nameOf(exercise), learner: '' }, before);

  test('the view and the log hold no true offset', () => {
    const truths = survey.readings.map((r) => Math.abs(signedDistance(r.plane, r.point))).filter(isTelling);
    expect(truths.length).toBeGreaterThan(60);
    const told = [...numbersOf(held), ...numbersOf(log)];
    expect(truths.filter((t) => told.some((n) => Math.abs(n - t) < 5e-4))).toEqual([]);
  });

  test('the view holds no part of the spec that tells the room, and no height of a surface', () => {
    for (const word of ['defects', 'wobble', 'control', 'wavesMm', 'structure', 'severity', '"key"', 'offsetMm'])
      expect(held).not.toContain(word);
    const { fields } = survey.world.recess;
    const heights = [0, 120, 240].flatMap((u) => [300, 1200, 2000].map((v) => heightAt(fields.left, u, v)));
    const told = numbersOf(held);
    expect(heights.filter(isTelling).filter((h) => told.some((n) => Math.abs(n - h) < 5e-4))).toEqual([]);
  });

  test('marks and the true room are given out after hand-in alone', () => {
    expect(core.report()).toBeNull();
    expect(core.uncovered()).toBeNull();
    expect(core.act({ act: 'hand-in' }).outcome.ok).toBe(true);
    expect(core.report()?.marks).not.toBeNull();
    expect(core.uncovered()?.words.length).toBeGreaterThan(5);
  });

  test('the check would see a leak', () => {
    const r = survey.readings.find((x) => isTelling(Math.abs(signedDistance(x.plane, x.point))));
    if (!r) throw new Error('no reading');
    const leaking = numbersOf(
      JSON.stringify({ r: { plane: r.plane, off: Math.abs(signedDistance(r.plane, r.point)) } }),
    );
    expect(leaking.some((n) => Math.abs(n - Math.abs(signedDistance(r.plane, r.point))) < 5e-4)).toBe(true);
  });
});
