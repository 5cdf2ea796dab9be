/**
 * The upright views: the elevation as you stand facing the recess, and the section through it from the side.
 */

import type { Point } from '../geometry/plane.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import { type Reckoned, reckonedPlace } from '../survey/reckoning.ts';
import { type Drawing, flag, hatched, type Item, type Label, lightLine, line, pencilMark } from './item.ts';
import { type RoomFocus, ruleEnd } from './room-focus.ts';
import { type Box, fitted, type Viewport } from './viewport.ts';

const wallPx = 12;
/** How much of the room in front the section shows, mm. */
const frontMm = 330;

/** Lays out the elevation: along is x. */
export function layoutElevation(view: LearnerView, focus: RoomFocus, box: Box): Drawing {
  const { width, height } = view.outline.openingMm;
  const half = width / 2;
  const port = fitted(innerOf(box, 22), { a: [-half, half], b: [0, height] });
  const [x0, y0] = port.at(-half, height);
  const [x1, y1] = port.at(half, 0);
  const level = view.level;
  const lines = level?.settled ? elevationLines(view, level, port) : { items: [], labels: [] };
  const marks = marksOf(
    view,
    (p) => port.at(p.x, p.z),
    (m) => m.surface === 'back' || m.surface === 'left' || m.surface === 'right',
  );
  return {
    items: [
      ...hatched(x0 - wallPx, y0 - wallPx, x1 + wallPx, y0),
      ...hatched(x0 - wallPx, y0, x0, y1 + wallPx),
      ...hatched(x1, y0, x1 + wallPx, y1 + wallPx),
      ...hatched(x0, y1, x1, y1 + wallPx),
      { kind: 'path', points: [x0, y0, x1, y0, x1, y1, x0, y1], closed: true, ink: 'ink', width: 1.75 },
      ...bands(view, (z) => line(port.at(-half, z), port.at(half, z), bandPen(false))),
      ...lines.items,
      ...(level ? standing(port.at(level.at.x, level.at.z), y1) : []),
      ...runDots(focus, (p) => port.at(p.x, p.z)),
      ...marks.items,
      ...rule(focus, (p) => port.at(p.x, p.z)),
      ...dimension([x0, y1 + wallPx + 10], [x1, y1 + wallPx + 10]),
    ],
    labels: [
      ...lines.labels,
      ...marks.labels,
      { x: (x0 + x1) / 2, y: y1 + wallPx + 25, text: String(width), anchor: 'middle', role: 'note' },
    ],
    picks: [
      { surface: 'left', axis: 'z', px: [x0, y1, x0, y0], mm: [0, height] },
      { surface: 'right', axis: 'z', px: [x1, y1, x1, y0], mm: [0, height] },
      { surface: 'floor', axis: 'x', px: [x0, y1, x1, y1], mm: [-half, half] },
      { surface: 'ceiling', axis: 'x', px: [x0, y0, x1, y0], mm: [-half, half] },
    ],
  };
}

/** Lays out the section, seen from the left: along is y, the back on the right. */
export function layoutSection(view: LearnerView, focus: RoomFocus, box: Box): Drawing {
  const { height, depth } = view.outline.openingMm;
  const port = fitted(innerOf(box, 22), { a: [-frontMm, depth], b: [0, height] });
  const [x0, y0] = port.at(-frontMm, height);
  const [x1, y1] = port.at(depth, 0);
  const level = view.level;
  const at = (p: Point) => port.at(Math.max(p.y, -frontMm), p.z);
  const lines = level?.settled ? sectionLines(level, port, { x0, x1, y0, y1 }) : { items: [], labels: [] };
  const marks = marksOf(view, at, () => true);
  const [fx] = port.at(0, 0);
  return {
    items: [
      ...hatched(x0, y0 - wallPx, x1 + wallPx, y0),
      ...hatched(x1, y0, x1 + wallPx, y1 + wallPx),
      ...hatched(x0, y1, x1, y1 + wallPx),
      { kind: 'path', points: [x0, y0, x1, y0, x1, y1, x0, y1], ink: 'ink', width: 1.75 },
      ...bands(view, (z) => line([x1 - 6, port.at(0, z)[1]], [x1, port.at(0, z)[1]], bandPen(false))),
      ...lines.items,
      ...(level && level.at.y > -frontMm ? standing(port.at(level.at.y, level.at.z), y1) : []),
      ...runDots(focus, at),
      ...marks.items,
      ...rule(focus, at),
      ...dimension([fx, y1 + wallPx + 10], [x1, y1 + wallPx + 10]),
    ],
    labels: [
      ...lines.labels,
      ...marks.labels,
      { x: (fx + x1) / 2, y: y1 + wallPx + 25, text: String(depth), anchor: 'middle', role: 'note' },
    ],
    picks: [{ surface: 'back', axis: 'z', px: [x1, y1, x1, y0], mm: [0, height] }],
  };
}

function innerOf(box: Box, below: number): Box {
  return {
    x: box.x + wallPx,
    y: box.y + wallPx,
    width: box.width - 2 * wallPx,
    height: box.height - 2 * wallPx - below,
  };
}

