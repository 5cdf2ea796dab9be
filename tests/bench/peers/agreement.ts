/**
 * Peers held against our own answers: a bench of different answers is worth nothing.
 */
import { buildRecess, type Recess } from '../../../src/recess/recess.ts';
import { type Done, doJob, type Job } from '../jobs.ts';
import { meshErrorMm } from './height-mesh.ts';

/** A peer that does a job from the room's control values. */
export type Peer = (of: { readonly job: Job; readonly recess: Recess }) => Done;

/**
 * The largest differences of the peers' gaps and hits from ours.
 *
 * @returns mm; `allowedMm` is the largest error of the meshes, and no difference at any face or ray was larger than its own
 * @throws {Error} if a peer's answer lies further from ours than its mesh allows
 */
export function largestDifferences(
  jobs: readonly Job[],
  stepMm: number,
  peers: readonly Peer[],
): { gapMm: number; hitMm: number; allowedMm: number } {
  const largest = { gapMm: 0, hitMm: 0, allowedMm: 0 };
  for (const job of jobs) {
    const recess = buildRecess(job.spec);
    const ours = doJob(job);
    for (const peer of peers) {
      const theirs = peer({ job, recess });
      job.faces.forEach(({ side }, i) => {
        const allowed = meshErrorMm(recess.fields[side], stepMm) + ownErrorMm;
        const off = apart(ours.gaps[i], theirs.gaps[i], { allowed, what: `gap ${i} of ${job.code}` });
        largest.gapMm = Math.max(largest.gapMm, off);
        largest.allowedMm = Math.max(largest.allowedMm, allowed);
      });
      job.rays.forEach(({ side, ray }, i) => {
        const allowed = (meshErrorMm(recess.fields[side], stepMm) + ownErrorMm) / closing(ray.dw);
        const off = apart(ours.hits[i], theirs.hits[i], { allowed, what: `hit ${i} of ${job.code}` });
        largest.hitMm = Math.max(largest.hitMm, off);
      });
    }
  }
  return largest;
}

/** Our maxima are certified to this. */
const ownErrorMm = 0.001;

/** Least share of a millimetre along a ray by which it nears a surface; slopes here stay under 0.1, tilts under 0.05. */
function closing(dw: number): number {
  return Math.abs(dw) - 0.01;
}

function apart(
  ours: number | undefined,
  theirs: number | undefined,
  within: { readonly allowed: number; readonly what: string },
): number {
  const off = Math.abs((ours ?? Number.NaN) - (theirs ?? Number.NaN));
  if (!(off <= within.allowed))
    throw new Error(`bench: ${within.what} is ${ours} by ours, ${theirs} by a peer, allowed are ${within.allowed} mm`);
  return off;
}
