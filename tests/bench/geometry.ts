/**
 * Figures of the geometry kernel, on fields like those of a recess: plane slopes to 5 mm/m, bows of some mm, wobble of 1 mm.
 *
 * Seeded; each question is asked once and timed by itself, after a warm-up on others, and the median is given; what takes less than a
 * microsecond is timed in runs of 200. Every answer goes into a sum that is looked at, so none can be left out.
 */

import {
  domainOf,
  type HeightField,
  heightAt,
  heightField,
  patchesOf,
  type Rect,
  slopesOf,
} from '../../src/geometry/height-field.ts';
import { highestOverSegment, hitField, type Ray } from '../../src/geometry/hit.ts';
import { rangeMax, rangeMin, staysBelow } from '../../src/geometry/range.ts';

export interface Figure {
  name: string;
  value: number;
  unit: string;
  target?: number;
  met?: boolean;
  peer?: string;
}

/** All figures; takes some seconds. */
export function geometryFigures(): Figure[] {
  const draw = drawsFrom(20_611);
  const walls = lattices.map(({ name, countU, countV }) => ({
    name,
    fields: Array.from({ length: 500 }, () => fieldLike(countU, countV, draw)),
  }));
  const figures: Figure[] = [];
  for (const { name, fields } of walls) {
    const ask = (k: number) => rangeMax(fields[k % 500]!, footprint(fields[k % 500]!, k)).value;
    figures.push(within(`range maximum, ${name}, footprint`, medianUs(ask), 3));
  }
  const questions = walls.flatMap(({ fields }) => fields.map((field) => ({ field, rect: partOf(field, draw) })));
  const q = (k: number) => questions[(k * 7) % 1500]!;
  figures.push(
    within(
      'range maximum, parts of walls',
      medianUs((k) => rangeMax(q(k).field, q(k).rect).value),
      3,
    ),
  );
  const plus = { at: 20, perU: -0.3, perV: 0.01 };
  figures.push(
    within(
      'range maximum less a plane',
      medianUs((k) => rangeMax(q(k).field, q(k).rect, { plus }).value),
      3,
    ),
  );
  figures.push({
    name: 'range minimum, parts of walls',
    value: medianUs((k) => rangeMin(q(k).field, q(k).rect).value),
    unit: 'us',
  });
  figures.push({
    name: 'stays below a limit',
    value: medianUs((k) => (staysBelow(q(k).field, q(k).rect, (k % 20) - 10) ? 1 : 0)),
    unit: 'us',
  });
  figures.push(within('nets, most in 100,000 range maxima', mostNets(draw), 100, ''));
  const back = walls[1]!.fields;
  const rays = Array.from({ length: 1000 }, () => rayAt(back[0]!, draw));
  figures.push(
    within(
      'hit of a ray',
      runUs((k) => hitField(back[k % 50]!, rays[k % 1000]!)?.t ?? 0),
      0.3,
    ),
  );
  const ways = Array.from({ length: 1000 }, () => wayOver(back[0]!, draw));
  figures.push({
    name: 'highest over a way',
    value: medianUs((k) => highestOverSegment(back[k % 50]!, ...ways[k % 1000]!).value),
    unit: 'us',
  });
  figures.push({
    name: 'height at a place',
    value: runUs((k) => heightAt(back[k % 50]!, rays[k % 1000]!.u, rays[k % 1000]!.v)),
    unit: 'us',
  });
  const prepared = prepareUs(walls.map((wall) => wall.fields));
  figures.push({ name: 'five surfaces checked and bounded', value: prepared, unit: 'us' });
  return figures;
}

const lattices = [
  { name: 'side wall 8 x 22', countU: 8, countV: 22 },
  { name: 'back wall 15 x 23', countU: 15, countV: 23 },
  { name: 'floor 15 x 8', countU: 15, countV: 8 },
];

let sink = 0;

function within(name: string, value: number, target: number, unit = 'us'): Figure {
  return { name, value, unit, target, met: value <= target };
}

/** Uniform in [0, 1); quality is no matter here. */
function drawsFrom(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0;
    return (state >>> 0) / 4_294_967_296;
  };
}

