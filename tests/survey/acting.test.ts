/**
 * The one door: replay equals acting, a forged outcome is refused, undo is a further act, and no outcome tells the truth.
 */

import { afterEach, describe, expect, it } from 'vitest';
import { unitsOf } from '../../src/exercise/kit.ts';
import { learners } from '../../src/learners/learner.ts';
import { readTo, speakIn } from '../../src/recess/lengths.ts';
import type { Act } from '../../src/survey/act.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { saySheet } from '../../src/survey/field-sheet-words.ts';
import type { Outcome } from '../../src/survey/outcome.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { workOutSize } from '../../src/survey/working-out.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { acted, outcomeOf, standing, surveyIn, surveyOf } from '../helpers/surveying.ts';

const left = { surface: 'left', yMm: 100, zMm: 900 } as const;
const right = { surface: 'right', yMm: 100, zMm: 900 } as const;
const book = (place: typeof left | typeof right, valueMm: number): Act => ({
  act: 'book',
  what: 'offset',
  valueMm,
  datum: 'S',
  place,
});

/** All that a survey holds but its world, which keeps bounds that it was asked for. */
const but = (survey: Survey) => ({ ...survey, world: null });

describe('folding a log', () => {
  const cases = learners.flatMap((l) =>
    drawnParts(`fold ${l.name}`, 4).map((parts) => ({ name: l.name, parts, learner: l })),
  );

  it.each(cases)(
    'of the $name learner in $parts.structure, $parts.severity, $parts.seed gives the survey that was acted',
    ({ parts, learner }) => {
      const done = learner.survey(surveyOf(exerciseOf(parts)));
      // As a file would keep it.
      const log = JSON.parse(JSON.stringify(done.entries)) as Survey['entries'];
      const again = log.reduce<Survey>((now, e) => fold(now, e.act, e.outcome), surveyOf(exerciseOf(parts)));
      expect(but(again)).toEqual(but(done));
    },
  );

  it('draws nothing: acting on after a fold is acting on after the acts', () => {
    const acts: Act[] = [...standing, { act: 'read', datum: 'S', place: left }];
    const performed = acted(surveyIn({ seed: 'on' }, { errors: true }), ...acts);
    const folded = performed.entries.reduce<Survey>(
      (now, e) => fold(now, e.act, e.outcome),
      surveyIn({ seed: 'on' }, { errors: true }),
    );
    const next: Act = { act: 'read', datum: 'S', place: left };
    expect(outcomeOf(folded, next)).toEqual(outcomeOf(performed, next));
  });

  it('takes nothing away from the survey that it is given', () => {
    const before = acted(surveyIn(), ...standing, book(left, 500));
    const copy = JSON.stringify(but(before));
    for (const act of [
      { act: 'strike', booking: 3 },
      { act: 'read', datum: 'S', place: left },
      { act: 'stand', xMm: 5, yMm: 0, heightMm: 900 },
    ] as Act[])
      perform(before, act);
    expect(JSON.stringify(but(before))).toBe(copy);
  });
});

describe('a forged outcome throws with the act’s number', () => {
  const fresh = surveyIn();
  const stood = acted(fresh, ...standing);
  const done: Outcome = { ok: true };
  const cases: readonly (readonly [string, Survey, Act, Outcome])[] = [
    ['a reading without edges', stood, { act: 'read', datum: 'S', place: left }, done],
    [
      'a reading from a line that was not thrown',
      stood,
      { act: 'read', datum: 'S2', place: left },
      { ok: true, edgesMm: [499, 501] },
    ],
    [
      'a reading beyond the recess',
      stood,
      { act: 'read', datum: 'S', place: { ...left, zMm: 2900 } },
      { ok: true, edgesMm: [499, 501] },
    ],
    ['a reading at no mark', stood, { act: 'read', datum: 'S', place: { mark: 3 } }, { ok: true, edgesMm: [499, 501] }],
    [
      'a reading before a level stands',
      fresh,
      { act: 'read', datum: 'S', place: left },
      { ok: true, edgesMm: [499, 501] },
    ],
    ['a turn before a level stands', fresh, { act: 'turn', byMmPerM: 3 }, done],
    ['a move before a level stands', fresh, { act: 'move', byXMm: 3, byYMm: 0 }, done],
    ['a raise before a level stands', fresh, { act: 'raise', byMm: 3 }, done],
    ['a settle before a level stands', fresh, { act: 'settle' }, done],
    ['an aim at no mark', stood, { act: 'aim', plane: 'F', at: { mark: 1 } }, { ok: true, handUm: [0] }],
    ['a mark without a number', stood, { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } }, done],
    [
      'a mark where its line does not cross',
      stood,
      { act: 'mark', place: { surface: 'floor', along: 'L', xMm: 0 } },
      { ok: true, mark: 1 },
    ],
    ['a mark on no line', stood, { act: 'mark', place: left }, { ok: true, mark: 1 }],
    ['a tape without a size', fresh, { act: 'span', place: left, to: 'right' }, done],
    [
      'a tape to a side that it does not come to',
      fresh,
      { act: 'span', place: left, to: 'floor' },
      { ok: true, tapeMm: 900 },
    ],
    [
      'a tape from beyond the recess',
      fresh,
      { act: 'span', place: { ...left, zMm: 2900 }, to: 'right' },
      { ok: true, tapeMm: 900 },
    ],
  ];

  it.each(cases)('%s', (_, survey, act, outcome) => {
    const n = survey.entries.length + 1;
    expect(() => fold(survey, act, outcome)).toThrow(
      new RangeError(`log: act ${n} (${act.act}) cannot have had that outcome`),
    );
  });

  it('a refusal is always taken: it changes nothing', () => {
    for (const [, survey, act] of cases)
      expect(fold(survey, act, { ok: false, error: { code: 'kit/none' } })).toMatchObject({
        standing: survey.standing,
        readings: [],
      });
  });
});

