/**
 * The frame of the three views: how large each is drawn and where in the panel it stands.
 *
 * It depends on the brief's sizes and, in whole steps, on how far out in the room the level stands: so nothing moves
 * while the level is carried about within a step.
 */
import type { Outline } from '../exercise/outline.ts';
import type { PlanPoint } from '../geometry/polygon.ts';
import type { Box, PaperPoint, ViewName } from './item.ts';
import { goesThrough, hasFace, isThere, sideAt } from './outline-shape.ts';
import { heightFigurePx } from './plaster.ts';
import { type Extent, fitted, type Viewport } from './viewport.ts';

export interface RoomPanel {
  /** px */
  readonly width: number;
  readonly height: number;
  readonly large: ViewName;
  /** How far out the plan shows the floor at least, mm: where marks and other levels are, or are to come. */
  readonly outMm?: number;
}

export interface RoomFrame {
  readonly panel: RoomPanel;
  readonly ports: Readonly<Record<ViewName, Viewport>>;
  /** Where each view's caption stands: its left, and the line it stands on. */
  readonly captions: Readonly<Record<ViewName, PaperPoint>>;
  /** Thickness of cut plaster, px. */
  readonly wallPx: number;
  /** A strip of three small views: no dimensions, and the level drawn small. */
  readonly small: boolean;
}

/** px around what a view shows. */
interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Shape {
  readonly extent: Extent;
  readonly margins: Margins;
}

type Shapes = Readonly<Record<ViewName, Shape>>;
type Boxes = Readonly<Record<ViewName, Box>>;

const captionPx = 24;
const gapPx = 16;
/** Beside an end that runs on into the room, px. */
const openPx = 8;
/** A step by which a view reaches further out, mm, and how far the section goes. */
const stepMm = 400;
const sectionMostMm = 1500;
/** How much is shown of a face beside the mouth, of a wall past an open side, of a room behind an opening, mm. */
const faceMm = 110;
const openMm = 160;
const behindMm = 220;
/** An opening so wide is surveyed from further out. */
const furtherOutMm = 1900;
const leastScale = 0.004;
/** How wide a view is at least, so that its caption stands clear of the next, px. */
const captionWidths = { elevation: 66, section: 54, plan: 34 } as const;

/**
 * Frames the views.
 *
 * @param level - where it is reckoned to stand, hand's frame, mm; null before it is stood
 * @throws {RangeError} if the panel is smaller than 200 by 120 px
 */
export function frameRoom(outline: Outline, level: PlanPoint | null, panel: RoomPanel): RoomFrame {
  if (!(panel.width >= 200 && panel.height >= 120))
    throw new RangeError(`room: panel must be 200 by 120 px or more, got ${panel.width} by ${panel.height}`);
  const small = panel.height < 260;
  const strip = small || panel.width > 1.5 * panel.height;
  const wallPx = small ? 8 : 12;
  const shapes = shapesOf(outline, level, { panel, small, strip, wallPx });
  const boxes = strip
    ? inStrip(shapes, panel)
    : liesUnder(shapes, panel)
      ? overPlan(shapes, panel)
      : tall(shapes, panel);
  const port = (view: ViewName) => portIn(boxes[view], shapes[view]);
  const caption = (view: ViewName): PaperPoint => [boxes[view].x + 2, boxes[view].y + 17];
  return {
    panel,
    ports: { plan: port('plan'), elevation: port('elevation'), section: port('section') },
    captions: { plan: caption('plan'), elevation: caption('elevation'), section: caption('section') },
    wallPx,
    small,
  };
}

