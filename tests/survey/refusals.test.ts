/**
 * Every refusal provoked, every act accepted: a code of `refusalCodes` that nothing here provokes fails, and so does an act
 * of the schema that is never let through.
 */
import { describe, expect, it } from 'vitest';
import type { Trim } from '../../src/recess/recess-spec.ts';
import { type Act, actSchema } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import { type RefusalCode, refusalCodes } from '../../src/survey/outcome.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { acted, outcomeOf, standing, surveyIn } from '../helpers/surveying.ts';

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
      [125, 18],
      [145, 9],
    ],
  },
};
const cornice: Trim = {
  name: 'cornice left',
  kind: 'cornice',
  surface: 'ceiling',
  uMm: [-756, -370],
  vMm: [-296, 756],
  profile: {
    along: 'u',
    mm: [
      [-756, 80],
      [-395, 80],
      [-370, 10],
    ],
  },
};
/** The breast is on the right; the skirting comes off, the cornice stays. */
const fresh = surveyIn(
  { trims: [skirting, cornice] },
  { brief: { fates: { 'skirting left': 'off', 'cornice left': 'stays' } } },
);
const stood = acted(fresh, ...standing);
const left = (yMm: number, zMm: number) => ({ surface: 'left' as const, yMm, zMm });
const marked = acted(stood, { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } });
const proposed = acted(fresh, { act: 'propose', carcassMm: { width: 940, height: 2200, depth: 420 } });

/** A kit with everything in it, its level out of true; the floor falls 40 mm in a metre. */
const equipped = surveyIn(
  {},
  {
    level: { count: 2, faults: [{ plumbSMmPerM: 2 }], rangeMmPerM: 30, spare: true },
    tools: { straightEdgeMm: 1800, spiritLevel: { lengthMm: 1200, limitMmPerM: 0.5 } },
  },
);
const falling = surveyIn(
  { defects: { floor: [{ kind: 'fall', mm: 40, towards: 'right' }] } },
  { level: { rangeMmPerM: 30 } },
);
const lined = acted(
  equipped,
  ...standing,
  { act: 'mark', place: { surface: 'floor', along: 'S', yMm: 100 } },
  { act: 'mark', place: { surface: 'floor', along: 'S', yMm: 400 } },
  { act: 'mark', place: { surface: 'left', along: 'F', zMm: 900 } },
);

