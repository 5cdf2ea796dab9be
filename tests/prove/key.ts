/**
 * The key proof: random alcoves, trims included, and random carcasses and frames; every number of the key against the
 * oracle, which works from samples alone and shares no code with it.
 */

import { samplesOf } from '../../src/exchange/samples-file.ts';
import { type Brief, type CarcassSizes, nominalCarcass } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { type AnswerKey, answerKey, type FrameAsked, type KeyAsked } from '../../src/marking/answer-key.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { verdictOn } from '../oracle/compare.ts';
import { roomOf } from '../oracle/key-oracle.ts';
import { readSamples } from '../oracle/samples.ts';
import { type Draws, drawnCode, drawsOf } from './draws.ts';
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

export const keyProof: Proof = {
  name: 'key',
  says: 'every number of the answer key agrees with the oracle, within its interval plus 0.01 mm; no yes collides',
  full: 2000,
  small: 100,
  prove: (share) => eachCase(share, proveKey),
  conclude,
};

/** One in this many rooms is sampled at 2 mm, the rest at 4. */
const fineOneIn = 10;
/** One in this many rooms has a brief that no code carries: clearances that differ, a nominal that may not go in. */
const ownBriefOneIn = 3;
/** What the key may be off by, twice, and the oracle's own interval, mm. */
const atBorderMm = 0.03;
/** Questions a room: the nominal carcass, then drawn ones. */
const questions = 3;

function proveKey(tally: Tally, at: Case): void {
  const draws = drawsOf('key', at.seed, at.index);
  const code = drawnCode(draws, at.index);
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const ownBrief = at.index % ownBriefOneIn === 0;
  const exercise = ownBrief ? { ...opened.value, brief: otherBrief(draws, opened.value.brief) } : opened.value;
  if (ownBrief) count(tally, 'briefs of our own');
  const stepMm = at.index % fineOneIn === 0 ? 2 : 4;
  proveRoom(tally, at, { exercise, draws, stepMm, name: `${code}${ownBrief ? ' with a brief of its own' : ''}` });
}

/** A room, and how it is asked about. */
export interface AskedRoom {
  readonly exercise: Exercise;
  readonly draws: Draws;
  /** How finely the oracle's samples are taken. */
  readonly stepMm: number;
  readonly name: string;
}

/** Holds the key of a room, for the nominal carcass and for drawn ones, against the oracle. */
export function proveRoom(tally: Tally, at: Case, { exercise, draws, stepMm, name }: AskedRoom): void {
  const recess = buildRecess(exercise.spec);
  const room = roomOf(readSamples(samplesOf(recess, exercise, stepMm)));
  const plain = answerKey(recess, exercise);
  if (!plain.ok) throw new Error(`${name}: ${plain.error.says}`);
  count(tally, `rooms at ${stepMm} mm`);
  if (exercise.spec.trims.some((t) => exercise.brief.fates[t.name] === 'stays'))
    count(tally, 'rooms with trims that stay');
  for (let question = 0; question < questions; question++) {
    const asked = askedOf(draws, plain.key, question);
    const result = answerKey(recess, exercise, asked);
    const where = `${name}, ${sayAsked(asked)}`;
    if (!result.ok) {
      fail(tally, at, `${where}: ${result.error.says}`);
      continue;
    }
    const json: unknown = JSON.parse(JSON.stringify(result.key));
    const { carcass, frame } = asked;
    const verdict = verdictOn(room, json, {
      carcassMm: carcass ? [carcass.widthMm, carcass.heightMm, carcass.depthMm] : null,
      frameMm: frame ? [frame.widthMm, frame.heightMm] : null,
      ...(frame?.leftMm !== undefined && frame.bottomMm !== undefined
        ? { frameAtMm: [frame.leftMm, frame.bottomMm] as const }
        : {}),
    });
    for (const says of verdict.disagreements) fail(tally, at, `${where}: ${says}`);
    countKey(tally, result.key, verdict.undecided);
    most(tally, 'widest interval', { value: verdict.widestIntervalMm, where });
  }
}

function countKey(tally: Tally, key: AnswerKey, undecided: readonly string[]): void {
  count(tally, 'keys');
  if (key.carcass) {
    count(tally, 'carcasses');
    count(tally, `fits ${key.carcass.fits}`);
    if (key.carcass.goesInBare) count(tally, 'goes in bare');
    if (key.carcass.fits === 'no' && key.carcass.goesInBare) count(tally, 'no, but goes in bare');
  }
  if (key.frame) count(tally, 'frames');
  for (const size of ['widestMm', 'tallestMm', 'deepestMm'] as const)
    if (key[size] === null) count(tally, `${size} null`);
  for (const what of undecided) count(tally, `undecided ${what.split(':')[0]}`);
  if (undecided.length === 0) return;
  count(tally, 'keys with something undecided');
  if (key.carcass && isAtBorder(key.carcass.clearanceMm)) count(tally, 'undecided and at a border');
}

/** As a carcass stands, or moved sideways, a side is so near to nothing that samples can hardly tell. */
function isAtBorder(clear: Readonly<Record<'left' | 'right' | 'top' | 'back', number | null>>): boolean {
  const { left, right, top, back } = clear;
  const across = left === null || right === null ? null : left + right;
  return [across, top, back].some((mm) => mm !== null && Math.abs(mm) <= atBorderMm);
}

