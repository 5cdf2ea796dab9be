/**
 * The job that is timed against peers: one room, 24 hits of rays, one clearance of a placed box, bare surfaces all through.
 *
 * Rays and box are made before the clock starts, in each side's own frame (u, v, and the obstruction as w), and are the same
 * for all: peers build their meshes in these frames too, so nobody has to turn anything.
 */
import { drawKey, purpose, uniform } from '../../src/chance/keyed-draws.ts';
import { readCode, seedCount, specOf, writeCode } from '../../src/exercise/exercise-code.ts';
import { presets } from '../../src/exercise/kit.ts';
import type { Rect } from '../../src/geometry/height-field.ts';
import { hitField, type Ray } from '../../src/geometry/hit.ts';
import { rangeMax } from '../../src/geometry/range.ts';
import { nominalObstruction } from '../../src/recess/defect-shapes.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { buildRecess, type Recess } from '../../src/recess/recess.ts';
import type { RecessSpec, Side } from '../../src/recess/recess-spec.ts';
import { type AlcoveSide, alcoveSides, inventedSeverities } from '../helpers/rooms.ts';

/** A face of the box: its place on the side's own axes, and what an obstruction must stay under. */
export interface Face {
  readonly side: AlcoveSide;
  readonly rect: Rect;
  readonly at: number;
}

export interface Job {
  readonly code: string;
  readonly spec: RecessSpec;
  readonly rays: readonly { readonly side: AlcoveSide; readonly ray: Ray }[];
  readonly faces: readonly Face[];
}

/** What a job comes to: where each ray hits, mm along it, and the gap at each face, mm. */
export interface Done {
  readonly hits: readonly number[];
  readonly gaps: readonly number[];
}

/** Draws jobs; the same for the same seed. */
export function drawJobs(seed: string, count: number): Job[] {
  return drawCodes(seed, count).map((code) => {
    const spec = specFrom(code);
    return { code, spec, rays: raysIn(code, spec), faces: facesOf(spec) };
  });
}

/** Codes of all structures and invented severities by turns, seeds drawn. */
export function drawCodes(seed: string, count: number): string[] {
  const key = drawKey(seed);
  return Array.from({ length: count }, (_, i) =>
    writeCode({
      family: 'alcove',
      severity: inventedSeverities[i % inventedSeverities.length]!.name,
      structure: alcoveStructures[i % alcoveStructures.length]!.name,
      kit: presets[0]!.name,
      seed: Math.floor(uniform(key, whySeed, i) * seedCount),
    }),
  );
}

/** The job from its code, by this program. */
export function doJob(job: Job): Done {
  const recess = buildRecess(specFrom(job.code));
  return { hits: hitAll(recess, job), gaps: gapsIn(recess, job) };
}

function specFrom(code: string): RecessSpec {
  const parts = readCode(code);
  if (!parts.ok) throw new Error(parts.error.says);
  return specOf(parts.value);
}

function hitAll(recess: Recess, job: Job): number[] {
  return job.rays.map(({ side, ray }) => {
    const hit = hitField(recess.fields[side], ray);
    if (!hit) throw new Error(`bench: a ray in ${job.code} meets nothing`);
    return hit.t;
  });
}

function gapsIn(recess: Recess, job: Job): number[] {
  return job.faces.map(({ side, rect, at }) => at - rangeMax(recess.fields[side], rect).value);
}

const whySeed = purpose('bench/seed');
const whyRay = purpose('bench/ray');

/** How many of the 24 rays go to each side. */
const raysTo: Readonly<Record<AlcoveSide, number>> = { left: 7, right: 7, back: 6, floor: 2, ceiling: 2 };

/** Rules held to the surfaces and lines thrown at them: from 300 mm off, some degrees from square. */
function raysIn(code: string, spec: RecessSpec): Job['rays'] {
  const key = drawKey(code);
  let n = 0;
  const draw = (from: number, to: number) => from + (to - from) * uniform(key, whyRay, n++);
  return alcoveSides.flatMap((side) =>
    Array.from({ length: raysTo[side] }, () => {
      const [du, dv] = [draw(-0.03, 0.03), draw(-0.03, 0.03)];
      const length = Math.sqrt(1 + du * du + dv * dv);
      const { u0, u1, v0, v1 } = outlineOf(spec, side);
      const ray = {
        u: draw(u0 + 20, u1 - 20),
        v: draw(v0 + 20, v1 - 20),
        w: nominalObstruction(spec, side) + 300,
        du: du / length,
        dv: dv / length,
        dw: -1 / length,
      };
      return { side, ray };
    }),
  );
}

/** A box 60 less than the opening each way, 20 behind the face line, 100 off the floor; its way in counts. */
function facesOf(spec: RecessSpec): Face[] {
  const { width, height, depth } = spec.openingMm;
  const x = { u0: 30 - width / 2, u1: width / 2 - 30 };
  const z = { v0: 100, v1: height - 60 };
  const y = { from: spec.mouthMm, to: depth - 40 };
  return [
    { side: 'left', rect: { u0: y.from, u1: y.to, ...z }, at: x.u0 },
    { side: 'right', rect: { u0: y.from, u1: y.to, ...z }, at: -x.u1 },
    { side: 'back', rect: { ...x, ...z }, at: -y.to },
    { side: 'floor', rect: { ...x, v0: y.from, v1: y.to }, at: z.v0 },
    { side: 'ceiling', rect: { ...x, v0: y.from, v1: y.to }, at: -z.v1 },
  ];
}

/** The stretch of a side that rays are aimed at. */
function outlineOf(spec: RecessSpec, side: Side): Rect {
  const { width, height, depth } = spec.openingMm;
  const x = { u0: -width / 2, u1: width / 2 };
  if (side === 'back') return { ...x, v0: 0, v1: height };
  if (side === 'floor' || side === 'ceiling') return { ...x, v0: 0, v1: depth };
  return { u0: 0, u1: depth, v0: 0, v1: height };
}