function shapesOf(
  outline: Outline,
  level: PlanPoint | null,
  on: { panel: RoomPanel; small: boolean; strip: boolean; wallPx: number },
): Shapes {
  const { height, depth } = outline.openingMm;
  const top = captionPx + on.wallPx;
  const wall = on.wallPx + 1;
  const [left, right] = [besideOf(outline, 'left', level), besideOf(outline, 'right', level)];
  const margin = (beside: number) => (beside > 0 ? openPx : wall);
  const plan: Margins = { left: margin(left), right: margin(right), top, bottom: openPx };
  const [x0, x1] = [sideAt(outline, 'left'), sideAt(outline, 'right')];
  const a = [x0 - left, x1 + right] as const;
  const out = Math.max(level ? inSteps(280 - level.y) : 0, on.panel.outMm ?? 0);
  const dims = on.small ? 0 : captionPx;
  const behind = goesThrough(outline) ? behindMm : 0;
  const far = depth + behind;
  return {
    plan: { margins: plan, extent: { a, b: [0 - Math.max(out, shownInFront(on, { a, depth: far, plan })), far] } },
    elevation: {
      margins: { left: wall, right: on.small ? 20 : 24, top, bottom: wall + dims },
      extent: { a: [x0, x1], b: [0, height] },
    },
    section: {
      margins: { left: 12, right: on.wallPx + (on.small ? 0 : heightFigurePx()), top, bottom: wall + dims },
      extent: { a: [0 - Math.min(Math.max(out, on.small ? 420 : 700), sectionMostMm), far], b: [0, height] },
    },
  };
}

/**
 * How far past a side a plan shows, mm: a face beside the mouth, or the wall that goes on past an open side, and as far
 * as a level that stands out there; 0 where the side wall runs on into the room.
 */
function besideOf(outline: Outline, hand: 'left' | 'right', level: PlanPoint | null): number {
  const open = !isThere(outline, hand);
  if (!open && !hasFace(outline, hand)) return 0;
  const x = level ? (hand === 'right' ? level.x : 0 - level.x) : Number.NEGATIVE_INFINITY;
  const half = outline.openingMm.width / 2;
  return Math.max(x < half - 40 ? 0 : inSteps(x - half + 260), open ? openMm : faceMm);
}

function inSteps(mm: number): number {
  return mm <= 0 ? 0 : stepMm * Math.ceil(mm / stepMm);
}

/** How much of the floor in front a plan shows, mm: what is left of its share of the panel when it is drawn full width. */
function shownInFront(
  on: { panel: RoomPanel; small: boolean; strip: boolean },
  of: { a: readonly [number, number]; depth: number; plan: Margins },
): number {
  const isWide = of.a[1] - of.a[0] > furtherOutMm;
  if (on.small && !isWide) return 480;
  const [wide, high] = on.small
    ? [0.37, 1]
    : on.strip
      ? [0.48, 1]
      : on.panel.large === 'plan'
        ? [1, 0.54]
        : [0.34, 0.46];
  const scale = (wide * on.panel.width - of.plan.left - of.plan.right) / (of.a[1] - of.a[0]);
  const share = (high * on.panel.height - of.plan.top - of.plan.bottom) / scale - of.depth;
  const most = isWide ? 2000 : 900;
  return 20 * Math.floor(Math.min(Math.max(share, 440), most) / 20);
}

/** Elevation and section side by side above a plan that takes the width. */
function overPlan(shapes: Shapes, { width, height }: RoomPanel): Boxes {
  const planScale = scaleIn(shapes.plan, { width, height: 0.58 * height });
  const plan = sizeAt(shapes.plan, planScale);
  const top = height - plan.height - 8;
  const upright = pairScale(shapes, { width, height: top });
  const elevation = sizeAt(shapes.elevation, upright);
  const section = sizeAt(shapes.section, upright);
  const sectionX = Math.max(elevation.width + gapPx, Math.min(width / 2, width - section.width));
  return {
    elevation: { x: 0, y: 0, ...elevation },
    section: { x: sectionX, y: 0, ...section },
    plan: { x: 0, y: height - plan.height, ...plan },
  };
}

/** A plan that is large lies under the others, but not one that is much deeper than wide: the room far out in front. */
function liesUnder({ plan }: Shapes, { large }: RoomPanel): boolean {
  return large === 'plan' && highMm(plan) < 1.5 * wideMm(plan);
}

