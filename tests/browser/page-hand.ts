/**
 * A scripted person at the page: what is pressed, typed and read in a whole exercise, by keys alone or by pointer.
 */
import { readFileSync } from 'node:fs';
import { expect, type Page } from '@playwright/test';

/** Errors and warnings of a page; the graphics driver's own note about read-back aside. */
export function watchErrors(page: Page): string[] {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (m) => {
    if (['error', 'warning'].includes(m.type()) && !m.text().includes('GPU stall due to ReadPixels'))
      errors.push(m.text());
  });
  return errors;
}

/** Presses Tab until what has focus is called as told; fails when the whole page was gone through. */
export async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 250; i++) {
    const called = await page.evaluate(() => {
      const el = document.activeElement;
      if (!(el instanceof HTMLElement) || el === document.body) return '';
      const label =
        'labels' in el ? [...((el as HTMLInputElement).labels ?? [])].map((l) => l.textContent).join(' ') : '';
      return (el.getAttribute('aria-label') ?? `${label} ${el.textContent}`).replace(/\s+/g, ' ').trim();
    });
    if (name.test(called)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`nothing that can be focused is called ${name}`);
}

/** Goes to something by keys and presses it. */
export async function pressOn(page: Page, name: RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

/** The middle of the line as it is said in words that leave the judgement: past 596 and about half-way to 597. */
export function judgedFromWords(words: string): number {
  const below = Number(/past (\d+)/.exec(words)?.[1]);
  const share = /half-way/.test(words) ? 0.5 : /nearly all/.test(words) ? 1 : /three quarters/.test(words) ? 0.5 : 0;
  const quarter = /quarter of the way/.test(words) && !/three/.test(words) ? 0.5 : 0;
  return below + (share || quarter);
}

/** The digest that the page shows after hand-in. */
export async function shownDigest(page: Page): Promise<string> {
  const text = (await page.locator('.digest').textContent()) ?? '';
  return text.replace(/^Report /, '').trim();
}

/** The log that the page hands out as a file. */
export async function keptLog(page: Page, button: RegExp): Promise<string> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).click();
  const download = await waiting;
  return readFileSync(await download.path(), 'utf8');
}

/** Waits until the page says that what was done is on the device. */
export async function waitKept(page: Page): Promise<void> {
  await expect(page.getByText('Kept on this device')).toBeVisible();
}
