/**
 * Square back in a real browser: the face line, marks high and low on both sides, the square out into the room, the far
 * mark, the level stood there, cast back, lined up, closed on the first marks. By pointer and by touch things of the room
 * are pointed at and wheels are drawn; by keys all goes through the twin, with two levels that are checked first.
 *
 * The log that is left verifies on the command line.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { frameRoom } from '../../src/drawing/room-frame.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { outlineOf } from '../../src/exercise/outline.ts';
import { openWorld } from '../../src/survey/world.ts';
import { byKeys, byPointer, byTouch, type Hands } from './hands.ts';
import { keptLog, tabTo, waitKept, watchErrors } from './page-hand.ts';

const command = resolve(import.meta.dirname, '../../src/cli/offtrue.mjs');
const codeWith = (kit: string) =>
  writeCode({ family: 'alcove', severity: 'settled', structure: 'closing', kit, seed: 31 });

/** What a hand does at the wheels and in the room, each in its own way. */
interface AtTheLevel {
  readonly hands: Hands;
  /** Every step is gone over by axe; else the first and the last. */
  readonly thorough: boolean;
  /** Moves a wheel: mm, or mm a metre. */
  move(wheel: 'Slide' | 'Dial', by: number): Promise<void>;
  markFace(page: Page): Promise<void>;
  markSquare(page: Page): Promise<void>;
  standOnFar(page: Page): Promise<void>;
}

async function opened(page: Page, hands: Hands, code: string): Promise<void> {
  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Open', exact: true })).toBeEnabled();
  await hands.write(/^Open by code/, code);
  await hands.press(/^Open$/);
  await page.getByRole('navigation', { name: 'Steps' }).waitFor();
}

const acts = (page: Page) => page.locator('[data-acts]').getAttribute('data-acts');

/** Does something and waits until it stands in the log. */
async function acting(page: Page, what: () => Promise<void>): Promise<void> {
  const before = await acts(page);
  await what();
  await expect.poll(() => acts(page)).not.toBe(before);
  await waitKept(page);
}

/** How far off the line lies in both loupes, in widths of it; + is behind and to the right. */
async function offs(page: Page): Promise<number[]> {
  const said = await page.locator('.line-up .off').allTextContents();
  expect(said).toHaveLength(2);
  return said.map((s) => {
    const size = Number(/^[\d.]+/.exec(s.trim())?.[0] ?? 0);
    return /front|left|below/.test(s) ? -size : size;
  });
}

/** Slides what is off alike and dials what differs, until the step is done. */
async function lineUp(page: Page, at: AtTheLevel, done: () => Promise<boolean>): Promise<void> {
  for (let round = 0; round < 6 && !(await done()); round++) {
    const [a, b] = (await offs(page)) as [number, number];
    const widthMm = 1.75;
    const slide = (-(a + b) / 2) * widthMm;
    if (Math.abs(slide) >= 0.1) await acting(page, () => at.move('Slide', slide));
    const [c, d] = (await offs(page)) as [number, number];
    // Over the opening's width of 1.2 m or so; behind at the right is dialled away to the right.
    const dial = ((d - c) * widthMm) / 1.2;
    if (Math.abs(dial) >= 0.1) await acting(page, () => at.move('Dial', dial));
  }
  expect(await done()).toBe(true);
}

