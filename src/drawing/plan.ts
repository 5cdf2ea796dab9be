/**
 * The plan: the recess from above, the room in front of it, the level, its upright lines and where L runs on the walls.
 *
 * It is laid out from the outline alone: it takes no recess.
 */

import type { Brief } from '../exercise/brief.ts';
import type { Outline } from '../exercise/outline.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { type Drawn, pencilMarks, ruleInHand, runDots, type Sheet } from './in-hand.ts';
import { type Box, type Hit, type Item, line, type PaperPoint } from './item.ts';
import type { Where, Wish } from './label-place.ts';
import { boxesFromAbove, levelFromAbove, sizeFromAbove } from './level-drawing.ts';
import { flagWish, nameOf, spotsAlong, thrown } from './light-drawing.ts';
import { type LineEnd, levelStretches, lineEnds } from './light-on-outline.ts';
import { backRuns, goesThrough, hands, hasFace, isInWall, isThere, sideAt, type WallStretch } from './outline-shape.ts';
import { boxBetween, hatched } from './plaster.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import { keptDatums, type PlacedMark, setUpsNow, standingLevels } from './room-marks.ts';
import { planTrims } from './trim-drawing.ts';
import type { Viewport } from './viewport.ts';

/** How far inside a wall L's light is drawn, px. */
const insetPx = 4.5;
/** How much of the breast is hatched to its full depth, px. */
const breastPx = 30;
/** How wide a letter of a note is, about, and how far past the plan a name may run, px. */
const noteCharPx = 6;
const namePastPx = 10;

/** Where the plan's lines stand, px. */
interface Walls {
  readonly x: Readonly<Record<Hand, number>>;
  /** Where the drawing ends on either hand. */
  readonly edge: Readonly<Record<Hand, number>>;
  readonly backY: number;
  readonly mouthY: number;
  readonly frontY: number;
}

type Hand = (typeof hands)[number];

