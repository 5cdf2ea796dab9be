/**
 * The report and the key in words: what happened, where each millimetre went, what to do next.
 */

import { wayInQuestions } from '../exercise/way-in.ts';
import { sayLength, sayWithUnit, sayWritten } from '../recess/lengths.ts';
import { bayWords } from '../survey/in-bay.ts';
import type { SizeName } from '../survey/size.ts';
import type { AnswerKey, CarcassKey, FrameKey } from './answer-key.ts';
import { clearSides } from './carcass-fit.ts';
import type { CutOutMark, CutOutPlace } from './cut-outs.ts';
import type { SizeSure } from './how-sure.ts';
import { saySure } from './how-sure-words.ts';
import type { LedgerLine, LineName, SizeLedger } from './ledger.ts';
import type { Word } from './ledger-story.ts';
import { type Finding, mostShown } from './mistakes/findings.ts';
import type { Marks, Report } from './report.ts';
import type { RunKey } from './run.ts';
import type { Evidence, Heading, HeadingName, Score } from './score.ts';
import type { SetUpPart } from './set-up-split.ts';
import type { ShelfKey } from './shelves.ts';
import { sizeWords } from './size-words.ts';
import type { Reason, Verdict } from './verdict.ts';

export const headingWords: Record<HeadingName, string> = {
  'set-up': 'set-up and references',
  coverage: 'readings: enough, and where',
  rule: 'readings: how true',
  booking: 'booking',
  checks: 'checks',
  'working-out': 'working out',
  'will-it-go': 'will it go',
  instrument: 'the level checked',
};

export const lineWords: Record<LineName, string> = {
  coverage: 'because the places that decide were not read',
  method: 'because a tape from wall to wall cannot see walls that lean together',
  'set-up': 'in the set-up',
  rule: 'on the rule',
  booking: 'in booking',
  transfer: 'because a step was not carried over',
  'not-read': 'booked without a reading, or out of place',
  'working-out': 'in working out',
  allowance: 'allowed for what was not read',
  'not-surveyed': 'not surveyed',
};

/** A line's name, where there is room for a word or two. */
export const lineTitles: Record<LineName, string> = {
  coverage: 'Coverage',
  method: 'Tape',
  'set-up': 'Set-up',
  rule: 'Rule',
  booking: 'Booking',
  transfer: 'Carrying over',
  'not-read': 'Not read',
  'working-out': 'Working out',
  allowance: 'Allowance',
  'not-surveyed': 'Not surveyed',
};

/** What a line holds against what, for those who ask. */
export const lineAbout: Record<LineName, string> = {
  coverage: 'the places that decide were not read',
  method: 'a tape from wall to wall cannot see walls that lean together',
  'set-up': 'how the lines stood, against how they should',
  rule: 'what stood on the rule or tape, against the distance',
  booking: 'what was written, against what was seen',
  transfer: 'a step that was not carried over',
  'not-read': 'booked without a reading, or out of place',
  'working-out': 'what was sent, against what the figures give',
  allowance: 'allowed for what was not read',
  'not-surveyed': 'nothing on the sheet gives it',
};

/** Says a report, a line an element. */
export function sayReport(report: Report, how: { evidence?: boolean } = {}): string[] {
  if (!report.marks) return ['not handed in: there is nothing to mark yet'];
  const { marks } = report;
  return [
    ...(marks.bays ? sayPairVerdict(marks.verdict, marks.bays) : sayVerdict(marks.verdict)),
    '',
    'Where each millimetre went',
    ...marks.ledgers.flatMap((l) => (marks.bays && l.bay === undefined ? ofLeft(sayLedger(l)) : sayLedger(l))),
    ...(marks.cutOuts ?? []).flatMap(sayCutOut),
    '',
    ...sayFindings(report.findings ?? []),
    ...sayHowSure(report.howSure ?? []),
    'Score',
    ...sayScore(marks, how.evidence ?? false),
    sayCounts(report),
  ];
}

/** Beside the right-hand recess's lines, those of the left are said to be of it. */
function ofLeft([first, ...rest]: readonly string[]): string[] {
  return [`left-hand recess, ${first}`, ...rest];
}

