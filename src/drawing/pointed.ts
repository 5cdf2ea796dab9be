/**
 * What a pointer means: the place under it, and that place shown in the other views.
 *
 * Places are in the hand's frame, mm; a coordinate that is not told is left out.
 */
import type { Outline } from '../exercise/outline.ts';
import { nominalObstruction } from '../recess/defect-shapes.ts';
import { asPointed } from '../recess/lengths.ts';
import { axesOf, type Side, trueOf } from '../recess/recess-spec.ts';
import { circle, type Hit, type Item, line, type PaperPoint, type Run, type ViewName } from './item.ts';
import type { RoomFocus } from './room-focus.ts';
import type { RoomFrame } from './room-frame.ts';
import type { Viewport } from './viewport.ts';

export interface PointedPlace {
  readonly surface: Side;
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
}

type Axis = 'x' | 'y' | 'z';

/**
 * Finds the place under a pointer: the first hit that holds it.
 *
 * @param at - px of the panel
 * @returns whole mm, or eighths of an inch; the coordinate that the view does not show is kept from the focus, where the focus has it; null off
 *   every surface
 */
export function placeUnder(hits: readonly Hit[], at: PaperPoint, focus: RoomFocus): PointedPlace | null {
  const hit = hits.find(({ box }) => inBox(at[0], box.x, box.width) && inBox(at[1], box.y, box.height));
  if (!hit) return null;
  const { u, v } = axesOf(hit.surface);
  const kept = { [u]: keptFrom(focus, u), [v]: keptFrom(focus, v) };
  const told = { ...kept, ...toldBy(hit.across, at[0]), ...toldBy(hit.down, at[1]) };
  const known = Object.entries(told).filter(([, mm]) => mm !== undefined);
  return { surface: hit.surface, ...Object.fromEntries(known) };
}

/** Draws a pointed place in every view: a ring where both its coordinates are known, dots across where one is. */
export function linkCursor(outline: Outline, frame: RoomFrame, place: PointedPlace): readonly Item[] {
  const axes = axesOf(place.surface);
  const whole = { ...place, [axes.across]: acrossOf(outline, place.surface, place.x ?? 0) };
  const shown: readonly (readonly [ViewName, Axis, Axis])[] = [
    ['plan', 'x', 'y'],
    ['elevation', 'x', 'z'],
    ['section', 'y', 'z'],
  ];
  return shown.flatMap(([view, a, b]): Item[] => {
    const port = frame.ports[view];
    const [along, up] = [whole[a], whole[b]];
    if (along !== undefined && up !== undefined) return [circle('cursor', port.at(along, up), 4)];
    if (along !== undefined && a !== axes.across) return [dotsAcross(port, along, null)];
    if (up !== undefined && b !== axes.across) return [dotsAcross(port, null, up)];
    return [];
  });
}

function dotsAcross({ extent, at }: Viewport, a: number | null, b: number | null): Item {
  if (a !== null) return line('link', at(a, extent.b[0]), at(a, extent.b[1]));
  return line('link', at(extent.a[0], b ?? 0), at(extent.a[1], b ?? 0));
}

/** Where a straight surface stands, mm. */
function acrossOf(outline: Outline, surface: Side, x: number): number {
  return trueOf(surface, nominalObstruction(outline, surface, x));
}

function keptFrom(focus: RoomFocus, axis: Axis): number | undefined {
  const { place, surface } = focus;
  if (!place || !surface || axesOf(surface).across === axis) return undefined;
  return place[axis];
}

function toldBy(run: Run | null, px: number): Partial<Record<Axis, number>> {
  if (!run) return {};
  const share = Math.min(Math.max((px - run.px[0]) / (run.px[1] - run.px[0]), 0), 1);
  return { [run.axis]: asPointed(run.mm[0] + (run.mm[1] - run.mm[0]) * share) };
}

function inBox(at: number, from: number, long: number): boolean {
  return at >= from && at <= from + long;
}
