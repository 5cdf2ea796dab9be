/**
 * Structures: which surface of a recess is bad, and how. Each adds its own defects to the small ones that every surface
 * has, so that two codes of one exercise differ in what decides, not only in millimetres.
 */
import { between, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { Defect, FamilyName, RecessSpec, Side } from '../recess-spec.ts';

export interface Structure<Draw extends StructureDraw = StructureDraw> {
  readonly name: string;
  readonly says: string;
  /** The defects it adds, before the severity's scale is put on their sizes. */
  add(draw: Draw): readonly PlacedDefect[];
}

export interface PlacedDefect {
  readonly side: Side;
  readonly defect: Defect;
}

export interface StructureDraw {
  readonly openingMm: RecessSpec['openingMm'];
  /** An even draw from - to, by its own index. */
  size(index: number, from: number, to: number): number;
  /** One of a number of choices, by its own index. */
  choice(index: number, count: number): number;
}

/** Gives the draws of a structure of a family, keyed by both names. */
export function structureDraw(
  of: { family: FamilyName; structure: string },
  from: { key: DrawKey; openingMm: RecessSpec['openingMm'] },
): StructureDraw {
  const why = purpose(`recess/${of.family}/${of.structure}`);
  return {
    openingMm: from.openingMm,
    size: (index, low, high) => between(from.key, why, { index, from: low, to: high }),
    choice: (index, count) => pick(from.key, why, { index, count }),
  };
}

/** Draws a structure's own defects, its sizes scaled. */
export function drawStructure<Draw extends StructureDraw>(
  structure: Structure<Draw>,
  draw: Draw,
  scale: number,
): readonly PlacedDefect[] {
  return structure
    .add(draw)
    .map(({ side, defect }) => ({ side, defect: { ...defect, mm: toGrain(defect.mm * scale) } }));
}

/** Sizes are whole sixteenths of a millimetre, so that a spec is short to read and exact to copy; never -0, which no file keeps. */
export function toGrain(mm: number): number {
  return 0 + Math.round(mm * 16) / 16;
}

/** Puts a defect on a side. */
export function at(side: Side, defect: Defect): PlacedDefect {
  return { side, defect };
}
