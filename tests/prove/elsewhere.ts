/**
 * Runs a module of the tests in a worker thread: a heap of its own, every module loaded afresh.
 */
import { Worker } from 'node:worker_threads';

/**
 * Loads a TypeScript module in a worker, with data for it. The working folder must be the project's own.
 *
 * @returns the first message that it posts
 */
export function runElsewhere<T>(module: URL, data: unknown): Promise<T> {
  const code = `import('tsx/esm/api').then((t) => { t.register(); return import(${JSON.stringify(module.href)}); })`;
  return new Promise((resolve, reject) => {
    const worker = new Worker(code, { eval: true, workerData: data });
    worker.once('message', (message: T) => {
      resolve(message);
      void worker.terminate();
    });
    worker.once('error', reject);
    worker.once('exit', (status) => reject(new Error(`the worker ended with ${status} and no answer`)));
  });
}
