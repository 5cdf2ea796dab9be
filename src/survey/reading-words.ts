/**
 * What is seen on a rule, in words that leave the judgement to the learner: never the number that would be booked.
 */
import { graduationMm, sayWritten, spokenUnits } from '../recess/lengths.ts';

const ways: readonly (readonly [number, string])[] = [
  [0.12, 'by a hair on the way'],
  [0.38, 'and about a quarter of the way'],
  [0.62, 'and about half-way'],
  [0.88, 'and about three quarters of the way'],
  [1, 'and nearly all the way'],
];

/**
 * Says where the middle of a line lies between two graduations.
 *
 * @param edgesMm - the line's two edges on the rule
 * @returns as in "past 596 and about half-way to 597"
 */
export function sayOnRule(edgesMm: readonly [number, number], units = spokenUnits()): string {
  const graduation = graduationMm(units);
  const middle = (edgesMm[0] + edgesMm[1]) / 2 / graduation;
  const below = Math.floor(middle);
  const share = middle - below;
  const way = ways.find(([most]) => share <= most)?.[1] ?? '';
  return `past ${sayWritten(below * graduation, units)} ${way} to ${sayWritten((below + 1) * graduation, units)}`;
}

/** Says where both edges of a line fall, to the nearest graduation passed. */
export function sayEdges(edgesMm: readonly [number, number], units = spokenUnits()): string {
  const graduation = graduationMm(units);
  const past = (mm: number) => sayWritten(Math.floor(mm / graduation) * graduation, units);
  return `its near edge is past ${past(edgesMm[0])}, its far edge past ${past(edgesMm[1])}`;
}
