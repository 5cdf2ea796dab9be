/**
 * The section: the recess from the side, its back on the right, the room in front on the left. Along is y, up is z.
 *
 * It looks towards the left wall, and is laid out from the outline alone: it takes no recess.
 */

import type { Outline } from '../exercise/outline.ts';
import type { Point } from '../geometry/plane.ts';
import { sayWritten } from '../recess/lengths.ts';
import type { Side } from '../recess/recess-spec.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { downFrom, innerReach, stubs } from './elevation.ts';
import { type Drawn, pencilMarks, ruleInHand, runDots, type Sheet } from './in-hand.ts';
import { type Hit, type Item, line } from './item.ts';
import type { Where } from './label-place.ts';
import { bodyBox, levelBeyond, levelFromSide, sizeFromSide } from './level-drawing.ts';
import { flagWish, nameOf, spotsAlong, thrown } from './light-drawing.ts';
import { levelStretches, lineEnds } from './light-on-outline.ts';
import { goesThrough, isThere, sideAt, topAt } from './outline-shape.ts';
import { boxBetween, breakLine, dimension, hatched, heightFigurePx } from './plaster.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import { keptDatums, type PlacedMark, setUpsNow, standingLevels } from './room-marks.ts';
import { sectionTrims } from './trim-drawing.ts';
import type { Viewport } from './viewport.ts';

/** Draws what stands still: cut walls, the arris where it is seen, trims, depth and height. */
export function sectionGround(view: Pick<LearnerView, 'outline' | 'trims'>, frame: RoomFrame): Drawn {
  const port = frame.ports.section;
  const { outline } = view;
  const { y, height } = port.box;
  const wall = frame.wallPx;
  const y1 = y + height;
  const [faceX] = port.at(0, 0);
  const [backX] = port.at(outline.openingMm.depth, 0);
  const under = y1 + wall + 11;
  const beside = port.box.x + port.box.width + wall + Math.floor(heightFigurePx() / 2);
  const dims = [
    dimension('section', sayWritten(outline.openingMm.depth), [
      [faceX, under],
      [backX, under],
    ]),
    dimension('section', sayWritten(outline.openingMm.height), [
      [beside, y],
      [beside, y1],
    ]),
  ];
  return {
    items: [
      ...cutWalls(outline, port, wall),
      ...(outline.slope ? [] : sectionTrims(outline, view.trims, { port, x: 0 })),
      ...arris(outline, port),
      ...(frame.small ? [] : dims.flatMap((d) => d.items)),
    ],
    wishes: frame.small ? [] : dims.map((d) => d.wish),
    clear: [],
  };
}

/** Where the section is cut: through the place in hand, else through the level; it matters under a slope alone. */
export function cutAt(outline: Outline, focus: RoomFocus, level: Reckoned | null): number {
  const { place, surface } = focus;
  const x = place && surface !== 'left' && surface !== 'right' ? place.x : (level?.at.x ?? 0);
  return Math.min(Math.max(x, sideAt(outline, 'left')), sideAt(outline, 'right'));
}

/** Floor, back and what is over them; a reveal begins at the mouth, an opening that goes through has no back. */
function cutWalls(outline: Outline, port: Viewport, wall: number): Item[] {
  const { x, y, width, height } = port.box;
  const [x1, y1] = [x + width, y + height];
  const [mouthX] = port.at(outline.mouthMm, 0);
  const [backX] = port.at(outline.openingMm.depth, 0);
  if (outline.family === 'reveal')
    return [
      hatched([boxBetween([mouthX, y - wall], [x1, y]), boxBetween([mouthX, y1], [x1, y1 + wall])]),
      line('cut', [mouthX, y - wall], [mouthX, y], [x1, y], [x1, y1], [mouthX, y1], [mouthX, y1 + wall]),
      line('seen', [x1 + 3, y], [x1 + 3, y1]),
      line('seen', [x1 + 6, y], [x1 + 6, y1]),
    ];
  if (goesThrough(outline))
    return [
      hatched([boxBetween([mouthX, y - wall], [backX, y]), boxBetween([x, y1], [x1, y1 + wall])]),
      line('cut', [mouthX, y - wall], [mouthX, y], [backX, y], [backX, y - wall]),
      line('cut', [x, y1], [x1, y1]),
      ...[mouthX, backX].map((at) => line('seen', [at, y], [at, y1])),
    ];
  const floor = { x, y: y1, width: width + wall, height: wall };
  if (outline.slope) {
    const low = port.at(0, topAt(outline, sideAt(outline, 'left')))[1];
    const seen = outline.slope.low === 'left' ? [line('seen', [x, low], [x1, low])] : [];
    return [hatched([floor]), line('cut', [x, y1], [x1, y1]), ...seen];
  }
  const over = isThere(outline, 'ceiling');
  return [
    hatched([
      ...(over ? [{ x, y: y - wall, width: width + wall, height: wall }] : []),
      { x: x1, y, width: wall, height },
      floor,
    ]),
    line('cut', ...(over ? [[x, y] as const] : []), [x1, y], [x1, y1], [x, y1]),
    ...(over ? [] : [breakLine([x, y], [x1, y])]),
  ];
}

