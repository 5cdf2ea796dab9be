/**
 * A room of one's own: made on the page, hidden, handed out, opened by its link or file, surveyed.
 */
import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { pressOn, tabTo, watchErrors } from './page-hand.ts';

async function begin(page: Page): Promise<void> {
  await page.goto('./');
  await page.getByRole('link', { name: 'Make a room of your own' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'A room of your own' })).toBeVisible();
}

async function makeBad(page: Page): Promise<void> {
  await page.getByLabel('Top front, left').fill('9.5');
  await page.getByLabel('Top back, left').fill('9.5');
  await page.getByRole('button', { name: 'Add a belly or hump' }).click();
  await page.getByLabel('Skirting', { exact: true }).check();
}

async function clean(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([]);
}

test('made, hidden, handed out by its link, opened elsewhere and read', async ({ page, browser, baseURL }) => {
  const errors = watchErrors(page);
  await begin(page);
  await makeBad(page);
  await expect(
    page.getByText('Left wall: leans 9.5 in 2400 into the recess, belly 5 at 1200 up, 200 in'),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Hide the room' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'The room is hidden' })).toBeVisible();
  await page.getByRole('button', { name: 'Copy its link' }).click();
  const link = await page.getByLabel('Its link').inputValue();
  expect(link).toContain(`${baseURL}#/own/`);
  expect(await page.locator('main').textContent()).not.toMatch(/9\.5|leans 9|belly 5/);
  await page.getByRole('button', { name: 'Make another room' }).click();
  await expect(page.getByLabel('Top front, left')).toHaveValue('0');

  const other = await (await browser.newContext()).newPage();
  const asked: string[] = [];
  other.on('request', (request) => asked.push(request.url()));
  await other.goto(link);
  const box = other.getByLabel('Middle of the line, in mm');
  await expect(box).toBeFocused();
  await expect(other.getByText('own exercise')).toBeVisible();
  expect(await other.locator('body').textContent()).not.toMatch(/leans 9|belly 5/);
  await other.keyboard.press('Enter');
  await expect(other.getByRole('status', { name: 'Messages' })).toContainText('booked');
  // What stands after # was sent nowhere.
  expect(asked.filter((url) => url.includes('/own/'))).toEqual([]);
  await other.reload();
  await expect(other.getByText('1 of 6')).toBeVisible();
  expect(errors).toEqual([]);
});

test('its file opens on the first screen, and so does a room written by hand', async ({ page }) => {
  await begin(page);
  await makeBad(page);
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Keep its file' }).click();
  const text = readFileSync(await (await waiting).path(), 'utf8');
  expect(JSON.parse(text)).toMatchObject({ format: 'offtrue-exercise', code: null });
  const room =
    '{"format":"offtrue-room","version":1,"family":"alcove","surfaces":{"left":{"bad":[{"is":"lean","mm":8}]}}}';
  for (const file of [text, room]) {
    await page.goto('./');
    await page.setInputFiles('input[type=file]', {
      name: 'own.json',
      mimeType: 'application/json',
      buffer: Buffer.from(file),
    });
    await expect(page.getByText('own exercise')).toBeVisible();
    await expect(page.getByLabel('Middle of the line, in mm')).toBeVisible();
  }
});

test('nonsense is refused with the reason, in the form and in a link', async ({ page }) => {
  await begin(page);
  await page.getByLabel('Width', { exact: true }).fill('1.2');
  await expect(page.getByRole('alert')).toContainText(
    'Width: expected millimetres (1.2 looks like metres: write 1200)',
  );
  await expect(page.getByRole('button', { name: 'Open it here' })).toBeDisabled();
  await page.getByLabel('Width', { exact: true }).fill('1200');
  await page.getByRole('button', { name: 'Add a belly or hump' }).click();
  await page.getByLabel('Size').fill('1300');
  await expect(page.getByRole('alert')).toContainText('larger than the room, which is 1200 wide');
  await page.goto('./#/own/AAAA');
  await expect(page.getByRole('alert')).toContainText('That link cannot be opened');
});

test('a table of offsets becomes a surface, and it is said how near it comes', async ({ page }) => {
  await begin(page);
  const csv = 'surface;along;up;in;offset\nback;-400;300;;2,5\nback;400;300;;0\nback;-400;2000;;6\nback;400;2000;;1\n';
  await page.setInputFiles('input[type=file]', { name: 't.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) });
  await expect(page.getByText(/Back: 4 places, the surface comes within 0\.0\d of each/)).toBeVisible();
  await expect(page.getByText(/Back wall: as measured, 6 into the recess at 2000 up/)).toBeVisible();
});

test('by keys alone', async ({ page }) => {
  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Open an alcove' })).toBeEnabled();
  await pressOn(page, /^Make a room of your own/);
  await expect(page.getByRole('heading', { level: 1, name: 'A room of your own' })).toBeVisible();
  await tabTo(page, /^Top back, left/);
  await page.keyboard.press('Control+A');
  await page.keyboard.type('7');
  await pressOn(page, /^Add a belly or hump/);
  await expect(page.getByText(/Left wall: .*belly 5/)).toBeVisible();
  await pressOn(page, /^Open it here/);
  await expect(page.getByLabel('Middle of the line, in mm')).toBeFocused();
});

for (const scheme of ['light', 'dark'] as const)
  test(`axe finds nothing, and nothing is wider than the screen, ${scheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: scheme });
    for (const width of [1280, 390, 320]) {
      await page.setViewportSize({ width, height: 800 });
      await begin(page);
      await makeBad(page);
      await clean(page);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      await page.getByRole('button', { name: 'Hide the room' }).click();
      await clean(page);
    }
  });
