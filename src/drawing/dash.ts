/**
 * Dashes: a path cut into the pieces of a pattern, for a canvas that draws only whole lines.
 */

/**
 * Cuts a path.
 *
 * @param points - x, y, x, y, ...
 * @param pattern - on, off, on, off, ..., px, all > 0
 * @returns straight pieces x0, y0, x1, y1
 */
export function dashed(
  points: readonly number[],
  pattern: readonly number[],
): readonly (readonly [number, number, number, number])[] {
  const pieces: [number, number, number, number][] = [];
  let at = 0;
  let left = pattern[0] ?? 1;
  for (let i = 2; i < points.length; i += 2) {
    let [x, y] = [points[i - 2] as number, points[i - 1] as number];
    const [tx, ty] = [points[i] as number, points[i + 1] as number];
    let far = Math.sqrt((tx - x) * (tx - x) + (ty - y) * (ty - y));
    while (far > 1e-9) {
      const go = Math.min(left, far);
      const nx = x + ((tx - x) * go) / far;
      const ny = y + ((ty - y) * go) / far;
      if (at % 2 === 0) pieces.push([x, y, nx, ny]);
      far -= go;
      left -= go;
      [x, y] = [nx, ny];
      if (left <= 1e-9) {
        at = (at + 1) % pattern.length;
        left = pattern[at] ?? 1;
      }
    }
  }
  return pieces;
}
