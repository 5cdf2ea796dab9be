/**
 * The sight proof: what blocks a straight way, against samples along it.
 *
 * A way is surely blocked when it runs 0.1 mm and more inside a surface or well inside a band, surely free when it stays
 * as far clear of all, each band grown by a millimetre. Between the two it grazes, and nothing is asked.
 */
import { openCode } from '../../src/exercise/exercise-code.ts';
import { heightAt } from '../../src/geometry/height-field.ts';
import type { Point } from '../../src/geometry/plane.ts';
import { buildRecess, type Recess } from '../../src/recess/recess.ts';
import { type Side, sides, type Trim } from '../../src/recess/recess-spec.ts';
import { blockedBy } from '../../src/survey/sight.ts';
import { type Draws, drawnCode, drawsOf } from './draws.ts';
import { type Case, count, counted, eachCase, fail, type Proof, type Result, type Tally } from './proof.ts';

export const sightProof: Proof = {
  name: 'sight',
  says: 'a straight way is blocked where samples along it say so, and by what they say',
  full: 2500,
  small: 120,
  prove: (share) => eachCase(share, proveSight),
  conclude,
};

const waysARoom = 4;
const stepMm = 1;
const clearMm = 0.1;
const edgeMm = 1;

function proveSight(tally: Tally, at: Case): void {
  const draws = drawsOf('sight', at.seed, at.index);
  const code = drawnCode(draws, at.index);
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const recess = buildRecess(opened.value.spec);
  const trims = opened.value.spec.trims.filter(() => draws.pick(3) > 0);
  for (let i = 0; i < waysARoom; i++) {
    const way = anyWay(draws, recess);
    const said = blockedBy(recess, trims, way);
    const surely = blockers(recess, trims, { way, grown: -1 });
    const perhaps = blockers(recess, trims, { way, grown: 1 });
    const where = `${code}, ${JSON.stringify(way)}, trims ${trims.map((t) => t.name).join(', ') || 'none'}`;
    count(tally, 'ways');
    count(tally, surely.size > 0 ? 'blocked' : perhaps.size === 0 ? 'free' : 'grazing');
    if (surely.size > 0 && said === null)
      fail(tally, at, `${where}: said to be free, but ${[...surely].join(', ')} is in the way`);
    if (said !== null && !perhaps.has(said)) fail(tally, at, `${where}: said to be blocked by ${said}, which is clear`);
    if (said !== null) count(tally, trims.some((t) => t.name === said) ? 'by a trim' : 'by a surface');
  }
}

/** From the room before the recess into it, or from one place near a surface to another, often of the same one. */
function anyWay(draws: Draws, recess: Recess): { from: Point; to: Point } {
  const side = draws.one(sides);
  const from = draws.pick(4) === 0 ? inFront(draws, recess) : nearSurface(draws, recess, side);
  return { from, to: nearSurface(draws, recess, draws.pick(3) > 0 ? side : draws.one(sides)) };
}

function inFront(draws: Draws, recess: Recess): Point {
  const { width, height } = recess.spec.openingMm;
  const reach = width / 2 + 300;
  return { x: draws.between(-reach, reach), y: draws.between(-1800, 0), z: draws.between(50, height - 50) };
}

/** A point of the outline's box, near one of its faces. */
function nearSurface(draws: Draws, recess: Recess, side: Side): Point {
  const { width, height, depth } = recess.spec.openingMm;
  const off = draws.between(-4, 40);
  const p = {
    x: draws.between(-width / 2, width / 2),
    y: draws.between(recess.spec.mouthMm, depth),
    z: draws.between(0, height),
  };
  switch (side) {
    case 'left':
      return { ...p, x: -width / 2 + off };
    case 'right':
      return { ...p, x: width / 2 - off };
    case 'back':
      return { ...p, y: depth - off };
    case 'floor':
      return { ...p, z: off };
    case 'ceiling':
    case 'slope':
      return { ...p, z: height - off };
  }
}

