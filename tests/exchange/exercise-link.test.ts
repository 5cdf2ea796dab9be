import { deflateRawSync, inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readLink, writeLink } from '../../src/exchange/exercise-link.ts';
import { exerciseOfRoom } from '../../src/exchange/own-room-file.ts';
import { openCode } from '../../src/exercise/exercise-code.ts';

const seed = 12_011;
const made = exerciseOfRoom({
  format: 'offtrue-room',
  version: 1,
  family: 'alcove',
  trims: [{ kind: 'skirting', tallMm: 145, thickMm: 18 }],
});
if (!made.ok) throw new Error(made.says);
const exercise = made.value;

describe('an exercise in a link', () => {
  test('is the same exercise when it is opened, and short enough to send', async () => {
    const link = await writeLink(exercise);
    expect(link).toMatch(/^[A-Za-z0-9_-]+$/);
    expect(link.length).toBeLessThan(2000);
    expect(await readLink(link)).toEqual({ ok: true, value: exercise });
  });

  test('is what another reader of the same two standards unpacks', async () => {
    const bytes = Buffer.from(await writeLink(exercise), 'base64url');
    expect(JSON.parse(inflateRawSync(bytes).toString('utf8'))).toEqual(exercise);
  });

  test('of a code is checked against its code', async () => {
    const opened = openCode('DW76-4MFY-6RWY');
    if (!opened.ok) throw new Error(opened.error.says);
    const brief = { ...opened.value.brief, plinthMm: 60 };
    const read = await readLink(await writeLink({ ...opened.value, brief }));
    expect(read.ok ? '' : read.says).toContain('as its code has it');
  });

  test('what swells beyond any exercise is not unpacked', async () => {
    const bomb = deflateRawSync(Buffer.alloc(2_000_000, ' ')).toString('base64url');
    expect(bomb.length).toBeLessThan(4000);
    expect(await readLink(bomb)).toMatchObject({ ok: false, says: expect.stringContaining('does not unpack') });
  });

  test(`cut off or changed on its way it is refused in one line (seed ${seed})`, async () => {
    const link = await writeLink(exercise);
    await fc.assert(
      fc.asyncProperty(fc.nat(link.length - 1), fc.constantFrom('cut', 'A', '_', '%', ' ', ''), async (at, how) => {
        const bent = how === 'cut' ? link.slice(0, at) : link.slice(0, at) + how + link.slice(at + 1);
        if (bent === link) return;
        const read = await readLink(bent);
        if (!read.ok) expect(read.says).toMatch(/^(link|exercise)[^\n]*$/);
      }),
      { seed, numRuns: 150 },
    );
    expect(await readLink('')).toMatchObject({ ok: false });
  });
});
