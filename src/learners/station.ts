/**
 * A further set-up: the level stands where the rule reaches, is lined up again, and its step to the first square line is
 * read to a mark of that line and carried over.
 */
import { datumName } from '../survey/act.ts';
import { takeReading } from './careful.ts';
import { type EdgeWanted, readEdge } from './cut-out-reading.ts';
import { type Hand, judged, lastAct, unitsInHand } from './hand.ts';
import { standOnReference } from './lining-up.ts';
import type { PlannedReading } from './reading-plan.ts';

/** What the first set-up left to be read. */
export interface LeftToRead {
  readonly readings: PlannedReading[];
  readonly edges: EdgeWanted[];
}

/** Where on the floor out in the room the square line is marked, to be found again from another set-up, mm. */
const stepMarkMm = -700;

/** Marks the square line out in the room; null when it could not be. */
export function markForSteps(hand: Hand): number | null {
  const made = hand.act({ act: 'mark', place: { surface: 'floor', along: 'S', yMm: stepMarkMm } });
  return made.ok ? (made.mark ?? null) : null;
}

/**
 * Stands the level at x, carries the step back to the first square line, and reads what was left.
 *
 * @param mark - the mark of the first square line
 * @returns whether the step was read
 */
export function readFromStation(
  hand: Hand,
  left: LeftToRead,
  at: { xMm: number; heightMm: number; mark: number },
): boolean {
  standOnReference(hand, at.heightMm, Math.round(at.xMm));
  const datum = datumName('S', hand.now().setUps);
  const seen = hand.act({ act: 'read', datum, place: { mark: at.mark } });
  if (!seen.ok || !seen.edgesMm) return false;
  const reading = lastAct(hand);
  const sign = at.xMm < 0 ? -1 : 1;
  hand.act({ act: 'carry', from: datum, to: 'S', stepMm: sign * judged(seen.edgesMm, unitsInHand(hand)), reading });
  for (const planned of left.readings) takeReading(hand, { ...planned, datum });
  for (const wanted of left.edges) readEdge(hand, wanted, datum);
  return true;
}
