import { describe, expect, test } from 'vitest';
import { readExerciseFile, writeExerciseFile } from '../../src/exchange/exercise-file.ts';
import { narrowed } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';

const opened = openCode(
  writeCode({ family: 'alcove', severity: 'stone', structure: 'closing', kit: 'guided', seed: 99 }),
);
if (!opened.ok) throw new Error(opened.error.says);
const coded = opened.value;
/** The same room as an exercise of its own, which may differ from the code's. */
const exercise = { ...coded, code: null };

/** Data that a test may bend as it likes. */
// biome-ignore lint/suspicious/noExplicitAny: a file can hold anything
type Loose = any;

/** The exercise with one thing changed, as a file. */
function changed(change: (data: Loose) => void): string {
  const data = JSON.parse(JSON.stringify(exercise));
  change(data);
  return JSON.stringify(data);
}

function says(text: string): string {
  const taken = readExerciseFile(text);
  return taken.ok ? 'taken' : taken.says;
}

describe('an exercise file', () => {
  test('is read back as it was written', () => {
    for (const written of [exercise, coded, narrowed(coded, ['width', 'frame'])])
      expect(readExerciseFile(writeExerciseFile(written))).toEqual({ ok: true, value: written });
  });

  test('empty, cut short, or of another kind: it is said what it is', () => {
    expect(says('')).toBe('exercise: expected JSON, got nothing: it is empty');
    expect(says(writeExerciseFile(exercise).slice(0, 400))).toMatch(/breaks off in the middle, .*was it cut short\?$/);
    expect(says('{"format":"offtrue-room","version":1}')).toMatch(/room of your own: `offtrue own FILE/);
    expect(says('{}')).toMatch(/does not say what kind of file/);
  });

  test('is read with a byte order mark before it', () => {
    expect(readExerciseFile(`\uFEFF${writeExerciseFile(exercise)}`)).toEqual({ ok: true, value: exercise });
  });

  test.each<[string, Loose, RegExp]>([
    [
      'another brief',
      { brief: { ...coded.brief, plinthMm: 7 } },
      /^exercise, brief\.plinthMm: expected \d+ as its code/,
    ],
    [
      'another room',
      { spec: { ...coded.spec, key: [1, 2, 3, 4] } },
      /^exercise, spec\.key\.0: expected -?\d+ as its code/,
    ],
    ['other sizes to find', { find: ['width'] }, /^exercise, brief\.carcassMm\.\w+\.find: expected false as its code/],
    [
      'its cover off',
      { assessed: !coded.assessed },
      /^exercise, assessed: expected \w+ as its code has it, or code null/,
    ],
    ['a code that is none', { code: 'DW7' }, /^exercise, code: a code has 12 signs/],
  ])('that names a code and has %s is refused, for its logs would name that code alone', (_what, part, line) => {
    expect(says(JSON.stringify({ ...coded, ...part }))).toMatch(line);
  });

  test.each<[string, (data: Loose) => void, RegExp]>([
    [
      'an unknown field',
      (d) => {
        d.colour = 'red';
      },
      /^exercise, colour: expected no such field/,
    ],
    [
      'a field of the wrong kind',
      (d) => {
        d.brief.plinthMm = 'high';
      },
      /^exercise, brief\.plinthMm: expected number, got "high"$/,
    ],
    [
      'a field that is missing',
      (d) => {
        delete d.kit.rule;
      },
      /^exercise, kit\.rule: expected a value, got none$/,
    ],
    [
      'an opening that is not the room',
      (d) => {
        d.brief.openingMm.width += 10;
      },
      /^exercise, brief\.openingMm\.width: expected the spec's \d+, got \d+$/,
    ],
    [
      'a fate for a trim that is not there',
      (d) => {
        d.brief.fates.shelf = 'off';
      },
      /^exercise, brief\.fates: expected trims of the spec, got "shelf"$/,
    ],
    [
      'a defect on a side that cannot have it',
      (d) => {
        d.spec.surfaces.floor.defects = [{ kind: 'lean', mm: 3 }];
      },
      /surfaces\.floor\.defects\[0\] cannot stand on the floor/,
    ],
    [
      'a carcass beyond the recess',
      (d) => {
        d.brief.carcassMm.depth.nominalMm = 1500;
      },
      /nominal carcass reaches beyond the recess/,
    ],
    [
      'a reference that wavers out of the room',
      (d) => {
        d.spec.reference.wavesMm[1] = 1e9;
      },
      /^exercise, spec\.reference\.wavesMm\.1: expected -\d+ to \d+, got 1000000000$/,
    ],
    [
      'a reference over the ceiling',
      (d) => {
        d.spec.reference.heightMm = 9000;
      },
      /^exercise, spec\.reference\.heightMm: expected -256 to \d+, got 9000$/,
    ],
    [
      'a newer version',
      (d) => {
        d.version = 3;
      },
      /written by a newer program \(version 3\)/,
    ],
  ])('%s is refused in one line with its field', (_what, change, line) => {
    const said = says(changed(change));
    expect(said).toMatch(line);
    expect(said).not.toContain('\n');
  });
});
