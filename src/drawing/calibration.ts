/**
 * How sure against how often right, drawn: a row a degree, a bar as long as the share that came right, and the stretch in
 * which that degree is borne out. px.
 */
import type { Borne } from '../marking/how-sure.ts';
import type { SureLevel } from '../survey/how-sure.ts';

export interface CalibrationRow {
  readonly level: SureLevel;
  /** The bar, from the left; null where nothing was said so. */
  readonly bar: { readonly x: number; readonly y: number; readonly width: number; readonly height: number } | null;
  /** The stretch in which it is borne out, as a bracket under the bar. */
  readonly bracket: string;
  readonly words: { readonly x: number; readonly y: number; readonly text: string };
}

export interface CalibrationLayout {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly CalibrationRow[];
  /** Shares along the foot. */
  readonly ticks: readonly { readonly x: number; readonly y: number; readonly text: string }[];
  readonly foot: string;
}

const rowPx = 44;
const barPx = 12;
const endPx = 52;

/** Lays the picture out over a width. */
export function layoutCalibration(all: readonly Borne[], width: number): CalibrationLayout {
  const long = Math.max(80, width - endPx);
  const at = (share: number) => 0.5 + Math.round(share * (long - 1));
  const bottom = rowPx * all.length + 4;
  return {
    width,
    height: bottom + 18,
    rows: all.map((b, i) => {
      const y = i * rowPx + 18;
      const [from, to] = b.paying;
      return {
        level: b.level,
        bar: b.said === 0 ? null : { x: 0.5, y, width: Math.max(1, at(b.right / b.said) - 0.5), height: barPx },
        bracket: `M${at(from)} ${y + barPx + 2}v5H${at(to)}v-5`,
        words: { x: long + 6, y: y + barPx - 1, text: b.said === 0 ? '–' : `${b.right} of ${b.said}` },
      };
    }),
    ticks: [0, 0.5, 1].map((share) => ({ x: at(share), y: bottom + 14, text: `${100 * share} %` })),
    foot: `M0.5 ${bottom}H${at(1)}`,
  };
}