/** Says how much was done, and how long it would take on site. */
function sayCounts({ counts: c, minutes }: Report): string {
  const many = (count: number, of: string) => `${count} ${of}${count === 1 ? '' : 's'}`;
  const parts = [
    many(c.acts, 'act'),
    many(c.setUps, 'set-up'),
    many(c.marks, 'mark'),
    many(c.readings, 'reading'),
    many(c.spans, 'tape'),
    many(c.bookings, 'booking'),
    ...(c.struck > 0 ? [`${c.struck} struck through`] : []),
    ...(c.refused > 0 ? [`${c.refused} refused`] : []),
  ];
  return `${parts.join(', ')}${minutes === undefined ? '' : `; about ${minutes} minutes on site`}`;
}

/** Says how sure the learner was of each size, and what it came to. */
function sayHowSure(sure: readonly SizeSure[]): string[] {
  return sure.length === 0 ? [] : ['How sure you were', ...sure.map((s) => `  ${saySure(s)}`), ''];
}

/** Says the findings that are shown: what each cost, what happened, what was done, what to do next and what it would have shown. */
function sayFindings(findings: readonly Finding[]): string[] {
  if (findings.length === 0) return [];
  return [
    'Findings',
    ...findings
      .slice(0, mostShown)
      .flatMap((f) => [
        `${sayCost(f)}: ${f.name}`,
        ...[f.happened, f.did, f.next].map((words) => `  ${sayWords(words)}`),
        ...(f.caught ? [`  ${f.caught.says}`] : []),
      ]),
    '',
  ];
}

/** Says what a finding cost, and which size most: `6.5 mm of carcass width`. */
export function sayCost(finding: Finding): string {
  const [size] = finding.sizes;
  return `${sayWithUnit(finding.costMm)}${size === undefined ? '' : ` of ${sizeWords[size]}`}`;
}

/** Says words in a row, the learner's own figures as they are. */
function sayWords(words: readonly Word[]): string {
  return words.map((word) => (typeof word === 'string' ? word : word.his)).join('');
}

/** Says what became of what was proposed. */
export function sayVerdict(verdict: Verdict): string[] {
  return [...sayReasons(verdict), ...sayPieces(verdict)];
}

/** Says what became of a pair: the verdict over both, then how what was proposed for each recess stands there. */
function sayPairVerdict(verdict: Verdict, bays: NonNullable<Marks['bays']>): string[] {
  const each = bays.flatMap(({ bay, marks }) =>
    sayPieces(marks.verdict).map((line) => `${bayWords[bay]}-hand recess: ${line}`),
  );
  return [...sayReasons(verdict), ...each];
}

function sayPieces(verdict: Verdict): string[] {
  return [
    ...(verdict.carcass ? sayCarcass(verdict.carcass) : []),
    ...(verdict.frame ? sayFrame(verdict.frame) : []),
    ...(verdict.run ? sayRun(verdict.run) : []),
    ...(verdict.shelf ? sayShelf(verdict.shelf) : []),
  ];
}

/** Says the verdict and why, the gravest reason first. */
export function sayReasons(verdict: Verdict): string[] {
  const first = verdict.reasons[0];
  const rest = verdict.reasons.slice(1).filter((r) => r.word !== 'untidy' || verdict.reasons.length < 3);
  return [
    first ? `${headline[verdict.word]} ${sayReason(first)}.` : comesIn(verdict) ? headline.good : cannotComeIn,
    ...rest.map((r) => `Also: ${sayReason(r)}.`),
  ];
}

const cannotComeIn = 'It would fit where it goes, but it cannot be brought there.';

/** Whether a carcass that was sent can be stood up and brought in, as far as the brief asks. */
function comesIn({ carcass }: Verdict): boolean {
  return [carcass?.standsUp, carcass?.comesIn?.door, carcass?.comesIn?.turn].every((way) => way?.ok !== false);
}

