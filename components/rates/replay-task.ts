import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Job, JobAnswers, JobName, JobProgress } from './replay-job.js';
import { runJob } from './replay-runner.js';
import type { EstimateSource } from './replay-source.js';

/** What came of a run; after `cancelled` and `failed` everything stays as it was before. */
export type Outcome<T> =
  { readonly how: 'done'; readonly answer: T } | { readonly how: 'cancelled' } | { readonly how: 'failed'; readonly message: string };

/** Milliseconds between two paintings of the progress, and before a time left is worth telling. */
const PAINT_EVERY = 150;
const TELL_AFTER = 1500;

/**
 * One job of an element at a time, with its progress for show. A second job takes the place of one that runs; an element
 * that leaves the page ends its job.
 */
export class ReplayTask implements ReactiveController {
  /** Null while nothing runs. */
  progress: JobProgress | null = null;
  /** Seconds that are left by the pace so far; null while that cannot be told. */
  secondsLeft: number | null = null;
  private control: AbortController | null = null;

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  get running(): boolean {
    return this.progress !== null;
  }

  async run<N extends JobName>(job: Job<N>, source: EstimateSource): Promise<Outcome<JobAnswers[N]>> {
    this.cancel();
    const control = new AbortController();
    this.control = control;
    const began = performance.now();
    let painted = -Infinity;
    const show = (progress: JobProgress): void => {
      const now = performance.now();
      if (this.control !== control || now - painted < PAINT_EVERY) return;
      painted = now;
      this.progress = progress;
      const spent = now - began;
      this.secondsLeft =
        spent < TELL_AFTER || progress.done === 0 ? null : (spent / progress.done / 1000) * Math.max(0, progress.about - progress.done);
      this.host.requestUpdate();
    };
    show({ done: 0, about: source.count });
    try {
      return { how: 'done', answer: await runJob(job, source, { signal: control.signal, onProgress: show }) };
    } catch (fault) {
      if (control.signal.aborted) return { how: 'cancelled' };
      return { how: 'failed', message: fault instanceof Error ? fault.message : String(fault) };
    } finally {
      if (this.control === control) this.rest();
    }
  }

  cancel(): void {
    this.control?.abort(new DOMException('Cancelled.', 'AbortError'));
    this.rest();
  }

  hostDisconnected(): void {
    this.cancel();
  }

  private rest(): void {
    this.control = null;
    this.progress = null;
    this.secondsLeft = null;
    this.host.requestUpdate();
  }
}
