/**
 * The plan: the recess from above, the room in front of it, the level, its upright lines and where L runs on the walls.
 *
 * A line is drawn only where the level sees it on the straight outline.
 */
import { type Outline, planOutline } from '../exercise/outline.ts';
import { type PlanPoint, segmentMeets } from '../geometry/polygon.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import { type Reckoned, reckonedPlace } from '../survey/reckoning.ts';
import { type Drawing, flag, hatched, type Item, type Label, lightLine, line, type Pick, pencilMark } from './item.ts';
import { type RoomFocus, ruleEnd } from './room-focus.ts';
import { type Box, fitted, type Viewport } from './viewport.ts';

const wallPx = 12;

/** Lays out the plan in a box. */
export function layoutPlan(view: LearnerView, focus: RoomFocus, box: Box): Drawing & { readonly port: Viewport } {
  const { outline, level } = view;
  const { width, depth } = outline.openingMm;
  const half = width / 2;
  const front = Math.max(620, level ? 320 - level.at.y : 0);
  const past = 140;
  const room = {
    a: [-half - (outline.breastSide === 'left' ? past : 0), half + (outline.breastSide === 'right' ? past : 0)],
    b: [-front, depth],
  } as const;
  const inner: Box = {
    x: box.x + wallPx,
    y: box.y + wallPx,
    width: box.width - 2 * wallPx,
    height: box.height - wallPx,
  };
  const port = fitted(inner, room);
  const walls = drawWalls(outline, port, { front, past });
  const lines = level?.settled ? drawLines(view, level, port) : { items: [], labels: [] };
  const items: Item[] = [
    ...walls.items,
    ...drawTrims(view, port),
    ...lines.items,
    ...(level ? drawLevel(level, port) : []),
    ...drawRun(focus, port),
  ];
  const marks = view.marks.map((m) => {
    const p = reckonedPlace(outline, level, m.place);
    return pencilMark(...port.at(p.x, p.y), m.mark);
  });
  return {
    port,
    items: [...items, ...marks.flatMap((m) => m.items), ...drawRule(focus, port)],
    labels: [...lines.labels, ...marks.flatMap((m) => m.labels)],
    picks: walls.picks,
  };
}

function drawWalls(
  outline: Outline,
  port: Viewport,
  room: { front: number; past: number },
): { items: Item[]; picks: Pick[] } {
  const { width, depth } = outline.openingMm;
  const half = width / 2;
  const right = outline.breastSide === 'right';
  const party = right ? -half : half;
  const breast = right ? half : -half;
  const out = right ? half + room.past : -half - room.past;
  const [px, py] = port.at(party, depth);
  const [bx] = port.at(breast, depth);
  const [ox, my] = port.at(out, outline.mouthMm);
  const [, fy] = port.at(0, -room.front);
  const side = (x: number, away: number) => [Math.min(x, x + away), Math.max(x, x + away)] as const;
  const partySide = side(px, right ? -wallPx : wallPx);
  const breastSide = side(bx, right ? wallPx : -wallPx);
  const corner = [Math.min(px, bx) - wallPx, Math.max(px, bx) + wallPx] as const;
  const face = [Math.min(bx, ox), Math.max(bx, ox)] as const;
  const cut = { ink: 'ink', width: 1.75 } as const;
  const pick = (
    surface: Pick['surface'],
    axis: 'x' | 'y',
    ends: readonly [number, number, number, number],
    mm: readonly [number, number],
  ): Pick => ({ surface, axis, px: ends, mm });
  return {
    items: [
      ...hatched(corner[0], py - wallPx, corner[1], py),
      ...hatched(partySide[0], py, partySide[1], fy),
      ...hatched(breastSide[0], py, breastSide[1], my),
      ...hatched(face[0], my - wallPx, face[1], my),
      { kind: 'path', points: [px, fy, px, py, bx, py, bx, my, ox, my], ...cut },
    ],
    picks: [
      pick(right ? 'left' : 'right', 'y', [px, py, px, fy], [depth, -room.front]),
      pick(right ? 'right' : 'left', 'y', [bx, py, bx, my], [depth, outline.mouthMm]),
      pick('back', 'x', [Math.min(px, bx), py, Math.max(px, bx), py], [-half, half]),
    ],
  };
}

/** Skirtings as thin lines along their walls; one that comes off is dotted, one that is off is gone. */
function drawTrims(view: LearnerView, port: Viewport): Item[] {
  const { width, depth } = view.outline.openingMm;
  const half = width / 2;
  return view.trims.flatMap((t): Item[] => {
    if (t.cleared || t.kind !== 'skirting') return [];
    const out = Math.max(...t.profile.mm.map(([, mm]) => mm));
    const dash = t.fate === 'off' ? { dash: [2, 3] } : {};
    const pen = { ink: 'soft', width: 1, ...dash } as const;
    const from = Math.max(t.uMm[0], view.outline.mouthMm);
    if (t.surface === 'back') return [line(port.at(-half, depth - out), port.at(half, depth - out), pen)];
    const x = t.surface === 'left' ? -half + out : half - out;
    return [line(port.at(x, from), port.at(x, depth), pen)];
  });
}

