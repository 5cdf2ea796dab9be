/**
 * Statistics for tests, in plain arithmetic of their own.
 *
 * @source E. B. Wilson and M. M. Hilferty, "The distribution of chi-square", 1931: a cube root that is near to normal (from memory)
 */

/** Pearson's statistic of counts against what was expected in each bin. */
export function chiSquare(counts: readonly number[], expected: (bin: number) => number): number {
  return counts.reduce((sum, count, bin) => sum + (count - expected(bin)) ** 2 / expected(bin), 0);
}

/** How many standard deviations a chi-square lies above what chance gives; < 0: more even than chance. */
export function chiSquareDeviations(statistic: number, freedom: number): number {
  const spread = 2 / (9 * freedom);
  return (Math.cbrt(statistic / freedom) - (1 - spread)) / Math.sqrt(spread);
}

/** Deviations of counts that should all be alike. */
export function evenness(counts: readonly number[]): number {
  const each = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  return chiSquareDeviations(
    chiSquare(counts, () => each),
    counts.length - 1,
  );
}

/** Deviations of a table of counts, one row an element, from rows and columns that know nothing of each other. */
export function independence(table: readonly (readonly number[])[]): number {
  const rows = table.map((row) => row.reduce((sum, count) => sum + count, 0));
  const columns = table[0]!.map((_, j) => table.reduce((sum, row) => sum + row[j]!, 0));
  const all = rows.reduce((sum, count) => sum + count, 0);
  const statistic = table.reduce((sum, row, i) => sum + chiSquare(row, (j) => (rows[i]! * columns[j]!) / all), 0);
  return chiSquareDeviations(statistic, (rows.length - 1) * (columns.length - 1));
}

/** Counts values that are whole numbers from 0 to bins - 1; any other throws. */
export function tally(values: Iterable<number>, bins: number): number[] {
  const counts = new Array<number>(bins).fill(0);
  for (const value of values) {
    if (!(value in counts)) throw new RangeError(`tally: ${value} is in none of ${bins} bins`);
    counts[value]!++;
  }
  return counts;
}

/** Mean and standard deviation (of the values, not of the mean). */
export function meanAndDeviation(values: readonly number[]): { mean: number; deviation: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { mean, deviation: Math.sqrt(square) };
}

/** The middle value of a list; the upper of the two middle ones where their number is even. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
