/**
 * The answer key: what the true geometry allows, from the hidden surfaces, certified to 0.01 mm.
 *
 * All sizes are physical, clearances not taken off. The carcass asked about is the given one, else the brief's nominal;
 * widest, tallest and deepest each have the other two at the nominal, at the nominal's place.
 */
import { type Brief, type CarcassSizes, nominalCarcass } from '../exercise/brief.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { obstructionAt } from '../recess/band.ts';
import type { Recess } from '../recess/recess.ts';
import { isOpen } from '../recess/recess-spec.ts';
import {
  type Clearances,
  type ClearSide,
  clearances,
  clearSides,
  fitWord,
  goesInBare,
  leastSpare,
  openOn,
  type PlacedCarcass,
  placeCarcass,
  type SideWalls,
  sideWalls,
} from './carcass-fit.ts';
import { type Edge, type OpeningEdges, openingEdges, openingRect, stockOf } from './opening.ts';
import { bareHighest, bareLowest, highest, type Site, siteOf } from './site.ts';

export interface CarcassKey extends CarcassSizes {
  readonly fits: 'yes' | 'touches' | 'no';
  readonly goesInBare: boolean;
  /** Null where a side is open. */
  readonly clearanceMm: Readonly<Record<ClearSide, number | null>>;
  readonly at: { readonly leftMm: number; readonly bottomMm: number };
  readonly tightest: readonly {
    readonly side: ClearSide;
    readonly atMm: readonly [number, number, number];
    readonly clearanceMm: number;
  }[];
  readonly standsUp: { readonly ok: boolean; readonly byMm: number } | null;
}

export interface FrameKey {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly at: { readonly leftMm: number; readonly bottomMm: number };
  /** Least and most stock to come off each edge; < 0 where the blank does not cover. */
  readonly stockMm: Readonly<Record<Edge, readonly [number, number]>>;
}

export interface AnswerKey {
  readonly brief: Brief;
  readonly carcass: CarcassKey | null;
  readonly widestMm: number | null;
  readonly tallestMm: number | null;
  readonly deepestMm: number | null;
  readonly opening: {
    readonly widthMm: number;
    readonly heightMm: number;
    readonly leftMm: number;
    readonly bottomMm: number;
  } | null;
  readonly frame: FrameKey | null;
  readonly plinthMm: readonly [number, number];
  /** Null where there is no ceiling. */
  readonly marginsMm: readonly [number, number, number] | null;
  /** Null where a side wall is open. */
  readonly mouthWidthMm: number | null;
}

/** A frame's blank; centred on the opening where no place is given. */
export interface FrameAsked {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly leftMm?: number;
  readonly bottomMm?: number;
}

export interface KeyAsked {
  readonly carcass?: CarcassSizes;
  readonly frame?: FrameAsked;
}

export type KeyResult =
  | { readonly ok: true; readonly key: AnswerKey }
  | { readonly ok: false; readonly error: { readonly code: 'key/outside'; readonly says: string } };

/** A carcass in its place with what bounds it. */
export interface FoundCarcass {
  readonly carcass: PlacedCarcass;
  readonly walls: SideWalls;
  readonly clear: Clearances;
}

/** Gives the answer key of an exercise. */
export function answerKey(recess: Recess, exercise: Exercise, asked: KeyAsked = {}): KeyResult {
  const site = siteOf(recess, exercise);
  const nominal = findCarcass(site, nominalCarcass(exercise.brief));
  const given = asked.carcass ? findCarcass(site, asked.carcass) : null;
  const subject = given ?? nominal;
  if (!nominal || !subject || (asked.carcass && !given)) return outside('the carcass reaches beyond the recess');
  const found = openingEdges(site);
  const frame = asked.frame && found ? frameKey(found, asked.frame) : null;
  return {
    ok: true,
    key: {
      brief: exercise.brief,
      carcass: given ? carcassKey(site, given) : null,
      ...largest(site, nominal),
      opening: found ? openingKey(found) : null,
      frame,
      plinthMm: plinthStock(site, subject.carcass),
      marginsMm: margins(site, subject.carcass),
      mouthWidthMm: mouthWidth(site, subject.carcass),
    },
  };
}

/** Puts a carcass in its place; null when it leaves the recess's reach. */
export function findCarcass(site: Site, sizes: CarcassSizes): FoundCarcass | null {
  const walls = sideWalls(site, sizes);
  const carcass = walls && placeCarcass(site, sizes, walls);
  return walls && carcass ? { carcass, walls, clear: clearances(site, carcass, walls) } : null;
}

