// What is built, and whether it is older than what it is built from. Plain Node: it runs before anything is installed.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));
export const builtCommand = join(root, 'dist-cli', 'offtrue.js');
export const builtPage = join(root, 'dist', 'index.html');

/** Builds the command when it is missing or older than its sources. */
export function freshenCommand() {
  if (!isFresh(builtCommand, ['src', 'vite.config.ts', 'package.json'])) build('the command', ['--mode', 'cli']);
}

/** Builds the page when it is missing or older than its sources. */
export function freshenPage() {
  if (!isFresh(builtPage, ['src', 'public', 'lessons', 'vite.config.ts', 'package.json'])) build('the page', []);
}

function isFresh(built, sources) {
  if (!existsSync(built)) return false;
  const then = statSync(built).mtimeMs;
  return sources.every((source) => newest(join(root, source)) <= then);
}

function newest(path) {
  if (!existsSync(path)) return 0;
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce((most, name) => Math.max(most, newest(join(path, name))), 0);
}

function build(what, flags) {
  process.stderr.write(`building ${what}\n`);
  const vite = join(dirname(createRequire(join(root, 'package.json')).resolve('vite/package.json')), 'bin', 'vite.js');
  const run = spawnSync(process.execPath, [vite, 'build', '--logLevel', 'error', ...flags], {
    cwd: root,
    stdio: ['ignore', 2, 2],
  });
  if (run.status !== 0) {
    process.stderr.write(`offtrue: ${what} could not be built\n`);
    process.exit(2);
  }
}
