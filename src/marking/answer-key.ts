/**
 * The answer key: what the true geometry allows, from the hidden surfaces, certified to 0.01 mm.
 *
 * All sizes are physical, clearances not taken off. The carcass asked about is the given one, else the brief's nominal;
 * widest, tallest and deepest each have the other two at the nominal, at the nominal's place.
 */
import { type Brief, type CarcassSizes, nominalCarcass } from '../exercise/brief.ts';
import { isShaped, topAt, topOf } from '../exercise/carcass-shape.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { turnUpHeight } from '../exercise/standing-up.ts';
import { type WayIn, wayIn } from '../exercise/way-in.ts';
import { obstructionAt } from '../recess/band.ts';
import type { Recess } from '../recess/recess.ts';
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
import { coveringEdge, slopedStock } from './covering-edge.ts';
import { type Edge, type OpeningEdges, openingEdges, openingRect, stockOf } from './opening.ts';
import { type RunKey, runKey } from './run.ts';
import { highestEdge, tallestUnderSlope } from './shaped-largest.ts';
import { type ShelfKey, shelfBacks, shelfKey } from './shelves.ts';
import { bareHighest, bareLowest, highest, overheadSides, type Site, siteOf } from './site.ts';
import { wallThickness } from './wall-thickness.ts';

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
    /** Said where it is the slope that is met overhead. */
    readonly on?: 'slope';
  }[];
  readonly standsUp: { readonly ok: boolean; readonly byMm: number } | null;
  /** Whether it comes in, by question, where the brief tells of a way in. */
  readonly comesIn?: WayIn;
  /** Of a lining: least and most to come off its far edge; < 0 where it does not reach the far face. */
  readonly farEdgeMm?: readonly [number, number];
}

export interface FrameKey {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly at: { readonly leftMm: number; readonly bottomMm: number };
  /** Least and most stock to come off each edge; < 0 where the blank does not cover. */
  readonly stockMm: Readonly<Record<Edge, readonly [number, number]>>;
  /** The sloped edge of a blank that has one, and what comes off it along z. */
  readonly slope?: { readonly leftMm: number; readonly rightMm: number; readonly stockMm: readonly [number, number] };
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
    /**
     * Where the section has a slope: the line over it that stands lowest at a middle (x in the room), as heights over the
     * bottom at either edge and there.
     */
    readonly slope?: {
      readonly leftMm: number;
      readonly rightMm: number;
      readonly middleMm: number;
      readonly middleAtMm: number;
    };
  } | null;
  readonly frame: FrameKey | null;
  readonly plinthMm: readonly [number, number];
  /** Null where there is no ceiling. */
  readonly marginsMm: readonly [number, number, number] | null;
  /** Null where a side wall is open. */
  readonly mouthWidthMm: number | null;
  /**
   * Left out where the brief asks for no sloped edge: the line under the slope over the sloped part of the nominal's top
   * that stands highest at that part's middle, as heights over the bottom at the carcass's two edges and there.
   */
  readonly slope?: { readonly lowMm: number; readonly highMm: number; readonly middleMm: number } | null;
  /** Left out where the brief asks for no carcasses side by side: the tightest of each wall, x in the room. */
  readonly run?: { readonly leftMm: number; readonly rightMm: number; readonly set: RunKey | null };
  /** Left out where the brief asks for no shelves: from the face line to the wall behind them, least and most. */
  readonly shelf?: { readonly backMm: readonly [number, number]; readonly blank: ShelfKey | null };
  /** Left out where the brief asks for none: each box's middle (x, z in the room) and size. */
  readonly cutOuts?: readonly {
    readonly name: string;
    readonly middleMm: readonly [number, number];
    readonly sizeMm: readonly [number, number];
  }[];
  /** Of a lining: the wall's least and greatest thickness where its edges come, from the face line. */
  readonly wallMm?: readonly [number, number];
}

/** A frame's blank; centred on the opening where no place is given. */
export interface FrameAsked {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly leftMm?: number;
  readonly bottomMm?: number;
  /** The line of a sloped edge: its heights over the blank's bottom at the left and the right edge. */
  readonly slope?: { readonly leftMm: number; readonly rightMm: number };
}

