/**
 * The plain wall: nothing to either side; rails, sockets and pipes on it. Sizes are common practice, no source.
 */
import { between, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import { extentsOf, type RecessSpec, type Trim } from '../recess-spec.ts';
import type { Family, FamilyDraw } from './family.ts';
import { plainWallStructures } from './plain-wall-structures.ts';
import { drawSurfaces, drawWaves } from './small-defects.ts';
import { drawStructure, structureDraw } from './structure.ts';
import { type BoxAt, boxOnBack, railOnBack, skirtingOn, tooNear, underCeiling } from './wall-trims.ts';

const whySize = purpose('recess/plain-wall/size');
const whyTrim = purpose('recess/plain-wall/trim');

export const plainWall: Family = {
  name: 'plain-wall',
  says: 'a plain wall, open to both sides',
  structures: plainWallStructures,
  draw: drawPlainWall,
};

/** What the face line may follow, with how high it is looked at; a joint lies on the floor itself. */
const references = [
  { kind: 'floor-joint', heightMm: 0 },
  { kind: 'existing-front', heightMm: 900 },
  { kind: 'tile-joint', heightMm: 0 },
] as const;

function drawPlainWall(from: FamilyDraw): RecessSpec {
  const { key, severity } = from;
  const structure = plainWallStructures.find((s) => s.name === from.structure);
  if (!structure) throw new RangeError(`plain wall: no structure is named ${JSON.stringify(from.structure)}`);
  const tens = (index: number, low: number, high: number) =>
    10 * Math.round(between(key, whySize, { index, from: low / 10, to: high / 10 }));
  const openingMm = { width: tens(0, 1200, 3600), height: tens(1, 2220, 2600), depth: tens(2, 240, 480) };
  const reference = references[pick(key, whySize, { index: 3, count: references.length })] ?? references[0];
  const draw = structureDraw({ family: 'plain-wall', structure: structure.name }, { key, openingMm });
  return {
    format: 'offtrue-spec',
    version: 1,
    family: 'plain-wall',
    structure: structure.name,
    severity: severity.name,
    openingMm,
    mouthMm: 0,
    breastSide: null,
    key: [key[0], key[1], key[2], key[3]],
    surfaces: drawSurfaces({
      family: 'plain-wall',
      key,
      severity,
      openingMm,
      sides: ['back', 'floor', 'ceiling'],
      own: drawStructure(structure, draw, severity.scale),
    }),
    trims: drawTrims(key, { openingMm, mouthMm: 0 }),
    reference: { ...reference, wavesMm: drawWaves('plain-wall', key, severity.scale) },
  };
}

function drawTrims(key: DrawKey, base: Pick<RecessSpec, 'openingMm' | 'mouthMm'>): Trim[] {
  const extents = extentsOf(base);
  const { width, depth } = base.openingMm;
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, whyTrim, { index, count: of.length })] as T;
  const skirting = { tall: one(1, [95, 120, 145, 170]), thick: one(2, [15, 16, 17, 18, 19, 20]) };
  const kind = one(3, [null, null, 'coving', 'cornice'] as const);
  const band = kind && { kind, out: one(4, [120, 127, 140]), drop: one(5, [70, 90, 110]) };
  const rail = (name: string, index: number, of: { kind: 'dado-rail' | 'picture-rail'; foot: readonly number[] }) =>
    railOnBack(name, of.kind, {
      x: extents.x,
      foot: one(index, of.foot),
      tall: one(index + 1, [50, 60, 70]),
      out: one(index + 2, [18, 22, 26]),
    });
  return [
    ...(one(0, [true, true, true, false]) ? [skirtingOn('back', extents, skirting)] : []),
    ...(band ? [underCeiling('back', { band, extents, wall: depth })] : []),
    ...(one(6, [true, false, false]) ? [rail('dado rail', 7, { kind: 'dado-rail', foot: [860, 900, 940] })] : []),
    ...(one(10, [true, false, false])
      ? [rail('picture rail', 11, { kind: 'picture-rail', foot: [1720, 1770, 1820] })]
      : []),
    ...services(key, width),
  ];
}

/** A pipe boxing and up to three sockets, none in the way of another, all under the dado. */
function services(key: DrawKey, width: number): Trim[] {
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, whyTrim, { index, count: of.length })] as T;
  const along = (index: number, wide: number) =>
    10 * Math.round(between(key, whyTrim, { index, from: -1, to: 1 }) * ((width - wide) / 20 - 5));
  const boxes: { name: string; kind: Trim['kind']; at: BoxAt }[] = [];
  const put = (name: string, kind: Trim['kind'], at: BoxAt) => {
    if (boxes.every((b) => !tooNear(b.at, at, 90))) boxes.push({ name, kind, at });
  };
  if (one(24, [true, false, false, false])) {
    const wide = one(25, [140, 180]);
    const at = { x: along(26, wide), foot: one(27, [240, 300]), width: wide, height: one(28, [140, 200]) };
    put('pipe boxing', 'pipe-boxing', { ...at, out: one(29, [50, 60, 75]) });
  }
  const sockets = one(30, [0, 1, 2, 3]);
  for (let i = 0; i < sockets; i++) {
    const wide = one(40 + i, [86, 146]);
    const foot = one(50 + i, [300, 450, 600]);
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
