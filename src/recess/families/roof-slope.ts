/**
 * The space under a roof slope: a knee wall, the slope that rises from it, the collar's flat ceiling where the slope comes
 * to it, a wall at the high end, and the gable behind.
 *
 * The slope's low end is on the left or the right. A purlin may run under it, front to back. Sizes: common practice, no
 * source.
 */
import type { DrawKey } from '../../chance/keyed-draws.ts';
import { extentsOf, type RecessSpec, type SlopeSpec, type Trim } from '../recess-spec.ts';
import { jointHeightMm, sizeDraws, specOfDrawn } from './drawn-spec.ts';
import type { Family, FamilyDraw } from './family.ts';
import { roofSlopeStructures } from './sloped-structures.ts';

export const roofSlope: Family = {
  name: 'roof-slope',
  says: 'the space under a roof slope',
  structures: roofSlopeStructures,
  draw: drawRoofSlope,
};

/** Rise in a metre at 35° to 47°, two degrees apart. */
const rises = [700, 754, 810, 869, 933, 1000, 1072] as const;

/** Draws the spec of a space under a roof slope. */
export function drawRoofSlope(from: FamilyDraw): RecessSpec {
  const { tens, one } = sizeDraws(from.key, { family: 'roof-slope', what: 'size' });
  const low = one(0, ['left', 'right'] as const);
  const high = low === 'left' ? 'right' : 'left';
  const riseMmPerM = one(1, rises);
  const lowMm = tens(2, 600, 1100);
  const width = tens(3, 1000, 2000);
  const collar = tens(4, 1750, 2150);
  // The collar is always there to be seen: it comes at least 60 under where the slope would end.
  const highEnd = 10 * Math.floor((lowMm + (riseMmPerM * width) / 1000) / 10);
  const openingMm = { width, height: Math.min(collar, highEnd - 60), depth: tens(5, 450, 800) };
  const mouthMm = 0 - tens(6, 0, 30);
  const kind = one(7, ['floor-joint', 'existing-front', 'opposite-wall'] as const);
  const slope = { low, lowMm, riseMmPerM };
  return specOfDrawn(from, {
    family: 'roof-slope',
    structures: roofSlopeStructures,
    told: (draw) => ({ ...draw, low, high }),
    drawn: {
      openingMm,
      mouthMm,
      sides: ['left', 'right', 'back', 'floor', 'ceiling', 'slope'],
      slope,
      trims: drawTrims(from.key, { openingMm, mouthMm, slope }),
      reference: { kind, heightMm: kind === 'floor-joint' ? jointHeightMm : lowMm - 200 },
    },
  });
}

type Base = Pick<RecessSpec, 'openingMm' | 'mouthMm'> & { readonly slope: SlopeSpec };

function drawTrims(key: DrawKey, of: Base): Trim[] {
  const { one } = sizeDraws(key, { family: 'roof-slope', what: 'trim' });
  const trims: Trim[] = [];
  if (one(0, [true, false, false]))
    trims.push(
      purlin(of, { share: one(1, [0.25, 0.3, 0.7, 0.75]), wide: one(2, [75, 100]), out: one(3, [35, 45, 60]) }),
    );
  if (one(4, [true, false])) trims.push(...skirtings(of, { tall: one(5, [70, 95, 120]), thick: one(6, [15, 18]) }));
  return trims;
}

/** A purlin under the slope, from front to back, so far up the stretch between knee wall and collar. */
function purlin(of: Base, size: { share: number; wide: number; out: number }): Trim {
  const { y } = extentsOf(of);
  const { width, height } = of.openingMm;
  const run = Math.min(width, (1000 * (height - of.slope.lowMm)) / of.slope.riseMmPerM);
  const inward = Math.round(run * size.share);
  const middle = of.slope.low === 'left' ? inward - width / 2 : width / 2 - inward;
  const from = Math.round(middle - size.wide / 2);
  return {
    name: 'purlin',
    kind: 'beam',
    surface: 'slope',
    uMm: [from, from + size.wide],
    vMm: [y[0], y[1]],
    profile: {
      along: 'u',
      mm: [
        [from, size.out],
        [from + size.wide, size.out],
      ],
    },
  };
}

function skirtings(of: Base, size: { tall: number; thick: number }): Trim[] {
  const { x, y, z } = extentsOf(of);
  const band = (surface: 'left' | 'right' | 'back', uMm: [number, number]): Trim => ({
    name: `skirting ${surface}`,
    kind: 'skirting',
    surface,
    uMm,
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
  return [band('left', [y[0], y[1]]), band('right', [y[0], y[1]]), band('back', [x[0], x[1]])];
}
