/**
 * The shape of a carcass in elevation: a rectangle, its top cut by a sloped line, or an upper corner cut out of it.
 *
 * Frame: x from its left edge, z from its bottom, mm. All pieces are closed, so where the top steps the higher one counts.
 * Seen from either side the shape never has anything hollow: at each height it is one stretch of x.
 */
import type { CarcassSizes } from './brief.ts';

/** A stretch of the top, straight from (x0, z0) to (x1, z1), x0 < x1. */
export interface TopPiece {
  readonly x0: number;
  readonly x1: number;
  readonly z0: number;
  readonly z1: number;
}

/** A stretch of what is met from one side, straight from (x0, z0) up to (x1, z1), z0 <= z1. */
export type SidePiece = TopPiece;

/** Says whether a carcass is anything but a box. */
export function isShaped(sizes: Pick<CarcassSizes, 'slope' | 'notch'>): boolean {
  return sizes.slope !== undefined || sizes.notch !== undefined;
}

/** Gives the top from left to right. */
export function topOf(sizes: CarcassSizes): readonly TopPiece[] {
  const { widthMm, heightMm, slope, notch } = sizes;
  let top: readonly TopPiece[] = [{ x0: 0, x1: widthMm, z0: heightMm, z1: heightMm }];
  if (slope) top = lowerOf(top, [{ x0: 0, x1: widthMm, z0: slope.leftMm, z1: slope.rightMm }]);
  if (!notch || notch.widthMm === 0) return top;
  const low = Math.max(0, heightMm - notch.heightMm);
  const wide = Math.min(notch.widthMm, widthMm);
  const [from, to] = notch.side === 'left' ? [0, wide] : [widthMm - wide, widthMm];
  return lowerOf(top, [
    ...(from > 0 ? [{ x0: 0, x1: from, z0: heightMm, z1: heightMm }] : []),
    { x0: from, x1: to, z0: low, z1: low },
    ...(to < widthMm ? [{ x0: to, x1: widthMm, z0: heightMm, z1: heightMm }] : []),
  ]);
}

/** Gives the stretch of x over which a carcass's top is its sloped edge; null where it has none. */
export function slopedStretch(sizes: CarcassSizes): readonly [number, number] | null {
  const { widthMm, heightMm, depthMm, slope } = sizes;
  if (!slope) return null;
  const sloped = topOf({ widthMm, heightMm, depthMm, slope }).filter(({ z0, z1 }) => z0 !== z1);
  return sloped.length > 0 ? [sloped[0]!.x0, sloped[sloped.length - 1]!.x1] : null;
}

/** Gives the height of a carcass's highest point over its bottom. */
export function highestOf(sizes: CarcassSizes): number {
  return isShaped(sizes) ? Math.max(...topOf(sizes).flatMap(({ z0, z1 }) => [z0, z1])) : sizes.heightMm;
}

/** Gives the height of a top over x; where it steps, the higher. */
export function topAt(top: readonly TopPiece[], x: number): number {
  const over = top.filter(({ x0, x1 }) => x0 <= x && x <= x1);
  return Math.max(...(over.length > 0 ? over : top.slice(-1)).map((p) => heightOf(p, x)));
}

/** Gives what of a top is met from the left or the right, from the bottom up. */
export function metFrom(side: 'left' | 'right', top: readonly TopPiece[]): readonly SidePiece[] {
  if (side === 'right')
    return metFrom('left', mirrored(top)).map(({ x0, x1, z0, z1 }) => ({ x0: 0 - x0, x1: 0 - x1, z0, z1 }));
  const met: SidePiece[] = [];
  let reached = 0;
  for (const { x0, x1, z0, z1 } of top) {
    if (z0 > reached) {
      met.push({ x0, x1: x0, z0: reached, z1: z0 });
      reached = z0;
    }
    if (z1 <= reached) continue;
    met.push({ x0: x0 + ((x1 - x0) * (reached - z0)) / (z1 - z0), x1, z0: reached, z1 });
    reached = z1;
  }
  return met;
}

/** Gives the lower of two tops, where both stand. */
export function lowerOf(a: readonly TopPiece[], b: readonly TopPiece[]): readonly TopPiece[] {
  return a
    .flatMap((p) => b.flatMap((q) => lowerPiece(p, q)))
    .sort((p, q) => p.x0 - q.x0 || p.x1 - q.x1 || p.z0 - q.z0 || p.z1 - q.z1);
}

/** Moves a top to the right. */
export function shifted(top: readonly TopPiece[], by: number): readonly TopPiece[] {
  return top.map(({ x0, x1, z0, z1 }) => ({ x0: x0 + by, x1: x1 + by, z0, z1 }));
}

/** Gives the corners of a shape, the bottom's two first. */
export function cornersOf(sizes: CarcassSizes): readonly { readonly x: number; readonly z: number }[] {
  return [
    { x: 0, z: 0 },
    { x: sizes.widthMm, z: 0 },
    ...topOf(sizes).flatMap(({ x0, x1, z0, z1 }) => [
      { x: x0, z: z0 },
      { x: x1, z: z1 },
    ]),
  ];
}

function mirrored(top: readonly TopPiece[]): TopPiece[] {
  return top.map(({ x0, x1, z0, z1 }) => ({ x0: 0 - x1, x1: 0 - x0, z0: z1, z1: z0 })).reverse();
}

/** The lower of two straight stretches over the x that both cover; cut where they cross. */
function lowerPiece(p: TopPiece, q: TopPiece): TopPiece[] {
  const x0 = Math.max(p.x0, q.x0);
  const x1 = Math.min(p.x1, q.x1);
  if (!(x0 < x1)) return [];
  const before = heightOf(p, x0) - heightOf(q, x0);
  const after = heightOf(p, x1) - heightOf(q, x1);
  if (before <= 0 && after <= 0) return [cutTo(p, x0, x1)];
  if (before >= 0 && after >= 0) return [cutTo(q, x0, x1)];
  const at = x0 + ((x1 - x0) * before) / (before - after);
  if (!(at > x0 && at < x1)) return [cutTo(before + after < 0 ? p : q, x0, x1)];
  return before < 0 ? [cutTo(p, x0, at), cutTo(q, at, x1)] : [cutTo(q, x0, at), cutTo(p, at, x1)];
}

function cutTo(p: TopPiece, x0: number, x1: number): TopPiece {
  return { x0, x1, z0: heightOf(p, x0), z1: heightOf(p, x1) };
}

function heightOf({ x0, x1, z0, z1 }: TopPiece, x: number): number {
  if (z0 === z1 || x <= x0) return z0;
  return x >= x1 ? z1 : z0 + ((z1 - z0) * (x - x0)) / (x1 - x0);
}
