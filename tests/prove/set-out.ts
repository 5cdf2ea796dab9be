/**
 * The set-out proof: drawn runs and plain walls, with runs, blanks and carcasses about what goes in; every number of the key
 * against the oracle, which works from samples alone and shares no code with it.
 */
import { samplesOf } from '../../src/exchange/samples-file.ts';
import { type CarcassSizes, nominalCarcass } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { type AnswerKey, answerKey, type KeyAsked } from '../../src/marking/answer-key.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { severities } from '../../src/recess/severity.ts';
import { verdictOn } from '../oracle/compare.ts';
import { roomOf } from '../oracle/key-oracle.ts';
import { readSamples, type Samples } from '../oracle/samples.ts';
import { holdCutOuts, holdOpen, holdRun, holdShelves } from '../oracle/set-out.ts';
import { type Draws, drawsOf } from './draws.ts';
import {
  type Case,
  count,
  counted,
  eachCase,
  fail,
  most,
  type Proof,
  percent,
  type Result,
  type Tally,
} from './proof.ts';

const kinds = ['run', 'plain-wall'] as const;

export const setOutProof: Proof = {
  name: 'set-out',
  says: 'runs, shelves, cut-outs and free-standing carcasses: every number of the key agrees with the oracle, within 0.01 mm',
  full: 300 * kinds.length,
  small: 5 * kinds.length,
  prove: (share) => eachCase(share, proveSetOut),
  conclude,
};

const questions = 3;
/** One in this many rooms is sampled at 4 mm, the rest at 8. */
const fineOneIn = 5;

/** What a question is about, and what holds its answer. */
interface Question {
  readonly exercise: Exercise;
  readonly samples: Samples;
  readonly key: AnswerKey;
}

function proveSetOut(tally: Tally, at: Case): void {
  const draws = drawsOf('set-out', at.seed, at.index);
  const family = kinds[at.index % kinds.length] ?? 'run';
  const severity = draws.one(severities).name;
  const structure = draws.one(familyOf(family).structures).name;
  const code = writeCode({ family, severity, structure, kit: 'site', seed: draws.pick(seedCount) });
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const exercise = opened.value;
  const recess = buildRecess(exercise.spec);
  const samples = readSamples(samplesOf(recess, exercise, at.index % fineOneIn === 0 ? 4 : 8));
  const plain = answerKey(recess, exercise);
  if (!plain.ok) throw new Error(`${code}: ${plain.error.says}`);
  count(tally, `rooms ${family}${exercise.brief.shelves ? ' with shelves' : ''}`);
  if (exercise.brief.finishMm.length > 0) count(tally, 'rooms with a finish to come');
  const of = { exercise, samples, key: plain.key };
  const room = family === 'run' ? roomOf(samples) : null;
  for (let question = 0; question < questions; question++) {
    const asked = askedOf(draws, of, question);
    const result = answerKey(recess, exercise, asked);
    const where = `${code}, ${JSON.stringify(asked)}`;
    if (!result.ok) {
      fail(tally, at, `${where}: ${result.error.says}`);
      continue;
    }
    const json: unknown = JSON.parse(JSON.stringify(result.key));
    const { widthMm, heightMm, depthMm } = asked.carcass as CarcassSizes;
    const size = { width: widthMm, height: heightMm, depth: depthMm };
    const verdicts = [
      ...(room ? [verdictOn(room, json, { carcassMm: [widthMm, heightMm, depthMm], frameMm: null })] : []),
      ...(room && asked.runMm ? [holdRun(room, json, { size, atMm: asked.runMm })] : []),
      ...(room ? [] : [holdOpen(samples, json, size)]),
      ...(asked.shelfDepthMm === undefined ? [] : [holdShelves(samples, json, asked.shelfDepthMm)]),
      ...(exercise.brief.cutOuts ? [holdCutOuts(samples, json)] : []),
    ];
    for (const verdict of verdicts) {
      for (const says of verdict.disagreements) fail(tally, at, `${where}: ${says}`);
      most(tally, 'widest interval', { value: verdict.widestIntervalMm, where });
      if ('undecided' in verdict && Array.isArray(verdict.undecided) && verdict.undecided.length > 0)
        count(tally, 'keys with something undecided');
    }
    count(tally, 'keys');
    count(tally, `fits ${result.key.carcass?.fits}`);
    if (asked.runMm) count(tally, 'runs set out');
    if (asked.shelfDepthMm !== undefined) count(tally, 'blanks');
    if (exercise.brief.cutOuts) count(tally, 'cut-outs', exercise.brief.cutOuts.length);
  }
}

