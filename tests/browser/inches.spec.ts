/**
 * A whole job with a rule in inches: every length is said and written in inches, none in mm, and the log holds on the command
 * line.
 */
import { expect, type Page, test } from '@playwright/test';
import { sayLength, typedLength } from '../../src/recess/lengths.ts';
import { byPointer, byTouch } from './hands.ts';
import { heldTo, type Job, offtrue, survey } from './job.ts';
import { watchErrors } from './page-hand.ts';

const code = offtrue('code', '--seed', '20262', '--structure', 'closing', '--kit', 'inches').trim();

const graduationMm = 25.4 / 16;
const inInches: Job = {
  code,
  unit: 'inches',
  judged: (words) => {
    const below = typedLength(/past (\S+)/.exec(words)?.[1], 'in-16');
    if (below === null) throw new Error(`no length is told: ${words}`);
    return below + (/half-way|quarter/.test(words) ? 0.5 : /nearly all/.test(words) ? 1 : 0) * graduationMm;
  },
  written: (mm) => sayLength(mm, 'in-16'),
};

/** Whatever is told of lengths in mm: a figure with its unit, or one so large that nothing else can be meant. */
async function metricWords(page: Page): Promise<string[]> {
  const text = await page.evaluate(() => {
    const labels = [...document.querySelectorAll('[aria-label]')].map((el) => el.getAttribute('aria-label') ?? '');
    const boxes = [...document.querySelectorAll('input')].map((el) => `${el.value} ${el.placeholder}`);
    const drawn = [...document.querySelectorAll('svg text')].map((el) => el.textContent ?? '');
    // biome-ignore lint/performance/useDomNodeTextContent: what is not shown is not told.
    return [document.body.innerText, ...labels, ...boxes, ...drawn].join('\n');
  });
  const lines = text.split('\n').filter((line) => !line.includes(code) && !/^Report |of 100\b/.test(line));
  return lines.filter(
    (line) =>
      /\bmm\b(?! a metre)|millimetre/.test(line) || /(^|[\s(])[−-]?\d{3,}(\.\d+)?($|[\s,.:;)](?!\d))/.test(line),
  );
}

test('by pointer, and nothing is told in mm', async ({ page }) => {
  test.setTimeout(120_000);
  const errors = watchErrors(page);
  const metric: Record<string, string[]> = {};
  const read = await survey(page, byPointer(page), inInches, async (part) => {
    const found = await metricWords(page);
    if (found.length > 0) metric[part] = found;
  });
  expect(metric).toEqual({});
  expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
  await heldTo(page);
  expect(errors).toEqual([]);
});

/** Writes where the level is to stand, as a hand does: what is written stays, and it stands there. */
test('the boxes of the form take inches', async ({ page }) => {
  await page.goto(`./#/code/${code}`);
  const up = page.getByRole('textbox', { name: /^up/ });
  await up.fill('');
  await up.pressSequentially('40 1/2');
  await expect(up).toHaveValue('40 1/2');
  await page.getByRole('button', { name: 'Stand', exact: true }).click();
  await page.getByRole('button', { name: 'Settle', exact: true }).click();
  await expect(page.getByText(/40.1\/2" up, settled/)).toBeVisible();
  await page.getByLabel('Slide, inches').pressSequentially('1/4');
  await page.getByRole('button', { name: 'Slide', exact: true }).click();
  await expect(page.getByText(/set-up 1: 0" along, 1.4" in,/)).toBeVisible();
});

/** Types a figure on the pad, a fraction's foot by one key, and takes it away again. */
async function byPad(page: Page): Promise<void> {
  const box = page.getByLabel('Middle of the line, in inches');
  const keys = page.locator('.pad button');
  for (const key of ['1', '8', '-', '1', '5', '/16']) await keys.filter({ hasText: new RegExp(`^${key}$`) }).tap();
  await expect(box).toHaveValue('18-15/16');
  for (let i = 0; i < 8; i++) await keys.filter({ hasText: 'Delete' }).tap();
  await expect(box).toHaveValue('');
}

test.describe('by touch at 390 x 844', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  test('a figure by the pad, then a whole job', async ({ page }) => {
    test.setTimeout(120_000);
    const errors = watchErrors(page);
    const hands = byTouch(page);
    await survey(page, hands, inInches, async (part) => {
      if (part === 'S to the left wall') await byPad(page);
    });
    await heldTo(page);
    expect(errors).toEqual([]);
  });
});
