/**
 * The ledger as a rule: parts step along it from what the room allows to what was sent. Units px.
 */
import type { LineName, SizeLedger } from '../marking/ledger.ts';

export interface BarPart {
  readonly name: LineName;
  readonly mm: number;
  readonly from: number;
  readonly to: number;
  /** What pulls back is drawn hollow. */
  readonly back: boolean;
  readonly y: number;
}

export interface LedgerBar {
  readonly width: number;
  readonly height: number;
  readonly ticks: readonly { readonly x: number; readonly long: boolean; readonly text: string | null }[];
  readonly parts: readonly BarPart[];
  readonly keyX: number;
  readonly sentX: number;
}

const rowPx = 40;
const topPx = 44;

/** Lays the bar out; parts under a twentieth of a millimetre are left to the sum. */
export function layoutLedgerBar(ledger: SizeLedger, width: number): LedgerBar {
  const parts = ledger.lines.filter((l) => Math.abs(l.mm) >= 0.05);
  const stations = [0];
  for (const l of ledger.lines) stations.push((stations[stations.length - 1] as number) + l.mm);
  const end = stations[stations.length - 1] as number;
  const low = Math.min(...stations);
  const high = Math.max(...stations);
  const step = stepOf(high - low);
  const from = Math.floor((ledger.keyMm + low) / step - 0.5) * step;
  const to = Math.ceil((ledger.keyMm + high) / step + 0.5) * step;
  const at = (mm: number) => 16 + ((mm - from) / (to - from)) * (width - 32);
  const ticks: LedgerBar['ticks'][number][] = [];
  const count = Math.round((to - from) / step);
  for (let i = 0; i <= count * 2; i++) {
    const mm = from + (i * step) / 2;
    ticks.push({ x: at(mm), long: i % 2 === 0, text: i % 2 === 0 ? String(Math.round(mm * 10) / 10) : null });
  }
  let here = ledger.keyMm;
  let row = 0;
  const drawn: BarPart[] = [];
  for (const l of ledger.lines) {
    const next = here + l.mm;
    if (parts.includes(l)) {
      drawn.push({ name: l.name, mm: l.mm, from: at(here), to: at(next), back: l.mm < 0, y: topPx + row * rowPx });
      row++;
    }
    here = next;
  }
  return {
    width,
    height: topPx + Math.max(1, row) * rowPx + 8,
    ticks,
    parts: drawn,
    keyX: at(ledger.keyMm),
    sentX: at(ledger.keyMm + end),
  };
}

/** A step of 1, 2 or 5 that gives the rule four to ten long strokes. */
function stepOf(span: number): number {
  const wanted = Math.max(span, 1) / 6;
  for (const step of [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]) if (step >= wanted) return step;
  return 2000;
}
