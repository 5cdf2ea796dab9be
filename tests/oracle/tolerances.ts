/**
 * A built room held against a document's tolerances, by the document's own measuring rule. The numbers are written out
 * again here, and nothing is shared with the program: a room is its nominal sizes and its surfaces' control values.
 *
 * | document | read | measured here |
 * |---|---|---|
 * | NHBC Standards, chapter 9.1, 2020 and 2019: https://nhbc-standards.co.uk/2020/9-finishes/9-1-a-consistent-approach-to-finishes/9-1-3-walls-and-ceilings/, likewise 2019, and 9-1-5-floors | V; floors and ceilings for 2020 only, and taken for both | straight-edge of 2 m, equal offsets; plumb: any two points of a plumb line; level: by the furthest points across the full width |
 * | DIN 18202 Tables 1 to 3, as quoted (the project's list of check values, 1.1 to 1.3) | V* | flatness by the levelling grid; angles by the ends of edges; sizes; 100 mm off the edges |
 * | NAHB 3rd edition (plumb) and 10 TAC 304 (bows, sub-floors), as quoted (1.6) | V* | plumb and sub-floors: any two points within 32 in; bows: a straight-edge of the length that is named |
 *
 * Only words: what "plumb" is read off, that "any 32 in" has no direction on floors and ceilings, that a floor or a
 * ceiling of a recess is "across" both ways. Corners "square" without a number are not measured.
 */
import { type ControlNet, evenly, type GapSurface, gapSurface, inRegion, type Region } from './gap-surface.ts';
import {
  angleAlong,
  apartUpright,
  apartWithin,
  insetBy,
  type Look,
  levelAcross,
  levellingGrid,
  straightEdge,
  type Ways,
} from './tolerance-rules.ts';

export type Name = 'left' | 'right' | 'back' | 'floor' | 'ceiling' | 'slope';

/** What is known of a room beside its surfaces. */
export type RoomSizes = {
  readonly family: string;
  readonly openingMm: { readonly width: number; readonly height: number; readonly depth: number };
  readonly mouthMm: number;
  readonly breastSide: 'left' | 'right' | null;
  readonly slope?: { readonly low: 'left' | 'right'; readonly lowMm: number; readonly riseMmPerM: number } | undefined;
};

export type BuiltRoom = RoomSizes & { readonly nets: Readonly<Partial<Record<Name, ControlNet>>> };

/** How much of its limit something takes; 1 is all of it. */
export type Share = { readonly where: string; readonly share: number };

/** The surfaces that can be seen and measured; slivers narrower than 100 mm are not. */
export function surfacesOf(room: BuiltRoom): Map<Name, GapSurface> {
  const found = new Map<Name, GapSurface>();
  for (const [name, net] of Object.entries(room.nets) as [Name, ControlNet][]) {
    const region = regionOf(room, name);
    if (region.s[1] - region.s[0] < 100 || region.t[1] - region.t[0] < 100) continue;
    found.set(name, gapSurface(net, nominalOf(room, name), region));
  }
  return found;
}

/**
 * Holds a room against a document, by the name of its preset.
 *
 * @param look - how closely, and by how many radians the straight-edge's directions are turned
 * @throws {RangeError} if no document is known by that name
 */
export function sharesOf(preset: string, room: BuiltRoom, look: Look): Share[] {
  const measured = [...surfacesOf(room)];
  switch (preset) {
    case 'uk-2020':
      return measured.flatMap(([name, surface]) => ukShares(room, { name, surface, look }, { flat: 3, tall: 3000 }));
    case 'uk-2019':
      return measured.flatMap(([name, surface]) => ukShares(room, { name, surface, look }, { flat: 5, tall: 2500 }));
    case 'din-finished':
      return [
        ...measured.flatMap(([name, surface]) => dinShares({ name, surface, look }, { walls: row6, floor: row3 })),
        ...dinSizes(room),
      ];
    case 'din-higher':
      return [
        ...measured.flatMap(([name, surface]) => dinShares({ name, surface, look }, { walls: row7, floor: row4 })),
        ...dinSizes(room),
      ];
    case 'na-guideline':
      return measured.flatMap(([name, surface]) => naShares(name, surface, look));
    default:
      throw new RangeError(`tolerances: no document is known for ${preset}`);
  }
}

type Asked = { readonly name: Name; readonly surface: GapSurface; readonly look: Look };

