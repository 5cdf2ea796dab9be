/**
 * What the sides of a recess are called, by its kind: a wall, a jamb, a head, a knee wall.
 *
 * @source trade words: window reveal, jamb, head, window board, knee (dwarf) wall, common practice, no source
 */
import type { FamilyName, Side, SlopeSpec } from './recess-spec.ts';

/** What a kind of recess is told by. */
export interface SidesOf {
  readonly family: FamilyName;
  readonly slope?: Pick<SlopeSpec, 'low'> | null | undefined;
}

/** What a side is called where the kind of recess is not known. */
export const usualSideNames: Readonly<Record<Side, string>> = {
  left: 'left wall',
  right: 'right wall',
  back: 'back wall',
  floor: 'floor',
  ceiling: 'ceiling',
  slope: 'slope',
};

const own: Readonly<Partial<Record<FamilyName, Partial<Record<Side, string>>>>> = {
  reveal: { left: 'left jamb', right: 'right jamb', back: 'window', floor: 'bed of the board', ceiling: 'head' },
  doorway: { left: 'left jamb', right: 'right jamb', back: 'far face', ceiling: 'head' },
  'plain-wall': { back: 'wall' },
};

/** Names a side: `left jamb`. */
export function sideName(of: SidesOf, side: Side): string {
  if (of.family === 'roof-slope' && of.slope?.low === side) return 'knee wall';
  return own[of.family]?.[side] ?? usualSideNames[side];
}

/** Says which way a rule goes to a side: `to the left jamb`, `up to the head`. */
export function sayTo(of: SidesOf, side: Side): string {
  const way = side === 'floor' ? 'down to the' : side === 'ceiling' || side === 'slope' ? 'up to the' : 'to the';
  return `${way} ${sideName(of, side)}`;
}
