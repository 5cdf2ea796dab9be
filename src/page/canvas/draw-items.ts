/** Draws items with Pixi: no thought in it, only strokes. */
import type { Graphics } from 'pixi.js';
import { dashed } from '../../drawing/dash.ts';
import type { Ink, Item, PathItem } from '../../drawing/item.ts';

/** The colours of the inks, as the theme has them now. */
export type Palette = Readonly<Record<Ink, string>>;

export function drawItems(pen: Graphics, items: readonly Item[], palette: Palette): void {
  for (const item of items) {
    if (item.kind === 'circle') {
      pen.circle(item.x, item.y, item.r);
      if (item.fill) pen.fill(palette[item.fill]);
      pen.stroke({ color: palette[item.ink], width: item.width });
    } else drawPath(pen, item, palette);
  }
}

function drawPath(pen: Graphics, item: PathItem, palette: Palette): void {
  const stroke = { color: palette[item.ink], width: item.width, alpha: item.alpha ?? 1 };
  if (item.dash) {
    for (const [x0, y0, x1, y1] of dashed(item.points, item.dash)) pen.moveTo(x0, y0).lineTo(x1, y1);
    pen.stroke(stroke);
    return;
  }
  pen.poly([...item.points], item.closed ?? false);
  if (item.fill) pen.fill(palette[item.fill]);
  pen.stroke(stroke);
}
