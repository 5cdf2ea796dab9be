/**
 * Pencil lines: a datum where the rule lies on them; marks with their own slips, lost with what comes off; marks at a
 * distance b apart and what they make of a reading d away.
 */
import { describe, expect, it } from 'vitest';
import type { Trim } from '../../src/recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { acted, doneOf, middleOf, outcomeOf, standing, surveyIn } from '../helpers/surveying.ts';

const floor = (xMm: number, yMm: number): SurfacePlace => ({ surface: 'floor', xMm, yMm });
const left = (yMm: number, zMm: number): SurfacePlace => ({ surface: 'left', yMm, zMm });
const mark = (place: SurfacePlace): Act => ({ act: 'mark', place });
const read = (datum: string, place: SurfacePlace): Act => ({ act: 'read', datum, place });

/** Makes a mark that the pencil slips off by so many millimetres along the surface's two axes. */
function slipped(survey: Survey, place: SurfacePlace, mm: readonly [number, number]): Survey {
  const act = mark(place);
  const { outcome } = perform(survey, act);
  if (!outcome.ok) throw new Error(outcome.error.code);
  return fold(survey, act, { ...outcome, handUm: [1000 * mm[0], 1000 * mm[1]] });
}

describe('a pencil line', () => {
  const thrown = acted(surveyIn(), ...standing);
  const lined = acted(
    thrown,
    mark({ surface: 'floor', along: 'S', yMm: 20 }),
    mark({ surface: 'floor', along: 'S', yMm: 400 }),
    mark({ surface: 'left', along: 'L', yMm: 30 }),
    mark({ surface: 'left', along: 'L', yMm: 400 }),
  );

  it('reads as the thrown line does, once the level is gone elsewhere', () => {
    const gone = acted(lined, { act: 'stand', xMm: 40, yMm: -900, heightMm: 700 });
    const pairs: readonly (readonly [string, string, SurfacePlace])[] = [
      ['S', 'S:1-2', left(200, 10)],
      ['L', 'L:3-4', { surface: 'floor', xMm: -490, yMm: 200 }],
    ];
    for (const [line, pencil, place] of pairs) {
      const straight = middleOf(doneOf(thrown, read(line, place)));
      expect(middleOf(doneOf(gone, read(pencil, place)))).toBeCloseTo(straight, 4);
    }
  });

  it('is there between its marks alone, and where the rule lies on its surface', () => {
    const code = (datum: string, place: SurfacePlace) => {
      const outcome = outcomeOf(lined, read(datum, place));
      return outcome.ok ? 'ok' : outcome.error.code;
    };
    expect(code('S:1-2', left(395, 10))).toBe('ok');
    expect(code('S:1-2', left(440, 10))).toBe('line/not-there');
    expect(code('S:1-2', left(200, 200))).toBe('line/not-there');
    expect(code('L:3-4', { surface: 'floor', xMm: 0, yMm: 200 })).toBe('line/not-there');
    expect(code('S:1-3', left(200, 10))).toBe('line/not-drawn');
    expect(code('F:1-2', left(200, 10))).toBe('line/not-drawn');
    expect(code('S:1-9', left(200, 10))).toBe('place/no-such-mark');
  });

  it('goes with a mark that is rubbed out, or lost with what comes off', () => {
    const skirting: Trim = {
      name: 'skirting left',
      kind: 'skirting',
      surface: 'left',
      uMm: [-296, 756],
      vMm: [-256, 145],
      profile: {
        along: 'v',
        mm: [
          [-256, 18],
          [145, 18],
        ],
      },
    };
    const room = surveyIn({ trims: [skirting] }, { brief: { fates: { 'skirting left': 'off' } } });
    const onSkirting = acted(room, { act: 'stand', xMm: 0, yMm: 0, heightMm: 100 }, { act: 'settle' });
    const marked = acted(
      onSkirting,
      mark({ surface: 'left', along: 'L', yMm: 30 }),
      mark({ surface: 'left', along: 'L', yMm: 400 }),
      mark({ surface: 'back', along: 'L', xMm: 0 }),
    );
    const off = doneOf(marked, { act: 'clear', trim: 'skirting left' });
    expect(off.marksLost).toEqual([1, 2]);
    const bare = acted(marked, { act: 'clear', trim: 'skirting left' });
    expect(outcomeOf(bare, read('L:1-2', floor(-490, 200)))).toMatchObject({ error: { code: 'place/no-such-mark' } });
    expect(bare.marks.map((m) => m.mark)).toEqual([3]);
  });

  it('has each mark’s own slip in it: 2 at one end is half of it in the middle', () => {
    let survey = slipped(thrown, { surface: 'floor', along: 'S', yMm: 0 }, [2, 0]);
    survey = slipped(survey, { surface: 'floor', along: 'S', yMm: 400 }, [0, 0]);
    const off = (yMm: number) =>
      middleOf(doneOf(survey, read('S:1-2', left(yMm, 10)))) - middleOf(doneOf(thrown, read('S', left(yMm, 10))));
    // The hidden turn of the hand's frame moves places along the line by a millimetre or two.
    for (const [yMm, mm] of [
      [0, 2],
      [200, 1],
      [400, 0],
    ] as const)
      expect(Math.abs(off(yMm) - mm)).toBeLessThan(0.03);
  });
});

describe('baseline geometry', () => {
  it.each([300, 600, 1200, 2000])(
    'marks %d apart, the farther 1 off: e d / b at a distance d beyond the nearer',
    (apart) => {
      // Marks on S out in the room; a second set-up stands over the farther, and is aimed through the nearer one.
      const out = acted(surveyIn(), ...standing);
      const [near, far] = [-100, -100 - apart];
      let survey = slipped(out, { surface: 'floor', along: 'S', yMm: far }, [1, 0]);
      survey = slipped(survey, { surface: 'floor', along: 'S', yMm: near }, [0, 0]);
      survey = acted(
        survey,
        { act: 'stand', xMm: 0, yMm: far, heightMm: 1100, over: 1 },
        { act: 'settle' },
        { act: 'aim', plane: 'S', at: { mark: 2 } },
      );
      for (const yMm of [0, 300, 480]) {
        const off =
          middleOf(doneOf(survey, read('S2', left(yMm, 1000)))) - middleOf(doneOf(out, read('S', left(yMm, 1000))));
        // 1 to the right at the farther mark is to the left beyond the nearer: the left wall comes nearer.
        const d = yMm - near;
        expect(Math.abs(off + d / apart)).toBeLessThan(0.008);
      }
    },
  );
});
