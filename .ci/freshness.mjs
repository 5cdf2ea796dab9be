// What is built, and whether it is older than what it is built from. Plain Node: it runs before anything is installed.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync, utimesSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));
export const builtCommand = join(root, 'dist-cli', 'offtrue.js');
export const builtPage = join(root, 'dist', 'index.html');

/** Builds the command when it is missing or older than its sources. */
export function freshenCommand() {
  if (isFresh(builtCommand, ['src', 'vite.config.ts', 'package.json'])) return;
  // Built beside and moved into its place, so that two that find it old at once do not take it from each other.
  const begun = new Date();
  mkdirSync(dirname(builtCommand), { recursive: true });
  const beside = mkdtempSync(join(dirname(builtCommand), 'new-'));
  process.once('exit', () => rmSync(beside, { recursive: true, force: true }));
  build('the command', ['--mode', 'cli', '--outDir', beside]);
  utimesSync(join(beside, basename(builtCommand)), begun, begun);
  renameSync(join(beside, basename(builtCommand)), builtCommand);
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
  const vite = viteScript();
  process.stderr.write(`building ${what}\n`);
  const run = spawnSync(process.execPath, [vite, 'build', '--logLevel', 'error', ...flags], {
    cwd: root,
    stdio: ['ignore', 2, 2],
  });
  if (run.status !== 0) {
    process.stderr.write(`offtrue: ${what} could not be built\n`);
    process.exit(2);
  }
}

/** The builder's script; without it nothing was installed yet. */
function viteScript() {
  try {
    return join(dirname(createRequire(join(root, 'package.json')).resolve('vite/package.json')), 'bin', 'vite.js');
  } catch {
    process.stderr.write('offtrue: expected its packages, got none: npm ci installs them\n');
    process.exit(1);
  }
}
