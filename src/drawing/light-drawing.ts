/**
 * Light and datums, drawn: a thrown line with its soft band, a datum of before as dots, a flag with its letter.
 */
import { type DatumKind, datumName, datumParts } from '../survey/act.ts';
import type { Item, Label, PaperPoint, ViewName } from './item.ts';
import type { Where, Wish } from './label-place.ts';
import type { StrokeName } from './pens.ts';

/** How far the two lines of a later set-up stand apart, px. */
const apartPx = 4;

/** A line that is thrown now: of the first set-up one stroke, of a later one two. */
export function thrown(kind: DatumKind, setUp: number, points: readonly number[]): Item[] {
  const light: Item = { kind: 'path', stroke: `${kind}-light`, points };
  if (setUp === 1) return [light, { kind: 'path', stroke: kind, points }];
  const beside = (off: number): Item => ({ kind: 'path', stroke: `${kind}-double`, points: besidePath(points, off) });
  return [light, beside(0 - apartPx / 2), beside(apartPx / 2)];
}

/** Wishes for a flag with a datum's letter. */
export function flagWish(view: ViewName, datum: string, at: readonly Where[]): Wish {
  return { label: { view, text: datum, role: 'flag', datum }, at: at.map(([x, y]): Where => [x, y + 4.5]) };
}

/** The disc or pill that a flag's letter stands on. */
export function flagDisc(label: Label): Item {
  const { kind } = datumParts(label.datum ?? label.text);
  const stroke: StrokeName = `${kind}-flag`;
  const [x, y] = [label.x, label.y - 4.5];
  if (label.text.length === 1) return { kind: 'circle', stroke, x, y, r: 9 };
  const arc = quarter.map(([c, s]) => [9 * c, 9 * s] as const);
  const back = [...arc].reverse();
  const points = [
    ...arc.map(([c, s]) => [x + 3 + c, y + s]),
    ...back.map(([c, s]) => [x - 3 - c, y + s]),
    ...arc.map(([c, s]) => [x - 3 - c, y - s]),
    ...back.map(([c, s]) => [x + 3 + c, y - s]),
  ].flat();
  return { kind: 'path', stroke, points, closed: true };
}

/** The name of a datum of a set-up. */
export function nameOf(kind: DatumKind, setUp: number): string {
  return datumName(kind, setUp);
}

/** Places for a flag on a straight line, the first so many px from its beginning, then beside it. */
export function spotsAlong(from: PaperPoint, to: PaperPoint, firstPx = 20): Where[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.sqrt(dx * dx + dy * dy);
  if (long < 1) return [from];
  const spots: Where[] = [];
  for (let at = Math.min(firstPx, long / 2); at <= long; at += 8)
    spots.push([from[0] + (dx * at) / long, from[1] + (dy * at) / long]);
  const flat = Math.abs(dx) > Math.abs(dy);
  const beside = (off: number) => spots.map(([x, y]): Where => (flat ? [x, y + off] : [x + off, y]));
  return [...spots, ...beside(14), ...beside(-14)];
}

/** A quarter of a circle in steps of 15°. */
const quarter = [
  [1, 0],
  [(Math.sqrt(6) + Math.sqrt(2)) / 4, (Math.sqrt(6) - Math.sqrt(2)) / 4],
  [Math.sqrt(3) / 2, 0.5],
  [Math.sqrt(0.5), Math.sqrt(0.5)],
  [0.5, Math.sqrt(3) / 2],
  [(Math.sqrt(6) - Math.sqrt(2)) / 4, (Math.sqrt(6) + Math.sqrt(2)) / 4],
  [0, 1],
] as const;

/** A path beside another, so many px to its right as it runs down the page; corners are mitred. */
function besidePath(points: readonly number[], off: number): number[] {
  const count = points.length / 2;
  const moved: number[] = [];
  for (let i = 0; i < count; i++) {
    const before = normal(points, Math.max(i - 1, 0));
    const after = normal(points, Math.min(i, count - 2));
    const mitre = 1 + before[0] * after[0] + before[1] * after[1];
    const share = off / Math.max(mitre, 0.2);
    moved.push((points[2 * i] as number) + (before[0] + after[0]) * share);
    moved.push((points[2 * i + 1] as number) + (before[1] + after[1]) * share);
  }
  return moved;
}

function normal(points: readonly number[], i: number): PaperPoint {
  const dx = (points[2 * i + 2] as number) - (points[2 * i] as number);
  const dy = (points[2 * i + 3] as number) - (points[2 * i + 1] as number);
  const long = Math.sqrt(dx * dx + dy * dy) || 1;
  return [dy / long, 0 - dx / long];
}
