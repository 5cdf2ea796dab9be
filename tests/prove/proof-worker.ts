/** In a worker: one share of a proof. */
import { parentPort, workerData } from 'node:worker_threads';
import { proofNamed } from './all-proofs.ts';
import type { Share } from './proof.ts';

const { name, share } = workerData as { name: string; share: Share };
parentPort?.postMessage(await proofNamed(name).prove(share));
