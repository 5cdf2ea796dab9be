/**
 * The families that a code can name: their order, their structures, and that every room of each can be built.
 */

import { safeParse } from 'valibot';
import { describe, expect, it } from 'vitest';
import { baysOf } from '../../../src/exercise/bays.ts';
import { openCode, seedCount, writeCode } from '../../../src/exercise/exercise-code.ts';
import { families } from '../../../src/recess/families/families.ts';
import { buildRecess } from '../../../src/recess/recess.ts';
import { familyNames, recessSpecSchema } from '../../../src/recess/recess-spec.ts';
import { severities } from '../../../src/recess/severity.ts';

describe('families', () => {
  it('stand in the order of their names, which is that of the codes', () => {
    const places = families.map((f) => familyNames.indexOf(f.name));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(places).size).toBe(families.length);
  });

  it.each(families.map((f) => [f.name, f] as const))(
    '%s: at least four structures, at most 13, all named apart',
    (_, f) => {
      expect(f.structures.length).toBeGreaterThanOrEqual(4);
      expect(f.structures.length).toBeLessThanOrEqual(13);
      expect(new Set(f.structures.map((s) => s.name)).size).toBe(f.structures.length);
    },
  );

  it.each(families.map((f) => [f.name, f] as const))(
    '%s: every structure at every severity opens, in its schema, and builds',
    (_, f) => {
      f.structures.forEach((structure, i) => {
        severities.forEach((severity, j) => {
          const seed = (i * 92_821 + j * 7_919 + 31) % seedCount;
          const code = writeCode({
            family: f.name,
            structure: structure.name,
            severity: severity.name,
            kit: 'site',
            seed,
          });
          const opened = openCode(code);
          if (!opened.ok) throw new Error(opened.error.says);
          expect(opened.value.spec).toMatchObject({
            family: f.name,
            structure: structure.name,
            severity: severity.name,
          });
          expect(safeParse(recessSpecSchema, opened.value.spec).success).toBe(true);
          for (const bay of baysOf(opened.value)) expect(() => buildRecess(bay.exercise.spec)).not.toThrow();
        });
      });
    },
  );
});
