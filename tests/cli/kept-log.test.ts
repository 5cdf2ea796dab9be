/**
 * Logs of surveys in progress: kept as they happen, gone on with, never written over.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { keepLog, keepNone } from '../../src/cli/kept-log.ts';
import { Refused } from '../../src/cli/refused.ts';
import { readLog } from '../../src/exchange/log-file.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import type { Act } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';

const folder = mkdtempSync(join(tmpdir(), 'offtrue-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function exerciseOf(seed: number): Exercise {
  const opened = openCode(writeCode({ family: 'alcove', severity: 'settled', structure: 'belly', kit: 'site', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value;
}

const exercise = exerciseOf(5);
const first: readonly Act[] = [{ act: 'stand', xMm: 0, yMm: 0, heightMm: 1000 }, { act: 'settle' }];
const more: readonly Act[] = [
  { act: 'read', datum: 'S', place: { surface: 'left', yMm: 60, zMm: 1000 } },
  { act: 'note', text: 'half a millimetre: ½' },
];

/** Acts with a log kept at a path. */
function act(path: string, acts: readonly Act[], learner = 'K7') {
  const log = keepLog(exercise, path, learner);
  let survey = log.survey;
  for (const a of acts) {
    survey = perform(survey, a).survey;
    const entry = survey.entries.at(-1);
    if (entry) log.keep(entry);
  }
  return survey;
}

describe('a log that is kept', () => {
  const whole = join(folder, 'whole.log');
  const survey = act(whole, [...first, ...more]);
  const text = readFileSync(whole, 'utf8');

  test('holds each act, and goes on to the same bytes after any break', () => {
    const broken = join(folder, 'broken.log');
    act(broken, first);
    expect(act(broken, more).entries).toEqual(survey.entries);
    expect(readFileSync(broken, 'utf8')).toBe(text);
  });

  test('cut off anywhere after its header it is gone on with from its last whole act', () => {
    const cut = join(folder, 'cut.log');
    const header = text.indexOf('\n') + 1;
    for (let length = header; length < Buffer.byteLength(text); length += 7) {
      writeFileSync(cut, text);
      truncateSync(cut, length);
      const kept = keepLog(exercise, cut, '').survey.entries.length;
      expect(act(cut, [...first, ...more].slice(kept)).entries).toEqual(survey.entries);
      expect(readFileSync(cut, 'utf8')).toBe(text);
    }
  });

  test('without its last line end it is gone on with on a line of its own', () => {
    const bare = join(folder, 'bare.log');
    writeFileSync(bare, text.trimEnd());
    const { entries } = act(bare, [{ act: 'note', text: 'on' }]);
    const log = readLog(readFileSync(bare, 'utf8'));
    expect(log.ok && log.value.entries).toEqual(entries);
  });

  test.each<[string, string, () => void, RegExp]>([
    ['of another exercise', 'other.log', () => void keepLog(exerciseOf(6), at('other.log'), ''), /of this exercise/],
    [
      'of another learner',
      'theirs.log',
      () => void act(at('theirs.log'), first, 'M2'),
      /expected a log of "K7", got one of "M2"/,
    ],
    ['that is no log', 'mine.txt', () => writeFileSync(at('mine.txt'), 'mine'), /line 1: expected JSON, got "mine"/],
    ['with a forged outcome', 'forged.log', () => writeFileSync(at('forged.log'), forged(text)), /line 4: log: act 3/],
  ])('one %s is refused and left as it is', (_what, name, make, line) => {
    make();
    const before = readFileSync(at(name));
    expect(() => act(at(name), more)).toThrow(Refused);
    expect(() => act(at(name), more)).toThrow(line);
    expect(readFileSync(at(name))).toEqual(before);
  });

  test('a learner code that no log could hold begins none', () => {
    expect(() => keepLog(exercise, at('long.log'), 'x'.repeat(81))).toThrow(Refused);
    expect(existsSync(at('long.log'))).toBe(false);
  });

  test('when something else writes to it, the act is refused and not put after it', () => {
    const shared = at('shared.log');
    const log = keepLog(exercise, shared, '');
    act(shared, first, '');
    const before = readFileSync(shared);
    const [entry] = perform(log.survey, { act: 'note', text: 'mine' }).survey.entries;
    expect(() => entry && log.keep(entry)).toThrow(/something else has written to/);
    expect(readFileSync(shared)).toEqual(before);
  });

  test('where none is wanted nothing is written', () => {
    const { survey: begun, keep } = keepNone(exercise);
    expect(begun.entries).toEqual([]);
    expect(keep({ n: 1, act: { act: 'settle' }, outcome: { ok: true } })).toBeUndefined();
  });
});

function at(name: string): string {
  return join(folder, name);
}

/** The reading's outcome without what was seen. */
function forged(text: string): string {
  return text.replace(/"edgesMm":\[[^\]]*\]/, '"setUp":1');
}
