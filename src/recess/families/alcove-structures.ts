/**
 * Structures of the alcove: which surface is bad, and how. Each adds its own defects to the small ones that every
 * surface has, so that two codes of one exercise differ in what decides, not only in millimetres.
 */
import type { DrawKey } from '../../chance/keyed-draws.ts';
import type { BreastSide, RecessSpec } from '../recess-spec.ts';
import {
  at,
  drawStructure,
  type PlacedDefect,
  type Structure,
  type StructureDraw,
  structureDraw,
} from './structure.ts';

export interface AlcoveDraw extends StructureDraw {
  /** The party wall's side and the breast's. */
  readonly party: 'left' | 'right';
  readonly breast: 'left' | 'right';
}

/** In the order of the exercise code: only ever add at the end. At most as many as the code has signs. */
export const alcoveStructures: readonly Structure<AlcoveDraw>[] = [
  {
    name: 'closing',
    says: 'both side walls close in towards the back',
    add: ({ party, breast, size }) => [
      at(party, { kind: 'taper', mm: size(0, 4, 8) }),
      at(breast, { kind: 'taper', mm: size(1, 3, 7) }),
    ],
  },
  {
    name: 'same-lean',
    says: 'both side walls lean the same way',
    add: ({ size, choice }) => {
      const sign = choice(0, 2) === 0 ? 1 : -1;
      return [
        at('left', { kind: 'lean', mm: sign * size(1, 6, 10) }),
        at('right', { kind: 'lean', mm: -sign * size(2, 6, 10) }),
      ];
    },
  },
  {
    name: 'belly',
    says: 'the party wall bellies into the recess between knee and head',
    add: ({ party, breast, openingMm, size }) => [
      at(party, { kind: 'bow', mm: size(0, 5, 8), crownV: openingMm.height * size(1, 0.3, 0.75) }),
      at(breast, { kind: 'bow', mm: -size(2, 1, 3), crownV: openingMm.height * size(3, 0.35, 0.65) }),
    ],
  },
  {
    name: 'low-hump',
    says: 'a patch of thick plaster low at the back of one side wall',
    add: ({ openingMm, size, choice }) => {
      const width = size(1, 600, 820);
      const bad = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at(bad, {
          kind: 'hump',
          mm: size(2, 6, 10),
          u: openingMm.depth * size(3, 0.7, 1),
          v: size(4, 300, 700),
          width,
        }),
        at(bad, { kind: 'taper', mm: size(5, 0, 2) }),
      ];
    },
  },
  {
    name: 'wound',
    says: 'one side wall is in wind, its top back corner into the recess, and the back is out of square',
    add: ({ size, choice }) => [
      at(choice(0, 2) === 0 ? 'left' : 'right', { kind: 'wind', mm: size(1, 8, 12) }),
      at('back', { kind: 'skew', mm: (choice(2, 2) === 0 ? 1 : -1) * size(3, 5, 9) }),
    ],
  },
  {
    name: 'sunk-floor',
    says: 'the floor falls and has a hump behind the face line, the ceiling falls the other way, the back leans in',
    add: ({ openingMm, size, choice }) => {
      const low = choice(0, 2) === 0 ? 'left' : 'right';
      return [
        at('floor', { kind: 'fall', mm: size(1, 6, 11), towards: low }),
        at('floor', {
          kind: 'hump',
          mm: size(2, 3, 6),
          u: openingMm.width * size(3, -0.25, 0.25),
          v: openingMm.depth * size(4, 0.2, 0.5),
          width: size(5, 500, 760),
        }),
        at('ceiling', { kind: 'fall', mm: size(6, 6, 10), towards: low === 'left' ? 'right' : 'left' }),
        at('back', { kind: 'lean', mm: size(7, 5, 9) }),
      ];
    },
  },
  {
    name: 'stepped-back',
    says: 'the back wall steps out behind one half, and the breast closes in',
    add: ({ openingMm, breast, size, choice }) => [
      at('back', {
        kind: 'step',
        mm: (choice(0, 2) === 0 ? 1 : -1) * size(1, 5, 9),
        along: 'u',
        at: openingMm.width * size(2, -0.2, 0.2),
        width: size(3, 280, 420),
      }),
      at(breast, { kind: 'taper', mm: size(4, 3, 6) }),
      at(breast, { kind: 'lean', mm: size(5, -5, 5) }),
    ],
  },
];

/** Draws an alcove structure's own defects, its sizes scaled. */
export function drawAlcoveStructure(
  structure: Structure<AlcoveDraw>,
  from: { key: DrawKey; scale: number; openingMm: RecessSpec['openingMm']; breast: BreastSide },
): readonly PlacedDefect[] {
  const draw = structureDraw({ family: 'alcove', structure: structure.name }, from);
  const party = from.breast === 'left' ? 'right' : 'left';
  return drawStructure(structure, { ...draw, breast: from.breast, party }, from.scale);
}
