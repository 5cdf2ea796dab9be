/**
 * `offtrue own` from outside: words, files, links, tables, refusals.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readLink } from '../../src/exchange/exercise-link.ts';

const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');
const folder = mkdtempSync(join(tmpdir(), 'offtrue-own-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

function run(...args: readonly string[]) {
  const ran = spawnSync(process.execPath, [command, ...args], { encoding: 'utf8', maxBuffer: 1e8 });
  return { code: ran.status, out: ran.stdout, err: ran.stderr.replace(/^building the command\n/, '') };
}

const readme = readFileSync(resolve(import.meta.dirname, '../../README.md'), 'utf8');
const example = /```json\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
const room = file('room.json', example);

describe('offtrue own', () => {
  test('the README’s room is checked, said, and written as an exercise that every verb takes', () => {
    const out = join(folder, 'ex.json');
    const said = run('own', room, '--out', out);
    expect(said.err).toBe('');
    expect(said.out).toContain(
      'left wall: closes in 3 in 420 to the back, leans 9 in 2350 into the recess, belly 5 at 1150 up',
    );
    expect(said.out).toContain('floor: falls 6 towards the right, uneven by up to 0.5');
    expect(run('room', out).out.split('\n')[0]).toBe(said.out.split('\n')[0]);
    expect(run('key', out).code).toBe(0);
    const learnt = run('learner', 'careful', out, '--log', join(folder, 'own.log'));
    expect([learnt.code, learnt.err]).toEqual([0, '']);
    expect(run('verify', join(folder, 'own.log')).code).toBe(0);
  });

  test('its link opens the same exercise', async () => {
    const { out } = run('own', room, '--link');
    expect(out).toMatch(/^#\/own\/[A-Za-z0-9_-]+\n$/);
    const opened = await readLink(out.trim().replace('#/own/', ''));
    expect(opened.ok && opened.value).toEqual(JSON.parse(run('own', room, '--json').out));
  });

  test('a table of readings from lines makes the surface, and it is said how near it comes', () => {
    const csv = file(
      't.csv',
      'surface,along,up,offset,from\nback,-400,300,418,F\nback,400,300,421,F\nback,-400,2000,415,F\nback,400,2000,416,F\n',
    );
    const { out, err } = run('own', room, '--offsets', csv);
    expect(err).toBe('');
    expect(out).toContain('back wall: as measured, 5 into the recess at 2000 up, 400 left of the middle, 1 out of it');
    expect(out).toMatch(/as measured, back: 4 places, the surface comes within 0\.00 of each/);
    const plan = file('p.csv', 'x,y\n-590,0\n-585,420\n');
    expect(run('own', room, '--line', plan).out).toMatch(
      /left wall: as measured, 5 into the recess .*400|as measured, 5 into/,
    );
  });

  test.each<[string, string[], RegExp]>([
    ['no room', [file('none.json', '{}')], /none\.json: room, format: expected "offtrue-room"/],
    [
      'a belly larger than the room',
      [file('big.json', example.replace('"mm": 5', '"mm": 1500'))],
      /larger than the room, which is 1180 wide/,
    ],
    [
      'a slip of the pen',
      [file('slip.json', example.replace('"belly"', '"bely"'))],
      /the nearest word that is known is "belly"/,
    ],
    ['metres', [file('m.json', example.replace('1180', '1.18'))], /1.18 looks like metres: write 1180/],
    [
      'a table with a stray word',
      [room, '--offsets', file('s.csv', 'surface,along,up,offset\nlft,1,2,3')],
      /s\.csv: offsets, line 2: .*"left"/,
    ],
    [
      'lines that are no numbers',
      [room, '--offsets', file('l.csv', 'surface,along,up,offset\nleft,1,2,3'), '--lines', 'a,b'],
      /--lines: expected three numbers/,
    ],
    ['a file that is there already', [room, '--out', room], /it is not written over/],
  ])('%s is refused in one line', (_what, args, says) => {
    const { code, out, err } = run('own', ...args);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(says);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  test('its schema is there', () => {
    expect(JSON.parse(run('schema', 'room').out).properties).toHaveProperty('surfaces');
  });
});
