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
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const have = kept();
  return Object.entries(wanted).every(
    ([name, { version, optional }]) =>
      name === '' || optional || (have[name]?.version === version && existsSync(join(root, name))),
  );
}

/** What was installed, as its record has it: nothing where there is none, or one that was broken off. */
function kept() {
  try {
    return JSON.parse(readFileSync(join(root, 'node_modules', '.package-lock.json'), 'utf8')).packages ?? {};
  } catch {
    return {};
  }
}