/** The slope where the section is cut, the back under it, and what rides on them. */
function slopeCut(view: LearnerView, on: { frame: RoomFrame; x: number }): Drawn {
  const { outline, trims } = view;
  if (!outline.slope) return nothing;
  const port = on.frame.ports.section;
  const wall = on.frame.wallPx;
  const { x, y, width, height } = port.box;
  const [x1, y1] = [x + width, y + height];
  const [, top] = port.at(0, topAt(outline, on.x));
  return {
    items: [
      hatched([boxBetween([x, top - wall], [x1 + wall, top]), boxBetween([x1, top], [x1 + wall, y1])]),
      line('cut', [x, top], [x1, top], [x1, y1]),
      ...sectionTrims(outline, trims, { port, x: on.x }),
    ],
    wishes: [],
    clear: [],
  };
}

const nothing: Drawn = { items: [], wishes: [], clear: [] };

/** Draws what moves: lines, level, run, rule, marks. */
export function sectionWork(
  view: LearnerView,
  focus: RoomFocus,
  on: { frame: RoomFrame; marks: readonly PlacedMark[] },
): Drawn {
  const { frame } = on;
  const port = frame.ports.section;
  const sheet: Sheet = {
    view: 'section',
    at: (p: Point) => port.at(p.y, p.z),
    scale: port.scale,
    small: frame.small,
    box: port.box,
  };
  const { level, outline } = view;
  const x = cutAt(outline, focus, level);
  const under = topAt(outline, x);
  const levels = standingLevels(view);
  const lit = levels
    .filter((l) => l.settled)
    .flatMap((l) => [...(l.at.z < under ? [levelLine(outline, l, port)] : []), uprights(outline, l, { port, under })]);
  const all = [
    slopeCut(view, { frame, x }),
    ...lit,
    keptLines(on.marks, setUpsNow(view), port),
    ...levels.map((l) => standing(l, frame)),
    runDots(focus, sheet),
    ruleInHand(focus, level, sheet),
    pencilMarks(on.marks, sheet),
  ];
  return {
    items: all.flatMap((d) => d.items),
    wishes: all.flatMap((d) => d.wishes),
    clear: all.flatMap((d) => d.clear),
  };
}

/**
 * Where a pointer means a place: along back, floor and what is over it, and between them on a side wall.
 *
 * @param cut - the side wall that is in hand, and where the section is cut
 */
export function sectionHits(
  outline: Outline,
  frame: RoomFrame,
  cut: { readonly side: Side | null; readonly x: number },
): readonly Hit[] {
  const port = frame.ports.section;
  const { box } = port;
  const { height, depth } = outline.openingMm;
  const reach = frame.wallPx;
  const inner = innerReach({ ...box, width: port.scale * depth }, reach);
  const [mouthX] = port.at(outline.mouthMm, 0);
  const [backX] = port.at(depth, 0);
  const top = topAt(outline, cut.x);
  const y = port.at(0, top)[1];
  const floor = box.y + box.height;
  const inside = { x: mouthX, y, width: backX - mouthX, height: floor - y };
  const across = { axis: 'y', px: [mouthX, backX], mm: [outline.mouthMm, depth] } as const;
  const down = { axis: 'z', px: [y, floor], mm: [top, 0] } as const;
  const view = 'section';
  const wide = { ...inside, height: reach + inner };
  const over = outline.slope && top < height ? 'slope' : 'ceiling';
  const shown = cut.side === 'right' ? (['right', 'left'] as const) : (['left', 'right'] as const);
  const hits: readonly Hit[] = [
    { view, surface: 'back', box: { ...inside, x: backX - inner, width: reach + inner }, across: null, down },
    { view, surface: over, box: { ...wide, y: y - reach }, across, down: null },
    { view, surface: 'floor', box: { ...wide, y: floor - inner }, across, down: null },
    ...shown
      .filter((side) => isThere(outline, side))
      .slice(0, 1)
      .map((surface): Hit => ({ view, surface, box: inside, across, down })),
  ];
  return hits.filter((h) => isThere(outline, h.surface));
}

/** The breast's edge, where the section looks towards it. */
function arris(outline: Outline, port: Viewport): Item[] {
  if (outline.breastSide !== 'left') return [];
  const { height } = outline.openingMm;
  return [line('trim', port.at(outline.mouthMm, 0), port.at(outline.mouthMm, height))];
}

