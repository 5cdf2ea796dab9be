/** What the other measures showed, in words. */
import { sayLength, sayRoughly, sayWritten } from '../../recess/lengths.ts';
import type { SeenTool } from '../../survey/learner-view.ts';

/** Says what a straight-edge, a spirit level or 3-4-5 showed. */
export function sayTool({ act, toolMm }: SeenTool): string {
  const [first = 0, second = 0] = toolMm;
  if (act.act === 'edge')
    return `widest gap ${sayLength(first)}, ${sayRoughly(second)} along the ${sayWritten(act.lengthMm)}`;
  if (act.act === 'three-four-five') return `${sayWritten(5 * act.unitMm)} reads ${sayLength(first)}`;
  if (sayLength(Math.abs(first)) === sayLength(0)) return `not out over ${sayWritten(act.lengthMm)}`;
  const surface = 'surface' in act.place ? act.place.surface : 'left';
  const upright = ['left', 'right', 'back'].includes(surface);
  const end = upright ? 'top' : 'right-hand end';
  // Into the free space is in on a wall, up on a floor and down overhead.
  const high = first > 0 === (surface === 'floor') ? 'is high by' : 'is low by';
  const way = upright ? (first > 0 ? 'comes in' : 'goes out') : high;
  const turned = act.turnedRound ? ', turned' : '';
  return `its ${end} ${way} ${sayLength(Math.abs(first))} in ${sayWritten(act.lengthMm)}${turned}`;
}
