/**
 * Outcomes: what an act led to. They stand in the log beside the act; a refused act leaves nothing but its refusal.
 *
 * Codes are stable. The wording for people is made elsewhere from code and detail.
 */
export const refusalCodes = {
  'log/handed-in': 'the exercise is handed in: nothing comes after it',
  'stand/not-there': 'nobody can stand a level there: in a wall, in the breast or out of the room',
  'stand/height': 'a level cannot stand so low, nor over the ceiling',
  'stand/not-over': 'that mark is not on the floor near there: the plumb dot does not fall on it',
  'level/none': 'no level is standing',
  'level/out-of-range': 'it leans too far to level itself: its lines flash; stand it elsewhere, or pack its feet',
  'level/not-settled': 'the level has not settled: settle it first',
  'aim/too-near': 'that is too near to the level to aim at',
  'aim/not-seen': 'the level does not see that',
  'kit/none': 'the kit of this exercise has none of those',
  'check/no-estimate': 'an error is allowed for by its size: a level that is used, with its error written down',
  'datum/not-thrown': 'that line is not thrown now',
  'place/coordinates': 'a place is two of its surface’s own coordinates, or one of them and a line that it lies along',
  'place/outside': 'that is beyond the recess',
  'place/no-such-bay': 'there is one recess here, not a pair',
  'line/not-drawn': 'a pencil line runs between two marks of one line on one surface',
  'line/not-there': 'the rule does not lie on that pencil line there',
  'check/which-way': 'that check is not made that way: level fore or side, plumb F or S',
  'place/open': 'there is nothing on that side: it is open',
  'place/no-edge': 'there is no box and no boxing there to hold the rule against',
  'place/line-does-not-cross': 'that line does not cross there',
  'place/no-such-mark': 'there is no such mark',
  'place/needs-surface': 'this act needs a place on a surface, not a mark',
  'mark/needs-line': 'a mark is put where a seen line meets a surface: say which line the place lies along',
  'sight/blocked': 'something stands between the level and that',
  'rule/blocked': 'the rule cannot be held there: something is in its way',
  'rule/too-short': 'the rule does not reach',
  'rule/wrong-way': 'a rule held like that does not meet the line',
  'tape/blocked': 'the tape cannot be held there: something is in its way',
  'tape/no-end': 'a tape from there does not come to that side',
  'trim/none': 'there is no such trim',
  'trim/stays': 'the brief does not let that come off',
  'trim/off-already': 'that has come off already',
  'book/datum': 'an offset is booked from a datum; a span or a diagonal has none and ends at a side or a place',
  'book/no-such-reading': 'no reading was taken in that act',
  'strike/none': 'there is no such booking, or it is struck through already',
  'carry/not-parallel': 'a step is carried between two datums of one kind',
  'hand-in/nothing': 'nothing has been proposed to the workshop',
} as const;

export type RefusalCode = keyof typeof refusalCodes;

/** How far a thrown line is seen off something it should run through. */
export interface Seen {
  readonly datum: string;
  readonly at: { readonly mark: number } | { readonly referenceXMm: number };
  /** In widths of the line; + when the line falls behind (F), right of (S) or above (L) it. */
  readonly offWidths: number;
  /** The same in mm, where the aids say so. */
  readonly offMm?: number;
}

export interface Done {
  readonly ok: true;
  /** What the lines are seen to do at marks and along the reference, after the level was touched. */
  readonly seen?: readonly Seen[];
  /** How far the hand was off, in thousandths of a millimetre. */
  readonly handUm?: readonly number[];
  readonly setUp?: number;
  readonly mark?: number;
  /** What the rule's end or the pencil is on: a trim's name, or the bare surface. */
  readonly on?: string;
  /** The line's two edges on the rule. */
  readonly edgesMm?: readonly [number, number];
  /** The middle of the line, read out by the aids. */
  readonly readOutMm?: number;
  /** What is seen on the tape. */
  readonly tapeMm?: number;
  /** What is read off marks on the practice wall, in the order in which they were made. */
  readonly practiceMm?: readonly number[];
  /** The level was put in the van and the other one taken out. */
  readonly swapped?: boolean;
  /** What a tool shows: the gap under a straight-edge and how far along it is widest; what a spirit level is out by. */
  readonly toolMm?: readonly number[];
  readonly marksLost?: readonly number[];
}

export interface Refused {
  readonly ok: false;
  readonly error: { readonly code: RefusalCode; readonly by?: string };
}

export type Outcome = Done | Refused;

/** Refuses an act. */
export function refused(code: RefusalCode, by?: string | null): Refused {
  return { ok: false, error: by ? { code, by } : { code } };
}
