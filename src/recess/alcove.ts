/**
 * The alcove beside a chimney breast: sizes, small defects on every surface, trims and the cornice return.
 *
 * The party wall runs on into the room; the breast's wall begins at its arris, at the mouth.
 */
import { bell, bellToUnitDeviation, between, type DrawKey, pick, purpose } from '../chance/keyed-draws.ts';
import { drawStructure, type Structure, toGrain } from './alcove-structures.ts';
import { type Defect, extentsOf, type RecessSpec, type Side, type SurfaceSpec, type Trim } from './recess-spec.ts';
import type { Severity } from './severity.ts';

const whySize = purpose('recess/alcove/size');
const whySmall = purpose('recess/alcove/small');
const whyTrim = purpose('recess/alcove/trim');
const whyWaves = purpose('recess/alcove/waves');

/** Numbers of the trims that the brief needs to know. */
export interface TrimSizes {
  readonly skirtingHeightMm: number;
  readonly skirtingThicknessMm: number;
  readonly corniceDropMm: number;
}

/**
 * Draws the spec of an alcove.
 *
 * @param from - the room's key; structure and severity name what is drawn around it
 * @returns a spec whose sizes are whole 10 mm and whose defects are whole sixteenths of a millimetre
 */
export function drawAlcove(from: { key: DrawKey; structure: Structure; severity: Severity }): RecessSpec {
  const { key, structure, severity } = from;
  const tens = (index: number, low: number, high: number) =>
    10 * Math.round(between(key, whySize, { index, from: low / 10, to: high / 10 }));
  const openingMm = { width: tens(0, 760, 1480), height: tens(1, 2220, 2560), depth: tens(2, 330, 600) };
  const mouthMm = -tens(3, 20, 60);
  const breastSide = pick(key, whySize, { index: 4, count: 2 }) === 0 ? 'left' : 'right';
  const defects = smallDefects(key, severity.scale, openingMm);
  const own = drawStructure(structure, { key, scale: severity.scale, openingMm, breast: breastSide });
  for (const { side, defect } of own) defects[side].push(defect);
  return {
    format: 'offtrue-spec',
    version: 1,
    family: 'alcove',
    structure: structure.name,
    severity: severity.name,
    openingMm,
    mouthMm,
    breastSide,
    key: [key[0], key[1], key[2], key[3]],
    surfaces: {
      left: surfaceOf(defects.left, { severity, key, index: 0 }),
      right: surfaceOf(defects.right, { severity, key, index: 1 }),
      back: surfaceOf(defects.back, { severity, key, index: 2 }),
      floor: surfaceOf(defects.floor, { severity, key, index: 3 }),
      ceiling: surfaceOf(defects.ceiling, { severity, key, index: 4 }),
    },
    trims: drawTrims(key, { openingMm, mouthMm, breastSide }),
    reference: { kind: 'cornice-return', heightMm: openingMm.height - 90, wavesMm: drawWaves(key, severity.scale) },
  };
}

/** Gives the sizes of a spec's trims; 0 where there is none. */
export function trimSizes(spec: RecessSpec): TrimSizes {
  const skirting = spec.trims.find((t) => t.kind === 'skirting');
  const cornice = spec.trims.find((t) => t.kind === 'cornice');
  const most = (t: Trim | undefined) => (t ? Math.max(...t.profile.mm.map(([, out]) => out)) : 0);
  return {
    skirtingHeightMm: skirting ? skirting.vMm[1] : 0,
    skirtingThicknessMm: most(skirting),
    corniceDropMm: most(cornice),
  };
}

function surfaceOf(defects: readonly Defect[], from: { severity: Severity; key: DrawKey; index: number }): SurfaceSpec {
  return {
    offsetMm: toGrain(spread(from.key, from.index, 1.2 * from.severity.scale)),
    wobbleMm: from.severity.wobbleMm,
    defects: defects.filter((d) => d.mm !== 0),
  };
}

function smallDefects(key: DrawKey, scale: number, opening: RecessSpec['openingMm']): Record<Side, Defect[]> {
  const mm = (index: number, deviation: number) => toGrain(spread(key, 10 + index, deviation * scale));
  const crown = (index: number) => between(key, whySmall, { index: 60 + index, from: 0.25, to: 0.75 });
  const acrossAt = (index: number) => 0 + Math.round(opening.width * (crown(index) - 0.5));
  const upAt = (index: number) => Math.round(opening.height * crown(index));
  const wall = (i: number): Defect[] => [
    { kind: 'lean', mm: mm(4 * i, 1.6) },
    { kind: 'taper', mm: mm(4 * i + 1, 1.2) },
    { kind: 'bow', mm: mm(4 * i + 2, 1.2), crownV: upAt(i) },
    { kind: 'wind', mm: mm(4 * i + 3, 1) },
  ];
  return {
    left: wall(0),
    right: wall(1),
    back: [
      { kind: 'lean', mm: mm(8, 1.6) },
      { kind: 'skew', mm: mm(9, 1.6) },
      { kind: 'bow', mm: mm(10, 1.4), crownU: acrossAt(2), crownV: upAt(3) },
    ],
    floor: [
      { kind: 'fall', mm: mm(11, 1.6), towards: 'right' },
      { kind: 'fall', mm: mm(12, 0.8), towards: 'back' },
    ],
    ceiling: [
      { kind: 'fall', mm: mm(13, 1.8), towards: 'right' },
      { kind: 'bow', mm: mm(14, 1.2), crownU: acrossAt(4) },
    ],
  };
}

