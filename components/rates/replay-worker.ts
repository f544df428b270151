/**
 * A worker that does one job. It asks the page for estimates batch by batch, one batch ahead, so that neither side ever
 * holds more than a few; the page ends it to cancel.
 */
import { doJob, type Job, type JobProgress } from './replay-job.js';
import { BATCH } from './replay-source.js';

/** From the page: the job, then batches as they are asked for. */
export type ToWorker = { readonly job: Job; readonly count: number } | { readonly batch: readonly unknown[] };
/** From the worker: which batch it needs next, how far it is, and at the end its answer or what went wrong. */
export type FromWorker =
  { readonly need: number } | { readonly progress: JobProgress } | { readonly answer: unknown } | { readonly fault: string };

/** The worker's own global, which the types of a page do not know. */
interface WorkerScope {
  postMessage(message: FromWorker): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
}
const scope = globalThis as unknown as WorkerScope;
const waiting: ((batch: readonly unknown[]) => void)[] = [];

scope.onmessage = ({ data }) => {
  if ('batch' in data) waiting.shift()!(data.batch);
  else void work(data.job, data.count);
};

async function work(job: Job, count: number): Promise<void> {
  try {
    scope.postMessage({
      answer: await doJob(job, () => estimates(count), count, { onProgress: (progress) => scope.postMessage({ progress }) }),
    });
  } catch (fault) {
    scope.postMessage({ fault: fault instanceof Error ? fault.message : String(fault) });
  }
}

async function* estimates(count: number): AsyncGenerator<unknown> {
  let next = ask(0, count);
  for (let from = 0; from < count; from += BATCH) {
    const batch = await next;
    next = ask(from + BATCH, count);
    yield* batch;
  }
}

function ask(from: number, count: number): Promise<readonly unknown[]> {
  if (from >= count) return Promise.resolve([]);
  scope.postMessage({ need: from });
  return new Promise((resolve) => waiting.push(resolve));
}