function fieldLike(countU: number, countV: number, draw: () => number): HeightField {
  const [slopeU, slopeV] = [(draw() - 0.5) * 0.01, (draw() - 0.5) * 0.01];
  const [bowU, bowV] = [(draw() - 0.5) * 10, (draw() - 0.5) * 8];
  const control = Int32Array.from({ length: countU * countV }, (_, k) => {
    const [i, j] = [k % countU, Math.trunc(k / countU)];
    const [x, y] = [(2 * i) / (countU - 1) - 1, (2 * j) / (countV - 1) - 1];
    const wobble = draw() + draw() + draw() + draw() - 2;
    return Math.round(1024 * (slopeU * 128 * i + slopeV * 128 * j + bowU * (1 - x * x) + bowV * (1 - y * y) + wobble));
  });
  return heightField({ u0: -128, v0: -256, countU, countV, control });
}

function footprint(field: HeightField, k: number): Rect {
  const d = domainOf(field);
  return { u0: d.u0 + 20 + (k % 61), u1: d.u1 - 20 - (k % 53), v0: d.v0 + 20 + (k % 47), v1: d.v1 - 20 - (k % 43) };
}

function partOf(field: HeightField, draw: () => number): Rect {
  const d = domainOf(field);
  const side = (from: number, to: number) =>
    [from + draw() * (to - from), from + draw() * (to - from)].sort((a, b) => a - b);
  const [u0, u1] = side(d.u0, d.u1);
  const [v0, v1] = side(d.v0, d.v1);
  return { u0: u0!, u1: u1!, v0: v0!, v1: v1! };
}

/** A rule held to a wall, or a laser line: some degrees off square. */
function rayAt(field: HeightField, draw: () => number): Ray {
  const d = domainOf(field);
  const [du, dv] = [(draw() - 0.5) * 0.06, (draw() - 0.5) * 0.06];
  const length = Math.sqrt(1 + du * du + dv * dv);
  const u = d.u0 + 50 + draw() * (d.u1 - d.u0 - 100);
  const v = d.v0 + 50 + draw() * (d.v1 - d.v0 - 100);
  return { u, v, w: -900 * draw(), du: du / length, dv: dv / length, dw: 1 / length };
}

function wayOver(field: HeightField, draw: () => number) {
  const d = domainOf(field);
  const end = () => ({ u: d.u0 + draw() * (d.u1 - d.u0), v: d.v0 + draw() * (d.v1 - d.v0), w: 5 + draw() * 600 });
  return [end(), end()] as const;
}

function medianUs(ask: (k: number) => number, count = 4000): number {
  for (let k = 0; k < 6000; k++) sink += ask(k + 17);
  const times = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const start = performance.now();
    sink += ask(k);
    times[k] = performance.now() - start;
  }
  if (!Number.isFinite(sink)) throw new Error('a figure was not a number');
  return 1000 * times.sort()[count >> 1]!;
}

/** Median over runs of 200, for what is over sooner than the clock ticks. */
function runUs(ask: (k: number) => number): number {
  const many = (k: number) => {
    let sum = 0;
    for (let n = 0; n < 200; n++) sum += ask(200 * k + n);
    return sum;
  };
  return medianUs(many, 300) / 200;
}

function mostNets(draw: () => number): number {
  let most = 0;
  for (let k = 0; k < 100_000; k++) {
    const { countU, countV } = lattices[k % 3]!;
    const field = fieldLike(countU, countV, draw);
    most = Math.max(most, rangeMax(field, k % 2 === 0 ? footprint(field, k) : partOf(field, draw)).nodes);
  }
  return most;
}

/** Two side walls, back, floor and ceiling, made from their control values up to all bounds. */
function prepareUs(walls: HeightField[][]): number {
  const [side, back, floor] = walls as [HeightField[], HeightField[], HeightField[]];
  return medianUs((k) => {
    let sum = 0;
    for (const old of [side[k % 500]!, side[(k + 1) % 500]!, back[k % 500]!, floor[k % 500]!, floor[(k + 1) % 500]!]) {
      const field = heightField(old);
      sum += patchesOf(field).hulls[3]! + slopesOf(field).perU;
    }
    return sum;
  });
}
