/**
 * The window reveal: two jambs and a head from the wall's face to the window frame, and the bed of the board.
 *
 * z = 0 is the bed of the board, y = 0 the wall's face in the room, where jambs, head and bed begin; the back is the
 * window frame. Sizes: common practice, no source.
 */
import type { DrawKey } from '../../chance/keyed-draws.ts';
import { extentsOf, type RecessSpec, type Trim } from '../recess-spec.ts';
import { sizeDraws, specOfDrawn } from './drawn-spec.ts';
import type { Family, FamilyDraw } from './family.ts';
import { revealStructures } from './reveal-structures.ts';

export const reveal: Family = {
  name: 'reveal',
  says: 'a window reveal',
  structures: revealStructures,
  draw: drawReveal,
};

/** How far a bead stands out of the jamb or head, mm, at most: the brief leaves room for it. */
export const beadMm = 16;

/** Draws the spec of a window reveal. */
export function drawReveal(from: FamilyDraw): RecessSpec {
  const { tens, one } = sizeDraws(from.key, { family: 'reveal', what: 'size' });
  const openingMm = { width: tens(0, 700, 1800), height: tens(1, 900, 1500), depth: tens(2, 150, 350) };
  return specOfDrawn(from, {
    family: 'reveal',
    structures: revealStructures,
    told: (draw) => draw,
    drawn: {
      openingMm,
      mouthMm: 0,
      sides: ['left', 'right', 'back', 'floor', 'ceiling'],
      trims: drawTrims(from.key, { openingMm, mouthMm: 0 }),
      reference: {
        kind: one(3, ['wall-face', 'wall-face', 'tile-joint']),
        heightMm: 10 * Math.round(openingMm.height / 20),
      },
    },
  });
}

function drawTrims(key: DrawKey, of: Pick<RecessSpec, 'openingMm' | 'mouthMm'>): Trim[] {
  const { one } = sizeDraws(key, { family: 'reveal', what: 'trim' });
  const trims: Trim[] = [];
  if (one(0, [true, false])) trims.push(oldBoard(of, { tall: one(1, [30, 36, 44]), out: one(2, [24, 32, 40]) }));
  if (one(3, [true, false])) trims.push(...beads(of, { wide: one(4, [20, 26]), out: one(5, [10, 13, beadMm]) }));
  return trims;
}

/** What is left of an old board, low on the frame. */
function oldBoard(of: Pick<RecessSpec, 'openingMm' | 'mouthMm'>, size: { tall: number; out: number }): Trim {
  const { x, z } = extentsOf(of);
  return {
    name: 'window board',
    kind: 'window-board',
    surface: 'back',
    uMm: [x[0], x[1]],
    vMm: [z[0], size.tall],
    profile: {
      along: 'v',
      mm: [
        [z[0], size.out],
        [size.tall - 8, size.out],
        [size.tall, size.out - 6],
      ],
    },
  };
}

/** Beads round the frame, planted in the corner on jambs and head. */
function beads(of: Pick<RecessSpec, 'openingMm' | 'mouthMm'>, size: { wide: number; out: number }): Trim[] {
  const { x, y, z } = extentsOf(of);
  const from = of.openingMm.depth - size.wide;
  const profileMm: [number, number][] = [
    [from, size.out - 4],
    [from + 6, size.out],
    [y[1], size.out],
  ];
  const upright = (side: 'left' | 'right'): Trim => ({
    name: `architrave ${side}`,
    kind: 'architrave',
    surface: side,
    uMm: [from, y[1]],
    vMm: [z[0], z[1]],
    profile: { along: 'u', mm: profileMm },
  });
  const head: Trim = {
    name: 'architrave head',
    kind: 'architrave',
    surface: 'ceiling',
    uMm: [x[0], x[1]],
    vMm: [from, y[1]],
    profile: { along: 'v', mm: profileMm },
  };
  return [upright('left'), upright('right'), head];
}
