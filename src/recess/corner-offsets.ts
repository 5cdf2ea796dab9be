/**
 * Corner offsets: how far a surface's four corners lie off the straight outline, and the defects that put them there.
 *
 * Four corners are an offset, two slopes and a wind, one to one: over the outline the surface between them is
 * a + b u + c v + d u v with u and v from 0 to 1.
 */
import { heightAt } from '../geometry/height-field.ts';
import { nominalObstruction } from './defect-shapes.ts';
import type { Recess } from './recess.ts';
import { axesOf, type Defect, type RecessSpec, type Side } from './recess-spec.ts';

/** At the near and far ends of u and v, mm, + into the free space: `near` at the smallest u and v, `u` at the largest u. */
export interface Corners {
  readonly near: number;
  readonly u: number;
  readonly v: number;
  readonly both: number;
}

/** What a surface gets from its corners. */
export interface FromCorners {
  readonly offsetMm: number;
  readonly defects: readonly Defect[];
}

/** Gives the offset and the defects that put a side's corners where they are told; a defect of no size is left out. */
export function fromCorners(side: Side, corners: Corners): FromCorners {
  const alongU = corners.u - corners.near;
  const alongV = corners.v - corners.near;
  const wind = corners.near + corners.both - corners.u - corners.v;
  const defects: Defect[] = [...slopesOf(side, alongU, alongV), { kind: 'wind', mm: wind }];
  return { offsetMm: corners.near + (alongU + alongV) / 2, defects: defects.filter((d) => d.mm !== 0) };
}

/** Gives how far the corners of a built surface lie off its straight outline. */
export function cornersOf(recess: Recess, side: Side): Corners {
  const { from, to } = outlineRect(recess.spec, side);
  const at = (u: number, v: number) => {
    const x = axesOf(side).u === 'x' ? u : 0;
    return heightAt(recess.fields[side], u, v) - nominalObstruction(recess.spec, side, x);
  };
  return { near: at(from[0], from[1]), u: at(to[0], from[1]), v: at(from[0], to[1]), both: at(to[0], to[1]) };
}

/** Gives where the outline of a side begins and ends along its own axes. */
export function outlineRect(
  spec: Pick<RecessSpec, 'openingMm'>,
  side: Side,
): { readonly from: readonly [number, number]; readonly to: readonly [number, number] } {
  const { width, height, depth } = spec.openingMm;
  const along = { x: [-width / 2, width / 2], y: [0, depth], z: [0, height] } as const;
  const { u, v } = axesOf(side);
  return { from: [along[u][0], along[v][0]], to: [along[u][1], along[v][1]] };
}

/** The slopes along u and v by their names; a floor falls towards its lower end, a ceiling towards the greater obstruction. */
function slopesOf(side: Side, alongU: number, alongV: number): Defect[] {
  if (side === 'left' || side === 'right')
    return [
      { kind: 'taper', mm: alongU },
      { kind: 'lean', mm: alongV },
    ];
  if (side === 'back')
    return [
      { kind: 'skew', mm: alongU },
      { kind: 'lean', mm: alongV },
    ];
  const down = side === 'floor' ? -1 : 1;
  return [
    { kind: 'fall', mm: 0 + down * alongU, towards: 'right' },
    { kind: 'fall', mm: 0 + down * alongV, towards: 'back' },
  ];
}
