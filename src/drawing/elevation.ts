/**
 * The elevation: the recess as you stand facing it, cut just behind its mouth. Along is x, up is z.
 *
 * It is laid out from the outline alone: it takes no recess.
 */

import type { Outline } from '../exercise/outline.ts';
import { sayWritten } from '../recess/lengths.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { type Edge, edgeRuns } from './edge-runs.ts';
import { type Drawn, pencilMarks, ruleInHand, runDots, type Sheet } from './in-hand.ts';
import { type Box, boxed, type Hit, line, type PaperPoint, type Run } from './item.ts';
import type { Where } from './label-place.ts';
import { bodyBox, levelBeyond, levelFromSide, sizeFromSide } from './level-drawing.ts';
import { flagWish, nameOf, spotsAlong, thrown } from './light-drawing.ts';
import { levelStretches, lineEnds } from './light-on-outline.ts';
import { backRuns, goesThrough, hands, isThere, sideAt, slopeMeets, topAt, topLine, wallsAt } from './outline-shape.ts';
import { breakLine, dimension, hatched } from './plaster.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import { keptDatums, type PlacedMark, setUpsNow, standingLevels } from './room-marks.ts';
import { elevationTrims } from './trim-drawing.ts';
import type { Viewport } from './viewport.ts';

/** Draws what stands still: cut walls, trims, the width. */
export function elevationGround(view: Pick<LearnerView, 'outline' | 'trims'>, frame: RoomFrame): Drawn {
  const port = frame.ports.elevation;
  const { outline } = view;
  const { x, y, width, height } = port.box;
  const [x1, y1] = [x + width, y + height];
  const under = y1 + frame.wallPx + 11;
  const wide = dimension('elevation', sayWritten(outline.openingMm.width), [
    [x, under],
    [x1, under],
  ]);
  const edges = edgesOf(outline, port);
  return {
    items: [
      hatched(plasterOf(outline, port, frame.wallPx)),
      ...(outline.family === 'reveal'
        ? [boxed('trim', { x: x + 5, y: y + 5, width: width - 10, height: height - 10 })]
        : []),
      ...elevationTrims(outline, view.trims, port),
      ...edgeRuns('cut', edges),
      ...edges.filter((e) => !e.is).map((e) => breakLine(e.from, e.to)),
      ...(frame.small ? [] : wide.items),
    ],
    wishes: frame.small ? [] : [wide.wish],
    clear: [],
  };
}

/** The cut edges from the top left round: ceiling or slope, the right, the floor, the left. */
function edgesOf(outline: Outline, port: Viewport): readonly Edge[] {
  const top = topLine(outline);
  const over = top.slice(1).map(([x, z], i): Edge => {
    const [x0, z0] = top[i] as (typeof top)[number];
    return { is: isThere(outline, z === z0 ? 'ceiling' : 'slope'), from: port.at(x0, z0), to: port.at(x, z) };
  });
  const ends = over.map((e) => [e.from, e.to] as const);
  const [left, right] = [ends[0]?.[0], ends.at(-1)?.[1]] as [PaperPoint, PaperPoint];
  const floor = port.box.y + port.box.height;
  const [footLeft, footRight]: PaperPoint[] = [
    [left[0], floor],
    [right[0], floor],
  ];
  return [
    ...over,
    { is: isThere(outline, 'right'), from: right, to: footRight as PaperPoint },
    { is: true, from: footRight as PaperPoint, to: footLeft as PaperPoint },
    { is: isThere(outline, 'left'), from: footLeft as PaperPoint, to: left },
  ];
}

