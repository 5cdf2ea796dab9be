/**
 * Plaster cut through, and dimensions of the brief.
 */
import { type Box, type Item, line, type PaperPoint, type ViewName } from './item.ts';
import { labelWidth, type Where, type Wish } from './label-place.ts';

/** Between the hatching's strokes, px across the page. */
const apartPx = 7;

/** Hatches boxes at 45°, in step with each other, so that no seam shows between them. */
export function hatched(boxes: readonly Box[]): Item {
  const points: number[] = [];
  for (const { x, y, width, height } of boxes) {
    const first = Math.ceil((x + y) / apartPx);
    const last = Math.floor((x + width + y + height) / apartPx);
    for (let k = first; k <= last; k++) {
      const sum = k * apartPx;
      const from = Math.max(x, sum - y - height);
      const to = Math.min(x + width, sum - y);
      if (to - from > 0.5) points.push(from, sum - from, to, sum - to);
    }
  }
  return { kind: 'pieces', stroke: 'hatch', points };
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