/** Says the answer key. */
export function sayKey(key: AnswerKey): string[] {
  const none = 'none: the other two sizes alone do not go in';
  const size = (mm: number | null) => (mm === null ? none : sayLength(mm));
  return [
    ...(key.carcass ? sayCarcass(key.carcass) : []),
    key.wallMm
      ? `widest lining ${size(key.widestMm)}, tallest ${size(key.tallestMm)} (packing not taken off); the wall is ${sayLength(key.wallMm[0])} to ${sayLength(key.wallMm[1])} thick where its edges come`
      : `widest carcass ${size(key.widestMm)}, tallest ${size(key.tallestMm)}, deepest ${size(key.deepestMm)} (clearances not taken off)`,
    key.opening
      ? `opening at the face line ${sayLength(key.opening.widthMm)} by ${sayLength(key.opening.heightMm)}: the smallest blank that covers`
      : 'opening at the face line: none, a side of it is open or lies behind trims',
    ...(key.frame ? sayFrame(key.frame) : []),
    ...(key.wallMm && key.brief.plinthMm === 0
      ? []
      : [
          `${key.wallMm ? 'packing under it' : 'plinth stock'} from ${sayLength(key.plinthMm[0])} to ${sayLength(key.plinthMm[1])}`,
        ]),
    ...(key.marginsMm
      ? [`margin over the work ${key.marginsMm.map((mm) => sayLength(mm)).join(', ')} (left, middle, right)`]
      : []),
    ...(key.mouthWidthMm === null ? [] : [`between the walls at the mouth ${sayLength(key.mouthWidthMm)}`]),
    ...(key.run
      ? [`the run stands between ${sayLength(key.run.leftMm)} and ${sayLength(key.run.rightMm)} of the middle`]
      : []),
    ...(key.run?.set ? sayRun(key.run.set) : []),
    ...(key.shelf
      ? [
          `behind the shelves the wall is ${sayLength(key.shelf.backMm[0])} to ${sayLength(key.shelf.backMm[1])} from the face line`,
        ]
      : []),
    ...(key.shelf?.blank ? sayShelf(key.shelf.blank) : []),
    ...(key.cutOuts ?? []).map(
      (c) =>
        `${c.name}: ${sayLength(c.sizeMm[0])} x ${sayLength(c.sizeMm[1])}, its middle ${sayLength(c.middleMm[0])} right of the middle, ${sayLength(c.middleMm[1])} up`,
    ),
  ];
}

function sayCarcass(c: CarcassKey): string[] {
  const clear = clearSides.flatMap((side) => {
    const mm = c.clearanceMm[side];
    return mm === null ? [] : [`${side} ${sayLength(mm)}`];
  });
  const goes = {
    yes: 'goes in with what is asked to spare',
    touches: 'goes in with nothing to spare on what is asked',
    no: c.goesInBare ? 'goes in, with less to spare than is asked' : 'does not go in',
  }[c.fits];
  return [
    `${c.farEdgeMm ? 'lining' : 'carcass'} ${sayWritten(c.widthMm)} x ${sayWritten(c.heightMm)} x ${sayWritten(c.depthMm)} ${goes}: clearance ${clear.join(', ')}`,
    ...(c.farEdgeMm ? [`to come off its far edge ${sayLength(c.farEdgeMm[0])} to ${sayLength(c.farEdgeMm[1])}`] : []),
    ...(c.standsUp
      ? [
          c.standsUp.ok
            ? `it can be stood up, with ${sayLength(c.standsUp.byMm)} to spare`
            : `it cannot be stood up: ${sayLength(-c.standsUp.byMm)} too long from corner to corner`,
        ]
      : []),
    ...(c.comesIn ? sayWayIn(c.comesIn) : []),
  ];
}

/** Says whether a carcass comes through the door and round the turn. */
export function sayWayIn(way: NonNullable<CarcassKey['comesIn']>): string[] {
  return wayInQuestions.flatMap((question) => {
    const found = way[question];
    if (!found) return [];
    const where = question === 'door' ? 'through the door' : 'round the turn of the stair';
    return [
      found.ok
        ? `it comes ${where}, with ${sayLength(found.byMm)} to spare`
        : `it does not come ${where}: ${sayLength(-found.byMm)} too large`,
    ];
  });
}

function sayFrame(f: FrameKey): string[] {
  const stock = (edge: keyof FrameKey['stockMm']) =>
    `${edge} ${sayLength(f.stockMm[edge][0])} to ${sayLength(f.stockMm[edge][1])}`;
  return [
    `frame blank ${sayWritten(f.widthMm)} x ${sayWritten(f.heightMm)}: to come off ${stock('left')}, ${stock('right')}, ${stock('top')}, ${stock('bottom')}`,
  ];
}

