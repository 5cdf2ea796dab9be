/**
 * A mistake of the library: a rule or a pattern that is computed from the log, the sheet and the true room, never guessed.
 *
 * @source the list M01 to M36 is this project's own; which of them the trade knows is common practice, no source
 */
import type { Act } from '../../survey/act.ts';
import type { SizeName } from '../../survey/size.ts';
import type { Word } from '../ledger-story.ts';
import type { Evidence } from './evidence.ts';

/** The mistakes that can be found, in the order of the list. */
export const mistakeIds = [
  'M01',
  'M02',
  'M03',
  'M04',
  'M05',
  'M06',
  'M07',
  'M08',
  'M09',
  'M10',
  'M11',
  'M12',
  'M13',
  'M14',
  'M15',
  'M16',
  'M17',
  'M18',
  'M19',
  'M20',
  'M21',
  'M22',
  'M23',
  'M24',
  'M25',
  'M26',
  'M27',
  'M28',
  'M29',
  'M30',
  'M31',
  'M32',
  'M33',
  'M34',
  'M35',
  'M36',
] as const;
export type MistakeId = (typeof mistakeIds)[number];

/** The reading or the check that would have caught a mistake. */
export interface Caught {
  /** What to do: acted where the level last stood, errors off, it shows just this; null where it is a sum, not an act. */
  readonly act: Act | null;
  /** Where, in words. */
  readonly where: string;
  /** What would have been seen, mm: the middle of the line, the tape, or how far the face line is off. */
  readonly seenMm: number;
  readonly says: string;
}

/** What a mistake came to in a survey. */
export interface Found {
  /** What it cost here, mm, > 0. */
  readonly costMm: number;
  /** The sizes that it cost, the one that it cost most first; none where it is about the lines and not one size. */
  readonly sizes: readonly SizeName[];
  /** Acts of the log that show it. */
  readonly acts: readonly number[];
  readonly caught: Caught | null;
  readonly happened: readonly Word[];
  readonly did: readonly Word[];
  readonly next: readonly Word[];
}

export interface Mistake {
  readonly id: MistakeId;
  readonly name: string;
  /** Null where it was not made, or cost nothing here. */
  find(from: Evidence): Found | null;
}

/** A cost of no more than this is nothing, mm: the pencil and the half millimetre come to as much. */
export const nothingMm = 1;
