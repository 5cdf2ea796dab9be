/**
 * The elevation: the recess as you stand facing it, cut just behind its mouth. Along is x, up is z.
 *
 * It is laid out from the outline alone: it takes no recess.
 */
import type { Outline } from '../exercise/outline.ts';
import type { LearnerView, SeenTrim } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { type Drawn, pencilMarks, ruleInHand, runDots, type Sheet } from './in-hand.ts';
import { type Box, type Hit, type Item, line, type PaperPoint, ring } from './item.ts';
import type { Where } from './label-place.ts';
import { bodyBox, levelBeyond, levelFromSide, sizeFromSide } from './level-drawing.ts';
import { flagWish, nameOf, spotsAlong, thrown } from './light-drawing.ts';
import { levelStretches, lineEnds } from './light-on-outline.ts';
import { dimension, hatched } from './plaster.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import { keptDatums, type PlacedMark } from './room-marks.ts';
import type { Viewport } from './viewport.ts';

/** Draws what stands still: cut walls, trims, the width. */
export function elevationGround(view: Pick<LearnerView, 'outline' | 'trims'>, frame: RoomFrame): Drawn {
  const port = frame.ports.elevation;
  const { x, y, width, height } = port.box;
  const wall = frame.wallPx;
  const [x1, y1] = [x + width, y + height];
  const under = y1 + wall + 11;
  const wide = dimension('elevation', String(view.outline.openingMm.width), [
    [x, under],
    [x1, under],
  ]);
  return {
    items: [
      hatched([
        { x: x - wall, y: y - wall, width: width + 2 * wall, height: wall },
        { x: x - wall, y, width: wall, height },
        { x: x1, y, width: wall, height },
        { x: x - wall, y: y1, width: width + 2 * wall, height: wall },
      ]),
      ...trims(view, port),
      ring('cut', [x, y], [x1, y], [x1, y1], [x, y1]),
      ...(frame.small ? [] : wide.items),
    ],
    wishes: frame.small ? [] : [wide.wish],
    clear: [],
  };
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
  const all = [
    ...(level?.settled ? [levelLine(outline, level, port), uprights(outline, level, port)] : []),
    keptLines(marks, level, port),
    ...(level ? [standing(level, frame)] : []),
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

/** Where a pointer means a place: along the four cut edges, and between them on the back wall. */
export function elevationHits(outline: Outline, frame: RoomFrame): readonly Hit[] {
  const { box } = frame.ports.elevation;
  const { width, height } = outline.openingMm;
  const reach = frame.wallPx;
  const inner = innerReach(box, reach);
  const across = { axis: 'x', px: [box.x, box.x + box.width], mm: [0 - width / 2, width / 2] } as const;
  const down = { axis: 'z', px: [box.y, box.y + box.height], mm: [height, 0] } as const;
  const edge = { x: box.x - reach, y: box.y - reach, width: reach + inner, height: reach + inner };
  const tall = { ...edge, y: box.y, height: box.height };
  const wide = { ...edge, x: box.x, width: box.width };
  const view = 'elevation';
  return [
    { view, surface: 'left', box: tall, across: null, down },
    { view, surface: 'right', box: { ...tall, x: box.x + box.width - inner }, across: null, down },
    { view, surface: 'ceiling', box: wide, across, down: null },
    { view, surface: 'floor', box: { ...wide, y: box.y + box.height - inner }, across, down: null },
    { view, surface: 'back', box, across, down },
  ];
}

/** How far into a view an edge is still meant by a pointer, px: a fifth of it at most. */
export function innerReach(box: Box, reach: number): number {
  return Math.min(reach, box.width / 5, box.height / 5);
}

/** The top of the back skirting, the underside of the back cornice, the party cornice cut through. */
function trims(view: Pick<LearnerView, 'outline' | 'trims'>, port: Viewport): Item[] {
  const { width, height } = view.outline.openingMm;
  const half = width / 2;
  return view.trims.flatMap((t): Item[] => {
    if (t.cleared) return [];
    const stroke = t.fate === 'off' ? 'trim-off' : 'trim';
    const flat = (z: number) => [line(stroke, port.at(0 - half, z), port.at(half, z))];
    if (t.kind === 'skirting') return t.surface === 'back' ? flat(t.vMm[1]) : [];
    const drop = Math.max(...t.profile.mm.map(([, mm]) => mm));
    if (t.profile.along === 'v') return flat(height - drop);
    return [line(stroke, ...corniceCut(t, height, (u, z) => port.at(Math.min(Math.max(u, 0 - half), half), z)))];
  });
}

/** A cornice cut through: its profile under the ceiling, out to the wall. */
export function corniceCut(
  trim: SeenTrim,
  ceilingMm: number,
  at: (u: number, z: number) => PaperPoint,
): readonly PaperPoint[] {
  const under = trim.profile.mm.map(([u, mm]) => at(u, ceilingMm - mm));
  const first = trim.profile.mm[0] as readonly [number, number];
  const last = trim.profile.mm.at(-1) as readonly [number, number];
  return first[1] < last[1] ? [at(first[0], ceilingMm), ...under] : [...under, at(last[0], ceilingMm)];
}

/** L across what is seen of the back wall. */
function levelLine(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const runs = levelStretches(outline, level.at).filter((s) => s.wall === 'back');
  const paths = runs.map((s) => [port.at(s.from.x, level.at.z), port.at(s.to.x, level.at.z)] as const);
  const spots = paths.flatMap(([a, b]): Where[] => {
    const beside: Where[] = [
      [b[0] + 13, b[1]],
      [a[0] - 2, a[1]],
    ];
    return [...beside, ...spotsAlong(b, a, 12)];
  });
  return {
    items: paths.flatMap(([a, b]) => thrown('L', level.setUp, [...a, ...b])),
    wishes: spots.length > 0 ? [flagWish('elevation', nameOf('L', level.setUp), spots)] : [],
    clear: [],
  };
}

/** Upright lines where they fall on the back wall. */
function uprights(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const { height } = outline.openingMm;
  const found = (['F', 'S'] as const).flatMap((kind) =>
    lineEnds(outline, level, kind)
      .filter((end) => end.wall === 'back')
      .map((end) => ({ kind, top: port.at(end.at.x, height), foot: port.at(end.at.x, 0) })),
  );
  return {
    items: found.flatMap(({ kind, top, foot }) => thrown(kind, level.setUp, [...top, ...foot])),
    wishes: found.map(({ kind, top, foot }) => flagWish('elevation', nameOf(kind, level.setUp), downFrom(top, foot))),
    clear: [],
  };
}

/** Places for a flag on an upright line: a quarter from its top, on down, then above. */
export function downFrom(top: PaperPoint, foot: PaperPoint): Where[] {
  const long = foot[1] - top[1];
  return [...spotsAlong(top, foot, Math.max(0.28 * long, 16)), ...spotsAlong(top, foot, 11)];
}

/** S of earlier set-ups as upright dots, L as level ones. */
function keptLines(marks: readonly PlacedMark[], level: Reckoned | null, port: Viewport): Drawn {
  const { a, b } = port.extent;
  const kept = keptDatums(marks, level?.setUp ?? null).flatMap((d) => {
    if (d.kind === 'L') return [{ ...d, ends: [port.at(a[1], d.from.z), port.at(a[0], d.from.z)] as const }];
    const further = d.from.y > d.to.y ? d.from : d.to;
    const deep = Math.abs(d.from.y - d.to.y) > Math.abs(d.from.x - d.to.x);
    if (!deep || further.x <= a[0] || further.x >= a[1]) return [];
    return [{ ...d, ends: [port.at(further.x, b[1]), port.at(further.x, b[0])] as const }];
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
