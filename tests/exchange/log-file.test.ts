import { describe, expect, test } from 'vitest';
import { nameOf } from '../../src/exchange/exercise-file.ts';
import { type FieldLog, readLog, replayLog, verifyLog, writeHeader, writeLog } from '../../src/exchange/log-file.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { presets } from '../../src/exercise/kit.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey } from '../../src/marking/report.ts';
import type { Act } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const code = writeCode({ family: 'alcove', severity: 'old', structure: 'wound', kit: 'site', seed: 2026 });

function exerciseOf(of: string): Exercise {
  const opened = openCode(of);
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value;
}

const exercise = exerciseOf(code);
const surveyed = findLearner('three-widths')?.survey(beginSurvey(openWorld(exercise)));
if (!surveyed) throw new Error('no learner');
const header = { exercise: nameOf(exercise), learner: 'K7', scripted: 'three-widths' };
const text = writeLog(header, surveyed.entries);

function read(of: string): FieldLog {
  const log = readLog(of);
  if (!log.ok) throw new Error(log.says);
  return log.value;
}

function refusal(of: string): string {
  const log = readLog(of);
  if (!log.ok) return log.says;
  const replayed = replayLog(log.value);
  return replayed.ok ? '' : replayed.says;
}

describe('a field log as a file', () => {
  test('is read back as it was written', () => {
    const log = read(text);
    expect(log.entries).toEqual(JSON.parse(JSON.stringify(surveyed.entries)));
    expect(log.header).toMatchObject({ exercise: code, learner: 'K7', scripted: 'three-widths' });
    expect(log.cutOff).toBe(false);
    expect(writeLog(log.header, log.entries)).toBe(text);
  });

  test('with checks, a swap, tools and marks is read back to the byte, and holds', () => {
    const faulty = exerciseOf(
      writeCode({ family: 'alcove', severity: 'old', structure: 'wound', kit: 'faulty', seed: 5 }),
    );
    const acts: Act[] = [
      ...(['level', 'plumb', 'square'] as const).map((check): Act => ({ act: 'check', check })),
      { act: 'check', check: 'level', of: 'side' },
      { act: 'check', check: 'level', verdict: 'do-not-use', errorMmPerM: 1.25 },
      { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100, packed: true },
      { act: 'settle' },
      { act: 'mark', place: { surface: 'left', zMm: 900, along: 'F' } },
      { act: 'edge', place: { surface: 'left', yMm: 200, zMm: 1200 }, lengthMm: 900, along: 'v' },
      { act: 'plumb', place: { surface: 'left', yMm: 200, zMm: 1200 }, lengthMm: 900 },
      { act: 'three-four-five', at: { surface: 'floor', xMm: 0, yMm: 0 }, unitMm: 200 },
    ];
    let survey = beginSurvey(openWorld(faulty));
    for (const act of acts) survey = perform(survey, act).survey;
    expect(survey.entries.map((e) => e.outcome.ok)).toEqual(acts.map(() => true));
    const written = writeLog({ exercise: nameOf(faulty), learner: '' }, survey.entries);
    for (const field of ['practiceMm', 'swapped', 'toolMm', 'handUm']) expect(written).toContain(field);
    const log = read(written);
    expect(writeLog(log.header, log.entries)).toBe(written);
    expect(verifyLog(log)).toBeNull();
  });

  test('replays to the survey that was acted, and marks alike', () => {
    const replayed = replayLog(read(text));
    if (!replayed.ok) throw new Error(replayed.says);
    expect(markSurvey(replayed.value)).toEqual(markSurvey(surveyed));
  });

  test('holds when it is acted again', () => {
    expect(verifyLog(read(text))).toBeNull();
  });

  test('an outcome that was edited is found, with its line and field', () => {
    const lines = text.split('\n');
    const at = lines.findIndex((line) => line.includes('"tapeMm"'));
    lines[at] = (lines[at] as string).replace(/"tapeMm":([\d.]+)/, (_, mm) => `"tapeMm":${Number(mm) + 5}`);
    const differs = verifyLog(read(lines.join('\n')));
    expect(differs).toMatchObject({ line: at + 1, field: 'outcome.tapeMm' });
    expect(Number(differs?.logged) - Number(differs?.acted)).toBeCloseTo(5, 9);
  });

  test('cut off in the middle of a line, it goes to the last whole act and says so', () => {
    for (const share of [0.3, 0.55, 0.8]) {
      const near = Math.floor(text.length * share);
      const cut = text.slice(0, text.indexOf('\n', near) - 7);
      const whole = cut.split('\n').length - 2;
      const log = read(cut);
      expect(log.cutOff).toBe(true);
      expect(log.entries.length).toBe(whole);
      expect(replayLog(log).ok).toBe(true);
    }
  });

  test('an exercise that no code stands for goes in whole', () => {
    const own = { ...exercise, code: null, assessed: true };
    const log = read(writeHeader({ exercise: nameOf(own), learner: '' }));
    expect(log.exercise).toEqual(own);
  });

  test.each([
    ['nothing', '', 'line 1: expected a log header, got nothing'],
    ['no JSON', 'hello\n', 'line 1: expected JSON, got "hello"'],
    ['another format', '{"format":"x","version":1}\n', 'line 1, format: expected "offtrue-log", got "x"'],
    [
      'a newer version',
      '{"format":"offtrue-log","version":2}\n',
      'line 1: it was written by a newer program (version 2); this one reads version 1',
    ],
    [
      'a wrong code',
      '{"format":"offtrue-log","version":1,"exercise":"ABC","learner":""}\n',
      'line 1, exercise: sign 1 is "A", but a code has only 24679DFHKMRWY',
    ],
    [
      'an unknown field',
      `{"format":"offtrue-log","version":1,"exercise":"${code}","learner":"","mark":9}\n`,
      'line 1, mark: expected no such field, got "mark"',
    ],
  ])('%s is refused in one line', (_what, bad, says) => {
    expect(refusal(bad)).toBe(says);
  });

  test('a line that is out of order, malformed or forged is refused by its number', () => {
    const lines = text.trimEnd().split('\n');
    const swapped = [lines[0], lines[2], ...lines.slice(3)].join('\n');
    expect(refusal(`${swapped}\n`)).toBe('line 2, n: expected 1, got 2');
    const broken = [lines[0], '{"n":1,', ...lines.slice(2)].join('\n');
    expect(refusal(`${broken}\n`)).toMatch(/^line 2: expected JSON/);
    const forged = `${lines[0]}\n{"n":1,"act":{"act":"read","datum":"S","place":{"surface":"left","yMm":0,"zMm":900}},"outcome":{"ok":true,"edgesMm":[1,2]}}\n`;
    expect(refusal(forged)).toBe('line 2: log: act 1 (read) cannot have had that outcome');
  });
});