function drawLines(view: LearnerView, level: Reckoned, port: Viewport): { items: Item[]; labels: Label[] } {
  const polygon = planOutline(view.outline);
  const doubled = level.setUp > 1;
  const name = (kind: string) => (doubled ? `${kind}${level.setUp}` : kind);
  const { facing } = level;
  const along = { F: { x: facing.y, y: -facing.x }, S: facing };
  const items: Item[] = [];
  const labels: Label[] = [];
  const l = lOnWalls(view.outline, level);
  for (const run of l) {
    const ends = inset(run, view.outline).map((p) => port.at(p.x, p.y));
    items.push(...lightLine(ends.flat(), 'L', doubled));
  }
  for (const kind of ['F', 'S'] as const) {
    const ways = [1, -1].map((sign) =>
      firstWall(polygon, level.at, { x: sign * along[kind].x, y: sign * along[kind].y }),
    );
    const [a, b] = ways.map((p) => clampFront(level.at, p, port));
    if (!a || !b) continue;
    items.push(...lightLine([...a, ...b], kind, doubled));
    const share = kind === 'F' ? 0.14 : 0.12;
    const sign = flag(
      b[0] + (a[0] - b[0]) * (kind === 'F' ? 1 - share : share),
      b[1] + (a[1] - b[1]) * (kind === 'F' ? 1 - share : share),
      name(kind),
    );
    items.push(...sign.items);
    labels.push(...sign.labels);
  }
  // The party wall's stretch comes first; its front end is clear of rules and rings.
  const first = l[0];
  if (first) {
    const [p, q] = inset(first, view.outline);
    const at = port.at(p.x * 0.9 + q.x * 0.1, p.y * 0.9 + q.y * 0.1);
    const sign = flag(at[0], at[1], name('L'));
    items.push(...sign.items);
    labels.push(...sign.labels);
  }
  return { items, labels };
}

type Run = readonly [PlanPoint, PlanPoint];

/** Where the level line falls on the walls of the plan: the stretches that the level sees past the breast. */
function lOnWalls(outline: Outline, level: Reckoned): Run[] {
  const half = outline.openingMm.width / 2;
  const { depth } = outline.openingMm;
  const right = outline.breastSide === 'right';
  const party = right ? -half : half;
  const breast = -party;
  const block = breastBlock(outline);
  const walls: Run[] = [
    [
      { x: party, y: -560 },
      { x: party, y: depth },
    ],
    [
      { x: party, y: depth },
      { x: breast, y: depth },
    ],
    [
      { x: breast, y: depth },
      { x: breast, y: outline.mouthMm },
    ],
  ];
  return walls.flatMap((wall) => seenStretches(wall, level.at, block));
}

function seenStretches([from, to]: Run, eye: PlanPoint, block: readonly PlanPoint[]): Run[] {
  const steps = 48;
  const at = (i: number): PlanPoint => ({
    x: from.x + ((to.x - from.x) * i) / steps,
    y: from.y + ((to.y - from.y) * i) / steps,
  });
  const runs: Run[] = [];
  let start: PlanPoint | null = null;
  let last = from;
  for (let i = 0; i <= steps; i++) {
    const p = at(i);
    const seen = !segmentMeets(block, eye, p);
    if (seen && !start) start = p;
    if (!seen && start) {
      runs.push([start, last]);
      start = null;
    }
    last = p;
  }
  if (start) runs.push([start, to]);
  return runs;
}

function breastBlock(outline: Outline): readonly PlanPoint[] {
  const half = outline.openingMm.width / 2;
  const [x0, x1] = outline.breastSide === 'right' ? [half, half + 3000] : [-half - 3000, -half];
  return [
    { x: x0, y: outline.mouthMm },
    { x: x1, y: outline.mouthMm },
    { x: x1, y: outline.openingMm.depth },
    { x: x0, y: outline.openingMm.depth },
  ];
}

/** Where a ray from a point inside a polygon first meets its edge. */
function firstWall(polygon: readonly PlanPoint[], from: PlanPoint, way: PlanPoint): PlanPoint {
  let best = 1e9;
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i] as PlanPoint;
    const b = polygon[(i + 1) % polygon.length] as PlanPoint;
    const ex = b.x - a.x;
    const ey = b.y - a.y;
    const cross = way.x * ey - way.y * ex;
    if (Math.abs(cross) < 1e-12) continue;
    const t = ((a.x - from.x) * ey - (a.y - from.y) * ex) / cross;
    const s = ((a.x - from.x) * way.y - (a.y - from.y) * way.x) / cross;
    if (t > 1e-6 && s >= 0 && s <= 1 && t < best) best = t;
  }
  return { x: from.x + way.x * best, y: from.y + way.y * best };
}

