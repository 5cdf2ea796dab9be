/**
 * The door opening: two jambs and a head through a wall, and the floor that runs on through it.
 *
 * y = 0 is the wall's near face, where jambs and head begin. The back is the wall's far face: nothing blocks there, and
 * it can be touched only beside the jambs and the head (`farFaceReachMm`). Past it jambs and head run on as a straight-edge
 * laid along them would show them. Sizes: common practice, no source.
 */
import type { DrawKey } from '../../chance/keyed-draws.ts';
import { extentsOf, type RecessSpec, type Trim } from '../recess-spec.ts';
import { doorwayStructures } from './doorway-structures.ts';
import { jointHeightMm, sizeDraws, specOfDrawn } from './drawn-spec.ts';
import type { Family, FamilyDraw } from './family.ts';

export const doorway: Family = {
  name: 'doorway',
  says: 'a door opening',
  structures: doorwayStructures,
  draw: drawDoorway,
};

/** Draws the spec of a door opening. */
export function drawDoorway(from: FamilyDraw): RecessSpec {
  const { tens, one } = sizeDraws(from.key, { family: 'doorway', what: 'size' });
  const openingMm = { width: tens(0, 700, 1000), height: tens(1, 1950, 2150), depth: tens(2, 100, 250) };
  const kind = one(3, ['wall-face', 'floor-joint', 'tile-joint'] as const);
  return specOfDrawn(from, {
    family: 'doorway',
    structures: doorwayStructures,
    told: (draw) => draw,
    drawn: {
      openingMm,
      mouthMm: 0,
      sides: ['left', 'right', 'back', 'floor', 'ceiling'],
      trims: drawTrims(from.key, { openingMm, mouthMm: 0 }),
      reference: { kind, heightMm: kind === 'wall-face' ? 10 * Math.round(openingMm.height / 20) : jointHeightMm },
    },
  });
}

/** Skirting that runs round through the opening, and a boxed pipe up one jamb. */
function drawTrims(key: DrawKey, of: Pick<RecessSpec, 'openingMm' | 'mouthMm'>): Trim[] {
  const { one } = sizeDraws(key, { family: 'doorway', what: 'trim' });
  const trims: Trim[] = [];
  if (one(0, [true, false]))
    trims.push(...skirtings(of, { tall: one(1, [95, 120, 145]), thick: one(2, [15, 18, 20]) }));
  if (one(3, [true, false, false]))
    trims.push(boxing(of, { side: one(4, ['left', 'right'] as const), out: one(5, [22, 28, 35]) }));
  return trims;
}

function skirtings(of: Pick<RecessSpec, 'openingMm' | 'mouthMm'>, size: { tall: number; thick: number }): Trim[] {
  const { y, z } = extentsOf(of);
  const band = (side: 'left' | 'right'): Trim => ({
    name: `skirting ${side}`,
    kind: 'skirting',
    surface: side,
    uMm: [of.mouthMm, y[1]],
    vMm: [z[0], size.tall],
    profile: {
      along: 'v',
      mm: [
        [z[0], size.thick],
        [size.tall - 20, size.thick],
        [size.tall, Math.ceil(size.thick / 2)],
      ],
    },
  });
  return [band('left'), band('right')];
}

/** A pipe boxed in over half the wall's thickness, up one jamb from floor to head. */
function boxing(of: Pick<RecessSpec, 'openingMm' | 'mouthMm'>, size: { side: 'left' | 'right'; out: number }): Trim {
  const { y, z } = extentsOf(of);
  const from = 10 * Math.round(of.openingMm.depth / 20);
  return {
    name: `pipe boxing ${size.side}`,
    kind: 'pipe-boxing',
    surface: size.side,
    uMm: [from, y[1]],
    vMm: [z[0], z[1]],
    profile: {
      along: 'u',
      mm: [
        [from, size.out],
        [y[1], size.out],
      ],
    },
  };
}
