/**
 * Plaster cut through, and dimensions of the brief.
 */
import { spokenUnits } from '../recess/lengths.ts';
import { type Box, type Item, line, type PaperPoint, type ViewName } from './item.ts';
import { labelWidth, type Where, type Wish } from './label-place.ts';

/** Between the hatching's strokes, px across the page. */
const apartPx = 7;

/** Hatches boxes and convex shapes at 45°, in step with each other, so that no seam shows between them. */
export function hatched(shapes: readonly (Box | readonly PaperPoint[])[]): Item {
  const points: number[] = [];
  for (const shape of shapes) {
    const corners = 'width' in shape ? cornersOf(shape) : shape;
    const sums = corners.map(([x, y]) => x + y);
    const last = Math.floor(Math.max(...sums) / apartPx);
    for (let k = Math.ceil(Math.min(...sums) / apartPx); k <= last; k++) {
      const sum = k * apartPx;
      const [from, to] = acrossShape(corners, sum);
      if (to - from > 0.5) points.push(from, sum - from, to, sum - to);
    }
  }
  return { kind: 'pieces', stroke: 'hatch', points };
}

/** Where the line x + y = sum runs within a convex shape: from one x to another, the second smaller where it does not. */
function acrossShape(corners: readonly PaperPoint[], sum: number): readonly [from: number, to: number] {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [i, [x0, y0]] of corners.entries()) {
    const [x1, y1] = corners[(i + 1) % corners.length] as PaperPoint;
    const [a, b] = [x0 + y0 - sum, x1 + y1 - sum];
    if (a > 0 === b > 0) continue;
    const x = x0 + ((x1 - x0) * a) / (a - b);
    from = Math.min(from, x);
    to = Math.max(to, x);
  }
  return [from, to];
}

function cornersOf({ x, y, width, height }: Box): readonly PaperPoint[] {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

/** A break: what goes on past it is not drawn. A straight line with a kink in its middle. */
export function breakLine(from: PaperPoint, to: PaperPoint): Item {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.sqrt(dx * dx + dy * dy) || 1;
  const [ux, uy] = [dx / long, dy / long];
  const kink = Math.min(5, long / 6);
  const at = (along: number, off: number): PaperPoint => [
    from[0] + dx / 2 + ux * along - uy * off,
    from[1] + dy / 2 + uy * along + ux * off,
  ];
  return line('break', from, at(0 - kink, 0), at(0 - kink / 2, kink), at(kink / 2, 0 - kink), at(kink, 0), to);
}

/** The box between two corners. */
export function boxBetween(a: PaperPoint, b: PaperPoint): Box {
  return {
    x: Math.min(a[0], b[0]),
    y: Math.min(a[1], b[1]),
    width: Math.abs(a[0] - b[0]),
    height: Math.abs(a[1] - b[1]),
  };
}

/** What a height's figure takes beside a view, px: of inches more, for it is a fraction. */
export function heightFigurePx(): number {
  return spokenUnits() === 'mm' ? 31 : 52;
}

/** A dimension along the page or up it: ticks at its ends, its figure in a gap, or beside it where it is short. */
export function dimension(
  view: ViewName,
  text: string,
  ends: readonly [PaperPoint, PaperPoint],
): { readonly items: readonly Item[]; readonly wish: Wish } {
  const [[x0, y0], [x1, y1]] = ends;
  const flat = y0 === y1;
  const long = flat ? x1 - x0 : y1 - y0;
  const gap = flat ? labelWidth(text, 'note') + 6 : 18;
  const [mx, my] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const label = { view, text, role: 'note' } as const;
  const tick = (x: number, y: number) =>
    flat ? line('dim', [x, y - 4], [x, y + 4]) : line('dim', [x - 4, y], [x + 4, y]);
  const ticks = [tick(x0, y0), tick(x1, y1)];
  const beside: Where[] = [
    [x0 - 6, y0 + 4, 'end'],
    [x1 + 6, y1 + 4, 'start'],
  ];
  if (long < gap + 10) return { items: [...ticks, line('dim', [x0, y0], [x1, y1])], wish: { label, at: beside } };
  const half = gap / 2;
  const parts = flat
    ? [line('dim', [x0, y0], [mx - half, y0]), line('dim', [mx + half, y0], [x1, y0])]
    : [line('dim', [x0, y0], [x0, my - half]), line('dim', [x0, my + half], [x0, y1])];
  return { items: [...ticks, ...parts], wish: { label, at: [[mx, my + 4, 'middle']] } };
}
