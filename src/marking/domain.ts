/**
 * The places that count for a size, Ω: for each side, closed rectangles of its own axes, and the true offset there.
 *
 * True datums are x = 0, y = 0 (or the reference, where the face line is set back from it) and z = 0, so a true offset
 * is the obstruction with its sign turned. A carcass meets the
 * surfaces with the trims that stay; a frame meets the bare walls, between those trims.
 */
import { type Brief, finishOn, nominalCarcass } from '../exercise/brief.ts';
import { isShaped, slopedStretch, topAt, topOf } from '../exercise/carcass-shape.ts';
import type { Rect } from '../geometry/range.ts';
import { obstructionAt } from '../recess/band.ts';
import type { Place } from '../recess/recess.ts';
import type { Side } from '../recess/recess-spec.ts';
import { meetsBare, type SizeName, type SlopeEdge, sizeRules } from '../survey/size.ts';
import { slopeEdge } from '../survey/slope-edge.ts';
import { type FoundCarcass, findCarcass } from './answer-key.ts';
import type { PlacedCarcass } from './carcass-fit.ts';
import { lineAtFace, type OpeningEdges, openingEdges, openingRect } from './opening.ts';
import { highestEdge, tallestUnderSlope } from './shaped-largest.ts';
import { shelfBacks } from './shelves.ts';
import { floorHighPoint, highest, placeOf, type Site } from './site.ts';
import { liningEdges, wallThickness } from './wall-thickness.ts';

export interface Domain {
  readonly size: SizeName;
  readonly rects: Readonly<Partial<Record<Side, readonly Rect[]>>>;
  /** The right rule over all of it: the key, in terms of offsets, mm. */
  readonly wholeMm: number;
  /** Where it is decided, one place a side. */
  readonly decidedAt: readonly { readonly side: Side; readonly at: Place }[];
  /** Of a sloped edge: where it lies, x in the room. */
  readonly edge?: SlopeEdge;
}

/** What every domain of an exercise is made from. */
export interface DomainSource {
  readonly site: Site;
  readonly nominal: FoundCarcass;
  /** Null where an edge of the opening is open; then there is no frame. */
  readonly edges: OpeningEdges | null;
  /** Where the square line that a run is set out from crosses the face line: its true datum. */
  readonly squareMm: number;
}

/**
 * Gives what domains are made from.
 *
 * @throws {RangeError} if the brief's nominal carcass leaves the recess's reach, or an opening's edge lies behind trims
 */
export function domainSource(site: Site, squareMm = 0): DomainSource {
  const nominal = findCarcass(site, nominalCarcass(site.brief));
  const edges = openingEdges(site);
  if (!nominal) throw new RangeError('brief: the nominal carcass reaches beyond the recess');
  if (!edges && site.brief.frame)
    throw new RangeError('brief: an edge of the opening lies wholly behind trims that stay');
  return { site, nominal, edges, squareMm };
}

/**
 * Gives the domain of a size.
 *
 * @param widthMm - how wide the carcass is made: a sloped edge is asked for at its two edges
 */
