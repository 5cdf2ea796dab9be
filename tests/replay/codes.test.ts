/**
 * Golden codes: a code stays the same room for ever.
 *
 * `codes.json` was written once, when codes were first given out, `family-codes.json` when the other families were,
 * `document-codes.json` when rooms drawn by a document held inside it; none is ever edited: a code there that no longer
 * gives the same spec, brief and surfaces is a fault of the program, not of the file. New severities, structures and kits get lines of their own at the end.
 *
 * Digests: SHA-256 of JSON with fields sorted by name (spec, brief), and of all control values of the built surfaces in
 * the order left, right, back, floor, ceiling, slope, those that are there; of a pair's right recess after the left's.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { baysOf } from '../../src/exercise/bays.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { type CodeParts, openCode, readCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { presets } from '../../src/exercise/kit.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { families } from '../../src/recess/families/families.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { builtSides } from '../../src/recess/recess-spec.ts';
import { severities } from '../../src/recess/severity.ts';
import { sha256Of } from '../helpers/canonical.ts';
import { inventedSeverities } from '../helpers/rooms.ts';

interface Golden {
  readonly code: string;
  readonly parts: CodeParts;
  readonly specSha256: string;
  readonly briefSha256: string;
  readonly surfacesSha256: string;
}
const goldenIn = (file: string): readonly Golden[] => JSON.parse(readFileSync(new URL(file, import.meta.url), 'utf8'));
const first = goldenIn('codes.json');
const byDocument = goldenIn('document-codes.json');
const golden = [...first, ...goldenIn('family-codes.json'), ...byDocument];

describe('golden codes', () => {
  it('are of every structure at every invented severity, and of every kit', () => {
    for (const { name: structure } of alcoveStructures)
      for (const { name: severity } of inventedSeverities)
        expect(first.some((g) => g.parts.structure === structure && g.parts.severity === severity)).toBe(true);
    for (const { name } of presets.slice(0, 3)) expect(first.some((g) => g.parts.kit === name)).toBe(true);
    expect(first.length).toBeGreaterThanOrEqual(21);
  });

  it('are of every structure of every family, and of every invented severity in every family', () => {
    for (const { name: family, structures } of families) {
      const its = golden.filter((g) => g.parts.family === family);
      for (const { name } of structures) expect(its.some((g) => g.parts.structure === name)).toBe(true);
      for (const { name } of inventedSeverities) expect(its.some((g) => g.parts.severity === name)).toBe(true);
    }
  });

  it('are of every structure of every family, every kit, and every severity of a document', () => {
    for (const { name: family, structures } of families)
      for (const { name } of structures)
        expect(byDocument.some((g) => g.parts.family === family && g.parts.structure === name)).toBe(true);
    for (const { name } of presets) expect(byDocument.some((g) => g.parts.kit === name)).toBe(true);
    for (const { name, limits } of severities)
      expect(byDocument.some((g) => g.parts.severity === name)).toBe(limits !== undefined);
  });

  it.each(golden)('$code, $parts.structure, $parts.severity', (g) => {
    expect(writeCode(g.parts)).toBe(g.code);
    expect(readCode(g.code)).toEqual({ ok: true, value: g.parts });
    const opened = openCode(g.code);
    if (!opened.ok) throw new Error(opened.error.says);
    const { spec, brief } = opened.value;
    expect(sha256Of(spec)).toBe(g.specSha256);
    expect(sha256Of(brief)).toBe(g.briefSha256);
    expect(sha256Of(controlsOf(opened.value))).toBe(g.surfacesSha256);
  });
});

function controlsOf(exercise: Exercise): number[][] {
  return baysOf(exercise).flatMap((bay) => {
    const { spec } = bay.exercise;
    const { fields } = buildRecess(spec);
    return builtSides(spec).map((side) => [...fields[side].control]);
  });
}
