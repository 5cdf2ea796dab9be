/**
 * What a room of one's own gets where nothing is said: common practice for each family, no source.
 */
import type { FamilyName, ReferenceKind, Side } from '../../recess/recess-spec.ts';
import type { OwnRoom } from './own-room.ts';

export interface UsualRoom {
  readonly openingMm: { readonly width: number; readonly height: number; readonly depth: number };
  readonly breast?: NonNullable<OwnRoom['breast']>;
  readonly slope?: NonNullable<OwnRoom['slope']>;
  readonly open: readonly Exclude<Side, 'floor' | 'slope'>[];
  readonly reference: ReferenceKind;
  readonly plinthMm: number;
  /** Whether something is stood up in it. */
  readonly stoodUp: boolean;
  /** What is made in it: a carcass, carcasses side by side, or a lining whose far edge is planed to the back. */
  readonly made: 'carcass' | 'modules' | 'lining';
}

const wardrobe = { open: [], plinthMm: 100, stoodUp: true, made: 'carcass' } as const;
const lined = { open: [], reference: 'square-to-wall', plinthMm: 0, stoodUp: false, made: 'lining' } as const;

/** Families that a room of one's own may be of. */
export type OwnFamily = Exclude<FamilyName, 'alcove-pair'>;

export const usualRooms: Readonly<Record<OwnFamily, UsualRoom>> = {
  alcove: {
    ...wardrobe,
    openingMm: { width: 1200, height: 2400, depth: 400 },
    breast: { side: 'right', inFrontMm: 40 },
    reference: 'cornice-return',
  },
  run: { ...wardrobe, made: 'modules', openingMm: { width: 3000, height: 2400, depth: 600 }, reference: 'floor-joint' },
  reveal: {
    ...lined,
    openingMm: { width: 1200, height: 1300, depth: 250 },
  },
  doorway: {
    ...lined,
    openingMm: { width: 860, height: 2080, depth: 130 },
  },
  'under-stair': {
    openingMm: { width: 1800, height: 2200, depth: 700 },
    slope: { low: 'left', lowMm: 700, riseMmPerM: 800 },
    open: ['ceiling'],
    reference: 'floor-joint',
    plinthMm: 80,
    stoodUp: false,
    made: 'carcass',
  },
  'roof-slope': {
    openingMm: { width: 1600, height: 2300, depth: 600 },
    slope: { low: 'left', lowMm: 1000, riseMmPerM: 900 },
    open: [],
    reference: 'floor-joint',
    plinthMm: 80,
    stoodUp: false,
    made: 'carcass',
  },
  'plain-wall': {
    ...wardrobe,
    openingMm: { width: 2000, height: 2400, depth: 400 },
    open: ['left', 'right'],
    reference: 'best-fit',
  },
  own: { ...wardrobe, openingMm: { width: 1200, height: 2400, depth: 400 }, reference: 'best-fit' },
};