/** One view as tall as the panel, the two others one above the other beside it. */
function tall(shapes: Shapes, { width, height, large }: RoomPanel): Boxes {
  const over: ViewName = large === 'elevation' ? 'section' : 'elevation';
  const under: ViewName = large === 'plan' ? 'section' : 'plan';
  const most = Math.max(120, 0.34 * width);
  const big = sizeAt(shapes[large], scaleIn(shapes[large], { width: width - most - gapPx, height }));
  const beside = { x: big.width + gapPx, width: width - big.width - gapPx };
  const low = sizeAt(shapes[under], scaleIn(shapes[under], { width: beside.width, height: 0.48 * height }));
  const upright = { width: beside.width, height: height - low.height - 8 };
  const high = sizeAt(shapes[over], scaleIn(shapes[over], upright));
  const boxes = {
    [large]: { x: 0, y: 0, ...big },
    [over]: { x: beside.x, y: 0, ...high },
    [under]: { x: beside.x, y: high.height + 8, ...low },
  };
  return boxes as Record<ViewName, Box>;
}

/** The three side by side: an upright one that is large as tall as the panel, the others as wide as is left. */
function inStrip(shapes: Shapes, { width, height, large }: RoomPanel): Boxes {
  const names = ['elevation', 'section', 'plan'] as const;
  const gap = height < 260 ? 10 : gapPx;
  const tallest = (n: ViewName) => scaleIn(shapes[n], { width: 0.6 * width, height });
  const kept = large === 'plan' ? null : large;
  const shared = names.filter((n) => n !== kept);
  const fixed = 2 * gap + names.reduce((sum, n) => sum + sidesPx(shapes[n]), 0);
  const wideAt = (n: ViewName) => wideMm(shapes[n]) * tallest(n);
  const left = width - fixed - (kept ? wideAt(kept) : 0);
  const shrink = Math.min(1, left / shared.reduce((sum, n) => sum + wideAt(n), 0));
  const pair = Math.min(tallest('elevation'), tallest('section'));
  const scale = (n: ViewName) =>
    n === kept ? tallest(n) : Math.max(leastScale, shrink * (n === 'plan' || kept ? tallest(n) : pair));
  let x = 0;
  const boxes = {} as Record<ViewName, Box>;
  for (const n of names) {
    const size = sizeAt(shapes[n], scale(n));
    boxes[n] = { x, y: 0, ...size };
    x += Math.max(size.width, captionWidths[n]) + gap;
  }
  const spare = width + gap - x;
  if (spare >= 0) return boxes;
  return {
    ...boxes,
    plan: { ...boxes.plan, ...sizeAt(shapes.plan, scaleIn(shapes.plan, { width: width - boxes.plan.x, height })) },
  };
}

/** The greatest scale at which elevation and section stand side by side, alike. */
function pairScale({ elevation, section }: Shapes, room: { width: number; height: number }): number {
  const fixed = sidesPx(elevation) + sidesPx(section) + gapPx;
  const across = (room.width - fixed) / (wideMm(elevation) + wideMm(section));
  const up = (s: Shape) => (room.height - s.margins.top - s.margins.bottom) / highMm(s);
  return Math.max(leastScale, Math.min(across, up(elevation), up(section)));
}

function scaleIn(shape: Shape, room: { width: number; height: number }): number {
  const across = (room.width - sidesPx(shape)) / wideMm(shape);
  const up = (room.height - shape.margins.top - shape.margins.bottom) / highMm(shape);
  return Math.max(leastScale, Math.min(across, up));
}

function sizeAt(shape: Shape, scale: number): { width: number; height: number } {
  const { margins } = shape;
  return {
    width: sidesPx(shape) + wideMm(shape) * scale,
    height: margins.top + margins.bottom + highMm(shape) * scale,
  };
}

function portIn(box: Box, { extent, margins }: Shape): Viewport {
  const inner = {
    x: box.x + margins.left,
    y: box.y + margins.top,
    width: box.width - margins.left - margins.right,
    height: box.height - margins.top - margins.bottom,
  };
  return fitted(inner, extent);
}

function sidesPx({ margins }: Shape): number {
  return margins.left + margins.right;
}

function wideMm({ extent }: Shape): number {
  return extent.a[1] - extent.a[0];
}

function highMm({ extent }: Shape): number {
  return extent.b[1] - extent.b[0];
}
