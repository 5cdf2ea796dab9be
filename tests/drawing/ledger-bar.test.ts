/**
 * The ledger as a rule: its parts add up in sight, a millimetre is a millimetre, and no words stand on others.
 */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type BarWords, layoutLedgerBar, partsOf, signed } from '../../src/drawing/ledger-bar.ts';
import { learners } from '../../src/learners/learner.ts';
import type { LedgerLine, SizeLedger } from '../../src/marking/ledger.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { speakIn, typedLength } from '../../src/recess/lengths.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { surveyOf } from '../helpers/surveying.ts';

function ledger(keyMm: number, lines: readonly LedgerLine[]): SizeLedger {
  const missMm = lines.reduce((sum, l) => sum + l.mm, 0);
  return {
    size: 'carcass-width',
    how: 'offsets',
    keyMm,
    proposedMm: Math.round((keyMm + missMm) * 2) / 2,
    missMm,
    lines,
    overMadeMm: 6,
    counting: [],
    decidedAt: [],
  };
}

const lines: readonly LedgerLine[] = [
  { name: 'coverage', mm: 5 },
  { name: 'set-up', mm: 0.8 },
  { name: 'rule', mm: -0.3 },
  { name: 'booking', mm: 1.2 },
  { name: 'transfer', mm: 0.04 },
  { name: 'not-read', mm: 0 },
  { name: 'working-out', mm: 0.5 },
];
const scaled = (by: number) => lines.map((l) => ({ ...l, mm: l.mm * by }));

/** Ledgers of scripted learners, and made ones from a tenth of a millimetre to half a metre out. */
const ledgers: readonly SizeLedger[] = [
  ...[0.02, 1, -1, 12, -90].map((by) => ledger(2158.4, scaled(by))),
  ledger(980, []),
  ledger(380, [{ name: 'not-surveyed', mm: -61.5 }]),
  ...learners.flatMap((l) =>
    drawnParts(`bar ${l.name}`, 4).flatMap(
      (p) => markSurvey(l.survey(surveyOf(exerciseOf({ ...p, kit: 'site' })))).marks?.ledgers ?? [],
    ),
  ),
].filter((l) => l.missMm !== null);

const drawn = (['mm', 'in-16', 'in-32'] as const).flatMap((units) =>
  [240, 358, 472, 720].map((widthPx) => ({ units, widthPx })),
);

afterEach(() => speakIn('mm'));

/** The stretch of the rule's width that words take, at a generous width of a figure. */
function takes(w: BarWords, widthPx: number, figurePx = 7): [number, number] {
  const wide = (w.text.length * figurePx) / widthPx;
  return w.anchor === 'start' ? [w.at, w.at + wide] : [w.at - wide, w.at];
}

test('there is something to lay out', () => {
  expect(ledgers.length).toBeGreaterThan(50);
});

describe.each(drawn)('in $units, $widthPx px wide', ({ units, widthPx }) => {
  const named = (text: string | undefined) => typedLength(text, units) ?? Number.NaN;
  beforeEach(() => speakIn(units));

  test('each part starts where the last ended, the first at the key and the last at what was sent', () => {
    for (const l of ledgers) {
      const bar = layoutLedgerBar(l, widthPx);
      let at = bar.keyAt;
      for (const p of bar.parts) {
        expect(p.from).toBeCloseTo(at, 12);
        at = p.to;
      }
      expect(at).toBeCloseTo(bar.sentAt, 12);
    }
  });

  test('a millimetre is a millimetre along the rule, for the key, for what was sent and for each part', () => {
    for (const l of ledgers) {
      const bar = layoutLedgerBar(l, widthPx);
      const [a, b] = bar.ticks.filter((t) => t.named);
      const perMm = ((b?.at ?? 0) - (a?.at ?? 0)) / (named(b?.text) - named(a?.text));
      expect(perMm).toBeGreaterThan(0);
      expect((bar.keyAt - (a?.at ?? 0)) / perMm + named(a?.text)).toBeCloseTo(l.keyMm, 6);
      // What is too small to be shown at all is left out of the parts: under 0.005 mm.
      expect(Math.abs((bar.sentAt - bar.keyAt) / perMm - (l.missMm ?? 0))).toBeLessThan(0.0051);
      for (const p of bar.parts) expect((p.to - p.from) / perMm).toBeCloseTo(p.mm, 6);
      expect(bar.parts.every((p) => p.back === p.mm < 0)).toBe(true);
    }
  });

  test('numbers on the rule keep apart, and all of it lies on the rule', () => {
    for (const l of ledgers) {
      const bar = layoutLedgerBar(l, widthPx);
      const names = bar.ticks.filter((t) => t.named);
      expect(names.length).toBeGreaterThan(1);
      for (const [i, t] of names.entries())
        if (i > 0) expect((t.at - (names[i - 1]?.at ?? 0)) * widthPx).toBeGreaterThan(t.text.length * 7 + 6);
      for (const at of [bar.keyAt, bar.sentAt, ...bar.parts.map((p) => p.to), ...bar.ticks.map((t) => t.at)]) {
        expect(at).toBeGreaterThan(0);
        expect(at).toBeLessThan(1);
      }
    }
  });

  test('a figure stands on no part of its row, and words stay within the rule', () => {
    for (const l of ledgers) {
      const bar = layoutLedgerBar(l, widthPx);
      for (const p of bar.parts) {
        const [from, to] = takes(p.figure, widthPx);
        expect(to <= Math.min(p.from, p.to) || from >= Math.max(p.from, p.to)).toBe(true);
        expect(from).toBeGreaterThanOrEqual(0);
        expect(to).toBeLessThanOrEqual(1.01);
      }
      for (const w of [bar.key, bar.sent]) {
        const [from, to] = takes(w, widthPx, 6.5);
        expect(from).toBeGreaterThanOrEqual(0);
        expect(to).toBeLessThanOrEqual(1.01);
      }
    }
  });
});

test('small lines are put together, so that what is drawn still comes to the whole', () => {
  const parts = partsOf(ledger(1000, lines));
  expect(parts.map((p) => p.name)).toEqual(['coverage', 'set-up', 'rule', 'booking', 'working-out', 'rest']);
  expect(parts.at(-1)?.mm).toBeCloseTo(0.04, 12);
  expect(partsOf(ledger(1000, [{ name: 'rule', mm: 0.004 }]))).toEqual([]);
});

test('a figure has its sign, and is never said to be nothing when it is something', () => {
  expect([5, -0.31, 0, 0.04, -0.012].map(signed)).toEqual(['+5.0', '−0.3', '0.0', '+0.04', '−0.01']);
});

test('in inches a figure is a fraction, and what does not show is in the rest', () => {
  speakIn('in-16');
  expect([25.4, -3.175, 0.79375, 0, 0.2].map(signed)).toEqual(['+1"', '−1/8"', '+1/32"', '0"', '0"']);
  const parts = partsOf(ledger(1000, lines));
  expect(parts.map((p) => p.name)).toEqual(['coverage', 'set-up', 'booking', 'working-out', 'rest']);
  expect(parts.at(-1)?.mm).toBeCloseTo(-0.26, 12);
});
