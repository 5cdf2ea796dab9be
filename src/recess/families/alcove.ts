/**
 * The alcove beside a chimney breast: sizes, small defects on every surface, trims and the cornice return.
 *
 * The party wall runs on into the room; the breast's wall begins at its arris, at the mouth.
 */
import { between, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import { type BreastSide, extentsOf, type RecessSpec, type Trim } from '../recess-spec.ts';
import { alcoveStructures, drawAlcoveStructure } from './alcove-structures.ts';
import type { Family, FamilyDraw } from './family.ts';
import { drawSurfaces, drawWaves } from './small-defects.ts';

const whySize = purpose('recess/alcove/size');
const whyTrim = purpose('recess/alcove/trim');

export const alcove: Family = {
  name: 'alcove',
  says: 'an alcove beside a chimney breast',
  structures: alcoveStructures,
  draw: drawAlcove,
};

/** Numbers of the trims that the brief needs to know. */
export interface TrimSizes {
  readonly skirtingHeightMm: number;
  readonly skirtingThicknessMm: number;
  readonly corniceDropMm: number;
}

/** What of an alcove the trims are drawn from. */
type Base = Pick<RecessSpec, 'openingMm' | 'mouthMm'> & { readonly breastSide: BreastSide };

/**
 * Draws the spec of an alcove.
 *
 * @param from - the room's key; structure and severity name what is drawn around it
 * @throws {RangeError} if the alcove has no such structure
 * @returns a spec whose sizes are whole 10 mm and whose defects are whole sixteenths of a millimetre
 */
export function drawAlcove(from: FamilyDraw): RecessSpec {
  const { key, severity } = from;
  const structure = alcoveStructures.find((s) => s.name === from.structure);
  if (!structure) throw new RangeError(`alcove: no structure is named ${JSON.stringify(from.structure)}`);
  const tens = (index: number, low: number, high: number) =>
    10 * Math.round(between(key, whySize, { index, from: low / 10, to: high / 10 }));
  const openingMm = { width: tens(0, 760, 1480), height: tens(1, 2220, 2560), depth: tens(2, 330, 600) };
  const mouthMm = -tens(3, 20, 60);
  const breastSide = pick(key, whySize, { index: 4, count: 2 }) === 0 ? 'left' : 'right';
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
    surfaces: drawSurfaces({
      family: 'alcove',
      key,
      severity,
      openingMm,
      sides: ['left', 'right', 'back', 'floor', 'ceiling'],
      own: drawAlcoveStructure(structure, { key, scale: severity.scale, openingMm, breast: breastSide }),
    }),
    trims: alcoveTrims(key, { openingMm, mouthMm, breastSide }),
    reference: {
      kind: 'cornice-return',
      heightMm: openingMm.height - 90,
      wavesMm: drawWaves('alcove', key, severity.scale),
    },
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

/** Draws the trims of an alcove: skirting on its walls, a cornice along the back and the party wall, or none. */
export function alcoveTrims(key: DrawKey, base: Base): Trim[] {
  const trims: Trim[] = [];
  if (pick(key, whyTrim, { index: 0, count: 4 }) > 0) trims.push(...skirtings(key, base));
  if (pick(key, whyTrim, { index: 1, count: 2 }) > 0) trims.push(...cornices(key, base));
  return trims;
}

function skirtings(key: DrawKey, base: Base): Trim[] {
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
function cornices(key: DrawKey, base: Base): Trim[] {
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