function plasterOf(outline: Outline, port: Viewport, wall: number): (Box | readonly PaperPoint[])[] {
  const { x, width, y, height } = port.box;
  const [x1, y1] = [x + width, y + height];
  const beyond = { left: isThere(outline, 'left') ? wall : 0, right: isThere(outline, 'right') ? wall : 0 };
  const edges = edgesOf(outline, port);
  const over = edges.slice(0, -3).filter((e) => e.is);
  const upright = (at: number, e: Edge): Box => {
    const top = Math.min(e.from[1], e.to[1]);
    return { x: at, y: top, width: wall, height: y1 - top };
  };
  const [right, , left] = edges.slice(-3) as [Edge, Edge, Edge];
  return [
    ...over.map((e) => bandOver(e, { wall, x0: x, x1, beyond })),
    ...(left.is ? [upright(x - wall, left)] : []),
    ...(right.is ? [upright(x1, right)] : []),
    { x: x - beyond.left, y: y1, width: width + beyond.left + beyond.right, height: wall },
  ];
}

/** What lies over an edge of the top, as thick as a wall and on over the walls beside it. */
function bandOver(
  { from, to }: Edge,
  of: { wall: number; x0: number; x1: number; beyond: { left: number; right: number } },
): readonly PaperPoint[] {
  const pitch = (to[1] - from[1]) / (to[0] - from[0]);
  const thick = of.wall * Math.sqrt(1 + pitch * pitch);
  const [left, right] = [
    from[0] - (from[0] === of.x0 ? of.beyond.left : 0),
    to[0] + (to[0] === of.x1 ? of.beyond.right : 0),
  ];
  const at = (x: number) => from[1] + pitch * (x - from[0]);
  return [
    [left, at(left)],
    [right, at(right)],
    [right, at(right) - thick],
    [left, at(left) - thick],
  ];
}

/** Draws what moves: lines, level, run, rule, marks. */
export function elevationWork(
  view: LearnerView,
  focus: RoomFocus,
  on: { frame: RoomFrame; marks: readonly PlacedMark[] },
): Drawn {
  const { frame, marks } = on;
  const port = frame.ports.elevation;
  const sheet: Sheet = {
    view: 'elevation',
    at: (p) => port.at(p.x, p.z),
    scale: port.scale,
    small: frame.small,
    box: port.box,
  };
  const { level, outline } = view;
  const levels = standingLevels(view);
  const all = [
    ...levels.filter((l) => l.settled).flatMap((l) => [levelLine(outline, l, port), uprights(outline, l, port)]),
    keptLines(outline, { marks, now: setUpsNow(view) }, port),
    ...levels.map((l) => standing(l, frame)),
    runDots(focus, sheet),
    ruleInHand(focus, level, sheet),
    pencilMarks(marks, sheet),
  ];
  return {
    items: all.flatMap((d) => d.items),
    wishes: all.flatMap((d) => d.wishes),
    clear: all.flatMap((d) => d.clear),
  };
}

/** Where a pointer means a place: along the cut edges that are there, and between them on the back wall. */
export function elevationHits(outline: Outline, frame: RoomFrame): readonly Hit[] {
  const port = frame.ports.elevation;
  const { box } = port;
  const reach = frame.wallPx;
  const inner = innerReach(box, reach);
  const view = 'elevation';
  const floor = box.y + box.height;
  const along = (from: number, to: number): Run => ({
    axis: 'x',
    px: [port.at(from, 0)[0], port.at(to, 0)[0]],
    mm: [from, to],
  });
  const up = (topMm: number): Run => ({ axis: 'z', px: [port.at(0, topMm)[1], floor], mm: [topMm, 0] });
  const side = (hand: 'left' | 'right'): Hit => {
    const top = topAt(outline, sideAt(outline, hand));
    const y = port.at(0, top)[1];
    const x = hand === 'left' ? box.x - reach : box.x + box.width - inner;
    return { view, surface: hand, box: { x, y, width: reach + inner, height: floor - y }, across: null, down: up(top) };
  };
  const across = along(sideAt(outline, 'left'), sideAt(outline, 'right'));
  const columns = columnsOf(outline);
  const slope = columns
    .filter(() => isThere(outline, 'slope'))
    .filter(([a, b]) => topAt(outline, (a + b) / 2) < outline.openingMm.height)
    .map(([a, b]): Hit => {
      const ys = [port.at(a, topAt(outline, a))[1], port.at(b, topAt(outline, b))[1]];
      const [high, low] = [Math.min(...ys), Math.max(...ys)];
      const run = along(a, b);
      const hit = { x: run.px[0], y: high - reach, width: run.px[1] - run.px[0], height: low - high + 2 * reach };
      return { view, surface: 'slope', box: hit, across: run, down: null };
    });
  const back = backRuns(outline).flatMap(([from, to]) => {
    const within = outline.slope ? columns : [[from, to] as const];
    return within.map(([a, b]): Hit => {
      const top = Math.max(topAt(outline, a), topAt(outline, b));
      const run = along(a, b);
      const y = port.at(0, top)[1];
      const hit = { x: run.px[0], y, width: run.px[1] - run.px[0], height: floor - y };
      return { view, surface: 'back', box: hit, across: run, down: up(top) };
    });
  });
  const wide = { x: box.x, width: box.width, height: reach + inner };
  const flat = along(...flatTop(outline));
  const overhead = { x: flat.px[0], y: box.y - reach, width: flat.px[1] - flat.px[0], height: reach + inner };
  const ceiling: Hit = { view, surface: 'ceiling', box: overhead, across: flat, down: null };
  return [
    ...hands.filter((hand) => isThere(outline, hand)).map(side),
    ...slope,
    ...(isThere(outline, 'ceiling') ? [ceiling] : []),
    { view, surface: 'floor', box: { ...wide, y: floor - inner }, across, down: null },
    ...back,
  ];
}

