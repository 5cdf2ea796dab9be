/** Draws items with Pixi: no thought in it, only strokes. */
import type { Graphics } from 'pixi.js';
import { dashed, dotted } from '../../drawing/dash.ts';
import type { Item } from '../../drawing/item.ts';
import { type Pen, penOf, type StrokeName } from '../../drawing/pens.ts';
import type { Palette } from './palette.ts';

/** Draws items, those of one pen that follow each other in one stroke. */
export function drawItems(on: Graphics, items: readonly Item[], palette: Palette): void {
  let open: StrokeName | null = null;
  const close = () => {
    if (open) inked(on, penOf(open), palette);
    open = null;
  };
  for (const item of items) {
    const pen = penOf(item.stroke);
    if (open !== item.stroke) close();
    if (pen.fill || pen.dotsPx) {
      close();
      drawAlone(on, item, pen, palette);
    } else {
      trace(on, item, pen);
      open = item.stroke;
    }
  }
  close();
}

/** What is filled, or is made of dots, is a shape of its own. */
function drawAlone(on: Graphics, item: Item, pen: Pen, palette: Palette): void {
  if (pen.dotsPx && item.kind !== 'circle') {
    const dots = dotted(item.points, pen.dotsPx);
    for (let i = 0; i + 1 < dots.length; i += 2) on.circle(dots[i]!, dots[i + 1]!, pen.width / 2);
    if (pen.ink) on.fill(palette.inks[pen.ink]);
    return;
  }
  trace(on, item, pen);
  if (pen.fill) on.fill(palette.inks[pen.fill]);
  inked(on, pen, palette);
}

function trace(on: Graphics, item: Item, pen: Pen): void {
  if (item.kind === 'circle') {
    on.moveTo(item.x + item.r, item.y).circle(item.x, item.y, item.r);
    return;
  }
  if (item.kind === 'pieces') {
    const { points } = item;
    for (let i = 0; i + 3 < points.length; i += 4)
      on.moveTo(points[i]!, points[i + 1]!).lineTo(points[i + 2]!, points[i + 3]!);
    return;
  }
  if (pen.dash) {
    const round = item.closed ? [...item.points, ...item.points.slice(0, 2)] : item.points;
    for (const [x0, y0, x1, y1] of dashed(round, pen.dash)) on.moveTo(x0, y0).lineTo(x1, y1);
    return;
  }
  on.poly([...item.points], item.closed ?? false);
}

function inked(on: Graphics, pen: Pen, palette: Palette): void {
  if (!pen.ink) return;
  if (!pen.glow) on.stroke({ color: palette.inks[pen.ink], width: pen.width });
  else {
    const { ink, alpha, width } = palette.glow;
    on.stroke({ color: palette.inks[ink ?? pen.ink], width, alpha });
  }
}
