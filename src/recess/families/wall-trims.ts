/**
 * Trims and services of rooms whose walls run on: bands along the walls and the ceiling, boxes on the back wall.
 */
import type { Extents, Trim } from '../recess-spec.ts';

/** Where a box stands on the back wall: from the middle to its middle, its foot, its size and how far it stands out. */
export interface BoxAt {
  readonly x: number;
  readonly foot: number;
  readonly width: number;
  readonly height: number;
  readonly out: number;
}

/** A band of one thickness on the back wall. */
export function boxOnBack(name: string, kind: Trim['kind'], box: BoxAt): Trim {
  const { x, foot, width, height, out } = box;
  return {
    name,
    kind,
    surface: 'back',
    uMm: [x - width / 2, x + width / 2],
    vMm: [foot, foot + height],
    profile: {
      along: 'v',
      mm: [
        [foot, out],
        [foot + height, out],
      ],
    },
  };
}

/** A skirting along a wall as far as it reaches, its top edge thinner. */
export function skirtingOn(
  side: 'left' | 'right' | 'back',
  extents: Extents,
  of: { tall: number; thick: number },
): Trim {
  const { x, y, z } = extents;
  return {
    name: `skirting ${side}`,
    kind: 'skirting',
    surface: side,
    uMm: side === 'back' ? [x[0], x[1]] : [y[0], y[1]],
    vMm: [z[0], of.tall],
    profile: {
      along: 'v',
      mm: [
        [z[0], of.thick],
        [of.tall - 20, of.thick],
        [of.tall, Math.ceil(of.thick / 2)],
      ],
    },
  };
}

/** A rail along the back wall, thinner at its two edges. */
export function railOnBack(
  name: string,
  kind: 'dado-rail' | 'picture-rail',
  of: { x: Extents['x']; foot: number; tall: number; out: number },
): Trim {
  const { x, foot, tall, out } = of;
  const edge = Math.ceil(out / 2);
  return {
    name,
    kind,
    surface: 'back',
    uMm: [x[0], x[1]],
    vMm: [foot, foot + tall],
    profile: {
      along: 'v',
      mm: [
        [foot, edge],
        [foot + 15, out],
        [foot + tall - 15, out],
        [foot + tall, edge],
      ],
    },
  };
}

/** How far out from the wall the foot of a coving is as deep as it gets, mm. */
const footMm = 95;

/** What a band under the ceiling along a wall is: how far out, how far down, deepest at the wall. */
export interface CeilingBand {
  readonly kind: 'cornice' | 'coving';
  readonly out: number;
  readonly drop: number;
}

/** A cornice (flat beneath) or a coving (a slope) along a wall, fixed to the ceiling: it drops with it. */
export function underCeiling(
  side: 'left' | 'right' | 'back',
  of: { band: CeilingBand; extents: Extents; wall: number },
): Trim {
  const { band, extents, wall } = of;
  const { x, y } = extents;
  const edge = wall - band.out;
  const end = side === 'back' ? y[1] : x[1];
  const mm: [number, number][] =
    band.kind === 'cornice'
      ? [
          [edge, 10],
          [edge + 25, band.drop],
          [end, band.drop],
        ]
      : [
          [edge, 6],
          [wall - footMm, band.drop],
          [end, band.drop],
        ];
  const name = `${band.kind} ${side}`;
  const common = { name, kind: band.kind, surface: 'ceiling' } as const;
  if (side === 'back') return { ...common, uMm: [x[0], x[1]], vMm: [edge, end], profile: { along: 'v', mm } };
  if (side === 'right') return { ...common, uMm: [edge, end], vMm: [y[0], y[1]], profile: { along: 'u', mm } };
  const turned = mm.map(([at, down]): [number, number] => [0 - at, down]).reverse();
  return { ...common, uMm: [0 - end, 0 - edge], vMm: [y[0], y[1]], profile: { along: 'u', mm: turned } };
}

/** Says whether two boxes stand nearer to each other than a gap, mm. */
export function tooNear(a: BoxAt, b: BoxAt, gap: number): boolean {
  const across = Math.abs(a.x - b.x) < (a.width + b.width) / 2 + gap;
  return across && a.foot < b.foot + b.height + gap && b.foot < a.foot + a.height + gap;
}
