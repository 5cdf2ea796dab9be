/**
 * A whole exercise in a real browser, three ways. The log that each leaves verifies and marks on the command line to the
 * same bytes as the page showed.
 */
import { expect, test } from '@playwright/test';
import { byKeys, byPointer, byTouch } from './hands.ts';
import { heldTo, inMm, offtrue, survey } from './job.ts';
import { watchErrors } from './page-hand.ts';

const code = offtrue('code', '--seed', '20261', '--structure', 'closing', '--kit', 'site').trim();

test('by pointer', async ({ page }) => {
  const errors = watchErrors(page);
  const read = await survey(page, byPointer(page), { code, ...inMm });
  expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
  await heldTo(page);
  expect(errors).toEqual([]);
});

test('by keys alone', async ({ page }) => {
  test.setTimeout(180_000);
  const errors = watchErrors(page);
  const read = await survey(page, byKeys(page), { code, ...inMm });
  expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
  await heldTo(page);
  expect(errors).toEqual([]);
});

test.describe('by touch at 390 x 844', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  test('a whole exercise', async ({ page }) => {
    const errors = watchErrors(page);
    const read = await survey(page, byTouch(page), { code, ...inMm });
    expect(Object.values(read).every((r) => r.length >= 4)).toBe(true);
    await heldTo(page);
    expect(errors).toEqual([]);
  });
});

test.describe('at 400 % zoom, through the twin', () => {
  test.use({ viewport: { width: 320, height: 640 } });
  test('a whole exercise by keys', async ({ page }) => {
    test.setTimeout(180_000);
    await survey(page, byKeys(page), { code, ...inMm });
    await heldTo(page);
  });
});
