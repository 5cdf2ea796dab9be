import { expect, test } from '@playwright/test';
import { watchErrors } from './page-hand.ts';

test('one press opens an alcove, the rule is held, and the first thing to do is to read it', async ({ page }) => {
  const errors = watchErrors(page);
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.goto('./');
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  const box = page.getByLabel('Middle of the line, in mm');
  await expect(box).toBeVisible();
  await expect(box).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('status', { name: 'Messages' })).toContainText('booked');
  expect(errors).toEqual([]);
  const own = new URL(page.url()).origin;
  expect(asked.filter((url) => new URL(url).origin !== own && !url.startsWith('blob:'))).toEqual([]);
});

test('the policy is strict and nothing inline runs', async ({ page }) => {
  await page.goto('./');
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  expect(policy).toContain("default-src 'none'");
  expect(policy).not.toContain('unsafe-inline');
  expect(policy).not.toContain('unsafe-eval');
  expect(await page.locator('script:not([src])').count()).toBe(0);
});

test('a code opens from the box and from a link; a wrong one is said in words', async ({ page }) => {
  await page.goto('./');
  await page.getByLabel('Open by code').fill('DW76-4MFY-6RWW');
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await expect(page.getByRole('alert')).toContainText('one is wrong or two are swapped');
  await page.getByLabel('Open by code').fill('dw76 4mfy 6rwy');
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await expect(page.getByText('DW76-4MFY-6RWY')).toBeVisible();
  await page.goto('./#/code/DW76-4MFY-6RWY');
  await expect(page.getByText('DW76-4MFY-6RWY')).toBeVisible();
});

test('a killed tab goes on at the last act', async ({ context }) => {
  const page = await context.newPage();
  await page.goto('./');
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  for (let i = 0; i < 3; i++) {
    await expect(page.getByLabel('Middle of the line, in mm')).toBeVisible();
    await page.keyboard.press('Enter');
    await expect(page.getByText(`${i + 1} of 6`)).toBeVisible();
  }
  await page.close();
  const again = await context.newPage();
  await again.goto('./');
  await again.getByRole('button', { name: 'Go on where you stopped' }).click();
  await expect(again.getByText('3 of 6')).toBeVisible();
});

test.describe('lessons', () => {
  for (const [i, title] of ['Reading the rule', 'Three heights and two depths', 'Box or frame'].entries()) {
    test(`lesson ${i + 1} opens and begins`, async ({ page }) => {
      const errors = watchErrors(page);
      await page.goto('./');
      await page.getByRole('link', { name: title }).click();
      await expect(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
      await page.getByRole('button', { name: 'Begin' }).click();
      await expect(page.getByLabel('Middle of the line, in mm')).toBeVisible();
      expect(errors).toEqual([]);
    });
  }

  test('lesson 4 opens and begins: nothing stands yet, and its first step says what to do', async ({ page }) => {
    const errors = watchErrors(page);
    await page.goto('./');
    await page.getByRole('link', { name: 'Square back' }).click();
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByRole('button', { name: 'Square back', exact: true }).click();
    await page.getByRole('button', { name: 'Stand it on the face line' }).click();
    await expect(page.getByRole('slider', { name: /^Slide/ })).toBeVisible();
    expect(errors).toEqual([]);
  });
});
