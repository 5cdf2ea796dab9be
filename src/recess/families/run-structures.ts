/**
 * Structures of the run from wall to wall: over so long a wall it is the long surfaces that are bad, and where.
 */
import { at, type Structure } from './structure.ts';

/** In the order of the exercise code: only ever add at the end. */
export const runStructures: readonly Structure[] = [
  {
    name: 'closing-ends',
    says: 'both end walls close in towards the back, one in wind',
    add: ({ size, choice }) => [
      at('left', { kind: 'taper', mm: size(0, 3, 7) }),
      at('right', { kind: 'taper', mm: size(1, 3, 7) }),
      at(choice(0, 2) === 0 ? 'left' : 'right', { kind: 'wind', mm: size(2, 4, 8) }),
    ],
  },
  {
    name: 'same-lean',
    says: 'both end walls lean the same way',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('left', { kind: 'lean', mm: sign * size(1, 6, 10) }),
        at('right', { kind: 'lean', mm: -sign * size(2, 6, 10) }),
      ];
    },
  },
  {
    name: 'bellied-back',
    says: 'the back wall bellies between its ends, and one end wall bellies',
    add: ({ openingMm, size, choice }) => [
      at('back', {
        kind: 'bow',
        mm: size(0, 6, 10),
        crownU: openingMm.width * size(1, -0.3, 0.3),
        crownV: openingMm.height * size(2, 0.3, 0.7),
      }),
      at(choice(0, 2) === 0 ? 'left' : 'right', {
        kind: 'bow',
        mm: size(3, 4, 7),
        crownV: openingMm.height * size(4, 0.3, 0.7),
      }),
    ],
  },
  {
    name: 'old-doorway',
    says: 'the back wall steps out where a doorway was bricked up, and the floor there is patched high',
    add: ({ openingMm, size, choice }) => {
      const where = openingMm.width * size(0, -0.3, 0.3);
      return [
        at('back', {
          kind: 'step',
          mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 5, 9),
          along: 'u',
          at: where,
          width: size(2, 280, 420),
        }),
        at('floor', {
          kind: 'hump',
          mm: size(3, 4, 7),
          u: where,
          v: openingMm.depth * size(4, -0.1, 0.3),
          width: size(5, 640, 900),
        }),
      ];
    },
  },
  {
    name: 'sunk-floor',
    says: 'the floor falls along the run and has a hump on the front line, the ceiling falls the other way',
    add: ({ openingMm, size, choice }) => {
      const low = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at('floor', { kind: 'fall', mm: size(1, 7, 12), towards: low }),
        at('floor', {
          kind: 'hump',
          mm: size(2, 3, 6),
          u: openingMm.width * size(3, -0.35, 0.35),
          v: size(4, -20, 60),
          width: size(5, 520, 800),
        }),
        at('ceiling', { kind: 'fall', mm: size(6, 6, 10), towards: low === 'left' ? 'right' : 'left' }),
      ];
    },
  },
  {
    name: 'sagging-ceiling',
    says: 'the ceiling sags between the end walls, and the back leans in',
    add: ({ openingMm, size }) => [
      at('ceiling', { kind: 'bow', mm: size(0, 7, 12), crownU: openingMm.width * size(1, -0.3, 0.3) }),
      at('back', { kind: 'lean', mm: size(2, 5, 9) }),
    ],
  },
  {
    name: 'patched-plaster',
    says: 'patches of thick plaster, one on the back wall and one low on an end wall',
    add: ({ openingMm, size, choice }) => [
      at('back', {
        kind: 'hump',
        mm: size(0, 6, 10),
        u: openingMm.width * size(1, -0.4, 0.4),
        v: openingMm.height * size(2, 0.15, 0.85),
        width: size(3, 700, 1000),
      }),
      at(choice(0, 2) === 0 ? 'left' : 'right', {
        kind: 'hump',
        mm: size(4, 6, 10),
        u: openingMm.depth * size(5, 0.2, 0.9),
        v: openingMm.height * size(6, 0.15, 0.85),
        width: size(7, 600, 820),
      }),
    ],
  },
];
