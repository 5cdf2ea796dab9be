/**
 * A sample of every proof, with a fixed seed; `npm run prove` runs them in full with fresh ones.
 */
import { describe, expect, test } from 'vitest';
import { proofs } from './all-proofs.ts';
import { runProof } from './proof.ts';

const seed = 20_417;

describe(`proofs, seed ${seed}`, () => {
  test.each(proofs.map((proof) => [proof.name, proof.small, proof] as const))('%s, %i cases', async (_n, _s, proof) => {
    const result = await runProof(proof, proof.small, seed);
    expect(result.failures).toEqual([]);
    expect(result.lines.length).toBeGreaterThan(0);
  });
});
