/**
 * Plan, elevation and section in one panel, linked: one is large, the others stay in sight.
 *
 * Laid out from what the learner sees and from the outline; no recess comes in here, so no drawing can tell the truth.
 */
import type { LearnerView } from '../survey/learner-view.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { elevationGround, elevationHits, elevationWork } from './elevation.ts';
import { type Drawn, shown } from './in-hand.ts';
import type { Hit, Item, Label, PaperPoint, ViewName } from './item.ts';
import { placeLabels, type Wish } from './label-place.ts';
import { ghostFromAbove, ghostFromSide, sizeFromAbove, sizeFromSide } from './level-drawing.ts';
import { flagDisc } from './light-drawing.ts';
import { planGround, planHits, planWork } from './plan.ts';
import type { RoomFocus } from './room-focus.ts';
import { frameRoom, type RoomFrame, type RoomPanel } from './room-frame.ts';
import { placedMarks, standingLevels } from './room-marks.ts';
import { cutAt, sectionGround, sectionHits, sectionWork } from './section.ts';

/** What the views are laid out from: a learner's view, no more. */
export type RoomSeen = LearnerView;

export interface RoomLayout {
  readonly frame: RoomFrame;
  /** What stays as it is while the panel and the trims do. */
  readonly ground: readonly Item[];
  /** What acts move: lines, level, rule, rings, marks, flags. */
  readonly work: readonly Item[];
  readonly labels: readonly Label[];
  /** What a pointer means, the first that holds it. */
  readonly hits: readonly Hit[];
  /** Where the level in hand stands in the plan, px; null before it is stood. */
  readonly level: PaperPoint | null;
  /** Where every level stands in the plan, px; the one in hand at the end. */
  readonly levels: readonly StoodAt[];
}

/** A level by its number, and where it stands on paper. */
export interface StoodAt {
  readonly level: number;
  readonly setUp: number;
  readonly at: PaperPoint;
}

const viewNames: readonly ViewName[] = ['elevation', 'section', 'plan'];
const captions = { plan: 'Plan', elevation: 'Elevation', section: 'Section' } as const;

/**
 * Lays the three views out in a panel.
 *
 * @throws {RangeError} if the panel is smaller than 200 by 120 px
 */
export function layoutRoom(view: RoomSeen, focus: RoomFocus, panel: RoomPanel): RoomLayout {
  const frame = frameRoom(view.outline, view.level?.at ?? null, { ...panel, outMm: outOf(view, panel.outMm ?? 0) });
  const ground = [elevationGround(view, frame), sectionGround(view, frame), planGround(view, frame)];
  const on = { frame, marks: placedMarks(view) };
  const work = [elevationWork(view, focus, on), sectionWork(view, focus, on), planWork(view, focus, on)];
  const labels = placeAll(frame, [...ground, ...work]);
  const { level, outline } = view;
  return {
    frame,
    ground: ground.flatMap((d) => d.items),
    work: [
      ...work.flatMap((d) => d.items),
      ...link(focus, frame),
      ...labels.filter((l) => l.role === 'flag').map(flagDisc),
    ],
    labels,
    hits: [
      ...planHits(outline, frame),
      ...elevationHits(outline, frame),
      ...sectionHits(outline, frame, { side: focus.surface, x: cutAt(outline, focus, level) }),
    ],
    level: level ? frame.ports.plan.at(level.at.x, level.at.y) : null,
    levels: standingLevels(view).map((l, i) => ({
      level: view.levels[i]?.level ?? 1,
      setUp: l.setUp,
      at: frame.ports.plan.at(l.at.x, l.at.y),
    })),
  };
}

/** How far out marks on the floor and the other levels are, mm, in steps. */
function outOf(view: RoomSeen, leastMm: number): number {
  const marks = view.marks.filter((m) => m.place.surface === 'floor').map((m) => m.at?.y ?? 0);
  const levels = standingLevels(view).slice(0, -1);
  const furthest = Math.min(0, ...marks, ...levels.map((l) => l.at.y));
  return furthest < -400 ? Math.max(leastMm, 400 * Math.ceil((200 - furthest) / 400)) : leastMm;
}

/** Draws a level where it is, as what is carried about: its ghost in each view, to be moved. */
export function levelGhost(
  { level }: { readonly level: Reckoned | null },
  frame: RoomFrame,
): Readonly<Record<ViewName, readonly Item[]>> {
  if (!level) return { plan: [], elevation: [], section: [] };
  const { at, facing } = level;
  const { plan, elevation, section } = frame.ports;
  const fromSide = (port: typeof plan, along: number) =>
    ghostFromSide(port.at(along, at.z), port.box.y + port.box.height, sizeFromSide(port.scale));
  return {
    plan: ghostFromAbove(plan.at(at.x, at.y), facing, sizeFromAbove(plan.scale)),
    elevation: fromSide(elevation, at.x),
    section: fromSide(section, at.y),
  };
}

/** Captions and dimensions stand first, then flags, then numbers, then what may be left out. */
function placeAll(frame: RoomFrame, drawn: readonly Drawn[]): readonly Label[] {
  const { width, height } = frame.panel;
  const caption = viewNames.map((view): Wish => {
    const [x, y] = frame.captions[view];
    return { label: { view, text: captions[view], role: 'caption' }, at: [[x, y, 'start']] };
  });
  const wishes = drawn.flatMap((d) => d.wishes);
  const rank = (w: Wish) => (w.optional ? 3 : { caption: 0, note: 0, flag: 1, number: 2 }[w.label.role]);
  const ordered = [0, 1, 2, 3].flatMap((r) => wishes.filter((w) => rank(w) === r));
  return placeLabels([...caption, ...ordered], {
    panel: { x: 0, y: 0, width, height },
    clear: drawn.flatMap((d) => d.clear),
  });
}

/** Fine dots from the place in the elevation to the same place in the section. */
function link(focus: RoomFocus, frame: RoomFrame): Item[] {
  if (!focus.place) return [];
  const { x, y, z } = focus.place;
  const { elevation, section } = frame.ports;
  const ends = [elevation.at(x, z), section.at(y, z)] as const;
  if (!shown(ends[0], elevation.box) || !shown(ends[1], section.box)) return [];
  const [a, b] = ends[0][0] < ends[1][0] ? ends : [ends[1], ends[0]];
  const r = 8;
  if (b[0] - a[0] < 3 * r) return [];
  const start = [a[0] + r, a[1]];
  const end = [b[0] - r, b[1]];
  if (Math.abs(a[1] - b[1]) < 0.5) return [{ kind: 'path', stroke: 'link', points: [...start, ...end] }];
  const turn = b === ends[1] ? section.box.x - 14 : elevation.box.x - 14;
  return [{ kind: 'path', stroke: 'link', points: [...start, turn, a[1], turn, b[1], ...end] }];
}
