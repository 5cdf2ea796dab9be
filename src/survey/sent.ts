/**
 * What was sent to the workshop for the brief: the carcass, or the lining where one is asked for.
 */
import { type CarcassSizes, slopeLine } from '../exercise/brief.ts';
import type { ActOf } from './act.ts';
import { pieceOf } from './size.ts';
import type { Survey } from './survey.ts';

/** Gives the carcass or lining that was sent, mm; null where none was. */
export function boxSent(survey: Pick<Survey, 'world' | 'proposal'>): NonNullable<ActOf<'propose'>['carcassMm']> | null {
  const { proposal } = survey;
  const said = pieceOf(survey.world.exercise.brief) === 'lining' ? proposal?.liningMm : proposal?.carcassMm;
  return said ?? null;
}

/** Gives the same as sizes that a carcass can be asked about by; a sloped edge that was not sent is the brief's. */
export function sizesSent(survey: Pick<Survey, 'world' | 'proposal'>): CarcassSizes | null {
  const said = boxSent(survey);
  if (!said) return null;
  const { slope, notch } = survey.world.exercise.brief;
  const line = slope && { lowMm: said.slope?.low ?? slope.lowMm, highMm: said.slope?.high ?? slope.highMm };
  return {
    widthMm: said.width,
    heightMm: said.height,
    depthMm: said.depth,
    ...(slope && line ? { slope: slopeLine(slope.low, line) } : {}),
    ...(notch ? { notch } : {}),
  };
}