function sayRun({ clearanceMm, infillMm, unevenMm }: RunKey): string[] {
  const infill = (side: 'left' | 'right') =>
    `${sayLength(infillMm[side][0])} to ${sayLength(infillMm[side][1])} ${side}`;
  return [
    `set out, the run is clear by ${sayLength(clearanceMm.left)} left, ${sayLength(clearanceMm.right)} right; infills ${infill('left')}, ${infill('right')}; the worst joint is ${sayLength(unevenMm)} off even widths`,
  ];
}

function sayShelf({ depthMm, stockMm }: ShelfKey): string[] {
  return [
    `shelf blanks ${sayWritten(depthMm)} deep: ${sayLength(stockMm[0])} to ${sayLength(stockMm[1])} to come off the back edge`,
  ];
}

const headline: Record<Verdict['word'], string> = {
  scrap: 'Scrap:',
  rework: 'Rework:',
  visible: 'It fits, but it shows:',
  waste: 'It fits, with stock given away:',
  untidy: 'It fits; the sheet is untidy:',
  good: 'It fits, and the sheet bears it out.',
  nothing: 'Nothing to fit:',
};

export function sayReason(r: Reason): string {
  return r.bay === undefined ? sayReasonOfOne(r) : `right-hand recess: ${sayReasonOfOne(r)}`;
}

function sayReasonOfOne(r: Reason): string {
  const it = r.piece ?? 'carcass';
  switch (r.code) {
    case 'carcass/outside':
      return `the ${it} is larger than the recess`;
    case 'carcass/does-not-go-in':
      return `the ${it} does not go in, it is tightest on the ${r.of} (${sayLength(r.mm)})`;
    case 'frame/does-not-cover':
      return `the frame's blank leaves a gap of ${sayLength(-r.mm)} at the ${r.of}`;
    case 'carcass/clearance':
      return `the clearance on the ${r.of} is ${sayLength(r.mm)}, less than is asked`;
    case 'lining/does-not-cover':
      return `the lining ends ${sayLength(-r.mm)} short of the far face of the wall`;
    case 'lining/stock-short':
      return `only ${sayLength(r.mm)} of stock is left to plane at the lining's far edge`;
    case 'lining/stock-over':
      return `${sayLength(r.mm)} has to come off the lining's far edge, more than can be planed`;
    case 'frame/stock-short':
      return `only ${sayLength(r.mm)} of stock is left to scribe at the ${r.of}`;
    case 'frame/stock-over':
      return `${sayLength(r.mm)} has to come off at the ${r.of}, more than can be scribed`;
    case 'face-line/off':
      return `the face line runs ${sayLength(r.mm)} off the reference over the opening`;
    case 'face-line/stepped':
      return `the two faces do not lie in one line: past the breast they stand ${sayLength(r.mm)} apart`;
    case 'size/given-away':
      return `${sayLength(r.mm)} is given away in ${sizeWords[r.of as SizeName]}`;
    case 'booking/untidy':
      return 'some bookings have no reading behind them, or a wrong datum, side or place';
    case 'nothing/proposed':
      return 'no sizes were sent to the workshop';
    case 'run/none':
      return 'nothing was said of where the carcasses go';
    case 'run/clearance':
      return `the ${r.of} end of the run leaves ${sayLength(r.mm)} to the wall, less than is asked`;
    case 'run/infill-wide':
      return `the infill on the ${r.of} is ${sayLength(r.mm)} wide, more than the brief allows`;
    case 'run/uneven':
      return `a joint lies ${sayLength(r.mm)} off even widths`;
    case 'shelf/does-not-reach':
      return `the shelves leave a gap of ${sayLength(-r.mm)} at the wall`;
    case 'shelf/stock-short':
      return `only ${sayLength(r.mm)} of stock is left to scribe off the shelves`;
    case 'shelf/stock-over':
      return `${sayLength(r.mm)} has to come off the shelves, more than can be scribed`;
    case 'cut-out/none':
      return `nothing was said of the cut-out for ${r.of}`;
    case 'cut-out/short':
      return `the cut-out for ${r.of} misses it by ${sayLength(-r.mm)}`;
    case 'cut-out/wide':
      return `the cut-out for ${r.of} leaves ${sayLength(r.mm)} open, more than the brief allows`;
  }
}

