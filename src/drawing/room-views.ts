/**
 * Plan, elevation and section in one panel, linked: one is large, the others stay in sight.
 */
import type { LearnerView } from '../survey/learner-view.ts';
import type { Drawing, Item } from './item.ts';
import { layoutPlan } from './plan.ts';
import type { RoomFocus } from './room-focus.ts';
import { layoutElevation, layoutSection } from './upright.ts';
import type { Box, Viewport } from './viewport.ts';

export type ViewName = 'plan' | 'elevation' | 'section';

export interface RoomPanel {
  readonly width: number;
  readonly height: number;
  readonly large: ViewName;
}

export interface RoomLayout extends Drawing {
  /** Where each view's caption stands. */
  readonly captions: readonly { readonly view: ViewName; readonly x: number; readonly y: number }[];
  /** Where the level stands in the plan, px; null before it is stood. */
  readonly level: { readonly x: number; readonly y: number } | null;
  /** Turns px of the plan into the hand's mm. */
  readonly planScale: number;
}

const captionPx = 22;

/** Lays the three views out in a panel. */
export function layoutRoom(view: LearnerView, focus: RoomFocus, panel: RoomPanel): RoomLayout {
  const boxes = boxesOf(panel);
  const plan = layoutPlan(view, focus, under(boxes.plan));
  const elevation = layoutElevation(view, focus, under(boxes.elevation));
  const section = layoutSection(view, focus, under(boxes.section));
  const all = [elevation, section, plan];
  const level = view.level ? plan.port.at(view.level.at.x, view.level.at.y) : null;
  return {
    items: [...all.flatMap((d) => d.items), ...link(focus, elevation, section)],
    labels: all.flatMap((d) => d.labels),
    picks: all.flatMap((d) => d.picks),
    captions: (['elevation', 'section', 'plan'] as const).map((name) => ({
      view: name,
      x: boxes[name].x + 12,
      y: boxes[name].y,
    })),
    level: level ? { x: level[0], y: level[1] } : null,
    planScale: planScaleOf(plan.port),
  };
}

function planScaleOf(port: Viewport): number {
  return port.scale;
}

function under(box: Box): Box {
  return { x: box.x, y: box.y + captionPx, width: box.width, height: box.height - captionPx };
}

/** The boxes of the three views: side by side in a strip, else the large one with the others beside it. */
function boxesOf({ width, height, large }: RoomPanel): Readonly<Record<ViewName, Box>> {
  const gap = 20;
  if (height < 260) {
    const share = [0.27, 0.24, 0.49].map((s) => s * (width - 2 * gap));
    const [e = 0, s = 0, p = 0] = share;
    return {
      elevation: { x: 0, y: 0, width: e, height },
      section: { x: e + gap, y: 0, width: s, height },
      plan: { x: e + s + 2 * gap, y: 0, width: p, height },
    };
  }
  if (large === 'plan') {
    const top = Math.round(height * 0.47);
    const half = (width - gap) / 2;
    return {
      elevation: { x: 0, y: 0, width: half, height: top },
      section: { x: half + gap, y: 0, width: half, height: top },
      plan: { x: 0, y: top + 6, width, height: height - top - 6 },
    };
  }
  const wide = Math.round(width * 0.58);
  const other: ViewName = large === 'elevation' ? 'section' : 'elevation';
  const top = Math.round(height * 0.52);
  const rest = { x: wide + gap, width: width - wide - gap };
  return {
    [large]: { x: 0, y: 0, width: wide, height },
    [other]: { ...rest, y: 0, height: top },
    plan: { ...rest, y: top + 6, height: height - top - 6 },
  } as Record<ViewName, Box>;
}

/** A fine dotted line from the place in the elevation to the same place in the section. */
function link(focus: RoomFocus, elevation: Drawing, section: Drawing): Item[] {
  const ring = (d: Drawing) => d.items.find((i) => i.kind === 'circle' && i.ink === 'hand');
  const a = ring(elevation);
  const b = ring(section);
  if (!focus.place || a?.kind !== 'circle' || b?.kind !== 'circle' || Math.abs(a.y - b.y) > 2) return [];
  return [{ kind: 'path', points: [a.x + 7, a.y, b.x - 7, b.y], ink: 'hand', width: 1, dash: [1, 4] }];
}
