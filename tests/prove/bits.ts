/**
 * The same bits: the careful learner's log, written, read, acted again and replayed, leaves the same digests, also in a
 * worker of its own that goes through the codes the other way about with other work in between.
 */
import { digestOf } from '../../src/exchange/digest.ts';
import { readLog, replayLog, verifyLog, writeLog } from '../../src/exchange/log-file.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { readGolden } from '../replay/golden.ts';
import { type Bits, bitsOf, opened, surveyBy } from './bits-of.ts';
import { drawnCode, drawsOf } from './draws.ts';
import { runElsewhere } from './elsewhere.ts';
import { type Case, count, counted, eachCase, fail, type Proof, type Result, type Share, type Tally } from './proof.ts';

export const bitsProof: Proof = {
  name: 'bits',
  says: 'a log acts again and replays to the same bits, run twice, and run elsewhere in another order',
  full: 200,
  small: 24,
  prove,
  conclude,
};

async function prove(share: Share): Promise<Tally> {
  const seen = new Map<number, { code: string; bits: Bits }>();
  const tally = eachCase(share, (all, at) => {
    const code = drawnCode(drawsOf('bits', at.seed, at.index), at.index);
    seen.set(at.index, { code, bits: proveBits(all, at, code) });
  });
  const half = [...seen].filter(([index]) => index % 2 === 0);
  const codes = half.map(([, { code }]) => code);
  const elsewhere = await runElsewhere<readonly Bits[]>(new URL('./bits-worker.ts', import.meta.url), codes);
  if (share.from === 0) proveGolden(tally, share.seed);
  half.forEach(([index, { code, bits }], i) => {
    count(tally, 'elsewhere');
    same(tally, { seed: share.seed, index }, { what: `${code} elsewhere`, a: bits, b: elsewhere[i] });
  });
  return tally;
}

function proveBits(tally: Tally, at: Case, code: string): Bits {
  const bits = bitsOf(code);
  same(tally, at, { what: `${code} run twice`, a: bits, b: bitsOf(code) });
  const survey = surveyBy('careful', opened(code));
  const text = writeLog({ exercise: code, learner: 'prove', scripted: 'careful' }, survey.entries);
  const log = readLog(text);
  if (!log.ok) throw new Error(`${code}: its own log is refused: ${log.says}`);
  const differs = verifyLog(log.value);
  if (differs) fail(tally, at, `${code}: act ${differs.n} comes out otherwise in ${differs.field}`);
  const replayed = replayLog(log.value);
  if (!replayed.ok) throw new Error(`${code}: its own log does not replay: ${replayed.says}`);
  const report = digestOf(markSurvey(replayed.value));
  if (report !== bits.report) fail(tally, at, `${code}: replayed, the report is ${report}, acted ${bits.report}`);
  const read = digestOf(log.value.entries);
  if (read !== bits.log) fail(tally, at, `${code}: read from its text, the log is ${read}, acted ${bits.log}`);
  count(tally, 'logs');
  count(tally, 'acts', log.value.entries.length);
  return bits;
}

/** The golden digests hold for ever: a difference means that a code is another room, or is marked otherwise. */
function proveGolden(tally: Tally, seed: number): void {
  for (const { code, ...golden } of readGolden().codes) {
    count(tally, 'golden');
    same(tally, { seed, index: 0 }, { what: `golden ${code}`, a: golden, b: bitsOf(code) });
  }
}

function same(tally: Tally, at: Case, of: { what: string; a: Bits; b: Bits | undefined }): void {
  for (const name of ['exercise', 'log', 'report'] as const)
    if (of.a[name] !== of.b?.[name])
      fail(tally, at, `${of.what}: the ${name} is ${of.b?.[name]}, before ${of.a[name]}`);
}

function conclude(tally: Tally): Result {
  const n = (what: string) => counted(tally, what);
  return {
    lines: [
      `logs: ${n('logs')} of ${n('acts')} acts, each acted again and replayed; ${n('elsewhere')} also in a worker of its own`,
      `golden: ${n('golden')} codes`,
    ],
    failures: [
      ...(n('logs') > 1 && n('elsewhere') === 0 ? ['nothing was run elsewhere'] : []),
      ...(n('golden') === 12 ? [] : [`expected 12 golden codes, got ${n('golden')}`]),
    ],
  };
}