/** The surfaces and trims that some sample of a way lies inside, each grown or shrunk. */
function blockers(
  recess: Recess,
  trims: readonly Trim[],
  of: { way: { from: Point; to: Point }; grown: 1 | -1 },
): Set<string> {
  const { from, to } = of.way;
  const [dx, dy, dz] = [to.x - from.x, to.y - from.y, to.z - from.z];
  const count = Math.ceil(Math.sqrt(dx * dx + dy * dy + dz * dz) / stepMm);
  const found = new Set<string>();
  for (let i = 0; i <= count; i++) {
    const t = i / count;
    const p = { x: from.x + t * dx, y: from.y + t * dy, z: from.z + t * dz };
    for (const side of sides) addBlockers(found, recess, { side, p, trims, grown: of.grown });
  }
  return found;
}

function addBlockers(
  found: Set<string>,
  recess: Recess,
  of: { side: Side; p: Point; trims: readonly Trim[]; grown: 1 | -1 },
): void {
  const { side, p, trims, grown } = of;
  const { x, y, z } = recess.extents;
  const wall = side === 'left' || side === 'right';
  const [u, v] = wall ? [p.y, p.z] : side === 'back' ? [p.x, p.z] : [p.x, p.y];
  const [reachU, reachV] = wall ? [y, z] : side === 'back' ? [x, z] : [x, y];
  const inU = Math.min(Math.max(u, reachU[0]), reachU[1]);
  const inV = Math.min(Math.max(v, reachV[0]), reachV[1]);
  // How far the point lies behind the bare surface; beyond its reach, as if that went on level.
  const into =
    heightAt(recess.fields[side], inU, inV) -
    { left: p.x, right: -p.x, back: -p.y, floor: p.z, ceiling: -p.z, slope: -p.z }[side];
  const from = side === recess.spec.breastSide ? recess.spec.mouthMm : reachU[0];
  const over = (a: number, b: number, at: number) => at >= a - grown * edgeMm && at <= b + grown * edgeMm;
  if (into > -grown * clearMm && over(from, reachU[1], u) && over(reachV[0], reachV[1], v)) found.add(side);
  for (const trim of trims) {
    if (trim.surface !== side || into < -200) continue;
    if (!over(trim.uMm[0], trim.uMm[1], u) || !over(trim.vMm[0], trim.vMm[1], v)) continue;
    if (into + projection(trim, trim.profile.along === 'u' ? u : v, grown) > -grown * clearMm) found.add(trim.name);
  }
}

/** The most (grown) or least (shrunk) that a profile stands out within a millimetre of a place. */
function projection(trim: Trim, at: number, grown: 1 | -1): number {
  const outAt = (place: number) => {
    const points = trim.profile.mm;
    const first = points[0] as readonly [number, number];
    let out = place < first[0] ? first[1] : (points[points.length - 1] as readonly [number, number])[1];
    points.forEach(([to, high], i) => {
      const before = points[i - 1];
      if (before && place >= before[0] && place <= to)
        out = before[1] + ((high - before[1]) * (place - before[0])) / (to - before[0]);
    });
    return out;
  };
  const near = [at - edgeMm, at, at + edgeMm].map(outAt);
  return grown > 0 ? Math.max(...near) : Math.min(...near);
}

function conclude(tally: Tally): Result {
  const n = (what: string) => counted(tally, what);
  const failures = ['blocked', 'free', 'by a trim', 'by a surface']
    .filter((what) => n(what) < n('ways') / 50)
    .map((what) => `only ${n(what)} of ${n('ways')} ways are ${what}, which shows too little`);
  return {
    lines: [
      `ways: ${n('ways')}; surely blocked ${n('blocked')}, surely free ${n('free')}, grazing and not asked ${n('grazing')}`,
      `said to be blocked by a surface ${n('by a surface')}, by a trim ${n('by a trim')}`,
    ],
    failures,
  };
}
