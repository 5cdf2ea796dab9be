/**
 * An exercise as data: what its schema refuses, and what narrowing leaves.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { exerciseSchema, narrowed } from '../../src/exercise/exercise.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';

const exercise = exerciseOf(drawnParts('schema', 1)[0]!);
const takes = (changed: unknown) => v.is(exerciseSchema, changed);

describe('the schema of an exercise', () => {
  it('takes what a code stands for', () => {
    for (const parts of drawnParts('schema', 50)) expect(takes(exerciseOf(parts))).toBe(true);
    expect(takes({ ...exercise, code: null })).toBe(true);
  });

  it('refuses a field that it does not know, in every object of it', () => {
    let objects = 0;
    const walk = (value: unknown, put: (changed: unknown) => unknown) => {
      if (typeof value !== 'object' || value === null) return;
      if (Array.isArray(value)) {
        value.forEach((item, i) => {
          walk(item, (changed) => put(value.with(i, changed)));
        });
        return;
      }
      // Fates are by the trims' names: an unknown name there is no unknown field, but it must be a fate.
      objects++;
      expect(takes(put({ ...value, surprise: 1 }))).toBe(false);
      for (const [name, inner] of Object.entries(value)) walk(inner, (changed) => put({ ...value, [name]: changed }));
    };
    walk(exercise, (changed) => changed);
    expect(objects).toBeGreaterThan(30);
  });

  it('refuses an exercise without any one of its fields', () => {
    for (const name of Object.keys(exercise)) {
      const { [name as 'brief']: _, ...rest } = exercise;
      expect(takes(rest)).toBe(false);
    }
    for (const name of Object.keys(exercise.brief)) {
      const { [name as 'mouthMm']: _, ...rest } = exercise.brief;
      expect(takes({ ...exercise, brief: rest })).toBe(false);
    }
  });

  it.each([
    ['a mouth behind the face line', { mouthMm: 1 }],
    ['a size under 50', { carcassMm: { ...exercise.brief.carcassMm, width: { nominalMm: 49, find: true } } }],
    ['a size that is no number', { plinthMm: Number.NaN }],
    ['a negative length', { carcassFrontMm: -1 }],
    ['an unknown fate', { fates: { 'skirting left': 'goes' } }],
    ['an unknown reference', { reference: 'a pencil line' }],
    ['a finish to come', { finishMm: [{}] }],
  ])('refuses a brief with %s', (_, change) => {
    expect(takes({ ...exercise, brief: { ...exercise.brief, ...change } })).toBe(false);
  });

  it('refuses a newer version, another format, and nothing to find', () => {
    expect(takes({ ...exercise, version: 2 })).toBe(false);
    expect(takes({ ...exercise, format: 'offtrue-spec' })).toBe(false);
    expect(takes({ ...exercise, find: [] })).toBe(false);
    expect(takes({ ...exercise, find: ['frame'] })).toBe(true);
  });
});

describe('narrowing', () => {
  it('leaves what is named to be found, and the frame only if it is', () => {
    const depthAlone = narrowed(exercise, ['depth']);
    const { carcassMm, frame } = depthAlone.brief;
    expect([carcassMm.width.find, carcassMm.height.find, carcassMm.depth.find]).toEqual([false, false, true]);
    expect(frame).toBeNull();
    expect(carcassMm.width.nominalMm).toBe(exercise.brief.carcassMm.width.nominalMm);
    expect(narrowed(exercise, ['width', 'frame']).brief.frame).toEqual(exercise.brief.frame);
    expect(depthAlone.spec).toBe(exercise.spec);
    expect(takes(depthAlone)).toBe(true);
  });
});
