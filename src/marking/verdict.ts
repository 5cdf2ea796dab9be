/**
 * The verdict on what was proposed: whether it can be fitted, and what it would take.
 */
import { nominalCarcass } from '../exercise/brief.ts';
import type { Exercise } from '../exercise/exercise.ts';
import { planeOf } from '../survey/level.ts';
import { sizesSent } from '../survey/sent.ts';
import { sizeRules } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { type AnswerKey, answerKey, type CarcassKey, type FrameAsked, type FrameKey } from './answer-key.ts';
import { clearSides, sideWalls } from './carcass-fit.ts';
import { type CutOutMark, squareAt } from './cut-outs.ts';
import { faceLineOff } from './face-line.ts';
import { lineOf, type SizeLedger } from './ledger.ts';
import { edges } from './opening.ts';
import { type RunKey, runKey } from './run.ts';
import { type ShelfKey, shelfBacks, shelfKey } from './shelves.ts';
import { siteOf } from './site.ts';

export const verdictWords = ['scrap', 'rework', 'visible', 'waste', 'untidy', 'good', 'nothing'] as const;
export type VerdictWord = (typeof verdictWords)[number];

/** Reasons of a run, of shelves and of cut-outs. */
export type SetOutCode =
  | 'run/none'
  | 'run/clearance'
  | 'run/infill-wide'
  | 'run/uneven'
  | 'shelf/does-not-reach'
  | 'shelf/stock-short'
  | 'shelf/stock-over'
  | 'cut-out/none'
  | 'cut-out/short'
  | 'cut-out/wide';

/** One reason of a verdict, by a stable code. */
export interface Reason {
  readonly word: VerdictWord;
  readonly code:
    | 'carcass/outside'
    | 'carcass/does-not-go-in'
    | 'frame/does-not-cover'
    | 'lining/does-not-cover'
    | 'carcass/clearance'
    | 'lining/stock-short'
    | 'lining/stock-over'
    | 'frame/stock-short'
    | 'frame/stock-over'
    | 'face-line/off'
    | 'face-line/stepped'
    | 'size/given-away'
    | 'booking/untidy'
    | 'nothing/proposed'
    | SetOutCode;
  /** The side, edge or size that it is about. */
  readonly of: string;
  readonly mm: number;
  /** The right-hand recess of a pair. */
  readonly bay?: 2;
  /** Where it is a lining that a reason of a carcass is about. */
  readonly piece?: 'lining';
}

export interface Verdict {
  readonly word: VerdictWord;
  readonly reasons: readonly Reason[];
  readonly carcass: CarcassKey | null;
  readonly frame: FrameKey | null;
  /** Left out where the brief asks for none. */
  readonly run?: RunKey | null;
  readonly shelf?: ShelfKey | null;
}

/** Judges a proposal. The gravest reason names the verdict; all are kept, gravest first. */
export function judge(
  survey: Survey,
  from: { ledgers: readonly SizeLedger[]; cutOuts?: readonly CutOutMark[] },
  bookingShare: number,
): Verdict {
  const { ledgers, cutOuts = [] } = from;
  const { exercise, recess } = survey.world;
  // Where shelves take a carcass's place, one that was sent is nothing that was asked for.
  const carcass = exercise.brief.shelves ? null : sizesSent(survey);
  const frame = askedFrame(survey);
  const asked = { ...(carcass ? { carcass } : {}), ...(frame ? { frame } : {}) };
  const result = answerKey(recess, exercise, asked);
  const withoutCarcass = result.ok ? result : answerKey(recess, exercise, frame ? { frame } : {});
  const key = withoutCarcass.ok ? withoutCarcass.key : null;
  const { brief } = exercise;
  const set = setOut(survey);
  const reasons: Reason[] = [
    ...((brief.shelves ? set.shelf : carcass || frame)
      ? []
      : [{ word: 'nothing', code: 'nothing/proposed', of: 'carcass', mm: 0 } as const]),
    ...(result.ok ? [] : [{ word: 'scrap', code: 'carcass/outside', of: 'carcass', mm: 0 } as const]),
    ...carcassReasons(exercise, result.ok ? result.key : null),
    ...liningReasons(exercise, result.ok ? result.key : null),
    ...frameReasons(exercise, key?.frame ?? null),
    ...runReasons(exercise, set.run),
    ...shelfReasons(exercise, set.shelf),
    ...cutOutReasons(exercise, cutOuts),
    ...faceReasons(survey, exercise),
    ...wasteReasons(exercise, ledgers),
    ...(bookingShare < exercise.headings.limits.untidyShare && survey.bookings.length > 0
      ? [{ word: 'untidy', code: 'booking/untidy', of: 'sheet', mm: 0 } as const]
      : []),
  ];
  const named = exercise.brief.lining ? reasons.map((r): Reason => ({ ...r, piece: 'lining' })) : reasons;
  const sorted = sortedReasons(named);
  return {
    word: sorted[0]?.word ?? 'good',
    reasons: sorted,
    carcass: result.ok ? result.key.carcass : null,
    frame: key?.frame ?? null,
    ...(brief.modules ? { run: set.run } : {}),
    ...(brief.shelves ? { shelf: set.shelf } : {}),
  };
}

