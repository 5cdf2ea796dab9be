/**
 * What the loupes show: the page reckons ahead what a slide and a turn will make of a line, and the survey does as told.
 *
 * Common practice, no source; a line turned by s moves s times its distance from the level, plain geometry.
 */
import { describe, expect, it } from 'vitest';
import { looksOf, reckonedOff, sayOff, slideWay, slideWords, widestPair } from '../../src/page/state/line-up.ts';
import type { Act } from '../../src/survey/act.ts';
import { learnerView } from '../../src/survey/learner-view.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { acted, surveyIn } from '../helpers/surveying.ts';

const stand: Act[] = [{ act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 }, { act: 'settle' }];
const marks: Act[] = [
  { act: 'mark', place: { surface: 'left', along: 'F', zMm: 700 } },
  { act: 'mark', place: { surface: 'right', along: 'F', zMm: 700 } },
  { act: 'mark', place: { surface: 'floor', along: 'S', yMm: -60 } },
  { act: 'mark', place: { surface: 'floor', along: 'S', yMm: -2000 } },
  { act: 'mark', place: { surface: 'back', along: 'L', xMm: 100 } },
];

function seenIn(survey: Survey) {
  const view = learnerView(survey);
  const level = view.levels.at(-1);
  if (!level) throw new Error('no level stands');
  return { view, level, looks: looksOf(view, level) };
}

/** Where the level stands off every line, told in mm so that it can be held to what was reckoned. */
const start = () => acted(surveyIn({ seed: 'line up' }), ...stand, ...marks);

describe('after a slide or a turn each line lies where it was reckoned to', () => {
  const facings = ['recess', 'room', 'left', 'right'] as const;
  it.each(facings)('facing %s', (facing) => {
    const before = acted(
      start(),
      { act: 'stand', xMm: 30, yMm: -40, heightMm: 1130, facing },
      { act: 'settle' },
      { act: 'turn', byMmPerM: 12 },
    );
    const { level, looks } = seenIn(before);
    expect(looks.length).toBeGreaterThan(facing === 'recess' || facing === 'room' ? 4 : 0);
    for (const kind of ['F', 'S', 'L'] as const) {
      const n = slideWay(level, kind);
      const slide: Act = kind === 'L' ? { act: 'raise', byMm: 7 } : { act: 'move', byXMm: 7 * n.x, byYMm: 7 * n.y };
      for (const [by, act] of [
        [{ slideMm: 7, turnMmPerM: 0 }, slide],
        [{ slideMm: 0, turnMmPerM: 9 }, { act: 'turn', byMmPerM: 9 } as Act],
      ] as const) {
        const after = seenIn(acted(before, act, { act: 'settle' })).looks;
        for (const look of looks.filter((l) => l.kind === kind)) {
          const now = after.find((l) => l.key === look.key && l.kind === kind);
          // What is seen is told to a tenth; a turn of 9 in a thousand is straight to some hundredths.
          if (now) expect(Math.abs(now.offMm - reckonedOff(look, by))).toBeLessThan(0.3);
        }
      }
    }
  });
});

it('a line moved in is told behind its mark, and moved right to the right of it, whichever way the level faces', () => {
  for (const facing of ['recess', 'room'] as const) {
    const moved = acted(start(), { act: 'stand', xMm: 20, yMm: 20, heightMm: 1100, facing }, { act: 'settle' });
    const { looks, level } = seenIn(moved);
    const told = (key: string, kind: string) => sayOff(looks.find((l) => l.key === key && l.kind === kind)!);
    expect(told('mark 1', 'F')).toMatch(/behind$/);
    expect(told('mark 4', 'S')).toMatch(/right$/);
    expect(slideWords(level, 'F')).toEqual(facing === 'recess' ? ['out', 'in'] : ['in', 'out']);
  }
});

it('takes the marks that lie furthest apart, and the reference where a line has no two', () => {
  const { looks } = seenIn(acted(start(), { act: 'settle' }));
  expect(widestPair(looks, 'F').map((l) => l.key)).toEqual(['mark 1', 'mark 2']);
  expect(
    widestPair(looks, 'S')
      .map((l) => l.key)
      .sort(),
  ).toEqual(['mark 3', 'mark 4']);
  const bare = seenIn(acted(surveyIn({ seed: 'line up' }), ...stand)).looks;
  const pair = widestPair(bare, 'F');
  expect(pair).toHaveLength(2);
  expect(pair.every((l) => 'referenceXMm' in l.at)).toBe(true);
});

it('leaves out what a line is not meant to run through', () => {
  const away = acted(start(), { act: 'stand', xMm: 0, yMm: -2000, heightMm: 1100 }, { act: 'settle' });
  const { looks } = seenIn(away);
  expect(looks.some((l) => l.kind === 'F')).toBe(false);
  expect(looks.some((l) => l.kind === 'S')).toBe(true);
});

it('the loupe on the right-hand wall shows in to the left, as one stands before it', () => {
  const { looks } = seenIn(acted(start(), { act: 'settle' }));
  const at = (key: string, kind: string) => looks.find((l) => l.key === key && l.kind === kind)?.shown;
  expect(at('mark 1', 'F')).toEqual({ across: true, sign: 1 });
  expect(at('mark 2', 'F')).toEqual({ across: true, sign: -1 });
  expect(at('mark 5', 'L')).toEqual({ across: false, sign: 1 });
  expect(at('mark 3', 'S')).toEqual({ across: true, sign: 1 });
});
