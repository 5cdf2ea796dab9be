/**
 * The side walls uncovered, by height: at the face line and at the back, with the carcass between them. px.
 */
import { closed, drawnFactor, type Px, pastShapes, px, through } from './drawn-out.ts';
import type { Rectangle } from './fit-playback.ts';
import { withLetters } from './ring-letters.ts';
import type { UncoveredLayout, Uncovering } from './uncovered.ts';
import { fitted, type Viewport } from './viewport.ts';

export const topPx = 14;
export const edgePx = 4;
/** What stays free on either side of the middle, px. */
const middlePx = 44;

type WallSide = 'left' | 'right';
const wallSides = ['left', 'right'] as const;

/** Lays the section out. */
export function layoutWallsSection(of: Uncovering, panel: { width: number; height: number }): UncoveredLayout {
  const { room, carcass } = of;
  const walls = room.walls.map((w) => ({ ...w, side: w.side as WallSide }));
  const [left, right] = [straightOf(room, 'left'), straightOf(room, 'right')];
  const straight = { left: left ?? 0 - (right ?? 0), right: right ?? 0 - (left ?? 0) };
  const { port, bottom } = uprightPort(Math.max(...walls.flatMap((w) => w.alongMm)), panel);
  const base = Math.min((straight.right - straight.left) * port.scale, panel.width * 0.52);
  const x = { left: (panel.width - base) / 2, right: (panel.width + base) / 2 };
  const edge = { left: edgePx, right: panel.width - edgePx };
  const outs = departures(of, straight);
  const factor = drawnFactor((f) =>
    outs.every((out) => out * f * port.scale > edgePx + 4 - x.left && out * f * port.scale < base / 2 - middlePx),
  );
  const at = (side: WallSide, across: number, z: number): Px => [
    x[side] + (across - straight[side]) * factor * port.scale,
    port.at(0, z)[1],
  ];
  const line = (w: (typeof walls)[number]) => w.alongMm.map((z, i) => at(w.side, w.acrossMm[i] ?? w.straightMm, z));
  const half = Math.max(...walls.map((w) => w.atMm)) / 2;
  const sides = carcass ? { left: carcass.leftMm, right: carcass.leftMm + carcass.widthMm } : null;
  return {
    width: panel.width,
    height: bottom + topPx,
    factor,
    solid: walls
      .filter((w) => w.atMm > 0)
      .map((w) => {
        const points = line(w);
        return closed(
          points,
          points.map(([, y]): Px => [edge[w.side], y]),
        );
      }),
    straight: wallSides
      .filter((side) => straightOf(room, side) !== null)
      .map((side) => `M${px(x[side])} ${topPx}V${px(bottom)}`),
    ends: uprightEnds(panel.width, bottom),
    curves: walls.map((w) => ({
      d: through(line(w)),
      pen: w.atMm > 0 ? 'back' : 'front',
      across: 'x',
      straightPx: x[w.side],
    })),
    box:
      carcass && sides
        ? boxOf(at('left', sides.left, carcass.topMm), at('right', sides.right, carcass.bottomMm))
        : null,
    through:
      carcass && sides
        ? walls.flatMap((w) => {
            const inwards = w.side === 'left' ? 1 : -1;
            const within = w.alongMm
              .map((z, i) => ({ z, across: w.acrossMm[i] ?? w.straightMm }))
              .filter(({ z }) => z >= carcass.bottomMm && z <= carcass.topMm);
            return pastShapes(
              within.map(({ z, across }) => at(w.side, across, z)),
              within.map(({ z }) => at(w.side, sides[w.side], z)),
              (i) => inwards * ((within[i]?.across ?? 0) - sides[w.side]),
            );
          })
        : [],
    readings: room.readings.flatMap((r) => {
      if (!isWall(r.side)) return [];
      const [rx, ry] = at(r.side, r.xMm, r.zMm);
      return [{ x: rx, y: ry, back: r.yMm > half }];
    }),
    rings: withLetters(
      of.tight.flatMap((t) => {
        if (!isWall(t.surface)) return [];
        const [rx, ry] = at(t.surface, t.at.x, t.at.z);
        const inside = [t.surface === 'left' ? 1 : -1, ry < panel.height / 2 ? 1 : -1] as const;
        return [{ letter: t.letter, touches: t.touches, x: rx, y: ry, inside }];
      }),
      [],
    ),
    decided: of.decided.flatMap((d) => {
      if (!isWall(d.side)) return [];
      const [dx, dy] = at(d.side, d.at.x, d.at.z);
      return [{ x: dx, y: dy }];
    }),
    names: [],
    places: walls.flatMap((w) =>
      line(w).map(([px, py], i) => ({ side: w.side, u: w.atMm, v: w.alongMm[i] ?? 0, x: px, y: py })),
    ),
  };
}

/** The scale of a section that runs up, and where its foot is. */
export function uprightPort(high: number, panel: { height: number }): { port: Viewport; bottom: number } {
  const tall = panel.height - 2 * topPx;
  // As wide as it likes: across, only departures are drawn.
  const port = fitted({ x: 0, y: topPx, width: tall, height: tall }, { a: [0, 1], b: [0, high] });
  return { port, bottom: port.at(0, 0)[1] };
}

/** Floor and ceiling of a section that runs up. */
export function uprightEnds(width: number, bottom: number): string[] {
  return [bottom, topPx].map((y) => `M${edgePx} ${px(y)}H${width - edgePx}`);
}

export function boxOf([x0, y0]: Px, [x1, y1]: Px): Rectangle {
  return { x: x0, y: y0, width: Math.max(0, x1 - x0), height: Math.max(0, y1 - y0) };
}

function isWall(side: string): side is WallSide {
  return side === 'left' || side === 'right';
}

/** Where a wall would stand straight; null where that side is open. */
function straightOf(room: Uncovering['room'], side: WallSide): number | null {
  return room.walls.find((w) => w.side === side)?.straightMm ?? null;
}

/** Every departure that has to be seen, mm, + into the recess. */
function departures({ room, carcass }: Uncovering, straight: Readonly<Record<WallSide, number>>): number[] {
  const curves = room.walls.flatMap((w) => {
    const side = w.side as WallSide;
    return w.acrossMm.map((a) => (side === 'left' ? a - straight.left : straight.right - a));
  });
  if (!carcass) return curves;
  const beside = { left: carcass.leftMm - straight.left, right: straight.right - carcass.leftMm - carcass.widthMm };
  return [...curves, ...wallSides.filter((side) => straightOf(room, side) !== null).map((side) => beside[side])];
}
