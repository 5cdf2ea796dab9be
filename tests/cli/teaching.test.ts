/**
 * `offtrue code --teaching` from outside: codes alone on standard output, what was thrown away on standard error.
 */
import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { mistakenLearners } from '../../src/learners/mistaken/mistaken.ts';
import { leastCostMm, testRoom } from '../../src/making/teaching-room.ts';

const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');

function run(...args: readonly string[]) {
  const ran = spawnSync(process.execPath, [command, 'code', ...args], { encoding: 'utf8' });
  return { code: ran.status, out: ran.stdout, err: ran.stderr.replace(/^building the command\n/, '') };
}

describe('codes that teach', () => {
  test('by number or by name, and in each room the mistake costs and care succeeds', () => {
    const { code, out, err } = run('--teaching', 'M03', '--seed', '5', '--count', '2', '--severity', 'old');
    expect(code).toBe(0);
    const codes = out.trim().split('\n');
    expect(codes).toHaveLength(2);
    const makes = mistakenLearners.find((l) => l.mistake === 'M03');
    if (!makes) throw new Error('nobody makes it');
    for (const c of codes) {
      const opened = openCode(c);
      expect(opened.ok && testRoom(opened.value, makes).costMm).toBeGreaterThanOrEqual(leastCostMm);
    }
    expect(err).toMatch(/^offtrue: M03, .*: kept 2 of \d+ candidates, threw away \d+/);
    const named = run('--teaching', makes.name, '--seed', '5', '--count', '2', '--severity', 'old');
    expect(named.out).toBe(out);
  });

  test('as data, with the cost, the size and what was thrown away by why', () => {
    const [made] = JSON.parse(run('--teaching', 'M02', '--seed', '5', '--json').out);
    expect(made).toMatchObject({ mistake: 'M02', thrownAway: { cheap: expect.any(Number), hard: expect.any(Number) } });
    expect(made.costMm).toBeGreaterThanOrEqual(leastCostMm);
  });

  test.each([
    ['a name that is near to one', ['--teaching', 'front-onl'], /the nearest is front-only/],
    ['a mistake that costs no size', ['--teaching', 'M30', '--seed', '5'], /got none of 100: \d+ where it costs less/],
  ])('%s is refused in one line', (_what, args, says) => {
    const { code, out, err } = run(...args);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(says);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });
});
