/**
 * The page's speed: script of a frame while the level is dragged, what is fetched until it can be used, and a run of
 * thirty-one readings at a person's pace.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Browser, chromium, type Page } from '@playwright/test';
import { browserSwitches, ensureBrowser } from '../browser/ensure-browser.ts';

export interface PageFigure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly target: number;
  readonly met: boolean;
}

const root = resolve(import.meta.dirname, '../..');
const port = 4191;
const url = `http://127.0.0.1:${port}/`;

/** Measures the page that is built. */
export async function pageFigures(): Promise<PageFigure[]> {
  const server = spawn(process.execPath, [join(root, 'src/cli/serve.mjs'), '--port', String(port)], {
    stdio: 'ignore',
  });
  await new Promise((done) => setTimeout(done, 600));
  const browser = await chromium.launch({ executablePath: ensureBrowser(), args: [...browserSwitches] });
  try {
    return [...(await weights(browser)), await dragged(browser), await linedUp(browser), await thirtyOne(browser)];
  } finally {
    await browser.close();
    server.kill();
  }
}

function figure(name: string, value: number, unit: string, target: number): PageFigure {
  return { name, value: Math.round(value * 100) / 100, unit, target, met: value <= target };
}

/** Compressed script fetched until the first screen can be used, and until an alcove is open and drawn. */
async function weights(browser: Browser): Promise<PageFigure[]> {
  const page = await browser.newPage();
  let bytes = 0;
  const waiting: Promise<void>[] = [];
  page.on('response', (response) => {
    if (!response.url().endsWith('.js')) return;
    const weigh = async () => {
      bytes += gzipSync(await response.body(), { level: 9 }).length;
    };
    waiting.push(weigh());
  });
  await page.goto(url);
  await page.getByRole('button', { name: 'Open an alcove', disabled: false }).waitFor();
  await Promise.all(waiting);
  const start = bytes / 1000;
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  await page.locator('canvas').waitFor();
  await page.waitForTimeout(500);
  await Promise.all(waiting);
  await page.close();
  return [
    figure('page: script until the first screen can be used', start, 'kB gz', 60),
    figure('page: script until the alcove is open', bytes / 1000, 'kB gz', 230),
  ];
}

/** The script of each frame while the level is dragged with some 200 readings on the sheet, 95th percentile. */
async function dragged(browser: Browser): Promise<PageFigure> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  const { path, folder } = longSurvey();
  await page.goto(url);
  await page.getByRole('button', { name: 'Open an alcove', disabled: false }).waitFor();
  await page.setInputFiles('input[type=file]', path);
  await page.locator('canvas').waitFor();
  await page.waitForTimeout(800);
  // What compiles this file names functions by a helper that the page does not have.
  await page.evaluate('globalThis.__name = (f) => f');
  const times = await page.evaluate(async () => {
    const level = document.querySelector('button.level') as HTMLElement;
    level.setPointerCapture = () => undefined;
    const at = level.getBoundingClientRect();
    const event = (type: string, x: number, y: number) =>
      level.dispatchEvent(new PointerEvent(type, { pointerId: 1, bubbles: true, clientX: x, clientY: y }));
    event('pointerdown', at.x + 22, at.y + 22);
    const spent: number[] = [];
    for (let i = 0; i < 240; i++) {
      await new Promise(requestAnimationFrame);
      const begun = performance.now();
      event('pointermove', at.x + 22 + 30 * Math.sin(i / 9), at.y + 22 + 20 * Math.cos(i / 7));
      await Promise.resolve();
      await Promise.resolve();
      spent.push(performance.now() - begun);
    }
    event('pointercancel', 0, 0);
    return spent.slice(40).sort((a, b) => a - b);
  });
  await page.close();
  rmSync(folder, { recursive: true, force: true });
  return figure(
    'page: script of a frame, level dragged, 95th percentile',
    times[Math.floor(times.length * 0.95)] ?? 0,
    'ms',
    8,
  );
}