function elevationLines(view: LearnerView, level: Reckoned, port: Viewport): { items: Item[]; labels: Label[] } {
  const { width, height, depth } = view.outline.openingMm;
  const doubled = level.setUp > 1;
  const name = (kind: string) => (doubled ? `${kind}${level.setUp}` : kind);
  const half = width / 2;
  const l = [...port.at(-half, level.at.z), ...port.at(half, level.at.z)];
  const { facing } = level;
  const x = Math.abs(facing.y) < 0.2 ? null : level.at.x + (facing.x / facing.y) * (depth - level.at.y);
  const items = lightLine(l, 'L', doubled);
  const [lx, ly] = port.at(half, level.at.z);
  const signL = flag(lx + 14, ly, name('L'));
  const labels = [...signL.labels];
  items.push(...signL.items);
  if (x !== null && Math.abs(x) < half) {
    items.push(...lightLine([...port.at(x, height), ...port.at(x, 0)], 'S', doubled));
    const [sx, sy] = port.at(x, height * 0.72);
    const signS = flag(sx, sy, name('S'));
    items.push(...signS.items);
    labels.push(...signS.labels);
  }
  return { items, labels };
}

function sectionLines(
  level: Reckoned,
  port: Viewport,
  in_: { x0: number; x1: number; y0: number; y1: number },
): { items: Item[]; labels: Label[] } {
  const doubled = level.setUp > 1;
  const name = (kind: string) => (doubled ? `${kind}${level.setUp}` : kind);
  const [, ly] = port.at(0, level.at.z);
  const items = lightLine([in_.x0, ly, in_.x1, ly], 'L', doubled);
  const signL = flag(in_.x0 + 10, ly, name('L'));
  const labels = [...signL.labels];
  items.push(...signL.items);
  const along = Math.abs(level.facing.y) > 0.7 ? level.at.y : null;
  if (along !== null && along > -frontMm) {
    const [fx] = port.at(along, 0);
    items.push(...lightLine([fx, in_.y0, fx, in_.y1], 'F', doubled));
    const signF = flag(fx, in_.y0 + (in_.y1 - in_.y0) * 0.28, name('F'));
    items.push(...signF.items);
    labels.push(...signF.labels);
  }
  return { items, labels };
}

/** The tops of skirtings and the undersides of cornices that are still there. */
function bands(view: LearnerView, draw: (z: number) => Item): Item[] {
  const { height } = view.outline.openingMm;
  const heights = view.trims
    .filter((t) => !t.cleared)
    .map((t) => (t.kind === 'skirting' ? t.vMm[1] : height - Math.max(...t.profile.mm.map(([, mm]) => mm))));
  return [...new Set(heights)].map(draw);
}

function bandPen(off: boolean) {
  return { ink: 'soft', width: 0.75, ...(off ? { dash: [2, 3] } : {}) } as const;
}

function marksOf(
  view: LearnerView,
  at: (p: Point) => readonly [number, number],
  shown: (place: LearnerView['marks'][number]['place']) => boolean,
): { items: Item[]; labels: Label[] } {
  const found = view.marks
    .filter((m) => shown(m.place))
    .map((m) => pencilMark(...at(reckonedPlace(view.outline, view.level, m.place)), m.mark));
  return { items: found.flatMap((m) => m.items), labels: found.flatMap((m) => m.labels) };
}

function standing([x, y]: readonly [number, number], floorY: number): Item[] {
  const pen = { ink: 'ink', width: 1 } as const;
  return [
    line([x, y + 6], [x - 15, floorY], pen),
    line([x, y + 6], [x, floorY], pen),
    line([x, y + 6], [x + 15, floorY], pen),
    {
      kind: 'path',
      points: [x - 5.5, y - 6.5, x + 5.5, y - 6.5, x + 5.5, y + 6.5, x - 5.5, y + 6.5],
      closed: true,
      ink: 'ink',
      width: 1.5,
      fill: 'sheet',
    },
    line([x - 5.5, y], [x + 5.5, y], pen),
    line([x, y - 6.5], [x, y + 6.5], pen),
  ];
}

function runDots(focus: RoomFocus, at: (p: Point) => readonly [number, number]): Item[] {
  return focus.runPlaces.map((p): Item => {
    const [x, y] = at(p);
    return { kind: 'circle', x, y, r: 3, ink: 'graphite', width: 1, fill: p.done ? 'graphite' : 'paper' };
  });
}

function rule(focus: RoomFocus, at: (p: Point) => readonly [number, number]): Item[] {
  const { place } = focus;
  if (!place) return [];
  const end = ruleEnd(focus);
  const [x, y] = at(place);
  const ring: Item = { kind: 'circle', x, y, r: 6.5, ink: 'hand', width: 2 };
  if (!end) return [ring];
  const [ex, ey] = at(end);
  if (Math.abs(ex - x) + Math.abs(ey - y) < 4) return [ring];
  const across = Math.abs(ex - x) > Math.abs(ey - y);
  const [w, h] = across ? [0, 2] : [2, 0];
  return [
    {
      kind: 'path',
      points: [x - w, y - h, ex - w, ey - h, ex + w, ey + h, x + w, y + h],
      closed: true,
      ink: 'ink',
      width: 1,
      fill: 'wood',
    },
    ring,
  ];
}

function dimension(from: readonly [number, number], to: readonly [number, number]): Item[] {
  const pen = { ink: 'edge', width: 0.75 } as const;
  return [
    line(from, to, pen),
    line([from[0], from[1] - 4], [from[0], from[1] + 4], pen),
    line([to[0], to[1] - 4], [to[0], to[1] + 4], pen),
  ];
}
