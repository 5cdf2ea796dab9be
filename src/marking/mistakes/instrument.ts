/**
 * M11 and M12: a level that was out of true and not checked, and one that was knocked and read on from. What each cost is
 * its own part of the set-up line: what the line loses when that cause alone is taken away.
 */
import { checkWays, errorShown } from '../../survey/instrument-check.ts';
import { type CheckName, checkNames, outOfTrue } from '../../survey/level-body.ts';
import { bodyInUse } from '../../survey/set-up-acts.ts';
import type { SizeName } from '../../survey/size.ts';
import type { SetUpCause } from '../stood.ts';
import { wouldSee } from '../without-errors.ts';
import { byReadingAgain } from './catching.ts';
import type { Evidence } from './evidence.ts';
import { type Caught, type Mistake, nothingMm } from './mistake.ts';

export const notChecked: Mistake = {
  id: 'M11',
  name: 'instrument not checked',
  find: (from) => {
    const { survey } = from;
    const level = survey.standing?.level ?? 1;
    const body = bodyInUse(survey, level);
    const out = checkNames.filter((check) => outOfTrue(body, survey.world.exercise.kit, check) > 0);
    const checked = (name: CheckName) =>
      survey.entries.some((e) => e.outcome.ok && e.act.act === 'check' && e.act.check === name);
    const [first] = out.filter((check) => !checked(check));
    const cost = first && costOf(from, ['faults', 'squareness']);
    if (!first || !cost) return null;
    return {
      ...cost,
      acts: survey.readings.slice(0, 1).map((r) => r.n),
      caught: byCheck(from, first, level),
      happened: [
        `The level is further out of ${checkWords[first]} than is stated of it, and every reading has that in it.`,
      ],
      did: ['You read from it without checking it first.'],
      next: [
        `Check the level before you trust it: for ${checkWords[first]}, turn it round and see what changes. Half of that is its error.`,
      ],
    };
  },
};

export const knocked: Mistake = {
  id: 'M12',
  name: 'knocked, and read on',
  find: (from) => {
    const { survey } = from;
    const { knock } = survey.world;
    if (!knock || survey.readings.length <= knock.afterReadings) return null;
    const cost = costOf(from, ['knock']);
    if (!cost) return null;
    const last = survey.readings[knock.afterReadings - 1]?.n ?? 0;
    const before = cost.sizes
      .flatMap((size) => from.figures(size))
      .filter((f) => f.reading !== null && f.reading.n <= last);
    return {
      ...cost,
      acts: [last],
      caught:
        before
          .map((f) =>
            'surface' in f.offset.said.place ? byReadingAgain(from, f.offset.datum, f.offset.said.place) : null,
          )
          .find((c) => c !== null) ?? null,
      happened: [
        `The level was knocked after reading ${knock.afterReadings}: what was read before and after does not go together.`,
      ],
      did: ['You read on, and did not look at the marks again.'],
      next: ['Look at your marks after every few readings, and read the first place again before you pack up.'],
    };
  },
};

const checkWords: Readonly<Record<CheckName, string>> = { level: 'level', plumb: 'plumb', square: 'square' };

/** What some causes of the set-up line cost, by the worst size; null where it is nothing. */
function costOf(from: Evidence, causes: readonly SetUpCause[]): { costMm: number; sizes: readonly SizeName[] } | null {
  const costs = from.sizes.map((size, i) => {
    const parts = from.ledger(size).lines.find((l) => l.name === 'set-up')?.parts ?? [];
    const mm = parts.reduce((sum, p) => (causes.some((c) => c === p.cause) ? sum + p.mm : sum), 0);
    return { size, i, mm: Math.abs(mm) };
  });
  const sorted = costs.filter((c) => c.mm > nothingMm).sort((a, b) => b.mm - a.mm || a.i - b.i);
  const [worst] = sorted;
  return worst ? { costMm: worst.mm, sizes: sorted.map((c) => c.size) } : null;
}

/** Catches by the routine, gone through that way in which it shows most. */
function byCheck(from: Evidence, check: CheckName, level: number): Caught | null {
  const ways = checkWays[check].length > 0 ? checkWays[check] : ([undefined] as const);
  const looks = ways.flatMap((of, i) => {
    const which = level === 2 ? { level: 2 as const } : {};
    const act = { act: 'check' as const, check, ...(of ? { of } : {}), ...which };
    const seen = wouldSee(from.whole, act)?.practiceMm;
    return seen ? [{ act, i, shown: errorShown(check, seen) }] : [];
  });
  const [worst] = [...looks].sort((a, b) => Math.abs(b.shown) - Math.abs(a.shown) || a.i - b.i);
  if (!worst) return null;
  const shown = Math.round(Math.abs(worst.shown) * 100) / 100;
  return {
    act: worst.act,
    where: 'the practice wall',
    seenMm: worst.shown,
    says: `The check for ${checkWords[check]} would have shown ${shown} mm in a metre.`,
  };
}
