/**
 * M17: a rule whose zero end is worn, read from that end as if it were whole: every offset is too long by what is worn.
 */
import { sayWritten } from '../../recess/lengths.ts';
import type { Mistake } from './mistake.ts';
import { allFigures, byFigures } from './rule-in-hand.ts';

/** A figure is as it was seen when it is this near to it, mm: rounding, and no more. */
const asSeenMm = 0.6;
/** Of the figures, the share that has to have been read so. */
const share = 0.8;

export const wornEnd: Mistake = {
  id: 'M17',
  name: 'worn end of the rule',
  find: (from) => {
    const { wornMm = 0 } = from.survey.world.exercise.kit.rule;
    const read = allFigures(from).filter((f) => f.reading !== null);
    const worn = read.filter(
      (f) => f.reading?.fromFarEnd !== true && Math.abs(f.offset.said.valueMm - (f.seenMm ?? 0)) <= asSeenMm,
    );
    if (wornMm <= 0 || worn.length === 0 || worn.length < share * read.length) return null;
    return byFigures(
      from,
      worn,
      (f) => f.offset.said.valueMm - wornMm,
      () => ({
        happened: [
          `The zero end of the rule is worn by ${sayWritten(wornMm)}. Every offset reads long by that, twice over in a width.`,
        ],
        did: ['You held the worn end to the wall and wrote what the rule showed.'],
        next: [
          'Look at the end before you start. Close left and right against a tape, or hold the other end to the wall.',
        ],
      }),
    );
  },
};
