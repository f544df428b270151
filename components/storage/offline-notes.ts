/**
 * What is known of each text kept in two places, here and there: one note a text, itself kept in a store of the browser, so
 * that it outlives a reload. A note is written after what it tells of, or before it where noted so; at every moment in
 * between a crash leaves a note from which the right thing follows.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Kept, KeptEntry, KeptKind, KeptStore } from './port.js';

export interface Note {
  /** Revisions here and there that were the same text; null: nothing was kept. What is here at another revision waits. */
  readonly here: string | null;
  readonly there: string | null;
  /** Noted before it is removed here: that it is missing here is meant, and not a loss. */
  readonly isRemoved: boolean;
  /** Fingerprints of what was sent since, noted before it is sent: whose answer was lost is known again there. */
  readonly sent: readonly string[];
  /** What is there instead of what was expected; kept here too, so that a person can look at it offline. */
  readonly conflict: { readonly there: Kept | null } | null;
}

export const NEW_NOTE: Note = { here: null, there: null, isRemoved: false, sent: [], conflict: null };

/** What a list of notes tells. */
export interface ShortNote {
  readonly here: string | null;
  readonly there: string | null;
  readonly isRemoved: boolean;
  readonly isConflict: boolean;
}

export interface FoundNote {
  readonly note: Note;
  /** Of the note itself. */
  readonly revision: string | null;
}

export class Notes {
  constructor(private readonly store: KeptStore) {}

  async find(kind: KeptKind, id: string): Promise<FoundNote> {
    const kept = await this.store.get(kind, id);
    return kept === null ? { note: NEW_NOTE, revision: null } : { note: JSON.parse(kept.text) as Note, revision: kept.revision };
  }

  async list(kind: KeptKind): Promise<Map<string, ShortNote>> {
    const entries = await this.store.list(kind);
    return new Map(entries.map(({ id, about }) => [id, JSON.parse(about) as ShortNote]));
  }

  /** False where another tab has written another note meanwhile. A note that says nothing is removed. */
  async save(kind: KeptKind, id: string, note: Note, { revision }: FoundNote): Promise<boolean> {
    const { here, there, isRemoved, conflict } = note;
    const short: ShortNote = { here, there, isRemoved, isConflict: conflict !== null };
    const isEmpty = JSON.stringify(note) === JSON.stringify(NEW_NOTE);
    const result = await this.store.put(kind, id, isEmpty ? null : JSON.stringify(note), revision, JSON.stringify(short));
    return result.ok;
  }

  watch(kind: KeptKind, hear: (id: string) => void): () => void {
    return this.store.watch(kind, ({ id }) => hear(id));
  }

  close(): void {
    this.store.close();
  }
}

/** Tells one text with its words from every other; of nothing too. */
export function fingerprint(kept: Pick<Kept, 'text' | 'about'> | null): string {
  return kept === null ? 'nothing' : bytesToHex(sha256(utf8ToBytes(JSON.stringify([kept.text, kept.about])))).slice(0, 32);
}

/** Whether what is here has yet to be told there. */
export function isWaiting(local: KeptEntry | null, note: Pick<Note, 'here' | 'isRemoved'>): boolean {
  return local === null ? note.isRemoved : local.revision !== note.here;
}
