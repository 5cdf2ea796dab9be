/**
 * Where two surveys of one room were read, a panel a side: the one's places as dots, the other's as squares, and where sizes
 * are decided. Along and up are stretched each to fill the panel. px.
 */
import type { SideCompared } from '../marking/compare.ts';
import { axesOf } from '../recess/recess-spec.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export interface ReadPlacesLayout {
  readonly width: number;
  readonly height: number;
  readonly frame: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly one: readonly Spot[];
  readonly other: readonly Spot[];
  readonly decided: readonly Spot[];
  /** What the panel's two directions are: along its foot, and up its left edge. */
  readonly along: string;
  readonly up: string;
}

const edgePx = 8;
const footPx = 18;

/** Lays a side out in a panel. */
export function layoutReadPlaces(of: SideCompared, panel: { width: number; height: number }): ReadPlacesLayout {
  const all = [...of.read[0], ...of.read[1], ...of.decided];
  const frame = { x: 0.5, y: 0.5, width: panel.width - 1, height: panel.height - footPx };
  const across = stretched(
    all.map((p) => p.u),
    [frame.x + edgePx, frame.x + frame.width - edgePx],
  );
  const upward = stretched(
    all.map((p) => p.v),
    [frame.y + frame.height - edgePx, frame.y + edgePx],
  );
  const spot = (p: { u: number; v: number }): Spot => ({ x: across(p.u), y: upward(p.v) });
  const axes = axesOf(of.side);
  return {
    ...panel,
    frame,
    one: of.read[0].map(spot),
    other: of.read[1].map(spot),
    decided: of.decided.map(spot),
    along: axes.u === 'x' ? 'left to right' : 'front to back',
    up: axes.v === 'z' ? 'floor to head' : 'front to back, upwards',
  };
}

/** Stretches values between two ends; where they are all alike, they stand in the middle. */
function stretched(values: readonly number[], [from, to]: readonly [number, number]): (value: number) => number {
  const low = Math.min(...values);
  const high = Math.max(...values);
  if (!(high > low)) return () => (from + to) / 2;
  return (value) => Math.round(10 * (from + ((to - from) * (value - low)) / (high - low))) / 10;
}
