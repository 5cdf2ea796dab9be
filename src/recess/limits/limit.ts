/**
 * A limit as a document prints it: one number, so much a metre, by ranges of a nominal length, or columns to go between.
 */

export type Limit =
  | { readonly by: 'itself'; readonly mm: number }
  | { readonly by: 'metre'; readonly mm: number }
  /** Lengths up to and with each number of metres; the last holds for all beyond. */
  | { readonly by: 'range'; readonly upTo: readonly Entry[] }
  /** Straight between columns, rounded to whole mm, halves up; the outer columns hold beyond themselves. */
  | { readonly by: 'column'; readonly at: readonly Entry[] };

/** Metres, mm. */
export type Entry = readonly [m: number, mm: number];

/** Gives the limit at a length, mm. */
export function limitAt(limit: Limit, lengthMm: number): number {
  switch (limit.by) {
    case 'itself':
      return limit.mm;
    case 'metre':
      return (limit.mm * lengthMm) / 1000;
    case 'range':
      return inRange(limit.upTo, lengthMm);
    case 'column':
      return Math.floor(between(limit.at, lengthMm) + 0.5);
  }
}

/** Gives the lengths, mm, beyond which a limit between columns steps up by rounding, in ascending order. */
export function stepsOf(limit: Limit): readonly number[] {
  if (limit.by !== 'column') return [];
  const steps: number[] = [];
  for (let i = 1; i < limit.at.length; i++) {
    const [[m0, mm0], [m1, mm1]] = [limit.at[i - 1] as Entry, limit.at[i] as Entry];
    for (let half = Math.floor(mm0 + 0.5) + 0.5; half < mm1 + 0.5; half++)
      if (half > mm0 && half <= mm1) steps.push(1000 * (m0 + ((m1 - m0) * (half - mm0)) / (mm1 - mm0)));
  }
  return steps;
}

function inRange(upTo: readonly Entry[], lengthMm: number): number {
  const found = upTo.find(([m]) => lengthMm <= 1000 * m) ?? upTo[upTo.length - 1];
  return found ? found[1] : 0;
}

function between(at: readonly Entry[], lengthMm: number): number {
  const next = at.findIndex(([m]) => lengthMm <= 1000 * m);
  const [m1, mm1] = at[next < 0 ? at.length - 1 : next] as Entry;
  if (next <= 0) return mm1;
  const [m0, mm0] = at[next - 1] as Entry;
  return mm0 + ((mm1 - mm0) * (lengthMm - 1000 * m0)) / (1000 * (m1 - m0));
}
