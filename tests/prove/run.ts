/**
 * `npm run prove`: the proofs at full size, with a fresh seed each, and a report in test-results/prove.md.
 *
 *     npm run prove
 *     npm run prove -- NAME... --size N --seed N
 *
 * A seed that is printed can be given again. Exit 0: all hold; 1: one does not; 2: the question is not understood.
 */
import { randomInt } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { proofNamed, proofs } from './all-proofs.ts';
import { runElsewhere } from './elsewhere.ts';
import { type Proof, type Result, resultOf, type Share, type Tally, together } from './proof.ts';

/** Shares are this many a worker, so that one that has the easier rooms is not idle for long. */
const sharesAWorker = 4;
const workers = 2;
const failuresShown = 20;
const report = new URL('../../test-results/prove.md', import.meta.url);

interface Asked {
  readonly proofs: readonly Proof[];
  readonly size: number | null;
  readonly seed: number | null;
}

process.exitCode = await main(process.argv.slice(2));

async function main(args: readonly string[]): Promise<number> {
  const asked = askedFor(args);
  if (typeof asked === 'string') {
    console.error(asked);
    return 2;
  }
  const said: string[] = ['# Proofs', ''];
  let holds = true;
  for (const proof of asked.proofs) {
    const seed = asked.seed ?? randomInt(2 ** 31);
    const size = asked.size ?? proof.full;
    console.log(`${proof.name}: ${proof.says}\n${size} cases, seed ${seed} ...`);
    const start = performance.now();
    const result = resultOf(proof, await provedInWorkers(proof, { seed, from: 0, to: size }));
    const seconds = Math.round((performance.now() - start) / 1000);
    const lines = resultLines(proof, result, { size, seed, seconds });
    console.log(`${lines.slice(4).join('\n')}\n`);
    said.push(...lines, '');
    holds = holds && result.failures.length === 0;
    mkdirSync(new URL('.', report), { recursive: true });
    writeFileSync(report, said.join('\n'));
  }
  console.log(holds ? 'all hold' : 'NOT ALL HOLD');
  return holds ? 0 : 1;
}

function askedFor(args: readonly string[]): Asked | string {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { size: { type: 'string' }, seed: { type: 'string' } },
    });
    return {
      proofs: positionals.length === 0 ? proofs : positionals.map(proofNamed),
      size: wholeNumber('--size', values.size, 1),
      seed: wholeNumber('--seed', values.seed, 0),
    };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function wholeNumber(flag: string, said: string | undefined, least: number): number | null {
  if (said === undefined) return null;
  const number = Number(said);
  if (!Number.isSafeInteger(number) || number < least)
    throw new RangeError(`prove: ${flag} must be a whole number >= ${least}, got ${said}`);
  return number;
}

/** Shares are taken by whichever worker is free; they are put together in their own order. */
async function provedInWorkers(proof: Proof, whole: Share): Promise<Tally> {
  const shares = sharesOf(whole);
  const tallies: Tally[] = [];
  let next = 0;
  const work = async () => {
    for (let i = next++; i < shares.length; i = next++) {
      const data = { name: proof.name, share: shares[i] };
      tallies[i] = await runElsewhere<Tally>(new URL('./proof-worker.ts', import.meta.url), data);
    }
  };
  await Promise.all(Array.from({ length: workers }, work));
  return together(tallies);
}

function sharesOf({ seed, from, to }: Share): Share[] {
  const count = Math.min(to - from, workers * sharesAWorker);
  const at = (i: number) => from + Math.floor(((to - from) * i) / count);
  return Array.from({ length: count }, (_, i) => ({ seed, from: at(i), to: at(i + 1) }));
}

function resultLines(proof: Proof, result: Result, of: { size: number; seed: number; seconds: number }): string[] {
  const { lines, failures } = result;
  const more = failures.length - failuresShown;
  return [
    `## ${proof.name}`,
    '',
    `${proof.says}: ${failures.length === 0 ? 'holds' : `DOES NOT HOLD, ${failures.length} failures`}`,
    '',
    `${of.size} cases, seed ${of.seed}, ${of.seconds} s`,
    '',
    ...lines,
    '',
    failures.length === 0 ? 'no failure' : `${failures.length} failures:`,
    ...failures.slice(0, failuresShown).map((says) => `- ${says}`),
    ...(more > 0 ? [`- and ${more} more`] : []),
  ];
}
