/**
 * How sure a learner says that a size is: said with the proposal, held against what came of it.
 *
 * @source certainty-based marking, the published scheme: marks of 1, 2, 3 for what is right and 0, -2, -6 for what is not, by
 *   three degrees of certainty. The highest pays from a chance of 4 in 5, the lowest up to 2 in 3: worked out below
 */

/** The surest first: only ever add at the end. */
export const sureLevels = ['sure', 'fairly', 'guess'] as const;
export type SureLevel = (typeof sureLevels)[number];

/** What each degree pays, right and not right. */
const pays: Readonly<Record<SureLevel, { readonly right: number; readonly not: number }>> = {
  sure: { right: 3, not: -6 },
  fairly: { right: 2, not: -2 },
  guess: { right: 1, not: 0 },
};

/** Gives the shares of right ones between which it pays best to say a degree; both ends closed. */
export function payingShares(level: SureLevel): readonly [from: number, to: number] {
  const at = sureLevels.indexOf(level);
  const [surer, less] = [sureLevels[at - 1], sureLevels[at + 1]];
  return [less ? evenShare(level, less) : 0, surer ? evenShare(surer, level) : 1];
}

/** The share at which two degrees pay the same. */
function evenShare(a: SureLevel, b: SureLevel): number {
  const [one, other] = [pays[a], pays[b]];
  return (other.not - one.not) / (one.right - one.not - other.right + other.not);
}
