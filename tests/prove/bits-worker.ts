/** In a worker: the bits of many codes, in another order. */
import { parentPort, workerData } from 'node:worker_threads';
import { bitsInAnotherOrder } from './bits-of.ts';

parentPort?.postMessage(bitsInAnotherOrder(workerData as string[]));
