/**
 * The run from wall to wall: both end walls run on into the room; radiator, sockets and pipes on the back, a beam under
 * the ceiling. Sizes are common practice, no source.
 */
import { between, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import { extentsOf, type RecessSpec, type Trim } from '../recess-spec.ts';
import type { Family, FamilyDraw } from './family.ts';
import { runStructures } from './run-structures.ts';
import { drawSurfaces, drawWaves } from './small-defects.ts';
import { drawStructure, structureDraw } from './structure.ts';
import { type BoxAt, boxOnBack, skirtingOn, tooNear, underCeiling } from './wall-trims.ts';

const whySize = purpose('recess/run/size');
const whyTrim = purpose('recess/run/trim');

export const run: Family = {
  name: 'run',
  says: 'a run from wall to wall, several carcasses long',
  structures: runStructures,
  draw: drawRun,
};

/** What the face line of a run may follow, with how high it is looked at; a joint lies on the floor itself. */
const references = [
  { kind: 'floor-joint', heightMm: 0 },
  { kind: 'tile-joint', heightMm: 0 },
  { kind: 'opposite-wall', heightMm: 1000 },
] as const;

function drawRun(from: FamilyDraw): RecessSpec {
  const { key, severity } = from;
  const structure = runStructures.find((s) => s.name === from.structure);
  if (!structure) throw new RangeError(`run: no structure is named ${JSON.stringify(from.structure)}`);
  const tens = (index: number, low: number, high: number) =>
    10 * Math.round(between(key, whySize, { index, from: low / 10, to: high / 10 }));
  const openingMm = { width: tens(0, 1900, 4400), height: tens(1, 2200, 2600), depth: tens(2, 350, 650) };
  const reference = references[pick(key, whySize, { index: 3, count: references.length })] ?? references[0];
  const draw = structureDraw({ family: 'run', structure: structure.name }, { key, openingMm });
  return {
    format: 'offtrue-spec',
    version: 1,
    family: 'run',
    structure: structure.name,
    severity: severity.name,
    openingMm,
    mouthMm: 0,
    breastSide: null,
    key: [key[0], key[1], key[2], key[3]],
    surfaces: drawSurfaces({
      family: 'run',
      key,
      severity,
      openingMm,
      sides: ['left', 'right', 'back', 'floor', 'ceiling'],
      own: drawStructure(structure, draw, severity.scale),
    }),
    trims: drawTrims(key, { openingMm, mouthMm: 0 }),
    reference: { ...reference, wavesMm: drawWaves('run', key, severity.scale) },
  };
}

type Base = Pick<RecessSpec, 'openingMm' | 'mouthMm'>;

function drawTrims(key: DrawKey, base: Base): Trim[] {
  const extents = extentsOf(base);
  const { width, depth } = base.openingMm;
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, whyTrim, { index, count: of.length })] as T;
  const skirting = { tall: one(1, [95, 120, 145, 170]), thick: one(2, [15, 16, 17, 18, 19, 20]) };
  const kind = one(3, [null, null, 'coving', 'cornice'] as const);
  const band = kind && { kind, out: one(4, [120, 127, 140]), drop: one(5, [70, 90, 110]) };
  const walls = ['left', 'right', 'back'] as const;
  return [
    ...(one(0, [true, true, true, false]) ? walls.map((side) => skirtingOn(side, extents, skirting)) : []),
    ...(band
      ? walls.map((side) => underCeiling(side, { band, extents, wall: side === 'back' ? depth : width / 2 }))
      : []),
    ...(one(6, [true, false, false]) ? [beam(key, base)] : []),
    ...services(key, width),
  ];
}

/** A downstand along the front, or one that crosses from the front to the back. */
function beam(key: DrawKey, base: Base): Trim {
  const { x, y } = extentsOf(base);
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, whyTrim, { index, count: of.length })] as T;
  const drop = one(7, [60, 90, 120, 150]);
  const common = { name: 'beam', kind: 'beam', surface: 'ceiling' } as const;
  if (one(8, [true, false])) {
    const back = one(9, [60, 90, 120]);
    const mm: [number, number][] = [
      [y[0], drop],
      [back, drop],
    ];
    return { ...common, uMm: [x[0], x[1]], vMm: [y[0], back], profile: { along: 'v', mm } };
  }
  const wide = one(9, [120, 150, 200]);
  const at = 10 * Math.round(0.035 * base.openingMm.width * between(key, whyTrim, { index: 10, from: -1, to: 1 }));
  const mm: [number, number][] = [
    [at - wide / 2, drop],
    [at + wide / 2, drop],
  ];
  return { ...common, uMm: [at - wide / 2, at + wide / 2], vMm: [y[0], y[1]], profile: { along: 'u', mm } };
}

/** A radiator, a pipe boxing and up to three sockets, none in the way of another. */
function services(key: DrawKey, width: number): Trim[] {
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, whyTrim, { index, count: of.length })] as T;
  const along = (index: number, wide: number) =>
    10 * Math.round(between(key, whyTrim, { index, from: -1, to: 1 }) * ((width - wide) / 20 - 25));
  const boxes: { name: string; kind: Trim['kind']; at: BoxAt }[] = [];
  const put = (name: string, kind: Trim['kind'], at: BoxAt) => {
    if (boxes.every((b) => !tooNear(b.at, at, 90))) boxes.push({ name, kind, at });
  };
  if (one(20, [true, false])) {
    const wide = one(21, [600, 800, 1000, 1200]);
    put('radiator', 'radiator', { x: along(22, wide), foot: 220, width: wide, height: one(23, [450, 600]), out: 100 });
  }
  if (one(24, [true, false, false])) {
    const wide = one(25, [140, 180, 240]);
    const at = { x: along(26, wide), foot: one(27, [240, 300, 420]), width: wide, height: one(28, [140, 200, 260]) };
    put('pipe boxing', 'pipe-boxing', { ...at, out: one(29, [60, 75, 90]) });
  }
  const sockets = one(30, [0, 1, 2, 3]);
  for (let i = 0; i < sockets; i++) {
    const wide = one(40 + i, [86, 146]);
    const foot = one(50 + i, [300, 450, 1100]);
    put(`socket ${i + 1}`, 'socket-box', {
      x: along(60 + i, wide),
      foot,
      width: wide,
      height: 86,
      out: one(70 + i, [30, 40]),
    });
  }
  return boxes.map((b) => boxOnBack(b.name, b.kind, b.at));
}
