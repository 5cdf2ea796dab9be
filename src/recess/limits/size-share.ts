/**
 * The worst share of a limit that a size takes: how far width, height and depth leave their nominal, at any place that is
 * far enough off the edges.
 *
 * Width between the side walls, depth from the face line to the back, height from floor to ceiling, or to the slope where
 * that is lower. Sizes are straight along their axis, as a plumb or level measure is.
 */
import { type HeightField, heightAt } from '../../geometry/height-field.ts';
import { nominalObstruction } from '../defect-shapes.ts';
import type { RecessSpec, Side } from '../recess-spec.ts';
import { limitAt } from './limit.ts';
import { insetOf, openings, type SizeRule } from './limits.ts';
import { isIn, type SeenPart, seenPart } from './seen-part.ts';

export interface SizeShare {
  readonly share: number;
  readonly says: string;
  /** The sides that the size lies between. */
  readonly sides: readonly Side[];
}

/** Gives the worst share of each size that a rule is for; sizes to an open side are none. */
export function sizeShares(
  spec: RecessSpec,
  fields: Readonly<Record<Side, HeightField>>,
  rules: readonly SizeRule[],
): SizeShare[] {
  const family = openings.includes(spec.family) ? 'openings' : 'rooms';
  return rules
    .filter((rule) => rule.families === family)
    .flatMap((rule) => between[rule.of].map((sides) => ({ rule, sides })))
    .flatMap(({ rule, sides }) => {
      const share = shareOf(spec, fields, { rule, sides });
      return share === null ? [] : [{ share, says: rule.says, sides }];
    });
}

const between: Readonly<Record<SizeRule['of'], readonly (readonly Side[])[]>> = {
  width: [['left', 'right']],
  height: [
    ['floor', 'ceiling'],
    ['floor', 'slope'],
  ],
  depth: [['back']],
};

const stepMm = 32;

function shareOf(
  spec: RecessSpec,
  fields: Readonly<Record<Side, HeightField>>,
  of: { rule: SizeRule; sides: readonly Side[] },
): number | null {
  const { rule, sides } = of;
  const parts = sides.map((side) => seenPart(spec, side));
  if (parts.some((part) => part === null)) return null;
  const whole = parts as readonly SeenPart[];
  let worst = 0;
  const us = placesIn(outline(spec, 'u', { whole, side: sides[0] as Side }), rule.insetMm);
  const vs = placesIn(outline(spec, 'v', { whole, side: sides[0] as Side }), rule.insetMm);
  for (const v of vs)
    for (const u of us) {
      if (!whole.every((part) => isIn(part, u, v))) continue;
      let off = 0;
      for (const side of sides) off += heightAt(fields[side], u, v) - nominalObstruction(spec, side, u);
      worst = Math.max(worst, Math.abs(off) / limitAt(rule.limit, nominalOf(spec, sides, u)));
    }
  return worst;
}

/** The stretch that all parts have, of the recess itself: from the mouth, not from the reach before it. */
function outline(
  spec: RecessSpec,
  along: 'u' | 'v',
  of: { whole: readonly SeenPart[]; side: Side },
): readonly [number, number] {
  const from = Math.max(...of.whole.map((part) => part[along][0]));
  const to = Math.min(...of.whole.map((part) => part[along][1]));
  const isDepth = of.side === 'left' || of.side === 'right' ? along === 'u' : of.side !== 'back' && along === 'v';
  return [isDepth ? Math.max(from, spec.mouthMm) : from, to];
}

function placesIn([from, to]: readonly [number, number], insetMm: number): number[] {
  const inset = insetOf(insetMm, to - from);
  const count = Math.max(1, Math.ceil((to - from - 2 * inset) / stepMm));
  return Array.from({ length: count + 1 }, (_, i) => from + inset + (i * (to - from - 2 * inset)) / count);
}

function nominalOf(spec: RecessSpec, sides: readonly Side[], u: number): number {
  const { width, height, depth } = spec.openingMm;
  if (sides[0] === 'left') return width;
  if (sides[0] === 'back') return depth;
  return sides[1] === 'slope' ? 0 - nominalObstruction(spec, 'slope', u) : height;
}
