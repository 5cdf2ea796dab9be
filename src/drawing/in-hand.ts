/**
 * What is drawn of a focus in any view: places of the run, the rule with its legs, rings, pencil marks.
 */
import type { Point } from '../geometry/plane.ts';
import type { Reckoned } from '../survey/reckoning.ts';
import { type Box, boxed, circle, type Item, line, type PaperPoint, ring, type ViewName } from './item.ts';
import type { Where, Wish } from './label-place.ts';
import { legMm, type RoomFocus, ruleEnd, ruleMeets } from './room-focus.ts';
import type { PlacedMark } from './room-marks.ts';

/** How a view draws places: where they fall, how large a mm is, how much is drawn small. */
export interface Sheet {
  readonly view: ViewName;
  readonly at: (place: Point) => PaperPoint;
  readonly scale: number;
  readonly small: boolean;
  /** What the view shows, px: places outside it are not drawn. */
  readonly box: Box;
}

export interface Drawn {
  readonly items: readonly Item[];
  readonly wishes: readonly Wish[];
  /** What labels had better not stand on. */
  readonly clear: readonly Box[];
}

/** Dots at the run's places: filled when every one that falls there has its figure. */
export function runDots(focus: RoomFocus, on: Sheet): Drawn {
  const spots = new Map<string, { at: PaperPoint; done: boolean }>();
  for (const place of focus.runPlaces) {
    const at = on.at(place);
    if (!shown(at, on.box)) continue;
    const key = `${Math.round(at[0])} ${Math.round(at[1])}`;
    spots.set(key, { at, done: place.done && (spots.get(key)?.done ?? true) });
  }
  const dots = [...spots.values()];
  const r = on.small ? 2.5 : 3;
  return {
    items: dots.map((d) => circle(d.done ? 'read' : 'unread', d.at, r)),
    wishes: [],
    clear: dots.map((d) => around(d.at, r + 1)),
  };
}

/** The rule in hand, from the wall to past the line, in whole legs; end on it is a small square. */
export function ruleInHand(focus: RoomFocus, level: Reckoned | null, on: Sheet): Drawn {
  const { place } = focus;
  if (!place) return { items: [], wishes: [], clear: [] };
  const from = on.at(place);
  if (!shown(from, on.box)) return { items: [], wishes: [], clear: [] };
  const r = on.small ? 5 : on.view === 'plan' ? 7 : 6.5;
  const rings: Item[] = [circle('ring', from, r)];
  const clear = [around(from, r + 2)];
  const end = ruleEnd(focus);
  if (!end) return { items: rings, wishes: [], clear };
  const to = kept(on.at(end), on.box);
  const half = on.small ? 1.75 : on.view === 'plan' ? 3.5 : 2;
  if (apart(from, to) < 4) return { items: [boxed('rule', around(from, 3)), ...rings], wishes: [], clear };
  const met = ruleMeets(focus, level);
  if (met && shown(on.at(met), on.box)) {
    rings.push(circle('ring', on.at(met), r));
    clear.push(around(on.at(met), r + 2));
  }
  clear.push(spanning(from, to, half + 2));
  const wide = across(from, to, half);
  const legs = legTicks(from, to, { wide, long: longestOf(from, to) / on.scale, scale: on.scale });
  return { items: [stick(from, to, wide), ...legs, ...rings], wishes: [], clear };
}

/** Crosses with their numbers. */
export function pencilMarks(marks: readonly PlacedMark[], on: Sheet): Drawn {
  const arm = on.small ? 3.5 : 4.5;
  const there = marks.filter((m) => shown(on.at(m.at), on.box));
  const at = there.map((m) => on.at(m.at));
  return {
    items: at.map(([x, y]) => ({
      kind: 'pieces',
      stroke: 'mark',
      points: [x - arm, y - arm, x + arm, y + arm, x - arm, y + arm, x + arm, y - arm],
    })),
    wishes: there.map((m, i) => numberWish(on.view, m.mark, at[i] as PaperPoint)),
    clear: at.map((p) => around(p, arm + 1)),
  };
}

/** A box about a place, px. */
export function around([x, y]: PaperPoint, r: number): Box {
  return { x: x - r, y: y - r, width: 2 * r, height: 2 * r };
}

/** Whether a place falls in what a view shows. */
export function shown([x, y]: PaperPoint, box: Box): boolean {
  return x > box.x - 1 && y > box.y - 1 && x < box.x + box.width + 1 && y < box.y + box.height + 1;
}

function kept([x, y]: PaperPoint, box: Box): PaperPoint {
  return [Math.min(Math.max(x, box.x), box.x + box.width), Math.min(Math.max(y, box.y), box.y + box.height)];
}

function numberWish(view: ViewName, mark: number, [x, y]: PaperPoint): Wish {
  const at: Where[] = [10, 16, 24].flatMap((far): Where[] => [
    [x + far, y - 4, 'start'],
    [x - far, y - 4, 'end'],
    [x + far, y + 13, 'start'],
    [x - far, y + 13, 'end'],
    [x, y - far, 'middle'],
    [x, y + far + 11, 'middle'],
  ]);
  return { label: { view, text: String(mark), role: 'number' }, at };
}

function stick(from: PaperPoint, to: PaperPoint, [wx, wy]: PaperPoint): Item {
  return ring(
    'rule',
    [from[0] - wx, from[1] - wy],
    [to[0] - wx, to[1] - wy],
    [to[0] + wx, to[1] + wy],
    [from[0] + wx, from[1] + wy],
  );
}

/** Half the rule's breadth, square to its run. */
function across(from: PaperPoint, to: PaperPoint, half: number): PaperPoint {
  return Math.abs(to[0] - from[0]) > Math.abs(to[1] - from[1]) ? [0, half] : [half, 0];
}

/** Joints between legs across the whole rule, and where there is room quarters of a leg across half of it. */
function legTicks(from: PaperPoint, to: PaperPoint, rule: { wide: PaperPoint; long: number; scale: number }): Item[] {
  const [wx, wy] = rule.wide;
  const every = rule.scale * (legMm / 4) >= 9 ? legMm / 4 : legMm;
  const ticks: Item[] = [];
  for (let mm = every; mm < rule.long; mm += every) {
    const share = mm / rule.long;
    const [x, y] = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
    const low = mm % legMm === 0 ? 1 : 0;
    ticks.push(line('rule-leg', [x - wx, y - wy], [x + wx * low, y + wy * low]));
  }
  return ticks;
}

function spanning(a: PaperPoint, b: PaperPoint, more: number): Box {
  return {
    x: Math.min(a[0], b[0]) - more,
    y: Math.min(a[1], b[1]) - more,
    width: Math.abs(a[0] - b[0]) + 2 * more,
    height: Math.abs(a[1] - b[1]) + 2 * more,
  };
}

function longestOf(a: PaperPoint, b: PaperPoint): number {
  return Math.max(Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1]));
}

function apart(a: PaperPoint, b: PaperPoint): number {
  return Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]);
}