describe('logs of every kit', () => {
  test.each(presets.map((p) => p.name))('%s: what a careful learner did is read and verified', (kit) => {
    const of = exerciseOf(writeCode({ family: 'alcove', severity: 'old', structure: 'belly', kit, seed: 41 }));
    const survey = findLearner('careful')?.survey(beginSurvey(openWorld(of)));
    if (!survey) throw new Error('no learner');
    const written = writeLog({ exercise: nameOf(of), learner: 'K7' }, survey.entries);
    const log = read(written);
    expect(verifyLog(log)).toBeNull();
    expect(log.entries).toEqual(JSON.parse(JSON.stringify(survey.entries)));
  });

  test('faulty: checks, a swap, the straight-edge and the spirit level are read and verified', () => {
    const of = exerciseOf(
      writeCode({ family: 'alcove', severity: 'old', structure: 'belly', kit: 'faulty', seed: 41 }),
    );
    const acts: readonly Act[] = [
      { act: 'check', check: 'level', of: 'fore' },
      { act: 'check', check: 'plumb', of: 'S' },
      { act: 'check', check: 'square' },
      { act: 'check', check: 'plumb', verdict: 'do-not-use', errorMmPerM: 1.4 },
      { act: 'edge', place: { surface: 'back', xMm: 0, zMm: 900 }, lengthMm: 1200, along: 'u' },
      { act: 'plumb', place: { surface: 'left', yMm: 150, zMm: 900 }, lengthMm: 1200 },
    ];
    const fresh = beginSurvey(openWorld(of));
    const survey = acts.reduce<Survey>((so, act) => perform(so, act).survey, fresh);
    const fields = survey.entries.flatMap((e) => Object.keys(e.outcome));
    for (const field of ['practiceMm', 'swapped', 'toolMm']) expect(fields).toContain(field);
    const written = writeLog({ exercise: nameOf(of), learner: 'K7' }, survey.entries);
    const log = read(written);
    expect(verifyLog(log)).toBeNull();
    expect(log.entries).toEqual(JSON.parse(JSON.stringify(survey.entries)));
  });
});