/** The three largest sizes, each null where the other two alone do not go in at the nominal's place. */
export function largest(site: Site, nominal: FoundCarcass): Pick<AnswerKey, 'widestMm' | 'tallestMm' | 'deepestMm'> {
  const { carcass, walls, clear } = nominal;
  const goes = (...on: ClearSide[]) => on.every((side) => clear[side].mm >= 0);
  const bounded = (...by: ClearSide[]) => by.every((side) => !openOn(site, side));
  return {
    widestMm: bounded('left', 'right') && goes('top', 'back') ? shown(walls.betweenMm) : null,
    tallestMm: bounded('top') && goes('left', 'right', 'back') ? shown(clear.top.mm + carcass.heightMm) : null,
    deepestMm: bounded('back') && goes('left', 'right', 'top') ? shown(clear.back.mm + carcass.depthMm) : null,
  };
}

/** Rounds what is printed of a key to a ten-thousandth of a millimetre; never -0, which no file keeps. */
export function shown(mm: number): number {
  return 0 + Math.round(mm * 10_000) / 10_000;
}

function carcassKey(site: Site, found: FoundCarcass): CarcassKey {
  const { carcass, walls, clear } = found;
  const told = (side: ClearSide) => (openOn(site, side) ? null : shown(clear[side].mm));
  return {
    widthMm: carcass.widthMm,
    heightMm: carcass.heightMm,
    depthMm: carcass.depthMm,
    fits: fitWord(leastSpare(site, clear)),
    goesInBare: goesInBare(site, carcass, walls),
    clearanceMm: { left: told('left'), right: told('right'), top: told('top'), back: told('back') },
    at: { leftMm: shown(carcass.leftMm), bottomMm: shown(carcass.bottomMm) },
    tightest: clearSides
      .filter((side) => !openOn(site, side))
      .map((side) => {
        const { mm, at } = clear[side];
        return { side, atMm: [shown(at.x), shown(at.y), shown(at.z)], clearanceMm: shown(mm) };
      }),
    standsUp: standsUp(site.brief, carcass),
  };
}

/** Whether a carcass can be stood up where the brief says, and by how much it clears, corner to corner. */
export function standsUp(brief: Brief, sizes: CarcassSizes): { ok: boolean; byMm: number } | null {
  if (!brief.access) return null;
  const tall = sizes.heightMm + (brief.access.plinthSeparate ? 0 : brief.plinthMm);
  const by = brief.access.clearHeightMm - Math.sqrt(tall * tall + sizes.depthMm * sizes.depthMm);
  return { ok: by >= 0, byMm: shown(by) };
}

function openingKey(found: OpeningEdges): NonNullable<AnswerKey['opening']> {
  const rect = openingRect(found);
  return {
    widthMm: shown(rect.rightMm - rect.leftMm),
    heightMm: shown(rect.topMm - rect.bottomMm),
    leftMm: shown(rect.leftMm),
    bottomMm: shown(rect.bottomMm),
  };
}

/** Gives the key of a blank, centred on the opening unless it is placed. */
export function frameKey(found: OpeningEdges, asked: FrameAsked): FrameKey {
  const rect = openingRect(found);
  const leftMm = asked.leftMm ?? (rect.leftMm + rect.rightMm - asked.widthMm) / 2;
  const bottomMm = asked.bottomMm ?? (rect.bottomMm + rect.topMm - asked.heightMm) / 2;
  const blank = { leftMm, rightMm: leftMm + asked.widthMm, bottomMm, topMm: bottomMm + asked.heightMm };
  const stock = stockOf(found, blank);
  const pair = (edge: Edge): [number, number] => [shown(stock[edge][0]), shown(stock[edge][1])];
  return {
    widthMm: asked.widthMm,
    heightMm: asked.heightMm,
    at: { leftMm: shown(leftMm), bottomMm: shown(bottomMm) },
    stockMm: { left: pair('left'), right: pair('right'), top: pair('top'), bottom: pair('bottom') },
  };
}

function plinthStock(site: Site, carcass: PlacedCarcass): [number, number] {
  const half = site.brief.openingMm.width / 2;
  const front = { u0: -half, u1: half, v0: 0, v1: 0 };
  return [
    shown(carcass.bottomMm - bareHighest(site, 'floor', front).value),
    shown(carcass.bottomMm - bareLowest(site, 'floor', front).value),
  ];
}

function margins(site: Site, carcass: PlacedCarcass): [number, number, number] | null {
  if (isOpen(site.recess.spec, 'ceiling')) return null;
  const at = (share: number) => {
    const place = { u: carcass.leftMm + share * carcass.widthMm, v: site.brief.carcassFrontMm };
    const ceiling = 0 - obstructionAt(site.recess.fields.ceiling, site.staying.ceiling, place);
    return shown(ceiling - carcass.topMm);
  };
  return [at(0), at(0.5), at(1)];
}

function mouthWidth(site: Site, carcass: PlacedCarcass): number | null {
  if (openOn(site, 'left') || openOn(site, 'right')) return null;
  const { mouthMm } = site.brief;
  const rect = { u0: mouthMm, u1: mouthMm, v0: carcass.bottomMm, v1: carcass.topMm };
  return shown(0 - highest(site, 'right', rect).value - highest(site, 'left', rect).value);
}

function outside(says: string): KeyResult {
  return { ok: false, error: { code: 'key/outside', says } };
}
