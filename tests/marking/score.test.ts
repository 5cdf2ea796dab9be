/**
 * The score: each heading at the points of its straight line, what is missing, scaling to 100, the caps.
 */
import { describe, expect, it } from 'vitest';
import { usualHeadings } from '../../src/exercise/headings.ts';
import { bookingShare } from '../../src/marking/booking-share.ts';
import type { LineName, SizeLedger } from '../../src/marking/ledger.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { type HeadingName, onScale, type ScoreSource, scoreOf } from '../../src/marking/score.ts';
import type { Verdict } from '../../src/marking/verdict.ts';
import type { Act } from '../../src/survey/act.ts';
import { closingChecks } from '../../src/survey/closing-checks.ts';
import type { SizeName } from '../../src/survey/size.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { acted } from '../helpers/surveying.ts';
import { placeAt, readAndBook, standTrue } from '../helpers/truths.ts';

const exercise = exerciseIn(roomSpec());
const fits: Act = {
  act: 'propose',
  carcassMm: { width: 990, height: 2290, depth: 470 },
  frameMm: { width: 1008, height: 2408 },
};
const start = acted(standTrue(exercise), fits, { act: 'say', question: 'stand-up', answer: 'yes' });
const verdict = (word: Verdict['word']): Verdict => ({ word, reasons: [], carcass: null, frame: null });
const ledger = (lines: Partial<Record<LineName, number>>, more: Partial<SizeLedger> = {}): SizeLedger => ({
  size: 'carcass-width',
  how: 'offsets',
  keyMm: 994,
  proposedMm: 990,
  missMm: -4,
  lines: Object.entries(lines).map(([name, mm]) => ({ name: name as LineName, mm })),
  overMadeMm: 6,
  counting: [],
  decidedAt: [],
  ...more,
});
const source = (change: Partial<ScoreSource> = {}): ScoreSource => ({
  survey: start,
  ledgers: [ledger({})],
  checks: [],
  booking: { right: 1, all: 1, notRight: [] },
  verdict: verdict('good'),
  ...change,
});
const points = (name: HeadingName, change: Partial<ScoreSource> = {}) =>
  scoreOf(source(change)).headings.find((h) => h.name === name)?.points ?? null;

describe('a straight line of points', () => {
  it.each([
    [0, 20],
    [2.5, 20],
    [4, 16],
    [6.25, 10],
    [9.999, 20 * (0.001 / 7.5)],
    [10, 0],
    [99, 0],
  ])('at %d mm gives %d', (mm, earned) => {
    expect(onScale(usualHeadings.coverage, mm)).toBeCloseTo(earned, 9);
  });
});

