/**
 * A hand whose level had to be stood anew: what it calls F, S and L are from then on the lines of the set-up that stands.
 */
import { type Act, datumName, datumParts, type PlaceSaid } from '../survey/act.ts';
import type { Hand } from './hand.ts';

export interface RestartedHand extends Hand {
  /** From now on the first set-up's names mean the lines that stand; its marks are rubbed out, nothing is lined up on them. */
  restart(): void;
}

/** Gives a hand that can be restarted. */
export function canRestart(hand: Hand): RestartedHand {
  let restarted = false;
  return {
    now: hand.now,
    act: (act) => hand.act(restarted ? fromLastSetUp(hand, act) : act),
    restart: () => {
      restarted = true;
      for (const { mark } of hand.now().marks) hand.act({ act: 'rub-out', mark });
    },
  };
}

/** Puts an act's F, S and L as those of the set-up that stands. */
export function fromLastSetUp(hand: Hand, act: Act): Act {
  const setUp = hand.now().standing?.setUp ?? 1;
  const datum = (name: string) => (datumParts(name).setUp === 1 ? datumName(datumParts(name).kind, setUp) : name);
  const place = (said: PlaceSaid): PlaceSaid =>
    'surface' in said && said.along !== undefined ? { ...said, along: datum(said.along) } : said;
  switch (act.act) {
    case 'mark':
    case 'span':
      return { ...act, place: place(act.place) };
    case 'read':
      return { ...act, datum: datum(act.datum), place: place(act.place) };
    case 'book':
      return { ...act, ...(act.datum === undefined ? {} : { datum: datum(act.datum) }), place: place(act.place) };
    default:
      return act;
  }
}