/** L along what is seen of the left wall, or the slope over it, else of the right, cut where the drawing ends. */
function levelLine(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const seen = levelStretches(outline, level.at);
  const [front, far] = port.extent.a;
  const on = (hand: 'left' | 'right') =>
    seen.filter((s) => (s.wall === hand || (s.wall === 'slope' && outline.slope?.low === hand)) && s.to.y > front);
  const runs = on('left').length > 0 ? on('left') : on('right');
  const paths = runs.map(
    (s) => [port.at(Math.max(s.from.y, front), level.at.z), port.at(Math.min(s.to.y, far), level.at.z)] as const,
  );
  const spots = paths.flatMap(([a, b]): Where[] => [a, [b[0] + 13, b[1]], [a[0] - 22, a[1]], ...spotsAlong(a, b, 10)]);
  return {
    items: paths.flatMap(([a, b]) => thrown('L', level.setUp, [...a, ...b])),
    wishes: spots.length > 0 ? [flagWish('section', nameOf('L', level.setUp), spots)] : [],
    clear: [],
  };
}

/**
 * Upright lines up the left wall, else the right; where neither is met, their ends on floor and ceiling.
 *
 * @param on - the view, and how high it is where the section is cut
 */
function uprights(outline: Outline, level: Reckoned, on: { port: Viewport; under: number }): Drawn {
  const { port } = on;
  const topMm = (x: number) => Math.min(topAt(outline, x), on.under);
  const front = port.extent.a[0];
  const found = (['F', 'S'] as const).flatMap((kind) => {
    const ends = lineEnds(outline, level, kind).filter((e) => e.at.y > front);
    const end = ends.find((e) => e.wall === 'left') ?? ends.find((e) => e.wall === 'right');
    if (end) {
      const top = port.at(end.at.y, topMm(sideAt(outline, end.wall === 'left' ? 'left' : 'right')));
      const foot = port.at(end.at.y, 0);
      return [{ kind, top, foot, paths: [[...top, ...foot]] }];
    }
    if (kind === 'S' || ends.length === 0 || ends.some((e) => e.wall !== null)) return [];
    const [top, foot] = [port.at(level.at.y, topMm(level.at.x)), port.at(level.at.y, 0)];
    const paths = stubs(top, foot).filter((_, i) => reaches(outline, level.at.y, i === 0 ? 'ceiling' : 'floor'));
    return paths.length > 0 ? [{ kind, top, foot, paths }] : [];
  });
  return {
    items: found.flatMap(({ kind, paths }) => paths.flatMap((p) => thrown(kind, level.setUp, p))),
    wishes: found.map(({ kind, top, foot }) => flagWish('section', nameOf(kind, level.setUp), downFrom(top, foot))),
    clear: [],
  };
}

/** Whether there is floor or ceiling so far in or out: those of a reveal, and the head of a doorway, begin at the mouth. */
function reaches(outline: Outline, y: number, side: 'floor' | 'ceiling'): boolean {
  if (!isThere(outline, side)) return false;
  const ends = outline.family === 'reveal' || (goesThrough(outline) && side === 'ceiling');
  return !ends || (y >= outline.mouthMm && y <= outline.openingMm.depth);
}

/** F of earlier set-ups as upright dots, L as level ones. */
function keptLines(marks: readonly PlacedMark[], now: readonly number[], port: Viewport): Drawn {
  const { a, b } = port.extent;
  const kept = keptDatums(marks, now).flatMap((d) => {
    if (d.kind === 'L') return [{ ...d, ends: [port.at(a[0], d.from.z), port.at(a[1], d.from.z)] as const }];
    const lefter = d.from.x < d.to.x ? d.from : d.to;
    const wide = Math.abs(d.from.x - d.to.x) > Math.abs(d.from.y - d.to.y);
    if (!wide || lefter.y <= a[0]) return [];
    return [{ ...d, ends: [port.at(lefter.y, b[1]), port.at(lefter.y, b[0])] as const }];
  });
  return {
    items: kept.map((d) => line('datum', ...d.ends)),
    wishes: kept.map((d) =>
      flagWish('section', d.name, d.kind === 'L' ? spotsAlong(...d.ends, 14) : downFrom(...d.ends)),
    ),
    clear: [],
  };
}

function standing(level: Reckoned, frame: RoomFrame): Drawn {
  const port = frame.ports.section;
  const front = port.extent.a[0];
  const [x, y] = port.at(Math.max(level.at.y, front), level.at.z);
  if (level.at.y <= front) return { items: levelBeyond([x + 9, y - 16], -1), wishes: [], clear: [] };
  const size = sizeFromSide(port.scale);
  return { items: levelFromSide([x, y], { size, within: port.box }), wishes: [], clear: [bodyBox([x, y], size)] };
}
