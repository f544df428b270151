import type { Estimate } from '../../src/documents/estimate.js';
import type { BrowserStore } from '../storage/browser-store.js';
import { type Kept, type KeptStore, StorageFault } from '../storage/port.js';
import { wordsOf } from './keeping-fault.js';
import { type KeptSheet, readKept } from './keeping-text.js';

/** Something that is kept and cannot be shown. */
export interface Unreadable {
  readonly id: string;
  /** Why, in words. */
  readonly why: string;
  /** What lies there, to be saved as a file; null where nothing can be had. */
  readonly raw: string | null;
}

/** Whether it is the store in this browser, which can also tell what lies there as it is. */
export function isBrowserStore(store: KeptStore | null): store is BrowserStore {
  return store !== null && 'raw' in store;
}

export function isCorrupt(fault: unknown): boolean {
  return fault instanceof StorageFault && fault.code === 'corrupt';
}

/** What can be had of something that a store cannot read. */
export async function lookInto(store: KeptStore, id: string, fault: unknown): Promise<Unreadable> {
  return { id, why: wordsOf(fault), raw: isBrowserStore(store) ? await store.raw('estimate', id).catch(() => null) : null };
}

/** The sheet of a kept text, or why there is none. */
export function sheetOf({ id, text }: Kept): KeptSheet | Unreadable {
  const read = readKept(text);
  if (read.ok) return read.value;
  const why = read.problems
    .filter(({ severity }) => severity === 'error')
    .slice(0, 3)
    .map(({ path, message, hint }) => [path === '' ? '' : `${path}:`, message, hint ?? ''].filter(Boolean).join(' '))
    .join(' ');
  return { id, why, raw: text };
}

/** The sheet of a kept text, where its estimate is this one. */
export function readSame(text: string, estimate: Estimate): KeptSheet | null {
  const read = readKept(text);
  return read.ok && JSON.stringify(read.value.estimate) === JSON.stringify(estimate) ? read.value : null;
}