export interface KeyAsked {
  readonly carcass?: CarcassSizes;
  readonly frame?: FrameAsked;
  /** Where carcasses side by side stand: x in the room of each left edge and the last right edge. */
  readonly runMm?: readonly number[];
  readonly shelfDepthMm?: number;
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
  const frame = asked.frame && found ? frameKey(site, found, asked.frame) : null;
  return {
    ok: true,
    key: {
      brief: exercise.brief,
      carcass: given ? carcassKey(site, given) : null,
      ...largest(site, nominal),
      opening: found ? openingKey(site, found) : null,
      frame,
      plinthMm: plinthStock(site, subject.carcass),
      marginsMm: margins(site, subject.carcass),
      mouthWidthMm: mouthWidth(site, subject.carcass),
      ...(exercise.brief.slope ? { slope: slopeKey(site, nominal) } : {}),
      ...added(site, subject, asked),
      ...(exercise.brief.lining ? { wallMm: wallKey(site, nominal.carcass) } : {}),
    },
  };
}

/** What the brief asks for beside a carcass and a frame. */
function added(site: Site, subject: FoundCarcass, asked: KeyAsked): Pick<AnswerKey, 'run' | 'shelf' | 'cutOuts'> {
  const { modules, shelves, cutOuts } = site.brief;
  const { walls, carcass } = subject;
  const backs = shelves ? shelfBacks(site) : null;
  return {
    ...(modules
      ? {
          run: {
            leftMm: shown(walls.left.value),
            rightMm: shown(0 - walls.right.value),
            set: asked.runMm ? shownRun(runKey(site, asked.runMm, { walls, heightMm: carcass.heightMm })) : null,
          },
        }
      : {}),
    ...(backs
      ? {
          shelf: {
            backMm: [shown(0 - backs.tightest.value), shown(0 - backs.widest.value)],
            blank: asked.shelfDepthMm === undefined ? null : shownShelf(shelfKey(backs, asked.shelfDepthMm)),
          },
        }
      : {}),
    ...(cutOuts ? { cutOuts: boxes(site, cutOuts) } : {}),
  };
}

function boxes(site: Site, names: readonly string[]): NonNullable<AnswerKey['cutOuts']> {
  return site.recess.spec.trims
    .filter((t) => names.includes(t.name))
    .map(({ name, uMm: [u0, u1], vMm: [v0, v1] }) => ({
      name,
      middleMm: [shown((u0 + u1) / 2), shown((v0 + v1) / 2)],
      sizeMm: [shown(u1 - u0), shown(v1 - v0)],
    }));
}

function shownRun(run: RunKey): RunKey {
  const pair = ([a, b]: readonly [number, number]): [number, number] => [shown(a), shown(b)];
  return {
    leftMm: shown(run.leftMm),
    rightMm: shown(run.rightMm),
    clearanceMm: { left: shown(run.clearanceMm.left), right: shown(run.clearanceMm.right) },
    infillMm: { left: pair(run.infillMm.left), right: pair(run.infillMm.right) },
    unevenMm: shown(run.unevenMm),
  };
}

function shownShelf({ depthMm, stockMm: [least, most] }: ShelfKey): ShelfKey {
  return { depthMm, stockMm: [shown(least), shown(most)] };
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
    tallestMm: bounded('top') && goes('left', 'right', 'back') ? tallest(site, nominal) : null,
    deepestMm: bounded('back') && goes('left', 'right', 'top') ? shown(clear.back.mm + carcass.depthMm) : null,
  };
}

/** With a sloped edge the flat top rises along the edge's line; otherwise the whole top rises. */
function tallest(site: Site, { carcass, clear }: FoundCarcass): number | null {
  if (!carcass.slope) return shown(clear.top.mm + carcass.heightMm);
  const tall = tallestUnderSlope(site, carcass);
  return tall === null ? null : shown(tall);
}

function slopeKey(site: Site, nominal: FoundCarcass): NonNullable<AnswerKey['slope']> | null {
  const { carcass, clear } = nominal;
  const goes = clearSides.every((side) => side === 'top' || clear[side].mm >= 0);
  const edge = goes ? highestEdge(site, carcass) : null;
  if (!edge) return null;
  const [lowMm, highMm] = [edge.lowMm, edge.highMm].map((z) => shown(z - carcass.bottomMm)) as [number, number];
  return { lowMm, highMm, middleMm: shown(edge.middleMm - carcass.bottomMm) };
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
    ...(carcass.slope ? { slope: carcass.slope } : {}),
    ...(carcass.notch ? { notch: carcass.notch } : {}),
    fits: fitWord(leastSpare(site, clear)),
    goesInBare: goesInBare(site, carcass, walls),
    clearanceMm: { left: told('left'), right: told('right'), top: told('top'), back: told('back') },
    at: { leftMm: shown(carcass.leftMm), bottomMm: shown(carcass.bottomMm) },
    tightest: clearSides
      .filter((side) => !openOn(site, side))
      .map((side) => {
        const { mm, at, on } = clear[side];
        const place = { side, atMm: [shown(at.x), shown(at.y), shown(at.z)], clearanceMm: shown(mm) } as const;
        return on === 'slope' ? { ...place, on } : place;
      }),
    standsUp: standsUp(site.brief, carcass),
    ...comesInOf(site.brief, carcass),
    ...(site.brief.lining ? { farEdgeMm: farEdge(site, carcass) } : {}),
  };
}

