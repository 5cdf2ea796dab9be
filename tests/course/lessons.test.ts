import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readLesson } from '../../src/course/lesson-file.ts';
import { readLog, replayLog, verifyLog } from '../../src/exchange/log-file.ts';
import { narrowed } from '../../src/exercise/exercise.ts';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { lessons } from '../../src/page/lessons.ts';

const folder = resolve(import.meta.dirname, '../../lessons');
const names = readdirSync(folder).sort();

test('the first screen lists the lessons that there are, in order, by their own titles', () => {
  const read = names.map((name) => ({ name, title: lessonOf(name).header.title }));
  expect(lessons).toEqual(read);
});

function lessonOf(name: string) {
  return readLesson(name, readFileSync(join(folder, name, 'lesson.md'), 'utf8'));
}

describe.each(names)('lesson %s', (name) => {
  const { header } = lessonOf(name);

  test('each of its rooms opens, and no two share a structure', () => {
    const structures = header.pool.map((code) => {
      const opened = openCode(code);
      if (!opened.ok) throw new Error(`${code}: ${opened.error.says}`);
      return opened.value.spec.structure;
    });
    expect(new Set(structures).size).toBe(header.pool.length);
  });

  test('its model log is of its first room, holds, and passes', () => {
    const path = join(folder, name, header.model);
    expect(existsSync(path)).toBe(true);
    const log = readLog(readFileSync(path, 'utf8'));
    if (!log.ok) throw new Error(log.says);
    const first = openCode(header.pool[0] as string);
    if (!first.ok) throw new Error(first.error.says);
    expect(log.value.exercise).toEqual(header.find ? narrowed(first.value, header.find) : first.value);
    expect(verifyLog(log.value)).toBeNull();
    const survey = replayLog(log.value);
    if (!survey.ok) throw new Error(survey.says);
    const word = markSurvey(survey.value).marks?.verdict.word;
    if (header.passes.by === 'verdict') expect(header.passes.not).not.toContain(word);
    else expect(survey.value.readings.length).toBeGreaterThanOrEqual(header.passes.of);
  });
});

test('markup in a lesson is shown as it was written', () => {
  const header = readFileSync(join(folder, names[0] as string, 'lesson.md'), 'utf8').split('---')[1];
  const { blocks } = readLesson(
    'x',
    `---${header}---\n\nHello <b onclick="alert(1)">you</b>\n\n<script>alert(1)</script>\n`,
  );
  expect(blocks.map((b) => ('spans' in b ? b.spans.map((s) => s.text).join('') : ''))).toEqual([
    'Hello <b onclick="alert(1)">you</b>',
    '<script>alert(1)</script>',
  ]);
});

test('a header that is wrong is refused with its field', () => {
  expect(() => readLesson('x', 'no header')).toThrow('it must begin with a header');
  expect(() => readLesson('x', '---\nformat: offtrue-lesson\nversion: 1\ntitle: T\n---\n')).toThrow(/header, goal/);
});
