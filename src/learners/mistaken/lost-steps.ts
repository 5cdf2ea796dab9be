/**
 * Learners who survey from two set-ups and lose the step between their lines: its way, its datum, or all of it. One way
 * of three does it right.
 */
import type { Side } from '../../recess/recess-spec.ts';
import { datumName, type SurfacePlace } from '../../survey/act.ts';
import { lineHeight, markLines } from '../careful.ts';
import { type Hand, judged } from '../hand.ts';
import { standOnReference } from '../lining-up.ts';
import type { PlannedReading } from '../reading-plan.ts';
import { middleHeight, type Slip } from './method.ts';

/** Surveys the left wall from one set-up and the rest from another to its right, the step read and carried. */
export const twoSetUps: Slip = fromTwo({ first: 'left', byXMm: 110, byZMm: 0 }, (hand, step) =>
  hand.act({ act: 'carry', from: 'S2', to: 'S', stepMm: step }),
);

/** Surveys the floor from one level line and the rest from a higher one, the step carried the wrong way. */
export const wrongSign: Slip = fromTwo({ first: 'floor', byXMm: 0, byZMm: 60 }, (hand, step) =>
  hand.act({ act: 'carry', from: 'L2', to: 'L', stepMm: 0 - step }),
);

/** Books what is read from the second set-up as if the lines were still the first's. */
export const mixedLines: Slip = {
  ...fromTwo({ first: 'left', byXMm: 110, byZMm: 0 }, () => undefined),
  habit: () => ({ bookedAs: ({ datum, place }) => ({ datum: datum[0] ?? datum, place }) }),
};

/** Never books the step to the second set-up. */
export const noStep: Slip = fromTwo({ first: 'left', byXMm: 110, byZMm: 0 }, () => undefined);

/** How the second set-up stands to the first, and which side is read from the first. */
interface Two {
  readonly first: Side;
  readonly byXMm: number;
  readonly byZMm: number;
}

function fromTwo(two: Two, carry: (hand: Hand, stepMm: number) => void): Slip {
  const isFirst = (r: PlannedReading) => r.place.surface === two.first;
  return {
    plans: (readings) => [...readings.filter(isFirst), ...readings.filter((r) => !isFirst(r))],
    before: (hand, reading) => {
      if (isFirst(reading) || hand.now().setUps > 1) return;
      const { brief } = hand.now().world.exercise;
      const kind = two.first === 'left' ? 'S' : 'L';
      const place = stepPlace(two.first, middleHeight(brief));
      const before = looked(hand, datumName(kind, 1), place);
      standOnReference(hand, lineHeight(brief.openingMm.height) + two.byZMm, two.byXMm);
      markLines(hand);
      const after = looked(hand, datumName(kind, 2), place);
      if (before !== null && after !== null) carry(hand, after - before);
    },
  };
}

/** A place that both set-ups see. */
function stepPlace(side: Side, heightMm: number): SurfacePlace {
  return side === 'left'
    ? { surface: 'left', yMm: 60, zMm: Math.round(heightMm) }
    : { surface: 'floor', xMm: 90, yMm: 120 };
}

function looked(hand: Hand, datum: string, place: SurfacePlace): number | null {
  const outcome = hand.act({ act: 'read', datum, place });
  return outcome.ok && outcome.edgesMm ? judged(outcome.edgesMm) : null;
}
