/**
 * Structures of the window reveal: jambs that splay or lean, a head that sags, a board that is hollow, a frame in wind.
 */
import { at, type Structure, type StructureDraw } from './structure.ts';

/** In the order of the exercise code: only ever add at the end. */
export const revealStructures: readonly Structure[] = [
  {
    name: 'splayed',
    says: 'both jambs splay: the reveal is narrower at the window frame than at the room',
    add: ({ size, ...draw }) => [
      at('left', { kind: 'taper', mm: size(0, 5, 11) }),
      at('right', { kind: 'taper', mm: size(1, 5, 11) }),
      ...leans({ size, ...draw }, 2, 4),
    ],
  },
  {
    name: 'narrow-mouth',
    says: 'both jambs open out to the frame: the reveal is narrowest where it meets the room',
    add: ({ size, ...draw }) => [
      at('left', { kind: 'taper', mm: -size(0, 3, 8) }),
      at('right', { kind: 'taper', mm: -size(1, 3, 8) }),
      ...leans({ size, ...draw }, 2, 4),
    ],
  },
  {
    name: 'sagging-head',
    says: 'the head sags under its load, and one jamb bellies',
    add: ({ openingMm, size, choice }) => [
      at('ceiling', { kind: 'bow', mm: size(0, 5, 9), crownU: openingMm.width * size(1, -0.3, 0.3) }),
      at(choice(2, 2) === 0 ? 'left' : 'right', {
        kind: 'bow',
        mm: size(3, 4, 7),
        crownV: openingMm.height * size(4, 0.2, 0.8),
      }),
    ],
  },
  {
    name: 'same-lean',
    says: 'both jambs lean the same way',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('left', { kind: 'lean', mm: sign * size(1, 5, 9) }),
        at('right', { kind: 'lean', mm: -sign * size(2, 5, 9) }),
        at('ceiling', { kind: 'fall', mm: size(3, 2, 5), towards: sign > 0 ? 'left' : 'right' }),
      ];
    },
  },
  {
    name: 'hollow-board',
    says: 'the bed of the board falls and has a lump in it, the head falls the other way',
    add: ({ openingMm, size, choice }) => {
      const low = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at('floor', { kind: 'fall', mm: size(1, 5, 9), towards: low }),
        at('floor', {
          kind: 'hump',
          mm: size(2, 3, 6),
          u: openingMm.width * size(3, -0.35, 0.35),
          v: openingMm.depth * size(4, 0.2, 0.8),
          width: size(5, 440, 620),
        }),
        at('ceiling', { kind: 'fall', mm: size(6, 5, 9), towards: low === 'left' ? 'right' : 'left' }),
      ];
    },
  },
  {
    name: 'frame-in-wind',
    says: 'the window frame is in wind and out of square, and so is one jamb',
    add: ({ size, choice }) => [
      at('back', { kind: 'wind', mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 3, 5) }),
      at('back', { kind: 'skew', mm: (choice(2, 2) === 0 ? 1 : -1) * size(3, 2, 4) }),
      at(choice(4, 2) === 0 ? 'left' : 'right', { kind: 'wind', mm: size(5, 5, 9) }),
    ],
  },
  {
    name: 'lumpy-jamb',
    says: 'a patch of thick plaster on one jamb, and the other leans in at the foot',
    add: ({ openingMm, size, choice }) => {
      const bad = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at(bad, {
          kind: 'hump',
          mm: size(1, 6, 9),
          u: openingMm.depth * size(2, 0, 1),
          v: openingMm.height * size(3, 0.2, 0.8),
          width: size(4, 420, 620),
        }),
        at(bad === 'left' ? 'right' : 'left', { kind: 'lean', mm: -size(5, 4, 7) }),
      ];
    },
  },
];

/** Each jamb leans a little, its own way. */
function leans({ size, choice }: StructureDraw, from: number, to: number) {
  return (['left', 'right'] as const).map((side, i) =>
    at(side, { kind: 'lean', mm: (choice(20 + i, 2) === 0 ? 1 : -1) * size(22 + i, from, to) }),
  );
}
