import { describe, expect, test } from 'vitest';
import { readExerciseFile, writeExerciseFile } from '../../src/exchange/exercise-file.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';

const opened = openCode(
  writeCode({ family: 'alcove', severity: 'stone', structure: 'closing', kit: 'guided', seed: 99 }),
);
if (!opened.ok) throw new Error(opened.error.says);
const exercise = opened.value;

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
    const taken = readExerciseFile(writeExerciseFile(exercise));
    expect(taken).toEqual({ ok: true, value: exercise });
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
