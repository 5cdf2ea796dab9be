/**
 * Structures of the recesses under a slope: what a stair's soffit, a roof's underside and the walls and floor below do.
 */
import { at, type Structure, type StructureDraw } from './structure.ts';

export interface SlopedDraw extends StructureDraw {
  /** The wall at the low end of the slope, and the one at its high end. */
  readonly low: 'left' | 'right';
  readonly high: 'left' | 'right';
}

/** Of the space under a stair, in the order of the exercise code: only ever add at the end. */
export const underStairStructures: readonly Structure<SlopedDraw>[] = [
  {
    name: 'bellied-soffit',
    says: 'the soffit bellies between its ends: a straight line on it rests in the middle',
    add: ({ openingMm, low, size }) => [
      at('slope', { kind: 'bow', mm: size(0, 5, 9), crownU: openingMm.width * size(1, -0.28, 0.28) }),
      at(low, { kind: 'lean', mm: -size(2, 2, 5) }),
    ],
  },
  {
    name: 'hollow-soffit',
    says: 'the soffit is hollow between its ends: a straight line on it rests at both',
    add: ({ openingMm, high, size }) => [
      at('slope', { kind: 'bow', mm: -size(0, 5, 9), crownU: openingMm.width * size(1, -0.2, 0.2) }),
      at(high, { kind: 'bow', mm: size(2, 4, 7), crownV: openingMm.height * size(3, 0.25, 0.7) }),
    ],
  },
  {
    name: 'string-in-wind',
    says: 'the soffit is in wind: the far string stands lower or higher than the near one',
    add: ({ size, choice }) => [
      at('slope', { kind: 'wind', mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 7, 11) }),
      at('slope', { kind: 'fall', mm: size(2, 3, 6), towards: choice(3, 2) === 0 ? 'front' : 'back' }),
    ],
  },
  {
    name: 'same-lean',
    says: 'both end walls lean the same way',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('left', { kind: 'lean', mm: sign * size(1, 6, 9) }),
        at('right', { kind: 'lean', mm: -sign * size(2, 6, 9) }),
      ];
    },
  },
  {
    name: 'sunk-floor',
    says: 'the floor falls towards one end and has a hump in it',
    add: ({ openingMm, size, choice }) => [
      at('floor', { kind: 'fall', mm: size(0, 6, 10), towards: choice(1, 2) === 0 ? 'left' : 'right' }),
      at('floor', {
        kind: 'hump',
        mm: size(2, 3, 6),
        u: openingMm.width * size(3, -0.35, 0.35),
        v: openingMm.depth * size(4, 0.1, 0.8),
        width: size(5, 460, 720),
      }),
    ],
  },
  {
    name: 'patched-soffit',
    says: 'a patch of thick plaster on the soffit, and the far wall leans in',
    add: ({ openingMm, size }) => [
      at('slope', {
        kind: 'hump',
        mm: size(0, 6, 10),
        u: openingMm.width * size(1, -0.38, 0.38),
        v: openingMm.depth * size(2, 0, 0.9),
        width: size(3, 420, 680),
      }),
      at('back', { kind: 'lean', mm: size(4, 4, 7) }),
    ],
  },
  {
    name: 'closing',
    says: 'both end walls close in towards the back, and the far wall bellies',
    add: ({ openingMm, size }) => [
      at('left', { kind: 'taper', mm: size(0, 4, 8) }),
      at('right', { kind: 'taper', mm: size(1, 4, 8) }),
      at('back', {
        kind: 'bow',
        mm: size(2, 5, 8),
        crownU: openingMm.width * size(3, -0.3, 0.3),
        crownV: openingMm.height * size(4, 0.2, 0.5),
      }),
    ],
  },
];

/** Of the space under a roof slope, in the order of the exercise code: only ever add at the end. */
export const roofSlopeStructures: readonly Structure<SlopedDraw>[] = [
  {
    name: 'sagging-rafters',
    says: 'the rafters sag: the slope bellies between knee wall and collar',
    add: ({ openingMm, size }) => [
      at('slope', { kind: 'bow', mm: size(0, 6, 10), crownU: openingMm.width * size(1, -0.28, 0.28) }),
    ],
  },
  {
    name: 'one-rafter',
    says: 'one rafter stands proud: the slope has a ridge up its whole length, nearer the front or the back',
    add: ({ openingMm, size }) => [
      at('slope', { kind: 'bow', mm: size(0, 5, 9), crownV: openingMm.depth * size(1, 0.15, 0.85) }),
      at('slope', { kind: 'bow', mm: -size(2, 3, 5), crownU: openingMm.width * size(3, -0.2, 0.2) }),
    ],
  },
  {
    name: 'slope-in-wind',
    says: 'the slope is in wind, and falls towards the front or the back',
    add: ({ size, choice }) => [
      at('slope', { kind: 'wind', mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 7, 11) }),
      at('slope', { kind: 'fall', mm: size(2, 3, 6), towards: choice(3, 2) === 0 ? 'front' : 'back' }),
    ],
  },
  {
    name: 'leaning-knee',
    says: 'the knee wall leans and tapers, the high wall leans with it',
    add: ({ low, high, size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at(low, { kind: 'lean', mm: sign * size(1, 6, 10) }),
        at(low, { kind: 'taper', mm: (choice(2, 2) === 0 ? 1 : -1) * size(3, 3, 6) }),
        at(high, { kind: 'lean', mm: 0 - sign * size(4, 5, 8) }),
      ];
    },
  },
  {
    name: 'dropped-collar',
    says: 'the collar hangs: the flat ceiling falls and bellies, the high wall is hollow',
    add: ({ openingMm, high, size, choice }) => [
      at('ceiling', { kind: 'fall', mm: size(0, 5, 9), towards: choice(1, 2) === 0 ? 'front' : 'back' }),
      at('ceiling', { kind: 'bow', mm: size(2, 3, 6), crownU: openingMm.width * size(3, -0.1, 0.3) }),
      at(high, { kind: 'bow', mm: -size(4, 3, 6), crownV: openingMm.height * size(5, 0.3, 0.7) }),
    ],
  },
  {
    name: 'uneven-gable',
    says: 'the gable steps and leans, and one end wall closes in',
    add: ({ openingMm, size, choice }) => [
      at('back', {
        kind: 'step',
        mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 5, 8),
        along: 'u',
        at: openingMm.width * size(2, -0.25, 0.25),
        width: size(3, 280, 420),
      }),
      at('back', { kind: 'lean', mm: size(4, 4, 7) }),
      at(choice(5, 2) === 0 ? 'left' : 'right', { kind: 'taper', mm: size(6, 5, 8) }),
    ],
  },
  {
    name: 'sprung-boards',
    says: 'the floor boards fall towards the knee wall or away from it, and have sprung up in the middle',
    add: ({ openingMm, low, high, size, choice }) => [
      at('floor', { kind: 'fall', mm: size(0, 6, 10), towards: choice(1, 2) === 0 ? low : high }),
      at('floor', {
        kind: 'hump',
        mm: size(2, 4, 7),
        u: openingMm.width * size(3, -0.35, 0.35),
        v: openingMm.depth * size(4, 0.1, 0.9),
        width: size(5, 440, 700),
      }),
    ],
  },
];
