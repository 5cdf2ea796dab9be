/** What lies between the offsets and the size that is made of them, in words. */
import { type Brief, finishOn } from '../../exercise/brief.ts';
import { sayWritten } from '../../recess/lengths.ts';
import { type SizeName, sizeRules } from '../../survey/size.ts';

/** Says what is taken off the offsets of a size, or put on to them. */
export function sayOver(size: SizeName, brief: Brief): string {
  const finish = sizeRules[size].sides.reduce((sum, side) => sum + finishOn(brief, side), 0);
  return `${asked(size, brief)}${finish > 0 ? `; ${sayWritten(finish)} finish to come` : ''}.`;
}

function asked(size: SizeName, brief: Brief): string {
  const { left, right, top, back } = brief.askMm;
  const what = brief.lining ? 'packing' : 'to leave';
  switch (size) {
    case 'carcass-width':
    case 'lining-width':
      return `Taken off: ${what} ${sayWritten(left)} left, ${sayWritten(right)} right`;
    case 'carcass-height':
    case 'lining-height':
    case 'slope-low':
    case 'slope-high':
      return `Taken off: ${what} ${sayWritten(top)} over it, ${sayWritten(brief.plinthMm)} ${brief.lining ? 'packing' : 'plinth'} under it`;
    case 'carcass-depth':
      return `Taken off: to leave ${sayWritten(back)} behind, and it begins ${sayWritten((brief.setBackMm ?? 0) + brief.carcassFrontMm)} behind F`;
    case 'run-left':
      return `Taken off: to leave ${sayWritten(left)} at the wall`;
    case 'run-right':
      return `Taken off: to leave ${sayWritten(right)} at the wall`;
    case 'shelf-depth':
    case 'lining-depth':
      return 'Put on: the least that comes off when it is scribed or planed';
    default:
      return `Put on: ${sayWritten(brief.frame?.leastStockMm ?? 0)} to scribe off each edge`;
  }
}