/** The drawing ends before the room does. */
function clampFront(from: PlanPoint, to: PlanPoint, port: Viewport): readonly [number, number] {
  const front = Math.min(from.y - 240, -560);
  if (to.y >= front) return port.at(to.x, to.y);
  const share = (front - from.y) / (to.y - from.y);
  return port.at(from.x + (to.x - from.x) * share, front);
}

/** A little inside the wall, so that the light is beside the cut and not on it. */
function inset([a, b]: Run, outline: Outline): [PlanPoint, PlanPoint] {
  const half = outline.openingMm.width / 2;
  const off = 14;
  const move = (p: PlanPoint): PlanPoint => ({
    x: p.x <= -half + 1 ? p.x + off : p.x >= half - 1 ? p.x - off : p.x,
    y: p.y >= outline.openingMm.depth - 1 ? p.y - off : p.y,
  });
  return [move(a), move(b)];
}

/** From above: tripod feet, the dial with its ticks, the body with its cross. */
function drawLevel(level: Reckoned, port: Viewport): Item[] {
  const [x, y] = port.at(level.at.x, level.at.y);
  const pen = { ink: 'ink', width: 1 } as const;
  const feet = [
    [-0.74, 0.67],
    [0.81, 0.58],
    [0.26, -0.97],
  ] as const;
  const { facing } = level;
  const ticks = Array.from({ length: 24 }, (_, i) => tick(x, y, i, facing));
  return [
    ...feet.map(([dx, dy]): Item => line([x, y], [x + dx * 44, y + dy * 44], pen)),
    ...feet.map(
      ([dx, dy]): Item => ({
        kind: 'circle',
        x: x + dx * 44,
        y: y + dy * 44,
        r: 2.5,
        ink: 'graphite',
        width: 1,
        fill: 'graphite',
      }),
    ),
    { kind: 'circle', x, y, r: 18, ink: 'ink', width: 1, fill: 'paper' },
    ...ticks,
    { kind: 'circle', x, y, r: 10, ink: 'ink', width: 1.5, fill: 'sheet' },
    line([x - facing.y * 10, y - facing.x * 10], [x + facing.y * 10, y + facing.x * 10], pen),
    line([x - facing.x * 10, y + facing.y * 10], [x + facing.x * 10, y - facing.y * 10], pen),
  ];
}

/** Twenty-four directions, by turning a quarter's sixths: 15° a step, from halves and roots. */
const sixths = [
  [1, 0],
  [(Math.sqrt(6) + Math.sqrt(2)) / 4, (Math.sqrt(6) - Math.sqrt(2)) / 4],
  [Math.sqrt(3) / 2, 0.5],
  [Math.sqrt(0.5), Math.sqrt(0.5)],
  [0.5, Math.sqrt(3) / 2],
  [(Math.sqrt(6) - Math.sqrt(2)) / 4, (Math.sqrt(6) + Math.sqrt(2)) / 4],
] as const;

function tick(x: number, y: number, i: number, facing: PlanPoint): Item {
  const [c, s] = sixths[i % 6] as readonly [number, number];
  const quarter = Math.floor(i / 6);
  const [a, b] = (
    [
      [c, s],
      [-s, c],
      [-c, -s],
      [s, -c],
    ] as const
  )[quarter] as readonly [number, number];
  const dx = a * facing.y + b * facing.x;
  const dy = -a * facing.x + b * facing.y;
  return line([x + dx * 14.5, y - dy * 14.5], [x + dx * 18, y - dy * 18], { ink: 'ink', width: 1 });
}

function drawRun(focus: RoomFocus, port: Viewport): Item[] {
  return focus.runPlaces.map((p): Item => {
    const [x, y] = port.at(p.x, p.y);
    return { kind: 'circle', x, y, r: 3, ink: 'graphite', width: 1, fill: p.done ? 'graphite' : 'paper' };
  });
}

function drawRule(focus: RoomFocus, port: Viewport): Item[] {
  const { place } = focus;
  const end = ruleEnd(focus);
  if (!place) return [];
  const [x0, y0] = port.at(place.x, place.y);
  const ring: Item = { kind: 'circle', x: x0, y: y0, r: 7, ink: 'hand', width: 2 };
  if (!end || (end.x === place.x && end.y === place.y)) return [ring];
  const [x1, y1] = port.at(end.x, end.y);
  const across = Math.abs(x1 - x0) > Math.abs(y1 - y0);
  const [w, h] = across ? [0, 3.5] : [3.5, 0];
  return [
    {
      kind: 'path',
      points: [x0 - w, y0 - h, x1 - w, y1 - h, x1 + w, y1 + h, x0 + w, y0 + h],
      closed: true,
      ink: 'ink',
      width: 1,
      fill: 'wood',
    },
    ring,
  ];
}
