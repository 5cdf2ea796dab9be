/**
 * The frame's blank offered up: its straight edges, and the walls beyond which its stock comes off, drawn out by a
 * factor so that millimetres can be seen. Units px.
 */
import type { FrameKey } from '../marking/answer-key.ts';
import { type Edge, edges } from '../marking/opening.ts';
import type { FaceEdge } from '../marking/uncovered-room.ts';
import { drawnFactor, type Px, pastShapes, through } from './drawn-out.ts';
import type { Rectangle } from './fit-playback.ts';
import { fitted, type Viewport } from './viewport.ts';

export interface FrameOffer {
  readonly width: number;
  readonly height: number;
  readonly blank: Rectangle;
  /** How many times larger the stock is drawn than the blank. */
  readonly factor: number;
  /** The walls at the face line, drawn out from the blank's edges. */
  readonly walls: readonly { readonly edge: Edge; readonly d: string }[];
  /** What comes off: between the blank's edge and the wall. */
  readonly stock: readonly string[];
  /** Where the wall stands beyond the blank: a gap. */
  readonly gaps: readonly string[];
}

const marginPx = 16;

/** Lays the blank out in a panel. */
export function layoutFrameOffer(
  frame: FrameKey,
  walls: readonly FaceEdge[],
  size: { width: number; height: number },
): FrameOffer {
  const scale = Math.min((size.width - 2 * marginPx) / frame.widthMm, (size.height - 2 * marginPx) / frame.heightMm);
  const blank = {
    x: (size.width - frame.widthMm * scale) / 2,
    y: marginPx,
    width: frame.widthMm * scale,
    height: frame.heightMm * scale,
  };
  const stocks = edges.flatMap((edge) => frame.stockMm[edge]);
  const most = Math.max(...stocks);
  const gap = Math.max(...stocks.map((s) => 0 - s));
  const room = Math.min(blank.width / 3, 44);
  const factor = drawnFactor((f) => most * f * scale <= room && gap * f * scale <= marginPx - 3);
  const port = fitted(blank, {
    a: [frame.at.leftMm, frame.at.leftMm + frame.widthMm],
    b: [frame.at.bottomMm, frame.at.bottomMm + frame.heightMm],
  });
  const runs = walls.map((w) => ({ edge: w.edge, points: pointsOf(w, { frame, port, factor }) }));
  const between = (points: readonly Point[], sign: 1 | -1) =>
    pastShapes(
      points.map((p) => p.wall),
      points.map((p) => p.edge),
      (i) => sign * (points[i]?.stock ?? 0),
    );
  return {
    width: size.width,
    height: blank.height + 2 * marginPx,
    blank,
    factor,
    walls: runs.map(({ edge, points }) => ({ edge, d: through(points.map((p) => p.wall)) })),
    stock: runs.flatMap(({ points }) => between(points, 1)),
    gaps: runs.flatMap(({ points }) => between(points, -1)),
  };
}

interface Point {
  readonly edge: Px;
  readonly wall: Px;
  readonly stock: number;
}

/** Which way the blank's inside lies from an edge. */
const inwards: Readonly<Record<Edge, Px>> = { left: [1, 0], right: [-1, 0], top: [0, 1], bottom: [0, -1] };

function pointsOf(w: FaceEdge, of: { frame: FrameKey; port: Viewport; factor: number }): Point[] {
  const { frame, port, factor } = of;
  const { at, widthMm, heightMm } = frame;
  const sides = { left: at.leftMm, right: at.leftMm + widthMm, bottom: at.bottomMm, top: at.bottomMm + heightMm };
  const [dx, dy] = inwards[w.edge];
  const upright = w.edge === 'left' || w.edge === 'right';
  const [from, to] = upright ? [sides.bottom, sides.top] : [sides.left, sides.right];
  return w.alongMm.map((along, i): Point => {
    const run = Math.min(Math.max(along, from), to);
    const edge = upright ? port.at(sides[w.edge], run) : port.at(run, sides[w.edge]);
    const stock = stockAt(w.edge, w.acrossMm[i] ?? 0, sides);
    const out = stock * factor * port.scale;
    return { edge, wall: [edge[0] + dx * out, edge[1] + dy * out], stock };
  });
}

/** What comes off an edge where the wall stands at `across`, mm; < 0 where the blank does not reach it. */
function stockAt(edge: Edge, across: number, sides: Readonly<Record<Edge, number>>): number {
  return edge === 'left' || edge === 'bottom' ? across - sides[edge] : sides[edge] - across;
}
