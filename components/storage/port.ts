/**
 * Where documents are kept, seen from the elements: a browser's own store, a host's server or a cluster, all behind
 * one port. Everything kept is text, exactly as it was put; what the text means is no business of a store.
 */

/**
 * What a kept text is. An `estimate` is kept under its id, `rates` and `catalogue` under their content hash, a `photo` (a
 * data URL) too.
 */
export type KeptKind = 'estimate' | 'rates' | 'catalogue' | 'photo';

/** One kept text without the text: what a list shows. */
export interface KeptEntry {
  readonly kind: KeptKind;
  readonly id: string;
  /** Names the state that was read; only `put` compares it, and it means nothing else. */
  readonly revision: string;
  /** Words to list and search by, put beside the text: number, name, plate, title. At most 1000 characters. */
  readonly about: string;
  /** ISO 8601, UTC, by the clock of whoever stored it. */
  readonly savedAt: string;
}

export interface Kept extends KeptEntry {
  readonly text: string;
}

/** A put either is kept from now on (acknowledged), or lost against another put and changed nothing. */
export type PutResult =
  { readonly ok: true; readonly revision: string } | { readonly ok: false; readonly reason: 'conflict'; readonly current: Kept | null };

/** What `watch` tells: something was put or removed, here or elsewhere. */
export interface KeptChange {
  readonly kind: KeptKind;
  readonly id: string;
  /** Null when it was removed. */
  readonly entry: KeptEntry | null;
}

export interface KeptStore {
  /** All entries of one kind, the last saved first. Asked for after `watch`, nothing falls between the two. */
  list(kind: KeptKind): Promise<KeptEntry[]>;
  get(kind: KeptKind, id: string): Promise<Kept | null>;
  /**
   * Keeps a text, with words to list it by, if the store still is at the revision that the caller read; `readAt` null:
   * only if nothing is kept under this id. `text` null removes; the revision told then means nothing.
   *
   * A put of exactly what is kept already is `ok` whatever was read: so a put whose answer was lost may be tried again,
   * and what is kept under its content hash may be put by everybody. Of two who put the same text both are told `ok`.
   *
   * Resolves when the text is safe (as safe as this store makes it), rejects with a `StorageFault` when nobody knows or
   * nothing was kept. An id is of letters, digits, `.`, `_` and `-`, at most 64; a text holds no half of a surrogate
   * pair, which has no UTF-8. Anything else is a `fault`.
   */
  put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about?: string): Promise<PutResult>;
  /** Hears of changes from now on, also of one's own. The function returned ends it. */
  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void;
  /** Lets go of connections and listeners; what is asked for afterwards is a `fault`. */
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
