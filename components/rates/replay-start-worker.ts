import address from './replay-worker.ts?worker&url';

/** What Trusted Types asks for before a script may be loaded. */
interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL(address: string): string }): { createScriptURL(address: string): string };
}

/** A page under Trusted Types must name it: `trusted-types lit-html baysheet-worker`. */
export const POLICY = 'baysheet-worker';
let trusted: ((address: string) => string) | undefined;

/** A new worker for replays, or null where the page or the browser allows none: then the page does the work itself. */
export function startReplayWorker(): Worker | null {
  try {
    return new Worker(trust(new URL(address, import.meta.url).href), { type: 'module' });
  } catch {
    return null;
  }
}

function trust(address: string): string {
  const { trustedTypes } = globalThis as unknown as { trustedTypes?: TrustedTypes };
  if (trusted === undefined) {
    const policy = trustedTypes?.createPolicy(POLICY, { createScriptURL: (own) => own });
    trusted = (own) => policy?.createScriptURL(own) ?? own;
  }
  return trusted(address);
}
