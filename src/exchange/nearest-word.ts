/**
 * The known word that is nearest to one that is not known: for a slip of the pen.
 *
 * @source V. I. Levenshtein, 1966: the least number of signs put in, left out or changed (from memory)
 */

/** Gives the nearest word, one that goes on from it first; null when none is near: over a third of its signs would change. */
export function nearestWord(word: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const [a, b] = [word.toLowerCase(), candidate.toLowerCase()];
    const steps = a.length > 1 && b.startsWith(a) ? 1 : stepsBetween(a, b);
    if (steps < least) [best, least] = [candidate, steps];
  }
  return best !== null && least <= Math.max(1, Math.ceil(best.length / 3)) ? best : null;
}

/** How many signs have to be put in, left out or changed. */
export function stepsBetween(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(changed, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
