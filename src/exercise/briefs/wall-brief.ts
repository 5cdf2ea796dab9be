/**
 * What briefs of rooms whose walls run on have in common: how trims bear on a carcass, and what the eye says of a reference.
 */
import type { Trim } from '../../recess/recess-spec.ts';
import { like } from './like.ts';

/** No edge of a band that stays may lie within 15 mm of the carcass's bottom, wherever the floor's high point is. */
export function clearOfSkirting(skirtingHeight: number, wanted: number): number {
  const choices = [wanted, 80, 100, 120, 150, 60];
  return skirtingHeight <= 0 ? wanted : (choices.find((p) => Math.abs(skirtingHeight - p) >= 55) ?? 60);
}

/** How far the deepest of some bands stands out; 0 where there is none. */
export function mostOut(trims: readonly Trim[]): number {
  return Math.max(0, ...trims.flatMap((t) => t.profile.mm.map(([, out]) => out)));
}

/** How high up the tallest of some bands on walls reaches; 0 where there is none. */
export function mostTall(trims: readonly Trim[]): number {
  return Math.max(0, ...trims.map((t) => t.vMm[1]));
}

/** How far a reference is seen to waver either way, mm, by severity. */
export function seenWaver(severity: string): number {
  return { settled: 1, old: 1.5, stone: 2.5 }[like(severity)] ?? 2.5;
}
