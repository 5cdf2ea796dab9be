/**
 * Proposing: the sizes for the workshop, from what was worked out; what is not to be found goes as it stands.
 */
import { type Brief, type CarcassSizes, slopeLine } from '../exercise/brief.ts';
import { turnUpHeight } from '../exercise/standing-up.ts';
import { wayIn, wayInQuestions } from '../exercise/way-in.ts';
import type { ActOf } from '../survey/act.ts';
import { pieceOf, type SizeName } from '../survey/size.ts';
import type { WorkedSize } from '../survey/working-out.ts';
import type { Hand } from './hand.ts';

/** The sizes of a proposal, by name. */
export type Sizes = Readonly<Partial<Record<SizeName, number>>>;

/** Proposes what was worked out, and says whether it stands up. */
export function proposeWorked(hand: Hand, worked: readonly WorkedSize[]): void {
  proposeSizes(
    hand,
    Object.fromEntries(worked.flatMap((w) => (w.workshopMm === null ? [] : [[w.size, w.workshopMm]]))),
  );
}

/** Proposes sizes; a size of the carcass or lining that is missing or not to be found goes at its nominal. */
export function proposeSizes(hand: Hand, sizes: Sizes, more: Partial<ActOf<'propose'>> = {}): void {
  const { brief } = hand.now().world.exercise;
  const piece = pieceOf(brief);
  const box = {
    width: boxSize(brief, 'width', sizes[`${piece}-width`]),
    height: boxSize(brief, 'height', sizes[`${piece}-height`]),
    depth: boxSize(brief, 'depth', sizes[`${piece}-depth`]),
  };
  const width = sizes['frame-width'];
  const height = sizes['frame-height'];
  const frame = width !== undefined && height !== undefined ? { frameMm: { width, height } } : {};
  const edge = slopeSent(brief, sizes);
  const carcass = carcassSent(brief, box, edge);
  sayStandUp(hand, brief, carcass);
  sayWayIn(hand, brief, carcass);
  const made = piece === 'lining' ? { liningMm: box } : { carcassMm: { ...box, ...(edge ? { slope: edge } : {}) } };
  hand.act({ act: 'propose', ...made, ...frame, ...more });
}

function boxSize(brief: Brief, name: 'width' | 'height' | 'depth', found: number | undefined): number {
  const { find, nominalMm } = brief.carcassMm[name];
  return find && found !== undefined ? found : nominalMm;
}

/** The sloped edge as found; what is missing or not to be found goes at its nominal. */
function slopeSent({ slope }: Brief, sizes: Sizes): { low: number; high: number } | null {
  if (!slope) return null;
  const found = (name: 'slope-low' | 'slope-high') => (slope.find ? sizes[name] : undefined);
  return { low: found('slope-low') ?? slope.lowMm, high: found('slope-high') ?? slope.highMm };
}

/** What is sent, as sizes that a carcass can be asked about by. */
function carcassSent(
  { slope, notch }: Brief,
  box: { width: number; height: number; depth: number },
  edge: { low: number; high: number } | null,
): CarcassSizes {
  return {
    widthMm: box.width,
    heightMm: box.height,
    depthMm: box.depth,
    ...(slope && edge ? { slope: slopeLine(slope.low, { lowMm: edge.low, highMm: edge.high }) } : {}),
    ...(notch ? { notch } : {}),
  };
}

/** Corner to corner against the height where it is stood up. */
function sayStandUp(hand: Hand, brief: Brief, carcass: CarcassSizes): void {
  if (!brief.access) return;
  const needs = turnUpHeight(carcass, brief.access.plinthSeparate ? 0 : brief.plinthMm);
  hand.act({ act: 'say', question: 'stand-up', answer: needs <= brief.access.clearHeightMm ? 'yes' : 'no' });
}

/** The sizes against the door and the turn that the brief tells of. */
function sayWayIn(hand: Hand, brief: Brief, carcass: CarcassSizes): void {
  const way = wayIn(brief, carcass);
  for (const question of wayInQuestions) {
    const found = way?.[question];
    if (found) hand.act({ act: 'say', question, answer: found.ok ? 'yes' : 'no' });
  }
}