describe('each heading, full, half-way and none', () => {
  const lines = (of: Partial<Record<LineName, number>>, more?: Partial<SizeLedger>) => ({
    ledgers: [ledger(of, more)],
  });

  it.each([
    ['coverage', { coverage: 2.5 }, 20],
    ['coverage', { coverage: -2.5 }, 20],
    ['coverage', { coverage: 6.25 }, 10],
    ['coverage', { coverage: -10 }, 0],
    ['coverage', { coverage: 4, method: -2.25 }, 10],
    ['rule', { rule: 1 }, 15],
    ['rule', { rule: -2.5 }, 7.5],
    ['rule', { rule: 2, booking: -2 }, 0],
    ['working-out', { 'working-out': 1 }, 15],
    ['working-out', { 'working-out': -3 }, 7.5],
    ['working-out', { 'working-out': 5 }, 0],
    ['working-out', { allowance: -10 }, 15],
    ['working-out', { allowance: -13 }, 7.5],
  ] as const)('%s with %j earns %d', (name, of, earned) => {
    expect(points(name, lines(of))).toBeCloseTo(earned, 9);
  });

  it('set-up: 5 for the reference, and 10 down to 0 from 1 to 5 mm', () => {
    // The face line is true: the reference is followed.
    for (const [mm, earned] of [
      [1, 15],
      [3, 10],
      [5, 5],
      [-9, 5],
    ] as const)
      expect(points('set-up', lines({ 'set-up': mm }))).toBe(earned);
    const off = (mm: number) => acted(start, { act: 'move', byXMm: 0, byYMm: mm }, { act: 'settle' });
    expect(points('set-up', { survey: off(4.9) })).toBe(15);
    expect(points('set-up', { survey: off(5.1) })).toBe(10);
    expect(points('set-up', { survey: off(-5.1) })).toBe(10);
  });

  it('booking: the share that is right', () => {
    expect(points('booking', { booking: { right: 3, all: 4, notRight: [9] } })).toBe(7.5);
    expect(points('booking', { booking: { right: 0, all: 0, notRight: [] } })).toBe(0);
  });

  it('will it go: said and right', () => {
    expect(points('will-it-go')).toBe(5);
    expect(points('will-it-go', { survey: acted(standTrue(exercise), fits) })).toBe(0);
    expect(points('will-it-go', { survey: acted(start, { act: 'say', question: 'stand-up', answer: 'no' }) })).toBe(0);
    // 2600 clear, and 2580 x 470 is 2622 from corner to corner.
    const tall: Act = { act: 'propose', carcassMm: { width: 990, height: 2580, depth: 470 } };
    expect(points('will-it-go', { survey: acted(start, tall) })).toBe(0);
    expect(
      points('will-it-go', { survey: acted(start, tall, { act: 'say', question: 'stand-up', answer: 'no' }) }),
    ).toBe(5);
  });

  it('the worst size counts, and one that is made as it stands does not', () => {
    const two = [ledger({ coverage: 3 }), ledger({ coverage: -6.25 }, { size: 'carcass-depth' })];
    expect(points('coverage', { ledgers: two })).toBe(10);
    expect(points('coverage', { ledgers: [two[0]!, ledger({ coverage: 99 }, { how: 'as-it-stands' })] })).toBeCloseTo(
      18.7,
      9,
    );
  });

  it('a size that was not surveyed, or not proposed, earns nothing where its line is missing', () => {
    for (const how of ['not-surveyed', 'not-proposed'] as const) {
      const missing = { ledgers: [ledger({}), ledger({}, { how, size: 'frame-width' })] };
      expect([points('coverage', missing), points('rule', missing), points('working-out', missing)]).toEqual([0, 0, 0]);
    }
    expect(points('set-up', { ledgers: [ledger({}, { how: 'spans' })] })).toBe(5);
  });
});

describe('checks, by what was really booked', () => {
  const place = (surface: 'left' | 'right') => placeAt(start, surface, { u: 100, v: 900 });
  const pair = readAndBook(readAndBook(start, { datum: 'S', place: place('left') }), {
    datum: 'S',
    place: place('right'),
  });
  const taped = (survey: Survey, offMm: number): Survey =>
    acted(
      survey,
      { act: 'span', place: place('left'), to: 'right' },
      { act: 'book', what: 'span', valueMm: 1000 + offMm, place: place('left'), to: 'right' },
    );
  const checks = (survey: Survey) => points('checks', { survey, checks: closingChecks(survey) });

  it('made for the sizes that matter: two of five', () => {
    expect(checks(start)).toBe(0);
    // A width check is of the carcass's width and the frame's.
    expect(checks(taped(pair, 0))).toBe(5 * (2 / 5) + 5);
  });

  it('a misclosure over 2 is acted on by reading a place of it again', () => {
    const open = taped(pair, 2.5);
    expect(checks(taped(pair, 1.9))).toBe(7);
    expect(checks(open)).toBe(2);
    const again = acted(open, { act: 'read', datum: 'S', place: place('right') });
    expect(checks(again)).toBe(7);
    const elsewhere = acted(open, { act: 'read', datum: 'S', place: placeAt(start, 'right', { u: 300, v: 1500 }) });
    expect(checks(elsewhere)).toBe(2);
  });
});

