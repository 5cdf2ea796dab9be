/**
 * A line round the recess in CSV, point by point in mm, and the surfaces along it.
 *
 * Two columns tell which way it was cut: `x, y` a plan, `y, z` a section, `x, z` an elevation; x right of the middle, y in
 * from the face line, z up. Between points it is straight; across the cut a surface is as the line is, all along.
 */
import { outlineRect } from '../recess/corner-offsets.ts';
import { nominalObstruction } from '../recess/defect-shapes.ts';
import type { MeasuredAt } from '../recess/measured-fit.ts';
import { axesOf, type RecessSpec, type Side, trueOf } from '../recess/recess-spec.ts';
import { numberIn, readCsv } from './csv.ts';
import type { ReadingsOf } from './offset-table.ts';
import { refuse, type Taken } from './refusal.ts';

type Axis = 'x' | 'y' | 'z';
interface Point {
  readonly line: number;
  readonly at: Readonly<Record<Axis, number>>;
}

const what = 'line';
/** How far a point may lie off the outline of the surface that it is on, mm. */
const mostOffMm = 200;
const stepMm = 100;

/** Reads a line round the recess against its outline. */
export function readOutlineLine(
  text: string,
  spec: Pick<RecessSpec, 'openingMm' | 'slope' | 'surfaces'>,
): Taken<ReadingsOf> {
  const table = readCsv(text, what);
  if (!table.ok) return table;
  const head = table.value.head.filter((name) => name !== '');
  const cut = [...head].sort().join('') as 'xy' | 'yz' | 'xz';
  if (!['xy', 'yz', 'xz'].includes(cut))
    return refuse(
      `${what}: expected the columns x, y or y, z or x, z for a line round the recess, or surface, along, up or in, offset for a table of offsets, got ${head.join(', ')}`,
    );
  const axes = [...cut] as [Axis, Axis];
  const points: Point[] = [];
  for (const row of table.value.rows) {
    const at = { x: 0, y: 0, z: 0 };
    for (const axis of axes) {
      const taken = numberIn(table.value, row, axis, what);
      if (!taken.ok) return taken;
      at[axis] = taken.value;
    }
    points.push({ line: row.line, at });
  }
  const largest = Math.max(...points.flatMap((p) => axes.map((a) => Math.abs(p.at[a]))));
  if (largest <= 30)
    return refuse(`${what}: expected millimetres, got places up to ${largest}, which look like metres`);
  return along(points, axes, spec);
}

function along(
  points: readonly Point[],
  axes: readonly [Axis, Axis],
  spec: Pick<RecessSpec, 'openingMm' | 'slope' | 'surfaces'>,
): Taken<ReadingsOf> {
  const found: Partial<Record<Side, MeasuredAt[]>> = {};
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]] as [Point, Point];
    const side = nearerOf(a, b, { axes, spec });
    if (side === null)
      return refuse(`${what}, line ${b.line}: expected to run along a surface, got a piece across the mouth`);
    if (!spec.surfaces[side]) return refuse(`${what}, line ${b.line}: the ${side} is open`);
    for (const p of [a, b]) {
      const off = readingAt(p.at, { side, axes, spec }).mm;
      if (Math.abs(off) > mostOffMm)
        return refuse(
          `${what}, line ${p.line}: expected within ${mostOffMm} of the ${side}'s straight outline, got ${Math.round(off)} ${off > 0 ? 'into' : 'out of'} the recess`,
        );
    }
    found[side] = [...(found[side] ?? []), ...pieces(a, b).map((p) => readingAt(p, { side, axes, spec }))];
  }
  return Object.keys(found).length > 0
    ? { ok: true, value: found }
    : refuse(`${what}: expected two points or more, got ${points.length}`);
}

interface Cut {
  readonly axes: readonly [Axis, Axis];
  readonly spec: Pick<RecessSpec, 'openingMm' | 'slope' | 'surfaces'>;
}

/** Which surface a piece runs along: under a slope the slope, where that is nearer than what the way of the piece says. */
function nearerOf(a: Point, b: Point, cut: Cut): Side | null {
  const side = sideOf(a, b, cut);
  if (!cut.spec.slope || !cut.axes.includes('z')) return side;
  const off = (of: Side) => Math.max(...[a, b].map((p) => Math.abs(readingAt(p.at, { ...cut, side: of }).mm)));
  return side === null || !cut.spec.surfaces[side] || off('slope') < off(side) ? 'slope' : side;
}

/** Which surface a piece runs along: by the way that it goes most, and by which side of the middle it is on. */
function sideOf(a: Point, b: Point, { axes, spec }: Cut): Side | null {
  const [first, second] = axes;
  const run = (axis: Axis) => Math.abs(b.at[axis] - a.at[axis]);
  const across = run(first) >= run(second) ? second : first;
  const middle = (a.at[across] + b.at[across]) / 2;
  const { depth, height } = spec.openingMm;
  if (across === 'x') return middle < 0 ? 'left' : 'right';
  if (across === 'y') return middle > depth / 2 ? 'back' : null;
  if (middle < height / 2) return 'floor';
  return spec.surfaces.ceiling ? 'ceiling' : 'slope';
}

/** Places along a piece, its ends among them. */
function pieces(a: Point, b: Point): Readonly<Record<Axis, number>>[] {
  const far = Math.max(...(['x', 'y', 'z'] as const).map((axis) => Math.abs(b.at[axis] - a.at[axis])));
  const count = Math.max(1, Math.ceil(far / stepMm));
  return Array.from({ length: count + 1 }, (_, i) => {
    const share = i / count;
    const on = (axis: Axis) => a.at[axis] + share * (b.at[axis] - a.at[axis]);
    return { x: on('x'), y: on('y'), z: on('z') };
  });
}

/** A place of the line as a reading; along what was not cut it stands in the middle. */
function readingAt(at: Readonly<Record<Axis, number>>, of: Cut & { readonly side: Side }): MeasuredAt {
  const { side, axes, spec } = of;
  const own = axesOf(side);
  const { from, to } = outlineRect(spec, side);
  const place = (axis: Axis, k: 0 | 1) => (axes.includes(axis) ? at[axis] : (from[k] + to[k]) / 2);
  const [u, v] = [place(own.u, 0), place(own.v, 1)];
  return { u, v, mm: trueOf(side, at[own.across]) - nominalObstruction(spec, side, u) };
}
