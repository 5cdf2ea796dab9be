/**
 * Golden codes: a code stays the same room for ever.
 *
 * `codes.json` was written once, when codes were first given out, and is never edited: a code there that no longer gives
 * the same spec, brief and surfaces is a fault of the program, not of the file. New severities, structures and kits get
 * lines of their own at its end.
 *
 * Digests: SHA-256 of JSON with fields sorted by name (spec, brief), and of all control values of the built surfaces in
 * the order left, right, back, floor, ceiling.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CodeParts, openCode, readCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { presets } from '../../src/exercise/kit.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { builtSides } from '../../src/recess/recess-spec.ts';
import { sha256Of } from '../helpers/canonical.ts';
import { inventedSeverities } from '../helpers/rooms.ts';

interface Golden {
  readonly code: string;
  readonly parts: CodeParts;
  readonly specSha256: string;
  readonly briefSha256: string;
  readonly surfacesSha256: string;
}
const golden: readonly Golden[] = JSON.parse(readFileSync(new URL('codes.json', import.meta.url), 'utf8'));

describe('golden codes', () => {
  it('are of every structure at every invented severity, and of every kit', () => {
    for (const { name: structure } of alcoveStructures)
      for (const { name: severity } of inventedSeverities)
        expect(golden.some((g) => g.parts.structure === structure && g.parts.severity === severity)).toBe(true);
    for (const { name } of presets) expect(golden.some((g) => g.parts.kit === name)).toBe(true);
    expect(golden.length).toBeGreaterThanOrEqual(21);
  });

  it.each(golden)('$code, $parts.structure, $parts.severity', (g) => {
    expect(writeCode(g.parts)).toBe(g.code);
    expect(readCode(g.code)).toEqual({ ok: true, value: g.parts });
    const opened = openCode(g.code);
    if (!opened.ok) throw new Error(opened.error.says);
    const { spec, brief } = opened.value;
    expect(sha256Of(spec)).toBe(g.specSha256);
    expect(sha256Of(brief)).toBe(g.briefSha256);
    const { fields } = buildRecess(spec);
    expect(sha256Of(builtSides(spec).map((side) => [...fields[side].control]))).toBe(g.surfacesSha256);
  });
});
