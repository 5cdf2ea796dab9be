/**
 * `npm run gallery`: pictures of every screen and state, at each size and theme, into test-results/gallery, to be opened
 * and looked at.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import { writeCode } from '../../src/exercise/exercise-code.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { browserSwitches, ensureBrowser } from './ensure-browser.ts';

const root = resolve(import.meta.dirname, '../..');
const out = join(root, 'test-results', 'gallery');
const port = Number(process.env['OFFTRUE_TEST_PORT'] ?? 4187);
const url = `http://127.0.0.1:${port}/`;

const sizes = [
  { name: '1280', width: 1280, height: 720, touch: false },
  { name: '1024', width: 1024, height: 600, touch: false },
  { name: '390', width: 390, height: 844, touch: true },
] as const;

interface State {
  readonly name: string;
  readonly whole?: boolean;
  go(page: Page): Promise<void>;
}

const opened = async (page: Page) => {
  await page.getByRole('button', { name: 'Open an alcove' }).click();
  await page.getByLabel('Middle of the line, in mm').waitFor();
};

const step = (name: RegExp) => async (page: Page) => {
  await opened(page);
  await page.getByRole('button', { name }).first().click();
};

const ended = (log: string) => async (page: Page) => {
  await page.setInputFiles('input[type=file]', log);
  await page.locator('.digest').waitFor();
};

const only = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'offtrue-gallery-'));
const states: State[] = [
  { name: 'start', go: async () => undefined },
  { name: 'lesson', go: async (page) => page.getByRole('link', { name: 'Three heights' }).click() },
  {
    name: 'own-room',
    whole: true,
    go: async (page) => {
      await page.getByRole('link', { name: 'Make a room of your own' }).click();
      await page.getByLabel('Top back, left').fill('9');
      await page.getByRole('button', { name: 'Add a belly or hump' }).click();
    },
  },
  { name: 'read', go: opened },
  {
    name: 'read-some',
    go: async (page) => {
      await opened(page);
      for (let i = 1; i <= 4; i++) {
        await page.keyboard.press('Enter');
        await page.getByText(`${i} of 6`).waitFor();
      }
    },
  },
  { name: 'set-up', go: step(/^Set up/) },
  { name: 'mark', go: step(/^Mark/) },
  { name: 'close', go: step(/^Close/) },
  { name: 'fit', go: step(/^Fit/) },
  {
    name: 'brief',
    go: async (page) => {
      await opened(page);
      await page.getByText('Brief', { exact: true }).first().click();
    },
  },
  { name: 'ended-good', whole: true, go: ended(surveyed('careful')) },
  { name: 'ended-scrap', whole: true, go: ended(surveyed('three-widths')) },
];

/** Kinds of recess beside the alcove: their codes by name. */
const kinds: Readonly<Record<string, { family: string; seed: number; up: number }>> = {
  run: { family: 'run', seed: 8, up: 1100 },
  'wide-run': { family: 'run', seed: 4, up: 1100 },
  shelves: { family: 'plain-wall', seed: 1, up: 1100 },
  'plain-wall': { family: 'plain-wall', seed: 3, up: 1100 },
  reveal: { family: 'reveal', seed: 4, up: 500 },
  doorway: { family: 'doorway', seed: 4, up: 950 },
  'under-stair': { family: 'under-stair', seed: 2, up: 700 },
  'roof-slope': { family: 'roof-slope', seed: 4, up: 700 },
  pair: { family: 'alcove-pair', seed: 6, up: 1100 },
};

function codeOfKind(name: string): string {
  const kind = kinds[name];
  const structure = familyOf(kind?.family ?? '').structures[0]?.name ?? '';
  return writeCode({ family: kind?.family ?? '', severity: 'settled', structure, kit: 'site', seed: kind?.seed ?? 0 });
}

/** Opens a kind, stands the level and takes some readings of a run. */
const inKind = (name: string, then: (page: Page) => Promise<void>) => async (page: Page) => {
  await page.goto(`${url}#/code/${codeOfKind(name)}`);
  await page.getByRole('button', { name: 'Stand', exact: true }).waitFor();
  await page.getByRole('spinbutton', { name: /^up/ }).fill(String(kinds[name]?.up));
  await page.getByRole('button', { name: 'Stand', exact: true }).click();
  await page.getByRole('button', { name: 'Settle', exact: true }).click();
  await then(page);
};