/** The run and the shelves as proposed, where the brief asks for them. */
function setOut(survey: Survey): { run: RunKey | null; shelf: ShelfKey | null } {
  const { exercise, recess } = survey.world;
  const site = siteOf(recess, exercise);
  const { runMm, shelfMm } = survey.proposal ?? {};
  const square = squareAt(survey);
  const sizes = sizesSent(survey) ?? nominalCarcass(exercise.brief);
  const walls = exercise.brief.modules ? sideWalls(site, sizes) : null;
  return {
    run:
      walls && runMm && square !== null
        ? runKey(
            site,
            runMm.map((at) => square + at),
            { walls, heightMm: sizes.heightMm },
          )
        : null,
    shelf: exercise.brief.shelves && shelfMm ? shelfKey(shelfBacks(site), shelfMm.depth) : null,
  };
}

function runReasons(exercise: Exercise, run: RunKey | null): Reason[] {
  const { askMm, modules } = exercise.brief;
  const { reworkClearanceMm, visibleMm } = exercise.headings.limits;
  if (!modules) return [];
  if (!run) return [{ word: 'rework', code: 'run/none', of: 'run', mm: 0 }];
  const ends = (['left', 'right'] as const).flatMap((side): Reason[] => {
    const clear = run.clearanceMm[side];
    const [, most] = run.infillMm[side];
    if (askMm[side] - clear > Math.min(reworkClearanceMm, askMm[side] / 2))
      return [{ word: 'rework', code: 'run/clearance', of: side, mm: clear }];
    return most > modules.mostInfillMm ? [{ word: 'visible', code: 'run/infill-wide', of: side, mm: most }] : [];
  });
  return run.unevenMm > visibleMm
    ? [...ends, { word: 'visible', code: 'run/uneven', of: 'run', mm: run.unevenMm }]
    : ends;
}

function shelfReasons(exercise: Exercise, shelf: ShelfKey | null): Reason[] {
  const { shelves } = exercise.brief;
  const { reworkStockMm } = exercise.headings.limits;
  if (!shelf || !shelves) return [];
  const [least, most] = shelf.stockMm;
  if (least < 0) return [{ word: 'scrap', code: 'shelf/does-not-reach', of: 'back', mm: least }];
  if (least < shelves.leastStockMm - reworkStockMm)
    return [{ word: 'rework', code: 'shelf/stock-short', of: 'back', mm: least }];
  return most > shelves.mostStockMm + reworkStockMm
    ? [{ word: 'rework', code: 'shelf/stock-over', of: 'back', mm: most }]
    : [];
}

function cutOutReasons(exercise: Exercise, cutOuts: readonly CutOutMark[]): Reason[] {
  const most = exercise.brief.cutOutSpareMm?.most ?? Number.MAX_VALUE;
  return cutOuts.flatMap(({ name, spareMm }): Reason[] => {
    if (!spareMm) return [{ word: 'rework', code: 'cut-out/none', of: name, mm: 0 }];
    const all = Object.values(spareMm);
    if (Math.min(...all) < 0) return [{ word: 'rework', code: 'cut-out/short', of: name, mm: Math.min(...all) }];
    return Math.max(...all) > most ? [{ word: 'visible', code: 'cut-out/wide', of: name, mm: Math.max(...all) }] : [];
  });
}

/** Gives reasons in their order: the gravest first, and of one gravity as they came. */
export function sortedReasons(reasons: readonly Reason[]): readonly Reason[] {
  const rank = (r: Reason) => (r.word === 'nothing' ? -1 : verdictWords.indexOf(r.word));
  return reasons
    .map((r, i) => ({ r, i }))
    .sort((a, b) => rank(a.r) - rank(b.r) || a.i - b.i)
    .map(({ r }) => r);
}

