/**
 * Proofs: what is shown over many cases, each case a function of (seed, index) alone, so that a proof can be shared out
 * and any case played again.
 */

/** The cases from one index to another, closed below and open above, of a seed. */
export interface Share {
  readonly seed: number;
  readonly from: number;
  readonly to: number;
}

/** What shares come to: plain data that adds up. */
export interface Tally {
  readonly counts: Record<string, number>;
  /** The largest of each, with the case that it was seen in. */
  readonly most: Record<string, { value: number; where: string }>;
  readonly series: Record<string, number[]>;
  readonly failures: string[];
}

/** What a whole proof comes to: its numbers in words, and what failed. */
export interface Result {
  readonly lines: readonly string[];
  readonly failures: readonly string[];
}

export interface Proof {
  readonly name: string;
  readonly says: string;
  /** How many cases in full, and how many in the quick tests. */
  readonly full: number;
  readonly small: number;
  prove(share: Share): Tally | Promise<Tally>;
  /** Puts the numbers in words, and fails what only all of them together can show. */
  conclude(tally: Tally): Result;
}

/** A case of a share. */
export interface Case {
  readonly seed: number;
  readonly index: number;
}

/** Proves all cases of a size in one go. */
export async function runProof(proof: Proof, size: number, seed: number): Promise<Result> {
  return resultOf(proof, await proof.prove({ seed, from: 0, to: size }));
}

/** Gives what a tally shows: the failures of its cases, then those of all together. */
export function resultOf(proof: Proof, tally: Tally): Result {
  const { lines, failures } = proof.conclude(tally);
  return { lines, failures: [...tally.failures, ...failures] };
}

/** Begins a tally. */
export function newTally(): Tally {
  return { counts: {}, most: {}, series: {}, failures: [] };
}

/** Goes through a share; a case that throws is a failure of its own. */
export function eachCase(share: Share, take: (tally: Tally, at: Case) => void): Tally {
  const tally = newTally();
  for (let index = share.from; index < share.to; index++) {
    try {
      take(tally, { seed: share.seed, index });
    } catch (error) {
      fail(tally, { seed: share.seed, index }, `threw ${error instanceof Error ? error.stack : String(error)}`);
    }
  }
  return tally;
}

/** Adds a failure, with how to play it again. */
export function fail(tally: Tally, at: Case, says: string): void {
  tally.failures.push(`case ${at.index} of seed ${at.seed}: ${says}`);
}

export function count(tally: Tally, what: string, by = 1): void {
  tally.counts[what] = (tally.counts[what] ?? 0) + by;
}

export function counted(tally: Tally, what: string): number {
  return tally.counts[what] ?? 0;
}

/** Keeps the largest of a number. */
export function most(tally: Tally, what: string, seen: { value: number; where: string }): void {
  const before = tally.most[what];
  if (!before || seen.value > before.value) tally.most[what] = seen;
}

/** Keeps every value of a number. */
export function keep(tally: Tally, what: string, value: number): void {
  const series = tally.series[what] ?? [];
  series.push(value);
  tally.series[what] = series;
}

/** Adds tallies up, in their order. */
export function together(tallies: readonly Tally[]): Tally {
  const sum = newTally();
  for (const t of tallies) {
    for (const [what, by] of Object.entries(t.counts)) count(sum, what, by);
    for (const [what, seen] of Object.entries(t.most)) most(sum, what, seen);
    for (const [what, values] of Object.entries(t.series)) sum.series[what] = [...(sum.series[what] ?? []), ...values];
    sum.failures.push(...t.failures);
  }
  return sum;
}

/** Writes a table with aligned columns; the first row is its head. */
export function table(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
  const written = rows.map((row) => `| ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join(' | ')} |`);
  const rule = `| ${widths.map((w) => '-'.repeat(w)).join(' | ')} |`;
  return [written[0] ?? '', rule, ...written.slice(1)];
}

/** A share in per cent, to a tenth. */
export function percent(part: number, whole: number): string {
  return whole === 0 ? 'none' : `${((100 * part) / whole).toFixed(1)} %`;
}
