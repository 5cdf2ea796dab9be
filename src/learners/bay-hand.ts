/**
 * A hand at work in one recess of a pair: it sees the survey as that recess alone, and speaks in its frame; what it does is
 * done in the whole room. What it proposes is kept, to be proposed together.
 */
import type { BayNumber } from '../exercise/bays.ts';
import type { ActOf } from '../survey/act.ts';
import { actInRoom, surveyIn } from '../survey/in-bay.ts';
import type { Hand } from './hand.ts';
import { fromLastSetUp } from './later-lines.ts';

export interface BayHand extends Hand {
  /** What was proposed in this recess; null when nothing was. */
  proposed(): ActOf<'propose'> | null;
}

/** Gives the hands for the recesses of what is in hand, from left to right; with one recess, the hand itself. */
export function handsByBay(hand: Hand): readonly BayHand[] {
  const { bays } = hand.now().world;
  return bays.map((b) => handIn(hand, b.bay));
}

/** Proposes what each recess's hand has, in one act. */
export function proposeTogether(hand: Hand, hands: readonly BayHand[]): void {
  let whole: ActOf<'propose'> | null = null;
  hands.forEach((h, i) => {
    const its = h.proposed();
    if (its) whole = actInRoom({ ...hand.now(), proposal: whole }, i === 0 ? 1 : 2, its) as ActOf<'propose'>;
  });
  if (whole) hand.act(whole);
}

function handIn(hand: Hand, bay: BayNumber): BayHand {
  let kept: ActOf<'propose'> | null = null;
  return {
    now: () => surveyIn(hand.now(), bay),
    act: (act) => {
      // In the right recess F, S and L mean those of the set-up that stands there.
      if (act.act !== 'propose')
        return hand.act(actInRoom(hand.now(), bay, bay === 1 ? act : fromLastSetUp(hand, act)));
      kept = act;
      return { ok: true };
    },
    proposed: () => kept,
  };
}
