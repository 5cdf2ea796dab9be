/**
 * The plan: the recess from above, the room in front of it, the level, its upright lines and where L runs on the walls.
 *
 * It is laid out from the outline alone: it takes no recess.
 */
import type { Outline } from '../exercise/outline.ts';
import type { PlanPoint } from '../geometry/polygon.ts';
import type { LearnerView, SeenTrim } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { type Drawn, pencilMarks, ruleInHand, runDots, type Sheet } from './in-hand.ts';
import { type Box, type Hit, type Item, line, type PaperPoint } from './item.ts';
import type { Where, Wish } from './label-place.ts';
import { boxesFromAbove, levelFromAbove, sizeFromAbove } from './level-drawing.ts';
import { flagWish, nameOf, spotsAlong, thrown } from './light-drawing.ts';
import { type LineEnd, levelStretches, lineEnds, type WallStretch } from './light-on-outline.ts';
import { boxBetween, hatched } from './plaster.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import { keptDatums, type PlacedMark } from './room-marks.ts';
import type { Viewport } from './viewport.ts';

/** How far inside a wall L's light is drawn, px. */
const insetPx = 4.5;
/** How much of the breast is hatched to its full depth, px. */
const breastPx = 30;

/** Where the plan's walls stand, px: -1 or 1 is the way out of the recess on that side. */
interface Walls {
  readonly partyX: number;
  readonly breastX: number;
  readonly edgeX: number;
  readonly backY: number;
  readonly mouthY: number;
  readonly frontY: number;
  /** Towards the party wall. */
  readonly out: -1 | 1;
}

/** Draws what stands still: walls, trims, the reference. */
export function planGround(view: Pick<LearnerView, 'outline' | 'trims'>, frame: RoomFrame): Drawn {
  const port = frame.ports.plan;
  const walls = wallsOf(view.outline, port);
  const { partyX, breastX, edgeX, backY, mouthY, frontY } = walls;
  const half = view.outline.openingMm.width / 2;
  const cut = line('cut', [partyX, frontY], [partyX, backY], [breastX, backY], [breastX, mouthY], [edgeX, mouthY]);
  const reference = line('reference', port.at(0 - half, 0), port.at(half, 0));
  return {
    items: [hatched(plasterOf(walls, frame.wallPx)), ...trims(view.outline, view.trims, port), reference, cut],
    wishes: [],
    clear: [],
  };
}

/** Draws what moves: lines, level, run, rule, marks. */
export function planWork(
  view: LearnerView,
  focus: RoomFocus,
  on: { frame: RoomFrame; marks: readonly PlacedMark[] },
): Drawn {
  const { frame, marks } = on;
  const port = frame.ports.plan;
  const sheet: Sheet = {
    view: 'plan',
    at: (p) => port.at(p.x, p.y),
    scale: port.scale,
    small: frame.small,
    box: port.box,
  };
  const { level, outline } = view;
  const light = level?.settled ? [levelLine(outline, level, port), uprights(outline, level, port)] : [];
  const hand = [runDots(focus, sheet), ruleInHand(focus, level, sheet), pencilMarks(marks, sheet)];
  const kept = keptLines(marks, level, port);
  const stands = level ? standing(level, port) : [];
  const all = [...light, kept, ...stands, ...hand];
  return {
    items: all.flatMap((d) => d.items),
    wishes: [...all.flatMap((d) => d.wishes), ...referenceName(frame)],
    clear: all.flatMap((d) => d.clear),
  };
}

/** Where a pointer means a place: along the three walls, and nowhere on the open floor. */
export function planHits(outline: Outline, frame: RoomFrame): readonly Hit[] {
  const port = frame.ports.plan;
  const walls = wallsOf(outline, port);
  const { width } = outline.openingMm;
  const reach = frame.wallPx;
  const side = (surface: 'left' | 'right', x: number, [y0, y1]: readonly [number, number]): Hit => ({
    view: 'plan',
    surface,
    box: { x: x - reach, y: y0, width: reach * 2, height: y1 - y0 },
    across: null,
    down: { axis: 'y', px: [y0, y1], mm: [port.under(x, y0)[1], port.under(x, y1)[1]] },
  });
  const party = outline.breastSide === 'right' ? 'left' : 'right';
  const backX = boxBetween([walls.partyX, walls.backY], [walls.breastX, walls.backY]);
  return [
    {
      view: 'plan',
      surface: 'back',
      box: { ...backX, y: walls.backY - reach, height: 2 * reach },
      across: { axis: 'x', px: [backX.x, backX.x + backX.width], mm: [0 - width / 2, width / 2] },
      down: null,
    },
    side(party, walls.partyX, [walls.backY, walls.frontY]),
    side(party === 'left' ? 'right' : 'left', walls.breastX, [walls.backY, walls.mouthY]),
  ];
}

