/**
 * Briefs for the pair of alcoves: each has a carcass and a frame as in an alcove that stands alone; the two share the
 * shop's rules, and one line in front of the breast that both faces are set back from.
 */
import { type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { RecessSpec } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { drawAlcoveBrief } from './alcove-brief.ts';

const why = purpose('exercise/pair-brief');

/**
 * Draws the brief of a pair.
 *
 * @throws {RangeError} if the spec has no second recess
 */
export function drawPairBrief(spec: RecessSpec): Brief {
  const { second, ...first } = spec;
  if (!second) throw new RangeError('brief: a pair of alcoves has a second recess');
  const key: DrawKey = spec.key;
  const { atXMm: _at, ...its } = second;
  const shared = {
    reference: spec.reference.kind,
    // Past the breast with room for the light: 60 to 120 in front of its face.
    setBackMm: 10 * Math.round(-spec.mouthMm / 10) + 60 + 10 * pick(key, why, { index: 0, count: 7 }),
  };
  const left = { ...drawAlcoveBrief(first), ...shared };
  // By the same key, so that frame, stock, plinth and what stays are the same on both sides of the breast.
  const right = { ...drawAlcoveBrief({ ...first, ...its, key: spec.key }), ...shared };
  return { ...left, second: right };
}
