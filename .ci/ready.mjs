// Makes a fresh clone ready: installs what is missing and builds what is old. Plain Node, nothing else.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { freshenCommand, freshenPage } from './freshness.mjs';

const root = fileURLToPath(new URL('../', import.meta.url));

if (!installed()) {
  process.stderr.write('installing what package-lock.json names\n');
  const run = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel', 'error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (run.status !== 0) process.exit(run.status ?? 1);
}
freshenCommand();
freshenPage();

/** Whether every package that the lock file names for this machine is there, at its version. */
function installed() {
  const kept = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(kept)) return false;
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const have = JSON.parse(readFileSync(kept, 'utf8')).packages;
  return Object.entries(wanted).every(
    ([name, { version, optional }]) => name === '' || optional || have[name]?.version === version,
  );
}
