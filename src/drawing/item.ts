/**
 * What a drawing is made of, in px of its panel: strokes by name, labels in words, and stretches that mean something
 * to a pointer. Pens give the strokes their ink; the page gives the inks their colours.
 */
import type { Side } from '../recess/recess-spec.ts';
import type { StrokeName } from './pens.ts';

export type ViewName = 'plan' | 'elevation' | 'section';

/** A box of px, x right and y down from its top left. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type PaperPoint = readonly [x: number, y: number];

/** A line through points x, y, x, y, ..., open unless closed. */
export interface PathItem {
  readonly kind: 'path';
  readonly stroke: StrokeName;
  readonly points: readonly number[];
  readonly closed?: boolean;
}

/** Straight pieces apart from each other: x0, y0, x1, y1, ... */
export interface PiecesItem {
  readonly kind: 'pieces';
  readonly stroke: StrokeName;
  readonly points: readonly number[];
}

export interface CircleItem {
  readonly kind: 'circle';
  readonly stroke: StrokeName;
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

export type Item = PathItem | PiecesItem | CircleItem;

/** Words on a drawing; y is the line that they stand on. */
export interface Label {
  readonly view: ViewName;
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly role: 'caption' | 'note' | 'flag' | 'number';
  /** Whose flag it is. */
  readonly datum?: string;
}

/** Along which coordinate a stretch runs, in px across or down the panel and in mm. */
export interface Run {
  readonly axis: 'x' | 'y' | 'z';
  readonly px: readonly [number, number];
  readonly mm: readonly [number, number];
}

/** A box in which a pointer means a place on a surface; what it does not run along is left open. */
export interface Hit {
  readonly view: ViewName;
  readonly surface: Side;
  readonly box: Box;
  readonly across: Run | null;
  readonly down: Run | null;
}

/** Draws a line through places. */
export function line(stroke: StrokeName, ...places: readonly PaperPoint[]): PathItem {
  return { kind: 'path', stroke, points: places.flat() };
}

/** Draws a ring of lines through places, closed. */
export function ring(stroke: StrokeName, ...places: readonly PaperPoint[]): PathItem {
  return { ...line(stroke, ...places), closed: true };
}

/** Draws a circle. */
export function circle(stroke: StrokeName, [x, y]: PaperPoint, r: number): CircleItem {
  return { kind: 'circle', stroke, x, y, r };
}

/** Draws a box, its sides along the panel's. */
export function boxed(stroke: StrokeName, { x, y, width, height }: Box): PathItem {
  return ring(stroke, [x, y], [x + width, y], [x + width, y + height], [x, y + height]);
}

/** Moves an item. */
export function moved(item: Item, by: PaperPoint): Item {
  if (item.kind === 'circle') return { ...item, x: item.x + by[0], y: item.y + by[1] };
  return { ...item, points: item.points.map((p, i) => p + (by[i % 2] as number)) };
}
