/**
 * axe on every screen and state, and targets that are large enough.
 *
 * @source WCAG 2.2, success criteria 2.5.8 (targets of 24 px) and, by axe's rules, levels A and AA
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { writeCode } from '../../src/exercise/exercise-code.ts';

async function clean(page: Page, where: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  const told = violations.map((v) => `${where}: ${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
  expect(told).toEqual([]);
}

async function small(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('button, a[href], input, select, summary')].flatMap((el) => {
      const box = el.getBoundingClientRect();
      if (box.width === 0 || box.height === 0) return [];
      return box.width < 24 || box.height < 24
        ? [
            `${el.tagName} ${el.getAttribute('aria-label') ?? el.textContent?.trim()}: ${Math.round(box.width)} x ${Math.round(box.height)}`,
          ]
        : [];
    }),
  );
}

const folder = mkdtempSync(join(tmpdir(), 'offtrue-axe-'));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A scripted survey's log, handed in: it opens on the last screen. */
function surveyed(learner: string): string {
  const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');
  const path = join(folder, `${learner}-${process.pid}-${Math.random()}.log`);
  const code = spawnSync(process.execPath, [command, 'code', '--seed', '8', '--kit', 'site'], { encoding: 'utf8' });
  spawnSync(process.execPath, [command, 'learner', learner, code.stdout.trim(), '--log', path]);
  return path;
}

for (const scheme of ['light', 'dark'] as const) {
  test(`nothing is found on any screen, ${scheme}`, async ({ page }) => {
    test.setTimeout(120_000);
    await page.emulateMedia({ colorScheme: scheme });
    await page.goto('./');
    await expect(page.getByRole('button', { name: 'Open an alcove' })).toBeEnabled();
    await clean(page, 'start');
    expect(await small(page)).toEqual([]);
    await page.getByRole('link', { name: 'Box or frame' }).click();
    await page.getByRole('button', { name: 'Begin' }).waitFor();
    await clean(page, 'lesson');
    await page.goto('./');
    await page.getByRole('button', { name: 'Open an alcove' }).click();
    await page.getByLabel('Middle of the line, in mm').waitFor();
    await page.keyboard.press('Enter');
    await clean(page, 'read');
    for (const step of [/^Set up/, /^Mark/, /^Carry over/, /^Close/, /^Work out/, /^Fit/]) {
      await page.getByRole('button', { name: step }).first().click();
      await clean(page, String(step));
      expect(await small(page)).toEqual([]);
    }
    await page.getByText('Brief', { exact: true }).first().click();
    await clean(page, 'brief');
    await page.getByText('Brief', { exact: true }).first().click();
    await page.getByRole('button', { name: 'Words' }).click();
    await clean(page, 'words');
    for (const learner of ['careful', 'three-widths']) {
      await page.goto('./');
      await page.setInputFiles('input[type=file]', surveyed(learner));
      await page.locator('.digest').waitFor();
      await clean(page, `handed in by ${learner}`);
      expect(await small(page)).toEqual([]);
    }
  });
}

test('nothing is found where the level is checked and squared back, and targets are large enough', async ({ page }) => {
  test.setTimeout(90_000);
  const code = writeCode({ family: 'alcove', severity: 'old', structure: 'wound', kit: 'faulty', seed: 5 });
  await page.goto(`./#/code/${code}`);
  await page.getByRole('button', { name: 'Begin this check' }).click();
  for (let i = 0; i < 2; i++) await page.getByRole('button', { name: 'Next', exact: true }).click();
  const panel = async (name: RegExp) => {
    await page.getByRole('button', { name }).first().click();
    await clean(page, String(name));
    expect(await small(page)).toEqual([]);
  };
  await panel(/^Check/);
  await panel(/^Try/);
  await page.getByRole('button', { name: 'Hold it there' }).click();
  await panel(/^Square back/);
  await page.getByRole('button', { name: 'Stand it on the face line' }).click();
  await page.getByRole('slider', { name: /^Dial/ }).waitFor();
  await panel(/^Square back/);
  await page.getByText('All that is seen').click();
  await panel(/^Set up/);
  await page.getByText('Stand it again').click();
  await clean(page, 'stand');
  await panel(/^Close/);
  await page.getByRole('button', { name: 'Lay it out' }).click();
  await clean(page, '3-4-5');
});

test('a whole exercise fits a screen at 400 % zoom: one column, nothing wider than it', async ({ page }) => {
  // 1280 px at 400 % is 320 CSS px.
  await page.setViewportSize({ width: 320, height: 640 });
  await page.goto('./');
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
  expect(await wide()).toBeLessThanOrEqual(320);
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  await page.getByLabel('Middle of the line, in mm').waitFor();
  expect(await wide()).toBeLessThanOrEqual(320);
  for (const step of [/^Set up/, /^Mark/, /^Square back/, /^Close/, /^Fit/]) {
    await page.getByRole('button', { name: step }).first().click();
    expect(await wide(), String(step)).toBeLessThanOrEqual(320);
  }
  await page.goto('./');
  await page.setInputFiles('input[type=file]', surveyed('careful'));
  await page.locator('.digest').waitFor();
  expect(await wide()).toBeLessThanOrEqual(320);
});
