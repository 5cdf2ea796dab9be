/**
 * M25 and M34: a floor read at the back alone, a margin read in the middle alone.
 */
import { sayLength } from '../../recess/lengths.ts';
import { byTightest } from './catching.ts';
import { leftOutMm } from './evidence.ts';
import { type Mistake, nothingMm } from './mistake.ts';

/** The back: beyond this share of the way from the mouth to the carcass's back. */
const backShare = 0.6;
/** Places that lie within this along the width are one margin, mm. */
const oneMarginMm = 60;

export const floorAtBack: Mistake = {
  id: 'M25',
  name: 'floor read at the wall only',
  find: (from) => {
    const { mouthMm, carcassFrontMm, carcassMm } = from.brief;
    const back = mouthMm + backShare * (carcassFrontMm + carcassMm.depth.nominalMm - mouthMm);
    const places = from.placesRead('carcass-height').filter((p) => p.side === 'floor');
    if (places.length === 0 || places.some((p) => p.at.v < back)) return null;
    const decided = from.domain('carcass-height').decidedAt.find((d) => d.side === 'floor');
    const costMm = leftOutMm(from, 'carcass-height', 'floor');
    if (costMm <= nothingMm || !decided || decided.at.y >= back) return null;
    return {
      costMm,
      sizes: ['carcass-height'],
      acts: places.map((p) => p.n),
      caught: byTightest(from, 'carcass-height', 'floor', (at) => at.v < back),
      happened: [
        'The floor is higher in front of where it was read. The carcass stands on that high point, and its top comes up.',
      ],
      did: ['You read the floor under the carcass along the back wall only.'],
      next: ['Read the floor along the front of the carcass too, and half-way in.'],
    };
  },
};

export const oneMargin: Mistake = {
  id: 'M34',
  name: 'margin taken as parallel',
  find: (from) => {
    const margins = from.marks.key?.marginsMm;
    const places = (['carcass-height', 'frame-height'] as const)
      .filter((size) => from.sizes.includes(size))
      .flatMap((size) => from.placesRead(size).filter((p) => p.side === 'ceiling'));
    const across = places.map((p) => p.at.u);
    if (!margins || places.length === 0 || Math.max(...across) - Math.min(...across) > oneMarginMm) return null;
    const costMm = Math.max(...margins) - Math.min(...margins);
    if (costMm <= nothingMm) return null;
    const [left, , right] = margins;
    return {
      costMm,
      sizes: ['carcass-height'],
      acts: places.map((p) => p.n),
      caught: byTightest(from, 'carcass-height', 'ceiling', (at) => Math.abs(at.u - (across[0] ?? 0)) > oneMarginMm),
      happened: [
        `The margin over the work is a wedge: ${sayLength(left)} at the left and ${sayLength(right)} at the right, for a level carcass of the brief's height.`,
      ],
      did: ['You read up to the ceiling in one place along the width.'],
      next: ['Read the margin at the left, in the middle and at the right before you choose the top line.'],
    };
  },
};
