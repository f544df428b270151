/**
 * Estimates one after the other: as `parseEstimate` returns them, as parsed JSON or as JSON text. An `Error` in the place
 * of one says why it could not be had (a file that is gone): it is left out like any that cannot be read.
 */
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
const BETWEEN_BREATHS = 10;

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
  if (signal?.aborted)
    throw signal.reason instanceof Error ? signal.reason : new Error('The replay was cancelled.', { cause: signal.reason });
}

/** What the engine has no types for; Node, pages and workers have it. */
interface Port {
  onmessage: (() => void) | null;
  postMessage(message: null): void;
  close(): void;
}
const { MessageChannel } = globalThis as unknown as { MessageChannel: new () => { readonly port1: Port; readonly port2: Port } };

/** A message to oneself: timers wait four milliseconds in pages, and a second in those that are not looked at. */
function breathe(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
