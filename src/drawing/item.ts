/**
 * What a drawing is made of: paths and circles in px of the panel, labels in words, and stretches that can be picked.
 */

/** Inks by what they are for; the page gives them their colours. */
export type Ink =
  | 'ink'
  | 'soft'
  | 'graphite'
  | 'hand'
  | 'edge'
  | 'hair'
  | 'hatch'
  | 'paper'
  | 'sheet'
  | 'wood'
  | 'F'
  | 'S'
  | 'L';

export interface PathItem {
  readonly kind: 'path';
  /** x, y, x, y, ... */
  readonly points: readonly number[];
  readonly closed?: boolean;
  readonly ink: Ink;
  readonly width: number;
  /** On, off, on, off, ... along the path. */
  readonly dash?: readonly number[];
  readonly alpha?: number;
  readonly fill?: Ink;
}

export interface CircleItem {
  readonly kind: 'circle';
  readonly x: number;
  readonly y: number;
  readonly r: number;
  readonly ink: Ink;
  readonly width: number;
  readonly fill?: Ink;
}

export type Item = PathItem | CircleItem;

export interface Label {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly role: 'note' | 'flag' | 'number';
}

/** A stretch of wall that a pointer can choose a place on: its ends in px and in mm of its running coordinate. */
export interface Pick {
  readonly surface: 'left' | 'right' | 'back' | 'floor' | 'ceiling';
  readonly axis: 'x' | 'y' | 'z';
  readonly px: readonly [x0: number, y0: number, x1: number, y1: number];
  readonly mm: readonly [from: number, to: number];
}

export interface Drawing {
  readonly items: readonly Item[];
  readonly labels: readonly Label[];
  readonly picks: readonly Pick[];
}

/** A straight line. */
export function line(
  from: readonly [number, number],
  to: readonly [number, number],
  pen: Omit<PathItem, 'kind' | 'points'>,
): PathItem {
  return { kind: 'path', points: [...from, ...to], ...pen };
}

/** A thrown line: light with its soft band under it. */
export function lightLine(points: readonly number[], datum: 'F' | 'S' | 'L', doubled: boolean): Item[] {
  const strokes = {
    F: { width: 3 },
    S: { width: 2.25, dash: [10, 5] },
    L: { width: 2.25, dash: [11, 4, 2, 4] },
  } as const;
  const pen = strokes[datum];
  const glow: PathItem = { kind: 'path', points, ink: datum, width: 9, alpha: 0.13 };
  if (!doubled) return [glow, { kind: 'path', points, ink: datum, ...pen }];
  const thin = { ...pen, width: 1.25 };
  return [
    glow,
    ...[-2, 2].map((off): PathItem => ({ kind: 'path', points: beside(points, off), ink: datum, ...thin })),
  ];
}

/** Plaster cut through: a rectangle of hatching at 45°. */
export function hatched(x0: number, y0: number, x1: number, y1: number): Item[] {
  const items: Item[] = [];
  const step = 7;
  const high = y1 - y0;
  for (let at = x0 - high + step / 2; at < x1; at += step) {
    const from = Math.max(at, x0);
    const to = Math.min(at + high, x1);
    if (to > from)
      items.push({ kind: 'path', points: [from, y1 - (from - at), to, y1 - (to - at)], ink: 'hatch', width: 1 });
  }
  return items;
}

/** A datum's letter, in its flag. */
export function flag(x: number, y: number, datum: string): { items: Item[]; labels: Label[] } {
  const ink = (datum[0] ?? 'F') as 'F' | 'S' | 'L';
  return {
    items: [{ kind: 'circle', x, y, r: 9, ink, width: 1.75, fill: 'sheet' }],
    labels: [{ x, y: y + 4.5, text: datum, anchor: 'middle', role: 'flag' }],
  };
}

/** A pencil mark and its number. */
export function pencilMark(x: number, y: number, number: number): { items: Item[]; labels: Label[] } {
  const pen = { ink: 'graphite', width: 1.5 } as const;
  return {
    items: [line([x - 4.5, y - 4.5], [x + 4.5, y + 4.5], pen), line([x - 4.5, y + 4.5], [x + 4.5, y - 4.5], pen)],
    labels: [{ x: x + 8, y: y - 5, text: String(number), anchor: 'start', role: 'number' }],
  };
}

function beside(points: readonly number[], off: number): number[] {
  const [x0 = 0, y0 = 0] = points;
  const [x1 = 0, y1 = 0] = points.slice(-2);
  const far = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0)) || 1;
  const nx = ((y1 - y0) / far) * off;
  const ny = ((x0 - x1) / far) * off;
  return points.map((p, i) => p + (i % 2 === 0 ? nx : ny));
}
