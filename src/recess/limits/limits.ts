/**
 * What a document limits, and how it has it measured.
 *
 * A surface's own u and v are those of `axesOf` (recess-spec.ts). Every measure is the largest size of something linear
 * in the surface: twice the defects are twice the measure.
 */
import type { Defect, FamilyName, Side } from '../recess-spec.ts';
import type { Limit } from './limit.ts';

export interface Limits {
  /** Short, as it is said in a preset's words. */
  readonly document: string;
  readonly edition: string;
  /** Where the numbers were read; a page that only quotes the document is marked so. */
  readonly sources: readonly { readonly url: string; readonly quotes: boolean; readonly gives: string }[];
  readonly surfaces: readonly SurfaceRule[];
  readonly sizes: readonly SizeRule[];
}

export type SurfaceRule = BowRule | DriftRule | EndsRule;

interface Ruled {
  readonly says: string;
  readonly sides: readonly Side[];
  readonly limit: Limit;
}

/** How far the surface leaves the straight line through two of its points; the limit is taken at their distance. */
export interface BowRule extends Ruled {
  readonly measures: 'bow';
  readonly along: 'any' | 'u' | 'v';
  /** Halfway between the two, or wherever between them it is most. */
  readonly at: 'middle' | 'anywhere';
  readonly shortestMm: number;
  readonly longestMm: number;
}

/** How far apart two points of the surface lie square to it; the limit is taken at the whole run, or at `longestMm` where there is one. */
export interface DriftRule extends Ruled {
  readonly measures: 'drift';
  readonly along: 'any' | 'u' | 'v';
  readonly longestMm: number | null;
}

/** The same of two points at opposite edges. */
export interface EndsRule extends Ruled {
  readonly measures: 'ends';
  readonly along: 'u' | 'v';
  /** Straight across; or from any point of one edge to any of the other, the limit taken at their distance. */
  readonly across: 'straight' | 'slanting';
  /** How far off the edges is measured. */
  readonly insetMm: number;
}

/** How far a size leaves its nominal. */
export interface SizeRule {
  readonly says: string;
  readonly of: 'width' | 'height' | 'depth';
  readonly families: 'openings' | 'rooms';
  readonly limit: Limit;
  readonly insetMm: number;
}

/** Families that are openings in a wall; the rest are rooms, as to sizes. */
export const openings: readonly FamilyName[] = ['reveal', 'doorway'];

/** How far off the edges: a quarter of the run at most, so that something is left of a shallow one. */
export function insetOf(insetMm: number, runMm: number): number {
  return Math.min(insetMm, runMm / 4);
}

/** Says whether any rule sees a defect of a side: what none sees is left as it is drawn. */
export function isSeen(limits: Limits, side: Side, defect: Defect): boolean {
  const along = straightAlong(defect);
  if (along === null) return limits.surfaces.some((rule) => rule.sides.includes(side));
  return limits.surfaces.some(
    (rule) => rule.sides.includes(side) && rule.measures !== 'bow' && (rule.along === 'any' || rule.along === along),
  );
}

/** The axis along which a defect is a plain slope, which no bow sees; null: it is none. */
function straightAlong(defect: Defect): 'u' | 'v' | null {
  if (defect.kind === 'lean') return 'v';
  if (defect.kind === 'taper' || defect.kind === 'skew') return 'u';
  if (defect.kind !== 'fall') return null;
  return defect.towards === 'left' || defect.towards === 'right' ? 'u' : 'v';
}
