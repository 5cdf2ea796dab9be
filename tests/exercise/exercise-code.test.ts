/**
 * Exercise codes: every slip of one sign and every swap of neighbours is refused, what is written is read, and the
 * structure cannot be read off. The check sign is worked out again here: weights 1 to 12, modulo 13.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CodeParts,
  codeSigns,
  openCode,
  readCode,
  seedCount,
  specOf,
  writeCode,
} from '../../src/exercise/exercise-code.ts';
import { presets } from '../../src/exercise/kit.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { families } from '../../src/recess/families/families.ts';
import { severities } from '../../src/recess/severity.ts';
import { drawnParts } from '../helpers/rooms.ts';
import { evenness, independence, tally } from '../helpers/statistics.ts';

const kinds = families.flatMap((f) => f.structures.map((s) => ({ family: f.name, structure: s.name })));
const parts: fc.Arbitrary<CodeParts> = fc
  .record({
    kind: fc.constantFrom(...kinds),
    severity: fc.constantFrom(...severities.map((s) => s.name)),
    kit: fc.constantFrom(...presets.map((p) => p.name)),
    seed: fc.oneof(fc.constantFrom(0, 1, 12, 13, seedCount - 1), fc.nat(seedCount - 1)),
  })
  .map(({ kind, ...rest }) => ({ ...kind, ...rest }));
const bare = (code: string) => code.replaceAll('-', '');
const errorOf = (code: string) => {
  const read = readCode(code);
  return read.ok ? 'read' : read.error.code;
};

/** Puts a sign in a place (from 0) and makes the check sign agree again. */
function forged(code: string, place: number, sign: string): string {
  const signs = [...bare(code)];
  signs[place] = sign;
  const sum = signs.slice(0, 11).reduce((total, s, i) => total + (i + 1) * codeSigns.indexOf(s), 0);
  // 12 of the last must bring the sum to 0 modulo 13, and 12 is -1.
  return [...signs.slice(0, 11), codeSigns[sum % 13]].join('');
}

describe('what is written', () => {
  it('is read again, seed 71', () => {
    fc.assert(
      fc.property(parts, (p) => {
        expect(readCode(writeCode(p))).toEqual({ ok: true, value: p });
      }),
      { seed: 71, numRuns: 2000 },
    );
  });

  it('is three groups of four of the thirteen signs', () => {
    expect(new Set(codeSigns).size).toBe(13);
    for (const p of drawnParts('written', 300))
      expect(writeCode(p)).toMatch(/^[24679DFHKMRWY]{4}(-[24679DFHKMRWY]{4}){2}$/);
  });

  it('has no signs that look alike or sound alike', () => {
    // Of each of these at most one sign is used.
    const alike = ['0OQD', '1IL', '5S', '8B', '2Z', 'UV', 'MN', 'BCDEGPTV', 'AJK8', 'FSX', 'I5', 'UQ'];
    for (const signs of alike) expect([...signs].filter((s) => codeSigns.includes(s)).length).toBeLessThanOrEqual(1);
  });

  it('is read in small letters, with spaces or without dashes', () => {
    for (const p of drawnParts('read', 50)) {
      const code = writeCode(p);
      for (const form of [code.toLowerCase(), bare(code), ` ${code.replaceAll('-', ' ')}\n`, [...bare(code)].join(' ')])
        expect(readCode(form)).toEqual({ ok: true, value: p });
    }
  });

  it('differs for different parts, seed 72', () => {
    const all = drawnParts('differ', 3000);
    expect(new Set(all.map(writeCode)).size).toBe(new Set(all.map((p) => JSON.stringify(p))).size);
  });

  it.each([-1, seedCount, 1.5, Number.NaN])('takes no seed %s', (seed) => {
    const p = { family: 'alcove', severity: 'old', structure: 'belly', kit: 'site', seed };
    expect(() => writeCode(p)).toThrow(
      new RangeError(`code: seed must be a whole number from 0 to 4826808, got ${seed}`),
    );
  });

  it('takes no unknown name', () => {
    const p = { family: 'alcove', severity: 'old', structure: 'belly', kit: 'site', seed: 1 };
    expect(() => writeCode({ ...p, structure: 'bent' })).toThrow(new RangeError('code: no structure is named "bent"'));
    expect(() => writeCode({ ...p, kit: '' })).toThrow(new RangeError('code: no kit is named ""'));
  });
});