export function domainOf(from: DomainSource, size: SizeName, widthMm?: number): Domain {
  const { site, nominal, edges } = from;
  const { carcass, walls, clear } = nominal;
  const { brief } = site;
  const way = { from: brief.mouthMm, to: carcass.backMm };
  const width = { from: carcass.leftMm, to: carcass.leftMm + carcass.widthMm };
  const half = brief.openingMm.width / 2;
  // The site has its finish on; offsets are read before that.
  const bare = (d: Domain): Domain => ({ ...d, wholeMm: d.wholeMm + finishOver(brief, size) });
  switch (size) {
    case 'carcass-width':
    case 'lining-width': {
      // Beside a sloped top a wall counts as high as the carcass stands there.
      const beside = (x: number) => {
        const top = isShaped(carcass) ? carcass.bottomMm + topAt(topOf(carcass), x) : carcass.topMm;
        return [{ u0: way.from, u1: way.to, v0: carcass.bottomMm, v1: top }];
      };
      const decidedAt = [
        { side: 'left' as const, at: clear.left.at },
        { side: 'right' as const, at: clear.right.at },
      ];
      const rects = { left: beside(0), right: beside(carcass.widthMm) };
      return bare({ size, rects, wholeMm: walls.betweenMm, decidedAt });
    }
    case 'carcass-height':
    case 'lining-height': {
      const floor = floorHighPoint(site, carcass.backMm);
      const rects = {
        floor: [{ u0: -half, u1: half, v0: way.from, v1: way.to }],
        ceiling: [{ ...flatTop(site, carcass), v0: way.from, v1: way.to }],
      };
      const ceiling = highest(site, 'ceiling', rects.ceiling[0] as Rect);
      const decidedAt = [
        { side: 'floor' as const, at: placeOf('floor', floor) },
        { side: 'ceiling' as const, at: isShaped(carcass) ? placeOf('ceiling', ceiling) : clear.top.at },
      ];
      return bare({ size, rects, wholeMm: 0 - ceiling.value - floor.value, decidedAt });
    }
    case 'carcass-depth': {
      const back = { u0: width.from, u1: width.to, v0: carcass.bottomMm, v1: carcass.topMm };
      const shaped = isShaped(carcass);
      const most = shaped ? 0 - carcass.backMm - clear.back.mm : highest(site, 'back', back).value;
      const wholeMm = 0 - most + (brief.setBackMm ?? 0);
      const rects = { back: shaped ? underTop(carcass) : [back] };
      return bare({ size, rects, wholeMm, decidedAt: [{ side: 'back', at: clear.back.at }] });
    }
    case 'lining-depth': {
      const { most } = wallThickness(site, carcass);
      const rects = { back: liningEdges(site, carcass) };
      return bare({ size, rects, wholeMm: most.mm, decidedAt: [{ side: 'back', at: most.at }] });
    }
    case 'frame-width':
    case 'frame-height':
      return bare(frameDomain(size, edges));
    case 'run-left':
    case 'run-right': {
      const side = size === 'run-left' ? 'left' : 'right';
      const rect = { u0: way.from, u1: way.to, v0: carcass.bottomMm, v1: carcass.topMm };
      const wholeMm = 0 - walls[side].value + beside(from, side);
      return bare({ size, rects: { [side]: [rect] }, wholeMm, decidedAt: [{ side, at: clear[side].at }] });
    }
    case 'slope-low':
    case 'slope-high':
      return bare(slopeDomain(from, size, widthMm ?? carcass.widthMm));
    case 'shelf-depth': {
      const { rects, widest } = shelfBacks(site);
      const decidedAt = [{ side: 'back' as const, at: placeOf('back', widest) }];
      return bare({ size, rects: { back: rects }, wholeMm: 0 - widest.value, decidedAt });
    }
  }
}

/** Gives the true offset of a side at a place in a domain, mm: as it is when it is surveyed, before any finish. */
export function trueOffset(from: DomainSource, size: SizeName, at: { side: Side; u: number; v: number }): number {
  const { site } = from;
  const bands = meetsBare(size) ? [] : site.staying[at.side];
  const offset = 0 - obstructionAt(site.recess.fields[at.side], bands, at) + finishOn(site.brief, at.side);
  if (at.side === 'back') return offset + (site.brief.setBackMm ?? 0);
  return size === 'run-left' || size === 'run-right' ? offset + beside(from, at.side) : offset;
}

/** Gives the offset of a wall point as it is when it is surveyed, from the true datum of a size, mm. */
export function offsetAtPoint(from: DomainSource, size: SizeName, of: { side: Side; at: Place }): number {
  const { side, at } = of;
  const out = { left: 0 - at.x, right: at.x, back: at.y, floor: 0 - at.z, ceiling: at.z, slope: at.z }[side];
  if (side === 'back') return out + (from.site.brief.setBackMm ?? 0);
  return size === 'run-left' || size === 'run-right' ? out + beside(from, side) : out;
}

/** What a wall's offset from the middle of the room gains when it is taken from the square line of a run. */
function beside(from: DomainSource, side: Side): number {
  return side === 'left' ? from.squareMm : 0 - from.squareMm;
}

function finishOver(brief: Brief, size: SizeName): number {
  return sizeRules[size].sides.reduce((sum, side) => sum + finishOn(brief, side), 0);
}

/**
 * Gives the place of a domain that is nearest to one on its surface.
 *
 * @returns null when it lies further off than `withinMm` along the surface
 */
