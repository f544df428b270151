/** Estimates one after the other: as `parseEstimate` returns them, as parsed JSON or as JSON text. */
export type Estimates = Iterable<unknown> | AsyncIterable<unknown>;

/** As an `AbortSignal` of the platform is. */
export interface CancelSignal {
  readonly aborted: boolean;
  readonly reason?: unknown;
}

export interface StreamOptions {
  /** Ends the work early: the promise rejects with the signal's reason. */
  readonly signal?: CancelSignal | undefined;
  /** Called with the number of estimates that are done, now and then and at the end; what it returns is waited for. */
  readonly onProgress?: ((done: number) => void | Promise<void>) | undefined;
}

/** So many at a time take about as long as a frame of the screen. */
const BETWEEN_BREATHS = 20;

/**
 * Gives each estimate to `take` and lets go of it. Between a few of them everything else that waits gets its turn, so
 * that a page stays awake and can cancel.
 */
export async function forEachEstimate(
  estimates: Estimates,
  take: (estimate: unknown, at: number) => void,
  { signal, onProgress }: StreamOptions = {},
): Promise<number> {
  let done = 0;
  stopIf(signal);
  for await (const estimate of estimates) {
    take(estimate, done);
    done += 1;
    if (done % BETWEEN_BREATHS !== 0) continue;
    await onProgress?.(done);
    await breathe();
    stopIf(signal);
  }
  await onProgress?.(done);
  return done;
}

function stopIf(signal: CancelSignal | undefined): void {
  if (signal?.aborted) throw signal.reason ?? new Error('The replay was cancelled.');
}

/** The one thing of the platform that the engine has no types for; Node, pages and workers have it. */
const { setTimeout } = globalThis as unknown as { setTimeout(wake: () => void): unknown };

function breathe(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve));
}
