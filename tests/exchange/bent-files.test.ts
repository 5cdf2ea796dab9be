/**
 * Files with one thing changed: each is taken, and then whatever reads it goes on well, or it is refused in one line.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readExerciseFile } from '../../src/exchange/exercise-file.ts';
import { readLog, replayLog, verifyLog, writeLog } from '../../src/exchange/log-file.ts';
import { samplesOf } from '../../src/exchange/samples-file.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { sayReport } from '../../src/marking/report-words.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { sayRecess } from '../../src/recess/trade-words.ts';
import { saySheet } from '../../src/survey/field-sheet-words.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const seed = 40_417;
const code = writeCode({ family: 'alcove', severity: 'old', structure: 'wound', kit: 'site', seed: 2026 });
const opened = openCode(code);
if (!opened.ok) throw new Error(opened.error.says);
const exercise = opened.value;
const surveyed = findLearner('three-widths')?.survey(beginSurvey(openWorld(exercise)));
if (!surveyed) throw new Error('no learner');
const log = writeLog({ exercise: code, learner: '' }, surveyed.entries)
  .trimEnd()
  .split('\n')
  .map((line) => JSON.parse(line));

type Field = readonly (string | number)[];

/** Every field of some data, by its way down. */
function fieldsOf(data: unknown, way: Field = []): Field[] {
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([name, part]) => [[...way, name], ...fieldsOf(part, [...way, name])]);
}

/** A copy of some data, one field of it changed or taken away. */
function bent(data: unknown, way: Field, to: Bend): unknown {
  const copy = JSON.parse(JSON.stringify(data));
  const holder = way.slice(0, -1).reduce((part, name) => part[name], copy);
  const name = way.at(-1) as string;
  if (to === 'gone') delete holder[name];
  else holder[name] = typeof to === 'function' ? to(holder[name]) : to.value;
  return copy;
}

type Bend = 'gone' | { readonly value: unknown } | ((old: unknown) => unknown);

const shifted = fc
  .constantFrom(1, -1, 0.5, 100, -100, 3000, -1e9)
  .map((by) => (old: unknown) => (typeof old === 'number' ? old + by : by));
const other = fc
  .constantFrom(0, 1, 7, 1e9, 1e300, null, '', 'S', 'F9', 'left', 'toString', '__proto__', true, [], {})
  .map((value) => ({ value }));
const bends = fc.oneof(
  { weight: 4, arbitrary: shifted },
  { weight: 2, arbitrary: other },
  fc.constant('gone' as const),
);

describe(`a bent file (seed ${seed})`, () => {
  test('a log is marked, or refused in one line', () => {
    const ends = { marked: 0, refused: 0 };
    const way = fc.constantFrom(...fieldsOf(log));
    fc.assert(
      fc.property(way, bends, (field, to) => {
        const lines = bent(log, field, to) as unknown[];
        const read = readLog(`${lines.map((line) => JSON.stringify(line)).join('\n')}\n`);
        const replayed = read.ok ? replayLog(read.value) : read;
        if (read.ok) verifyLog(read.value);
        if (!replayed.ok) {
          ends.refused++;
          expect(replayed.says).toMatch(/^line \d+[^\n]*$/);
          return;
        }
        ends.marked++;
        const report = markSurvey(replayed.value);
        expect(JSON.parse(JSON.stringify(report))).toEqual(report);
        expect([...sayReport(report), ...saySheet(replayed.value)].join()).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { seed, numRuns: 400 },
    );
    expect(ends.marked).toBeGreaterThan(40);
    expect(ends.refused).toBeGreaterThan(40);
  });

  test('an exercise is keyed and surveyed, or refused in one line', () => {
    const ends = { keyed: 0, refused: 0 };
    const own = { ...exercise, code: null };
    const way = fc.constantFrom(...fieldsOf(own));
    fc.assert(
      fc.property(way, bends, (field, to) => {
        const taken = readExerciseFile(JSON.stringify(bent(own, field, to)));
        if (!taken.ok) {
          ends.refused++;
          expect(taken.says).toMatch(/^exercise[^\n]*$/);
          return;
        }
        ends.keyed++;
        const recess = buildRecess(taken.value.spec);
        const key = answerKey(recess, taken.value);
        expect(key.ok).toBe(true);
        expect(JSON.parse(JSON.stringify(key))).toEqual(key);
        expect(sayRecess(taken.value.spec).join()).not.toMatch(/NaN|Infinity|undefined/);
        expect(
          samplesOf(recess, taken.value, 128)
            .surfaces.flatMap((s) => s.heightsMm.flat())
            .every(Number.isFinite),
        ).toBe(true);
        const survey = findLearner('three-widths')?.survey(beginSurvey(openWorld(taken.value)));
        if (survey) expect(markSurvey(survey).format).toBe('offtrue-report');
      }),
      { seed, numRuns: 400 },
    );
    expect(ends.keyed).toBeGreaterThan(40);
    expect(ends.refused).toBeGreaterThan(40);
  });
});