/** Between which places along the ceiling is what one looks up to. */
function flatTop(outline: Outline): readonly [number, number] {
  const ends = [sideAt(outline, 'left'), sideAt(outline, 'right')] as const;
  const kink = slopeMeets(outline, outline.openingMm.height);
  if (kink === null) return ends;
  return outline.slope?.low === 'left' ? [kink, ends[1]] : [ends[0], kink];
}

/** The opening in upright strips, narrow enough that a slope hardly rises over one. */
function columnsOf(outline: Outline): readonly (readonly [number, number])[] {
  const { width } = outline.openingMm;
  const count = 24;
  return Array.from({ length: count }, (_, i) => [
    (width * i) / count - width / 2,
    (width * (i + 1)) / count - width / 2,
  ]);
}

/** How far into a view an edge is still meant by a pointer, px: a fifth of it at most. */
export function innerReach(box: Box, reach: number): number {
  return Math.min(reach, box.width / 5, box.height / 5);
}

/** L across what is seen of the back wall; of an opening that goes through, where it falls on the jambs. */
function levelLine(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const z = level.at.z;
  const seen = levelStretches(outline, level.at);
  const { x, width } = port.box;
  const [y] = [port.at(0, z)[1]];
  const on = (wall: 'left' | 'right') => seen.some((s) => s.wall === wall);
  const jambs: [PaperPoint, PaperPoint][] = goesThrough(outline)
    ? [
        ...(on('right')
          ? [
              [
                [x + width, y],
                [x + width - stubPx, y],
              ] as [PaperPoint, PaperPoint],
            ]
          : []),
        ...(on('left')
          ? [
              [
                [x, y],
                [x + stubPx, y],
              ] as [PaperPoint, PaperPoint],
            ]
          : []),
      ]
    : [];
  const clip = (at: number) => Math.min(Math.max(at, x), x + width);
  const backs = seen
    .filter((s) => s.wall === 'back')
    .map((s): [PaperPoint, PaperPoint] => [
      [clip(port.at(s.from.x, z)[0]), y],
      [clip(port.at(s.to.x, z)[0]), y],
    ]);
  const spots = [
    ...jambs.slice(0, 1).map(([a]): Where => [a[0] + 13, a[1]]),
    ...backs.flatMap(([a, b]): Where[] => [[b[0] + 13, b[1]], [a[0] - 2, a[1]], ...spotsAlong(b, a, 12)]),
    ...jambs.flatMap(([a, b]) => spotsAlong(a, b, 12)),
  ];
  const paths = [...jambs, ...backs];
  return {
    items: paths.flatMap(([a, b]) => thrown('L', level.setUp, [...a, ...b])),
    wishes: spots.length > 0 ? [flagWish('elevation', nameOf('L', level.setUp), spots)] : [],
    clear: [],
  };
}

