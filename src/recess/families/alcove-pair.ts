/**
 * The pair of alcoves: one either side of a chimney breast, with one straight line past the breast for both.
 *
 * Each alcove is a recess of its own, in a frame of its own; the breast's two cheeks begin at its face, the mouth. The
 * reference is a joint of the floor boards that runs on in front of the breast, across both.
 */
import { between, bits, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { RecessSpec } from '../recess-spec.ts';
import { alcoveTrims } from './alcove.ts';
import { pairStructures } from './alcove-pair-structures.ts';
import type { Family, FamilyDraw } from './family.ts';
import { drawSurfaces, drawWaves } from './small-defects.ts';
import { type PlacedDefect, structureDraw, toGrain } from './structure.ts';

const whySize = purpose('recess/alcove-pair/size');
const whyKey = purpose('recess/alcove-pair/second-key');

/** How far above the nominal floor the joint is sighted. */
const jointMm = 25;

export const alcovePair: Family = {
  name: 'alcove-pair',
  says: 'a pair of alcoves, one either side of a chimney breast',
  structures: pairStructures,
  draw: drawPair,
};

/**
 * Draws the spec of a pair of alcoves.
 *
 * @throws {RangeError} if the pair has no such structure
 */
export function drawPair(from: FamilyDraw): RecessSpec {
  const { key, severity } = from;
  const structure = pairStructures.find((s) => s.name === from.structure);
  if (!structure) throw new RangeError(`pair of alcoves: no structure is named ${JSON.stringify(from.structure)}`);
  const tens = (index: number, low: number, high: number) =>
    10 * Math.round(between(key, whySize, { index, from: low / 10, to: high / 10 }));
  const height = tens(0, 2220, 2560);
  const depth = tens(1, 330, 560);
  const left = { width: tens(2, 760, 1240), height, depth };
  const right = { width: left.width + 10 * pick(key, whySize, { index: 3, count: 25 }) - 120, height, depth };
  const breast = tens(4, 1040, 1460);
  const atXMm = left.width / 2 + breast + right.width / 2;
  const mouthMm = -tens(5, 20, 60);
  const own = structure.add({
    ...structureDraw({ family: 'alcove-pair', structure: structure.name }, { key, openingMm: left }),
    right,
  });
  const surfaces = (of: { key: DrawKey; openingMm: RecessSpec['openingMm']; own: readonly PlacedDefect[] }) =>
    drawSurfaces({
      ...of,
      family: 'alcove-pair',
      severity,
      sides: ['left', 'right', 'back', 'floor', 'ceiling'],
      own: of.own.map(({ side, defect }) => ({ side, defect: { ...defect, mm: toGrain(defect.mm * severity.scale) } })),
    });
  const secondKey = keyOfSecond(key);
  return {
    format: 'offtrue-spec',
    version: 1,
    family: 'alcove-pair',
    structure: structure.name,
    severity: severity.name,
    openingMm: left,
    mouthMm,
    breastSide: 'right',
    key: [key[0], key[1], key[2], key[3]],
    surfaces: surfaces({ key, openingMm: left, own: own.left }),
    trims: alcoveTrims(key, { openingMm: left, mouthMm, breastSide: 'right' }),
    reference: {
      kind: 'floor-joint',
      heightMm: jointMm,
      wavesMm: drawWaves('alcove-pair', key, severity.scale),
      overMm: [-left.width / 2, atXMm + right.width / 2],
    },
    second: {
      atXMm,
      openingMm: right,
      mouthMm,
      breastSide: 'left',
      key: secondKey,
      surfaces: surfaces({ key: secondKey, openingMm: right, own: own.right }),
      // The same skirting and cornice as in the left alcove, for they are drawn by the same key.
      trims: alcoveTrims(key, { openingMm: right, mouthMm, breastSide: 'left' }).map((t) => ({
        ...t,
        name: `${t.name}, right alcove`,
      })),
    },
  };
}

function keyOfSecond(key: DrawKey): [number, number, number, number] {
  return [bits(key, whyKey, 0), bits(key, whyKey, 1), bits(key, whyKey, 2), bits(key, whyKey, 3)];
}