type Case = readonly [RefusalCode, string, Survey, Act];
const cases: readonly Case[] = [
  ['log/handed-in', 'an act after handing in', acted(proposed, { act: 'hand-in' }), { act: 'note', text: 'more' }],
  ['stand/not-there', 'in the breast', fresh, { act: 'stand', xMm: 900, yMm: 100, heightMm: 1000 }],
  ['stand/not-there', 'moved through the back', stood, { act: 'move', byXMm: 0, byYMm: 600 }],
  ['stand/height', 'on the floor', fresh, { act: 'stand', xMm: 0, yMm: 0, heightMm: 49 }],
  ['stand/height', 'raised through the ceiling', stood, { act: 'raise', byMm: 1400 }],
  ['stand/not-over', 'no mark there', stood, { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100, over: 7 }],
  [
    'level/out-of-range',
    'on a floor that falls too far',
    acted(falling, { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 }),
    { act: 'settle' },
  ],
  ['kit/none', 'a level that is not in the kit', fresh, { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100, level: 2 }],
  ['check/no-estimate', 'of no size', equipped, { act: 'check', check: 'plumb', verdict: 'use', allow: true }],
  ['check/which-way', 'plumb, to the side', equipped, { act: 'check', check: 'plumb', of: 'side' }],
  ['line/not-drawn', 'between marks of two lines', lined, { act: 'read', datum: 'S:1-3', place: left(200, 10) }],
  ['line/not-there', 'high above the floor', lined, { act: 'read', datum: 'S:1-2', place: left(200, 900) }],
  ['level/none', 'turned before it stands', fresh, { act: 'turn', byMmPerM: 3 }],
  ['level/none', 'marked before it stands', fresh, { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } }],
  ['level/none', 'read before it stands', fresh, { act: 'read', datum: 'S', place: left(0, 900) }],
  ['level/none', 'aimed before it stands', fresh, { act: 'aim', plane: 'F', at: { referenceXMm: 0 } }],
  [
    'level/not-settled',
    'read before it has settled',
    acted(fresh, standing[0]!),
    { act: 'read', datum: 'S', place: left(0, 900) },
  ],
  [
    'level/not-settled',
    'marked after it was moved',
    acted(stood, { act: 'move', byXMm: 1, byYMm: 0 }),
    { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } },
  ],
  [
    'level/not-settled',
    'aimed after it was raised',
    acted(stood, { act: 'raise', byMm: 1 }),
    { act: 'aim', plane: 'F', at: { referenceXMm: 0 } },
  ],
  [
    'aim/too-near',
    'at a mark underneath',
    acted(stood, { act: 'mark', place: { surface: 'floor', along: 'F', xMm: 10 } }),
    { act: 'aim', plane: 'F', at: { mark: 1 } },
  ],
  [
    'aim/not-seen',
    'at the reference, round the arris',
    acted(fresh, { act: 'stand', xMm: 1900, yMm: -100, heightMm: 1100 }, { act: 'settle' }),
    { act: 'aim', plane: 'F', at: { referenceXMm: 450 } },
  ],
  ['kit/none', 'a check of the instrument', stood, { act: 'check', check: 'level', verdict: 'use' }],
  ['kit/none', 'a straight-edge', stood, { act: 'edge', place: left(0, 900), lengthMm: 1800, along: 'v' }],
  ['kit/none', 'a spirit level', stood, { act: 'plumb', place: left(0, 900), lengthMm: 1200 }],
  [
    'kit/none',
    'three-four-five',
    stood,
    { act: 'three-four-five', at: { surface: 'floor', xMm: 0, yMm: 0 }, unitMm: 300 },
  ],
  ['datum/not-thrown', 'from a set-up to come', stood, { act: 'read', datum: 'S2', place: left(0, 900) }],
  [
    'datum/not-thrown',
    'along one',
    stood,
    { act: 'read', datum: 'S', place: { surface: 'left', along: 'F2', zMm: 900 } },
  ],
  [
    'place/coordinates',
    'with one coordinate alone',
    stood,
    { act: 'read', datum: 'S', place: { surface: 'left', zMm: 900 } },
  ],
  [
    'place/coordinates',
    'with all three',
    stood,
    { act: 'read', datum: 'S', place: { surface: 'left', xMm: 0, yMm: 0, zMm: 900 } },
  ],
  [
    'place/coordinates',
    'with two and a line',
    stood,
    { act: 'read', datum: 'S', place: { surface: 'left', yMm: 0, zMm: 900, along: 'F' } },
  ],
  [
    'place/no-such-bay',
    'in a second recess where one stands alone',
    stood,
    { act: 'read', datum: 'S', place: { ...left(0, 900), bay: 2 } },
  ],
  [
    'place/open',
    'on a slope where none is',
    stood,
    { act: 'read', datum: 'L', place: { surface: 'slope', xMm: 0, yMm: 100 } },
  ],
  ['place/outside', 'over the reach', stood, { act: 'read', datum: 'S', place: left(0, 2700) }],
  [
    'place/outside',
    'before the arris of the breast',
    stood,
    { act: 'read', datum: 'S', place: { surface: 'right', yMm: -60, zMm: 900 } },
  ],
  [
    'place/line-does-not-cross',
    'the level line on the floor',
    stood,
    { act: 'read', datum: 'L', place: { surface: 'floor', xMm: 0, along: 'L' } },
  ],
  ['place/no-such-mark', 'a diagonal from one', stood, { act: 'diagonal', from: { mark: 1 }, to: left(0, 900) }],
  ['place/no-such-mark', 'rubbed out', stood, { act: 'rub-out', mark: 1 }],
  ['place/no-such-mark', 'aimed at', stood, { act: 'aim', plane: 'S', at: { mark: 4 } }],
  ['place/needs-surface', 'a tape from a mark', marked, { act: 'span', place: { mark: 1 }, to: 'right' }],
  [
    'place/needs-surface',
    'an offset booked at a mark',
    marked,
    { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: { mark: 1 } },
  ],
  ['mark/needs-line', 'a mark by coordinates', stood, { act: 'mark', place: left(0, 900) }],
  ['mark/needs-line', 'a mark on a mark', marked, { act: 'mark', place: { mark: 1 } }],
  [
    'sight/blocked',
    'a line on the breast’s wall, from out in the room beside it',
    acted(
      fresh,
      { act: 'stand', xMm: 1000, yMm: -800, heightMm: 1100 },
      { act: 'settle' },
      { act: 'turn', byMmPerM: -1000 },
    ),
    { act: 'mark', place: { surface: 'right', along: 'L', yMm: 300 } },
  ],
  ['rule/blocked', 'from behind the cornice', stood, { act: 'read', datum: 'S', place: left(200, 2360) }],
  [
    'rule/too-short',
    'from the back to a face line far out in the room',
    acted(fresh, { act: 'stand', xMm: 0, yMm: -2000, heightMm: 1100 }, { act: 'settle' }),
    { act: 'read', datum: 'F', place: { surface: 'back', xMm: 0, zMm: 900 } },
  ],
  [
    'rule/wrong-way',
    'to a square line inside the breast',
    acted(fresh, { act: 'stand', xMm: 900, yMm: -800, heightMm: 1100 }, { act: 'settle' }),
    { act: 'read', datum: 'S', place: { surface: 'right', yMm: 100, zMm: 900 } },
  ],
  [
    'tape/blocked',
    'up from under the skirting',
    fresh,
    { act: 'span', place: { surface: 'floor', xMm: -495, yMm: 200 }, to: 'ceiling' },
  ],
  [
    'tape/blocked',
    'a diagonal through the cornice',
    fresh,
    { act: 'diagonal', from: left(200, 2390), to: { surface: 'right', yMm: 200, zMm: 2300 } },
  ],
  [
    'place/no-edge',
    'no band within a hand’s breadth',
    stood,
    { act: 'read', datum: 'S', place: { ...left(0, 900), edge: 'top' } },
  ],
  ['tape/no-end', 'from a wall to the floor', fresh, { act: 'span', place: left(0, 900), to: 'floor' }],
  ['tape/no-end', 'from the back', fresh, { act: 'span', place: { surface: 'back', xMm: 0, zMm: 900 }, to: 'left' }],
  ['trim/none', 'one that is not there', fresh, { act: 'clear', trim: 'architrave' }],
  ['trim/stays', 'one that stays', fresh, { act: 'clear', trim: 'cornice left' }],
  [
    'trim/off-already',
    'one twice',
    acted(fresh, { act: 'clear', trim: 'skirting left' }),
    { act: 'clear', trim: 'skirting left' },
  ],
  ['book/datum', 'an offset from none', fresh, { act: 'book', what: 'offset', valueMm: 500, place: left(0, 900) }],
  [
    'book/datum',
    'an offset to somewhere',
    fresh,
    { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: left(0, 900), to: 'right' },
  ],
  [
    'book/datum',
    'a span from a datum',
    fresh,
    { act: 'book', what: 'span', valueMm: 999, datum: 'S', place: left(0, 900), to: 'right' },
  ],
  ['book/datum', 'a diagonal to nowhere', fresh, { act: 'book', what: 'diagonal', valueMm: 999, place: left(0, 900) }],
  [
    'book/no-such-reading',
    'of an act that was no reading',
    stood,
    { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: left(0, 900), reading: 1 },
  ],
  [
    'book/no-such-reading',
    'of an act to come',
    stood,
    { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: left(0, 900), reading: 9 },
  ],
  ['strike/none', 'nothing booked', stood, { act: 'strike', booking: 1 }],
  [
    'strike/none',
    'one twice',
    acted(
      fresh,
      { act: 'book', what: 'offset', valueMm: 500, datum: 'S', place: left(0, 900) },
      { act: 'strike', booking: 1 },
    ),
    { act: 'strike', booking: 1 },
  ],
  ['carry/not-parallel', 'from a square line to a face line', stood, { act: 'carry', from: 'S', to: 'F2', stepMm: 3 }],
  ['carry/not-parallel', 'to itself', stood, { act: 'carry', from: 'S', to: 'S', stepMm: 3 }],
  ['hand-in/nothing', 'with nothing proposed', stood, { act: 'hand-in' }],
];

