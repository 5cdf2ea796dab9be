/**
 * Learners who read and book all that is needed and work it out by another rule.
 */
import { finishOn } from '../../exercise/brief.ts';
import { type BookedOffset, bookedOffsets, grouped, mean, putTo, samePlace } from '../../survey/offsets.ts';
import { forWorkshop, offsetsOverMade, type SizeName, sizeRules } from '../../survey/size.ts';
import type { Hand } from '../hand.ts';
import type { Sizes } from '../proposing.ts';
import type { Slip } from './method.ts';

const carcassSizes = ['carcass-width', 'carcass-height', 'carcass-depth'] as const;
const frameSizes = ['frame-width', 'frame-height'] as const;

/** Adds left and right place by place, and takes the least of the sums; for a frame the most. */
export const leastSum: Slip = { sizes: (hand) => made(hand, [...carcassSizes, ...frameSizes], ruleOfSums) };

/** Adds the mean of each side. */
export const averages: Slip = {
  sizes: (hand) => made(hand, [...carcassSizes, ...frameSizes], (size, of) => sideBySide(size, of, (v) => mean(v))),
};

/** Adds the most of each side for the carcass. */
export const mostForCarcass: Slip = {
  sizes: (hand) => made(hand, carcassSizes, (size, of) => sideBySide(size, of, (v) => Math.max(...v))),
};

/** Adds the least of each side for the frame. */
export const leastForFrame: Slip = {
  sizes: (hand) => made(hand, frameSizes, (size, of) => sideBySide(size, of, (v) => Math.min(...v))),
};

/** Cuts the frame to the widest and leaves nothing to scribe. */
export const noStock: Slip = {
  sizes: (hand, worked) => {
    const { brief } = hand.now().world.exercise;
    const bare = worked.filter((w) => frameSizes.some((f) => f === w.size) && w.workshopMm !== null);
    return Object.fromEntries(bare.map((w) => [w.size, (w.workshopMm ?? 0) + offsetsOverMade(w.size, brief)]));
  },
};

/** Stands the carcass on the floor as it is in the middle, and not on its high point. */
export const plinthFromMiddle: Slip = {
  sizes: (hand) =>
    made(hand, ['carcass-height'], (_, offsets) => {
      const floor = offsets.filter((o) => o.side === 'floor');
      const ceiling = offsets.filter((o) => o.side === 'ceiling');
      const { mouthMm, carcassFrontMm, carcassMm } = hand.now().world.exercise.brief;
      const middle = (mouthMm + carcassFrontMm + carcassMm.depth.nominalMm) / 2;
      const far = (o: BookedOffset) => o.at.u * o.at.u + (o.at.v - middle) * (o.at.v - middle);
      const [nearest] = [...floor].sort((a, b) => far(a) - far(b) || a.n - b.n);
      if (!nearest || ceiling.length === 0) return null;
      return nearest.valueMm + Math.min(...ceiling.map((o) => o.valueMm));
    }),
};

/** Works out what the room allows as it stands, and forgets the finish that is still to come. */
export const finishForgotten: Slip = {
  sizes: (hand, worked) => {
    const { brief } = hand.now().world.exercise;
    const finish = (size: SizeName) => sizeRules[size].sides.reduce((sum, side) => sum + finishOn(brief, side), 0);
    return Object.fromEntries(
      worked.flatMap((w) => (w.workshopMm === null ? [] : [[w.size, w.workshopMm + finish(w.size)]])),
    );
  },
};

type Rule = (size: SizeName, offsets: readonly BookedOffset[]) => number | null;

/** Makes sizes of the offsets on the sheet by a rule, for the workshop. */
function made(hand: Hand, sizes: readonly SizeName[], rule: Rule): Sizes {
  const { brief } = hand.now().world.exercise;
  const booked = bookedOffsets(hand.now()).filter((o) => !o.check);
  return Object.fromEntries(
    sizes.flatMap((size) => {
      const mm = rule(
        size,
        booked.filter((o) => putTo(o, brief).includes(size)),
      );
      return mm === null ? [] : [[size, forWorkshop(size, mm - offsetsOverMade(size, brief))]];
    }),
  );
}

function sideBySide(
  size: SizeName,
  offsets: readonly BookedOffset[],
  pick: (v: readonly number[]) => number,
): number | null {
  let sum = 0;
  for (const side of sizeRules[size].sides) {
    const values = grouped(offsets.filter((o) => o.side === side)).map((g) => g.meanMm);
    if (values.length === 0) return null;
    sum += pick(values);
  }
  return sum;
}

/** Two places lie across from each other within this, mm: a rule that had to move aside a little still does. */
const acrossMm = 20;

/** The least (for a frame the most) of the sums of two places that lie across from each other. */
function ruleOfSums(size: SizeName, offsets: readonly BookedOffset[]): number | null {
  const [one, other] = sizeRules[size].sides;
  const sums = offsets.flatMap((a) =>
    offsets
      .filter((b) => a.side === one && b.side === other && samePlace(a.at, b.at, acrossMm))
      .map((b) => a.valueMm + b.valueMm),
  );
  if (sums.length === 0) return null;
  return sizeRules[size].counts === 'least' ? Math.min(...sums) : Math.max(...sums);
}
