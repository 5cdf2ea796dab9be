/**
 * What was sent to the workshop for the brief: the carcass, or the lining where one is asked for.
 */
import type { CarcassSizes } from '../exercise/brief.ts';
import type { ActOf } from './act.ts';
import { pieceOf } from './size.ts';
import type { Survey } from './survey.ts';

/** Gives the carcass or lining that was sent, mm; null where none was. */
export function boxSent(survey: Pick<Survey, 'world' | 'proposal'>): NonNullable<ActOf<'propose'>['carcassMm']> | null {
  const { proposal } = survey;
  const said = pieceOf(survey.world.exercise.brief) === 'lining' ? proposal?.liningMm : proposal?.carcassMm;
  return said ?? null;
}

/** Gives the same as sizes that a carcass can be asked about by. */
export function sizesSent(survey: Pick<Survey, 'world' | 'proposal'>): CarcassSizes | null {
  const said = boxSent(survey);
  return said && { widthMm: said.width, heightMm: said.height, depthMm: said.depth };
}
