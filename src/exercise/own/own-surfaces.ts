/**
 * Surfaces of a room of one's own: corner offsets and what is bad in trade words, made into the defects of a spec.
 */
import { type Corners, cornersOf, fromCorners } from '../../recess/corner-offsets.ts';
import { wrongWithMeasured } from '../../recess/measured.ts';
import { buildRecess } from '../../recess/recess.ts';
import {
  axesOf,
  builtSides,
  type Defect,
  type RecessSpec,
  type Side,
  type SurfaceSpec,
} from '../../recess/recess-spec.ts';
import { type CornerName, type OwnBad, type OwnResult, type OwnRoom, type OwnSurface, refuseOwn } from './own-room.ts';

/** The names of a side's corners: at the smallest u and v, the largest u, the largest v, both. */
export function cornerNames(side: Side): readonly [CornerName, CornerName, CornerName, CornerName] {
  if (side === 'left' || side === 'right') return ['bottomFront', 'bottomBack', 'topFront', 'topBack'];
  if (side === 'back') return ['bottomLeft', 'bottomRight', 'topLeft', 'topRight'];
  return ['frontLeft', 'frontRight', 'backLeft', 'backRight'];
}

/** Which words say what is bad about a side. */
export function wordsFor(side: Side): readonly OwnBad['is'][] {
  const common = ['wind', 'belly', 'hollow', 'hump', 'dip', 'step'] as const;
  if (side === 'left' || side === 'right') return ['lean', 'taper', ...common];
  return side === 'back' ? ['lean', 'skew', ...common] : ['fall', ...common];
}

/** Gives a spec the surfaces that a room tells. The spec's own surfaces are the sides that are there. */
export function withOwnSurfaces(spec: RecessSpec, room: OwnRoom): OwnResult<RecessSpec> {
  const told = room.surfaces ?? {};
  const surfaces: Partial<Record<Side, SurfaceSpec>> = {};
  for (const [side, surface] of Object.entries(told) as [Side, OwnSurface][])
    if (!spec.surfaces[side] && surface)
      return refuseOwn('own/surface', `surfaces.${side}`, 'expected a side that is there, got one that is open');
  for (const side of builtSides(spec)) {
    const made = surfaceOf(spec, side, told[side] ?? {});
    if (!made.ok) return made;
    surfaces[side] = made.value;
  }
  const whole = { ...spec, surfaces: surfaces as RecessSpec['surfaces'] };
  return { ok: true, value: putCorners(whole, told) };
}

function surfaceOf(spec: RecessSpec, side: Side, told: OwnSurface): OwnResult<SurfaceSpec> {
  const where = `surfaces.${side}`;
  const known = cornerNames(side);
  const stranger = Object.keys(told.cornersMm ?? {}).find((name) => !known.includes(name as CornerName));
  if (stranger)
    return refuseOwn(
      'own/corner',
      `${where}.cornersMm`,
      `expected the ${side}'s corners ${known.join(', ')}, got ${stranger}`,
    );
  const defects: Defect[] = [];
  for (const [i, bad] of (told.bad ?? []).entries()) {
    const made = defectOf(spec, side, bad);
    if (typeof made === 'string') return refuseOwn('own/bad', `${where}.bad.${i}`, made);
    if (told.cornersMm && movesCorners.includes(bad.is))
      return refuseOwn(
        'own/corner',
        `${where}.bad.${i}`,
        `cornersMm say already where the corners lie, so a ${bad.is} has no say: leave out one or the other`,
      );
    defects.push(made);
  }
  const wrong = wrongWithMeasured(told.measured);
  if (wrong) return refuseOwn('own/surface', `${where}.measured`, wrong);
  return {
    ok: true,
    value: {
      offsetMm: 0,
      wobbleMm: told.unevenMm ?? 0,
      defects,
      ...(told.measured ? { measured: told.measured } : {}),
    },
  };
}

const movesCorners: readonly OwnBad['is'][] = ['lean', 'taper', 'skew', 'fall', 'wind', 'step'];

/** Puts the corners that are told where they are told, whatever bellies, humps and unevenness do to them. */
function putCorners(spec: RecessSpec, told: NonNullable<OwnRoom['surfaces']>): RecessSpec {
  const wanted = builtSides(spec).filter((side) => told[side]?.cornersMm);
  if (wanted.length === 0) return spec;
  const recess = buildRecess(spec);
  const surfaces = { ...spec.surfaces };
  for (const side of wanted) {
    const surface = surfaces[side] as SurfaceSpec;
    const corners = missing(cornersTold(side, told[side]?.cornersMm ?? {}), cornersOf(recess, side));
    const from = fromCorners(side, corners);
    surfaces[side] = { ...surface, offsetMm: from.offsetMm, defects: [...from.defects, ...surface.defects] };
  }
  return { ...spec, surfaces };
}

function cornersTold(side: Side, told: Readonly<Partial<Record<CornerName, number | undefined>>>): Corners {
  const [near, u, v, both] = cornerNames(side).map((name) => told[name] ?? 0) as [number, number, number, number];
  return { near, u, v, both };
}

