/**
 * The marks of a pair of recesses: each is marked alone, by what was read and proposed for it; over both the graver
 * verdict counts and, heading by heading, the fewer points. One face line across both is held against itself.
 */
import type { BayNumber } from '../exercise/bays.ts';
import { bayWords, ofBay } from '../survey/in-bay.ts';
import type { Survey } from '../survey/survey.ts';
import { type FaceLineOff, faceLineOff } from './face-line.ts';
import type { Marks } from './report.ts';
import { totalOf } from './score.ts';
import { type Reason, sortedReasons, type Verdict, verdictWords } from './verdict.ts';

/** The marks of one recess of a pair. */
export interface BayMarks {
  readonly bay: BayNumber;
  readonly survey: Survey;
  readonly marks: Marks;
}

/** Puts the marks of both recesses together. */
export function pairMarks(survey: Survey, bays: readonly [BayMarks, BayMarks]): Marks {
  const verdict = pairVerdict(survey, bays);
  const headings = bays[0].marks.score.headings.map((heading) => {
    const both = bays.map(({ bay, marks }) => ({ bay, of: marks.score.headings.find((h) => h.name === heading.name) }));
    return {
      ...heading,
      points: Math.min(...both.map(({ of }) => of?.points ?? heading.points)),
      evidence: both.flatMap(({ bay, of }) =>
        (of?.evidence ?? []).map((e) => ({ ...e, of: `${e.of}, ${bayWords[bay]} recess` })),
      ),
    };
  });
  return {
    verdict,
    score: totalOf(headings, verdict.word, survey.world.exercise.headings),
    ledgers: bays.flatMap(({ bay, marks }) => marks.ledgers.map((l) => ofBay(bay, l))),
    checks: bays.flatMap(({ bay, marks }) => marks.checks.map((c) => ofBay(bay, c))),
    key: bays[0].marks.key,
    bays: bays.map(({ bay, marks }) => ({ bay, marks })),
  };
}

function pairVerdict(survey: Survey, bays: readonly [BayMarks, BayMarks]): Verdict {
  const reasons = sortedReasons([
    ...bays.flatMap(({ bay, marks }) => marks.verdict.reasons.map((r) => ofBay(bay, r))),
    ...stepReasons(survey, bays),
  ]);
  const rank = (v: Verdict) => (v.word === 'nothing' ? -1 : verdictWords.indexOf(v.word));
  const [left, right] = bays;
  const worse = rank(right.marks.verdict) < rank(left.marks.verdict) ? right : left;
  const { carcass, frame } = worse.marks.verdict;
  return { word: reasons[0]?.word ?? 'good', reasons, carcass, frame };
}

/** Each face looks right alone, but they do not lie in one line: how far apart they pass the middle of the breast. */
function stepReasons(survey: Survey, bays: readonly [BayMarks, BayMarks]): Reason[] {
  const [left, right] = bays.map((b) => faceLineOff(b.survey));
  const [one, two] = survey.world.bays;
  if (!left || !right || !two) return [];
  const [wide, other] = [one, two].map((b) => b.exercise.brief.openingMm.width) as [number, number];
  const middle = (wide / 2 + two.atXMm - other / 2) / 2;
  const mm = Math.abs(lineAt(right, other, middle - two.atXMm) - lineAt(left, wide, middle));
  return mm > survey.world.exercise.headings.limits.visibleMm
    ? [{ word: 'visible', code: 'face-line/stepped', of: 'face line', mm }]
    : [];
}

/** How far a face line lies behind the reference at x of its own recess, gone on straight. */
function lineAt(off: FaceLineOff, widthMm: number, x: number): number {
  return off.leftMm + (off.rightMm - off.leftMm) * (x / widthMm + 0.5);
}
