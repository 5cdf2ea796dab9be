/**
 * A size by draws beside first order: alike where one place counts on each side, apart where several nearly count.
 *
 * @source the least of n normal numbers lies low by 0.56419 deviations for n = 2, 0.84628 for 3, 1.48501 for 9 (order
 *   statistics, Harter 1961, as collected in the project's published checks, part 2.7)
 */
import { describe, expect, it } from 'vitest';
import { presets } from '../../src/exercise/kit.ts';
import { firstOrder } from '../../src/survey/budget.ts';
import { drawnSize, sizeBudget, tellsMore } from '../../src/survey/drawn-size.ts';
import { uReading } from '../../src/survey/uncertainty.ts';
import { drawnWords } from '../../src/survey/uncertainty-words.ts';
import type { WorkedSize } from '../../src/survey/working-out.ts';
import { workOutSize } from '../../src/survey/working-out.ts';
import { acted, standing, surveyIn } from '../helpers/surveying.ts';

const book = (surface: 'left' | 'right', valueMm: number, yMm: number, zMm: number) => ({
  act: 'book' as const,
  what: 'offset' as const,
  valueMm,
  datum: 'S',
  place: { surface, yMm, zMm },
});

/** The right wall's places lie further in and higher: what turns and leans then does not cancel. */
const right = (surface: string, at: number, more: number) => (surface === 'right' ? at + more : at);

/** A width of n places a side, all alike but for a step on all but the first. */
function worked(n: number, stepMm: number, levelled = false) {
  let survey = acted(surveyIn(), ...standing);
  for (const surface of ['left', 'right'] as const)
    for (let i = 0; i < n; i++)
      survey = acted(
        survey,
        book(surface, 480 + (i === 0 ? 0 : stepMm), right(surface, 100, 60), right(surface, 300, 700) + 150 * i),
      );
  const { brief } = survey.world.exercise;
  const own = levelled
    ? {
        ...presets[1]!.kit,
        level: {
          ...presets[1]!.kit.level,
          faults: 'within' as const,
          limitsMmPerM: { level: 0.3, plumb: 0.3, square: 0.3 },
        },
      }
    : { ...presets[1]!.kit };
  const world = { ...survey.world, exercise: { ...survey.world.exercise, kit: own } };
  return { from: { kit: own, brief }, size: workOutSize({ ...survey, world }, 'carcass-width') };
}

const shiftOf = (size: WorkedSize, drawn: { mean: number } | null) => (drawn?.mean ?? NaN) - (size.offsetsMm ?? NaN);

describe('a width by draws', () => {
  it('one place far ahead of the others: as first order has it, and nothing more is told', () => {
    const { from, size } = worked(5, 20);
    const drawn = drawnSize(from, size, 20_000);
    expect(size.offsetsMm).toBe(960);
    expect(Math.abs(shiftOf(size, drawn))).toBeLessThan((4 * size.uMm!) / Math.sqrt(20_000));
    expect(Math.abs(drawn!.u - size.uMm!)).toBeLessThan(0.03 * size.uMm!);
    expect(tellsMore(size, drawn!)).toBe(false);
    expect(drawnWords(from, size)).toBeNull();
  });

  it.each([
    [2, 0.56419],
    [3, 0.84628],
    [9, 1.48501],
  ])('%i places alike: low by %f deviations of the eye a side', (n, constant) => {
    const { from, size } = worked(n, 0);
    const drawn = drawnSize(from, size, 20_000);
    const slack = (4 * drawn!.u) / Math.sqrt(20_000);
    expect(Math.abs(shiftOf(size, drawn) + 2 * constant * uReading)).toBeLessThan(slack);
  });

  it('says so in words', () => {
    const { from, size } = worked(9, 0);
    expect(tellsMore(size, drawnSize(from, size)!)).toBe(true);
    expect(drawnWords(from, size)).toMatch(
      /^Read 1000 times over .* 0\.[4-7] too small on the whole: the smallest of many/,
    );
  });

  it('the budget, propagated, is the stated uncertainty: the level’s part too', () => {
    for (const levelled of [false, true]) {
      const { from, size } = worked(4, 20, levelled);
      expect(firstOrder(sizeBudget(from, size)!).u).toBeCloseTo(size.uMm!, 6);
    }
    expect(worked(4, 20, true).size.uMm).toBeGreaterThan(worked(4, 20).size.uMm!);
  });
});