/** Whether a carcass can be stood up where the brief says, and by how much it clears, corner to corner. */
export function standsUp(brief: Brief, sizes: CarcassSizes): { ok: boolean; byMm: number } | null {
  if (!brief.access) return null;
  const by = brief.access.clearHeightMm - turnUpHeight(sizes, brief.access.plinthSeparate ? 0 : brief.plinthMm);
  return { ok: by >= 0, byMm: shown(by) };
}

function comesInOf(brief: Brief, carcass: CarcassSizes): Pick<CarcassKey, 'comesIn'> {
  const comesIn = wayIn(brief, carcass);
  return comesIn ? { comesIn } : {};
}

/** The wall's least and greatest thickness over the edges of a lining as it stands. */
function wallKey(site: Site, carcass: PlacedCarcass): [number, number] {
  const { least, most } = wallThickness(site, carcass);
  return [shown(least.mm), shown(most.mm)];
}

/** What comes off a lining's far edge, least and most. */
function farEdge(site: Site, carcass: PlacedCarcass): [number, number] {
  const { least, most } = wallThickness(site, carcass);
  return [shown(carcass.backMm - most.mm), shown(carcass.backMm - least.mm)];
}

function openingKey(site: Site, found: OpeningEdges): NonNullable<AnswerKey['opening']> {
  const rect = openingRect(found);
  const edge = coveringEdge(site, found);
  const over = (z: number) => shown(z - rect.bottomMm);
  return {
    widthMm: shown(rect.rightMm - rect.leftMm),
    heightMm: shown(rect.topMm - rect.bottomMm),
    leftMm: shown(rect.leftMm),
    bottomMm: shown(rect.bottomMm),
    ...(edge
      ? {
          slope: {
            leftMm: over(edge.leftMm),
            rightMm: over(edge.rightMm),
            middleMm: over(edge.middleMm),
            middleAtMm: shown(edge.middleAtMm),
          },
        }
      : {}),
  };
}

/** Gives the key of a blank, centred on the opening unless it is placed. */
export function frameKey(site: Site, found: OpeningEdges, asked: FrameAsked): FrameKey {
  const rect = openingRect(found);
  const leftMm = asked.leftMm ?? (rect.leftMm + rect.rightMm - asked.widthMm) / 2;
  const bottomMm = asked.bottomMm ?? (rect.bottomMm + rect.topMm - asked.heightMm) / 2;
  const blank = { leftMm, rightMm: leftMm + asked.widthMm, bottomMm, topMm: bottomMm + asked.heightMm };
  const stock = stockOf(found, blank);
  const { slope } = asked;
  const sloped = slope && found.top.parts.some(({ side }) => side === 'slope') ? slope : null;
  const edged = sloped ? slopedStock(site, found, { ...blank, slope: sloped }) : null;
  const rounded = ([least, most]: readonly [number, number]): [number, number] => [shown(least), shown(most)];
  const pair = (edge: Edge) => rounded(edge === 'top' && edged ? edged.top : stock[edge]);
  return {
    widthMm: asked.widthMm,
    heightMm: asked.heightMm,
    at: { leftMm: shown(leftMm), bottomMm: shown(bottomMm) },
    stockMm: { left: pair('left'), right: pair('right'), top: pair('top'), bottom: pair('bottom') },
    ...(sloped && edged ? { slope: { ...sloped, stockMm: rounded(edged.slope) } } : {}),
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
  if (openOn(site, 'top')) return null;
  const at = (share: number) => {
    const place = { u: carcass.leftMm + share * carcass.widthMm, v: site.brief.carcassFrontMm };
    const overhead = overheadSides(site).map(
      (side) => 0 - obstructionAt(site.recess.fields[side], site.staying[side], place),
    );
    const top = isShaped(carcass) ? carcass.bottomMm + topAt(topOf(carcass), share * carcass.widthMm) : carcass.topMm;
    return shown(Math.min(...overhead) - top);
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
