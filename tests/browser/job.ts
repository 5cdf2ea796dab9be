/**
 * A whole job at the page, in either unit: opened by code, stood, read all round, closed, worked out, sent; and its log held
 * to the command line.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, type Page } from '@playwright/test';
import type { Hands } from './hands.ts';
import { judgedFromWords, keptLog, shownDigest } from './page-hand.ts';

const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');

/** Runs the command and gives what it prints. */
export function offtrue(...args: string[]): string {
  const ran = spawnSync(process.execPath, [command, ...args], { encoding: 'utf8' });
  expect(ran.stderr.replace(/^building the command\n/, '')).toBe('');
  return ran.stdout;
}

/** What is worked: a room by its code, and how lengths are judged from words and written. */
export interface Job {
  readonly code: string;
  /** As the boxes name it: `mm`, `inches`. */
  readonly unit: string;
  /** The middle of a line from words that leave the judgement, mm. */
  judged(words: string): number;
  written(mm: number): string;
}

export const inMm: Omit<Job, 'code'> = { unit: 'mm', judged: judgedFromWords, written: String };

/** Looked at after each part of the job, by name. */
export type Look = (part: string) => Promise<void>;

/** Opens by code, stands the level, lines it up roughly, reads every side, closes, works out, sends. */
export async function survey(
  page: Page,
  hands: Hands,
  job: Job,
  look: Look = async () => undefined,
): Promise<Record<string, number[]>> {
  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Open', exact: true })).toBeEnabled();
  await hands.write(/^Open by code/, job.code);
  await hands.press(/^Open$/);
  await hands.press(/^Stand$/);
  await hands.press(/^Settle$/);
  await hands.press(/^Mark/);
  await hands.press(/^Mark$/);
  await look('marked');
  await hands.press(/^Read/);
  const read: Record<string, number[]> = {};
  for (const side of [
    'S to the left wall',
    'S to the right wall',
    'F to the back wall',
    'L down to the floor',
    'L up to the ceiling',
  ])
    read[side] = await run(page, { hands, job, look }, side);
  await hands.press(/^Close/);
  await hands.press(/^Read again$/);
  await page.getByLabel(`What it reads, in ${job.unit}`).waitFor();
  await hands.write(/^What it reads/, job.written(read['S to the left wall']?.[0] ?? 0));
  await hands.press(/^Book$/);
  await look('closed');
  await send(page, { hands, job, look }, read);
  await look('handed in');
  return read;
}

interface Working {
  readonly hands: Hands;
  readonly job: Job;
  readonly look: Look;
}

/** One run: every place judged from the words that leave the judgement, and booked. */
async function run(page: Page, { hands, job, look }: Working, side: string): Promise<number[]> {
  if (side !== 'S to the left wall') await hands.choose(/^What to read/, side);
  await hands.press(/^Hold the rule$/);
  const box = page.getByLabel(`Middle of the line, in ${job.unit}`);
  await box.waitFor();
  if (!(await page.locator('.said').isVisible())) await hands.press(/^Say it in words$/);
  await look(side);
  const values: number[] = [];
  for (let i = 0; i < 12; i++) {
    const value = job.judged((await page.locator('.said').textContent()) ?? '');
    values.push(value);
    const told = await page.locator('[data-acts]').getAttribute('data-acts');
    await hands.write(/^Middle of the line/, job.written(value));
    await page.keyboard.press('Enter');
    // A booking and the next hold, or the last booking alone.
    await expect.poll(() => page.locator('[data-acts]').getAttribute('data-acts')).not.toBe(told);
    await expect(page.locator('[data-busy="no"]')).toBeVisible();
    if (!(await box.isVisible())) break;
  }
  return values;
}

async function send(page: Page, { hands, job, look }: Working, read: Record<string, number[]>): Promise<void> {
  const of = (side: string) => read[side] ?? [];
  const least = (side: string) => Math.min(...of(side));
  const most = (side: string) => Math.max(...of(side));
  await hands.press(/^Fit/);
  const key = JSON.parse(offtrue('key', job.code, '--json'));
  const { askMm, plinthMm, carcassFrontMm, frame, carcassMm } = key.brief;
  await hands.write(
    /^Carcass width/,
    job.written(least('S to the left wall') + least('S to the right wall') - askMm.left - askMm.right),
  );
  await hands.write(
    /^Carcass height/,
    job.written(least('L down to the floor') + least('L up to the ceiling') - plinthMm - askMm.top),
  );
  if (carcassMm.depth.find)
    await hands.write(/^Carcass depth/, job.written(least('F to the back wall') - carcassFrontMm - askMm.back));
  await hands.write(
    /^Frame width/,
    job.written(most('S to the left wall') + most('S to the right wall') + 2 * frame.leastStockMm),
  );
  await hands.write(
    /^Frame height/,
    job.written(most('L down to the floor') + most('L up to the ceiling') + 2 * frame.leastStockMm),
  );
  await hands.tick(/It goes/);
  await look('sizes');
  await hands.press(/^Send these sizes$/);
  await hands.press(/^Yes, send them$/);
  await page.locator('.digest').waitFor();
}

/** The log marks on the command line to the digest that the page shows, and holds when it is acted again. */
export async function heldTo(page: Page): Promise<void> {
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
