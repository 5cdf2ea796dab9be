import { expect, test } from 'vitest';
import { layoutLedgerBar } from '../../src/drawing/ledger-bar.ts';
import type { LedgerLine, SizeLedger } from '../../src/marking/ledger.ts';

function ledger(keyMm: number, lines: readonly LedgerLine[]): SizeLedger {
  const missMm = lines.reduce((sum, l) => sum + l.mm, 0);
  return {
    size: 'carcass-width',
    how: 'offsets',
    keyMm,
    proposedMm: keyMm + missMm,
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
  { name: 'working-out', mm: 0.5 },
];

test('the parts add up in sight: each starts where the last ended, from the key to what was sent', () => {
  const bar = layoutLedgerBar(ledger(1149.8, lines), 520);
  expect(bar.parts.map((p) => p.name)).toEqual(lines.map((l) => l.name));
  expect(bar.parts[0]?.from).toBeCloseTo(bar.keyX, 9);
  for (const [i, p] of bar.parts.entries()) if (i > 0) expect(p.from).toBeCloseTo(bar.parts[i - 1]?.to ?? 0, 9);
  expect(bar.parts.at(-1)?.to).toBeCloseTo(bar.sentX, 9);
  expect(bar.parts.map((p) => p.back)).toEqual([false, false, true, false, false]);
});

test('a millimetre is a millimetre on the rule, and its numbers keep apart', () => {
  for (const scale of [1, 12, 90]) {
    const bar = layoutLedgerBar(
      ledger(
        2158.4,
        lines.map((l) => ({ ...l, mm: l.mm * scale })),
      ),
      520,
    );
    const named = bar.ticks.filter((t) => t.text !== null);
    const [a, b] = named;
    const perMm = ((b?.x ?? 0) - (a?.x ?? 0)) / (Number(b?.text) - Number(a?.text));
    for (const p of bar.parts) expect(p.to - p.from).toBeCloseTo(p.mm * perMm, 6);
    for (const [i, t] of named.entries()) if (i > 0) expect(t.x - (named[i - 1]?.x ?? 0)).toBeGreaterThan(34);
    expect(bar.keyX).toBeGreaterThan(0);
    expect(bar.sentX).toBeLessThan(520);
  }
});