/** Says a ledger: the sum, then its lines, the largest first. */
export function sayLedger(l: SizeLedger): string[] {
  const name = l.bay === undefined ? sizeWords[l.size] : `right-hand recess, ${sizeWords[l.size]}`;
  if (l.proposedMm === null) return [`${name}: not proposed`];
  const miss = l.missMm ?? 0;
  if (l.how === 'as-it-stands')
    return [
      `${name}: ${sayWritten(l.proposedMm)}, made as it stands${Math.abs(miss) < 0.05 ? '' : `, changed by ${signed(miss)}`}`,
    ];
  const key = `the room allows ${sayLength(l.keyMm)} with what the brief asks`;
  const said = `${name}: sent ${sayWritten(l.proposedMm)}, ${key}: ${sayLength(Math.abs(miss))} ${miss > 0 ? 'too large' : 'too small'}`;
  const lines = [...l.lines].map((line, i) => ({ line, i })).filter(({ line }) => Math.abs(line.mm) >= 0.05);
  lines.sort((a, b) => Math.abs(b.line.mm) - Math.abs(a.line.mm) || a.i - b.i);
  return [
    said,
    ...lines.flatMap(({ line }) => {
      const rounding = line.ofWhichRoundingMm ?? 0;
      const of = Math.abs(rounding) >= 0.05 ? ` (of which ${signed(rounding)} by rounding)` : '';
      return [`  ${signed(line.mm).padStart(7)} ${lineWords[line.name]}${of}`, ...sayParts(line)];
    }),
  ];
}

/** Says the parts of a set-up line by cause in one stretch: `+1.2 pencil marks beside the line`; empty where none comes to anything. */
export function sayCauses(line: LedgerLine): string {
  const parts = (line.parts ?? []).filter((p) => Math.abs(p.mm) >= 0.05);
  return parts.map((p) => `${signed(p.mm)} ${causeWords[p.cause]}`).join(', ');
}

/** The parts of a set-up line by cause, those that come to anything. */
function sayParts(line: LedgerLine): string[] {
  const parts = (line.parts ?? []).filter((p) => Math.abs(p.mm) >= 0.05);
  return parts.map((p) => `          ${signed(p.mm).padStart(7)} ${causeWords[p.cause]}`);
}

const causeWords: Readonly<Record<SetUpPart['cause'], string>> = {
  'line-up': 'lined up beside what it should follow',
  baseline: 'grown beyond marks that stand too near together',
  squareness: 'the level’s square line is not square to its face line',
  faults: 'the level’s lines rise or lean',
  marks: 'pencil marks beside the line',
  knock: 'the level was knocked: read from all the same, or not brought back to where it stood',
  allowed: 'taken out again, as the check of the level showed',
  place: 'the rule’s end was held beside the places that count',
  edge: 'where the sheet’s figures put the sloped edge',
  rest: 'three or more of these together',
};

/** Says what became of a cut-out, and where each millimetre of its middle came from. */
export function sayCutOut(c: CutOutMark): string[] {
  if (!c.spareMm || !c.fromS || !c.fromL) return [`cut-out for ${c.name}: not proposed`];
  const { left, right, top, bottom } = c.spareMm;
  const place = (from: string, p: CutOutPlace) => {
    const miss = p.lines.reduce((sum, l) => sum + l.mm, 0);
    const lines = p.lines.filter((l) => Math.abs(l.mm) >= 0.05);
    const told = lines.map((l) => `${signed(l.mm)} ${lineWords[l.name]}`).join(', ');
    return `  middle ${sayLength(p.saidMm)} from ${from}, truly ${sayLength(p.keyMm)}: ${signed(miss)}${told === '' ? '' : ` (${told})`}`;
  };
  return [
    `cut-out for ${c.name}: clear of it by ${sayLength(left)} left, ${sayLength(right)} right, ${sayLength(top)} over, ${sayLength(bottom)} under`,
    place('S', c.fromS),
    place('L', c.fromL),
  ];
}

