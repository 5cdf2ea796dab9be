/**
 * The true room in plain arithmetic, from the heights of its surfaces alone: where a carcass stands, which places count
 * for each size, and where they are tightest, by dense search. It shares no code with the marking. mm, room frame.
 *
 * An offset here is from the true datums x = 0, y = 0 and z = 0: -L to the left wall, R to the right, B, -F and C.
 */
import type { Exercise } from '../../../src/exercise/exercise.ts';
import { heightAt } from '../../../src/geometry/height-field.ts';
import type { Point } from '../../../src/geometry/plane.ts';
import type { Recess } from '../../../src/recess/recess.ts';
import type { Side, Trim } from '../../../src/recess/recess-spec.ts';

export interface PlainRoom {
  readonly exercise: Exercise;
  readonly recess: Recess;
}

/** A place in a surface's own coordinates: (y, z) on side walls, (x, z) on the back, (x, y) on floor and ceiling. */
export interface OwnPlace {
  readonly side: Side;
  readonly u: number;
  readonly v: number;
}

/** Closed; a line where an end is twice the same. */
export interface Patch {
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
}

export type Patches = Readonly<Partial<Record<Side, readonly Patch[]>>>;

/** The sizes that are planted: those of an alcove. */
export const plainSizes = ['carcass-width', 'carcass-height', 'carcass-depth', 'frame-width', 'frame-height'] as const;
export type PlainSize = (typeof plainSizes)[number];

/** What each size takes: the least offset of each side, or the most on the bare walls. */
export const takes: Readonly<Record<PlainSize, { readonly sides: readonly Side[]; readonly least: boolean }>> = {
  'carcass-width': { sides: ['left', 'right'], least: true },
  'carcass-height': { sides: ['floor', 'ceiling'], least: true },
  'carcass-depth': { sides: ['back'], least: true },
  'frame-width': { sides: ['left', 'right'], least: false },
  'frame-height': { sides: ['floor', 'ceiling'], least: false },
};

/** A step off an edge where what is met changes: far below what anything is held to. */
const offEdgeMm = 1e-6;

/** The offset at a place, with the trims that stay or bare. */
export function offsetAt(room: PlainRoom, at: OwnPlace, bare: boolean): number {
  const surface = heightAt(room.recess.fields[at.side], at.u, at.v);
  return -surface - (bare ? 0 : deepest(staying(room.exercise, at.side), at));
}

/** How far the deepest of some bands stands out at a place; bands are closed. */
export function deepest(bands: readonly Trim[], at: OwnPlace): number {
  let out = 0;
  for (const band of bands) {
    const on = at.u >= band.uMm[0] && at.u <= band.uMm[1] && at.v >= band.vMm[0] && at.v <= band.vMm[1];
    if (on) out = Math.max(out, profileAt(band, band.profile.along === 'u' ? at.u : at.v));
  }
  return out;
}

/** The point in the room of a place whose offset is known. */
export function pointAt(at: OwnPlace, offset: number): Point {
  switch (at.side) {
    case 'left':
      return { x: -offset, y: at.u, z: at.v };
    case 'right':
      return { x: offset, y: at.u, z: at.v };
    case 'back':
      return { x: at.u, y: offset, z: at.v };
    case 'floor':
      return { x: at.u, y: at.v, z: -offset };
    case 'ceiling':
    case 'slope':
      return { x: at.u, y: at.v, z: offset };
  }
}

/** The trims on a side that stay. */
export function staying(exercise: Exercise, side: Side): readonly Trim[] {
  return exercise.spec.trims.filter((t) => t.surface === side && exercise.brief.fates[t.name] === 'stays');
}

/** The places that count for each size, by the brief and where its nominal carcass stands. */
export function placesOf(room: PlainRoom): Readonly<Record<PlainSize, Patches>> {
  const { brief } = room.exercise;
  const { width, height, depth } = brief.carcassMm;
  const half = brief.openingMm.width / 2;
  const way: [number, number] = [brief.mouthMm, brief.carcassFrontMm + depth.nominalMm];
  const floor: Patch = { u: [-half, half], v: way };
  const bottom = brief.plinthMm - tightest(room, { side: 'floor', patches: [floor], bare: true, least: true }).offset;
  const tall: [number, number] = [bottom, bottom + height.nominalMm];
  const wall: Patch = { u: way, v: tall };
  const leftMost = -tightest(room, { side: 'left', patches: [wall], bare: false, least: true }).offset;
  const rightMost = tightest(room, { side: 'right', patches: [wall], bare: false, least: true }).offset;
  const left = (leftMost + brief.askMm.left + rightMost - brief.askMm.right - width.nominalMm) / 2;
  const wide: [number, number] = [left, left + width.nominalMm];
  return {
    'carcass-width': { left: [wall], right: [wall] },
    'carcass-height': { floor: [floor], ceiling: [{ u: wide, v: way }] },
    'carcass-depth': { back: [{ u: wide, v: tall }] },
    ...framePlaces(room),
  };
}