/** How much of a line is drawn where it falls on what is seen edge on, px. */
export const stubPx = 14;

/** Upright lines where they fall on the back wall; of S that goes on through, its ends on floor and head. */
function uprights(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const { width } = outline.openingMm;
  const found = (['F', 'S'] as const).flatMap((kind) =>
    lineEnds(outline, level, kind).flatMap((end) => {
      const through = goesThrough(outline) && end.wall === null && kind === 'S' && end.at.y > 0;
      const x = through
        ? level.at.x + ((end.at.x - level.at.x) * (0 - level.at.y)) / (end.at.y - level.at.y)
        : end.at.x;
      if ((end.wall !== 'back' && !through) || Math.abs(x) > width / 2) return [];
      const [top, foot] = [port.at(x, topAt(outline, x)), port.at(x, 0)];
      return [{ kind, top, foot, paths: through ? stubs(top, foot) : [[...top, ...foot]] }];
    }),
  );
  return {
    items: found.flatMap(({ kind, paths }) => paths.flatMap((p) => thrown(kind, level.setUp, p))),
    wishes: found.map(({ kind, top, foot }) => flagWish('elevation', nameOf(kind, level.setUp), downFrom(top, foot))),
    clear: [],
  };
}

/** The two ends of an upright line that only floor and ceiling are lit by. */
export function stubs(top: PaperPoint, foot: PaperPoint): readonly number[][] {
  return [
    [...top, top[0], top[1] + stubPx],
    [...foot, foot[0], foot[1] - stubPx],
  ];
}

/** Places for a flag on an upright line: a quarter from its top, on down, then above. */
export function downFrom(top: PaperPoint, foot: PaperPoint): Where[] {
  const long = foot[1] - top[1];
  return [...spotsAlong(top, foot, Math.max(0.28 * long, 16)), ...spotsAlong(top, foot, 11)];
}

/** S of earlier set-ups as upright dots, L as level ones. */
function keptLines(
  outline: Outline,
  of: { marks: readonly PlacedMark[]; now: readonly number[] },
  port: Viewport,
): Drawn {
  const { a, b } = port.extent;
  const kept = keptDatums(of.marks, of.now).flatMap((d) => {
    if (d.kind === 'L') {
      const back = wallsAt(outline, d.from.z).find((w) => w.wall === 'back');
      const [from, to] = [Math.max(back?.from.x ?? a[0], a[0]), Math.min(back?.to.x ?? a[1], a[1])];
      return [{ ...d, ends: [port.at(to, d.from.z), port.at(from, d.from.z)] as const }];
    }
    const further = d.from.y > d.to.y ? d.from : d.to;
    const deep = Math.abs(d.from.y - d.to.y) > Math.abs(d.from.x - d.to.x);
    if (!deep || further.x <= a[0] || further.x >= a[1]) return [];
    return [{ ...d, ends: [port.at(further.x, topAt(outline, further.x)), port.at(further.x, b[0])] as const }];
  });
  return {
    items: kept.map((d) => line('datum', ...d.ends)),
    wishes: kept.map((d) =>
      flagWish('elevation', d.name, d.kind === 'L' ? spotsAlong(...d.ends, 14) : downFrom(...d.ends)),
    ),
    clear: [],
  };
}

function standing(level: Reckoned, frame: RoomFrame): Drawn {
  const port = frame.ports.elevation;
  const [low, high] = port.extent.a;
  const [x, y] = port.at(Math.min(Math.max(level.at.x, low), high), level.at.z);
  if (level.at.x <= low || level.at.x >= high) {
    const towards = level.at.x <= low ? -1 : 1;
    return { items: levelBeyond([x - 9 * towards, y - 16], towards), wishes: [], clear: [] };
  }
  const size = sizeFromSide(port.scale);
  return { items: levelFromSide([x, y], { size, within: port.box }), wishes: [], clear: [bodyBox([x, y], size)] };
}
