/**
 * `npm run gallery`: pictures of every screen and state, at each size and theme, into test-results/gallery, to be opened
 * and looked at.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import { browserSwitches, ensureBrowser } from './ensure-browser.ts';

const root = resolve(import.meta.dirname, '../..');
const out = join(root, 'test-results', 'gallery');
const port = 4187;
const url = `http://127.0.0.1:${port}/`;

const sizes = [
  { name: '1280', width: 1280, height: 720, touch: false },
  { name: '1024', width: 1024, height: 600, touch: false },
  { name: '390', width: 390, height: 844, touch: true },
] as const;

interface State {
  readonly name: string;
  readonly whole?: boolean;
  go(page: Page): Promise<void>;
}

const opened = async (page: Page) => {
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  await page.getByLabel('Middle of the line, in mm').waitFor();
};

const step = (name: RegExp) => async (page: Page) => {
  await opened(page);
  await page.getByRole('button', { name }).first().click();
};

const ended = (log: string) => async (page: Page) => {
  await page.setInputFiles('input[type=file]', log);
  await page.locator('.digest').waitFor();
};

const only = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'offtrue-gallery-'));
const states: readonly State[] = [
  { name: 'start', go: async () => undefined },
  { name: 'lesson', go: async (page) => page.getByRole('link', { name: 'Three heights' }).click() },
  {
    name: 'own-room',
    whole: true,
    go: async (page) => {
      await page.getByRole('link', { name: 'Make a room of your own' }).click();
      await page.getByLabel('Top back, left').fill('9');
      await page.getByRole('button', { name: 'Add a belly or hump' }).click();
    },
  },
  { name: 'read', go: opened },
  {
    name: 'read-some',
    go: async (page) => {
      await opened(page);
      for (let i = 1; i <= 4; i++) {
        await page.keyboard.press('Enter');
        await page.getByText(`${i} of 6`).waitFor();
      }
    },
  },
  { name: 'set-up', go: step(/^Set up/) },
  { name: 'mark', go: step(/^Mark/) },
  { name: 'close', go: step(/^Close/) },
  { name: 'fit', go: step(/^Fit/) },
  {
    name: 'brief',
    go: async (page) => {
      await opened(page);
      await page.getByText('Brief', { exact: true }).first().click();
    },
  },
  { name: 'ended-good', whole: true, go: ended(surveyed('careful')) },
  { name: 'ended-scrap', whole: true, go: ended(surveyed('three-widths')) },
];

const server = spawn(process.execPath, [join(root, 'src/cli/serve.mjs'), '--port', String(port)], { stdio: 'ignore' });
const browser = await chromium.launch({ executablePath: ensureBrowser(), args: [...browserSwitches] });
try {
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  for (const size of sizes) for (const theme of ['light', 'dark'] as const) await pictures(browser, size, theme);
} finally {
  await browser.close();
  server.kill();
  rmSync(folder, { recursive: true, force: true });
}

async function pictures(on: Browser, size: (typeof sizes)[number], theme: 'light' | 'dark'): Promise<void> {
  for (const state of states) {
    if (only.length > 0 && !only.some((o) => `${state.name}-${size.name}-${theme}`.includes(o))) continue;
    const context = await on.newContext({
      viewport: { width: size.width, height: size.height },
      hasTouch: size.touch,
      isMobile: size.touch,
      colorScheme: theme,
    });
    const page = await context.newPage();
    await page.goto(url);
    await page.getByRole('button', { name: 'Open an alcove', disabled: false }).waitFor();
    await state.go(page);
    await page.waitForTimeout(900);
    const fullPage = (state.whole ?? false) || size.touch;
    await page.screenshot({ path: join(out, `${state.name}-${size.name}-${theme}.png`), fullPage });
    await context.close();
    console.log(`${state.name} ${size.name} ${theme}`);
  }
}

/** A scripted survey's log, handed in. */
function surveyed(learner: string): string {
  const path = join(folder, `${learner}.log`);
  const command = join(root, 'src/cli/offtrue.mjs');
  const code = spawnSync(
    process.execPath,
    [command, 'code', '--seed', '31', '--structure', 'same-lean', '--kit', 'site'],
    {
      encoding: 'utf8',
    },
  ).stdout.trim();
  spawnSync(process.execPath, [command, 'learner', learner, code, '--log', path], { stdio: 'ignore' });
  return path;
}
