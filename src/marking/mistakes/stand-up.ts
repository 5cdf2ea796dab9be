/**
 * M30: the carcass cannot be stood up where it is brought in, and that was not asked, or answered otherwise.
 */

import { turnUpHeight } from '../../exercise/standing-up.ts';
import { sayLength } from '../../recess/lengths.ts';
import { sizesSent } from '../../survey/sent.ts';
import { standsUp } from '../answer-key.ts';
import { type Mistake, nothingMm } from './mistake.ts';

export const neverTilted: Mistake = {
  id: 'M30',
  name: 'standing it up not worked out',
  find: (from) => {
    const { brief, survey } = from;
    const said = sizesSent(survey);
    if (!said || !brief.access || survey.bookings.length === 0) return null;
    const up = standsUp(brief, said);
    const answer = survey.answers.filter((a) => a.question === 'stand-up').at(-1);
    if (!up || up.ok || answer?.answer === 'no' || 0 - up.byMm <= nothingMm) return null;
    const { clearHeightMm, plinthSeparate } = brief.access;
    const diagonal = turnUpHeight(said, plinthSeparate ? 0 : brief.plinthMm);
    return {
      costMm: 0 - up.byMm,
      sizes: ['carcass-height'],
      acts: survey.entries.filter((e) => e.act === answer || e.act === survey.proposal).map((e) => e.n),
      caught: {
        act: null,
        where: 'corner to corner',
        seenMm: diagonal,
        says: `Corner to corner it is ${sayLength(diagonal)}; where it is stood up there is ${sayLength(clearHeightMm)}.`,
      },
      happened: ['Lying down it comes in, but it is too long from corner to corner to be stood up there.'],
      did: [answer ? 'You said that it can be stood up.' : 'You did not ask whether it can be stood up.'],
      next: [
        'Work out the square root of height squared and depth squared, and hold it against the clear height. A plinth that comes apart lowers it.',
      ],
    };
  },
};
