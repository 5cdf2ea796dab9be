/**
 * M33: a blunder survives, because nothing was closed on or a misclosure was let stand.
 */
import { sayLength } from '../../recess/lengths.ts';
import type { Word } from '../ledger-story.ts';
import { sayBookedPlace } from '../place-words.ts';
import type { Evidence, Figure } from './evidence.ts';
import type { Mistake } from './mistake.ts';
import { byFigures } from './rule-in-hand.ts';

export const neverClosed: Mistake = {
  id: 'M33',
  name: 'nothing closed, or a misclosure let stand',
  find: (from) => {
    const { misclosureMm } = from.survey.world.exercise.headings.checks;
    const blunders = from.sizes.flatMap((size) => {
      const open = isOpen(from, size);
      return from
        .figures(size)
        .filter((f) => f.seenMm !== null && Math.abs(f.offset.said.valueMm - f.seenMm) > misclosureMm && open(f));
    });
    return byFigures(
      from,
      blunders,
      (f) => f.seenMm ?? f.offset.said.valueMm,
      (worst) => ({
        happened: ['A slip is on the sheet, and nothing there could show it up.'],
        did: [
          'You booked ',
          his(worst.offset.said.valueMm),
          ` (${sayBookedPlace(worst.offset.said.place, from.survey.world.exercise.spec)}), read that place once, and let it stand.`,
        ],
        next: ['Before you pack up: tape across and hold it against left and right, and read the first places again.'],
      }),
    );
  },
};

/** Which figures nothing closed on: none of the size was, or the check that missed was let stand. */
function isOpen(from: Evidence, size: Evidence['sizes'][number]): (f: Figure) => boolean {
  const checks = from.marks.checks.filter((c) => c.sizes.includes(size));
  if (checks.length === 0) return () => true;
  const heading = from.marks.score.headings.find((h) => h.name === 'checks');
  const left = (heading?.evidence ?? []).filter((e) => e.what === 'misclosure left open').flatMap((e) => e.acts);
  return (f) => checks.some((c) => left.includes(c.booking) && c.against.includes(f.n));
}

function his(mm: number): Word {
  return { his: sayLength(mm) };
}
