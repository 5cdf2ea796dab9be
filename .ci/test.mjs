// All tests: types, lint, the suites. The last line counts them.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));
const results = join(root, 'test-results');
rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });

let passed = 0;
let failed = 0;

step('types', 'npm', ['run', '-s', 'types']);
step('lint', 'npm', ['run', '-s', 'lint']);
step('tests', 'npx', [
  'vitest',
  'run',
  '--reporter=default',
  '--reporter=json',
  '--outputFile.json=test-results/unit.json',
]);
count('unit.json', (report) => [report.numPassedTests, report.numFailedTests]);
step('browser', 'npx', ['playwright', 'test', '-c', 'tests/browser']);
count('browser.json', ({ stats }) => [stats.expected, stats.unexpected]);

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);

/** Runs one step; one that fails counts as a failure even when it counts no tests. */
function step(name, command, args) {
  console.log(`\n== ${name}`);
  const run = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
  if (run.status !== 0) {
    failed++;
    console.log(`${name} failed`);
  }
}

/** Adds what a step's report counts; a report that is missing is a failure. */
function count(file, of) {
  const path = join(results, file);
  if (!existsSync(path)) {
    failed++;
    return;
  }
  const [good, bad] = of(JSON.parse(readFileSync(path, 'utf8')));
  passed += good;
  if (bad > 0) failed += bad - 1;
}