/** The blank as proposed; where it is to be placed, from the square and level lines as they were last thrown. */
function askedFrame(survey: Survey): FrameAsked | null {
  const said = survey.proposal?.frameMm;
  if (!said) return null;
  const blank = { widthMm: said.width, heightMm: said.height };
  const at = survey.proposal?.frameAtMm;
  if (!at || !survey.standing) return blank;
  const square = planeOf(survey.standing, 'S');
  const level = planeOf(survey.standing, 'L');
  return { ...blank, leftMm: square.c / square.nx - at.leftOfS, bottomMm: level.c / level.nz - at.belowL };
}

function carcassReasons(exercise: Exercise, key: AnswerKey | null): Reason[] {
  const carcass = key?.carcass;
  if (!carcass) return [];
  const { askMm } = exercise.brief;
  const { reworkClearanceMm } = exercise.headings.limits;
  if (!carcass.goesInBare) {
    const worst = [...carcass.tightest].sort((a, b) => a.clearanceMm - b.clearanceMm)[0];
    const of = worst?.side ?? 'left';
    return [{ word: 'scrap', code: 'carcass/does-not-go-in', of, mm: worst?.clearanceMm ?? 0 }];
  }
  return clearSides.flatMap((side): Reason[] => {
    const clearance = carcass.clearanceMm[side];
    if (clearance === null) return [];
    const short = askMm[side] - clearance;
    return short > Math.min(reworkClearanceMm, askMm[side] / 2)
      ? [{ word: 'rework', code: 'carcass/clearance', of: side, mm: clearance }]
      : [];
  });
}

/** What is to come off a lining's far edge: it covers the wall, and no more stands out than can be planed. */
function liningReasons(exercise: Exercise, key: AnswerKey | null): Reason[] {
  const { lining } = exercise.brief;
  const stock = key?.carcass?.farEdgeMm;
  if (!lining || !stock) return [];
  const { reworkStockMm } = exercise.headings.limits;
  const [least, most] = stock;
  const of = 'far edge';
  if (least < 0) return [{ word: 'scrap', code: 'lining/does-not-cover', of, mm: least }];
  if (least < lining.leastStockMm - reworkStockMm)
    return [{ word: 'rework', code: 'lining/stock-short', of, mm: least }];
  return most > lining.mostStockMm + reworkStockMm ? [{ word: 'rework', code: 'lining/stock-over', of, mm: most }] : [];
}

function frameReasons(exercise: Exercise, frame: FrameKey | null): Reason[] {
  const brief = exercise.brief.frame;
  if (!frame || !brief) return [];
  const { reworkStockMm } = exercise.headings.limits;
  return edges.flatMap((edge): Reason[] => {
    const [least, most] = frame.stockMm[edge];
    if (least < 0) return [{ word: 'scrap', code: 'frame/does-not-cover', of: edge, mm: least }];
    if (least < brief.leastStockMm - reworkStockMm)
      return [{ word: 'rework', code: 'frame/stock-short', of: edge, mm: least }];
    return most > brief.mostStockMm + reworkStockMm
      ? [{ word: 'rework', code: 'frame/stock-over', of: edge, mm: most }]
      : [];
  });
}

/** The face line runs off what the eye lays it against by more over the opening than is seen. */
function faceReasons(survey: Survey, exercise: Exercise): Reason[] {
  const off = faceLineOff(survey);
  if (!off) return [];
  const runs = Math.abs(off.rightMm - off.leftMm);
  return runs > exercise.headings.limits.visibleMm
    ? [{ word: 'visible', code: 'face-line/off', of: 'face line', mm: runs }]
    : [];
}

function wasteReasons(exercise: Exercise, ledgers: readonly SizeLedger[]): Reason[] {
  return ledgers.flatMap((ledger): Reason[] => {
    if (ledger.missMm === null || ledger.how === 'as-it-stands') return [];
    const miss = ledger.missMm - lineOf(ledger, 'allowance');
    const given = sizeRules[ledger.size].counts === 'least' ? 0 - miss : miss;
    return given > exercise.headings.limits.wasteMm
      ? [{ word: 'waste', code: 'size/given-away', of: ledger.size, mm: given }]
      : [];
  });
}
