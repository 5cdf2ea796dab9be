/**
 * M27: a floor or wall finish that is still to come was left out of the sums.
 */
import { finishOn } from '../../exercise/brief.ts';
import { sizeRules } from '../../survey/size.ts';
import type { Mistake } from './mistake.ts';
import { bySums, everySize } from './wrong-sums.ts';

export const finishLeftOut: Mistake = {
  id: 'M27',
  name: 'finish to come left out',
  find: (from) =>
    bySums(
      from,
      everySize,
      (size, sides) => {
        const pick = sizeRules[size].counts === 'least' ? Math.min : Math.max;
        const right = sides.reduce((sum, side) => sum + pick(...side.map((g) => g.mm)), 0);
        return right + sizeRules[size].sides.reduce((sum, side) => sum + finishOn(from.brief, side), 0);
      },
      {
        happened: 'A finish comes after the survey and takes up room that was there when it was read.',
        did: 'You worked the size out as the room stands now.',
        next: 'Take the finish that the brief names off each side that it is laid on.',
      },
    ),
};
