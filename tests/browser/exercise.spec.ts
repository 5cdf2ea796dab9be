/**
 * A whole exercise in a real browser, three ways. The log that each leaves verifies and marks on the command line to the
 * same bytes as the page showed.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { byKeys, byPointer, byTouch, type Hands } from './hands.ts';
import { judgedFromWords, keptLog, shownDigest, watchErrors } from './page-hand.ts';

const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');

function offtrue(...args: string[]): string {
  const ran = spawnSync(process.execPath, [command, ...args], { encoding: 'utf8' });
  expect(ran.stderr.replace(/^building the command\n/, '')).toBe('');
  return ran.stdout;
}

const code = offtrue('code', '--seed', '20261', '--structure', 'closing', '--kit', 'site').trim();

/** Opens by code, stands the level, lines it up roughly, reads every side, closes, works out, sends. */
async function survey(page: Page, hands: Hands): Promise<Record<string, number[]>> {
  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Open', exact: true })).toBeEnabled();
  await hands.write(/^Open by code/, code);
  await hands.press(/^Open$/);
  await hands.press(/^Stand$/);
  await hands.press(/^Settle$/);
  await hands.press(/^Mark/);
  await hands.press(/^Mark$/);
  await hands.press(/^Read/);
  const read: Record<string, number[]> = {};
  for (const side of [
    'S to the left wall',
    'S to the right wall',
    'F to the back wall',
    'L down to the floor',
    'L up to the ceiling',
  ])
    read[side] = await run(page, hands, side);
  await hands.press(/^Close/);
  await hands.press(/^Read again$/);
  await page.getByLabel('What it reads, in mm').waitFor();
  await hands.write(/^What it reads/, String(read['S to the left wall']?.[0]));
  await hands.press(/^Book$/);
  await send(page, hands, read);
  return read;
}

/** One run: every place judged from the words that leave the judgement, and booked. */
async function run(page: Page, hands: Hands, side: string): Promise<number[]> {
  if (side !== 'S to the left wall') await hands.choose(/^What to read/, side);
  await hands.press(/^Hold the rule$/);
  const box = page.getByLabel('Middle of the line, in mm');
  await box.waitFor();
  if (!(await page.locator('.said').isVisible())) await hands.press(/^Say it in words$/);
  const values: number[] = [];
  for (let i = 0; i < 12; i++) {
    const value = judgedFromWords((await page.locator('.said').textContent()) ?? '');
    values.push(value);
    const told = await page.locator('[data-acts]').getAttribute('data-acts');
    await hands.write(/^Middle of the line/, String(value));
    await page.keyboard.press('Enter');
    // A booking and the next hold, or the last booking alone.
    await expect.poll(() => page.locator('[data-acts]').getAttribute('data-acts')).not.toBe(told);
    await expect(page.locator('[data-busy="no"]')).toBeVisible();
    if (!(await box.isVisible())) break;
  }
  return values;
}

async function send(page: Page, hands: Hands, read: Record<string, number[]>): Promise<void> {
  const of = (side: string) => read[side] ?? [];
  const least = (side: string) => Math.min(...of(side));
  const most = (side: string) => Math.max(...of(side));
  await hands.press(/^Fit/);
  const key = JSON.parse(offtrue('key', code, '--json'));
  const { askMm, plinthMm, carcassFrontMm, frame, carcassMm } = key.brief;
  await hands.write(
    /^Carcass width/,
    String(least('S to the left wall') + least('S to the right wall') - askMm.left - askMm.right),
  );
  await hands.write(
    /^Carcass height/,
    String(least('L down to the floor') + least('L up to the ceiling') - plinthMm - askMm.top),
  );
  if (carcassMm.depth.find)
    await hands.write(/^Carcass depth/, String(least('F to the back wall') - carcassFrontMm - askMm.back));
  await hands.write(
    /^Frame width/,
    String(most('S to the left wall') + most('S to the right wall') + 2 * frame.leastStockMm),
  );
  await hands.write(
    /^Frame height/,
    String(most('L down to the floor') + most('L up to the ceiling') + 2 * frame.leastStockMm),
  );
  await hands.tick(/It goes/);
  await hands.press(/^Send these sizes$/);
  await hands.press(/^Yes, send them$/);
  await page.locator('.digest').waitFor();
}

/** The log marks on the command line to the digest that the page shows, and holds when it is acted again. */
async function heldTo(page: Page): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'offtrue-page-'));
  try {
    const log = join(folder, 'page.jsonl');
    writeFileSync(log, await keptLog(page, /^Keep the log$/));
    expect(offtrue('verify', log)).toContain('holds');
    expect(JSON.parse(offtrue('mark', log, '--json')).digest).toBe(await shownDigest(page));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

test('by pointer', async ({ page }) => {
  const errors = watchErrors(page);
  const read = await survey(page, byPointer(page));
  expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
  await heldTo(page);
  expect(errors).toEqual([]);
});

test('by keys alone', async ({ page }) => {
  test.setTimeout(180_000);
  const errors = watchErrors(page);
  const read = await survey(page, byKeys(page));
  expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
  await heldTo(page);
  expect(errors).toEqual([]);
});

test.describe('by touch at 390 x 844', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  test('a whole exercise', async ({ page }) => {
    const errors = watchErrors(page);
    const read = await survey(page, byTouch(page));
    expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
    await heldTo(page);
    expect(errors).toEqual([]);
  });
});

test.describe('at 400 % zoom, through the twin', () => {
  test.use({ viewport: { width: 320, height: 640 } });
  test('a whole exercise by keys', async ({ page }) => {
    test.setTimeout(180_000);
    await survey(page, byKeys(page));
    await heldTo(page);
  });
});