describe('refusals', () => {
  it.each(cases)('%s: %s', (code, _, survey, act) => {
    const outcome = outcomeOf(survey, act);
    expect(outcome).toMatchObject({ ok: false, error: { code } });
  });

  it('every code is provoked', () => {
    const provoked = new Set(cases.map(([code]) => code));
    expect([...Object.keys(refusalCodes)].filter((code) => !provoked.has(code as RefusalCode))).toEqual([]);
  });

  it('what is in the way is named', () => {
    const by = (code: RefusalCode) =>
      cases
        .filter((c) => c[0] === code)
        .map(([, , survey, act]) => {
          const outcome = outcomeOf(survey, act);
          return outcome.ok ? null : outcome.error.by;
        });
    expect(by('rule/blocked')).toEqual(['cornice left']);
    expect(by('tape/blocked')).toEqual(['skirting left', 'cornice left']);
    expect(by('sight/blocked')).toEqual(['right']);
    expect(by('aim/not-seen')).toEqual(['right']);
  });

  it.each(cases)('%s (%s) leaves nothing but its entry', (_, __, survey, act) => {
    const after = perform(survey, act).survey;
    expect({ ...after, entries: [] }).toEqual({ ...survey, entries: [] });
    expect(after.entries).toHaveLength(survey.entries.length + 1);
    expect(after.entries.at(-1)).toMatchObject({ n: survey.entries.length + 1, act, outcome: { ok: false } });
  });
});