describe('slips, 300 codes of seed "slips"', () => {
  const codes = drawnParts('slips', 300).map((p) => bare(writeCode(p)));

  it('one wrong sign, all 12 x 12 of each code, is refused', () => {
    let slips = 0;
    for (const code of codes)
      for (let place = 0; place < 12; place++)
        for (const sign of codeSigns) {
          if (sign === code[place]) continue;
          slips++;
          const wrong = code.slice(0, place) + sign + code.slice(place + 1);
          if (errorOf(wrong) !== 'code/check') expect.fail(`${code} as ${wrong}: ${errorOf(wrong)}`);
        }
    expect(slips).toBe(300 * 144);
  });

  it('two neighbours swapped, all 11 of each code, are refused, and any two others too', () => {
    let swaps = 0;
    for (const code of codes)
      for (let i = 0; i < 12; i++)
        for (let j = i + 1; j < 12; j++) {
          if (code[i] === code[j]) continue;
          if (j === i + 1) swaps++;
          const signs = [...code];
          [signs[i], signs[j]] = [code[j]!, code[i]!];
          if (errorOf(signs.join('')) !== 'code/check') expect.fail(`${code} as ${signs.join('')}`);
        }
    expect(swaps).toBeGreaterThan(2700);
  });

  it('one sign too few or too many is refused', () => {
    for (const code of codes) {
      expect(errorOf(code.slice(1))).toBe('code/length');
      expect(errorOf(`${code}4`)).toBe('code/length');
    }
  });
});

describe('each refusal', () => {
  const code = writeCode({ family: 'alcove', severity: 'old', structure: 'belly', kit: 'site', seed: 1234 });
  const refusals = (place: number) =>
    [...codeSigns]
      .map((sign) => errorOf(forged(code, place, sign)))
      .reduce<Record<string, number>>((count, e) => {
        count[e] = (count[e] ?? 0) + 1;
        return count;
      }, {});

  it('the check sign is the weighed sum', () => {
    expect(forged(code, 0, code[0]!)).toBe(bare(code));
  });

  it('code/sign, with which sign and where', () => {
    expect(readCode('24X6-7777-7777')).toEqual({
      ok: false,
      error: { code: 'code/sign', says: 'sign 3 is "X", but a code has only 24679DFHKMRWY' },
    });
  });

  it('a sign beyond the usual plane is said whole', () => {
    expect(readCode('24\u{1F600}6')).toMatchObject({
      error: { code: 'code/sign', says: 'sign 3 is "\u{1F600}", but a code has only 24679DFHKMRWY' },
    });
  });

  it('code/length', () => {
    expect(readCode('')).toMatchObject({ error: { code: 'code/length', says: 'a code has 12 signs, this one has 0' } });
  });

  it('code/version, code/family, code/severity, code/structure, code/kit: all that a place does not know', () => {
    expect(refusals(0)).toEqual({ read: 1, 'code/version': 12 });
    // Another family or severity has another mask, so what it reads is another structure or none.
    const family = refusals(1);
    expect(family['code/family']).toBe(13 - families.length);
    expect((family['read'] ?? 0) + (family['code/structure'] ?? 0)).toBe(families.length);
    const severity = refusals(2);
    expect(severity['code/severity']).toBe(13 - severities.length);
    expect((severity['read'] ?? 0) + (severity['code/structure'] ?? 0)).toBe(severities.length);
    expect(refusals(3)).toEqual({ read: alcoveStructures.length, 'code/structure': 13 - alcoveStructures.length });
    expect(refusals(4)).toEqual({ read: presets.length, 'code/kit': 13 - presets.length });
    // What is left is the seed: any sign is one, but the mask moves with it.
    for (let place = 5; place < 11; place++) {
      const seeds = refusals(place);
      expect((seeds['read'] ?? 0) + (seeds['code/structure'] ?? 0)).toBe(13);
    }
  });

  it('openCode refuses as readCode does', () => {
    expect(openCode('2222')).toEqual(readCode('2222'));
  });
});

