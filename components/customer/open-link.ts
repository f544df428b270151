import type { CustomerCopy } from '../../src/share/customer-copy.js';
import type { TrustedKeys } from '../../src/share/keys.js';
import { openEstimate, type OpenFault } from '../../src/share/open.js';
import type { Messages } from './messages/index.js';

/** Why a link is not shown: the sentence for it, and the engine's own code and message. */
export interface Refusal {
  readonly kind: keyof Messages['refusals'];
  readonly code: string;
  readonly message: string;
}

export type Link = { readonly ok: true; readonly copy: CustomerCopy; readonly hash: string } | ({ readonly ok: false } & Refusal);

/** What stands behind `#e=` in an address; empty where there is nothing. */
export function readHash(hash: string): string {
  return /^#e=(.*)$/.exec(hash)?.[1] ?? '';
}

/** Opens a sealed estimate with the keys that the page trusts. Never throws. */
export async function openLink(token: string, keys: unknown, keysSrc: string): Promise<Link> {
  const trusted = keysSrc === '' ? readKeys(keys) : await fetchKeys(keysSrc);
  if (trusted === null) return { ok: false, kind: 'keys', code: 'keys', message: '' };
  const opened = await openEstimate(token, trusted);
  if (opened.ok) return opened;
  return { ok: false, kind: KIND_OF[opened.code], code: opened.code, message: opened.message };
}

/** Which sentence a customer gets. What went wrong in detail is for the shop: it is in the event. */
const KIND_OF: Readonly<Record<OpenFault, Refusal['kind']>> = {
  empty: 'damaged',
  'cut-off': 'damaged',
  damaged: 'damaged',
  algorithm: 'altered',
  'unknown-key': 'altered',
  signature: 'altered',
  'too-long': 'tooLong',
  'too-large': 'tooLong',
  version: 'version',
  keys: 'keys',
  'no-crypto': 'browser',
  'old-browser': 'browser',
};

async function fetchKeys(address: string): Promise<TrustedKeys | null> {
  try {
    const response = await fetch(address, { headers: { accept: 'application/json' } });
    return response.ok ? readKeys(await response.json()) : null;
  } catch {
    return null;
  }
}

/** A list of keys, a set of them, or either as JSON text. */
function readKeys(keys: unknown): TrustedKeys | null {
  try {
    const value = typeof keys === 'string' ? (JSON.parse(keys) as unknown) : keys;
    const list = Array.isArray(value) ? value : (value as { keys?: unknown } | null)?.keys;
    return Array.isArray(list) && list.length > 0 ? (value as TrustedKeys) : null;
  } catch {
    return null;
  }
}
