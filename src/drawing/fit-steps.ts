/**
 * Fitting told in steps: the carcass at the mouth, on its way, where it stops; then the frame offered up. Plan in px.
 */
import type { Outline } from '../exercise/outline.ts';
import type { PlacedCarcass } from '../marking/carcass-fit.ts';
import type { PushedIn } from '../marking/push-in.ts';

export interface FitPlan {
  readonly width: number;
  readonly height: number;
  readonly walls: string;
  readonly face: { readonly y: number; readonly x0: number; readonly x1: number };
  /** The carcass at a share of its way, 0 at the mouth, 1 where it stops. */
  box(share: number): { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly homeY: number;
  readonly touches: readonly { readonly x: number; readonly y: number }[];
}

/** Lays the plan of the fit out in a width. */
export function layoutFit(
  outline: Outline,
  sent: { carcass: PlacedCarcass; pushed: PushedIn },
  panelWidth: number,
): FitPlan {
  const { width, depth } = outline.openingMm;
  const { carcass, pushed } = sent;
  const half = width / 2;
  const front = Math.max(120, carcass.depthMm - (pushed.backMm - outline.mouthMm) + 60);
  const scale = Math.min((panelWidth - 40) / width, 260 / (depth + front));
  const x0 = (panelWidth - width * scale) / 2;
  const at = (x: number, y: number): readonly [number, number] => [x0 + (x + half) * scale, 12 + (depth - y) * scale];
  const [lx, by] = at(-half, depth);
  const [rx, my] = at(half, outline.mouthMm);
  const [, fy] = at(0, -front);
  const right = outline.breastSide === 'right';
  const walls = right ? `M${lx} ${fy}V${by}H${rx}V${my}H${rx + 18}` : `M${rx} ${fy}V${by}H${lx}V${my}H${lx - 18}`;
  return {
    width: panelWidth,
    height: 24 + (depth + front) * scale,
    walls,
    face: { y: at(0, 0)[1], x0: lx, x1: rx },
    box: (share) => {
      const back = outline.mouthMm + (pushed.backMm - outline.mouthMm) * share;
      const [x, y] = at(carcass.leftMm, back);
      return { x, y, width: carcass.widthMm * scale, height: carcass.depthMm * scale };
    },
    homeY: at(0, pushed.homeMm)[1],
    touches: (pushed.stoppedBy?.at ?? []).map((p) => {
      const [x, y] = at(p.x, Math.min(p.y, pushed.backMm));
      return { x, y };
    }),
  };
}
