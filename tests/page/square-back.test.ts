/** Square back on the page: a step is done when its acts were, and its lines lie where they should, to their own width. */
import { describe, expect, it } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import type { Outline } from '../../src/exercise/outline.ts';
import { canSquareBack, faceMarksFor, squareBack } from '../../src/page/state/square-back.ts';
import { families, familyOf } from '../../src/recess/families/families.ts';
import type { Act } from '../../src/survey/act.ts';
import { learnerView } from '../../src/survey/learner-view.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { ExerciseWith } from '../helpers/rooms.ts';
import { acted, doneOf, surveyIn, surveyOf } from '../helpers/surveying.ts';

function told(survey: Survey) {
  const { done, now } = squareBack(learnerView(survey), survey.entries);
  const names = Object.entries(done).filter(([, is]) => is);
  return { done: names.map(([name]) => name), now };
}

/** Moves and turns the level in hand until its face line lies on what it is lined up with. */
function linedUp(survey: Survey, on: 'reference' | 'marks', level: { level?: 1 | 2 } = {}): Survey {
  let now = survey;
  for (let round = 0; round < 4; round++) {
    const seen = doneOf(now, { act: 'settle', ...level }).seen!.filter(
      (s) => s.datum.startsWith('F') && (on === 'marks') === 'mark' in s.at && Math.abs(s.offMm!) < 300,
    );
    const [a, b] = [seen[0]!.offMm!, seen[on === 'marks' ? 1 : seen.length - 1]!.offMm!];
    now = acted(
      now,
      { act: 'move', byXMm: 0, byYMm: -(a + b) / 2, ...level },
      { act: 'settle', ...level },
      { act: 'turn', byMmPerM: -(b - a), ...level },
    );
  }
  return now;
}

const marksOfF: Act[] = [400, 1700].flatMap((zMm) =>
  (['left', 'right'] as const).map((surface): Act => ({ act: 'mark', place: { surface, along: 'F', zMm } })),
);
const marksOfS: Act[] = [-60, -2400].map((yMm): Act => ({ act: 'mark', place: { surface: 'floor', along: 'S', yMm } }));
const begun = (having: ExerciseWith = {}) =>
  acted(
    surveyIn({ seed: 'square back' }, having),
    { act: 'stand', xMm: 0, yMm: -30, heightMm: 1100 },
    { act: 'settle' },
  );

describe('the places that are offered for the face line and the square', () => {
  const kinds = families.map((f) => f.name).filter((name) => name !== 'reveal');
  it.each(kinds)('can be marked in every kind of recess: %s', (family) => {
    for (const seed of [1, 2, 3, 4]) {
      const structure = familyOf(family).structures[seed % 4]!.name;
      const opened = openCode(writeCode({ family, severity: 'old', structure, kit: 'site', seed }));
      if (!opened.ok) throw new Error(opened.error.says);
      let survey = surveyOf(opened.value);
      const { brief, outline } = learnerView(survey);
      expect(canSquareBack({ outline })).toBe(true);
      const { walls, heightsMm, floorXMm } = faceMarksFor({ brief, outline });
      const heightMm = Math.min(1100, Math.round(outline.openingMm.height / 2));
      survey = acted(
        survey,
        { act: 'stand', xMm: 0, yMm: 0 - (brief.setBackMm ?? 0), heightMm },
        { act: 'settle' },
        ...heightsMm.flatMap((zMm) =>
          walls.map((surface): Act => ({ act: 'mark', place: { surface, along: 'F', zMm } })),
        ),
        ...floorXMm.map((xMm): Act => ({ act: 'mark', place: { surface: 'floor', along: 'F', xMm } })),
        ...marksOfS,
      );
      expect(told(survey).done).toEqual(expect.arrayContaining(['marks', 'out']));
    }
  });

  it('a window has no floor to throw the square on to', () => {
    expect(canSquareBack({ outline: { family: 'reveal' } as Outline })).toBe(false);
  });
});

it('goes through all six steps with one level, each done in its turn', () => {
  let survey = begun();
  expect(told(survey)).toEqual({ done: [], now: 'face' });
  survey = linedUp(survey, 'reference');
  expect(told(survey)).toEqual({ done: ['face'], now: 'marks' });
  survey = acted(survey, ...marksOfF.slice(0, 3));
  expect(told(survey).now).toBe('marks');
  survey = acted(survey, ...marksOfF.slice(3));
  expect(told(survey).now).toBe('out');
  survey = acted(survey, ...marksOfS);
  expect(told(survey).now).toBe('stand');
  survey = acted(survey, { act: 'stand', xMm: 0, yMm: -2400, heightMm: 1100, over: 6 }, { act: 'settle' });
  // As it is stood by hand it need not run through the near mark: it does when it was turned on to it.
  expect(told(survey).done).toContain('stand');
  survey = acted(survey, { act: 'aim', plane: 'S', at: { mark: 5 } });
  expect(told(survey)).toEqual({ done: ['face', 'marks', 'out', 'stand', 'cast'], now: 'close' });
  survey = acted(survey, { act: 'stand', xMm: 0, yMm: -30, heightMm: 1000 }, { act: 'settle' });
  expect(told(survey).now).toBe('close');
  expect(told(survey).done).not.toContain('close');
  survey = linedUp(survey, 'marks');
  expect(told(survey).done).toContain('close');
});

it('with two levels, looking through the first again closes', () => {
  let survey = linedUp(begun({ level: { faults: [{}, {}], count: 2 } }), 'reference', { level: 1 });
  survey = acted(
    survey,
    ...marksOfF,
    ...marksOfS,
    { act: 'stand', xMm: 0, yMm: -2400, heightMm: 1100, over: 6, level: 2 },
    { act: 'settle', level: 2 },
    { act: 'aim', plane: 'S', at: { mark: 5 }, level: 2 },
  );
  expect(told(survey).done).not.toContain('close');
  expect(told(acted(survey, { act: 'settle', level: 1 })).done).toContain('close');
  // A level that was knocked, or moved, does not.
  const moved = acted(survey, { act: 'move', byXMm: 0, byYMm: 6, level: 1 }, { act: 'settle', level: 1 });
  expect(told(moved).done).not.toContain('close');
});

it('marks close together throw nothing out', () => {
  const survey = acted(
    begun(),
    ...[-60, -200].map((yMm): Act => ({ act: 'mark', place: { surface: 'floor', along: 'S', yMm } })),
  );
  expect(told(survey).done).not.toContain('out');
});