/** How a size was come by, where that is all there is to say. */
const howWords: Readonly<Record<string, string>> = {
  'not-surveyed': 'not surveyed',
  'not-proposed': 'not sent',
};

/** Says a piece of evidence: what it is about, and what it came to. */
export function sayEvidence(e: Evidence): string {
  const [of = '', ...where] = e.of.split(', ');
  const came = typeof e.value === 'number' ? sayWithUnit(e.value) : (howWords[e.value] ?? e.value);
  // A question of the way in is of what is true of it.
  if (of === 'yes' || of === 'no') return [...where, `${e.what}: you said ${came}, truly ${of}`].join(', ');
  const about = of === 'sheet' ? [] : [sizeWords[of as SizeName] ?? of];
  return [...about, ...where, `${e.what}: ${came}`].join(', ');
}

/** Says how the total came about, and what a cap does to it. */
export function sayTotal(score: Score, verdict: Verdict): string {
  const earned = score.headings.reduce((sum, h) => sum + h.points, 0);
  const available = score.headings.reduce((sum, h) => sum + h.of, 0);
  const first = verdict.reasons[0];
  const why = first
    ? capital((capWords[first.code] ?? sayReason(first)).replace('carcass', first.piece ?? 'carcass'))
    : '';
  const cap =
    score.cap === null
      ? ''
      : score.total < score.uncapped
        ? ` ${why} holds the total to ${score.total}.`
        : ` ${why} would hold the total down; it is lower already.`;
  const nothing = verdict.word === 'nothing' ? ' Nothing was sent, so nothing counts.' : '';
  const asked = score.headings.some((h) => h.name === 'instrument');
  const checks = asked ? '' : ' Instrument checks were not asked here.';
  return `${Math.round(earned * 10) / 10} of ${available} is ${score.uncapped} of 100.${cap}${nothing}${checks}`;
}

/** What caps a total, as the beginning of a sentence. */
const capWords: Partial<Record<Reason['code'], string>> = {
  'carcass/outside': 'a carcass that is larger than the recess',
  'carcass/does-not-go-in': 'a carcass that does not go in',
  'frame/does-not-cover': 'a blank that does not cover',
  'lining/does-not-cover': 'a lining that ends short of the far face',
  'carcass/clearance': 'less clearance than is asked',
  'frame/stock-short': 'too little stock to scribe',
  'lining/stock-short': 'too little stock to plane',
  'lining/stock-over': 'more to come off than can be planed',
  'frame/stock-over': 'more to come off than can be scribed',
  'run/none': 'a run that was not set out',
  'run/clearance': 'less clearance at an end than is asked',
  'cut-out/none': 'a box that no cut-out was said for',
  'cut-out/short': 'a cut-out that misses its box',
  'shelf/does-not-reach': 'shelves that do not reach the wall',
  'shelf/stock-short': 'too little stock to scribe',
  'shelf/stock-over': 'more to come off than can be scribed',
};

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function sayScore(marks: Marks, evidence: boolean): string[] {
  const { score } = marks;
  return [
    ...score.headings.flatMap((h) => [sayHeading(h), ...(evidence ? h.evidence.map(sayWithActs) : [])]),
    score.cap && score.total < score.uncapped
      ? `${score.uncapped} of 100 by headings, held to ${score.total} by ${score.cap}`
      : `${score.total} of 100`,
  ];
}

/** Evidence with the acts that show it, a few of them. */
function sayWithActs(e: Evidence): string {
  const acts = [...new Set(e.acts)].slice(0, 6);
  return `      ${sayEvidence(e)}${acts.length > 0 ? ` (${acts.length === 1 ? 'act' : 'acts'} ${acts.join(', ')})` : ''}`;
}

function sayHeading(h: Heading): string {
  const worst = h.evidence.find((e) => typeof e.value === 'number' || e.value !== '');
  const because =
    h.name === 'booking' || h.name === 'checks' || h.name === 'will-it-go' ? ` (${worst?.what}: ${worst?.value})` : '';
  return `  ${headingWords[h.name].padEnd(30)}${String(h.points).padStart(5)} of ${h.of}${because}`;
}

function signed(mm: number): string {
  const said = sayLength(mm);
  return mm > 0 && said !== sayLength(0) ? `+${said}` : said;
}
