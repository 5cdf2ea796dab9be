/**
 * The slope proof: drawn rooms with slopes and beams, trims that stay on every surface, and carcasses with sloped and
 * notched tops about what goes in; every number of the key against the oracle, which works from samples alone.
 */
import { samplesOf } from '../../src/exchange/samples-file.ts';
import { type CarcassSizes, nominalCarcass, slopeLine } from '../../src/exercise/brief.ts';
import { type AnswerKey, answerKey, type FrameAsked, type KeyAsked } from '../../src/marking/answer-key.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { verdictOn } from '../oracle/compare.ts';
import { roomOf } from '../oracle/key-oracle.ts';
import { readSamples } from '../oracle/samples.ts';
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
import { slopedKinds, slopedRoom } from './sloped-room.ts';

export const slopeProof: Proof = {
  name: 'slope',
  says: 'sloped and notched carcasses: every number of the key agrees with the oracle, within its interval plus 0.01 mm; no yes collides',
  full: 300 * slopedKinds.length,
  small: 12,
  prove: (share) => eachCase(share, proveSlope),
  conclude,
};

const questions = 4;

function proveSlope(tally: Tally, at: Case): void {
  const draws = drawsOf('slope', at.seed, at.index);
  const kind = slopedKinds[at.index % slopedKinds.length] ?? 'stair';
  const exercise = slopedRoom(draws, kind);
  const recess = buildRecess(exercise.spec);
  const room = roomOf(readSamples(samplesOf(recess, exercise, 4)));
  const plain = answerKey(recess, exercise);
  if (!plain.ok) throw new Error(`${kind}: ${plain.error.says}`);
  count(tally, `rooms ${kind}`);
  for (let question = 0; question < questions; question++) {
    const frame = drawnBlank(draws, plain.key);
    const asked: KeyAsked = {
      carcass: question === 0 ? nominalCarcass(plain.key.brief) : drawnCarcass(draws, plain.key),
      ...(frame ? { frame } : {}),
    };
    const where = `${kind}, ${JSON.stringify(asked.carcass)}`;
    const result = answerKey(recess, exercise, asked);
    if (!result.ok) {
      count(tally, 'outside');
      continue;
    }
    const json: unknown = JSON.parse(JSON.stringify(result.key));
    const { widthMm, heightMm, depthMm } = asked.carcass as CarcassSizes;
    const verdict = verdictOn(room, json, {
      carcassMm: [widthMm, heightMm, depthMm],
      frameMm: frame ? [frame.widthMm, frame.heightMm] : null,
    });
    for (const says of verdict.disagreements) fail(tally, at, `${where}: ${says}`);
    countKey(tally, result.key, verdict.undecided);
    most(tally, 'widest interval', { value: verdict.widestIntervalMm, where });
  }
}

function countKey(tally: Tally, key: AnswerKey, undecided: readonly string[]): void {
  count(tally, 'keys');
  const { carcass } = key;
  if (carcass) {
    const shape = `${carcass.slope ? 'sloped ' : ''}${carcass.notch ? 'notched ' : ''}`;
    count(tally, `carcasses ${shape === '' ? 'box' : shape.trim()}`);
    count(tally, `fits ${carcass.fits}`);
    if (carcass.goesInBare) count(tally, 'goes in bare');
    if (carcass.tightest.some(({ on }) => on === 'slope')) count(tally, 'tightest on the slope');
  }
  if (key.frame?.slope) count(tally, 'sloped blanks');
  if (key.slope) count(tally, 'edges');
  if (key.brief.slope && !key.slope) count(tally, 'edges null');
  for (const size of ['widestMm', 'tallestMm', 'deepestMm'] as const)
    if (key[size] === null) count(tally, `${size} null`);
  for (const what of undecided) count(tally, `undecided ${what.split(':')[0]}`);
  if (undecided.length > 0) count(tally, 'keys with something undecided');
}

