/**
 * After hand-in: a place is pointed at or said and the rule's reading there is told, an act is shown in the log, another
 * survey of the room is held beside it, how sure is shown against what came of it, and the print has all that was marked.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { nameOf } from '../../src/exchange/exercise-file.ts';
import { writeLog } from '../../src/exchange/log-file.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { wouldHaveRead } from '../../src/marking/would-read.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const folder = mkdtempSync(join(tmpdir(), 'offtrue-handed-in-'));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A scripted survey that says how sure it is of two sizes, and its log. */
function surveyed(learner: string, seed = 31): { survey: Survey; path: string } {
  const opened = openCode(writeCode({ family: 'alcove', structure: 'closing', severity: 'old', kit: 'site', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  const done = findLearner(learner)!.survey(beginSurvey(openWorld(opened.value)));
  const before = done.entries
    .filter((e) => e.act.act !== 'propose' && e.act.act !== 'hand-in')
    .reduce((now, e) => fold(now, e.act, e.outcome), beginSurvey(done.world));
  const sure = { 'carcass-width': 'sure', 'frame-width': 'guess' } as const;
  const survey = perform(perform(before, { ...done.proposal!, sure }).survey, { act: 'hand-in' }).survey;
  const path = join(folder, `${learner}-${seed}-${Math.random()}.log`);
  writeFileSync(path, writeLog({ exercise: nameOf(opened.value), learner: '' }, survey.entries));
  return { survey, path };
}

async function open(page: Page, path: string): Promise<void> {
  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Open an alcove' })).toBeEnabled();
  await page.setInputFiles('input[type=file]', path);
  await page.locator('.digest').waitFor();
}

test('a place that is said, and one that is pointed at, tell what the rule would have read', async ({ page }) => {
  const { survey, path } = surveyed('front-only');
  await open(page, path);
  const form = page.getByRole('group', { name: 'What you would have read here' });
  await form.getByRole('combobox').selectOption({ label: 'right wall' });
  await form.getByLabel('in from the face line').fill('300');
  await form.getByLabel('up', { exact: true }).fill('1500');
  const would = wouldHaveRead(survey, { side: 'right', u: 300, v: 1500 });
  if (!would.ok) throw new Error(would.says);
  await expect(page.getByText(would.says)).toBeVisible();
  const figure = page.getByRole('region', { name: 'Uncovered' }).locator('.figure svg');
  await figure.scrollIntoViewIfNeeded();
  const box = (await figure.boundingBox())!;
  // From the middle out to the right wall: the nearest place of a curve is taken.
  for (let x = box.width / 2; x < box.width - 10; x += 6) await page.mouse.move(box.x + x, box.y + box.height / 3);
  const u = Number(await form.getByLabel('in from the face line').inputValue());
  const v = Number(await form.getByLabel('up', { exact: true }).inputValue());
  expect(v).not.toBe(1500);
  await expect(form.getByRole('combobox')).toHaveValue('right');
  await expect(page.getByText(/^From S the rule would have shown/)).toBeVisible();
  expect(u).toBeGreaterThanOrEqual(0);
});

test('an act that shows a finding is shown in the log', async ({ page }) => {
  const { path } = surveyed('front-only');
  await open(page, path);
  const link = page
    .getByRole('region', { name: 'Findings' })
    .getByRole('button', { name: /show act/ })
    .first();
  const n = Number((await link.textContent())!.replace(/\D+/g, ''));
  await link.click();
  const item = page
    .getByRole('region', { name: 'The log, act by act' })
    .getByRole('listitem')
    .nth(n - 1);
  await expect(item).toBeFocused();
  await expect(item).toContainText(/^\s*\d+\s+(book|read)/);
});

test('another survey of the room is held beside it, one of another room is refused', async ({ page }) => {
  const [one, other, elsewhere] = [surveyed('averages'), surveyed('careful'), surveyed('careful', 32)];
  await open(page, one.path);
  const region = page.getByRole('region', { name: 'Two in one room' });
  await region.locator('input[type=file]').setInputFiles(elsewhere.path);
  await expect(region.getByRole('alert')).toContainText('another room');
  await region.locator('input[type=file]').setInputFiles(other.path);
  await expect(region.getByRole('heading', { name: 'Where each was read' })).toBeVisible();
  await expect(region.getByRole('row', { name: /^Readings/ })).toBeVisible();
  await expect(region.getByRole('alert')).toBeHidden();
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([]);
});

test('how sure is shown, and adds up over the attempts that are kept here', async ({ page }) => {
  await open(page, surveyed('averages').path);
  await open(page, surveyed('careful').path);
  const region = page.getByRole('region', { name: 'How sure you were' });
  await expect(region.getByRole('row', { name: /^Carcass width sure/ })).toBeVisible();
  await region.getByRole('button', { name: 'Over all attempts on this device' }).click();
  await expect(region.getByRole('heading', { name: 'Over 2 attempts on this device' })).toBeVisible();
  await expect(region.getByText(/^Sure: \d of 2 came within 2 mm/)).toBeVisible();
});

test('the print tells each heading’s evidence with its acts, and no button', async ({ page }) => {
  await open(page, surveyed('front-only').path);
  await page.emulateMedia({ media: 'print' });
  const score = page.getByRole('region', { name: 'Score' });
  await expect(score.getByText(/^Carcass width, coverage and method: .+, acts \d+/)).toBeVisible();
  await expect(page.getByRole('button').first()).toBeHidden();
  await expect(page.getByText('For the tutor')).toBeVisible();
});