/** What is wanting at each corner, in whole units of 1/1024: finer than that no surface is. */
function missing(wanted: Corners, has: Corners): Corners {
  const less = (a: number, b: number) => 0 + Math.round((a - b) * 1024) / 1024;
  return {
    near: less(wanted.near, has.near),
    u: less(wanted.u, has.u),
    v: less(wanted.v, has.v),
    both: less(wanted.both, has.both),
  };
}

/** Makes a defect of a trade word, or says why the side has none such. */
function defectOf(spec: RecessSpec, side: Side, bad: OwnBad): Defect | string {
  if (!wordsFor(side).includes(bad.is)) return `a ${side} has no ${bad.is}; it may have ${wordsFor(side).join(', ')}`;
  const across = acrossOf(spec, side);
  if (Math.abs(bad.mm) >= across.mm)
    return `a ${bad.is} of ${bad.mm} is larger than the room, which is ${across.mm} ${across.says}`;
  switch (bad.is) {
    case 'lean':
    case 'taper':
    case 'skew':
    case 'wind':
      return { kind: bad.is, mm: bad.mm };
    case 'fall':
      return { kind: 'fall', mm: bad.mm, towards: bad.towards };
    case 'step':
      return stepOf(spec, side, bad);
    case 'belly':
    case 'hollow':
      return bowOf(spec, side, bad);
    case 'hump':
    case 'dip':
      return humpOf(spec, side, bad);
  }
}

type Crowned = Extract<OwnBad, { is: 'belly' | 'hollow' | 'hump' | 'dip' }>;

function bowOf(spec: RecessSpec, side: Side, bad: Crowned): Defect | string {
  const stray = strayPlace(spec, side, bad);
  if (stray) return stray;
  const { u, v } = axesOf(side);
  const [crownU, crownV] = [bad[placeName[u]], bad[placeName[v]]];
  const mm = bad.is === 'belly' ? bad.mm : 0 - bad.mm;
  if (crownU === undefined && crownV === undefined)
    return `expected where its crown is, by ${placeName[u]} or ${placeName[v]} or both, got neither`;
  return { kind: 'bow', mm, ...(crownU === undefined ? {} : { crownU }), ...(crownV === undefined ? {} : { crownV }) };
}

function humpOf(spec: RecessSpec, side: Side, bad: Extract<Crowned, { is: 'hump' | 'dip' }>): Defect | string {
  const stray = strayPlace(spec, side, bad);
  if (stray) return stray;
  const { u, v } = axesOf(side);
  const [atU, atV] = [bad[placeName[u]], bad[placeName[v]]];
  if (atU === undefined || atV === undefined) return `expected where it is, by ${placeName[u]} and ${placeName[v]}`;
  return { kind: 'hump', mm: bad.is === 'hump' ? bad.mm : 0 - bad.mm, u: atU, v: atV, width: bad.wideMm };
}

function stepOf(spec: RecessSpec, side: Side, bad: Extract<OwnBad, { is: 'step' }>): Defect | string {
  const { u, v } = axesOf(side);
  const along = bad.beyond === wayWord[u] ? 'u' : bad.beyond === wayWord[v] ? 'v' : null;
  if (!along) return `a ${side} steps beyond a place ${wayWord[u]} or ${wayWord[v]}, not ${bad.beyond}`;
  const [from, to] = outlineRange(spec)[along === 'u' ? u : v];
  if (bad.atMm < from || bad.atMm > to)
    return `atMm: expected ${from} to ${to}, got ${bad.atMm}${metresHint(bad.atMm, to)}`;
  return { kind: 'step', mm: bad.mm, along, at: bad.atMm, width: bad.wideMm ?? 300 };
}

const placeName = { x: 'rightMm', y: 'inMm', z: 'upMm' } as const;
const wayWord = { x: 'right', y: 'in', z: 'up' } as const;

/** A place that the side has not, or that lies beyond its outline. */
function strayPlace(spec: RecessSpec, side: Side, bad: Crowned): string | null {
  const { u, v, across } = axesOf(side);
  if (bad[placeName[across]] !== undefined)
    return `a place on the ${side} has ${placeName[u]} and ${placeName[v]}, no ${placeName[across]}`;
  const range = outlineRange(spec);
  for (const axis of [u, v]) {
    const at = bad[placeName[axis]];
    const [from, to] = range[axis];
    if (at !== undefined && (at < from || at > to))
      return `${placeName[axis]}: expected ${from} to ${to}, got ${at}${metresHint(at, to)}`;
  }
  return null;
}

function outlineRange({ openingMm }: RecessSpec): Readonly<Record<'x' | 'y' | 'z', readonly [number, number]>> {
  const { width, height, depth } = openingMm;
  return { x: [-width / 2, width / 2], y: [0, depth], z: [0, height] };
}

function metresHint(at: number, to: number): string {
  return Math.abs(at) * 1000 <= to && at !== 0 ? ' (metres for millimetres?)' : '';
}

/** What lies across a side, and by which word. */
function acrossOf(spec: RecessSpec, side: Side): { mm: number; says: string } {
  const { width, height, depth } = spec.openingMm;
  if (side === 'left' || side === 'right') return { mm: width, says: 'wide' };
  return side === 'back' ? { mm: depth, says: 'deep' } : { mm: height, says: 'high' };
}