/** The nominal carcass, then one about what goes in; a run about its walls, a blank about the wall behind it. */
function askedOf(draws: Draws, of: Question, question: number): KeyAsked {
  const { key } = of;
  const nominal = nominalCarcass(key.brief);
  const carcass = question === 0 ? nominal : drawnCarcass(draws, key, nominal);
  const carcasses = key.brief.modules?.count;
  return {
    carcass,
    ...(carcasses && key.run ? { runMm: drawnRun(draws, key.run, carcasses) } : {}),
    ...(key.shelf ? { shelfDepthMm: about(draws, key.shelf.backMm[draws.pick(2)] ?? 0) } : {}),
  };
}

/** A length about a border: within the touching of it, by fractions of a millimetre, by some millimetres. */
function about(draws: Draws, borderMm: number): number {
  const off = draws.one([0.005, 0.03, 0.6, 12]);
  return Math.max(60, borderMm + draws.between(-off, off));
}

function drawnCarcass(draws: Draws, key: AnswerKey, nominal: CarcassSizes): CarcassSizes {
  const { askMm } = key.brief;
  const which = draws.one(['width', 'height', 'depth'] as const);
  const less = (mm: number) => (draws.pick(2) === 0 ? mm : 0);
  const border = {
    width: key.widestMm && key.widestMm - less(askMm.left + askMm.right),
    height: key.tallestMm && key.tallestMm - less(askMm.top),
    depth: key.deepestMm && key.deepestMm - less(askMm.back),
  };
  const of = (size: 'width' | 'height' | 'depth', mm: number) =>
    which === size ? about(draws, border[size] ?? mm) : mm;
  return {
    widthMm: of('width', nominal.widthMm),
    heightMm: of('height', nominal.heightMm),
    depthMm: of('depth', nominal.depthMm),
  };
}

/** Joints about even widths between ends about the walls. */
function drawnRun(draws: Draws, walls: { leftMm: number; rightMm: number }, carcasses: number): number[] {
  const from = walls.leftMm + draws.between(-5, 60);
  const to = walls.rightMm - draws.between(-5, 60);
  const off = draws.one([0, 0.5, 6]);
  return Array.from(
    { length: carcasses + 1 },
    (_, i) => from + (i * (to - from)) / carcasses + draws.between(-off, off),
  );
}

function conclude(tally: Tally): Result {
  const n = (what: string) => counted(tally, what);
  const widest = tally.most['widest interval'];
  const failures: string[] = [];
  if (n('keys') >= 300)
    for (const what of [
      'runs set out',
      'blanks',
      'cut-outs',
      'rooms with a finish to come',
      'fits yes',
      'fits touches',
      'fits no',
    ])
      if (n(what) === 0) failures.push(`none came out as: ${what}`);
  return {
    lines: [
      `rooms: ${n('rooms run')} runs, ${n('rooms plain-wall')} plain walls for a carcass, ${n('rooms plain-wall with shelves')} for shelves; ${n('rooms with a finish to come')} with a finish to come`,
      `keys: ${n('keys')}; ${n('runs set out')} runs set out, ${n('blanks')} blanks, ${n('cut-outs')} boxes`,
      `fits: ${n('fits yes')} yes, ${n('fits touches')} touches, ${n('fits no')} no`,
      `widest interval held against: ${widest ? `${widest.value.toFixed(6)} mm` : 'none'}`,
      `undecided: ${n('keys with something undecided')} keys (${percent(n('keys with something undecided'), n('keys'))})`,
    ],
    failures,
  };
}
