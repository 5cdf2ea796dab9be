/**
 * Structures of the pair of alcoves: what is bad in which of the two, and what the one does to the other.
 */
import type { RecessSpec } from '../recess-spec.ts';
import { at, type PlacedDefect, type StructureDraw } from './structure.ts';

export interface PairDraw extends StructureDraw {
  /** The right alcove's opening; `openingMm` is the left's. */
  readonly right: RecessSpec['openingMm'];
}

export interface PairStructure {
  readonly name: string;
  readonly says: string;
  /** The defects it adds to each alcove, before the severity's scale is put on their sizes. */
  add(draw: PairDraw): { readonly left: readonly PlacedDefect[]; readonly right: readonly PlacedDefect[] };
}

/** In the order of the exercise code: only ever add at the end. At most as many as the code has signs. */
export const pairStructures: readonly PairStructure[] = [
  {
    name: 'wide-breast',
    says: 'the breast widens towards the back: both its cheeks close in',
    add: ({ size }) => ({
      left: [at('right', { kind: 'taper', mm: size(0, 4, 8) })],
      right: [at('left', { kind: 'taper', mm: size(1, 4, 8) })],
    }),
  },
  {
    name: 'leaning-breast',
    says: 'the breast leans to one side: one cheek into its alcove, the other out of it',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return {
        left: [at('right', { kind: 'lean', mm: sign * size(1, 6, 10) })],
        right: [at('left', { kind: 'lean', mm: -sign * size(2, 6, 10) })],
      };
    },
  },
  {
    name: 'floor-away',
    says: 'the floor falls right across: the one alcove away from the breast, the other towards it, with a hump in it',
    add: ({ size, choice, openingMm, right }) => {
      const towards = choice(0, 2) === 0 ? 'left' : 'right';
      const hump = (opening: RecessSpec['openingMm'], index: number) =>
        at('floor', {
          kind: 'hump',
          mm: size(index, 3, 6),
          u: opening.width * size(index + 1, -0.25, 0.25),
          v: opening.depth * size(index + 2, 0.2, 0.6),
          width: size(index + 3, 480, 720),
        });
      const fall = (index: number) => at('floor', { kind: 'fall', mm: size(index, 5, 9), towards });
      return towards === 'left'
        ? { left: [fall(1)], right: [fall(2), hump(right, 10)] }
        : { left: [fall(1), hump(openingMm, 20)], right: [fall(2)] };
    },
  },
  {
    name: 'party-bellies',
    says: 'one party wall bellies into its alcove, the other is hollow',
    add: ({ size, choice, openingMm }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      const bow = (mm: number, index: number) => ({
        kind: 'bow' as const,
        mm,
        crownV: openingMm.height * size(index, 0.3, 0.75),
      });
      return {
        left: [at('left', bow(sign * size(1, 5, 8), 3)), at('right', { kind: 'taper', mm: size(5, 1, 3) })],
        right: [at('right', bow(-sign * size(2, 5, 8), 4)), at('left', { kind: 'taper', mm: size(6, 1, 3) })],
      };
    },
  },
  {
    name: 'backs-apart',
    says: 'one back wall leans in and is out of square, in the other a patch of thick plaster stands out',
    add: ({ size, choice, openingMm, right }) => {
      const bad = [
        at('back', { kind: 'lean', mm: size(1, 5, 9) }),
        at('back', { kind: 'skew', mm: (choice(2, 2) === 0 ? 1 : -1) * size(3, 4, 8) }),
      ];
      const patch = (opening: RecessSpec['openingMm']) => [
        at('back', {
          kind: 'hump',
          mm: size(4, 6, 10),
          u: opening.width * size(5, -0.3, 0.3),
          v: size(6, 350, 1500),
          width: size(7, 700, 900),
        }),
      ];
      return choice(0, 2) === 0 ? { left: bad, right: patch(right) } : { left: patch(openingMm), right: bad };
    },
  },
];
