/**
 * The pair proof: drawn pairs of alcoves; every number of the key of each recess against the oracle, which works from
 * samples alone and shares no code with it.
 */
import { baysOf } from '../../src/exercise/bays.ts';
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { pairStructures } from '../../src/recess/families/alcove-pair-structures.ts';
import { severities } from '../../src/recess/severity.ts';
import { drawsOf } from './draws.ts';
import { conclude, proveRoom } from './key.ts';
import { type Case, eachCase, type Proof, type Tally } from './proof.ts';

export const pairProof: Proof = {
  name: 'pair',
  says: 'pairs of alcoves: every number of the key of both agrees with the oracle; no yes collides',
  full: 300,
  small: 5,
  prove: (share) => eachCase(share, provePair),
  conclude,
};

/** Severities take turns, then structures. */
function provePair(tally: Tally, at: Case): void {
  const draws = drawsOf('pair', at.seed, at.index);
  const severity = severities[at.index % severities.length]?.name ?? '';
  const structure = draws.one(pairStructures).name;
  const code = writeCode({ family: 'alcove-pair', severity, structure, kit: 'site', seed: draws.pick(seedCount) });
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  for (const { bay, exercise } of baysOf(opened.value))
    proveRoom(tally, at, { exercise, draws, stepMm: 4, name: `${code}, recess ${bay}` });
}
