/**
 * Looks for the nearest top of a function of a few numbers: a step in each number and in each two at once, either way, all
 * halved when none leads higher. Shares nothing with the program.
 */

/**
 * Goes up from a start.
 *
 * @param steps - the first step of each number; a number whose step is 0 stays
 * @param value - not a number where a place is not allowed
 */
export function goUp(
  start: readonly number[],
  steps: readonly number[],
  value: (at: readonly number[]) => number,
): { readonly at: readonly number[]; readonly value: number } {
  const free = steps.flatMap((step, i) => (step === 0 ? [] : [i]));
  const moves = free.flatMap((i) => [
    ...[1, -1].map((a) => ({ [i]: a })),
    ...free.filter((j) => j > i).flatMap((j) => [1, -1].flatMap((a) => [1, -1].map((b) => ({ [i]: a, [j]: b })))),
  ]) as Record<number, number>[];
  let best = { at: start, value: value(start) };
  for (let halved = 0; halved < 6; ) {
    let higher = false;
    for (const move of moves) {
      const at = best.at.map((x, i) => x + ((move[i] ?? 0) * (steps[i] ?? 0)) / 2 ** halved);
      const there = value(at);
      if (!(there > best.value)) continue;
      best = { at, value: there };
      higher = true;
    }
    if (!higher) halved++;
  }
  return best;
}
