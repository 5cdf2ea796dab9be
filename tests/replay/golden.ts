/**
 * Golden digests: what twelve codes are, and what the careful learner's log and its report come to, for ever.
 *
 * `digests.json` is never edited. Where a later version must differ, it gets a file of its own beside it, and the code
 * that reads old logs goes on giving these.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { writeCode } from '../../src/exercise/exercise-code.ts';
import { presets } from '../../src/exercise/kit.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { severities } from '../../src/recess/severity.ts';
import { type Bits, bitsOf } from '../prove/bits-of.ts';

export interface Golden {
  readonly format: 'offtrue-digests';
  readonly version: 1;
  readonly learner: 'careful';
  readonly codes: readonly ({ readonly code: string } & Bits)[];
}

const file = new URL('./digests.json', import.meta.url);

export function readGolden(): Golden {
  return JSON.parse(readFileSync(file, 'utf8')) as Golden;
}

/**
 * Writes the golden digests, once.
 *
 * @throws {RangeError} if there are any already
 */
export function writeGolden(): void {
  if (existsSync(file)) throw new RangeError('golden digests: there are some already, and they are never edited');
  const codes = Array.from({ length: 12 }, (_, i) =>
    writeCode({
      family: 'alcove',
      severity: severities[Math.floor(i / 4)]?.name ?? '',
      structure: alcoveStructures[i % 7]?.name ?? '',
      kit: presets[i % 3]?.name ?? '',
      seed: (i * 402_233 + 1871) % 4_826_809,
    }),
  );
  const golden: Golden = {
    format: 'offtrue-digests',
    version: 1,
    learner: 'careful',
    codes: codes.map((code) => ({ code, ...bitsOf(code) })),
  };
  writeFileSync(file, `${JSON.stringify(golden, null, 2)}\n`);
}
