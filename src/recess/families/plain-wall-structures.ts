/**
 * Structures of the plain wall: how it runs off a straight line, along and up.
 */
import { at, type Structure } from './structure.ts';

/** In the order of the exercise code: only ever add at the end. */
export const plainWallStructures: readonly Structure[] = [
  {
    name: 'hollow',
    says: 'the wall is hollow between its ends and out of square to the face line',
    add: ({ openingMm, size, choice }) => [
      at('back', {
        kind: 'bow',
        mm: -size(0, 6, 10),
        crownU: openingMm.width * size(1, -0.3, 0.3),
        crownV: openingMm.height * size(2, 0.25, 0.75),
      }),
      at('back', { kind: 'skew', mm: (choice(0, 2) === 0 ? 1 : -1) * size(3, 2, 5) }),
    ],
  },
  {
    name: 'belly',
    says: 'the wall bellies into the room',
    add: ({ openingMm, size }) => [
      at('back', {
        kind: 'bow',
        mm: size(0, 6, 10),
        crownU: openingMm.width * size(1, -0.35, 0.35),
        crownV: openingMm.height * size(2, 0.2, 0.8),
      }),
    ],
  },
  {
    name: 'leaning',
    says: 'the wall leans, and its foot is furthest off',
    add: ({ size, choice }) => [
      at('back', { kind: 'lean', mm: size(0, 6, 11) }),
      at('back', { kind: 'skew', mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 1, 4) }),
    ],
  },
  {
    name: 'hanging-back',
    says: 'the wall leans out of the room, and its head is furthest off',
    add: ({ size, choice }) => [
      at('back', { kind: 'lean', mm: -size(0, 6, 11) }),
      at('floor', { kind: 'fall', mm: size(1, 4, 8), towards: choice(0, 2) === 0 ? 'left' : 'right' }),
    ],
  },
  {
    name: 'chased',
    says: 'a chase was plastered over: the wall dips where the cables run, and stands out beside it',
    add: ({ openingMm, size, choice }) => {
      const where = size(0, 0.08, 0.3) * (choice(0, 2) === 0 ? 1 : -1);
      return [
        at('back', {
          kind: 'hump',
          mm: -size(1, 5, 9),
          u: openingMm.width * where,
          v: openingMm.height * size(2, 0.2, 0.8),
          width: size(3, 620, 900),
        }),
        at('back', {
          kind: 'hump',
          mm: size(4, 3, 6),
          u: -openingMm.width * where,
          v: openingMm.height * size(5, 0.2, 0.8),
          width: size(6, 620, 900),
        }),
      ];
    },
  },
  {
    name: 'stepped',
    says: 'the wall steps where two builds meet, and the ceiling falls across it',
    add: ({ openingMm, size, choice }) => {
      const towards = choice(1, 2) === 0 ? 'left' : 'right';
      return [
        at('back', {
          kind: 'step',
          mm: (choice(0, 2) === 0 ? 1 : -1) * size(0, 5, 9),
          along: 'u',
          at: openingMm.width * size(1, -0.25, 0.25),
          width: size(2, 280, 420),
        }),
        at('ceiling', { kind: 'fall', mm: size(3, 5, 9), towards }),
      ];
    },
  },
  {
    name: 'wound',
    says: 'the wall is in wind, one top corner into the room, and out of square',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('back', { kind: 'wind', mm: sign * size(0, 8, 12) }),
        at('back', { kind: 'skew', mm: -sign * size(1, 3, 6) }),
      ];
    },
  },
];
