/**
 * The section: the recess from the side, its back on the right, the room in front on the left. Along is y, up is z.
 *
 * It looks towards the left wall, and is laid out from the outline alone: it takes no recess.
 */
import type { Outline } from '../exercise/outline.ts';
import type { Point } from '../geometry/plane.ts';
import type { Side } from '../recess/recess-spec.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { corniceCut, downFrom, innerReach } from './elevation.ts';
import { type Drawn, pencilMarks, ruleInHand, runDots, type Sheet } from './in-hand.ts';
import { type Hit, type Item, line } from './item.ts';
import type { Where } from './label-place.ts';
import { bodyBox, levelBeyond, levelFromSide, sizeFromSide } from './level-drawing.ts';
import { flagWish, nameOf, spotsAlong, thrown } from './light-drawing.ts';
import { levelStretches, lineEnds } from './light-on-outline.ts';
import { dimension, hatched } from './plaster.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import { keptDatums, type PlacedMark } from './room-marks.ts';
import type { Viewport } from './viewport.ts';

/** Draws what stands still: cut walls, the arris where it is seen, trims, depth and height. */
export function sectionGround(view: Pick<LearnerView, 'outline' | 'trims'>, frame: RoomFrame): Drawn {
  const port = frame.ports.section;
  const { outline } = view;
  const { x, y, width, height } = port.box;
  const wall = frame.wallPx;
  const [x1, y1] = [x + width, y + height];
  const [faceX] = port.at(0, 0);
  const under = y1 + wall + 11;
  const beside = x1 + wall + 15;
  const dims = [
    dimension('section', String(outline.openingMm.depth), [
      [faceX, under],
      [x1, under],
    ]),
    dimension('section', String(outline.openingMm.height), [
      [beside, y],
      [beside, y1],
    ]),
  ];
  return {
    items: [
      hatched([
        { x, y: y - wall, width: width + wall, height: wall },
        { x: x1, y, width: wall, height },
        { x, y: y1, width: width + wall, height: wall },
      ]),
      ...trims(view, port),
      ...arris(outline, port),
      line('cut', [x, y], [x1, y], [x1, y1], [x, y1]),
      ...(frame.small ? [] : dims.flatMap((d) => d.items)),
    ],
    wishes: frame.small ? [] : dims.map((d) => d.wish),
    clear: [],
  };
}

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
  const all = [
    ...(level?.settled ? [levelLine(outline, level, port), uprights(outline, level, port)] : []),
    keptLines(on.marks, level, port),
    ...(level ? [standing(level, frame)] : []),
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

/** Where a pointer means a place: along back, ceiling and floor, and between them on a side wall. */
export function sectionHits(outline: Outline, frame: RoomFrame, side: Side | null): readonly Hit[] {
  const port = frame.ports.section;
  const { box } = port;
  const { height, depth } = outline.openingMm;
  const reach = frame.wallPx;
  const inner = innerReach({ ...box, width: port.scale * depth }, reach);
  const [mouthX] = port.at(outline.mouthMm, 0);
  const inside = { x: mouthX, y: box.y, width: box.x + box.width - mouthX, height: box.height };
  const across = { axis: 'y', px: [mouthX, box.x + box.width], mm: [outline.mouthMm, depth] } as const;
  const down = { axis: 'z', px: [box.y, box.y + box.height], mm: [height, 0] } as const;
  const view = 'section';
  const wide = { ...inside, height: reach + inner };
  return [
    {
      view,
      surface: 'back',
      box: { ...inside, x: box.x + box.width - inner, width: reach + inner },
      across: null,
      down,
    },
    { view, surface: 'ceiling', box: { ...wide, y: box.y - reach }, across, down: null },
    { view, surface: 'floor', box: { ...wide, y: box.y + box.height - inner }, across, down: null },
    { view, surface: side === 'right' ? 'right' : 'left', box: inside, across, down },
  ];
}

/** The breast's edge, where the section looks towards it. */
function arris(outline: Outline, port: Viewport): Item[] {
  if (outline.breastSide !== 'left') return [];
  const { height } = outline.openingMm;
  return [line('trim', port.at(outline.mouthMm, 0), port.at(outline.mouthMm, height))];
}

/** The left wall's skirting and cornice along it, those of the back cut through. */
function trims(view: Pick<LearnerView, 'outline' | 'trims'>, port: Viewport): Item[] {
  const { height, depth } = view.outline.openingMm;
  const from = view.outline.breastSide === 'left' ? view.outline.mouthMm : port.extent.a[0];
  return view.trims.flatMap((t): Item[] => {
    if (t.cleared) return [];
    const stroke = t.fate === 'off' ? 'trim-off' : 'trim';
    const flat = (z: number) => [line(stroke, port.at(from, z), port.at(depth, z))];
    if (t.kind === 'skirting') {
      if (t.surface !== 'back') return t.surface === 'left' ? flat(t.vMm[1]) : [];
      const out = Math.max(...t.profile.mm.map(([, mm]) => mm));
      return [line(stroke, port.at(depth - out, 0), port.at(depth - out, t.vMm[1]), port.at(depth, t.vMm[1]))];
    }
    const drop = Math.max(...t.profile.mm.map(([, mm]) => mm));
    if (t.profile.along === 'u') return t.uMm[0] < 0 ? flat(height - drop) : [];
    return [line(stroke, ...corniceCut(t, height, (v, z) => port.at(Math.min(v, depth), z)))];
  });
}

/** L along what is seen of the left wall, else of the right, cut where the drawing ends. */
function levelLine(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const seen = levelStretches(outline, level.at);
  const front = port.extent.a[0];
  const on = (wall: 'left' | 'right') => seen.filter((s) => s.wall === wall && s.to.y > front);
  const runs = on('left').length > 0 ? on('left') : on('right');
  const paths = runs.map((s) => [port.at(Math.max(s.from.y, front), level.at.z), port.at(s.to.y, level.at.z)] as const);
  const spots = paths.flatMap(([a, b]): Where[] => [a, [b[0] + 13, b[1]], [a[0] - 22, a[1]], ...spotsAlong(a, b, 10)]);
  return {
    items: paths.flatMap(([a, b]) => thrown('L', level.setUp, [...a, ...b])),
    wishes: spots.length > 0 ? [flagWish('section', nameOf('L', level.setUp), spots)] : [],
    clear: [],
  };
}

/** Upright lines where they fall on the left wall, else on the right, up the wall from floor to ceiling. */
function uprights(outline: Outline, level: Reckoned, port: Viewport): Drawn {
  const { height } = outline.openingMm;
  const front = port.extent.a[0];
  const found = (['F', 'S'] as const).flatMap((kind) => {
    const ends = lineEnds(outline, level, kind).filter((e) => e.at.y > front);
    const end = ends.find((e) => e.wall === 'left') ?? ends.find((e) => e.wall === 'right');
    return end ? [{ kind, top: port.at(end.at.y, height), foot: port.at(end.at.y, 0) }] : [];
  });
  return {
    items: found.flatMap(({ kind, top, foot }) => thrown(kind, level.setUp, [...top, ...foot])),
    wishes: found.map(({ kind, top, foot }) => flagWish('section', nameOf(kind, level.setUp), downFrom(top, foot))),
    clear: [],
  };
}

/** F of earlier set-ups as upright dots, L as level ones. */
function keptLines(marks: readonly PlacedMark[], level: Reckoned | null, port: Viewport): Drawn {
  const { a, b } = port.extent;
  const kept = keptDatums(marks, level?.setUp ?? null).flatMap((d) => {
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
