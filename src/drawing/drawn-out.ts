/**
 * Drawing out: the factor that shows how far surfaces are out, and the shapes between curves. px.
 */

export type Px = readonly [x: number, y: number];

/** The factors that are used, the largest first. */
const factors: readonly number[] = [50, 20, 10, 5, 2];

/** The largest round factor at which every departure keeps within its room; 1 where none does. */
export function drawnFactor(fits: (factor: number) => boolean): number {
  return factors.find(fits) ?? 1;
}

/** A line through points. */
export function through(points: readonly Px[]): string {
  return points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`).join('');
}

/** A closed shape of a line of points and an edge back along it. */
export function closed(points: readonly Px[], edge: readonly Px[]): string {
  return `${through([...points, ...[...edge].reverse()])}Z`;
}

/**
 * The closed shapes between two lines over the stretches where the first is past the second.
 *
 * @param past - how far it is past at a point's index; > 0 counts
 */
export function pastShapes(line: readonly Px[], edge: readonly Px[], past: (i: number) => number): string[] {
  const shapes: string[] = [];
  let from: number | null = null;
  for (let i = 0; i <= line.length; i++) {
    const counts = i < line.length && past(i) > 0;
    if (counts && from === null) from = i;
    if (counts || from === null) continue;
    if (i - from > 1) shapes.push(closed(line.slice(from, i), edge.slice(from, i)));
    from = null;
  }
  return shapes;
}

/** Rounds to a tenth of a px. */
export function px(value: number): number {
  return Math.round(value * 10) / 10;
}
