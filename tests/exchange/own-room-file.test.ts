import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readExerciseFile, writeExerciseFile } from '../../src/exchange/exercise-file.ts';
import { nearestWord, stepsBetween } from '../../src/exchange/nearest-word.ts';
import { exerciseOfRoom, readOwnRoom, takeOwnRoom, writeOwnRoom } from '../../src/exchange/own-room-file.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { buildRecess } from '../../src/recess/recess.ts';

const seed = 33_871;
const room = {
  format: 'offtrue-room',
  version: 1,
  family: 'alcove',
  openingMm: { width: 1180, height: 2350, depth: 420 },
  surfaces: {
    left: { cornersMm: { topFront: 9, topBack: 12, bottomBack: 3 }, bad: [{ is: 'belly', mm: 5, upMm: 1150 }] },
    floor: { bad: [{ is: 'fall', mm: 6, towards: 'right' }], unevenMm: 0.5 },
    back: {
      measured: {
        uMm: [-500, 0, 500],
        vMm: [300, 2000],
        mm: [
          [0, 2, 1],
          [3, 4, 2],
        ],
      },
    },
  },
  trims: [{ kind: 'skirting', tallMm: 120, thickMm: 18, fate: 'off' }],
  reference: { kind: 'cornice-return', waverMm: 1.5 },
  brief: { plinthMm: 150, clearanceMm: { left: 4 } },
  kit: 'site',
  seed: 7,
};

const saysOf = (data: unknown) => {
  const taken = takeOwnRoom(data);
  const made = taken.ok ? exerciseOfRoom(taken.value) : taken;
  return made.ok ? 'taken' : made.says;
};

describe('a room’s file', () => {
  test('is read, written and read again the same, and its exercise is one that any file may hold', () => {
    const read = readOwnRoom(JSON.stringify(room));
    if (!read.ok) throw new Error(read.says);
    expect(readOwnRoom(writeOwnRoom(read.value))).toEqual(read);
    const made = exerciseOfRoom(read.value);
    if (!made.ok) throw new Error(made.says);
    expect(readExerciseFile(writeExerciseFile(made.value))).toEqual(made);
  });

  test.each<[unknown, string]>([
    [{ ...room, familly: 'alcove' }, 'the nearest word that is known is "family"'],
    [{ ...room, family: 'alcoves' }, 'the nearest word that is known is "alcove"'],
    [
      { ...room, surfaces: { lef: {} } },
      'room, surfaces.lef: expected one of left, right, back, floor, ceiling, slope, got "lef"; the nearest word that is known is "left"',
    ],
    [
      { ...room, surfaces: { left: { bad: [{ is: 'bely', mm: 3, upMm: 100 }] } } },
      'got "bely"; the nearest word that is known is "belly"',
    ],
    [
      { ...room, surfaces: { left: { bad: [{ is: 'belly', mm: 3, up: 100 }] } } },
      'expected one of is, mm, upMm, inMm, rightMm, got "up"; the nearest word that is known is "upMm"',
    ],
    [
      { ...room, trims: [{ kind: 'skirtin', tallMm: 100, thickMm: 20 }] },
      'the nearest word that is known is "skirting"',
    ],
    [{ ...room, kit: 'guide' }, 'the nearest word that is known is "guided"'],
    [{ ...room, kit: 'xylophone' }, 'got "xylophone"'],
    [
      { ...room, openingMm: { width: 1.2, height: 2.4, depth: 0.4 } },
      'room, openingMm.width: expected millimetres (1.2 looks like metres: write 1200), got 1.2',
    ],
    [
      { ...room, surfaces: { left: { bad: [{ is: 'lean', mm: 0.009 }] } } },
      'expected millimetres (0.009 looks like metres: write 9)',
    ],
    [
      { ...room, surfaces: { left: { bad: [{ is: 'belly', mm: 5, upMm: 1.15 }] } } },
      'expected millimetres (1.15 looks like metres: write 1150)',
    ],
    [{ ...room, surfaces: { left: { bad: [{ is: 'belly', mm: -5, upMm: 115 }] } } }, 'expected 0 or more, got -5'],
    [
      { ...room, surfaces: { left: { bad: [{ is: 'belly', mm: 1180, upMm: 900 }] } } },
      'larger than the room, which is 1180 wide',
    ],
    [
      {
        ...room,
        surfaces: {
          left: { bad: [{ is: 'belly', mm: 185, upMm: 900 }] },
          right: { bad: [{ is: 'belly', mm: 185, upMm: 900 }] },
        },
        openingMm: { width: 400, height: 2350, depth: 420 },
      },
      'expected 50 or more between the left and the right',
    ],
    [
      { ...room, brief: { plinthMm: 600, carcassMm: { height: 2340 } } },
      'the nominal carcass reaches beyond the recess',
    ],
    [{ ...room, version: 2 }, 'it was written by a newer program (version 2)'],
    [{ ...room, format: 'room' }, 'expected "offtrue-room", got "room"'],
    [[], 'room, format'],
    [{}, 'got none: it does not say what kind of file it is'],
    [{ format: 'offtrue-exercise' }, 'it is an exercise already'],
    [
      { ...room, openingMm: { width: 1e-9, height: 2400, depth: 400 } },
      'openingMm.width: expected millimetres (1e-9 is smaller than anything on site)',
    ],
    [
      { ...room, surfaces: { left: { cornersMm: { topFront: -5000 } } } },
      'surfaces.left.cornersMm.topFront: expected -3000 or more, got -5000',
    ],
  ])('%j is refused', (data, says) => {
    expect(saysOf(data)).toContain(says);
  });

  test(`bent at random, it is an exercise with a key or refused in one line (seed ${seed})`, () => {
    const ends = { keyed: 0, refused: 0 };
    const bend = fc.oneof(
      fc.constantFrom<unknown>(
        0,
        1,
        -1,
        7.5,
        1e9,
        -1e9,
        null,
        '',
        'left',
        'toString',
        '__proto__',
        true,
        [],
        {},
        0.002,
      ),
      fc.double({ min: -3000, max: 3000, noNaN: true }),
      fc.constant(undefined),
    );
    fc.assert(
      fc.property(fc.constantFrom(...fieldsOf(room)), bend, (way, to) => {
        const copy = JSON.parse(JSON.stringify(room));
        const holder = way.slice(0, -1).reduce((part, name) => part[name], copy);
        if (to === undefined) delete holder[way.at(-1) as string];
        else holder[way.at(-1) as string] = to;
        const read = readOwnRoom(JSON.stringify(copy));
        const made = read.ok ? exerciseOfRoom(read.value) : read;
        if (!made.ok) {
          ends.refused++;
          expect(made.says).toMatch(/^room[^\n]*$/);
          return;
        }
        ends.keyed++;
        expect(answerKey(buildRecess(made.value.spec), made.value).ok).toBe(true);
      }),
      { seed, numRuns: 600 },
    );
    expect(ends.keyed).toBeGreaterThan(60);
    expect(ends.refused).toBeGreaterThan(60);
  });
});

function fieldsOf(data: unknown, way: readonly (string | number)[] = []): (string | number)[][] {
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([name, part]) => [[...way, name], ...fieldsOf(part, [...way, name])]);
}

describe('the nearest word', () => {
  test.each([
    // V. I. Levenshtein's distance; the pairs are the usual worked ones, from memory.
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['abc', 'abc', 0],
  ])('%s to %s is %d steps', (a, b, steps) => {
    expect(stepsBetween(a, b)).toBe(steps);
  });

  test('none is near to what is like none', () => {
    expect(nearestWord('zzzzzz', ['left', 'right'])).toBeNull();
  });
});
