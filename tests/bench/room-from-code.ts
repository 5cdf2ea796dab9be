/**
 * A room from its code, with 24 hits and one clearance of a placed box: by this program, and by two peers on 10 mm meshes.
 *
 * Ours takes in: reading the code, drawing the spec, building the five surfaces, their bounds, 24 hits within 1e-6 mm, five gaps
 * certified within 0.001 mm; bare surfaces, sizes given, so no brief is drawn. A second figure takes in the brief as well, the trims
 * that stay and the carcass's place. The peers begin with the control values in hand. Every answer of a peer is held against
 * ours before anything is timed: within the mesh's error, or the bench stops.
 *
 * Where the 50 us are missed: a room has some 1,390 control values (256 mm of reach all round) and 17 defects. To draw a value's wobble, add
 * the defects, round and check it takes some 17 ns, 24 us a room; code and spec 4, bounds of slopes 5, hits 5, bounds of patches and
 * five certified maxima 20; memory and its collection the rest. All of it is scalar arithmetic, a few operations a nanosecond.
 */

import { nominalCarcass } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, readCode, specOf } from '../../src/exercise/exercise-code.ts';
import { hitField } from '../../src/geometry/hit.ts';
import { findCarcass } from '../../src/marking/answer-key.ts';
import { siteOf } from '../../src/marking/site.ts';
import { buildRecess, type Recess } from '../../src/recess/recess.ts';
import type { RecessSpec } from '../../src/recess/recess-spec.ts';
import type { Figure } from './geometry.ts';
import { type Done, doJob, drawJobs, type Job } from './jobs.ts';
import { largestDifferences } from './peers/agreement.ts';
import { type Meshing, meshOfJob, meshOfRoom } from './peers/height-mesh.ts';
import { doJobByTree } from './peers/mesh-bvh.ts';
import { doJobBySolids, openSolids } from './peers/solid-boolean.ts';
import { atMost, batchTimes, eachUs, medianUs, quantile } from './timing.ts';

/** Our own times, whole and in parts. */
export function roomFigures(): { readonly figures: readonly Figure[]; readonly quickUs: number } {
  const jobs = drawJobs('bench/rooms', ourRooms);
  const specs = jobs.map((job) => job.spec);
  const times = batchTimes((i) => looked(doJob(jobs[i]!)), ourRooms, 101);
  const quickUs = quantile(times, 0.1);
  const us = { most: 50, unit: 'us' };
  const part = (name: string, work: (i: number) => number): Figure => ({
    name: `  of it: ${name}`,
    value: medianUs(work, ourRooms),
    unit: 'us',
  });
  const figures = [
    atMost('room from its code, 24 hits, one clearance', quantile(times, 0.5), us),
    { name: '  the same, a tenth of the batches took less', value: quickUs, unit: 'us' },
    atMost(
      '  the same with brief, trims and place',
      medianUs((i) => doWithBrief(jobs[i]!), ourRooms),
      us,
    ),
    part('code read', (i) => (readCode(jobs[i]!.code).ok ? 1 : 0)),
    part('code read, spec drawn', (i) => specFrom(jobs[i]!.code).mouthMm),
    part('room built from its spec', (i) => buildRecess(specs[i]!).extents.x[0]),
    { name: 'code opened: spec, brief, kit', value: medianUs((i) => openedAt(jobs[i]!), ourRooms), unit: 'us' },
  ];
  return { figures, quickUs };
}

/**
 * The peers' times, and how many times as long they take. The least of three goes a room and the median over rooms, against a time of
 * ours that nine batches in ten exceed: each as it is when nothing disturbs it. A room is its surfaces with the reach round them, in which
 * all can be asked; a peer that meshes only what this one job asks about has half as much to do, and is told beside it.
 */
export async function peerFigures(oursUs: number): Promise<Figure[]> {
  const module = await openSolids();
  const peers = [
    { name: 'three-mesh-bvh', least: 1000, by: ({ job, recess, meshing }: Made) => doJobByTree(recess, job, meshing) },
    { name: 'manifold-3d booleans', least: 5000, by: (made: Made) => doJobBySolids(module, made) },
  ];
  const jobs = drawJobs('bench/peers', peerRooms);
  const differs = largestDifferences(
    jobs,
    stepMm,
    peers.map(
      ({ by }) =>
        (of) =>
          by({ ...of, meshing: meshOfJob(stepMm) }),
    ),
  );
  const times = (by: (made: Made) => Done, meshing: Meshing) =>
    quantile(
      eachUs(
        (i) => ({ job: jobs[i]!, recess: buildRecess(jobs[i]!.spec), meshing }),
        (made) => looked(by(made)),
        { questions: peerRooms, goes: 3 },
      ),
      0.5,
    );
  return [
    ...peers.flatMap(({ name, least, by }): Figure[] => {
      const took = times(by, meshOfRoom(stepMm));
      const little = times(by, meshOfJob(stepMm));
      return [
        { name: `the same room and job by ${name} on ${stepMm} mm`, value: took / 1000, unit: 'ms', peer: name },
        atLeast('  as long as ours takes', took / oursUs, { least, peer: name }),
        {
          name: '  as long, if it leaves out what the job asks nothing of',
          value: little / oursUs,
          unit: 'times',
          peer: name,
        },
      ];
    }),
    { name: 'largest difference between their gaps and ours', value: differs.gapMm, unit: 'mm', peer: 'both' },
    { name: '  what their meshes allow', value: differs.allowedMm, unit: 'mm', peer: 'both' },
  ];
}

interface Made {
  readonly job: Job;
  readonly recess: Recess;
  readonly meshing: Meshing;
}

const ourRooms = 200;
const peerRooms = 6;
const stepMm = 10;

function atLeast(name: string, value: number, than: { readonly least: number; readonly peer: string }): Figure {
  return { name, value, unit: 'times', target: than.least, met: value >= than.least, peer: than.peer };
}

function doWithBrief(job: Job): number {
  const exercise = opened(job);
  return placedIn(buildRecess(exercise.spec), exercise, job);
}

function openedAt(job: Job): number {
  return opened(job).brief.plinthMm;
}

function opened(job: Job): Exercise {
  const result = openCode(job.code);
  if (!result.ok) throw new Error(result.error.says);
  return result.value;
}

function placedIn(recess: Recess, exercise: Exercise, job: Job): number {
  const found = findCarcass(siteOf(recess, exercise), nominalCarcass(exercise.brief));
  if (!found) throw new Error(`bench: the nominal carcass of ${job.code} has no place`);
  let sum = found.clear.left.mm + found.clear.right.mm + found.clear.top.mm + found.clear.back.mm;
  for (const { side, ray } of job.rays) sum += hitField(recess.fields[side], ray)?.t ?? 0;
  return sum;
}

function specFrom(code: string): RecessSpec {
  const parts = readCode(code);
  if (!parts.ok) throw new Error(parts.error.says);
  return specOf(parts.value);
}

/** Every number of an answer goes into one. */
function looked({ hits, gaps }: Done): number {
  let sum = 0;
  for (const hit of hits) sum += hit;
  for (const gap of gaps) sum += gap;
  return sum;
}
