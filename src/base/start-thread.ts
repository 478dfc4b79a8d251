import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';

/** Work that goes on beside the caller's own. */
export interface Thread<Result> {
  /** What the script posts first. Rejected where the script fails. */
  readonly result: Promise<Result>;
  /** Hands the script something more. */
  send(data: unknown): void;
  stop(): void;
}

/** Short-lived objects get room, or clearing them away takes a fifth of the time. */
const YOUNG_MEGABYTES = 192;

/**
 * Runs a script of the built tool in a thread of its own with `data` as its `workerData`. null
 * where there is no second processor, or no built script: then the caller does the work itself.
 */
export function startThread<Result>(script: string, data: unknown): Thread<Result> | null {
  const url = new URL(script, import.meta.url);
  if (availableParallelism() < 2 || !existsSync(url)) return null;
  const resourceLimits = { maxYoungGenerationSizeMb: YOUNG_MEGABYTES };
  const worker = new Worker(url, { workerData: data, resourceLimits });
  const result = new Promise<Result>((resolve, reject) => {
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`${script} ended with ${code}.`)));
  });
  // The caller may fail first, and then nobody asks for the result.
  result.catch(() => {});
  const send = (more: unknown) => worker.postMessage(more);
  return { result, send, stop: () => void worker.terminate() };
}