describe('acts that are let through', () => {
  const all: readonly Act[] = [
    { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 },
    { act: 'settle' },
    { act: 'move', byXMm: 2, byYMm: -3 },
    { act: 'raise', byMm: 5 },
    { act: 'settle' },
    { act: 'turn', byMmPerM: 2 },
    { act: 'mark', place: { surface: 'back', along: 'S', zMm: 900 } },
    { act: 'aim', plane: 'S', at: { mark: 1 } },
    { act: 'aim', plane: 'F', at: { referenceXMm: 300 } },
    { act: 'rub-out', mark: 1 },
    { act: 'clear', trim: 'skirting left' },
    { act: 'read', datum: 'S', place: left(0, 900) },
    { act: 'book', what: 'offset', valueMm: 498.5, datum: 'S', place: left(0, 900), reading: 12 },
    { act: 'span', place: left(0, 900), to: 'right' },
    { act: 'diagonal', from: left(0, 900), to: { surface: 'right', yMm: 400, zMm: 900 } },
    { act: 'strike', booking: 13 },
    { act: 'carry', from: 'S2', to: 'S', stepMm: 40 },
    { act: 'note', text: 'pipe behind' },
    { act: 'say', question: 'stand-up', answer: 'yes' },
    { act: 'propose', carcassMm: { width: 940, height: 2200, depth: 420 } },
    { act: 'hand-in' },
  ];

  const withTools: readonly Act[] = [
    { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 },
    { act: 'settle' },
    { act: 'check', check: 'plumb' },
    { act: 'edge', place: left(200, 1000), lengthMm: 1200, along: 'v' },
    { act: 'plumb', place: left(200, 1000), lengthMm: 1000 },
    { act: 'three-four-five', at: { surface: 'floor', xMm: 0, yMm: 0 }, unitMm: 300 },
    { act: 'check', check: 'plumb', verdict: 'do-not-use', errorMmPerM: 2 },
  ];

  it('are all acts of the schema', () => {
    const survey = acted(fresh, ...all);
    expect(survey.handedIn).toBe(true);
    expect(survey.entries.map((e) => e.n)).toEqual(all.map((_, i) => i + 1));
    acted(equipped, ...withTools);
    const names = actSchema.options.map((o) => o.entries.act.literal);
    const done = new Set<string>([...all, ...withTools].map((a) => a.act));
    expect(names.filter((n) => !done.has(n))).toEqual([]);
  });
});