/** A place with its offset. */
export interface Found extends OwnPlace {
  readonly offset: number;
}

/**
 * The least or most offset over patches, by a grid of 16 mm and a search from each of its summits. Patches are cut along
 * the edges of bands and the breaks of their profiles, so that what is searched is smooth.
 */
export function tightest(
  room: PlainRoom,
  of: { side: Side; patches: readonly Patch[]; bare: boolean; least: boolean },
): Found {
  const sign = of.least ? 1 : -1;
  const lowest = (u: number, v: number) => sign * offsetAt(room, { side: of.side, u, v }, of.bare);
  const bands = of.bare ? [] : staying(room.exercise, of.side);
  let best: Summit | null = null;
  for (const patch of of.patches)
    for (const piece of cutAlong(patch, bands))
      for (const start of gridSummits(piece, lowest)) {
        if (best && start.value > best.value + 0.5) continue;
        const found = downhill(piece, lowest, start);
        if (!best || found.value < best.value) best = found;
      }
  if (!best) throw new Error(`plain room: no place on the ${of.side}`);
  return { side: of.side, u: best.u, v: best.v, offset: sign * best.value };
}

/** The place of patches that is nearest to one, and how far off it lies along the surface. */
export function nearest(patches: readonly Patch[], at: OwnPlace): { at: OwnPlace; far: number } {
  let best: { at: OwnPlace; far: number } | null = null;
  for (const { u, v } of patches) {
    const here = { side: at.side, u: Math.min(Math.max(at.u, u[0]), u[1]), v: Math.min(Math.max(at.v, v[0]), v[1]) };
    const far = Math.sqrt((here.u - at.u) * (here.u - at.u) + (here.v - at.v) * (here.v - at.v));
    if (!best || far < best.far) best = { at: here, far };
  }
  return best ?? { at, far: Number.MAX_VALUE };
}

interface Summit {
  readonly u: number;
  readonly v: number;
  readonly value: number;
}

function framePlaces(room: PlainRoom): Pick<Record<PlainSize, Patches>, 'frame-width' | 'frame-height'> {
  const line = (side: Side, from: number, to: number): readonly Patch[] => {
    const wall = side === 'left' || side === 'right';
    return bareRuns(room, side, [from, to]).map((run) => (wall ? { u: [0, 0], v: run } : { u: run, v: [0, 0] }));
  };
  const at = (wall: 'left' | 'right', flat: 'floor' | 'ceiling') => cornerAt(room, wall, flat);
  const corners = {
    leftFloor: at('left', 'floor'),
    rightFloor: at('right', 'floor'),
    leftTop: at('left', 'ceiling'),
    rightTop: at('right', 'ceiling'),
  };
  return {
    'frame-width': {
      left: line('left', corners.leftFloor.z, corners.leftTop.z),
      right: line('right', corners.rightFloor.z, corners.rightTop.z),
    },
    'frame-height': {
      floor: line('floor', corners.leftFloor.x, corners.rightFloor.x),
      ceiling: line('ceiling', corners.leftTop.x, corners.rightTop.x),
    },
  };
}

/** Where two bare surfaces meet at the face line; their slopes are small, so going to and fro settles. */
function cornerAt(room: PlainRoom, wall: 'left' | 'right', flat: 'floor' | 'ceiling'): { x: number; z: number } {
  let x = 0;
  let z = flat === 'floor' ? 0 : room.exercise.spec.openingMm.height;
  for (let turn = 0; turn < 40; turn++) {
    x = pointAt({ side: wall, u: 0, v: z }, offsetAt(room, { side: wall, u: 0, v: z }, true)).x;
    z = pointAt({ side: flat, u: x, v: 0 }, offsetAt(room, { side: flat, u: x, v: 0 }, true)).z;
  }
  return { x, z };
}

