/**
 * The true room, exaggerated by a stated factor: how far each surface is out, drawn beside its straight outline.
 */
import type { TrueCurve, UncoveredRoom } from '../marking/uncovered-room.ts';

export interface UncoveredLayout {
  readonly width: number;
  readonly height: number;
  readonly factor: number;
  readonly straight: readonly string[];
  /** At the face line thin, at the back bold. */
  readonly curves: readonly { readonly d: string; readonly back: boolean }[];
  readonly readings: readonly { readonly x: number; readonly y: number; readonly back: boolean }[];
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number } | null;
}

/** Lays out the side walls by height: along is up, across is how far out. */
export function layoutUncovered(room: UncoveredRoom, panel: { width: number; height: number }): UncoveredLayout {
  const walls = room.walls;
  const straight = {
    left: walls.find((w) => w.side === 'left')?.straightMm ?? 0,
    right: walls.find((w) => w.side === 'right')?.straightMm ?? 0,
  };
  const high = Math.max(...walls.flatMap((w) => w.alongMm));
  const most = Math.max(1, ...walls.flatMap((w) => w.acrossMm.map((a) => Math.abs(a - w.straightMm))));
  const margin = Math.min(110, panel.width * 0.26);
  const scale = Math.min((panel.width - 2 * margin) / (straight.right - straight.left), (panel.height - 24) / high);
  const factor = factorFor((margin - 14) / scale / most);
  const x0 = (panel.width - (straight.right - straight.left) * scale) / 2;
  const at = (side: 'left' | 'right', across: number, z: number): readonly [number, number] => [
    x0 + (straight[side] - straight.left + (across - straight[side]) * factor) * scale,
    12 + (high - z) * scale,
  ];
  const sideOf = (w: { side: string }) => (w.side === 'left' ? 'left' : 'right') as 'left' | 'right';
  return {
    width: panel.width,
    height: 24 + high * scale,
    factor,
    straight: (['left', 'right'] as const).map((side) => {
      const [x] = at(side, straight[side], 0);
      return `M${px(x)} 12V${px(12 + high * scale)}`;
    }),
    curves: walls.map((w) => ({ d: path(w, (a, z) => at(sideOf(w), a, z)), back: w.atMm > 0 })),
    readings: room.readings
      .filter((r) => r.side === 'left' || r.side === 'right')
      .map((r) => {
        const [x, y] = at(sideOf(r), r.xMm, r.zMm);
        return { x, y, back: r.yMm > (walls.find((w) => w.atMm > 0)?.atMm ?? 1) / 2 };
      }),
    box: boxOf(room, at),
  };
}

function boxOf(
  room: UncoveredRoom,
  at: (side: 'left' | 'right', across: number, z: number) => readonly [number, number],
): UncoveredLayout['box'] {
  const c = room.carcass;
  if (!c) return null;
  const [x, y] = at('left', c.leftMm, c.topMm);
  const [x1, y1] = at('right', c.leftMm + c.widthMm, c.bottomMm);
  return { x, y, width: Math.max(0, x1 - x), height: Math.max(0, y1 - y) };
}

function path(w: TrueCurve, at: (across: number, along: number) => readonly [number, number]): string {
  return w.alongMm
    .map((z, i) => {
      const [x, y] = at(w.acrossMm[i] ?? w.straightMm, z);
      return `${i === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`;
    })
    .join('');
}

/** The largest of a few round factors that keeps the drawing in its panel. */
function factorFor(most: number): number {
  return [50, 30, 20, 10, 5, 2].find((f) => f <= most) ?? 1;
}

function px(value: number): number {
  return Math.round(value * 10) / 10;
}