/** Holds the rule at the first place of a run, some way down the choices. */
const reading = (choice: number) => async (page: Page) => {
  await page.getByRole('button', { name: /^Read/ }).first().click();
  const options = await page.locator('#what-to-read option').count();
  await page.locator('#what-to-read').selectOption({ index: Math.min(choice, options - 1) });
  await page.getByRole('button', { name: 'Hold the rule', exact: true }).click();
  for (let i = 0; i < 3; i++) {
    const box = page.getByLabel('Middle of the line, in mm');
    // Where the rule does not reach, nothing is held: that is a picture too.
    if (
      !(await box.waitFor({ timeout: 2000 }).then(
        () => true,
        () => false,
      ))
    )
      return;
    const told = await page.locator('[data-acts]').getAttribute('data-acts');
    await box.fill(String(400 + 37 * i));
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (before) => document.querySelector('[data-acts]')?.getAttribute('data-acts') !== before,
      told,
    );
    await page.locator('[data-busy="no"]').waitFor();
  }
};

for (const name of Object.keys(kinds)) {
  const press = (step: RegExp) => (page: Page) => page.getByRole('button', { name: step }).first().click();
  states.push(
    { name: `${name}-read`, go: inKind(name, reading(0)) },
    { name: `${name}-depth`, go: inKind(name, reading(2)) },
    { name: `${name}-last`, go: inKind(name, reading(9)) },
    { name: `${name}-set-up`, go: inKind(name, press(/^Set up/)) },
    { name: `${name}-fit`, go: inKind(name, press(/^Fit/)) },
    { name: `${name}-brief`, go: inKind(name, (page) => page.getByText('Brief', { exact: true }).first().click()) },
    { name: `${name}-ended`, whole: true, go: ended(surveyedIn(codeOfKind(name), name)) },
  );
}

/** Opens an alcove with two levels, and goes so far in squaring back. */
const squareBack = (until: number) => async (page: Page) => {
  const press = async (name: RegExp) => {
    await page.getByRole('button', { name }).first().click();
    await page.waitForTimeout(120);
  };
  const stages: (() => Promise<void>)[] = [
    () => press(/^Stand it on the face line/),
    async () => {
      await press(/Mark it, high and low/);
      await press(/^Mark F on/);
    },
    async () => {
      await press(/Throw the square out/);
      await press(/^Mark S on the floor/);
    },
    async () => {
      await press(/Stand on the far mark/);
      await press(/^Stand level 2 over/);
    },
    async () => {
      await press(/Cast it back/);
      await press(/^Turn S on/);
    },
    async () => {
      await press(/Close on the first marks/);
      await press(/^Look through level 1/);
    },
  ];
  await press(/^Square back/);
  for (const stage of stages.slice(0, until)) await stage();
};

/** Opens an alcove whose level is to be checked first, and goes so far in a check. */
const checking = (choice: number, steps: number) => async (page: Page) => {
  await page.getByLabel('Which check').selectOption({ index: choice });
  for (let i = 0; i < steps; i++) {
    await page.getByRole('button', { name: i === 0 ? 'Begin this check' : 'Next', exact: true }).click();
    await page.waitForTimeout(100);
  }
};

const withKit = (kit: string, then: (page: Page) => Promise<void>) => async (page: Page) => {
  await page.goto(
    `${url}#/code/${writeCode({ family: 'alcove', severity: 'settled', structure: 'closing', kit, seed: 31 })}`,
  );
  await page.getByRole('navigation', { name: 'Steps' }).waitFor();
  await then(page);
};

states.push(
  { name: 'level-check', go: withKit('faulty', checking(0, 0)) },
  { name: 'level-check-step', go: withKit('faulty', checking(0, 2)) },
  { name: 'level-check-done', go: withKit('faulty', checking(0, 3)) },
  { name: 'level-plumb-done', go: withKit('faulty', checking(3, 3)) },
  { name: 'level-square-done', go: withKit('two-levels', checking(4, 3)) },
  {
    name: 'level-try',
    go: withKit('faulty', async (page) => {
      await page.getByRole('button', { name: /^Try/ }).click();
      await page.getByRole('button', { name: 'Hold it there' }).click();
    }),
  },
  ...[1, 2, 3, 4, 5, 6].map((until) => ({
    name: `level-square-back-${until}`,
    go: withKit('two-levels', squareBack(until)),
  })),
  {
    name: 'level-set-up',
    go: withKit('two-levels', async (page) => {
      await squareBack(5)(page);
      await page.getByRole('button', { name: /^Set up/ }).click();
    }),
  },
  {
    name: 'level-mark',
    go: withKit('two-levels', async (page) => {
      await squareBack(4)(page);
      await page.getByRole('button', { name: /^Mark/ }).first().click();
    }),
  },
);

/** In an alcove with a rule in inches: the level stood and settled, then some way on. */
const inInches = (then: (page: Page) => Promise<void>) =>
  withKit('inches', async (page) => {
    await page.getByRole('button', { name: 'Stand', exact: true }).click();
    await page.getByRole('button', { name: 'Settle', exact: true }).click();
    await then(page);
  });