function ukShares(room: RoomSizes, { name, surface, look }: Asked, of: { flat: number; tall: number }): Share[] {
  if (isWall(name)) {
    const { t } = surface.region;
    const plumb = t[1] - t[0] <= of.tall ? 8 : 12;
    return [
      { where: `${name} flat`, share: straightEdge(surface, 2000, 'round', look) / of.flat },
      { where: `${name} plumb`, share: apartUpright(surface, undefined, look) / plumb },
    ];
  }
  const flat = { where: `${name} flat`, share: straightEdge(surface, 2000, 'round', look) / 5 };
  if (name === 'slope') return [flat];
  if (room.openingMm.width > 6000) throw new RangeError('tolerances: over 6 m another limit holds');
  return [flat, { where: `${name} level`, share: levelAcross(surface) / 3 }];
}

const metres = [0.1, 1, 4, 10, 15];
const row3 = [2, 4, 10, 12, 15];
const row4 = [1, 3, 9, 12, 15];
const row6 = [3, 5, 10, 20, 25];
const row7 = [2, 3, 8, 15, 20];

function dinShares({ name, surface, look }: Asked, rows: { walls: number[]; floor: number[] }): Share[] {
  const row = name === 'floor' ? rows.floor : rows.walls;
  const angle = { insetMm: 100, limitAt: stepped([0.5, 1, 3, 6, 15, 30], [3, 6, 8, 12, 16, 20, 30]) };
  return [
    { where: `${name} flat`, share: levellingGrid(surface, (apart) => interpolated(row, apart / 1000), look) },
    { where: `${name} angle s`, share: angleAlong(surface, 's', angle, look) },
    { where: `${name} angle t`, share: angleAlong(surface, 't', angle, look) },
  ];
}

/** Straight between columns, to whole millimetres. */
export function interpolated(row: readonly number[], m: number): number {
  for (let i = 1; i < metres.length; i++) {
    const [a, b] = [metres[i - 1]!, metres[i]!];
    if (m > b && i < metres.length - 1) continue;
    const share = Math.min(Math.max((m - a) / (b - a), 0), 1);
    return Math.round((1 - share) * row[i - 1]! + share * row[i]!);
  }
  throw new RangeError('tolerances: a table has two columns and more');
}

function stepped(upTo: readonly number[], mm: readonly number[]): (runMm: number) => number {
  return (runMm) => mm[upTo.filter((m) => runMm > 1000 * m).length]!;
}

/** Clear sizes against their nominal, 100 mm off the edges; openings with finished reveals have rows of their own. */
function dinSizes(room: BuiltRoom): Share[] {
  const upTo = [1, 3, 6];
  const opening = room.family === 'reveal' || room.family === 'doorway';
  const plan = stepped(upTo, opening ? [8, 10, 12, 12] : [12, 16, 20, 24]);
  const high = stepped(upTo, opening ? [8, 10, 12, 12] : [16, 20, 20, 30]);
  return [
    ...clear(room, ['left', 'right'], () => plan(room.openingMm.width)),
    ...clear(room, ['floor', 'ceiling'], () => high(room.openingMm.height)),
    ...clear(room, ['floor', 'slope'], (u) => high(slopeAt(room, u))),
    ...(opening ? [] : clear(room, ['back'], () => plan(room.openingMm.depth))),
  ];
}

function clear(room: BuiltRoom, names: readonly Name[], limitAt: (u: number) => number): Share[] {
  const surfaces = surfacesOf(room);
  const between = names.flatMap((name) => surfaces.get(name) ?? []);
  if (between.length < names.length) return [];
  // All of one size have the same u and v; on a slope, s is longer than u, and a gap is square to it.
  const stretch = names.includes('slope') ? Math.hypot(1, room.slope!.riseMmPerM / 1000) : 1;
  const stretchOf = (i: number) => (names[i] === 'slope' ? stretch : 1);
  const from = (axis: 's' | 't') =>
    Math.max(...between.map(({ region }, i) => region[axis][0] / (axis === 's' ? stretchOf(i) : 1)));
  const to = (axis: 's' | 't') =>
    Math.min(...between.map(({ region }, i) => region[axis][1] / (axis === 's' ? stretchOf(i) : 1)));
  const walls = names[0] === 'left';
  const us = insetBy([walls ? Math.max(from('s'), room.mouthMm) : from('s'), to('s')], 100);
  const vs = insetBy([names[0] === 'floor' ? Math.max(from('t'), room.mouthMm) : from('t'), to('t')], 100);
  let share = 0;
  for (const v of evenly(vs, 50))
    for (const u of evenly(us, 50)) {
      if (!between.every(({ region }, i) => inRegion(region, [u * stretchOf(i), v]))) continue;
      const off = between.reduce((sum, surface, i) => sum + surface.gap(u * stretchOf(i), v) * stretchOf(i), 0);
      share = Math.max(share, Math.abs(off) / limitAt(u));
    }
  return [{ where: `${names.join(' to ')} size`, share }];
}

