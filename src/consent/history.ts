import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Estimate } from '../documents/estimate.js';
import { error, type Problem } from '../documents/problem.js';
import type { ConsentedLine } from './record.js';

/** One entry of an estimate's history. */
export interface HistoryEntry {
  readonly at: string;
  readonly what: 'authorised' | 'revised' | 'shared';
  readonly revision: number;
  readonly by: string;
  readonly total: string;
  /** Of a sealed copy: its hash, and the lines as they stood in it. */
  readonly copy?: string;
  readonly lines?: readonly ConsentedLine[];
  /** SHA-256 over this entry and the hash of the one before it. */
  readonly hash: string;
}

type Told = Omit<HistoryEntry, 'revision' | 'hash'>;

/**
 * An estimate with one more entry at the end of its history. Entries are only ever added, and each holds a hash over
 * itself and the hash before it, so that one which was changed or taken out later shows. It does not show who did it,
 * nor does it keep anybody from writing the whole history anew.
 */
export function appendHistory(estimate: Estimate, told: Told): Estimate {
  const before = hashOf(estimate.history.at(-1));
  const entry = { ...told, revision: estimate.revision };
  return { ...estimate, history: [...estimate.history, { ...entry, hash: chained(entry, before) }] };
}

/** Where the chain of an estimate's history is broken, if it is. */
export function checkHistory(estimate: Estimate): Problem[] {
  let before = '';
  for (const [i, entry] of estimate.history.entries()) {
    const { hash, ...told } = entry as Partial<HistoryEntry>;
    if (hash !== chained(told, before)) {
      const message = `Entry ${i + 1} of the history is not as it was written, or one before it is missing.`;
      return [error('broken-history', `history[${i}]`, message, 'Compare with a copy of the estimate that was kept elsewhere.')];
    }
    before = hash;
  }
  return [];
}

function hashOf(entry: Readonly<Record<string, unknown>> | undefined): string {
  return typeof entry?.['hash'] === 'string' ? entry['hash'] : '';
}

/** The keys in alphabetical order, so that the hash hangs on what is said and not on how it was stored. */
function chained(told: object, before: string): string {
  const sorted = Object.entries(told).sort(([a], [b]) => (a < b ? -1 : 1));
  return bytesToHex(sha256(utf8ToBytes(JSON.stringify([before, sorted]))));
}
