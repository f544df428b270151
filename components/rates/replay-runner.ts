import { doJob, type Job, type JobAnswers, type JobName, type JobOptions } from './replay-job.js';
import { BATCH, type EstimateSource, readBatch } from './replay-source.js';
import { startReplayWorker } from './replay-start-worker.js';
import type { FromWorker, ToWorker } from './replay-worker.js';

/**
 * Does a job on past estimates in a worker; where none can be had, or where it fails to load, in slices on the page.
 * Rejects with the signal's reason when it is cancelled.
 */
export async function runJob<N extends JobName>(
  job: Job<N>,
  source: EstimateSource,
  options: JobOptions & { signal: AbortSignal },
): Promise<JobAnswers[N]> {
  const worker = startReplayWorker();
  if (worker !== null) {
    try {
      return await inWorker(worker, job, source, options);
    } catch (fault) {
      if (fault !== WORKER_FAILED) throw fault;
    } finally {
      worker.terminate();
    }
  }
  return doJob(job, () => allOf(source), source.count, options);
}

const WORKER_FAILED = new Error('The worker did not load, or broke.');

function inWorker<N extends JobName>(
  worker: Worker,
  job: Job<N>,
  source: EstimateSource,
  { signal, onProgress }: JobOptions & { signal: AbortSignal },
): Promise<JobAnswers[N]> {
  const send = (message: ToWorker): void => worker.postMessage(message);
  return new Promise((resolve, reject) => {
    signal.throwIfAborted();
    signal.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
    worker.onerror = (event) => {
      event.preventDefault();
      reject(WORKER_FAILED);
    };
    worker.onmessageerror = () => reject(WORKER_FAILED);
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if ('need' in data) void readBatch(source, data.need).then((batch) => send({ batch }));
      else if ('progress' in data) onProgress?.(data.progress);
      else if ('answer' in data) resolve(data.answer as JobAnswers[N]);
      else reject(new Error(data.fault));
    };
    send({ job, count: source.count });
  });
}

async function* allOf(source: EstimateSource): AsyncGenerator<unknown> {
  for (let from = 0; from < source.count; from += BATCH) yield* await readBatch(source, from);
}
