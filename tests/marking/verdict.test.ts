/**
 * The verdict: every reason provoked in a room whose sizes are known, at its limit and just past it.
 */
import { describe, expect, it } from 'vitest';
import { markSurvey } from '../../src/marking/report.ts';
import { sayVerdict } from '../../src/marking/report-words.ts';
import { type Reason, type SetOutCode, type Verdict, verdictWords } from '../../src/marking/verdict.ts';
import type { Act, ActOf } from '../../src/survey/act.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { acted } from '../helpers/surveying.ts';
import { placeAt, readAndBook, standTrue } from '../helpers/truths.ts';

/** 1000 x 2400 x 500, true; 3 asked at the sides, 6 over, 8 behind; least stock 4, most 40; plinth 100, front 20. */
const exercise = exerciseIn(roomSpec());
const start = standTrue(exercise);
/** What fits, with what is asked to spare: 994 x 2294 x 472 and a blank of 1008 x 2408. */
const fitting = {
  carcassMm: { width: 993.5, height: 2293.5, depth: 471.5 },
  frameMm: { width: 1008.5, height: 2408.5 },
};
type Said = Omit<ActOf<'propose'>, 'act'>;

function judged(said: Said, survey: Survey = start): Verdict {
  return markSurvey(acted(survey, { act: 'propose', ...said }, { act: 'hand-in' })).marks!.verdict;
}
const carcass = (change: Partial<NonNullable<Said['carcassMm']>>): Said => ({
  ...fitting,
  carcassMm: { ...fitting.carcassMm, ...change },
});
const frame = (change: Partial<NonNullable<Said['frameMm']>>, more: Said = {}): Said => ({
  ...fitting,
  frameMm: { ...fitting.frameMm, ...change },
  ...more,
});
const codes = (v: Verdict) => v.reasons.map((r) => `${r.code} ${r.of}`);

/** The face line turned by mm over the opening's 1000, and a depth read from it. */
const skewed = (mm: number): Survey =>
  acted(
    start,
    { act: 'turn', byMmPerM: mm },
    { act: 'read', datum: 'F', place: placeAt(start, 'back', { u: 0, v: 900 }) },
  );
const booked: Act = {
  act: 'book',
  what: 'offset',
  valueMm: 500,
  datum: 'S',
  place: placeAt(start, 'left', { u: 100, v: 900 }),
};

type Case = readonly [Reason['code'], Verdict['word'], string, Verdict];
const cases: readonly Case[] = [
  ['carcass/outside', 'scrap', 'wider than the reach', judged(carcass({ width: 1600 }))],
  ['carcass/does-not-go-in', 'scrap', 'wider than the walls', judged(carcass({ width: 1000.1 }))],
  ['carcass/does-not-go-in', 'scrap', 'taller than the ceiling', judged(carcass({ height: 2301 }))],
  ['carcass/does-not-go-in', 'scrap', 'deeper than the back', judged(carcass({ depth: 481 }))],
  ['frame/does-not-cover', 'scrap', 'narrower than the opening', judged(frame({ width: 999 }))],
  [
    'frame/does-not-cover',
    'scrap',
    'placed beside it',
    judged(frame({}, { frameAtMm: { leftOfS: 499, belowL: 1104 } })),
  ],
  ['carcass/clearance', 'rework', 'less than half of 3 at the sides', judged(carcass({ width: 997.2 }))],
  ['carcass/clearance', 'rework', 'less than 6 by more than 3 over', judged(carcass({ height: 2297.1 }))],
  ['carcass/clearance', 'rework', 'less than 8 by more than 3 behind', judged(carcass({ depth: 475.1 }))],
  ['frame/stock-short', 'rework', 'less than 4 by more than 2', judged(frame({ width: 1003.9 }))],
  ['frame/stock-over', 'rework', 'more than 40 by more than 2', judged(frame({ height: 2484.2 }))],
  ['face-line/off', 'visible', 'by more than 3 over the opening', judged(fitting, skewed(3.05))],
  ['size/given-away', 'waste', 'more than 10 of the width', judged(carcass({ width: 983.9 }))],
  ['size/given-away', 'waste', 'more than 10 of a frame', judged(frame({ width: 1018.1 }))],
  ['booking/untidy', 'untidy', 'nothing was read', judged(fitting, acted(start, booked))],
  ['nothing/proposed', 'nothing', 'an empty proposal', judged({})],
];

