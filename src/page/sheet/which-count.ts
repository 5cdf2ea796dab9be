/** Which figures count, in a sentence or two: said by the brief, for what is made here. */
import type { Brief } from '../../exercise/brief.ts';

/** Says which offsets go into the sums. */
export function sayWhichCount(brief: Pick<Brief, 'shelves' | 'lining' | 'modules' | 'frame'>): string {
  if (brief.shelves) return 'Shelf blanks must reach the wall behind them everywhere: the largest depth of all.';
  if (brief.lining)
    return 'A lining must go in: the smallest offsets of all for its width and height. Its depth must cover the wall: the largest thickness.';
  const goesIn = brief.modules
    ? 'Carcasses side by side must go in together: the smallest offsets of all, and at each end the smallest from S.'
    : 'A carcass must go in: the smallest offsets of all.';
  return brief.frame ? `${goesIn} A frame must cover: the largest on the face line.` : goesIn;
}
