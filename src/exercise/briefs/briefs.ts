/**
 * Briefs by family: what is to be made in a recess that a code draws.
 */
import type { FamilyName, RecessSpec } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { drawAlcoveBrief } from './alcove-brief.ts';
import { drawDoorwayBrief, drawRevealBrief } from './lining-brief.ts';
import { drawPairBrief } from './pair-brief.ts';
import { drawPlainWallBrief } from './plain-wall-brief.ts';
import { drawRunBrief } from './run-brief.ts';
import { drawRoofSlopeBrief, drawUnderStairBrief } from './sloped-brief.ts';

const briefs: Readonly<Partial<Record<FamilyName, (spec: RecessSpec) => Brief>>> = {
  alcove: drawAlcoveBrief,
  run: drawRunBrief,
  reveal: drawRevealBrief,
  doorway: drawDoorwayBrief,
  'under-stair': drawUnderStairBrief,
  'roof-slope': drawRoofSlopeBrief,
  'plain-wall': drawPlainWallBrief,
  'alcove-pair': drawPairBrief,
};

/**
 * Draws the brief of a spec, keyed by the room's own key.
 *
 * @throws {RangeError} if the spec's family has none
 */
export function drawBrief(spec: RecessSpec): Brief {
  const draw = briefs[spec.family];
  if (!draw) throw new RangeError(`brief: none is drawn for the family ${spec.family}`);
  return draw(spec);
}
