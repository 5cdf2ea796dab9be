/**
 * Pushing the carcass in: how deep it goes before something stops it, and where it is tight there.
 *
 * It stands at its last height from the start. With its back at b it meets the side walls and the ceiling over
 * [mouth, b] and the back wall at b. A place from left to right that is free at b is free all the way there, so how deep
 * it goes is monotone, and it goes home just where `goesInBare` says so.
 */
import type { CarcassSizes } from '../exercise/brief.ts';
import type { Place } from '../recess/recess.ts';
import { findCarcass } from './answer-key.ts';
import {
  type Clearances,
  type ClearSide,
  clearances,
  clearSides,
  freePlace,
  type PlacedCarcass,
  type SideWalls,
  wallsAlong,
} from './carcass-fit.ts';
import type { Site } from './site.ts';

export interface PushedIn {
  /** Where the carcass's back would stand when it is home, and where it stops, mm. */
  readonly homeMm: number;
  readonly backMm: number;
  readonly shortMm: number;
  /** What stops it: the side and the places that it touches; null when it goes home. */
  readonly stoppedBy: {
    readonly side: 'left and right' | 'top' | 'back';
    readonly at: readonly Place[];
    /** Said where it is the slope that stops it. */
    readonly on?: 'slope';
  } | null;
  /** Where it stands when it has stopped, its back at `backMm`. */
  readonly carcass: PlacedCarcass;
  /** What is clear on each side there and on its way there; `back` is what is clear behind it. */
  readonly clear: Clearances;
}

/** How finely the stop is found, mm. */
const withinMm = 0.01;

/**
 * Pushes a carcass in.
 *
 * @returns where it stops, found from the free side to 0.01 mm; null when it leaves the recess's reach
 */
export function pushIn(site: Site, sizes: CarcassSizes): PushedIn | null {
  const found = findCarcass(site, sizes);
  if (!found) return null;
  const { carcass, walls, clear } = found;
  const homeMm = carcass.backMm;
  const home = freePlace(site, carcass, walls);
  if (home !== null) {
    // The place that shares what is spare, unless something but the walls is in its way there.
    const shared = clearSides.every((side) => clear[side].mm >= 0);
    const at = { carcass: shared ? carcass : { ...carcass, leftMm: home }, walls };
    return { homeMm, backMm: homeMm, shortMm: 0, stoppedBy: null, ...standing(site, at) };
  }
  const stop = lastFree(site, carcass);
  return { homeMm, shortMm: homeMm - stop.backMm, ...stop };
}

/** Halves the way in down to the last place where the carcass is free; blocked at the mouth, it stays there. */
function lastFree(site: Site, home: PlacedCarcass) {
  const { mouthMm } = site.brief;
  let free = mouthMm;
  let held = home.backMm;
  let leftMm = placeAt(site, home, mouthMm);
  if (leftMm === null) held = mouthMm;
  while (held - free > withinMm) {
    const middle = (free + held) / 2;
    const place = placeAt(site, home, middle);
    if (place === null) held = middle;
    else [free, leftMm] = [middle, place];
  }
  const carcass = { ...home, backMm: free, leftMm: leftMm ?? home.leftMm };
  const blocked = { ...home, backMm: held, leftMm: carcass.leftMm };
  return {
    backMm: free,
    stoppedBy: stoppedBy(site, blocked),
    ...standing(site, { carcass, walls: wallsAlong(site, carcass, carcass) }),
  };
}

function placeAt(site: Site, home: PlacedCarcass, backMm: number): number | null {
  const carcass = { ...home, backMm };
  return freePlace(site, carcass, wallsAlong(site, carcass, carcass));
}

/** What blocks a carcass that is not free: the walls where it is wider, else the worse of overhead and behind. */
function stoppedBy(site: Site, blocked: PlacedCarcass): NonNullable<PushedIn['stoppedBy']> {
  const walls = wallsAlong(site, blocked, blocked);
  const clear = clearances(site, blocked, walls);
  if (walls.betweenMm < blocked.widthMm) return { side: 'left and right', at: [clear.left.at, clear.right.at] };
  const side: ClearSide = clear.top.mm < clear.back.mm ? 'top' : 'back';
  const stop = { side, at: [clear[side].at] } as const;
  return clear[side].on === 'slope' ? { ...stop, on: 'slope' } : stop;
}

function standing(site: Site, at: { carcass: PlacedCarcass; walls: SideWalls }): Pick<PushedIn, 'carcass' | 'clear'> {
  return { carcass: at.carcass, clear: clearances(site, at.carcass, at.walls) };
}