/** A run along the face line less what lies behind trims that stay. */
function bareRuns(room: PlainRoom, side: Side, whole: readonly [number, number]): (readonly [number, number])[] {
  const wall = side === 'left' || side === 'right';
  let runs: (readonly [number, number])[] = [whole];
  for (const band of staying(room.exercise, side)) {
    const [across, along] = wall ? [band.uMm, band.vMm] : [band.vMm, band.uMm];
    if (across[0] > 0 || across[1] < 0) continue;
    runs = runs.flatMap(([from, to]) => {
      if (along[1] < from || along[0] > to) return [[from, to] as const];
      const before = along[0] > from ? [[from, along[0] - offEdgeMm] as const] : [];
      const after = along[1] < to ? [[along[1] + offEdgeMm, to] as const] : [];
      return [...before, ...after];
    });
  }
  return runs;
}

/** Projection of a band at a place along its profile, straight between its points. */
function profileAt(band: Trim, at: number): number {
  const points = band.profile.mm;
  let out = 0;
  points.forEach(([to, high], i) => {
    const [from, low] = points[i - 1] ?? [to, high];
    if (at >= from && at <= to)
      out = Math.max(out, from === to ? high : low + ((high - low) * (at - from)) / (to - from));
  });
  return out;
}

function cutAlong(patch: Patch, bands: readonly Trim[]): Patch[] {
  const breaks = (along: 'u' | 'v') =>
    bands.flatMap((b) => [
      ...(along === 'u' ? b.uMm : b.vMm),
      ...(b.profile.along === along ? b.profile.mm.map(([at]) => at) : []),
    ]);
  const runsU = runsBetween(patch.u, breaks('u'));
  return runsBetween(patch.v, breaks('v')).flatMap((v) => runsU.map((u) => ({ u, v })));
}

/** The runs between cuts, each a step off its ends. */
function runsBetween([from, to]: readonly [number, number], cuts: readonly number[]): (readonly [number, number])[] {
  if (from === to) return [[from, to]];
  const places = [from, ...[...new Set(cuts)].filter((c) => c > from && c < to).sort((a, b) => a - b), to];
  return places.slice(1).flatMap((end, i) => {
    const begin = places[i] as number;
    return end - begin > 4 * offEdgeMm ? [[begin + offEdgeMm, end - offEdgeMm] as const] : [];
  });
}

/** Places of a grid that are no higher than their neighbours. */
function gridSummits(piece: Patch, f: (u: number, v: number) => number): Summit[] {
  const us = steps(piece.u);
  const vs = steps(piece.v);
  const rows = vs.map((v) => us.map((u) => f(u, v)));
  const found: Summit[] = [];
  for (const [j, row] of rows.entries())
    for (const [i, value] of row.entries())
      if (isLowest(rows, i, j)) found.push({ u: us[i] as number, v: vs[j] as number, value });
  return found.sort((a, b) => a.value - b.value || a.v - b.v || a.u - b.u);
}

function isLowest(rows: readonly (readonly number[])[], i: number, j: number): boolean {
  const value = rows[j]?.[i] as number;
  for (let dj = -1; dj <= 1; dj++)
    for (let di = -1; di <= 1; di++) {
      const other = rows[j + dj]?.[i + di];
      if (other !== undefined && other < value) return false;
    }
  return true;
}

function steps([from, to]: readonly [number, number]): number[] {
  if (from === to) return [from];
  const count = Math.max(1, Math.ceil((to - from) / 16));
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
}

/** From a place to the lowest near it: eight ways, the step halved where none goes down. */
function downhill(piece: Patch, f: (u: number, v: number) => number, start: Summit): Summit {
  const within = (value: number, [from, to]: readonly [number, number]) => Math.min(Math.max(value, from), to);
  let here = start;
  for (let step = 8; step > 1e-4; ) {
    let next = here;
    for (const du of [-step, 0, step])
      for (const dv of [-step, 0, step]) {
        const [u, v] = [within(here.u + du, piece.u), within(here.v + dv, piece.v)];
        const value = f(u, v);
        if (value < next.value) next = { u, v, value };
      }
    if (next === here) step /= 2;
    here = next;
  }
  return here;
}
