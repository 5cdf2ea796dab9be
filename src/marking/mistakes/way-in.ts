/**
 * M31: the carcass does not come through the door or round the turn of the stair, and that was not asked, or answered
 * otherwise.
 */

import type { Brief, CarcassSizes } from '../../exercise/brief.ts';
import { highestOf } from '../../exercise/carcass-shape.ts';
import { type WayInQuestion, wayIn, wayInQuestions } from '../../exercise/way-in.ts';
import { sayLength } from '../../recess/lengths.ts';
import { sizesSent } from '../../survey/sent.ts';
import { type Caught, type Mistake, nothingMm } from './mistake.ts';

export const wayInMissed: Mistake = {
  id: 'M31',
  name: 'way in not worked out',
  find: (from) => {
    const { brief, survey } = from;
    const said = sizesSent(survey);
    const way = said && survey.bookings.length > 0 ? wayIn(brief, said) : null;
    if (!said || !way) return null;
    const stuck = wayInQuestions.flatMap((question) => {
      const found = way[question];
      const answer = survey.answers.filter((a) => a.question === question).at(-1);
      if (!found || found.ok || answer?.answer === 'no' || 0 - found.byMm <= nothingMm) return [];
      return [{ question, answer, mm: 0 - found.byMm }];
    });
    const [worst] = [...stuck].sort((a, b) => b.mm - a.mm || stuck.indexOf(a) - stuck.indexOf(b));
    if (!worst) return null;
    const { question, answer, mm } = worst;
    return {
      costMm: mm,
      sizes: [],
      acts: survey.entries.filter((e) => e.act === answer || e.act === survey.proposal).map((e) => e.n),
      caught: byWay(brief, { question, said, mm }),
      happened: [
        `It would go in, but it does not get there: ${ways[question]} is ${sayLength(mm)} too small, whichever way up it is carried.`,
      ],
      did: [
        answer
          ? `You said that it comes ${passes[question]}.`
          : `You did not ask whether it comes ${passes[question]}.`,
      ],
      next: [
        'Take the way from the van to the recess on the first visit: the clear width and height of each door, the widths before and after a turn. Make it in two if it does not come in whole.',
      ],
    };
  },
};

const ways: Readonly<Record<WayInQuestion, string>> = { door: 'the door', turn: 'the turn of the stair' };
const passes: Readonly<Record<WayInQuestion, string>> = { door: 'through the door', turn: 'round the turn' };

function byWay(brief: Brief, of: { question: WayInQuestion; said: CarcassSizes; mm: number }): Caught | null {
  const { question, said, mm } = of;
  const sizes = [said.widthMm, highestOf(said), said.depthMm].sort((a, b) => a - b);
  const [small = 0, middle = 0, large = 0] = sizes;
  const { door, turn } = brief.access ?? {};
  if (question === 'door' && door)
    return {
      act: null,
      where: 'the door',
      seenMm: Math.min(door.widthMm, door.heightMm) - small < 0 ? small : middle,
      says: `Its two smaller sizes are ${sayLength(small)} and ${sayLength(middle)}; the door is ${sayLength(door.widthMm)} by ${sayLength(door.heightMm)} clear.`,
    };
  if (!turn) return null;
  return {
    act: null,
    where: 'the turn of the stair',
    seenMm: 0 - mm,
    says: `It is ${sayLength(small)} by ${sayLength(middle)} by ${sayLength(large)}; the turn has ${sayLength(turn.beforeMm)} before it, ${sayLength(turn.afterMm)} after it and ${sayLength(turn.heightMm)} over it. By the best way up it lacks ${sayLength(mm)}.`,
  };
}
