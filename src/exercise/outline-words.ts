/**
 * What a recess is, as the eye sees it, in words: a title, and what a brief begins with.
 */
import { saySlope, sayWritten } from '../recess/lengths.ts';
import type { FamilyName } from '../recess/recess-spec.ts';
import { kindWords } from '../recess/trade-words.ts';
import type { Outline } from './outline.ts';

const titles: Readonly<Record<FamilyName, string>> = {
  alcove: 'Alcove beside the breast',
  run: 'Run from wall to wall',
  reveal: 'Window reveal',
  doorway: 'Door opening',
  'under-stair': 'Space under a stair',
  'roof-slope': 'Space under a roof slope',
  'plain-wall': 'Plain wall',
  'alcove-pair': 'Pair of alcoves',
  own: 'Recess of its own shape',
};

/** Names a recess, with what tells its handed shape: `Alcove beside the breast, breast on the left`. */
export function titleOf(outline: Pick<Outline, 'family' | 'breastSide' | 'slope'>): string {
  const title = titles[outline.family];
  if (outline.family === 'alcove-pair') return `${title}, the ${outline.breastSide === 'right' ? 'left' : 'right'} one`;
  if (outline.breastSide !== null) return `${title}, breast on the ${outline.breastSide}`;
  return outline.slope ? `${title}, low on the ${outline.slope.low}` : title;
}

/** Says the outline in a sentence or two: what it is, its rough sizes, the breast, the slope, what is open. */
export function sayOutline(outline: Outline): string {
  const { openingMm, breastSide, mouthMm, slope } = outline;
  const { width, height, depth } = openingMm;
  const open = outline.open.filter((side) => side !== 'slope' && (side !== 'ceiling' || !slope));
  return [
    `${capital(kindWords[outline.family])} about ${sayWritten(width)} wide, ${sayWritten(height)} high and ${sayWritten(depth)} deep.`,
    breastSide === null
      ? ''
      : `The breast is on the ${breastSide}; its face stands ${sayWritten(-mouthMm)} in front of the face line.`,
    slope
      ? `The slope is about ${sayWritten(slope.lowMm)} up at the ${slope.low} and rises ${saySlope(slope.riseMmPerM)}.`
      : '',
    open.length > 0 ? `Open: ${open.join(', ')}.` : '',
  ]
    .filter((s) => s !== '')
    .join(' ');
}

function capital(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}