/** A bell-shaped size with a given standard deviation, never past 3.45 of it. */
function spread(key: DrawKey, index: number, deviation: number): number {
  return bell(key, whySmall, index) * bellToUnitDeviation * deviation;
}

function drawTrims(key: DrawKey, base: Pick<RecessSpec, 'openingMm' | 'mouthMm' | 'breastSide'>): Trim[] {
  const trims: Trim[] = [];
  if (pick(key, whyTrim, { index: 0, count: 4 }) > 0) trims.push(...skirtings(key, base));
  if (pick(key, whyTrim, { index: 1, count: 2 }) > 0) trims.push(...cornices(key, base));
  return trims;
}

function skirtings(key: DrawKey, base: Pick<RecessSpec, 'openingMm' | 'mouthMm' | 'breastSide'>): Trim[] {
  const { x, y, z } = extentsOf(base);
  const tall = [95, 120, 145, 170][pick(key, whyTrim, { index: 2, count: 4 })] as number;
  const thick = 15 + pick(key, whyTrim, { index: 3, count: 6 });
  const profile: Trim['profile'] = {
    along: 'v',
    mm: [
      [z[0], thick],
      [tall - 20, thick],
      [tall, Math.ceil(thick / 2)],
    ],
  };
  const band = (side: 'left' | 'right' | 'back', uMm: [number, number]): Trim => ({
    name: `skirting ${side}`,
    kind: 'skirting',
    surface: side,
    uMm,
    vMm: [z[0], tall],
    profile,
  });
  const from = (side: 'left' | 'right') => (side === base.breastSide ? base.mouthMm : y[0]);
  return [band('left', [from('left'), y[1]]), band('right', [from('right'), y[1]]), band('back', [x[0], x[1]])];
}

/** A deep cornice along the back and the party wall, flat beneath, fixed to the ceiling: it drops with it. */
function cornices(key: DrawKey, base: Pick<RecessSpec, 'openingMm' | 'mouthMm' | 'breastSide'>): Trim[] {
  const { x, y } = extentsOf(base);
  const { width, depth } = base.openingMm;
  const out = 120 + 10 * pick(key, whyTrim, { index: 4, count: 4 });
  const drop = 60 + 10 * pick(key, whyTrim, { index: 5, count: 5 });
  const profileTo = (edge: number, end: number): [number, number][] => [
    [edge, 10],
    [edge + 25, drop],
    [end, drop],
  ];
  const back: Trim = {
    name: 'cornice back',
    kind: 'cornice',
    surface: 'ceiling',
    uMm: [x[0], x[1]],
    vMm: [depth - out, y[1]],
    profile: { along: 'v', mm: profileTo(depth - out, y[1]) },
  };
  const right = profileTo(width / 2 - out, x[1]);
  const onLeft = base.breastSide === 'right';
  const party: Trim = {
    name: onLeft ? 'cornice left' : 'cornice right',
    kind: 'cornice',
    surface: 'ceiling',
    uMm: onLeft ? [x[0], -(width / 2 - out)] : [width / 2 - out, x[1]],
    vMm: [y[0], y[1]],
    profile: {
      along: 'u',
      mm: onLeft ? right.map(([at, down]): [number, number] => [0 - at, down]).reverse() : right,
    },
  };
  return [back, party];
}

/** Waves of the cornice return, with mean and slope taken out: the line without them is y = 0. Never -0, which no file keeps. */
function drawWaves(key: DrawKey, scale: number): number[] {
  const count = 7;
  const raw: number[] = [];
  for (let i = 0; i < count; i++) raw.push(bell(key, whyWaves, i) * 1.6 * scale);
  const middle = (count - 1) / 2;
  let mean = 0;
  let slope = 0;
  let spreadSum = 0;
  for (let i = 0; i < count; i++) {
    mean += (raw[i] as number) / count;
    slope += (raw[i] as number) * (i - middle);
    spreadSum += (i - middle) * (i - middle);
  }
  return raw.map((w, i) => 0 + Math.round((w - mean - (slope / spreadSum) * (i - middle)) * 1024) / 1024);
}
