// Finds a Chromium for the browser tests, or installs one, and gives its path.
//   CHROME_PATH=/path/to/chrome   uses exactly that one; otherwise, in this order: one that Playwright fetched earlier, a
//   Chromium or Chrome on the system, Debian's package (when root), `playwright install chromium`.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { chromium } from '@playwright/test';

/** Gives the path of a browser that works, installing one where none is found. */
export function ensureBrowser(): string {
  const found = findBrowser();
  if (found) return found;
  if (process.platform === 'linux' && process.getuid?.() === 0 && onPath('apt-get')) {
    shell('apt-get', 'update', '-qq');
    shell('apt-get', 'install', '-y', '-qq', '--no-install-recommends', 'chromium', 'fonts-liberation');
  } else {
    const cli = join(dirname(createRequire(import.meta.url).resolve('@playwright/test/package.json')), 'cli.js');
    shell(process.execPath, cli, 'install', 'chromium');
  }
  const now = findBrowser();
  if (!now)
    throw new Error('No Chromium found, and none could be installed. Install one and set CHROME_PATH to its path.');
  return now;
}

/** Switches that a test needs: no sandbox for root, nothing fetched behind our back, 2D canvas by the processor. */
export const browserSwitches: readonly string[] = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
];

function findBrowser(): string | undefined {
  const named = process.env['CHROME_PATH'];
  if (named) {
    if (!works(named)) throw new Error(`CHROME_PATH names no working browser: ${named}`);
    return named;
  }
  return [chromium.executablePath(), systemOne()].find(works);
}

function works(path: string | undefined): path is string {
  if (!path || !existsSync(path)) return false;
  if (process.platform === 'win32') return true;
  const run = spawnSync(path, ['--version', '--no-sandbox'], { encoding: 'utf8', timeout: 30_000 });
  return run.status === 0 && /\d+\.\d+/.test(run.stdout);
}

function systemOne(): string | undefined {
  return (
    onPath('chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome.exe', 'msedge.exe') ??
    [
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      '/Applications/Chromium.app/Contents/MacOS/Chromium',
      'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    ].find((path) => existsSync(path))
  );
}

function onPath(...names: string[]): string | undefined {
  for (const folder of (process.env['PATH'] ?? '').split(delimiter))
    for (const name of names) if (existsSync(join(folder, name))) return join(folder, name);
  return undefined;
}

function shell(command: string, ...args: string[]): void {
  console.error(`$ ${command} ${args.join(' ')}`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync(command, args, { stdio: ['ignore', 2, 2], env, timeout: 600_000 });
}
