/**
 * Briefs for the alcove, drawn with the room: sizes are common practice for fitted joinery, from memory, no source.
 */
import { type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import { trimSizes } from '../../recess/families/alcove.ts';
import type { Fate, RecessSpec, TrimKind } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { like } from './like.ts';

const why = purpose('exercise/alcove-brief');

/**
 * Room between the opening and the nominal carcass, mm, by severity: as little as lets the nominal itself go in, so that
 * what is found is near to it.
 */
const spare: Readonly<Record<string, { width: number; height: number; depth: number }>> = {
  settled: { width: 22, height: 18, depth: 14 },
  old: { width: 32, height: 28, depth: 22 },
  stone: { width: 44, height: 40, depth: 30 },
};

/**
 * Draws the brief of an alcove.
 *
 * @param spec - the room; only its outline, trims' sizes and severity are looked at, never its defects
 */
export function drawAlcoveBrief(spec: RecessSpec): Brief {
  const key: DrawKey = spec.key;
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, why, { index, count: of.length })] as T;
  const trims = trimSizes(spec);
  const { width, height, depth } = spec.openingMm;
  const loose = spare[like(spec.severity)] ?? { width: 60, height: 60, depth: 40 };
  const thickness = one(0, [18, 20, 22, 25]);
  const skirtingStays = one(1, [true, false]);
  const corniceStays = one(2, [true, false]);
  const side = one(3, [2, 3, 4, 5]);
  const drop = corniceStays ? trims.corniceDropMm : 0;
  const plinth = plinthClearOf(trims.skirtingHeightMm, one(4, [80, 100, 120, 150]));
  const thick = skirtingStays && trims.skirtingHeightMm > plinth ? trims.skirtingThicknessMm : 0;
  const down = (mm: number) => 10 * Math.floor(mm / 10);
  const most = { settled: 25, old: 35, stone: 50 }[like(spec.severity)] ?? 50;
  const carcass = {
    width: { nominalMm: down(width - loose.width - 2 * thick), find: true },
    height: { nominalMm: down(height - plinth - drop - loose.height), find: true },
    depth: { nominalMm: down(depth - thickness - loose.depth - thick), find: one(5, [true, true, false]) },
  };
  return {
    openingMm: { width, height, depth },
    mouthMm: spec.mouthMm,
    reference: 'cornice-return',
    referenceWaverMm: { settled: 1, old: 1.5, stone: 2.5 }[like(spec.severity)] ?? 2.5,
    carcassFrontMm: thickness,
    carcassMm: carcass,
    askMm: { left: side, right: side, top: one(6, [5, 6, 8, 10]), back: one(7, [5, 8, 10]) },
    plinthMm: plinth,
    frame: { thicknessMm: thickness, leastStockMm: one(8, [3, 4, 5]), mostStockMm: most },
    finishMm: [],
    fates: Object.fromEntries(spec.trims.map((t) => [t.name, fateOf(t.kind, { skirtingStays, corniceStays })])),
    access: standUp({ height: height - plinth - drop, depth: depth - thickness, allowMm: one(9, [25, 60, 110]) }),
  };
}

/** No edge of a band that stays may lie within 15 mm of the carcass's bottom, wherever the floor's high point is. */
function plinthClearOf(skirtingHeight: number, wanted: number): number {
  if (skirtingHeight === 0) return wanted;
  const choices = [wanted, 80, 100, 120, 150, 60];
  return choices.find((p) => Math.abs(skirtingHeight - p) >= 55) ?? 60;
}

function fateOf(kind: TrimKind, keep: { skirtingStays: boolean; corniceStays: boolean }): Fate {
  if (kind === 'skirting') return keep.skirtingStays ? 'stays' : 'off';
  return keep.corniceStays ? 'stays' : 'cut';
}

/** The room where it is stood up is tall enough for the largest carcass that could be found, by what is allowed. */
function standUp(most: { height: number; depth: number; allowMm: number }): Brief['access'] {
  const diagonal = Math.sqrt(most.height * most.height + most.depth * most.depth);
  return { clearHeightMm: 10 * Math.ceil((diagonal + most.allowMm) / 10), plinthSeparate: true };
}