function wallsOf(outline: Outline, port: Viewport): Walls {
  const half = outline.openingMm.width / 2;
  const right = outline.breastSide === 'right';
  const [partyX, backY] = port.at(right ? 0 - half : half, outline.openingMm.depth);
  const [breastX, mouthY] = port.at(right ? half : 0 - half, outline.mouthMm);
  const [edgeX, frontY] = port.at(port.extent.a[right ? 1 : 0], port.extent.b[0]);
  return { partyX, breastX, edgeX, backY, mouthY, frontY, out: right ? -1 : 1 };
}

function plasterOf(walls: Walls, wallPx: number): Box[] {
  const { partyX, breastX, edgeX, backY, mouthY, frontY, out } = walls;
  const block = Math.min(breastPx, Math.abs(edgeX - breastX)) * (0 - out) + breastX;
  return [
    boxBetween([partyX + wallPx * out, backY - wallPx], [block, backY]),
    boxBetween([partyX + wallPx * out, backY], [partyX, frontY]),
    boxBetween([breastX, backY], [block, mouthY]),
    boxBetween([block, mouthY - wallPx], [edgeX, mouthY]),
  ];
}

/** Skirtings as lines along their walls, cornices as what hangs over; what is off is gone, what comes off is dotted. */
function trims(outline: Outline, all: readonly SeenTrim[], port: Viewport): Item[] {
  const half = outline.openingMm.width / 2;
  const { depth } = outline.openingMm;
  const front = port.extent.b[0];
  return all.flatMap((t): Item[] => {
    if (t.cleared) return [];
    const off = t.fate === 'off';
    if (t.kind === 'cornice') {
      const stroke = off ? 'trim-off' : 'overhead';
      if (t.profile.along === 'v') return [line(stroke, port.at(0 - half, t.vMm[0]), port.at(half, t.vMm[0]))];
      const x = t.uMm[0] < 0 ? t.uMm[1] : t.uMm[0];
      return [line(stroke, port.at(x, front), port.at(x, depth))];
    }
    const stroke = off ? 'trim-off' : 'trim';
    const out = Math.max(...t.profile.mm.map(([, mm]) => mm));
    if (t.surface === 'back') return [line(stroke, port.at(0 - half, depth - out), port.at(half, depth - out))];
    const x = t.surface === 'left' ? out - half : half - out;
    const from = t.surface === outline.breastSide ? outline.mouthMm : front;
    return [line(stroke, port.at(x, from), port.at(x, depth))];
  });
}

/** L on the walls that the level sees, a little inside them, its flag by the party wall's open end. */
function levelLine(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const paths = joined(levelStretches(outline, level.at).map((s) => insetPath(s, outline, port)));
  const longest = [...paths].sort((a, b) => b.length - a.length || (a[0] as number) - (b[0] as number))[0];
  const ends: Where[] = longest ? flagSpots(longest, outline) : [];
  return {
    items: paths.flatMap((p) => thrown('L', level.setUp, p)),
    wishes: ends.length > 0 ? [flagWish('plan', nameOf('L', level.setUp), ends)] : [],
    clear: [],
  };
}

/** Along a path from its end on the party wall. */
function flagSpots(path: readonly number[], outline: Outline): Where[] {
  const places = pairsOf(path);
  const ordered = outline.breastSide === 'right' ? places : [...places].reverse();
  return ordered.slice(1).flatMap((p, i) => spotsAlong(ordered[i] as PaperPoint, p, i === 0 ? 60 : 20));
}

/** A stretch in px, moved off its wall into the free space and cut where the drawing ends. */
function insetPath(stretch: WallStretch, outline: Outline, port: Viewport): number[] {
  const half = outline.openingMm.width / 2;
  const [left, back] = port.at(0 - half, outline.openingMm.depth);
  const [right, mouth] = port.at(half, outline.mouthMm);
  const { box } = port;
  const place = (p: PlanPoint): PaperPoint => {
    const [x, y] = port.at(p.x, p.y);
    const low = Math.min(Math.max(y, back + insetPx), box.y + box.height);
    if (stretch.wall === 'left') return [left + insetPx, low];
    if (stretch.wall === 'right') return [right - insetPx, low];
    if (stretch.wall === 'back') return [Math.min(Math.max(x, left + insetPx), right - insetPx), back + insetPx];
    return [Math.min(Math.max(x, box.x), box.x + box.width), mouth + insetPx];
  };
  const [from, to] = stretch.wall === 'right' ? [stretch.to, stretch.from] : [stretch.from, stretch.to];
  return [...place(from), ...place(to)];
}