/** A blank about the opening, with a sloped edge about the lowest that covers, or none. */
function drawnBlank(draws: Draws, key: AnswerKey): FrameAsked | null {
  if (!key.opening || draws.pick(3) === 0) return null;
  const { widthMm, heightMm, slope } = key.opening;
  const blank = { widthMm: about(draws, widthMm), heightMm: about(draws, heightMm) };
  if (!slope || draws.pick(4) === 0) return blank;
  return { ...blank, slope: { leftMm: about(draws, slope.leftMm), rightMm: about(draws, slope.rightMm) } };
}

/** A length about a border. */
function about(draws: Draws, borderMm: number): number {
  const off = draws.one([0.005, 0.005, 0.03, 0.6, 12]);
  return Math.max(60, borderMm + draws.between(-off, off));
}

/** One size, or all, at the border of what goes in bare or of what is asked; its shape the brief's, or changed, or none. */
function drawnCarcass(draws: Draws, key: AnswerKey): CarcassSizes {
  const { askMm, slope, notch } = key.brief;
  const nominal = nominalCarcass(key.brief);
  const asked = draws.pick(2) === 0;
  const which = draws.one(['width', 'height', 'depth', 'slope', 'slope', 'all'] as const);
  const on = (size: string) => which === size || which === 'all';
  const less = (mm: number) => (asked ? mm : 0);
  const edge = on('slope') ? key.slope : null;
  const line = edge
    ? { lowMm: about(draws, edge.lowMm - less(askMm.top)), highMm: about(draws, edge.highMm - less(askMm.top)) }
    : slope;
  const cutOut = notch && draws.pick(4) === 0 ? { ...notch, heightMm: draws.between(0, 300) } : notch;
  const of = (size: 'width' | 'height' | 'depth', border: number | null) =>
    on(size) ? about(draws, border ?? nominal[`${size}Mm`]) : nominal[`${size}Mm`];
  return {
    widthMm: of('width', key.widestMm && key.widestMm - less(askMm.left + askMm.right)),
    heightMm: of('height', key.tallestMm && key.tallestMm - less(askMm.top)),
    depthMm: of('depth', key.deepestMm && key.deepestMm - less(askMm.back)),
    ...(line && slope && draws.pick(8) > 0 ? { slope: slopeLine(slope.low, line) } : {}),
    ...(cutOut && draws.pick(8) > 0 ? { notch: cutOut } : {}),
  };
}

function conclude(tally: Tally): Result {
  const n = (what: string) => counted(tally, what);
  const widest = tally.most['widest interval'];
  const list = (start: string) =>
    Object.entries(tally.counts)
      .filter(([what]) => what.startsWith(start))
      .map(([what, by]) => `${by} ${what.slice(start.length)}`)
      .join(', ');
  const failures: string[] = [];
  if (n('keys') >= 100)
    for (const what of [
      'fits yes',
      'fits touches',
      'fits no',
      'edges',
      'tightest on the slope',
      'carcasses sloped notched',
    ])
      if (n(what) === 0) failures.push(`nothing came out as: ${what}`);
  return {
    lines: [
      `rooms: ${list('rooms ')}`,
      `keys: ${n('keys')}; carcasses: ${list('carcasses ')}; ${n('outside')} asked about reach beyond the recess`,
      `fits: ${list('fits ')}; ${n('goes in bare')} go in bare; ${n('tightest on the slope')} are tightest overhead on the slope`,
      `sloped edges: ${n('edges')}, null ${n('edges null')}; ${n('sloped blanks')} blanks with a sloped edge; null: ${n('widestMm null')} widest, ${n('tallestMm null')} tallest, ${n('deepestMm null')} deepest`,
      `widest interval held against: ${widest ? `${widest.value.toFixed(6)} mm (${widest.where})` : 'none'}`,
      `undecided: ${n('keys with something undecided')} keys (${percent(n('keys with something undecided'), n('keys'))}): ${list('undecided ')}`,
    ],
    failures,
  };
}