describe('what a code stands for', () => {
  it('is the same when opened again, and another room for any part but the kit', () => {
    const p: CodeParts = { family: 'alcove', severity: 'old', structure: 'wound', kit: 'site', seed: 99 };
    const opened = openCode(writeCode(p));
    expect(opened).toStrictEqual(openCode(writeCode(p).toLowerCase()));
    const room = (change: Partial<CodeParts>) => JSON.stringify(specOf({ ...p, ...change }).surfaces);
    expect(room({ severity: 'stone' })).not.toBe(room({}));
    expect(room({ structure: 'belly' })).not.toBe(room({}));
    expect(room({ seed: 98 })).not.toBe(room({}));
    const other = openCode(writeCode({ ...p, kit: 'test' }));
    if (!opened.ok || !other.ok) throw new Error('a code that was written is not read');
    expect(other.value.spec).toStrictEqual(opened.value.spec);
    expect(other.value.brief).toStrictEqual(opened.value.brief);
    expect([opened.value.assessed, other.value.assessed]).toEqual([false, true]);
    expect(opened.value.code).toBe(writeCode(p));
  });
});

describe('the structure cannot be read off', () => {
  const perStructure = 2600;

  it('its sign is any of the thirteen alike, whatever it is, over seeds 0 to 2599', () => {
    const table = alcoveStructures.map(({ name }) =>
      tally(
        Array.from({ length: perStructure }, (_, seed) =>
          codeSigns.indexOf(writeCode({ family: 'alcove', severity: 'old', structure: name, kit: 'site', seed })[3]!),
        ),
        13,
      ),
    );
    for (const counts of table) {
      expect(counts.every((c) => c > 0)).toBe(true);
      expect(Math.abs(evenness(counts))).toBeLessThan(4.5);
    }
    expect(Math.abs(independence(table))).toBeLessThan(4.5);
  });

  it('nor by the signs beside it: the kit’s, and those of the seed, say nothing of the fourth', () => {
    const drawn = drawnParts('beside', 26_000).map((p) => bare(writeCode(p)));
    const structureOf = drawnParts('beside', 26_000).map((p) =>
      alcoveStructures.findIndex((s) => s.name === p.structure),
    );
    for (const place of [3, 4, 5, 8, 10, 11]) {
      const table = alcoveStructures.map(() => new Array<number>(13).fill(0));
      drawn.forEach((code, i) => {
        table[structureOf[i]!]![codeSigns.indexOf(code[place]!)]!++;
      });
      // The kit's place takes but three signs.
      const columns = table[0]!.flatMap((_, j) => (table.some((row) => row[j]! > 0) ? [j] : []));
      expect(Math.abs(independence(table.map((row) => columns.map((j) => row[j]!))))).toBeLessThan(4.5);
    }
  });

  it('a code is not mostly one sign: in every place of the seed each sign is met', () => {
    const drawn = drawnParts('places', 5000).map((p) => bare(writeCode(p)));
    for (const place of [3, 5, 6, 7, 8, 9, 10, 11])
      expect(
        Math.abs(
          evenness(
            tally(
              drawn.map((c) => codeSigns.indexOf(c[place]!)),
              13,
            ),
          ),
        ),
      ).toBeLessThan(4.5);
  });
});
