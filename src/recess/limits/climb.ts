/**
 * A climb to the nearest top of a function of a few numbers, by trying steps along given ways and halving them.
 *
 * It finds no more than the top above where it begins; it always ends, and the same way in every engine.
 */

/** A way to go: what a step of 1 mm adds to each number. */
export type Way = readonly number[];

const firstMm = 64;
const lastMm = 2;
const triesAStep = 16;

/**
 * Climbs.
 *
 * @param valueAt - what is to be made large; negative where a place is not allowed
 */
export function climb(
  from: readonly number[],
  ways: readonly Way[],
  valueAt: (at: readonly number[]) => number,
): number {
  let here = [...from];
  let best = valueAt(here);
  for (let step = firstMm; step >= lastMm; step /= 2)
    for (let tries = 0, climbing = true; climbing && tries < triesAStep; tries++) {
      climbing = false;
      for (const way of ways)
        for (const sign of [step, -step]) {
          const there = here.map((x, i) => x + sign * (way[i] as number));
          const value = valueAt(there);
          if (!(value > best)) continue;
          [here, best, climbing] = [there, value, true];
          break;
        }
    }
  return best;
}