const inch = 25.4;

function naShares(name: Name, surface: GapSurface, look: Look): Share[] {
  const edge = (inches: number, ways: Ways) => straightEdge(surface, inches * inch, ways, look);
  if (isWall(name))
    return [
      { where: `${name} plumb`, share: apartUpright(surface, 32 * inch, look) / (0.375 * inch) },
      { where: `${name} bow level`, share: edge(32, 's') / (0.25 * inch) },
      { where: `${name} bow upright`, share: edge(96, 't') / (0.5 * inch) },
    ];
  if (name !== 'floor') return [{ where: `${name} bow`, share: edge(32, 'round') / (0.5 * inch) }];
  return [
    { where: 'floor hump', share: edge(32, 'round') / (0.375 * inch) },
    { where: 'floor slope', share: apartWithin(surface, 32 * inch, look) / (0.375 * inch) },
  ];
}

function isWall(name: Name): boolean {
  return name === 'left' || name === 'right' || name === 'back';
}

/** The nominal plane of a side as an obstruction. */
function nominalOf(room: RoomSizes, name: Name): { at: number; perU: number } {
  const { width, height, depth } = room.openingMm;
  const flat = { left: -width / 2, right: -width / 2, back: -depth, floor: 0, ceiling: -height };
  if (name !== 'slope') return { at: flat[name], perU: 0 };
  return { at: -slopeAt(room, 0), perU: -(slopeAt(room, 1) - slopeAt(room, 0)) };
}

/** The height of the nominal slope at x. */
function slopeAt({ slope, openingMm }: RoomSizes, x: number): number {
  if (!slope) throw new RangeError('tolerances: the room has no slope');
  const fromLow = slope.low === 'left' ? openingMm.width / 2 + x : openingMm.width / 2 - x;
  return slope.lowMm + (fromLow * slope.riseMmPerM) / 1000;
}

/**
 * What can be seen of a surface, in its u and v: as far as its neighbours, out to 256 mm before the mouth and past an
 * open side; the breast's own side from the mouth. A slope cuts off what is above it, and itself ends at the ceiling.
 */
function regionOf(room: BuiltRoom, name: Name): Region {
  const { width, height, depth } = room.openingMm;
  const isOpen = (side: Name) => room.nets[side] === undefined;
  const across: readonly [number, number] = [
    -width / 2 - (isOpen('left') ? 256 : 0),
    width / 2 + (isOpen('right') ? 256 : 0),
  ];
  const inwards: readonly [number, number] = [room.mouthMm - 256, depth];
  const rise = room.slope ? slopeAt(room, 1) - slopeAt(room, 0) : 0;
  if (name === 'left' || name === 'right') {
    const roof = room.slope ? slopeAt(room, name === 'left' ? -width / 2 : width / 2) : height;
    return { s: room.breastSide === name ? [room.mouthMm, depth] : inwards, t: [0, Math.min(height, roof)], cut: null };
  }
  if (name === 'back')
    return { s: across, t: [0, height], cut: room.slope ? { at: slopeAt(room, 0), perS: rise } : null };
  if (name === 'floor' || !room.slope || isOpen('ceiling')) return { s: across, t: inwards, cut: null };
  const meet = (height - slopeAt(room, 0)) / rise;
  const below: readonly [number, number] =
    rise > 0 ? [across[0], Math.min(across[1], meet)] : [Math.max(across[0], meet), across[1]];
  const above: readonly [number, number] =
    rise > 0 ? [Math.max(across[0], meet), across[1]] : [across[0], Math.min(across[1], meet)];
  return { s: name === 'slope' ? below : above, t: inwards, cut: null };
}
