/**
 * What a rule would have read at any place of the uncovered room: the reading itself, acted where the level last stood,
 * with errors off.
 */

import type { BayNumber } from '../exercise/bays.ts';
import { sayLength } from '../recess/lengths.ts';
import type { Side } from '../recess/recess-spec.ts';
import { axesOf } from '../recess/recess-spec.ts';
import { datumName, type SurfacePlace } from '../survey/act.ts';
import { surveyIn } from '../survey/in-bay.ts';
import { type RefusalCode, refusalCodes } from '../survey/outcome.ts';
import type { Survey } from '../survey/survey.ts';
import { sayOn } from './place-words.ts';
import { actExactly, handPlaceOf } from './without-errors.ts';

/** A place of a room, by its surface's own coordinates in the true frame of its recess. */
export interface PlaceAsked {
  readonly side: Side;
  readonly u: number;
  readonly v: number;
}

export type WouldRead =
  | {
      readonly ok: true;
      readonly datum: string;
      readonly place: SurfacePlace;
      /** The middle of the line on the rule, mm. */
      readonly seenMm: number;
      /** What the rule's end would have been on: a trim's name, or the bare surface. */
      readonly on: string;
      readonly says: string;
    }
  | { readonly ok: false; readonly code: RefusalCode; readonly says: string };

const datumOf: Readonly<Record<Side, 'F' | 'S' | 'L'>> = {
  left: 'S',
  right: 'S',
  back: 'F',
  floor: 'L',
  ceiling: 'L',
  slope: 'L',
};

/** Gives what would have been read at a place of a recess, from the line that its side is read from. */
export function wouldHaveRead(whole: Survey, asked: PlaceAsked, bay: BayNumber = 1): WouldRead {
  const own = surveyIn(whole, bay);
  const { spec } = own.world.exercise;
  const place = handPlaceOf({ survey: own, bay }, asked.side, asked);
  const where = sayOn(asked.side, placeOf(asked), spec);
  if (!whole.standing) return refused('level/none', where);
  const datum = datumName(datumOf[asked.side], whole.standing.setUp);
  const outcome = actExactly(whole, { act: 'read', datum, place });
  if (!outcome.ok) return refused(outcome.error.code, where);
  if (!outcome.edgesMm) return refused('datum/not-thrown', where);
  const seenMm = (outcome.edgesMm[0] + outcome.edgesMm[1]) / 2;
  const on = outcome.on ?? asked.side;
  const trim = on === asked.side ? '' : `, on the ${on}`;
  return {
    ok: true,
    datum,
    place,
    seenMm,
    on,
    says: `From ${datum} the rule would have shown ${sayLength(seenMm)}: ${where}${trim}.`,
  };
}

/** The asked place as one of the room; across its surface it is of no matter to the words. */
function placeOf({ side, u, v }: PlaceAsked) {
  const axes = axesOf(side);
  return { x: 0, y: 0, z: 0, [axes.u]: u, [axes.v]: v };
}

function refused(code: RefusalCode, where: string): WouldRead {
  return { ok: false, code, says: `No reading there (${where}): ${refusalCodes[code]}.` };
}
