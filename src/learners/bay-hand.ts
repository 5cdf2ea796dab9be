/**
 * A hand at work in one recess of a pair: it sees the survey as that recess alone, and speaks in its frame; what it does is
 * done in the whole room. What it proposes is kept, to be proposed together.
 */
import type { BayNumber } from '../exercise/bays.ts';
import { type Act, type ActOf, datumName, datumParts, type PlaceSaid } from '../survey/act.ts';
import { bayWords, eachBay } from '../survey/in-bay.ts';
import { bayOf } from '../survey/world.ts';
import type { Hand } from './hand.ts';

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
  const [first, second] = hands.map((h) => h.proposed());
  if (!first) return;
  const { carcassMm, frameMm, allowanceMm } = second ?? {};
  const its = { ...(carcassMm && { carcassMm }), ...(frameMm && { frameMm }), ...(allowanceMm && { allowanceMm }) };
  hand.act(second ? { ...first, second: its } : first);
}

function handIn(hand: Hand, bay: BayNumber): BayHand {
  let kept: ActOf<'propose'> | null = null;
  return {
    now: () => eachBay(hand.now()).find((b) => b.bay === bay)?.survey ?? hand.now(),
    act: (act) => {
      if (act.act !== 'propose') return hand.act(inRoom(hand, bay, act));
      kept = act;
      return { ok: true };
    },
    proposed: () => kept,
  };
}

/** An act in a recess's own words, as the whole room's log has it. */
function inRoom(hand: Hand, bay: BayNumber, act: Act): Act {
  const { world, standing } = hand.now();
  if (act.act === 'say') return world.bays.length > 1 ? { ...act, of: bayWords[bay] } : act;
  if (bay === 1) return act;
  const setUp = standing?.setUp ?? 1;
  const datum = (name: string) => (datumParts(name).setUp === 1 ? datumName(datumParts(name).kind, setUp) : name);
  const place = (said: PlaceSaid): PlaceSaid => {
    if (!('surface' in said)) return said;
    return { ...said, ...(said.along === undefined ? {} : { along: datum(said.along) }), bay };
  };
  switch (act.act) {
    case 'stand':
      return { ...act, xMm: act.xMm + (bayOf(world, bay)?.atXMm ?? 0) };
    case 'mark':
    case 'span':
      return { ...act, place: place(act.place) };
    case 'read':
      return { ...act, datum: datum(act.datum), place: place(act.place) };
    case 'book':
      return {
        ...act,
        ...(act.datum === undefined ? {} : { datum: datum(act.datum) }),
        place: place(act.place),
        ...(typeof act.to === 'object' ? { to: place(act.to) } : {}),
      };
    default:
      return act;
  }
}
