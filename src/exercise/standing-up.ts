/**
 * Standing a carcass up: the clear height that it needs to be turned up from where it lies.
 *
 * Turned up through a right angle about an edge on the floor, a corner at a distance r from that edge, seen along it, comes
 * through straight above it: upright it stands no further round than straight up, lying it stood a right angle further. So
 * the greatest height reached is the greatest of those distances. On its back a carcass turns in the section of height and
 * depth; on a side, in its elevation. A box is laid on its back; a sloped or notched one on whichever face needs least.
 *
 * @source closed form, derived above; for a box, sqrt(height² + depth²)
 */
import type { CarcassSizes } from './brief.ts';
import { cornersOf, highestOf, isShaped } from './carcass-shape.ts';

/** The faces that a carcass may be turned up from. */
export const layings = ['back', 'left', 'right'] as const;
export type Laying = (typeof layings)[number];

/**
 * Gives the clear height that a carcass needs to be turned up, mm.
 *
 * @param plinthMm - the plinth that is fixed under it, 0 where that comes separately
 */
export function turnUpHeight(sizes: CarcassSizes, plinthMm: number): number {
  return isShaped(sizes)
    ? Math.min(...layings.map((from) => turnUpFrom(from, sizes, plinthMm)))
    : turnUpFrom('back', sizes, plinthMm);
}

/** Gives the same from one face: how far its furthest corner stands from the edge that it turns about. */
export function turnUpFrom(from: Laying, sizes: CarcassSizes, plinthMm: number): number {
  if (from === 'back') {
    const tall = highestOf(sizes) + plinthMm;
    return Math.sqrt(tall * tall + sizes.depthMm * sizes.depthMm);
  }
  const far = cornersOf(sizes).map(({ x, z }) => {
    const across = from === 'left' ? x : sizes.widthMm - x;
    return Math.sqrt(across * across + (z + plinthMm) * (z + plinthMm));
  });
  return Math.max(...far);
}
