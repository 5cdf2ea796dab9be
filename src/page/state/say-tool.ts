/** What the other measures showed, in words. */
import type { SeenTool } from '../../survey/learner-view.ts';

/** Says what a straight-edge, a spirit level or 3-4-5 showed. */
export function sayTool({ act, toolMm }: SeenTool): string {
  const [first = 0, second = 0] = toolMm.map((mm) => Math.round(mm * 10) / 10);
  if (act.act === 'edge') return `widest gap ${first}, ${Math.round(second)} along the ${act.lengthMm}`;
  if (act.act === 'three-four-five') return `${5 * act.unitMm} reads ${first}`;
  if (Math.abs(first) < 0.05) return `not out over ${act.lengthMm}`;
  const surface = 'surface' in act.place ? act.place.surface : 'left';
  const upright = ['left', 'right', 'back'].includes(surface);
  const end = upright ? 'top' : 'right-hand end';
  // Into the free space is in on a wall, up on a floor and down overhead.
  const high = first > 0 === (surface === 'floor') ? 'is high by' : 'is low by';
  const way = upright ? (first > 0 ? 'comes in' : 'goes out') : high;
  const turned = act.turnedRound ? ', turned' : '';
  return `its ${end} ${way} ${Math.abs(first)} in ${act.lengthMm}${turned}`;
}
