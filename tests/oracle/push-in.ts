/**
 * The blunt check behind every `yes`: the carcass is pushed in along y from the mouth to its back, and every sample of
 * every surface, and the box's and the trims' own edges between samples, are asked whether they bite. No interval is
 * used: one loop over samples. mm.
 */

import type { Room } from './key-oracle.ts';
import type { Sizes } from './samples.ts';
import { beginsAt, isShaped, topOf } from './shape.ts';
import { projectionAt, type Wall } from './wall.ts';

/** A box and the place of its left front bottom corner. */
export type PlacedBox = {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
  readonly depth: number;
} & Pick<Sizes, 'slope' | 'notch'>;

/** How far the worst sample reaches into the box or its way in; negative: how far the nearest stays clear. */
export type Bite = { readonly by: number; readonly side: string; readonly at: readonly [number, number] };

/**
 * The worst bite of any sample. The floor is asked where the model lets it carry the carcass, over the width of the
 * nominal opening.
 */
export function worstBite(room: Room, box: PlacedBox): Bite {
  const { brief } = room;
  const back = brief.carcassFrontMm + box.depth;
  const [right, top] = [box.left + box.width, box.bottom + box.height];
  const x = [box.left, right] as const;
  const y = [brief.mouthMm, back] as const;
  const z = [box.bottom, top] as const;
  const half = brief.openingMm.width / 2;
  const floorX = [Math.max(-half, box.left), Math.min(half, right)] as const;
  // A shape's own face at each place of a surface; a place that it does not reach is met nowhere.
  const shape = isShaped(box) ? box : null;
  const height = shape ? topOf(shape, box.left).height : null;
  const begins = (side: 'left' | 'right', zAt: number) => (shape ? beginsAt(side, shape, zAt - box.bottom) : 0);
  const over = (xAt: number) => (height ? box.bottom + height(xAt) : top);
  const bites = [
    biteOf('left', room.left, y, z, (_, zAt) => box.left + begins('left', zAt)),
    biteOf('right', room.right, y, z, (_, zAt) => right - begins('right', zAt)),
    biteOf('back', room.back, x, z, (xAt, zAt) => (zAt <= over(xAt) ? back : -Infinity)),
    biteOf('floor', room.floor, floorX, y, () => box.bottom),
    ...room.ceilings.map((ceiling) => biteOf('top', ceiling, x, y, over)),
  ];
  return bites.reduce((worst, bite) => (bite.by > worst.by ? bite : worst));
}

type Range = readonly [number, number];

function biteOf(side: string, wall: Wall, u: Range, v: Range, face: (u: number, v: number) => number): Bite {
  const { sheet, inward } = wall;
  const rowsAt = edgesIn(wall, 'v', v);
  const columnsAt = edgesIn(wall, 'u', u);
  let by = -Infinity;
  let at: [number, number] = [u[0], v[0]];
  const ask = (uAt: number, vAt: number, height: number) => {
    const bite = inward * (height - face(uAt, vAt)) + projectionAt(wall, uAt, vAt);
    if (bite > by) [by, at] = [bite, [uAt, vAt]];
  };
  for (let j = 0; j < sheet.v.count; j++) {
    const vAt = sheet.v.from + j * sheet.step;
    if (vAt < v[0] || vAt > v[1]) continue;
    for (let i = 0; i < sheet.u.count; i++) {
      const uAt = sheet.u.from + i * sheet.step;
      if (uAt >= u[0] && uAt <= u[1]) ask(uAt, vAt, sheet.heights[j * sheet.u.count + i]!);
    }
    for (const uAt of columnsAt) ask(uAt, vAt, between(wall, uAt, vAt, 'u'));
  }
  for (const vAt of rowsAt) {
    for (let i = 0; i < sheet.u.count; i++) {
      const uAt = sheet.u.from + i * sheet.step;
      if (uAt >= u[0] && uAt <= u[1]) ask(uAt, vAt, between(wall, uAt, vAt, 'v'));
    }
  }
  return { by, side, at };
}

/** Between samples: the box's own edges, and band edges and profile breaks across u or v, where a trim can bite. */
function edgesIn(wall: Wall, across: 'u' | 'v', [from, to]: Range): number[] {
  const places = wall.bands.flatMap((band) => [
    ...(across === 'u' ? band.uMm : band.vMm),
    ...(band.profile.along === across ? band.profile.mm.map(([place]) => place) : []),
  ]);
  places.push(from, to);
  return [...new Set(places)].filter((place) => place >= from && place <= to);
}

/**
 * Straight between the two samples on either side. Where the surface is hollow this is too deep by what a step can miss,
 * thousandths at most: a carcass that is said to go in has 0.01 and more to spare.
 */
function between(wall: Wall, u: number, v: number, across: 'u' | 'v'): number {
  const { sheet } = wall;
  const i = (u - sheet.u.from) / sheet.step;
  const j = (v - sheet.v.from) / sheet.step;
  const [low, part] = across === 'u' ? [Math.floor(i), i - Math.floor(i)] : [Math.floor(j), j - Math.floor(j)];
  const at = across === 'u' ? Math.round(j) * sheet.u.count + low : low * sheet.u.count + Math.round(i);
  const next = part === 0 ? at : at + (across === 'u' ? 1 : sheet.u.count);
  return (1 - part) * sheet.heights[at]! + part * sheet.heights[next]!;
}