async function clean(page: Page, where: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  expect(violations.map((v) => `${where}: ${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([]);
}

/** The whole routine; each step is told done by the page before the next is begun. */
async function squareBack(page: Page, at: AtTheLevel): Promise<void> {
  const { hands } = at;
  const doneNow = () => page.getByRole('button', { name: /^Go on:/ }).isVisible();
  const goOn = async (where: string) => {
    await expect(page.getByRole('button', { name: /^Go on:/ })).toBeVisible();
    if (at.thorough || where === 'face line') await clean(page, where);
    await hands.press(/^Go on:/);
  };
  await hands.press(/^Square back$/);
  await acting(page, () => hands.press(/^Stand it on the face line$/));
  await expect(page.locator('.line-up .off').first()).toBeVisible();
  await lineUp(page, at, doneNow);
  await goOn('face line');
  await at.markFace(page);
  await goOn('marks');
  await at.markSquare(page);
  await goOn('square out');
  await at.standOnFar(page);
  await goOn('far mark');
  await acting(page, () => hands.press(/^Turn S on to mark 5$/));
  await goOn('cast back');
  const closed = () => page.getByText('It closes').isVisible();
  await hands.press(/^(Look through level 1 again|Stand it on the face line)$/);
  await expect(page.locator('.line-up .off').first()).toBeVisible();
  await waitKept(page);
  await lineUp(page, at, closed);
  await clean(page, 'close');
}

/** The log holds the routine's acts, and verifies. */
async function held(page: Page, levels: 1 | 2): Promise<void> {
  const text = await keptLog(page, /^Keep a copy$/);
  const found = text
    .trimEnd()
    .split('\n')
    .slice(1)
    .map((line) => JSON.parse(line))
    .filter((e) => e.outcome?.ok ?? e.ok ?? true);
  const acted = found.map((e) => e.act as { act: string; over?: number; level?: number; place?: { along?: string } });
  const marks = acted.filter((a) => a.act === 'mark').map((a) => a.place?.along);
  expect(marks).toEqual(['F', 'F', 'F', 'F', 'S', 'S']);
  expect(acted.filter((a) => a.act === 'stand').map((a) => a.over ?? 0)).toEqual(levels === 1 ? [0, 6, 0] : [0, 6]);
  expect(acted.some((a) => a.act === 'aim')).toBe(true);
  const folder = mkdtempSync(join(tmpdir(), 'offtrue-square-'));
  try {
    const log = join(folder, 'page.jsonl');
    writeFileSync(log, text);
    const ran = spawnSync(process.execPath, [command, 'verify', log], { encoding: 'utf8' });
    expect(ran.stdout, ran.stderr).toContain('holds');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Where places of the room fall on the page, px. */
async function inRoom(
  page: Page,
): Promise<{ wall(side: -1 | 1, z: number): [number, number]; floor(y: number): [number, number] }> {
  const found = openCode(codeWith('site'));
  if (!found.ok) throw new Error(found.error.says);
  const outline = outlineOf(found.value);
  const views = page.locator('.views');
  await views.scrollIntoViewIfNeeded();
  const box = await views.boundingBox();
  if (!box) throw new Error('no room is drawn');
  const panel = { width: Math.floor(box.width), height: Math.floor(box.height), large: 'plan', outMm: 2800 } as const;
  const { plan, elevation } = frameRoom(outline, { x: 0, y: 0 }, panel).ports;
  const half = outline.openingMm.width / 2;
  return {
    wall: (side, z) => {
      const [x, y] = elevation.at(side * half, z);
      return [box.x + x + 3 * side, box.y + y];
    },
    floor: (yMm) => {
      const [x, y] = plan.at(0, yMm);
      return [box.x + x, box.y + y];
    },
  };
}

/** Points at things of the room, by mouse or by finger. */
function pointing(point: (page: Page, at: [number, number]) => Promise<void>) {
  return {
    markFace: async (page: Page) => {
      for (const z of [400, 1700])
        for (const side of [-1, 1] as const) {
          const { wall } = await inRoom(page);
          await acting(page, () => point(page, wall(side, z)));
        }
    },
    markSquare: async (page: Page) => {
      for (const y of [-1000, -2400]) {
        const { floor } = await inRoom(page);
        await acting(page, () => point(page, floor(y)));
      }
    },
    standOnFar: async (page: Page) => {
      const { floor } = await inRoom(page);
      await acting(page, () => point(page, floor(-2400)));
    },
  };
}

/** How far a wheel is drawn, px: three a notch, a notch as the page has it. */
const pxFor = (by: number, notch: number) => 3 * Math.round(by / notch);

/** A tenth is the notch that lines are laid by. */
async function fineNotch(page: Page): Promise<void> {
  await page.getByLabel('one notch is').selectOption('0.1');
}

test('by pointer', async ({ page }) => {
  test.setTimeout(120_000);
  const errors = watchErrors(page);
  const hands = byPointer(page);
  await opened(page, hands, codeWith('site'));
  await squareBack(page, {
    hands,
    thorough: true,
    move: async (wheel, by) => {
      await fineNotch(page);
      const slider = page.getByRole('slider', { name: new RegExp(`^${wheel}`) });
      await slider.scrollIntoViewIfNeeded();
      const box = await slider.boundingBox();
      if (!box) throw new Error('no wheel');
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + pxFor(by, 0.1) / 2, y);
      await page.mouse.move(x + pxFor(by, 0.1), y);
      await page.mouse.up();
    },
    ...pointing((on, [x, y]) => on.mouse.click(x, y)),
  });
  await held(page, 1);
  expect(errors).toEqual([]);
});

test('a wheel that is drawn and given up moves nothing, and shows meanwhile where the line would fall', async ({
  page,
}) => {
  const hands = byPointer(page);
  await opened(page, hands, codeWith('site'));
  await hands.press(/^Square back$/);
  await acting(page, () => hands.press(/^Stand it on the face line$/));
  const before = await offs(page);
  const told = await acts(page);
  await fineNotch(page);
  const box = await page.getByRole('slider', { name: /^Slide/ }).boundingBox();
  if (!box) throw new Error('no wheel');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 105, y);
  // 3.5 mm in: two widths further behind, in both loupes at the same time.
  const shown = await offs(page);
  for (const i of [0, 1]) expect((shown[i] ?? 0) - (before[i] ?? 0)).toBeCloseTo(2, 0);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  expect(await offs(page)).toEqual(before);
  expect(await acts(page)).toBe(told);
});

/** A seed whose level is out in one thing that the usual three checks show. */
function codeOfOneOut(): { code: string; check: 'level' | 'plumb' | 'square'; label: string } {
  const usual = {
    level: { fault: 'levelFore', label: 'Level: front to back' },
    plumb: { fault: 'plumbS', label: 'Plumb: S' },
    square: { fault: 'square', label: 'Square: F to S' },
  } as const;
  for (let seed = 1; seed < 400; seed++) {
    const code = writeCode({ family: 'alcove', severity: 'settled', structure: 'closing', kit: 'faulty', seed });
    const found = openCode(code);
    const body = found.ok ? openWorld(found.value).bodies[0] : undefined;
    for (const check of ['level', 'plumb', 'square'] as const)
      if (Math.abs(body?.faults?.[usual[check].fault] ?? 0) > 0.0012) return { code, check, label: usual[check].label };
  }
  throw new Error('no level is out');
}

test('a level that is out of true is found by its check, and swapped for the one in the van', async ({ page }) => {
  const { code, check, label } = codeOfOneOut();
  const hands = byPointer(page);
  await opened(page, hands, code);
  const goThrough = async () => {
    await acting(page, () => hands.press(/^(Begin this check|Go through it again)$/));
    await hands.press(/^Next$/);
    await hands.press(/^Next$/);
  };
  await hands.choose(/^Which check/, label);
  await goThrough();
  await expect(page.getByText('It is out of true by more than is stated.')).toBeVisible();
  await expect(page.getByText('Another level lies in the van: swap it.')).toBeVisible();
  await acting(page, () => hands.press(/^Swap it$/));
  await expect(page.getByText(/goes in the van/).first()).toBeVisible();
  // What was found was of the other: this one is checked anew, and passes.
  await expect(page.getByRole('button', { name: 'Begin this check' })).toBeVisible();
  await goThrough();
  await expect(page.getByText('It is within what is stated.')).toBeVisible();
  await acting(page, () => hands.press(/^Use it$/));
  const text = await keptLog(page, /^Keep a copy$/);
  const verdicts = text
    .split('\n')
    .filter((line) => line.includes('"verdict"'))
    .map((line) => JSON.parse(line).act);
  expect(verdicts.map((a) => [a.check, a.verdict])).toEqual([
    [check, 'do-not-use'],
    [check, 'use'],
  ]);
  expect(Math.abs(verdicts[0].errorMmPerM)).toBeGreaterThan(0.9);
});

test('by keys alone, through the twin, with two levels that are checked first', async ({ page }) => {
  test.setTimeout(240_000);
  const errors = watchErrors(page);
  const hands = byKeys(page);
  await opened(page, hands, codeWith('two-levels'));
  for (const routine of ['Level: front to back', 'Plumb: S', 'Square: F to S']) {
    await hands.choose(/^Which check/, routine);
    await acting(page, () => hands.press(/^Begin this check$/));
    await hands.press(/^Next$/);
    await hands.press(/^Next$/);
    await expect(page.getByText('It is within what is stated.')).toBeVisible();
    await clean(page, routine);
    await acting(page, () => hands.press(/^Use it$/));
  }
  await squareBack(page, {
    hands,
    thorough: false,
    move: async (wheel, by) => {
      const unit = wheel === 'Slide' ? 'Slide, mm' : 'Dial, mm a metre';
      await hands.write(new RegExp(`^${unit}`), String(Math.round(by * 10) / 10));
      await page.keyboard.press('Enter');
    },
    markFace: () => acting(page, () => hands.press(/^Mark F on both walls$/)),
    markSquare: () => acting(page, () => hands.press(/^Mark S on the floor$/)),
    standOnFar: () => acting(page, () => hands.press(/^Stand level 2 over mark 6$/)),
  });
  // A wheel takes arrows too, by its notch.
  await tabTo(page, /^Slide: arrows/);
  await acting(page, () => page.keyboard.press('ArrowRight'));
  await held(page, 2);
  expect(errors).toEqual([]);
});

test.describe('by touch at 390 x 844', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  test('the whole routine', async ({ page }) => {
    test.setTimeout(120_000);
    const errors = watchErrors(page);
    const hands = byTouch(page);
    const finger = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number, y: number) =>
      finger.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y }] });
    await opened(page, hands, codeWith('site'));
    await squareBack(page, {
      hands,
      thorough: false,
      move: async (wheel, by) => {
        await fineNotch(page);
        const slider = page.getByRole('slider', { name: new RegExp(`^${wheel}`) });
        await slider.scrollIntoViewIfNeeded();
        const box = await slider.boundingBox();
        if (!box) throw new Error('no wheel');
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
        await touch('touchStart', x, y);
        await touch('touchMove', x + pxFor(by, 0.1) / 2, y);
        await touch('touchMove', x + pxFor(by, 0.1), y);
        await touch('touchEnd', 0, 0);
      },
      ...pointing((on, [x, y]) => on.touchscreen.tap(x, y)),
    });
    await held(page, 1);
    expect(errors).toEqual([]);
  });
});
