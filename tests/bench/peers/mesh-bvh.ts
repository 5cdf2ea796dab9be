/**
 * The job on triangle meshes by `three-mesh-bvh`: five meshes, a tree of bounding boxes for each, 24 first hits of rays, and at each face of
 * the box the highest point of the mesh over the face's rectangle.
 *
 * The highest point is found as the tree allows: nodes by their highest corner, those let go that lie beside the rectangle or
 * below the best point so far; triangles on the rectangle's border are clipped. On the mesh it is exact, so the peer's error is that
 * of the mesh alone (`meshErrorMm`) and it proves nothing about the surface. The control values of the room are given to it; its clock starts
 * when it begins to sample them.
 */
import { BufferAttribute, BufferGeometry, DoubleSide, Ray as MeshRay } from 'three';
import { type ExtendedTriangle, MeshBVH } from 'three-mesh-bvh';
import type { Rect } from '../../../src/geometry/height-field.ts';
import type { Recess } from '../../../src/recess/recess.ts';
import type { Side } from '../../../src/recess/recess-spec.ts';
import { type AlcoveSide, alcoveSides } from '../../helpers/rooms.ts';
import type { Done, Job } from '../jobs.ts';
import { heightMesh, type Meshing } from './height-mesh.ts';

export type Trees = Readonly<Record<AlcoveSide, MeshBVH>>;

/** Does the job from the room's control values. */
export function doJobByTree(recess: Recess, job: Job, meshing: Meshing): Done {
  return askTrees(buildTrees(recess, meshing), job);
}

/** Samples the surfaces and builds the trees. */
export function buildTrees(recess: Recess, meshing: Meshing): Trees {
  const tree = (side: Side): MeshBVH => {
    const mesh = heightMesh(recess.fields[side], meshing.rectOf(recess, side), meshing.stepMm);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
    geometry.setIndex(new BufferAttribute(mesh.triangles, 1));
    return new MeshBVH(geometry);
  };
  const [left, right, back, floor, ceiling] = alcoveSides.map(tree) as [MeshBVH, MeshBVH, MeshBVH, MeshBVH, MeshBVH];
  return { left, right, back, floor, ceiling };
}

/** The queries alone. */
export function askTrees(trees: Trees, job: Job): Done {
  return {
    hits: job.rays.map(({ side, ray }) => {
      meshRay.origin.set(ray.u, ray.v, ray.w);
      meshRay.direction.set(ray.du, ray.dv, ray.dw);
      const hit = trees[side].raycastFirst(meshRay, DoubleSide);
      if (!hit) throw new Error('bench: a ray meets no mesh');
      return hit.distance;
    }),
    gaps: job.faces.map(({ side, rect, at }) => at - highestOver(trees[side], rect)),
  };
}

const meshRay = new MeshRay();

function highestOver(tree: MeshBVH, rect: Rect): number {
  let best = -1e9;
  tree.shapecast({
    boundsTraverseOrder: (box) => -box.max.z,
    intersectsBounds: ({ min, max }) =>
      max.z > best && max.x >= rect.u0 && min.x <= rect.u1 && max.y >= rect.v0 && min.y <= rect.v1,
    intersectsTriangle: (triangle) => {
      best = Math.max(best, highestOfTriangle(triangle, rect));
    },
  });
  return best;
}

function highestOfTriangle({ a, b, c }: ExtendedTriangle, rect: Rect): number {
  const inside = (p: { x: number; y: number }) => p.x >= rect.u0 && p.x <= rect.u1 && p.y >= rect.v0 && p.y <= rect.v1;
  if (inside(a) && inside(b) && inside(c)) return Math.max(a.z, b.z, c.z);
  let corners: Corner[] = [a, b, c];
  corners = clip(corners, (p) => p.x - rect.u0);
  corners = clip(corners, (p) => rect.u1 - p.x);
  corners = clip(corners, (p) => p.y - rect.v0);
  corners = clip(corners, (p) => rect.v1 - p.y);
  return corners.reduce((most, p) => Math.max(most, p.z), -1e9);
}

interface Corner {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** What of a polygon lies where a linear function is not below 0. */
function clip(corners: readonly Corner[], side: (p: Corner) => number): Corner[] {
  const kept: Corner[] = [];
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length]!;
    const [atP, atQ] = [side(p), side(q)];
    if (atP >= 0) kept.push(p);
    if (atP >= 0 === atQ >= 0) return;
    const t = atP / (atP - atQ);
    kept.push({ x: p.x + t * (q.x - p.x), y: p.y + t * (q.y - p.y), z: p.z + t * (q.z - p.z) });
  });
  return kept;
}