const readInches = async (page: Page) => {
  await page.getByRole('button', { name: /^Read/ }).first().click();
  await page.getByRole('button', { name: 'Hold the rule', exact: true }).click();
  for (const figure of ['18-15/16', '18-29/32', '19']) {
    const told = await page.locator('[data-acts]').getAttribute('data-acts');
    await page.getByLabel('Middle of the line, in inches').fill(figure);
    await page.keyboard.press('Enter');
    // A figure far from the loupe is asked about.
    if (await page.getByText('press again').isVisible()) await page.keyboard.press('Enter');
    await page.waitForFunction(
      (before) => document.querySelector('[data-acts]')?.getAttribute('data-acts') !== before,
      told,
    );
    await page.locator('[data-busy="no"]').waitFor();
  }
};
const inchStep = (name: RegExp) => (page: Page) => page.getByRole('button', { name }).first().click();
states.push(
  { name: 'inches-set-up', go: inInches(async () => undefined) },
  { name: 'inches-mark', go: inInches(inchStep(/^Mark/)) },
  { name: 'inches-read', go: inInches(readInches) },
  {
    name: 'inches-heights',
    go: inInches(async (page) => {
      await inchStep(/^Read/)(page);
      await page.locator('#what-to-read').selectOption({ label: 'L down to the floor' });
      await page.getByRole('button', { name: 'Hold the rule', exact: true }).click();
    }),
  },
  {
    name: 'inches-stops',
    go: inInches(async (page) => {
      await inchStep(/^Read/)(page);
      await page.getByRole('button', { name: 'Other heights and depths' }).click();
    }),
  },
  {
    name: 'inches-close',
    go: inInches(async (page) => {
      await readInches(page);
      await inchStep(/^Close/)(page);
      await inchStep(/^Tape$/)(page);
    }),
  },
  {
    name: 'inches-fit',
    go: inInches(async (page) => {
      await readInches(page);
      await inchStep(/^Fit/)(page);
    }),
  },
  { name: 'inches-brief', go: inInches((page) => page.getByText('Brief', { exact: true }).first().click()) },
  {
    name: 'inches-ended',
    whole: true,
    go: ended(
      surveyedIn(
        writeCode({ family: 'alcove', severity: 'settled', structure: 'same-lean', kit: 'inches', seed: 31 }),
        'inches-ended',
        'three-widths',
      ),
    ),
  },
);

const server = spawn(process.execPath, [join(root, 'src/cli/serve.mjs'), '--port', String(port)], { stdio: 'ignore' });
const browser = await chromium.launch({ executablePath: ensureBrowser(), args: [...browserSwitches] });
try {
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  for (const size of sizes) for (const theme of ['light', 'dark'] as const) await pictures(browser, size, theme);
} finally {
  await browser.close();
  server.kill();
  rmSync(folder, { recursive: true, force: true });
}

async function pictures(on: Browser, size: (typeof sizes)[number], theme: 'light' | 'dark'): Promise<void> {
  for (const state of states) {
    if (only.length > 0 && !only.some((o) => `${state.name}-${size.name}-${theme}`.includes(o))) continue;
    const context = await on.newContext({
      viewport: { width: size.width, height: size.height },
      hasTouch: size.touch,
      isMobile: size.touch,
      colorScheme: theme,
    });
    const page = await context.newPage();
    await page.goto(url);
    await page.getByRole('button', { name: 'Open an alcove', disabled: false }).waitFor();
    await state.go(page);
    await page.waitForTimeout(900);
    const fullPage = (state.whole ?? false) || size.touch;
    await page.screenshot({ path: join(out, `${state.name}-${size.name}-${theme}.png`), fullPage });
    await context.close();
    console.log(`${state.name} ${size.name} ${theme}`);
  }
}

/** A scripted survey's log, handed in. */
function surveyed(learner: string): string {
  const command = join(root, 'src/cli/offtrue.mjs');
  const code = spawnSync(
    process.execPath,
    [command, 'code', '--seed', '31', '--structure', 'same-lean', '--kit', 'site'],
    {
      encoding: 'utf8',
    },
  ).stdout.trim();
  return surveyedIn(code, learner, learner);
}

function surveyedIn(code: string, name: string, learner = 'careful'): string {
  const path = join(folder, `${name}.log`);
  if (only.length > 0 && !only.some((o) => o.includes('ended') || name.includes(o))) return path;
  spawnSync(process.execPath, [join(root, 'src/cli/offtrue.mjs'), 'learner', learner, code, '--log', path], {
    stdio: 'ignore',
  });
  return path;
}
