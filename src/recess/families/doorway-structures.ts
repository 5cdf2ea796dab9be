/**
 * Structures of the door opening: a wall in wind, jambs that lean together or apart, a head or threshold that is not
 * level, a wall that is thicker on one side.
 */
import { at, type Structure } from './structure.ts';

/** In the order of the exercise code: only ever add at the end. */
export const doorwayStructures: readonly Structure[] = [
  {
    name: 'in-wind',
    says: 'the opening is in wind: one jamb twists, and the far face of the wall leans another way at each jamb',
    add: ({ size, choice }) => [
      at(choice(0, 2) === 0 ? 'left' : 'right', { kind: 'wind', mm: size(1, 7, 11) }),
      at('back', { kind: 'wind', mm: (choice(2, 2) === 0 ? 1 : -1) * size(3, 8, 12) }),
      at('back', { kind: 'lean', mm: (choice(4, 2) === 0 ? 1 : -1) * size(5, 3, 6) }),
    ],
  },
  {
    name: 'same-lean',
    says: 'both jambs lean the same way: every width is the same, and no plumb lining is that wide',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('left', { kind: 'lean', mm: sign * size(1, 6, 10) }),
        at('right', { kind: 'lean', mm: -sign * size(2, 6, 10) }),
      ];
    },
  },
  {
    name: 'closing-up',
    says: 'the jambs lean towards each other, at the head or at the floor',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('left', { kind: 'lean', mm: sign * size(1, 4, 7) }),
        at('right', { kind: 'lean', mm: sign * size(2, 4, 7) }),
        at('ceiling', { kind: 'fall', mm: size(3, 3, 6), towards: choice(4, 2) === 0 ? 'left' : 'right' }),
      ];
    },
  },
  {
    name: 'belly',
    says: 'one jamb bellies between knee and head, the other is hollow there',
    add: ({ openingMm, size, choice }) => {
      const bad = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at(bad, { kind: 'bow', mm: size(1, 6, 9), crownV: openingMm.height * size(2, 0.2, 0.75) }),
        at(bad === 'left' ? 'right' : 'left', {
          kind: 'bow',
          mm: -size(3, 2, 4),
          crownV: openingMm.height * size(4, 0.3, 0.7),
        }),
      ];
    },
  },
  {
    name: 'worn-threshold',
    says: 'the floor falls across the opening and has a lump by one jamb, the head falls the other way',
    add: ({ openingMm, size, choice }) => {
      const low = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at('floor', { kind: 'fall', mm: size(1, 5, 9), towards: low }),
        at('floor', {
          kind: 'hump',
          mm: size(2, 3, 6),
          u: (low === 'left' ? -1 : 1) * openingMm.width * size(3, 0.1, 0.4),
          v: openingMm.depth * size(4, 0, 1),
          width: size(5, 360, 500),
        }),
        at('ceiling', { kind: 'fall', mm: size(6, 5, 9), towards: low === 'left' ? 'right' : 'left' }),
      ];
    },
  },
  {
    name: 'thick-side',
    says: 'the wall is thicker at one jamb than at the other and steps at a height, one jamb opens out',
    add: ({ openingMm, size, choice }) => [
      at('back', { kind: 'skew', mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 6, 10) }),
      at('back', {
        kind: 'step',
        mm: (choice(2, 2) === 0 ? 1 : -1) * size(3, 4, 7),
        along: 'v',
        at: openingMm.height * size(4, 0.3, 0.7),
        width: size(5, 280, 420),
      }),
      at(choice(6, 2) === 0 ? 'left' : 'right', { kind: 'taper', mm: (choice(7, 2) === 0 ? 1 : -1) * size(8, 4, 8) }),
    ],
  },
  {
    name: 'sagging-head',
    says: 'the head sags, and a patch of thick plaster stands on one jamb',
    add: ({ openingMm, size, choice }) => [
      at('ceiling', { kind: 'bow', mm: size(0, 4, 8), crownU: openingMm.width * size(1, -0.35, 0.35) }),
      at(choice(2, 2) === 0 ? 'left' : 'right', {
        kind: 'hump',
        mm: size(3, 6, 9),
        u: openingMm.depth * size(4, 0, 1),
        v: openingMm.height * size(5, 0.1, 0.9),
        width: size(6, 400, 640),
      }),
    ],
  },
];
