/**
 * The least that a good survey reads, by the kind of recess: the plan that a careful learner begins with, to go on from
 * where a wall is not straight.
 *
 * @source three heights by two depths: VET learning text for unit MSFKB3003; the rest is common practice, no source
 */
import type { Brief } from '../exercise/brief.ts';
import type { FamilyName } from '../recess/recess-spec.ts';
import type { Density } from './reading-plan.ts';

/** Side walls at three heights, front and back; the back at three by three; floor and ceiling at corners and middles. */
const alcove: Density = {
  wallHeights: 3,
  wallDepths: 2,
  backHeights: 3,
  backWidths: 3,
  flatWidths: 3,
  flatDepths: 2,
};

/** How far apart a long back, floor or ceiling is read, mm. */
const alongMm = 600;

/** Gives the least that is read of a kind of recess. */
export function minimumReadings(family: FamilyName, brief: Pick<Brief, 'openingMm'>): Density {
  const along = Math.max(3, Math.ceil(brief.openingMm.width / alongMm) + 1);
  switch (family) {
    case 'run':
    case 'plain-wall':
      return { ...alcove, backWidths: along, flatWidths: along };
    case 'under-stair':
    case 'roof-slope':
      // Under a slope, five places along it.
      return { ...alcove, flatWidths: Math.max(5, along), flatDepths: 3 };
    default:
      return alcove;
  }
}