describe('reasons', () => {
  it.each(cases)('%s: %s, %s', (code, word, _, verdict) => {
    expect(verdict.reasons.map((r) => r.code)).toContain(code);
    expect(verdict.word).toBe(word);
  });

  it('every code is provoked', () => {
    // Those of a lining: lining.test.ts.
    const all: Record<Exclude<Reason['code'], SetOutCode | `lining/${string}`>, true> = {
      'carcass/outside': true,
      'carcass/does-not-go-in': true,
      'frame/does-not-cover': true,
      'carcass/clearance': true,
      'frame/stock-short': true,
      'frame/stock-over': true,
      'face-line/off': true,
      'face-line/stepped': true,
      'size/given-away': true,
      'booking/untidy': true,
      'nothing/proposed': true,
    };
    expect(
      Object.keys(all).filter((code) => code !== 'face-line/stepped' && !cases.some((c) => c[0] === code)),
    ).toEqual([]);
  });

  it('at its limit none holds', () => {
    const within: readonly (readonly [string, Verdict])[] = [
      ['1000 wide goes in bare, but for the clearance', judged(carcass({ width: 999.99 }))],
      ['half of 3', judged(carcass({ width: 996.9 }))],
      ['3 under 6', judged(carcass({ height: 2296.9 }))],
      ['3 under 8', judged(carcass({ depth: 474.9 }))],
      ['2 under 4', judged(frame({ width: 1004.1 }))],
      ['3 over the opening', judged(fitting, skewed(2.95))],
      ['10 given away', judged(carcass({ width: 984.1 }))],
    ];
    expect(within.map(([, v]) => v.word)).toEqual(['rework', 'good', 'good', 'good', 'good', 'good', 'good']);
  });

  it('40 to scribe and 2 is not too much, but it is given away', () => {
    expect(codes(judged(frame({ height: 2483.8 })))).toEqual(['size/given-away frame-height']);
  });

  it('say of what, and by how much', () => {
    const wide = judged(carcass({ width: 1010 })).reasons[0]!;
    expect(wide).toMatchObject({ code: 'carcass/does-not-go-in', of: 'left', mm: expect.closeTo(-5, 2) });
    expect(judged(carcass({ depth: 490 })).reasons[0]).toMatchObject({ of: 'back', mm: expect.closeTo(-10, 2) });
    expect(judged(frame({ width: 990 })).reasons[0]).toMatchObject({ of: 'left', mm: expect.closeTo(-5, 2) });
    expect(judged(carcass({ width: 980 })).reasons[0]).toMatchObject({
      of: 'carcass-width',
      mm: expect.closeTo(14, 2),
    });
  });

  it('an allowance that was said is not given away, in a size that was surveyed', () => {
    const both = (['left', 'right'] as const).reduce(
      (now, side) => readAndBook(now, { datum: 'S', place: placeAt(start, side, { u: 100, v: 900 }) }),
      start,
    );
    expect(judged(carcass({ width: 980 }), both).word).toBe('waste');
    expect(judged({ ...carcass({ width: 980 }), allowanceMm: { 'carcass-width': 8 } }, both).word).toBe('good');
  });

  it('the gravest names the verdict, all are kept, gravest first', () => {
    const verdict = judged(
      { carcassMm: { width: 1010, height: 2280, depth: 471.5 }, frameMm: { width: 1003, height: 2408.5 } },
      acted(skewed(6), booked),
    );
    expect(verdict.word).toBe('scrap');
    const words = verdict.reasons.map((r) => verdictWords.indexOf(r.word));
    expect(words).toEqual([...words].sort((a, b) => a - b));
    expect(new Set(verdict.reasons.map((r) => r.word))).toEqual(
      new Set(['scrap', 'rework', 'visible', 'waste', 'untidy']),
    );
  });

  it('what fits and was not booked at all is good', () => {
    const verdict = judged(fitting);
    expect(verdict).toMatchObject({ word: 'good', reasons: [], carcass: { fits: 'yes', goesInBare: true } });
    expect(verdict.frame!.stockMm.left[0]).toBeCloseTo(4.25, 2);
  });
});

describe('in words', () => {
  it.each(cases)('%s, %s (%s) is said by name and number', (code, word, _, verdict) => {
    const said = sayVerdict(verdict).join('\n');
    const heads = {
      scrap: 'Scrap',
      rework: 'Rework',
      visible: 'It fits, but it shows',
      waste: 'It fits, with stock given away',
      untidy: 'the sheet is untidy',
      nothing: 'Nothing to fit',
      good: 'It fits',
    };
    expect(said).toContain(heads[word]);
    const r = verdict.reasons.find((reason) => reason.code === code)!;
    if (r.mm !== 0) expect(said).toContain(String(Math.round(Math.abs(r.mm) * 10) / 10));
    expect(said).not.toMatch(/undefined|NaN|null|\/[a-z]/);
  });
});