/** The script of each frame while a wheel is drawn and both loupes follow, 95th percentile. */
async function linedUp(browser: Browser): Promise<PageFigure> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  const { path, folder } = longSurvey();
  await page.goto(url);
  await page.getByRole('button', { name: 'Open an alcove', disabled: false }).waitFor();
  await page.setInputFiles('input[type=file]', path);
  await page.locator('canvas').waitFor();
  await page.getByRole('button', { name: /^Set up/ }).click();
  await page.getByRole('slider', { name: /^Dial/ }).waitFor();
  await page.waitForTimeout(800);
  await page.evaluate('globalThis.__name = (f) => f');
  const times = await page.evaluate(async () => {
    const wheel = document.querySelectorAll('[role="slider"]')[1] as HTMLElement;
    wheel.setPointerCapture = () => undefined;
    const shown = () => document.querySelector('.line-up .beam')?.getAttribute('x') ?? '';
    const at = wheel.getBoundingClientRect();
    const event = (type: string, x: number) =>
      wheel.dispatchEvent(
        new PointerEvent(type, { pointerId: 1, bubbles: true, clientX: x, clientY: at.y + at.height / 2 }),
      );
    event('pointerdown', at.x + 60);
    const spent: number[] = [];
    const seen = new Set<string>();
    for (let i = 0; i < 240; i++) {
      await new Promise(requestAnimationFrame);
      const begun = performance.now();
      event('pointermove', at.x + 60 + 8 * Math.sin(i / 9));
      await Promise.resolve();
      await Promise.resolve();
      spent.push(performance.now() - begun);
      seen.add(shown());
    }
    event('pointercancel', 0);
    return { spent: spent.slice(40).sort((a, b) => a - b), moved: seen.size };
  });
  await page.close();
  rmSync(folder, { recursive: true, force: true });
  if (times.moved < 3) throw new Error('the loupes did not follow the wheel');
  const { spent } = times;
  return figure(
    'page: script of a frame, a wheel drawn, 95th percentile',
    spent[Math.floor(spent.length * 0.95)] ?? 0,
    'ms',
    8,
  );
}

/** A careful survey that is not handed in, its readings booked: near two hundred. */
function longSurvey(): { path: string; folder: string } {
  const folder = mkdtempSync(join(tmpdir(), 'offtrue-bench-'));
  const path = join(folder, 'long.log');
  const command = join(root, 'src/cli/offtrue.mjs');
  const code = spawnSync(
    process.execPath,
    [command, 'code', '--seed', '77', '--severity', 'stone', '--structure', 'sunk-floor', '--kit', 'site'],
    { encoding: 'utf8' },
  );
  spawnSync(process.execPath, [command, 'learner', 'careful', code.stdout.trim(), '--log', path]);
  const lines = readFileSync(path, 'utf8').trimEnd().split('\n');
  writeFileSync(path, `${lines.filter((l) => !/"act":"(say|propose|hand-in)"/.test(l)).join('\n')}\n`);
  return { path, folder };
}

/** Thirty-one readings from first to last booking, a second to judge and a second and a half to type, by keys alone. */
async function thirtyOne(browser: Browser): Promise<PageFigure> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  await page.goto(url);
  await page.getByRole('button', { name: 'Open an alcove', disabled: false }).waitFor();
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  const box = page.getByLabel('Middle of the line, in mm');
  await box.waitFor();
  const begun = Date.now();
  let booked = 0;
  for (const side of ['', 'S to the right wall', 'F to the back wall', 'L down to the floor', 'L up to the ceiling']) {
    if (side !== '') await nextSide(page, side);
    while (booked < 31 && (await box.isVisible())) {
      await page.waitForTimeout(1000);
      const figureSeen = await box.inputValue();
      await page.keyboard.press('Control+A');
      await page.keyboard.type(figureSeen, { delay: 1500 / Math.max(1, figureSeen.length) });
      await page.keyboard.press('Enter');
      booked++;
      await page.locator('[data-busy="no"]').waitFor();
      await page.waitForTimeout(60);
    }
  }
  const seconds = (Date.now() - begun) / 1000;
  await page.close();
  if (booked < 25) throw new Error(`only ${booked} readings were booked`);
  return figure(`page: a run of ${booked} readings at a person's pace`, seconds, 's', 300);
}

async function nextSide(page: Page, side: string): Promise<void> {
  const choice = page.getByLabel('What to read');
  await choice.focus();
  await page.keyboard.type(side, { delay: 20 });
  await page.getByRole('button', { name: 'Hold the rule', exact: true }).focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Middle of the line, in mm').waitFor();
}