describe('booking shares, by what was really read', () => {
  const left = placeAt(start, 'left', { u: 100, v: 900 });
  const shareOf = (survey: Survey) => {
    const { right, all } = bookingShare(survey);
    return [right, all];
  };

  it('a booking is right with its reading, its datum, and within 3 mm of what was seen', () => {
    expect(shareOf(readAndBook(start, { datum: 'S', place: left }))).toEqual([1, 1]);
    expect(shareOf(readAndBook(start, { datum: 'S', place: left, slipMm: 2.9 }))).toEqual([1, 1]);
    expect(shareOf(readAndBook(start, { datum: 'S', place: left, slipMm: -3.1 }))).toEqual([0, 1]);
    expect(shareOf(acted(start, { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: left }))).toEqual([
      0, 1,
    ]);
    // A left wall is read from the square line.
    const wrong = acted(start, { act: 'read', datum: 'L', place: left });
    expect(
      shareOf(
        acted(wrong, {
          act: 'book',
          what: 'offset',
          valueMm: 200,
          datum: 'L',
          place: left,
          reading: wrong.entries.length,
        }),
      ),
    ).toEqual([0, 1]);
    // Booked at another place than it was read.
    const moved = acted(start, { act: 'read', datum: 'S', place: left });
    const off = (mm: number) => ({ ...left, zMm: left.zMm! + mm });
    const at = (mm: number) =>
      acted(moved, {
        act: 'book',
        what: 'offset',
        valueMm: 500,
        datum: 'S',
        place: off(mm),
        reading: moved.entries.length,
      });
    expect([shareOf(at(19)), shareOf(at(21))]).toEqual([
      [1, 1],
      [0, 1],
    ]);
  });

  it('a struck booking is neither right nor wrong, and tapes count', () => {
    const bad = acted(start, { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: left });
    expect(shareOf(acted(bad, { act: 'strike', booking: bad.bookings[0]!.n }))).toEqual([0, 0]);
    const taped = acted(start, { act: 'span', place: left, to: 'right' });
    const span = (valueMm: number) => acted(taped, { act: 'book', what: 'span', valueMm, place: left, to: 'right' });
    expect([shareOf(span(1000)), shareOf(span(1010))]).toEqual([
      [1, 1],
      [0, 1],
    ]);
  });
});

describe('the whole', () => {
  const full = source({
    checks: [
      {
        kind: 'again',
        booking: 1,
        against: [],
        predictedMm: 1,
        directMm: 1,
        misclosureMm: 0,
        sizes: ['carcass-width', 'carcass-height', 'carcass-depth', 'frame-width', 'frame-height'] as SizeName[],
      },
    ],
  });

  it('is scaled to 100: this version has no instrument checks to earn by', () => {
    const score = scoreOf(full);
    expect(score.headings.reduce((sum, h) => sum + h.of, 0)).toBe(90);
    expect([score.uncapped, score.total, score.cap]).toEqual([100, 100, null]);
    expect(score.headings.map((h) => h.of)).toEqual([15, 20, 15, 10, 10, 15, 5]);
  });

  it('leaves out will-it-go where nothing has to be brought in', () => {
    const open = exerciseIn(roomSpec(), { brief: { access: null } });
    const survey = acted(standTrue(open), fits);
    const score = scoreOf({ ...full, survey });
    expect(score.headings.map((h) => h.name)).not.toContain('will-it-go');
    expect(score.total).toBe(100);
  });

  it('is held to 49 by scrap and 69 by rework, and is nothing where nothing was proposed', () => {
    const total = (word: Verdict['word'], change: Partial<ScoreSource> = {}) =>
      scoreOf({ ...full, ...change, verdict: verdict(word) });
    expect(total('scrap')).toMatchObject({ uncapped: 100, total: 49, cap: 'scrap' });
    expect(total('rework')).toMatchObject({ uncapped: 100, total: 69, cap: 'rework' });
    for (const word of ['visible', 'waste', 'untidy', 'good'] as const)
      expect(total(word)).toMatchObject({ total: 100, cap: null });
    expect(total('nothing').total).toBe(0);
    // A cap raises nothing.
    const poor = { ledgers: [ledger({ coverage: 50, rule: 50, 'working-out': 50, 'set-up': 50 })] };
    expect(total('rework', poor).total).toBe(total('good', poor).total);
    expect(total('rework', poor).total).toBeLessThan(49);
  });

  it('caps are the exercise’s own', () => {
    const strict = { ...exercise, headings: { ...exercise.headings, caps: { scrap: 10, rework: 20 } } };
    const survey = { ...start, world: { ...start.world, exercise: strict } };
    expect(scoreOf({ ...full, survey, verdict: verdict('scrap') }).total).toBe(10);
  });

  it('prints with the report, to a tenth, each heading with why', () => {
    const { score } = markSurvey(acted(start, { act: 'hand-in' })).marks!;
    for (const h of score.headings) {
      expect(h.points * 10).toBe(Math.round(h.points * 10));
      expect(h.points).toBeLessThanOrEqual(h.of);
      expect(h.evidence.length).toBeGreaterThan(0);
    }
  });
});
