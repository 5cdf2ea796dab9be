/**
 * Whether a room teaches what a mistake costs: who makes it loses by it, and who surveys with care, by the least that is
 * read of such a recess, does not.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { surveyFamilyWithCare } from '../learners/careful-of-family.ts';
import { minimumReadings } from '../learners/minimum-readings.ts';
import type { SizeLedger } from '../marking/ledger.ts';
import { entails } from '../marking/mistakes/mistakes.ts';
import { type Marks, markSurvey, type Report, reportOf } from '../marking/report.ts';
import type { VerdictWord } from '../marking/verdict.ts';
import type { SizeName } from '../survey/size.ts';
import { beginSurvey, type Survey } from '../survey/survey.ts';
import { openWorld } from '../survey/world.ts';

/** Who makes the mistake, and else surveys by the right method. */
export interface MakesIt {
  /** Its number in the library: then the report has to name it, or what entails it. */
  readonly mistake?: string;
  survey(start: Survey): Survey;
}

/** What a mistake has to cost, mm, before a room teaches it: more than a fitting clearance hides. */
export const leastCostMm = 3;

/** How a room fares against a mistake. */
export interface Tested {
  readonly teaches: boolean;
  /** Why it does not: the mistake costs too little, care does not succeed either, or the report does not name it. */
  readonly why: 'teaches' | 'cheap' | 'hard' | 'unseen';
  /** What the mistake costs in the size that it costs most, mm. */
  readonly costMm: number;
  readonly size: SizeName | null;
  /** What became of the careful survey; null where it was not needed to know. */
  readonly careful: VerdictWord | null;
}

/** Tests a room: the careful survey first, for nothing is taught where that fails. */
export function testRoom(exercise: Exercise, makes: MakesIt): Tested {
  const world = openWorld(exercise);
  const density = minimumReadings(exercise.spec.family, exercise.brief);
  const careful = markSurvey(surveyFamilyWithCare(beginSurvey(world), density)).marks;
  if (!careful || !succeeds(careful)) {
    const word = careful?.verdict.word ?? 'nothing';
    return { teaches: false, why: 'hard', costMm: 0, size: null, careful: word };
  }
  const mistaken = reportOf(makes.survey(beginSurvey(world)));
  const { costMm, size } = costOf(mistaken.marks, careful);
  const why = costMm < leastCostMm ? 'cheap' : names(mistaken, makes.mistake) ? 'teaches' : 'unseen';
  return { teaches: why === 'teaches', why, costMm, size, careful: careful.verdict.word };
}

/** Says whether a report names a mistake, or one that entails it. */
function names(report: Report, mistake: string | undefined): boolean {
  const said = (report.findings ?? []).map((f) => f.mistake);
  return mistake === undefined || said.some((id) => id === mistake || (entails[id] ?? []).some((e) => e === mistake));
}

/**
 * Gives what a mistaken survey loses against a careful one: the size whose ledger is off by most more, mm.
 *
 * @returns 0 and no size where it loses nothing
 */
export function costOf(mistaken: Marks | null, careful: Marks): { costMm: number; size: SizeName | null } {
  let worst: { costMm: number; size: SizeName | null } = { costMm: 0, size: null };
  for (const right of careful.ledgers) {
    const wrong = mistaken?.ledgers.find((l) => l.size === right.size && l.bay === right.bay);
    const costMm = offBy(wrong) - offBy(right);
    if (costMm > worst.costMm) worst = { costMm, size: right.size };
  }
  return worst;
}

/** It goes in and covers, with what is asked all round: neither scrap nor work to be done again. */
function succeeds(marks: Marks): boolean {
  return !['scrap', 'rework', 'nothing'].includes(marks.verdict.word);
}

/** How far a size is off, either way; one that was not proposed is off by nothing that can be told. */
function offBy(ledger: SizeLedger | undefined): number {
  return Math.abs(ledger?.missMm ?? 0);
}
