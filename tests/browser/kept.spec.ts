/**
 * Nothing acknowledged is lost: the tab is killed at random moments, and the survey goes on with all that was booked.
 */
import { expect, test } from '@playwright/test';

/** All fifty are done with OFFTRUE_KILLS=50; `npm test` does a few. */
const kills = Number(process.env['OFFTRUE_KILLS'] ?? 5);
const seed = Number(process.env['OFFTRUE_SEED'] ?? 11);

/** A small generator for the test's own choices. */
function choices(from: number): () => number {
  let state = from >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

test(`a tab killed at ${kills} random acts loses nothing that was acknowledged (seed ${seed})`, async ({ context }) => {
  test.setTimeout(60_000 + kills * 8_000);
  const next = choices(seed);
  for (let kill = 0; kill < kills; kill++) {
    const page = await context.newPage();
    await page.goto('./');
    await page.getByRole('button', { name: 'Open an alcove' }).click();
    const box = page.getByLabel('Middle of the line, in mm');
    const wanted = 1 + Math.floor(next() * 5);
    let acknowledged = 0;
    for (let i = 0; i < wanted; i++) {
      await box.waitFor();
      await page.keyboard.press('Enter');
      await expect(page.getByText(new RegExp(`^${i + 1} of `))).toBeVisible();
      acknowledged = i + 1;
    }
    // One more is under way when the tab dies, at any moment of it.
    await page.keyboard.press('Enter').catch(() => undefined);
    await page.waitForTimeout(next() * 30);
    const session = await context.newCDPSession(page);
    void session.send('Page.crash').catch(() => undefined);
    await page.waitForEvent('crash').catch(() => undefined);
    await page.close();
    const again = await context.newPage();
    await again.goto('./');
    await again.getByRole('button', { name: 'Go on where you stopped' }).click();
    const told = await again
      .getByText(/^\d+ of \d+$/)
      .first()
      .textContent();
    expect(Number(told?.split(' ')[0])).toBeGreaterThanOrEqual(acknowledged);
    await again.close();
  }
});

test('where the device refuses to keep anything, the page says so and the work goes on', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', {
      value: {
        open: () => {
          throw new DOMException('no', 'SecurityError');
        },
      },
    });
  });
  await page.goto('./');
  await expect(page.getByText('keep a copy as a file')).toBeVisible();
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  await page.getByLabel('Middle of the line, in mm').waitFor();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Not kept on this device: keep a copy')).toBeVisible();
  await expect(page.getByText(/^1 of /)).toBeVisible();
});