describe('undo', () => {
  const two = acted(surveyIn(), ...standing, book(left, 480), book(left, 520), book(right, 500));

  it('a booking that is struck through stays, and counts no more', () => {
    expect(workOutSize(two, 'carcass-width').offsetsMm).toBe(1000);
    const struck = acted(two, { act: 'strike', booking: 3 });
    expect(struck.bookings.map((b) => b.struck)).toEqual([true, false, false]);
    expect(workOutSize(struck, 'carcass-width').offsetsMm).toBe(1020);
    expect(saySheet(struck).join('\n')).toContain('struck through: 480 (act 3)');
  });

  it('the last proposal counts, and the first stands in the log', () => {
    const size = (width: number): Act => ({ act: 'propose', carcassMm: { width, height: 2200, depth: 420 } });
    const survey = acted(two, size(900), size(910));
    expect(survey.proposal?.carcassMm?.width).toBe(910);
    expect(survey.entries.filter((e) => e.act.act === 'propose')).toHaveLength(2);
  });

  it('a mark that is rubbed out cannot be read or aimed at', () => {
    const gone = acted(
      two,
      { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } },
      { act: 'rub-out', mark: 1 },
    );
    for (const act of [
      { act: 'read', datum: 'F', place: { mark: 1 } },
      { act: 'aim', plane: 'S', at: { mark: 1 } },
    ] as Act[])
      expect(outcomeOf(gone, act)).toMatchObject({ error: { code: 'place/no-such-mark' } });
  });

  it('nothing comes after handing in', () => {
    const over = acted(
      two,
      { act: 'propose', carcassMm: { width: 900, height: 2200, depth: 420 } },
      { act: 'hand-in' },
    );
    const acts: Act[] = [
      { act: 'note', text: 'x' },
      { act: 'settle' },
      { act: 'strike', booking: 3 },
      { act: 'hand-in' },
      { act: 'clear', trim: 'x' },
      { act: 'propose' },
    ];
    for (const act of acts) expect(outcomeOf(over, act)).toEqual({ ok: false, error: { code: 'log/handed-in' } });
  });

  it('notes, answers and steps carried over are kept in order', () => {
    const survey = acted(
      surveyIn(),
      { act: 'note', text: 'a' },
      { act: 'say', question: 'stand-up', answer: 'no' },
      { act: 'note', text: 'b' },
      { act: 'carry', from: 'S2', to: 'S', stepMm: 3 },
    );
    expect(survey.notes).toEqual(['a', 'b']);
    expect(survey.answers.map((a) => a.answer)).toEqual(['no']);
    expect(survey.carries).toMatchObject([{ n: 4, said: { stepMm: 3 } }]);
  });
});

describe('no outcome holds a true offset', () => {
  afterEach(() => speakIn('mm'));

  it.each(drawnParts('truth', 6))(
    'careful survey of $structure, $severity, $seed: every number is a tenth or whole, no text has more',
    (parts) => {
      const careful = learners.find((l) => l.name === 'careful')!;
      const survey = careful.survey(surveyOf(exerciseOf(parts)));
      const units = unitsOf(survey.world.exercise.kit);
      const truths = survey.readings.map(({ plane, point }) =>
        Math.abs(plane.nx * point.x + plane.ny * point.y + plane.nz * point.z - plane.c),
      );
      const spans = survey.spans.map(({ from, end }) =>
        Math.hypot(from.point.x - end.point.x, from.point.y - end.point.y, from.point.z - end.point.z),
      );
      expect(truths.length).toBeGreaterThan(60);
      const secrets = [
        ...truths,
        ...spans,
        ...Object.values(survey.world.hand.shift),
        ...survey.world.rule.joints,
        survey.world.rule.zero,
      ];
      const numbers = survey.entries.flatMap((e) => numbersIn(e.outcome));
      expect(numbers.length).toBeGreaterThan(200);
      for (const n of numbers) {
        // To 0.1 mm, whole thousandths of what the hand slipped by, or as a rule in inches is read.
        const inches = units === 'mm' ? 1 : Math.abs(n - readTo(units, n));
        expect(Math.min(Math.abs(n - Math.round(n * 10) / 10), inches)).toBeLessThan(1e-9);
        for (const t of secrets)
          if (Math.abs(n - t) < 1e-6) expect(Math.abs(t * 10 - Math.round(t * 10))).toBeLessThan(1e-5);
      }
      // What the learner makes of a check is the learner's own.
      speakIn(units);
      const sheet = saySheet(survey).filter((line) => !line.includes('checked for'));
      for (const text of sheet.join('\n').match(/\d+\.\d+/g) ?? [])
        expect(Number(text) * 2).toBe(Math.round(Number(text) * 2));
    },
  );

  it('a reading’s edges are off the truth by the line’s width and errors: not once in 500 do both agree with it', () => {
    const careful = learners.find((l) => l.name === 'careful')!;
    let readings = 0;
    for (const parts of drawnParts('edges', 5)) {
      const survey = careful.survey(surveyOf(exerciseOf(parts)));
      for (const { plane, point, edgesMm } of survey.readings) {
        readings++;
        const d = Math.abs(plane.nx * point.x + plane.ny * point.y + plane.nz * point.z - plane.c);
        expect(Math.min(...edgesMm.map((e) => Math.abs(e - d)))).toBeGreaterThan(1e-6);
      }
    }
    expect(readings).toBeGreaterThan(500);
  });
});

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(numbersIn);
}
