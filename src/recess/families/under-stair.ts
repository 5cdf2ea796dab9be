/**
 * The space under a stair: two end walls, a soffit that rises between them, the wall of the far string behind.
 *
 * The soffit is the slope, its low end on the left or the right. Where the landing's soffit cuts it off, that is the
 * ceiling; elsewhere nothing else is overhead. The newel stands in the mouth on the high end's wall. Sizes: common
 * practice, no source.
 *
 * @source pitch of a private stair at most 42°: The Building Regulations 2010, Approved Document K, table 1.1 (from memory)
 */
import type { DrawKey } from '../../chance/keyed-draws.ts';
import { extentsOf, type RecessSpec, type Trim } from '../recess-spec.ts';
import { jointHeightMm, sizeDraws, specOfDrawn } from './drawn-spec.ts';
import type { Family, FamilyDraw } from './family.ts';
import { underStairStructures } from './sloped-structures.ts';

export const underStair: Family = {
  name: 'under-stair',
  says: 'the space under a stair',
  structures: underStairStructures,
  draw: drawUnderStair,
};

/** Rise in a metre at 30° to 42°, a degree apart. */
const rises = [577, 601, 625, 649, 675, 700, 727, 754, 781, 810, 839, 869, 900] as const;
/** A rule from a level line under the low end reaches no higher, mm. */
const highestMm = 2250;

/** Draws the spec of a space under a stair. */
export function drawUnderStair(from: FamilyDraw): RecessSpec {
  const { tens, one } = sizeDraws(from.key, { family: 'under-stair', what: 'size' });
  const low = one(0, ['left', 'right'] as const);
  const high = low === 'left' ? 'right' : 'left';
  const riseMmPerM = one(1, rises);
  const lowMm = tens(2, 450, 900);
  const widest = Math.min(2200, 10 * Math.floor((100 * (highestMm - lowMm)) / riseMmPerM));
  const width = tens(3, 1200, widest);
  const highEnd = lowMm + (riseMmPerM * width) / 1000;
  const cut = one(4, [0, 0, 120, 180, 240]);
  const openingMm = { width, height: 10 * Math.ceil((highEnd - cut) / 10), depth: tens(5, 700, 1000) };
  const mouthMm = -tens(6, 20, 50);
  const kind = one(7, ['existing-front', 'floor-joint', 'opposite-wall'] as const);
  return specOfDrawn(from, {
    family: 'under-stair',
    structures: underStairStructures,
    told: (draw) => ({ ...draw, low, high }),
    drawn: {
      openingMm,
      mouthMm,
      sides: ['left', 'right', 'back', 'floor', ...(cut > 0 ? (['ceiling'] as const) : []), 'slope'],
      slope: { low, lowMm, riseMmPerM },
      trims: drawTrims(from.key, { openingMm, mouthMm, high }),
      reference: { kind, heightMm: kind === 'floor-joint' ? jointHeightMm : lowMm - 150 },
    },
  });
}

type Base = Pick<RecessSpec, 'openingMm' | 'mouthMm'> & { readonly high: 'left' | 'right' };

function drawTrims(key: DrawKey, of: Base): Trim[] {
  const { one } = sizeDraws(key, { family: 'under-stair', what: 'trim' });
  const trims: Trim[] = [];
  if (one(0, [true, true, false])) trims.push(newel(of, { deep: one(1, [70, 90, 100]), out: one(2, [30, 45, 60]) }));
  if (one(3, [true, false])) trims.push(skirting(of, { tall: one(4, [95, 120, 145]), thick: one(5, [15, 18, 20]) }));
  if (one(6, [true, false, false]))
    trims.push(boxing(of, { tall: one(7, [210, 240, 280]), out: one(8, [60, 80, 100]) }));
  return trims;
}

/** Half of the newel post, planted on the high end's wall in the mouth, from floor to soffit. */
function newel(of: Base, size: { deep: number; out: number }): Trim {
  const { y, z } = extentsOf(of);
  const to = of.mouthMm + size.deep;
  return {
    name: 'newel',
    kind: 'newel',
    surface: of.high,
    uMm: [y[0], to],
    vMm: [z[0], z[1]],
    profile: {
      along: 'u',
      mm: [
        [y[0], size.out],
        [to - 6, size.out],
        [to, size.out - 4],
      ],
    },
  };
}

function skirting(of: Base, size: { tall: number; thick: number }): Trim {
  const { x, z } = extentsOf(of);
  return {
    name: 'skirting back',
    kind: 'skirting',
    surface: 'back',
    uMm: [x[0], x[1]],
    vMm: [z[0], size.tall],
    profile: {
      along: 'v',
      mm: [
        [z[0], size.thick],
        [size.tall - 20, size.thick],
        [size.tall, Math.ceil(size.thick / 2)],
      ],
    },
  };
}

/** Pipes boxed in along the far wall, at the floor. */
function boxing(of: Base, size: { tall: number; out: number }): Trim {
  const { x, z } = extentsOf(of);
  return {
    name: 'pipe boxing back',
    kind: 'pipe-boxing',
    surface: 'back',
    uMm: [x[0], x[1]],
    vMm: [z[0], size.tall],
    profile: {
      along: 'v',
      mm: [
        [z[0], size.out],
        [size.tall, size.out],
      ],
    },
  };
}