export function nearestIn(
  domain: Domain,
  at: { side: Side; u: number; v: number },
  withinMm: number,
): { u: number; v: number } | null {
  let best: { u: number; v: number } | null = null;
  let bestOff = withinMm * withinMm;
  for (const r of domain.rects[at.side] ?? []) {
    const u = Math.min(Math.max(at.u, r.u0), r.u1);
    const v = Math.min(Math.max(at.v, r.v0), r.v1);
    const off = (u - at.u) * (u - at.u) + (v - at.v) * (v - at.v);
    if (off <= bestOff) {
      best = { u, v };
      bestOff = off;
    }
  }
  return best;
}

/** Where the ceiling is over a carcass's flat top, as that rises along its sloped edge to its greatest height. */
function flatTop(site: Site, carcass: PlacedCarcass): { u0: number; u1: number } {
  const whole = { u0: carcass.leftMm, u1: carcass.leftMm + carcass.widthMm };
  if (!carcass.slope) return whole;
  const heightMm = tallestUnderSlope(site, carcass) ?? carcass.heightMm;
  const stretch = slopedStretch({ ...carcass, heightMm });
  if (!stretch) return whole;
  const [from, to] = [carcass.leftMm + stretch[0], carcass.leftMm + stretch[1]];
  return carcass.slope.leftMm < carcass.slope.rightMm ? { ...whole, u0: to } : { ...whole, u1: from };
}

/** Rectangles behind a shaped carcass: under each stretch of its top, and in steps under its sloped edge. */
function underTop(carcass: PlacedCarcass): Rect[] {
  return topOf(carcass).flatMap(({ x0, x1, z0, z1 }) => {
    const count = z0 === z1 ? 1 : stepsUnderSlope;
    return Array.from({ length: count }, (_, i) => {
      const at = (k: number) => x0 + ((x1 - x0) * k) / count;
      const top = Math.min(z0 + ((z1 - z0) * i) / count, z0 + ((z1 - z0) * (i + 1)) / count);
      const u0 = carcass.leftMm + at(i);
      return { u0, u1: carcass.leftMm + at(i + 1), v0: carcass.bottomMm, v1: carcass.bottomMm + top };
    });
  });
}

/** Steps so low that a place under a sloped edge lies within the slack of one of them. */
const stepsUnderSlope = 64;

/** Of a sloped edge: the floor, and the slope over the sloped part of a carcass as wide as it is made. */
function slopeDomain({ site, nominal }: DomainSource, size: 'slope-low' | 'slope-high', widthMm: number): Domain {
  const { brief } = site;
  const found = findCarcass(site, { ...nominalCarcass(brief), widthMm }) ?? nominal;
  const { carcass } = found;
  const line = highestEdge(site, carcass);
  const edge = slopeEdge(brief, carcass);
  const stretch = slopedStretch(carcass);
  if (!line || !edge || !stretch) throw new RangeError('domain: there is no slope over the carcass');
  const floor = floorHighPoint(site, carcass.backMm);
  const half = brief.openingMm.width / 2;
  const way = { v0: brief.mouthMm, v1: carcass.backMm };
  const [u0, u1] = [carcass.leftMm + stretch[0], carcass.leftMm + stretch[1]];
  const wholeMm = (size === 'slope-low' ? line.lowMm : line.highMm) - floor.value;
  return {
    size,
    rects: { floor: [{ u0: -half, u1: half, ...way }], slope: [{ u0, u1, ...way }] },
    wholeMm,
    decidedAt: [
      { side: 'floor', at: placeOf('floor', floor) },
      ...line.at.map((at) => ({ side: 'slope' as const, at })),
    ],
    edge,
  };
}

function frameDomain(size: 'frame-width' | 'frame-height', found: OpeningEdges | null): Domain {
  if (!found) throw new RangeError('domain: an edge of the opening is open, so no frame covers it');
  const rect = openingRect(found);
  const wide = size === 'frame-width';
  const wholeMm = wide ? rect.rightMm - rect.leftMm : rect.topMm - rect.bottomMm;
  const rects: Partial<Record<Side, readonly Rect[]>> = {};
  const decidedAt = (wide ? (['left', 'right'] as const) : (['bottom', 'top'] as const)).map((edge) => {
    const { parts, least, leastOn } = found[edge];
    for (const { side, stretch } of parts) rects[side] = [...(rects[side] ?? []), lineAtFace(side, stretch)];
    return { side: leastOn, at: placeOf(leastOn, least) };
  });
  return { size, rects, wholeMm, decidedAt };
}
