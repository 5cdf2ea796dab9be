/**
 * The job on solids by `manifold-3d`: each surface with what lies behind it is a solid, 24 ray casts, and at each face of the box the solid is
 * intersected with a prism over the face's rectangle; the highest point of what they share gives the gap.
 *
 * A boolean of a solid and a prism has exact edges, so the peer's error is that of the mesh alone (`meshErrorMm`) and it proves
 * nothing about the surface. Five solids and not one of the whole free space, so that no walls have to be cut to each other: that is in the
 * peer's favour. The control values of the room are given to it; its clock starts when it begins to sample them.
 */
import openModule, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { Recess } from '../../../src/recess/recess.ts';
import type { Side } from '../../../src/recess/recess-spec.ts';
import { type AlcoveSide, alcoveSides } from '../../helpers/rooms.ts';
import type { Done, Face, Job } from '../jobs.ts';
import { type HeightMesh, heightMesh, type Meshing } from './height-mesh.ts';

/** Opens the module, which is no part of a job. */
export async function openSolids(): Promise<ManifoldToplevel> {
  const module = await openModule();
  module.setup();
  return module;
}

interface Solid {
  readonly solid: Manifold;
  readonly mesh: HeightMesh;
}

export type Solids = Readonly<Record<AlcoveSide, Solid>>;

/** Does the job from the room's control values. */
export function doJobBySolids(module: ManifoldToplevel, of: { recess: Recess; job: Job; meshing: Meshing }): Done {
  const solids = buildSolids(module, of.recess, of.meshing);
  const done = askSolids(module, solids, of.job);
  freeSolids(solids);
  return done;
}

/** Samples the surfaces and makes the solids; to be freed. */
export function buildSolids(module: ManifoldToplevel, recess: Recess, meshing: Meshing): Solids {
  const make = (side: Side): Solid => {
    const mesh = heightMesh(recess.fields[side], meshing.rectOf(recess, side), meshing.stepMm);
    return { solid: solidOf(module, mesh), mesh };
  };
  const [left, right, back, floor, ceiling] = alcoveSides.map(make) as [Solid, Solid, Solid, Solid, Solid];
  return { left, right, back, floor, ceiling };
}

/** The queries alone. */
export function askSolids(module: ManifoldToplevel, solids: Solids, job: Job): Done {
  return {
    hits: job.rays.map(({ side, ray }) => {
      const end = [ray.u + far * ray.du, ray.v + far * ray.dv, ray.w + far * ray.dw] as const;
      const [hit] = solids[side].solid.rayCast([ray.u, ray.v, ray.w], [...end]);
      if (!hit) throw new Error('bench: a ray meets no solid');
      return alongRay(ray, hit.position);
    }),
    gaps: job.faces.map((face) => face.at - highestOver(module, solids[face.side], face)),
  };
}

/** Gives the memory of the solids back: nobody else does. */
export function freeSolids(solids: Solids): void {
  for (const side of alcoveSides) solids[side].solid.delete();
}

/** How far a ray is looked along, mm. */
const far = 600;
/** How far behind a surface its solid comes to a point. */
const behindMm = 2000;

function alongRay(ray: Job['rays'][number]['ray'], at: readonly number[]): number {
  return ray.du * (at[0]! - ray.u) + ray.dv * (at[1]! - ray.v) + ray.dw * (at[2]! - ray.w);
}

/** The surface, closed behind by a fan from its border to one point. */
function solidOf(module: ManifoldToplevel, mesh: HeightMesh): Manifold {
  const { countU, countV, positions, triangles } = mesh;
  const tip = countU * countV;
  const border = 2 * (countU - 1) + 2 * (countV - 1);
  const vertProperties = new Float32Array(positions.length + 3);
  vertProperties.set(positions);
  const last = positions.length - 3;
  vertProperties[positions.length] = (positions[0]! + positions[last]!) / 2;
  vertProperties[positions.length + 1] = (positions[1]! + positions[last + 1]!) / 2;
  vertProperties[positions.length + 2] = mesh.leastMm - behindMm;
  const triVerts = new Uint32Array(triangles.length + 3 * border);
  triVerts.set(triangles);
  let t = triangles.length;
  const fan = (from: number, to: number) => {
    triVerts[t++] = to;
    triVerts[t++] = from;
    triVerts[t++] = tip;
  };
  const top = (countV - 1) * countU;
  for (let i = 0; i < countU - 1; i++) {
    fan(i, i + 1);
    fan(top + i + 1, top + i);
  }
  for (let j = 0; j < countV - 1; j++) {
    fan((j + 1) * countU, j * countU);
    fan(j * countU + countU - 1, (j + 1) * countU + countU - 1);
  }
  const solid = new module.Manifold(new module.Mesh({ numProp: 3, vertProperties, triVerts }));
  if (solid.status() !== 'NoError') throw new Error(`bench: no solid, ${solid.status()}`);
  return solid;
}

/** A prism that shares little with the solid is cut quickly, so the first is a low one under the mesh's top; the next are taller. */
function highestOver(module: ManifoldToplevel, { solid, mesh }: Solid, { rect }: Face): number {
  const { leastMm, mostMm } = mesh;
  for (let depth = (mostMm - leastMm) / 16; ; depth *= 2) {
    const low = Math.max(mostMm - depth, leastMm - 1);
    const cube = module.Manifold.cube([rect.u1 - rect.u0, rect.v1 - rect.v0, mostMm + 1 - low]);
    const prism = cube.translate([rect.u0, rect.v0, low]);
    const shared = solid.intersect(prism);
    const most = shared.isEmpty() ? null : shared.boundingBox().max[2]!;
    for (const made of [cube, prism, shared]) made.delete();
    if (most !== null) return most;
    if (low < leastMm) throw new Error('bench: a face lies beside its mesh');
  }
}
