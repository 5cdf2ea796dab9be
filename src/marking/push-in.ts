/**
 * Pushing the carcass in: how far it goes before something stops it.
 *
 * With its back at b, the carcass meets the side walls and the ceiling over [mouth, b] and the back wall at b. It may
 * shift sideways on its way, so the walls stop it where they stand closer than it is wide. Going is monotone: what stops
 * it at b stops it further in.
 */
import type { CarcassSizes } from '../exercise/brief.ts';
import type { Place } from '../recess/recess.ts';
import { trueOf } from '../recess/recess.ts';
import { floorHighPoint, highest, placeOf, type Site } from './site.ts';

export interface PushedIn {
  /** Where the carcass's back would stand when it is home, and where it stops, mm. */
  readonly homeMm: number;
  readonly backMm: number;
  readonly shortMm: number;
  /** What stops it: the side and the places that it touches; null when it goes home. */
  readonly stoppedBy: { readonly side: 'left and right' | 'top' | 'back'; readonly at: readonly Place[] } | null;
}

/** How finely the stop is found, mm. */
const withinMm = 0.01;

/** Pushes a carcass in; null when it leaves the recess's reach. */
export function pushIn(site: Site, sizes: CarcassSizes): PushedIn | null {
  const { mouthMm, carcassFrontMm, plinthMm } = site.brief;
  const homeMm = carcassFrontMm + sizes.depthMm;
  const { extents } = site.recess;
  if (homeMm > extents.y[1]) return null;
  const bottom = plinthMm + floorHighPoint(site, homeMm).value;
  const top = bottom + sizes.heightMm;
  if (top > extents.z[1] || bottom < extents.z[0]) return null;
  const stopAt = (backMm: number) => stops(site, sizes, { mouthMm, backMm, bottom, top });
  if (!stopAt(homeMm)) return { homeMm, backMm: homeMm, shortMm: 0, stoppedBy: null };
  let free = mouthMm;
  let held = homeMm;
  if (stopAt(mouthMm)) held = mouthMm;
  while (held - free > withinMm) {
    const middle = (free + held) / 2;
    if (stopAt(middle)) held = middle;
    else free = middle;
  }
  return { homeMm, backMm: free, shortMm: homeMm - free, stoppedBy: stopAt(held) };
}

function stops(
  site: Site,
  sizes: CarcassSizes,
  box: { mouthMm: number; backMm: number; bottom: number; top: number },
): PushedIn['stoppedBy'] {
  const sides = { u0: box.mouthMm, u1: box.backMm, v0: box.bottom, v1: box.top };
  const left = highest(site, 'left', sides);
  const right = highest(site, 'right', sides);
  const between = 0 - right.value - left.value;
  if (between < sizes.widthMm) return { side: 'left and right', at: [placeOf('left', left), placeOf('right', right)] };
  const { x } = site.recess.extents;
  const leftMm = Math.max(x[0], (left.value - right.value - sizes.widthMm) / 2);
  const rightMm = Math.min(x[1], leftMm + sizes.widthMm);
  const over = highest(site, 'ceiling', { u0: leftMm, u1: rightMm, v0: box.mouthMm, v1: box.backMm });
  if (trueOf('ceiling', over.value) < box.top) return { side: 'top', at: [placeOf('ceiling', over)] };
  const back = highest(site, 'back', { u0: leftMm, u1: rightMm, v0: box.bottom, v1: box.top });
  return trueOf('back', back.value) < box.backMm ? { side: 'back', at: [placeOf('back', back)] } : null;
}
