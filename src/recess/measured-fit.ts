/**
 * A net of places through scattered readings: the surface that comes nearest to them, and bends least where none is.
 *
 * Least squares of the readings, with so little weight on bends and slopes that they decide only what no reading does.
 */
import { leastApartMm, splineWeights } from './measured.ts';
import type { Measured } from './recess-spec.ts';

/** A reading on a surface: where, and how far it stands off its plane, mm, + into the free space. */
export interface MeasuredAt {
  readonly u: number;
  readonly v: number;
  readonly mm: number;
}

const mostPlaces = 24;
const bendWeight = 1e-6;
const slopeWeight = 1e-9;

/**
 * Fits a net to readings. One that is too near to others to have a place of its own counts at the place that they share.
 *
 * @param span - the outline along u and v, mm: where a side has one row or column of readings alone, they hold all along
 */
export function fitMeasured(
  readings: readonly MeasuredAt[],
  span: { readonly u: readonly [number, number]; readonly v: readonly [number, number] },
): Measured {
  const uMm = netPlaces(
    readings.map((r) => r.u),
    span.u,
  );
  const vMm = netPlaces(
    readings.map((r) => r.v),
    span.v,
  );
  const n = uMm.length * vMm.length;
  const normal = Array.from({ length: n }, () => new Float64Array(n));
  const right = new Float64Array(n);
  for (const r of readings) {
    const inU = splineWeights(uMm, shared(uMm, r.u));
    const inV = splineWeights(vMm, shared(vMm, r.v));
    addRow(normal, right, { weight: 1, of: tensor(inU, inV), is: r.mm });
  }
  for (const of of smoothRows(uMm, vMm)) addRow(normal, right, { ...of, is: 0 });
  const solved = solve(normal, right);
  const mm = vMm.map((_, j) => uMm.map((__, i) => 0 + Math.round((solved[j * uMm.length + i] ?? 0) * 1024) / 1024));
  return { uMm: [...uMm], vMm: [...vMm], mm };
}

/** Places along an axis: readings that are too near to tell apart are one; one alone holds all along. */
function netPlaces(at: readonly number[], span: readonly [number, number]): readonly number[] {
  const sorted = [...at].sort((a, b) => a - b);
  let apart = leastApartMm;
  let places = merged(sorted, apart);
  while (places.length > mostPlaces) {
    apart *= 1.5;
    places = merged(sorted, apart);
  }
  return places.length < 2 ? span : places;
}

/** The place of the net that a reading counts at: the nearest, where that is near; else its own. */
function shared(places: readonly number[], at: number): number {
  const nearest = places.reduce((a, b) => (Math.abs(b - at) < Math.abs(a - at) ? b : a));
  return Math.abs(nearest - at) < leastApartMm ? nearest : at;
}

/** Groups ascending places such that neighbours lie `apart` or more from each other, each at its group's middle. */
function merged(sorted: readonly number[], apart: number): number[] {
  const groups: number[][] = [];
  for (const place of sorted) {
    const group = groups.at(-1);
    if (group && place - (group[0] as number) < apart) group.push(place);
    else groups.push([place]);
  }
  const middles = groups.map((g) => Math.round(g.reduce((sum, p) => sum + p, 0) / g.length));
  return middles.filter((m, i) => i === 0 || m - (middles[i - 1] as number) >= apart);
}

interface Row {
  readonly weight: number;
  readonly of: readonly (readonly [at: number, share: number])[];
}

function tensor(inU: readonly number[], inV: readonly number[]): Row['of'] {
  return inV.flatMap((b, j) => inU.map((a, i): [number, number] => [j * inU.length + i, a * b]));
}

/** Differences of neighbours, and of each place from the straight line between its neighbours. */
function smoothRows(uMm: readonly number[], vMm: readonly number[]): Row[] {
  const rows: Row[] = [];
  const along = (places: readonly number[], at: (k: number) => number) => {
    for (let k = 1; k < places.length; k++)
      rows.push({
        weight: slopeWeight,
        of: [
          [at(k), 1],
          [at(k - 1), -1],
        ],
      });
    for (let k = 1; k < places.length - 1; k++) {
      const [a, b, c] = [places[k - 1], places[k], places[k + 1]] as [number, number, number];
      const q = (b - a) / (c - a);
      rows.push({
        weight: bendWeight,
        of: [
          [at(k - 1), q - 1],
          [at(k), 1],
          [at(k + 1), 0 - q],
        ],
      });
    }
  };
  for (let j = 0; j < vMm.length; j++) along(uMm, (k) => j * uMm.length + k);
  for (let i = 0; i < uMm.length; i++) along(vMm, (k) => k * uMm.length + i);
  return rows;
}

function addRow(normal: readonly Float64Array[], right: Float64Array, row: Row & { readonly is: number }): void {
  for (const [a, share] of row.of) {
    if (share === 0) continue;
    right[a] = (right[a] as number) + row.weight * share * row.is;
    const line = normal[a] as Float64Array;
    for (const [b, other] of row.of) line[b] = (line[b] as number) + row.weight * share * other;
  }
}

/** Gauss with the largest pivot; what nothing decides is 0. */
function solve(rows: readonly Float64Array[], right: Float64Array): Float64Array {
  const n = right.length;
  const order = rows.map((row, i) => ({ row, is: right[i] as number }));
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(order[i]?.row[k] ?? 0) > Math.abs(order[best]?.row[k] ?? 0)) best = i;
    const pivot = order[best] as (typeof order)[number];
    order[best] = order[k] as (typeof order)[number];
    order[k] = pivot;
    const top = pivot.row[k] as number;
    if (Math.abs(top) < 1e-14) continue;
    for (let i = k + 1; i < n; i++) {
      const below = order[i] as (typeof order)[number];
      const share = (below.row[k] as number) / top;
      if (share === 0) continue;
      for (let c = k; c < n; c++) below.row[c] = (below.row[c] as number) - share * (pivot.row[c] as number);
      below.is -= share * pivot.is;
    }
  }
  const out = new Float64Array(n);
  for (let k = n - 1; k >= 0; k--) {
    const { row, is } = order[k] as (typeof order)[number];
    let left = is;
    for (let c = k + 1; c < n; c++) left -= (row[c] as number) * (out[c] as number);
    out[k] = Math.abs(row[k] as number) < 1e-14 ? 0 : left / (row[k] as number);
  }
  return out;
}
