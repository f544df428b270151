/**
 * Where documents are kept, seen from the elements: a browser's own store, a host's server or a cluster, all behind
 * one port. Everything kept is text, exactly as it was put; what the text means is no business of a store.
 */

/** What a kept text is. An `estimate` is kept under its id, `rates` and `catalogue` under their content hash, a `photo` (a data URL) too. */
export type KeptKind = 'estimate' | 'rates' | 'catalogue' | 'photo';

/** One kept text without the text: what a list shows. */
export interface KeptEntry {
  readonly kind: KeptKind;
  readonly id: string;
  /** Names the state that was read; only `put` compares it, and it means nothing else. */
  readonly revision: string;
  /** Words to list and search by, put beside the text: number, name, plate, title. */
  readonly about: string;
  /** ISO 8601, UTC, by the clock of whoever stored it. */
  readonly savedAt: string;
}

export interface Kept extends KeptEntry {
  readonly text: string;
}

/** A put either is kept from now on (acknowledged), or lost against another put and changed nothing. */
export type PutResult =
  | { readonly ok: true; readonly revision: string }
  | { readonly ok: false; readonly reason: 'conflict'; readonly current: Kept | null };

/** What `watch` tells: something was put or removed, here or elsewhere. */
export interface KeptChange {
  readonly kind: KeptKind;
  readonly id: string;
  /** Null when it was removed. */
  readonly entry: KeptEntry | null;
}

export interface KeptStore {
  /** All entries of one kind, the last saved first. */
  list(kind: KeptKind): Promise<KeptEntry[]>;
  get(kind: KeptKind, id: string): Promise<Kept | null>;
  /**
   * Keeps a text if the store still is at the revision that the caller read; `readAt` null: only if nothing is kept
   * under this id. `text` null removes. Resolves when the text is safe (as safe as this store makes it), rejects with
   * a `StorageFault` when nobody knows or nothing was kept.
   */
  put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about?: string): Promise<PutResult>;
  /** Hears of changes from now on, also of one's own. The function returned ends it. */
  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void;
  /** Lets go of connections and listeners. */
  close(): void;
}

/**
 * Why a store could not do what was asked: `full` (no room), `denied` (the browser or server forbids it), `newer`
 * (kept by a newer version), `corrupt` (what is kept cannot be read), `away` (not reachable now; nothing was kept as
 * far as is known), `fault` (anything else).
 */
export type StorageFaultCode = 'full' | 'denied' | 'newer' | 'corrupt' | 'away' | 'fault';

export class StorageFault extends Error {
  constructor(
    readonly code: StorageFaultCode,
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
    this.name = 'StorageFault';
  }
}