/** The nominal carcass, none, or one about what was found; a blank about the opening, placed or centred. */
function askedOf(draws: Draws, key: AnswerKey, question: number): KeyAsked {
  const frame = draws.pick(4) === 0 ? null : drawnFrame(draws, key);
  const nominal = nominalCarcass(key.brief);
  const carcass = question === 0 ? nominal : draws.pick(10) === 0 ? null : drawnCarcass(draws, key);
  return { ...(carcass ? { carcass } : {}), ...(frame ? { frame } : {}) };
}

function otherBrief(draws: Draws, brief: Brief): Brief {
  const large = draws.one(['width', 'height', 'depth', 'none'] as const);
  const size = (name: 'width' | 'height' | 'depth') => {
    const { nominalMm, find } = brief.carcassMm[name];
    return { nominalMm: nominalMm + (large === name ? 10 * (1 + draws.pick(5)) : 0), find };
  };
  return {
    ...brief,
    carcassMm: { width: size('width'), height: size('height'), depth: size('depth') },
    askMm: { ...brief.askMm, left: draws.pick(9), right: draws.pick(9) },
    access: brief.access && draws.pick(4) > 0 ? { ...brief.access, plinthSeparate: draws.pick(2) === 0 } : null,
  };
}

/** A length about a border: within the touching of it, by fractions of a millimetre, by some millimetres. */
function about(draws: Draws, borderMm: number): number {
  const off = draws.one([0.005, 0.005, 0.03, 0.6, 12]);
  return Math.max(60, borderMm + draws.between(-off, off));
}

/**
 * One size, or all, at the border of what goes in bare or of what is asked, the others nominal. A width that is asked
 * for is shared by two sides, so that its border is met at half the distance.
 */
function drawnCarcass(draws: Draws, key: AnswerKey): CarcassSizes {
  const { askMm } = key.brief;
  const nominal = nominalCarcass(key.brief);
  const asked = draws.pick(2) === 0;
  const which = draws.one(['width', 'height', 'depth', 'all'] as const);
  const on = (size: string) => which === size || which === 'all';
  const border = {
    width: (key.widestMm ?? nominal.widthMm) - (asked ? askMm.left + askMm.right : 0),
    height: (key.tallestMm ?? nominal.heightMm) - (asked ? askMm.top : 0),
    depth: (key.deepestMm ?? nominal.depthMm) - (asked ? askMm.back : 0),
  };
  return {
    ...nominal,
    widthMm: on('width') ? about(draws, border.width) : nominal.widthMm,
    heightMm: on('height') ? about(draws, border.height) : nominal.heightMm,
    depthMm: on('depth') ? about(draws, border.depth) : nominal.depthMm,
  };
}

function drawnFrame(draws: Draws, key: AnswerKey): FrameAsked | null {
  if (!key.opening) return null;
  const { widthMm, heightMm, leftMm, bottomMm } = key.opening;
  const stock = key.brief.frame?.leastStockMm ?? 0;
  const over = draws.one([0, 2 * stock]);
  const blank = { widthMm: about(draws, widthMm + over), heightMm: about(draws, heightMm + over) };
  if (draws.pick(2) === 0) return blank;
  return { ...blank, leftMm: leftMm - stock + draws.between(-2, 2), bottomMm: bottomMm - stock + draws.between(-2, 2) };
}

function sayAsked({ carcass, frame }: KeyAsked): string {
  const box = carcass ? `carcass ${carcass.widthMm} x ${carcass.heightMm} x ${carcass.depthMm}` : 'no carcass';
  return frame
    ? `${box}, frame ${frame.widthMm} x ${frame.heightMm} ${frame.leftMm === undefined ? 'centred' : `at ${frame.leftMm}, ${frame.bottomMm}`}`
    : box;
}

/** Puts what the key's rooms came to in words. */
export function conclude(tally: Tally): Result {
  const n = (what: string) => counted(tally, what);
  const widest = tally.most['widest interval'];
  const undecided = Object.entries(tally.counts).filter(([what]) => /^undecided (?!and)/.test(what));
  const failures: string[] = [];
  for (const word of ['yes', 'touches', 'no'] as const)
    if (n('keys') >= 100 && n(`fits ${word}`) === 0) failures.push(`no carcass came out as ${word}`);
  return {
    lines: [
      `rooms: ${n('rooms at 4 mm')} sampled at 4 mm, ${n('rooms at 2 mm')} at 2 mm; ${n('rooms with trims that stay')} with trims that stay, ${n('briefs of our own')} with a brief that no code carries`,
      `keys: ${n('keys')}, with ${n('carcasses')} carcasses and ${n('frames')} frames`,
      `fits: ${n('fits yes')} yes, ${n('fits touches')} touches, ${n('fits no')} no; ${n('goes in bare')} go in bare, of which ${n('no, but goes in bare')} without what is asked`,
      `null: ${n('widestMm null')} widest, ${n('tallestMm null')} tallest, ${n('deepestMm null')} deepest`,
      `widest interval held against: ${widest ? `${widest.value.toFixed(6)} mm (${widest.where})` : 'none'}`,
      `undecided: ${n('keys with something undecided')} keys (${percent(n('keys with something undecided'), n('keys'))}), of which ${n('undecided and at a border')} within ${atBorderMm} mm of a border as they stand${undecided.map(([what, by]) => `; ${what.slice(10)} ${by}`).join('')}`,
    ],
    failures,
  };
}