/** Draws what stands still: walls, trims, the reference. */
export function planGround(view: Pick<LearnerView, 'outline' | 'trims'>, frame: RoomFrame): Drawn {
  const port = frame.ports.plan;
  const { outline } = view;
  const walls = wallsOf(outline, port);
  const half = outline.openingMm.width / 2;
  const reference = line('reference', port.at(0 - half, 0), port.at(half, 0));
  return {
    items: [
      hatched(plasterOf(outline, walls, frame.wallPx)),
      ...planTrims(outline, view.trims, port),
      ...overhead(outline, port),
      reference,
      ...cutOf(outline, walls),
    ],
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
  const levels = standingLevels(view);
  const light = levels
    .filter((l) => l.settled)
    .flatMap((l) => [levelLine(outline, l, port), uprights(outline, l, port)]);
  const hand = [runDots(focus, sheet), ruleInHand(focus, level, sheet), pencilMarks(marks, sheet)];
  const kept = keptLines(marks, setUpsNow(view), port);
  const stands = levels.flatMap((l) => standing(l, port));
  const all = [...light, kept, ...stands, ...hand];
  return {
    items: all.flatMap((d) => d.items),
    wishes: [...all.flatMap((d) => d.wishes), ...referenceName(view.brief, frame)],
    clear: all.flatMap((d) => d.clear),
  };
}

/** Where a pointer means a place: along the walls that are there, and nowhere on the open floor. */
export function planHits(outline: Outline, frame: RoomFrame): readonly Hit[] {
  const port = frame.ports.plan;
  const walls = wallsOf(outline, port);
  const reach = frame.wallPx;
  const side = (hand: Hand): Hit => {
    const [y0, y1] = [walls.backY, hasFace(outline, hand) ? walls.mouthY : walls.frontY];
    return {
      view: 'plan',
      surface: hand,
      box: { x: walls.x[hand] - reach, y: y0, width: reach * 2, height: y1 - y0 },
      across: null,
      down: { axis: 'y', px: [y0, y1], mm: [port.under(0, y0)[1], port.under(0, y1)[1]] },
    };
  };
  const back = backRuns(outline).map(([from, to]): Hit => {
    const [x0, x1] = [port.at(from, 0)[0], port.at(to, 0)[0]];
    return {
      view: 'plan',
      surface: 'back',
      box: { x: x0, y: walls.backY - reach, width: x1 - x0, height: 2 * reach },
      across: { axis: 'x', px: [x0, x1], mm: [from, to] },
      down: null,
    };
  });
  return [...back, ...hands.filter((hand) => isThere(outline, hand)).map(side)];
}

function wallsOf(outline: Outline, port: Viewport): Walls {
  const [left, backY] = port.at(sideAt(outline, 'left'), outline.openingMm.depth);
  const [right, mouthY] = port.at(sideAt(outline, 'right'), outline.mouthMm);
  const { x, y, width, height } = port.box;
  return { x: { left, right }, edge: { left: x, right: x + width }, backY, mouthY, frontY: y + height };
}

/** The cut walls: one line round, of an opening that goes through one a jamb. */
function cutOf(outline: Outline, walls: Walls): Item[] {
  const { x, edge, backY, mouthY, frontY } = walls;
  const part = (hand: Hand): readonly PaperPoint[] => {
    if (!isThere(outline, hand)) return [[edge[hand], backY]];
    if (!hasFace(outline, hand))
      return [
        [x[hand], frontY],
        [x[hand], backY],
      ];
    return [
      [edge[hand], mouthY],
      [x[hand], mouthY],
      [x[hand], backY],
    ];
  };
  if (goesThrough(outline)) return hands.map((hand) => line('cut', ...part(hand), [edge[hand], backY]));
  return [line('cut', ...part('left'), ...[...part('right')].reverse())];
}

function plasterOf(outline: Outline, walls: Walls, wallPx: number): Box[] {
  const { x, edge, backY, mouthY, frontY } = walls;
  const inWall = isInWall(outline);
  const beside = (hand: Hand): Box[] => {
    const out = hand === 'left' ? -1 : 1;
    const wall = x[hand] + wallPx * out;
    if (!isThere(outline, hand)) return [boxBetween([x[hand], backY - wallPx], [edge[hand], backY])];
    const corner = boxBetween([x[hand], backY - wallPx], [wall, backY]);
    if (!hasFace(outline, hand)) return [corner, boxBetween([x[hand], backY], [wall, frontY])];
    if (inWall) return [boxBetween([x[hand], backY], [edge[hand], mouthY])];
    const wide = Math.abs(edge[hand] - x[hand]);
    // What is left beside the block would be a crumb, not a face.
    const block = x[hand] + (wide < breastPx + wallPx ? wide : breastPx) * out;
    return [
      boxBetween([x[hand], backY - wallPx], [block, mouthY]),
      boxBetween([block, mouthY - wallPx], [edge[hand], mouthY]),
    ];
  };
  const back = inWall ? [] : [boxBetween([x.left, backY - wallPx], [x.right, backY])];
  return [...back, ...beside('left'), ...beside('right')];
}

/** What is seen of an opening beyond its cut: the window behind a reveal, the ends of the work where a side is open. */
function overhead(outline: Outline, port: Viewport): Item[] {
  const { depth } = outline.openingMm;
  const [left, right] = [sideAt(outline, 'left'), sideAt(outline, 'right')];
  if (outline.family === 'reveal') {
    const [[x0, y], [x1]] = [port.at(left, depth), port.at(right, depth)];
    return [line('seen', [x0, y - 3], [x1, y - 3]), line('seen', [x0, y - 6], [x1, y - 6])];
  }
  return hands
    .filter((hand) => !isThere(outline, hand))
    .map((hand) => line('overhead', port.at(sideAt(outline, hand), depth), port.at(sideAt(outline, hand), 0)));
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

/** Along a path from its end on the party wall, or on the left where there is none. */
function flagSpots(path: readonly number[], outline: Outline): Where[] {
  const places = pairsOf(path);
  const ordered = outline.breastSide === 'left' ? [...places].reverse() : places;
  return ordered.slice(1).flatMap((p, i) => spotsAlong(ordered[i] as PaperPoint, p, i === 0 ? 60 : 20));
}

/** A stretch in px, moved off its wall into the free space and cut where the drawing ends. */
function insetPath(stretch: WallStretch, outline: Outline, port: Viewport): number[] {
  const { box } = port;
  const [x0, y0] = port.at(stretch.from.x, stretch.from.y);
  const [x1, y1] = port.at(stretch.to.x, stretch.to.y);
  const [edge0, edge1] = [box.x, box.x + box.width];
  if (stretch.wall === 'back' || stretch.wall === 'face') {
    const ends = stretch.wall === 'back' ? [x0 + insetPx, x1 - insetPx] : [x0, x1];
    const [from, to] = ends.map((x) => Math.min(Math.max(x, edge0), edge1)) as [number, number];
    return [from, y0 + insetPx, to, y0 + insetPx];
  }
  const back = port.at(0, outline.openingMm.depth)[1];
  const toRight = stretch.wall === 'right' || (stretch.wall === 'slope' && outline.slope?.low === 'right');
  const x = toRight ? x0 - insetPx : x0 + insetPx;
  const low = (y: number) => Math.min(Math.max(y, back + insetPx), box.y + box.height);
  return toRight ? [x, low(y1), x, low(y0)] : [x, low(y0), x, low(y1)];
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
  const lines = (['F', 'S'] as const).flatMap((kind) => {
    const ends = lineEnds(outline, level, kind).map((end) => endOnPaper(end, level, port));
    const [a, b] = ends as [PaperPoint, PaperPoint];
    // A level before the other alcove of a pair throws nothing here.
    if (Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) < 1) return [];
    const nearBreast = outline.breastSide === 'left' ? 0 : 1;
    const begin = kind === 'S' ? (a[1] > b[1] ? a : b) : (ends[nearBreast] as PaperPoint);
    const spots = spotsAlong(begin, begin === a ? b : a, kind === 'S' ? 16 : 24);
    return [
      {
        items: thrown(kind, level.setUp, [...a, ...b]),
        wish: flagWish('plan', nameOf(kind, level.setUp), spots),
      },
    ];
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
function keptLines(marks: readonly PlacedMark[], now: readonly number[], port: Viewport): Drawn {
  const kept = keptDatums(marks, now).filter((d) => d.kind !== 'L');
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
function referenceName(of: Pick<Brief, 'reference' | 'setBackMm'>, frame: RoomFrame): Wish[] {
  if (frame.small) return [];
  const port = frame.ports.plan;
  const [x0, y] = port.at(port.extent.a[0], 0 - (of.setBackMm ?? 0));
  const text = `F follows: ${of.reference.replaceAll('-', ' ')}`;
  // What stands beside the plan is no place for it.
  const last = port.box.x + port.box.width + namePastPx - noteCharPx * text.length;
  const at: Where[] = [];
  for (const dy of [17, -9, 30]) for (let x = x0 + 22; x < last; x += 14) at.push([x, y + dy, 'start']);
  return [{ label: { view: 'plan', text, role: 'note' }, at, optional: true }];
}

function pairsOf(points: readonly number[]): PaperPoint[] {
  const pairs: PaperPoint[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) pairs.push([points[i] as number, points[i + 1] as number]);
  return pairs;
}
