/**
 * The bench's peers answer the same questions: their gaps and hits agree with ours, as far as their meshes allow.
 */
import { describe, expect, test } from 'vitest';
import { heightAt, type Rect } from '../../src/geometry/height-field.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { alcoveSides } from '../helpers/rooms.ts';
import { drawJobs } from './jobs.ts';
import { largestDifferences } from './peers/agreement.ts';
import { heightMesh, meshErrorMm, meshOfJob } from './peers/height-mesh.ts';
import { doJobByTree } from './peers/mesh-bvh.ts';
import { doJobBySolids, openSolids } from './peers/solid-boolean.ts';

const [job] = drawJobs('bench/peers/test', 1) as [ReturnType<typeof drawJobs>[number]];
const recess = buildRecess(job.spec);
const meshing = meshOfJob(16);

describe('the bench’s peers, one room, seed "bench/peers/test"', () => {
  test('vertices are the surface', () => {
    for (const side of alcoveSides) {
      const rect: Rect = meshing.rectOf(recess, side);
      const { positions } = heightMesh(recess.fields[side], rect, meshing.stepMm);
      for (let p = 0; p < positions.length; p += 3 * 41) {
        const [u, v, w] = positions.subarray(p, p + 3) as unknown as [number, number, number];
        expect(Math.abs(w - heightAt(recess.fields[side], u, v))).toBeLessThan(5e-4);
      }
    }
  });

  test('gaps and hits agree with ours within the meshes’ error, and that is small', async () => {
    const module = await openSolids();
    const differs = largestDifferences([job], meshing.stepMm, [
      (of) => doJobByTree(of.recess, of.job, meshing),
      (of) => doJobBySolids(module, { ...of, meshing }),
    ]);
    expect(differs.gapMm).toBeGreaterThan(0);
    expect(differs.allowedMm).toBeLessThan(0.15);
    expect(differs.gapMm).toBeLessThanOrEqual(differs.allowedMm);
  });

  test('an answer that is off is refused', () => {
    const off = (by: number) => () =>
      largestDifferences([job], meshing.stepMm, [
        (of) => {
          const { hits, gaps } = doJobByTree(of.recess, of.job, meshing);
          return { hits, gaps: gaps.map((gap, i) => (i === 2 ? gap + by : gap)) };
        },
      ]);
    expect(off(0.2)).toThrow(/gap 2 of/);
    expect(off(Number.NaN)).toThrow(/gap 2 of/);
  });

  test('a mesh twice as fine may be a quarter as far off', () => {
    const rounding = 5e-4;
    const [coarse, fine] = [20, 10].map((stepMm) => meshErrorMm(recess.fields.left, stepMm) - rounding);
    expect(coarse! / fine!).toBeCloseTo(4, 9);
  });
});
