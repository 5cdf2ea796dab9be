import { describe, expect, test } from 'vitest';
import { samplesOf, writeSamples } from '../../src/exchange/samples-file.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { buildRecess } from '../../src/recess/recess.ts';

const opened = openCode(
  writeCode({ family: 'alcove', severity: 'old', structure: 'belly', kit: 'site', seed: 31_007 }),
);
if (!opened.ok) throw new Error(opened.error.says);
const exercise = opened.value;
const recess = buildRecess(exercise.spec);
const { width, height, depth } = exercise.spec.openingMm;
const samples = samplesOf(recess, exercise, 100);

describe('samples of a room', () => {
  test('written a row at a time they are the same text', () => {
    for (const stepMm of [128, 100, 37])
      expect([...writeSamples(recess, exercise, stepMm)].join('')).toBe(
        JSON.stringify(samplesOf(recess, exercise, stepMm)),
      );
  });

  test('each grid begins at its first knots and fills what is within reach', () => {
    const ends = { x: width / 2 + 256, y: depth + 256, z: height + 256 };
    for (const { u, v, knots, heightsMm } of samples.surfaces) {
      expect([u.fromMm, v.fromMm]).toEqual([knots.u0Mm, knots.v0Mm]);
      for (const { axis, fromMm, count } of [u, v]) {
        const last = fromMm + (count - 1) * 100;
        expect(last).toBeLessThanOrEqual(ends[axis]);
        expect(last + 100).toBeGreaterThan(ends[axis]);
      }
      expect(heightsMm.length).toBe(v.count);
      expect(new Set(heightsMm.map((row) => row.length))).toEqual(new Set([u.count]));
    }
  });

  test('heights are true coordinates: each surface lies where the eye sees it, within its defects', () => {
    const eye: Partial<Record<string, number>> = {
      left: -width / 2,
      right: width / 2,
      back: depth,
      floor: 0,
      ceiling: height,
    };
    for (const { side, heightsMm } of samples.surfaces) {
      const all = heightsMm.flat();
      expect(Math.max(...all.map((mm) => Math.abs(mm - (eye[side] as number))))).toBeLessThan(80);
      expect(Math.max(...all) - Math.min(...all)).toBeGreaterThan(0);
    }
  });

  test('axes and trims are as they are promised', () => {
    expect(samples.surfaces.map((s) => `${s.name} ${s.u.axis}${s.v.axis}`)).toEqual([
      'left yz',
      'right yz',
      'back xz',
      'floor xy',
      'ceiling xy',
    ]);
    expect(samples.trims.map((t) => [t.name, t.fate])).toEqual(Object.entries(exercise.brief.fates));
  });

  test.each([0, -1, 1.5, 129, Number.NaN])('a step of %s mm is a mistake', (stepMm) => {
    expect(() => samplesOf(recess, exercise, stepMm)).toThrow(RangeError);
    expect(() => writeSamples(recess, exercise, stepMm).next()).toThrow(RangeError);
  });
});
