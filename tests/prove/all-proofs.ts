/**
 * All proofs, in the order in which they are run.
 */
import { bitsProof } from './bits.ts';
import { carefulProof } from './careful.ts';
import { costsProof } from './costs.ts';
import { decidingProof } from './deciding.ts';

import { findingsProof } from './findings.ts';
import { keyProof } from './key.ts';
import { ledgerProof } from './ledger.ts';
import { lessonProof } from './lesson.ts';
import { openingsProof } from './openings.ts';
import { pairProof } from './pair.ts';
import { presetProof } from './preset.ts';
import type { Proof } from './proof.ts';
import { setOutProof } from './set-out.ts';
import { setUpProof } from './set-up.ts';
import { setUpFamiliesProof } from './set-up-families.ts';
import { sightProof } from './sight.ts';
import { slopeProof } from './slope.ts';
import { twoKindsProof } from './two-kinds.ts';
import { uncertaintyProof } from './uncertainty.ts';

export const proofs: readonly Proof[] = [
  keyProof,
  pairProof,
  ledgerProof,
  bitsProof,
  lessonProof,
  uncertaintyProof,
  carefulProof,
  costsProof,
  sightProof,
  setUpProof,
  setUpFamiliesProof,
  openingsProof,
  slopeProof,
  findingsProof,
  setOutProof,
  decidingProof,
  twoKindsProof,
  presetProof,
];

/** @throws {RangeError} if no proof has that name */
export function proofNamed(name: string): Proof {
  const proof = proofs.find((p) => p.name === name);
  if (!proof) throw new RangeError(`prove: expected one of ${proofs.map((p) => p.name).join(', ')}, got ${name}`);
  return proof;
}
