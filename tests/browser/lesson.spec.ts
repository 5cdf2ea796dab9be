/**
 * Lesson 1 from its first word to its mark, as an apprentice would do it; and a log that is opened again from a file.
 */
import { expect, test } from '@playwright/test';
import { judgedFromWords, keptLog, watchErrors } from './page-hand.ts';

test('lesson 1 is read, done and judged', async ({ page }) => {
  const errors = watchErrors(page);
  await page.goto('./');
  await page.getByRole('link', { name: 'Reading the rule' }).click();
  await page.getByRole('button', { name: 'Begin' }).click();
  const box = page.getByLabel('Middle of the line, in mm');
  await box.waitFor();
  await expect(box).toHaveValue('');
  await page.getByRole('button', { name: 'Say it in words' }).click();
  for (let i = 1; i <= 12; i++) {
    if (!(await box.isVisible())) break;
    await box.fill(String(judgedFromWords((await page.locator('.said').textContent()) ?? '')));
    await page.keyboard.press('Enter');
    await expect(page.locator('[data-busy="no"]')).toBeVisible();
  }
  await expect(page.getByText(/\d+ of 12 within 1 mm of the middle of the line/)).toBeVisible();
  await expect(page.getByText('That is the mark.')).toBeVisible();
  expect(errors).toEqual([]);
});

test('a kept log is opened again and goes on', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  await page.getByLabel('Middle of the line, in mm').waitFor();
  await page.keyboard.press('Enter');
  await expect(page.getByText('1 of 6')).toBeVisible();
  const log = await keptLog(page, /^Keep a copy$/);
  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Open an alcove' })).toBeEnabled();
  await page.setInputFiles('input[type=file]', {
    name: 'mine.jsonl',
    mimeType: 'application/jsonl',
    buffer: Buffer.from(log.slice(0, -9)),
  });
  await expect(page.getByText(/the log was cut off/i)).toBeVisible();
  await page.getByRole('link', { name: 'Offtrue' }).click();
  await page.setInputFiles('input[type=file]', {
    name: 'no.txt',
    mimeType: 'text/plain',
    buffer: Buffer.from('hello'),
  });
  await expect(page.getByRole('alert')).toContainText('That file cannot be opened');
});
