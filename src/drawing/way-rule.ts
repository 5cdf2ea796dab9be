/**
 * The way in as a rule: from the mouth to home, graduated in tens of millimetres, or inches, with where the carcass
 * stands. px.
 */
import type { PushedIn } from '../marking/push-in.ts';
import { spokenUnits } from '../recess/lengths.ts';

export interface WayRule {
  readonly width: number;
  readonly ticks: readonly { readonly x: number; readonly long: boolean }[];
  /** Where the carcass's back is at a share of its way, 0 at the mouth, 1 where it stops. */
  at(share: number): number;
  readonly homeX: number;
}

const insetPx = 4;
/** The least that lies between two graduations, px. */
const apartPx = 4;

/** Lays the rule out in a width: 0 at the mouth, the last graduation at or before home. */
export function layoutWay(pushed: PushedIn, mouthMm: number, width: number): WayRule {
  const wayMm = pushed.homeMm - mouthMm;
  const scale = (width - 2 * insetPx) / wayMm;
  const [steps, long] = spokenUnits() === 'mm' ? [[10, 20, 50, 100], 100] : [[12.7, 25.4, 101.6], 101.6];
  const step = steps.find((s) => s * scale >= apartPx) ?? long;
  const count = Math.floor(wayMm / step);
  return {
    width,
    ticks: Array.from({ length: count + 1 }, (_, i) => ({
      x: insetPx + i * step * scale,
      long: Math.round(i * step * 10) % Math.round(long * 10) === 0,
    })),
    at: (share) => insetPx + share * (pushed.backMm - mouthMm) * scale,
    homeX: insetPx + wayMm * scale,
  };
}
