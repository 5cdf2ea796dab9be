/**
 * What families share in drawing a spec: keyed whole sizes, and the spec around a structure of their own.
 *
 * A family's purposes are `recess/FAMILY/size` and `recess/FAMILY/trim`; indices within them are never given out twice.
 */
import { between, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { FamilyName, RecessSpec, Side, SlopeSpec, Trim } from '../recess-spec.ts';
import type { FamilyDraw } from './family.ts';
import { drawSurfaces, drawWaves } from './small-defects.ts';
import { drawStructure, type Structure, type StructureDraw, structureDraw } from './structure.ts';

/** Draws by index. */
export interface SizeDraws {
  /** A whole 10 mm from low to high, both closed. */
  tens(index: number, low: number, high: number): number;
  one<T>(index: number, of: readonly T[]): T;
}

/** Gives the draws of a family's sizes or trims. */
export function sizeDraws(key: DrawKey, of: { family: FamilyName; what: 'size' | 'trim' }): SizeDraws {
  const why = purpose(`recess/${of.family}/${of.what}`);
  return {
    tens: (index, low, high) => 0 + 10 * Math.round(between(key, why, { index, from: low / 10, to: high / 10 })),
    one: (index, list) => list[pick(key, why, { index, count: list.length })] as (typeof list)[number],
  };
}

/** What a family draws before the defects. */
export interface Drawn {
  readonly openingMm: RecessSpec['openingMm'];
  readonly mouthMm: number;
  readonly sides: readonly Side[];
  readonly slope?: SlopeSpec;
  readonly trims: readonly Trim[];
  readonly reference: { readonly kind: RecessSpec['reference']['kind']; readonly heightMm: number };
}

/**
 * Gives the spec of a drawn room: small defects on every side that is there, its structure's own, and its reference's
 * waves, which differ by what is followed.
 *
 * @throws {RangeError} if the family has no such structure
 */
export function specOfDrawn<Draw extends StructureDraw>(
  from: FamilyDraw,
  of: {
    family: FamilyName;
    structures: readonly Structure<Draw>[];
    drawn: Drawn;
    /** What the family's structures are told beside the usual. */
    told(draw: StructureDraw): Draw;
  },
): RecessSpec {
  const { key, severity } = from;
  const { family, drawn } = of;
  const structure = of.structures.find((s) => s.name === from.structure);
  if (!structure) throw new RangeError(`${family}: no structure is named ${JSON.stringify(from.structure)}`);
  const { openingMm, mouthMm, sides, slope, reference } = drawn;
  const draw = structureDraw({ family, structure: structure.name }, { key, openingMm });
  const own = drawStructure(structure, of.told(draw), severity.scale).filter((placed) => sides.includes(placed.side));
  return {
    format: 'offtrue-spec',
    version: 1,
    family,
    structure: structure.name,
    severity: severity.name,
    openingMm,
    mouthMm,
    breastSide: null,
    key: [key[0], key[1], key[2], key[3]],
    surfaces: drawSurfaces({ family, key, severity, openingMm, sides, own }),
    ...(slope ? { slope } : {}),
    trims: [...drawn.trims],
    reference: { ...reference, wavesMm: drawWaves(family, key, severity.scale * waviness(reference.kind)) },
  };
}

/**
 * How much a reference wavers, against a cornice return: a laid joint less, plaster more; common practice, no source. Runs,
 * plain walls and pairs draw all theirs alike, as their codes were given out.
 */
export function waviness(kind: RecessSpec['reference']['kind']): number {
  if (kind === 'existing-front') return 0.5;
  if (kind === 'tile-joint') return 0.6;
  if (kind === 'floor-joint') return 0.8;
  return kind === 'wall-face' || kind === 'opposite-wall' ? 1.2 : 1;
}

/** How high a joint of the floor is looked at: a little over it, so that no hump hides it, mm. */
export const jointHeightMm = 70;
