/**
 * The openings proof: drawn reveals, door openings, spaces under a stair and under a roof. Every number of the key of a
 * lining or of a carcass with a sloped top, and whether it comes in, against the oracle, which works from samples alone.
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
import { type Room, roomOf } from '../oracle/key-oracle.ts';
import { checkLining, wayInByTrying } from '../oracle/lining.ts';
import { readSamples } from '../oracle/samples.ts';
import { type Draws, drawsOf } from './draws.ts';
import { type Case, count, counted, eachCase, fail, most, type Proof, type Result, type Tally } from './proof.ts';

/** In turn by the case's index. */
export const openingFamilies = ['reveal', 'doorway', 'under-stair', 'roof-slope'] as const;

export const openingsProof: Proof = {
  name: 'openings',
  says: 'linings, sloped carcasses of codes and ways in: every number of the key agrees with the oracle, within its interval plus 0.01 mm',
  full: 300 * openingFamilies.length,
  small: 5 * openingFamilies.length,
  prove: (share) => eachCase(share, proveOpening),
  conclude,
};

const questions = 3;
const stepMm = 4;

function proveOpening(tally: Tally, at: Case): void {
  const draws = drawsOf('openings', at.seed, at.index);
  const family = openingFamilies[at.index % openingFamilies.length] ?? 'reveal';
  const code = drawnCode(draws, family);
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const exercise = opened.value;
  const recess = buildRecess(exercise.spec);
  const room = roomOf(readSamples(samplesOf(recess, exercise, stepMm)));
  const plain = answerKey(recess, exercise);
  if (!plain.ok) throw new Error(`${code}: ${plain.error.says}`);
  count(tally, `rooms ${family}`);
  for (let question = 0; question < questions; question++) {
    const nominal = nominalCarcass(exercise.brief);
    const carcass = question === 0 ? nominal : drawnAbout(draws, plain.key, nominal);
    const result = answerKey(recess, exercise, { carcass } satisfies KeyAsked);
    const where = `${code}, ${JSON.stringify(carcass)}`;
    if (!result.ok) {
      count(tally, 'outside');
      continue;
    }
    holdKey(tally, at, { room, exercise, where, carcass, key: result.key });
  }
}

function holdKey(
  tally: Tally,
  at: Case,
  of: { room: Room; exercise: Exercise; where: string; carcass: CarcassSizes; key: AnswerKey },
): void {
  const { room, exercise, where, carcass, key } = of;
  const { widthMm: width, heightMm: height, depthMm: depth } = carcass;
  const json: unknown = JSON.parse(JSON.stringify(key));
  const verdict = exercise.brief.lining
    ? checkLining(room, json, { width, height, depth })
    : verdictOn(room, json, { carcassMm: [width, height, depth], frameMm: null });
  for (const says of verdict.disagreements) fail(tally, at, `${where}: ${says}`);
  count(tally, 'keys');
  count(tally, `fits ${key.carcass?.fits}`);
  if (verdict.undecided.length > 0) count(tally, 'keys with something undecided');
  most(tally, 'widest interval', { value: verdict.widestIntervalMm, where });
  if (key.carcass?.farEdgeMm) count(tally, key.carcass.farEdgeMm[0] < 0 ? 'does not reach' : 'reaches');
  holdWayIn(tally, at, { exercise, where, carcass, key });
}

function holdWayIn(
  tally: Tally,
  at: Case,
  of: { exercise: Exercise; where: string; carcass: CarcassSizes; key: AnswerKey },
): void {
  const { door, turn } = of.exercise.brief.access ?? {};
  const { widthMm, heightMm, depthMm, slope } = of.carcass;
  // A sloped edge that ends under the flat top is as tall as the piece is.
  const tall = slope ? Math.min(heightMm, Math.max(slope.leftMm, slope.rightMm)) : heightMm;
  const tried = wayInByTrying({ door, turn }, [widthMm, tall, depthMm]);
  for (const question of ['door', 'turn'] as const) {
    const said = of.key.carcass?.comesIn?.[question];
    const byTrying = tried[question];
    if (byTrying === null || !said) {
      if (byTrying !== null || said) fail(tally, at, `${of.where}: ${question}: asked by one of the two alone`);
      continue;
    }
    count(tally, `${question} ${said.ok ? 'yes' : 'no'}`);
    const off = Math.abs(said.byMm - byTrying);
    most(tally, 'way in off', { value: off, where: of.where });
    if (off > 0.01) fail(tally, at, `${of.where}: ${question}: ${said.byMm}, by trying ${byTrying}`);
    if (said.ok !== said.byMm >= 0) fail(tally, at, `${of.where}: ${question}: ${said.ok} by ${said.byMm}`);
  }
}

function drawnCode(draws: Draws, family: (typeof openingFamilies)[number]): string {
  const structure = draws.one(familyOf(family).structures).name;
  return writeCode({
    family,
    severity: draws.one(severities).name,
    structure,
    kit: 'site',
    seed: draws.pick(seedCount),
  });
}

/** One size near the border of what goes in, bare or with what is asked, the others nominal; a lining's depth near the wall. */
function drawnAbout(draws: Draws, key: AnswerKey, nominal: CarcassSizes): CarcassSizes {
  const { askMm } = key.brief;
  const off = draws.one([0.03, 0.6, 9]);
  const about = (mm: number) => Math.max(60, mm + draws.between(-off, off));
  const asked = draws.pick(2) === 0;
  const less = (mm: number | null, ask: number) => (mm === null ? null : mm - (asked ? ask : 0));
  const border = {
    widthMm: less(key.widestMm, askMm.left + askMm.right),
    heightMm: key.brief.slope ? null : less(key.tallestMm, askMm.top),
    depthMm: key.wallMm ? key.wallMm[1] : less(key.deepestMm, askMm.back),
  };
  const which = draws.one(['widthMm', 'heightMm', 'depthMm'] as const);
  const at = border[which];
  return at === null ? nominal : { ...nominal, [which]: about(at) };
}

function conclude(tally: Tally): Result {
  const n = (what: string) => counted(tally, what);
  const widest = tally.most['widest interval'];
  const off = tally.most['way in off'];
  const failures: string[] = [];
  for (const word of ['fits yes', 'fits no', 'door yes', 'door no', 'turn yes', 'turn no', 'reaches', 'does not reach'])
    if (n('keys') >= 300 && n(word) === 0) failures.push(`no key came out as ${word}`);
  return {
    lines: [
      `rooms: ${openingFamilies.map((family) => `${n(`rooms ${family}`)} ${family}`).join(', ')}; ${n('keys')} keys, ${n('outside')} asked outside`,
      `fits: ${n('fits yes')} yes, ${n('fits touches')} touches, ${n('fits no')} no; linings: ${n('reaches')} reach the far face, ${n('does not reach')} do not`,
      `way in: door ${n('door yes')} yes, ${n('door no')} no; turn ${n('turn yes')} yes, ${n('turn no')} no; worst off by ${off ? off.value.toExponential(2) : 'none'} mm`,
      `widest interval held against: ${widest ? `${widest.value.toFixed(6)} mm (${widest.where})` : 'none'}; undecided: ${n('keys with something undecided')} keys`,
    ],
    failures,
  };
}