/** Puts paths that meet end to end into one, so that their dashes run on; what has no length is left out. */
function joined(paths: readonly (readonly number[])[]): number[][] {
  const found: number[][] = [];
  for (const path of paths) {
    const [x0, y0, x1, y1] = path as readonly [number, number, number, number];
    if (Math.abs(x1 - x0) + Math.abs(y1 - y0) < 1) continue;
    const last = found.at(-1);
    const [lx, ly] = last ? last.slice(-2) : [];
    if (last && Math.abs((lx as number) - x0) + Math.abs((ly as number) - y0) < 0.6) last.push(x1, y1);
    else found.push([...path]);
  }
  return found;
}

/** F and S through the level, each from end to end. */
function uprights(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const lines = (['F', 'S'] as const).map((kind) => {
    const ends = lineEnds(outline, level, kind).map((end) => endOnPaper(end, level, port));
    const [a, b] = ends as [PaperPoint, PaperPoint];
    const nearBreast = outline.breastSide === 'right' ? 1 : 0;
    const begin = kind === 'S' ? (a[1] > b[1] ? a : b) : (ends[nearBreast] as PaperPoint);
    const spots = spotsAlong(begin, begin === a ? b : a, kind === 'S' ? 16 : 24);
    return {
      items: thrown(kind, level.setUp, [...a, ...b]),
      wish: flagWish('plan', nameOf(kind, level.setUp), spots),
    };
  });
  return { items: lines.flatMap((l) => l.items), wishes: lines.map((l) => l.wish), clear: [] };
}

/** Where a line ends on paper: on its wall, or where the drawing ends. */
function endOnPaper(end: LineEnd, level: Reckoned, port: Viewport): PaperPoint {
  const from = port.at(level.at.x, level.at.y);
  const to = port.at(end.at.x, end.at.y);
  const { x, y, width, height } = port.box;
  let share = 1;
  for (const [a, b, low, high] of [
    [from[0], to[0], x, x + width],
    [from[1], to[1], y, y + height],
  ] as const) {
    if (b > high) share = Math.min(share, (high - a) / (b - a));
    if (b < low) share = Math.min(share, (low - a) / (b - a));
  }
  const kept = Math.max(share, 0);
  return [from[0] + (to[0] - from[0]) * kept, from[1] + (to[1] - from[1]) * kept];
}

function standing(level: Reckoned, port: Viewport): Drawn[] {
  const at = port.at(level.at.x, level.at.y);
  const size = sizeFromAbove(port.scale);
  return [
    {
      items: levelFromAbove(at, level.facing, { size, within: port.box }),
      wishes: [],
      clear: boxesFromAbove(at, size),
    },
  ];
}

/** Upright datums of earlier set-ups, from mark to mark. */
function keptLines(marks: readonly PlacedMark[], level: Reckoned | null, port: Viewport): Drawn {
  const kept = keptDatums(marks, level?.setUp ?? null).filter((d) => d.kind !== 'L');
  const ends = kept.map((d) => [port.at(d.from.x, d.from.y), port.at(d.to.x, d.to.y)] as const);
  return {
    items: ends.map(([a, b]) => line('datum', a, b)),
    wishes: kept.map((d, i): Wish => {
      const [a, b] = ends[i] as (typeof ends)[number];
      return flagWish('plan', d.name, spotsAlong(a, b, 36));
    }),
    clear: [],
  };
}

/** The name of what the face line follows, where there is room for it beside its line. */
function referenceName(frame: RoomFrame): Wish[] {
  if (frame.small) return [];
  const port = frame.ports.plan;
  const [x0, y] = port.at(port.extent.a[0], 0);
  const [x1] = port.at(port.extent.a[1], 0);
  const at: Where[] = [];
  for (const dy of [17, -9, 30]) for (let x = x0 + 22; x < x1; x += 14) at.push([x, y + dy, 'start']);
  return [{ label: { view: 'plan', text: 'cornice return', role: 'note' }, at, optional: true }];
}

function pairsOf(points: readonly number[]): PaperPoint[] {
  const pairs: PaperPoint[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) pairs.push([points[i] as number, points[i + 1] as number]);
  return pairs;
}
