/**
 * Triangle meshes of the hidden surfaces, as the peers take them: vertices at even steps, two triangles a cell.
 *
 * Heights are worked out by the tensor product, rows first and then columns, with the basis at each place worked out once: a few
 * operations a vertex. Frame: a side's own u, v, and the obstruction as w, mm.
 */
import { type HeightField, knotStepMm, type Rect, unitsPerMm } from '../../../src/geometry/height-field.ts';
import { type Recess, reachOf } from '../../../src/recess/recess.ts';
import type { Side } from '../../../src/recess/recess-spec.ts';

export interface HeightMesh {
  readonly countU: number;
  readonly countV: number;
  /** u, v, w of each vertex, one row a v. */
  readonly positions: Float32Array;
  /** Three vertices a triangle, counter-clockwise seen from free space. */
  readonly triangles: Uint32Array;
  readonly leastMm: number;
  readonly mostMm: number;
}

/** Makes the mesh of a field over a rectangle that is a little more than asked for, so that whole steps fill it. */
export function heightMesh(field: HeightField, rect: Rect, stepMm: number): HeightMesh {
  const countU = Math.ceil((rect.u1 - rect.u0) / stepMm) + 1;
  const countV = Math.ceil((rect.v1 - rect.v0) / stepMm) + 1;
  const alongU = basisAt({ from: rect.u0 - field.u0, count: countU, spans: field.countU - 3 }, stepMm);
  const alongV = basisAt({ from: rect.v0 - field.v0, count: countV, spans: field.countV - 3 }, stepMm);
  const rows = interpolateRows(field, alongU);
  const positions = new Float32Array(3 * countU * countV);
  let leastMm = 1e9;
  let mostMm = -1e9;
  for (let j = 0, p = 0; j < countV; j++) {
    const r0 = alongV.first[j]! * countU;
    const r1 = r0 + countU;
    const r2 = r1 + countU;
    const r3 = r2 + countU;
    const [b0, b1, b2, b3] = [alongV.b[4 * j]!, alongV.b[4 * j + 1]!, alongV.b[4 * j + 2]!, alongV.b[4 * j + 3]!];
    const v = rect.v0 + j * stepMm;
    for (let i = 0; i < countU; i++, p += 3) {
      const w = b0 * rows[r0 + i]! + b1 * rows[r1 + i]! + b2 * rows[r2 + i]! + b3 * rows[r3 + i]!;
      if (w < leastMm) leastMm = w;
      if (w > mostMm) mostMm = w;
      positions[p] = rect.u0 + i * stepMm;
      positions[p + 1] = v;
      positions[p + 2] = w;
    }
  }
  return { countU, countV, positions, triangles: gridTriangles(countU, countV), leastMm, mostMm };
}

/** How finely surfaces are meshed, and how much of them. */
export interface Meshing {
  readonly stepMm: number;
  rectOf(recess: Recess, side: Side): Rect;
}

/** What the job asks about, no more: the nominal outline from the mouth inwards, and 40 mm round it for what bulges outwards. */
export function meshOfJob(stepMm: number): Meshing {
  return {
    stepMm,
    rectOf: ({ spec }, side) => {
      const { width, height, depth } = spec.openingMm;
      const x = { u0: -width / 2 - 40, u1: width / 2 + 40 };
      const y = [spec.mouthMm - 10, depth + 40] as const;
      if (side === 'back') return { ...x, v0: -40, v1: height + 40 };
      if (side === 'floor' || side === 'ceiling') return { ...x, v0: y[0], v1: y[1] };
      return { u0: y[0], u1: y[1], v0: -40, v1: height + 40 };
    },
  };
}

/** The whole room as it is built here, with the reach round it; the last cells may end beyond. */
export function meshOfRoom(stepMm: number): Meshing {
  return { stepMm, rectOf: reachOf };
}

/**
 * How far a triangle of the mesh can lie off the surface, measured along w.
 *
 * @returns mm: half the square of a triangle's circumradius (half of step² / 2) times the largest second derivative in any direction,
 *   plus 0.0005 for 32-bit coordinates
 * @source linear interpolation on a triangle, S. Waldron, 1998 (from memory)
 */
export function meshErrorMm(field: HeightField, stepMm: number): number {
  const { control, countU } = field;
  let [uu, vv, uv] = [0, 0, 0];
  for (let k = 0; k < control.length; k++) {
    const i = k % countU;
    const at = (di: number, dj: number) => control[k + di + dj * countU]!;
    const above = k + countU < control.length;
    if (i > 0 && i < countU - 1) uu = Math.max(uu, Math.abs(at(-1, 0) - 2 * at(0, 0) + at(1, 0)));
    if (k >= countU && above) vv = Math.max(vv, Math.abs(at(0, -1) - 2 * at(0, 0) + at(0, 1)));
    if (i < countU - 1 && above) uv = Math.max(uv, Math.abs(at(0, 0) - at(1, 0) - at(0, 1) + at(1, 1)));
  }
  const most = (Math.max(uu, vv) + uv) / (knotStepMm * knotStepMm * unitsPerMm);
  return (stepMm * stepMm * most) / 4 + 5e-4;
}

interface Basis {
  /** The first of the four controls that count at each place. */
  readonly first: Int32Array;
  /** Their four weights. */
  readonly b: Float64Array;
}

function basisAt(places: { from: number; count: number; spans: number }, stepMm: number): Basis {
  const first = new Int32Array(places.count);
  const b = new Float64Array(4 * places.count);
  for (let n = 0; n < places.count; n++) {
    const s = (places.from + n * stepMm) / knotStepMm;
    const span = Math.min(Math.floor(s), places.spans - 1);
    const t = s - span;
    first[n] = span;
    b[4 * n] = ((1 - t) * (1 - t) * (1 - t)) / 6;
    b[4 * n + 1] = (3 * t * t * t - 6 * t * t + 4) / 6;
    b[4 * n + 2] = (-3 * t * t * t + 3 * t * t + 3 * t + 1) / 6;
    b[4 * n + 3] = (t * t * t) / 6;
  }
  return { first, b };
}

/** Each row of controls at every u that is asked for, mm. */
function interpolateRows(field: HeightField, alongU: Basis): Float64Array {
  const { control, countU, countV } = field;
  const { first, b } = alongU;
  const rows = new Float64Array(first.length * countV);
  for (let j = 0, k = 0; j < countV; j++)
    for (let n = 0; n < first.length; n++, k++) {
      const o = j * countU + first[n]!;
      const q = 4 * n;
      const sum =
        b[q]! * control[o]! + b[q + 1]! * control[o + 1]! + b[q + 2]! * control[o + 2]! + b[q + 3]! * control[o + 3]!;
      rows[k] = sum / unitsPerMm;
    }
  return rows;
}

function gridTriangles(countU: number, countV: number): Uint32Array {
  const triangles = new Uint32Array(6 * (countU - 1) * (countV - 1));
  for (let j = 0, t = 0; j < countV - 1; j++)
    for (let i = 0; i < countU - 1; i++, t += 6) {
      const k = j * countU + i;
      triangles[t] = k;
      triangles[t + 1] = k + 1;
      triangles[t + 2] = k + 1 + countU;
      triangles[t + 3] = k;
      triangles[t + 4] = k + 1 + countU;
      triangles[t + 5] = k + countU;
    }
  return triangles;
}
