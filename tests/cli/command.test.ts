/**
 * The command from outside: what it prints, its exit codes, and its one line for every kind of bad input.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openCode } from '../../src/exercise/exercise-code.ts';

const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');
const folder = mkdtempSync(join(tmpdir(), 'offtrue-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = (name: string) => join(folder, name);

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function run(args: readonly string[], input = ''): Ran {
  const ran = spawnSync(process.execPath, [command, ...args], { input, encoding: 'utf8', maxBuffer: 1e9 });
  const err = ran.stderr.replace(/^building the command\n/, '');
  return { code: ran.status, out: ran.stdout, err };
}

const code = run(['code', '--seed', '4711', '--structure', 'belly', '--kit', 'site']).out.trim();
const assessed = run(['code', '--seed', '4711', '--kit', 'test']).out.trim();

describe('what it prints', () => {
  test('a code is made, and the same seed makes the same', () => {
    expect(code).toMatch(/^[24679DFHKMRWY]{4}(-[24679DFHKMRWY]{4}){2}$/);
    expect(run(['code', '--seed', '4711', '--structure', 'belly', '--kit', 'site']).out.trim()).toBe(code);
    const many = JSON.parse(run(['code', '--seed', '4711', '--count', '5', '--json']).out);
    expect(many.map((c: { seed: number }) => c.seed)).toEqual([4711, 4712, 4713, 4714, 4715]);
  });

  test('the key and the samples have the forms that are promised', () => {
    const key = JSON.parse(run(['key', code, '--carcass', '800,1900,250', '--frame', '900,2200', '--json']).out);
    expect(Object.keys(key)).toEqual(
      'brief carcass widestMm tallestMm deepestMm opening frame plinthMm marginsMm mouthWidthMm'.split(' '),
    );
    expect(Object.keys(key.carcass)).toEqual(
      'widthMm heightMm depthMm fits goesInBare clearanceMm at tightest standsUp'.split(' '),
    );
    expect(JSON.parse(run(['key', code, '--json']).out)).toMatchObject({ carcass: null, frame: null });
    const samples = JSON.parse(run(['room', code, '--samples', '64']).out);
    expect(Object.keys(samples)).toEqual('format version stepMm brief mouthMm surfaces trims'.split(' '));
    const [left] = samples.surfaces;
    expect(Object.keys(left)).toEqual('name side knots u v heightsMm'.split(' '));
    expect(left.heightsMm.length).toBe(left.v.count);
    expect(left.heightsMm[0].length).toBe(left.u.count);
  });

  test('what `--list` names can be asked for, and a seed of its own draws a structure', () => {
    const list = JSON.parse(run(['code', '--list', '--json']).out);
    expect(Object.keys(list)).toEqual(['families', 'severities', 'structures', 'kits']);
    expect(list.structures.length).toBeGreaterThanOrEqual(4);
    for (const { name } of list.kits) expect(run(['code', '--kit', name]).code).toBe(0);
    const told = run(['code', '--list']).out;
    for (const { name } of [...list.families, ...list.structures, ...list.kits]) expect(told).toContain(`  ${name}  `);
    const drawn = JSON.parse(run(['code', '--seed', '0', '--count', '200', '--json']).out).map(
      (c: { structure: string }) => c.structure,
    );
    const alcoves = list.structures.filter((s: { family: string }) => s.family === 'alcove');
    const counts = alcoves.map(({ name }: { name: string }) => drawn.filter((s: string) => s === name).length);
    // 200 draws of 7: 28.6 each, standard deviation 4.9; five of them either way.
    expect(Math.min(...counts)).toBeGreaterThan(4);
    expect(Math.max(...counts)).toBeLessThan(53);
    const period = alcoves.length;
    expect(drawn.slice(period)).not.toEqual(drawn.slice(0, -period));
  });

  test('a seed past the last goes on from the first', () => {
    const codes = JSON.parse(run(['code', '--seed', '4826808', '--count', '2', '--json']).out);
    expect(codes.map((c: { seed: number }) => c.seed)).toEqual([4826808, 0]);
  });

  test('a scripted survey is kept, marked and verified', () => {
    expect(run(['learner', 'careful', code, '--log', file('careful.log')]).code).toBe(0);
    const first = JSON.parse(readFileSync(file('careful.log'), 'utf8').split('\n')[0] as string);
    expect(first).toEqual({ format: 'offtrue-log', version: 1, exercise: code, learner: '', scripted: 'careful' });
    const marked = JSON.parse(run(['mark', file('careful.log'), '--json']).out);
    expect(marked.report.marks.score.total).toBeGreaterThan(60);
    expect(marked.digest).toMatch(/^[0-9a-f]{64}$/);
    expect(marked.scripted).toBe('careful');
    expect(run(['mark', file('careful.log')]).out).toMatch(/^surveyed by a script: careful\n/);
    expect(run(['verify', file('careful.log')])).toMatchObject({ code: 0, err: '' });
  });

  test('of several logs each is marked, and the refused ones are told', () => {
    writeFileSync(file('half.log'), readFileSync(file('careful.log'), 'utf8').slice(0, -40));
    const { out, err, code: exit } = run(['mark', file('none.log'), file('half.log'), file('careful.log'), '--json']);
    const reports = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(exit).toBe(1);
    expect(reports.map((r) => [r.log, r.cutOff])).toEqual([
      [file('half.log'), true],
      [file('careful.log'), false],
    ]);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(run(['verify', file('half.log')]).out).toMatch(/: holds, \d+ acts, cut off after the last\n$/);
    expect(run(['mark', file('half.log')]).out).toMatch(/^surveyed by a script: careful\ncut off after act \d+: /);
  });

  test('an edited outcome is told by its line, its field and what was expected', () => {
    const lines = readFileSync(file('careful.log'), 'utf8').split('\n');
    const at = lines.findIndex((line) => line.includes('"tapeMm"'));
    lines[at] = (lines[at] as string).replace(/"tapeMm":[\d.]+/, '"tapeMm":1000');
    writeFileSync(file('edited.log'), lines.join('\n'));
    const { out, err, code: exit } = run(['verify', file('edited.log')]);
    expect(exit).toBe(1);
    expect(out).toBe('');
    expect(err).toMatch(new RegExp(`: line ${at + 1}, act ${at}, outcome\\.tapeMm: expected [\\d.]+, got 1000\n$`));
  });

  test('an exercise file does for a code', () => {
    const opened = openCode(code);
    if (!opened.ok) throw new Error(opened.error.says);
    const own = { ...opened.value, code: null, brief: { ...opened.value.brief, plinthMm: 70 } };
    writeFileSync(file('own.json'), JSON.stringify(own));
    expect(JSON.parse(run(['key', file('own.json'), '--json']).out).brief.plinthMm).toBe(70);
    expect(run(['learner', 'careful', file('own.json'), '--log', file('own.log')]).code).toBe(0);
    expect(JSON.parse(run(['mark', file('own.log'), '--json']).out).report.exercise).toBeNull();
    expect(run(['verify', file('own.log')]).code).toBe(0);
    writeFileSync(file('false.json'), JSON.stringify({ ...own, code }));
    expect(run(['key', file('false.json')])).toMatchObject({ code: 1, out: '' });
  });

  test('acts go in as lines and outcomes come out as lines', () => {
    const acts = [
      '{"act":"stand","xMm":0,"yMm":0,"heightMm":1000}',
      '{"act":"settle"}',
      '{"act":"read","datum":"S","place":{"surface":"left","yMm":60,"zMm":1000}}',
    ];
    const { out, code: exit } = run(['field', code, '--log', file('field.log')], acts.join('\n'));
    const outcomes = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(exit).toBe(0);
    expect(outcomes.map((o) => o.ok)).toEqual([true, true, true]);
    expect(outcomes[2].edgesMm).toHaveLength(2);
    const again = run(['field', code, '--log', file('field.log')], '{"act":"note","text":"gone on"}');
    expect(again.code).toBe(0);
    expect(readFileSync(file('field.log'), 'utf8').trim().split('\n')).toHaveLength(5);
  });

  test('typed acts are answered in words that leave the judgement', () => {
    const { out } = run(
      ['field', code, '--plain'],
      'stand 0 0 1000\nsettle\nread S left 60 1000\nbook 1\nundo\nsheet\n',
    );
    expect(out).toMatch(/past \d+ .* to \d+/);
    expect(out).toContain('struck through');
    expect(out).toContain('do not look into the beam');
  });

  test('both alcoves of a pair are worked by typed acts, and the report says how each carcass stands', () => {
    const pair = run(['code', '--family', 'alcove-pair', '--seed', '6']).out.trim();
    const right =
      'bay right\nstand 0 0 1100\nsettle\nread S2 left 0 1200\nbook 400\nsheet\npropose carcass 700 2000 300';
    const { out } = run(
      ['field', pair, '--plain', '--log', file('pair.log')],
      `stand 0 0 1100\nsettle\n${right}\nbay left\npropose carcass 710 2000 300\nhand in\n`,
    );
    expect(out).not.toMatch(/not done|not understood/);
    const entries = readFileSync(file('pair.log'), 'utf8').trim().split('\n').slice(1);
    const acts = entries.map((line) => JSON.parse(line).act);
    expect(acts[2].xMm).toBeGreaterThan(500);
    const place = { surface: 'left', yMm: 0, zMm: 1200, bay: 2 };
    expect(acts[4]).toMatchObject({ act: 'read', place });
    expect(acts[5]).toMatchObject({ act: 'book', place, reading: 5 });
    expect(acts.find((a) => a.act === 'propose' && a.carcassMm)).toMatchObject({
      carcassMm: { width: 710 },
      second: { carcassMm: { width: 700 } },
    });
    const report = run(['mark', file('pair.log')]).out;
    expect(report).toMatch(/^left-hand recess: carcass 710 x 2000 x 300 /m);
    expect(report).toMatch(/^right-hand recess: carcass 700 x 2000 x 300 /m);
    expect(report).toMatch(/^left-hand recess, carcass width: sent 710/m);
    expect(report).toMatch(/^right-hand recess, carcass width: sent 700/m);
    expect(run(['field', code, '--plain'], 'bay right\n').out).toContain('one recess here');
  });

  test('the demo tells the whole job', () => {
    const { out, code: exit } = run(['demo']);
    expect(exit).toBe(0);
    for (const title of [
      'The brief',
      'Setting up',
      'The field sheet',
      'Working out',
      'Where each millimetre went',
      'Score',
      'The true room, uncovered',
    ])
      expect(out).toContain(title);
  });

  test.each(['act', 'log', 'entry', 'log-header', 'exercise', 'spec', 'brief', 'lesson'])(
    'the schema of %s is one',
    (name) => {
      expect(JSON.parse(run(['schema', name]).out)).toHaveProperty('$schema');
    },
  );

  test.each(['demo', 'code', 'room', 'key', 'field', 'learner', 'mark', 'verify', 'schema'])('%s has help', (verb) => {
    expect(run([verb, '--help'])).toMatchObject({ code: 0, err: '' });
  });
});

describe('an assessed exercise', () => {
  test.each([
    ['room', [assessed]],
    ['key', [assessed]],
    ['demo', ['--code', assessed]],
    ['learner', ['careful', assessed]],
  ])('%s wants --tutor', (verb, args) => {
    expect(run([verb, ...args])).toMatchObject({ code: 1, out: '' });
    expect(run([verb, ...args, '--tutor']).code).toBe(0);
  });
});

describe('bad input gets one line and exit code 1', () => {
  writeFileSync(file('taken.txt'), 'mine\n');
  writeFileSync(file('bad.json'), '{"format":"offtrue-exercise","version":1}\n');
  test.each<[string, string[], RegExp]>([
    ['a sign that codes do not have', ['room', 'ABCD'], /^offtrue: code ABCD: sign 1 is "A"/],
    ['a code that is too short', ['room', 'DW7'], /^offtrue: code DW7: a code has 12 signs, this one has 3/],
    [
      'sizes that are not three',
      ['key', code, '--carcass', '1,2'],
      /^offtrue: --carcass: expected 3 sizes .*, got "1,2"/,
    ],
    ['a carcass beyond the recess', ['key', code, '--carcass', '3900,2000,300'], /outside/],
    [
      'an unknown severity',
      ['code', '--severity', 'mild'],
      /^offtrue: --severity: expected one of settled, old, stone, uk-2019, .*, got "mild"/,
    ],
    ['a seed that is no number', ['code', '--seed', 'x'], /expected a whole number/],
    ['a grid of nought', ['room', code, '--samples', '0'], /^offtrue: --samples: expected a whole number .*, got 0/],
    [
      'a log that is not there',
      ['mark', file('none.log')],
      /none\.log: expected a file that can be read, got no such file/,
    ],
    ['a file that is no log', ['mark', file('taken.txt')], /taken\.txt: line 1: expected JSON, got "mine"/],
    [
      'an exercise file with a field missing',
      ['room', file('bad.json')],
      /bad\.json: exercise, \w+: expected a value, got none/,
    ],
    ['an unknown learner', ['learner', 'lucky', code], /^offtrue: learner: expected one of .*, got "lucky"/],
    ['an unknown verb', ['fly'], /^offtrue: unknown command 'fly'/],
    ['an unknown flag', ['demo', '--fast'], /^offtrue: unknown option '--fast'/],
    ['no verb', [], /^offtrue: expected a verb, got none/],
    ['an unknown schema', ['schema', 'toString'], /^offtrue: schema: expected one of act, .*, got "toString"/],
    ['a seed beyond the last', ['code', '--seed', '4826809'], /^offtrue: --seed: .* from 0 to 4826808, got "4826809"/],
    ['a count of nought', ['code', '--count', '0'], /^offtrue: --count: .* from 1 to 10000, got "0"/],
    ['sizes in another notation', ['key', code, '--frame', '0x400,2000'], /^offtrue: --frame: expected 2 sizes/],
    [
      'a learner code that no log could hold',
      ['field', code, '--log', file('long.log'), '--learner', 'x'.repeat(81)],
      /^offtrue: --learner: expected a length <=80, got 81/,
    ],
    ['a missing argument', ['room'], /^offtrue: missing required argument 'code'/],
    ['a log of another exercise', ['field', assessed, '--log', file('careful.log')], /expected a log of this exercise/],
    [
      'a file that would be written over',
      ['learner', 'random', code, '--log', file('taken.txt')],
      /it is not written over/,
    ],
  ])('%s', (_what, args, line) => {
    const { code: exit, out, err } = run(args);
    expect(exit).toBe(1);
    expect(out).toBe(args.length > 0 ? '' : run(['--help']).out);
    expect(err).toMatch(line);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  test('nothing was written over', () => {
    expect(readFileSync(file('taken.txt'), 'utf8')).toBe('mine\n');
    expect(existsSync(file('none.log'))).toBe(false);
    expect(existsSync(file('long.log'))).toBe(false);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test('a malformed act is told with its line and field, and the survey goes on', () => {
    const { out, code: exit } = run(['field', code], '{"act":"stand","xMm":0}\n{"act":"note","text":"on"}\n');
    const [bad, good] = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(exit).toBe(0);
    expect(bad).toEqual({
      ok: false,
      error: {
        code: 'act/malformed',
        line: 1,
        field: 'yMm',
        expected: 'a value',
        says: 'line 1, yMm: expected a value, got none',
      },
    });
    expect(good).toEqual({ ok: true });
  });

  test('a reader that goes away is no fault', () => {
    const ran = spawnSync('sh', ['-c', `"${process.execPath}" "${command}" demo | head -n 1`], { encoding: 'utf8' });
    expect(ran.stderr.replace(/^building the command\n/, '')).toBe('');
    expect(ran.stdout).toBe('The brief\n');
  });

  test.runIf(existsSync('/dev/full'))('an output that takes nothing is told in one line', () => {
    const ran = spawnSync('sh', ['-c', `"${process.execPath}" "${command}" demo > /dev/full`], { encoding: 'utf8' });
    expect(ran.status).toBe(1);
    expect(ran.stderr).toBe('offtrue: standard output: expected a place that can be written, got no room left\n');
  });
});

describe('two logs and how sure', () => {
  const logOf = (learner: string, of = code) => {
    const path = file(`${learner}-${of}.log`);
    run(['learner', learner, of, '--log', path]);
    return path;
  };

  test('compare holds two logs of one room side by side, and refuses two rooms', () => {
    const [mine, hers] = [logOf('careful'), logOf('averages')];
    const ran = run(['compare', mine, hers]);
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('Ledger against ledger');
    const { comparison } = JSON.parse(run(['compare', mine, hers, '--json']).out);
    expect(comparison.score[0]).toBeGreaterThan(comparison.score[1]);
    const elsewhere = run([
      'compare',
      mine,
      logOf('careful', run(['code', '--seed', '5', '--kit', 'site']).out.trim()),
    ]);
    expect(elsewhere.code).toBe(1);
    expect(elsewhere.err).toMatch(/expected a log of [^\n]+, got one of [^\n]+\n$/);
  });

  test('sure tells what was said of each size, and adds up over logs', () => {
    const path = file('sure.log');
    const typed = ['propose carcass 900 2000 300', 'sure carcass-width guess', 'sure carcass-depth sure', 'hand in'];
    run(['field', code, '--plain', '--log', path], `${typed.join('\n')}\n`);
    const { borne } = JSON.parse(run(['sure', path, path, '--json']).out);
    expect(borne.map((b: { said: number }) => b.said)).toEqual([2, 0, 2]);
    expect(run(['sure', path]).out).toContain('carcass width: a guess;');
  });
});
