import { Hearers } from './hearers.js';
import { checkKeepable, drawName, entryOf, lastSavedFirst } from './keepable.js';
import { type Kept, type KeptChange, type KeptEntry, type KeptKind, type KeptStore, type PutResult, StorageFault } from './port.js';

/** What a store in memory holds; several stores on one of these are as several tabs. */
export class Memory {
  readonly kept = new Map<string, Kept>();
  readonly hearers = new Hearers();
}

/** Keeps everything until the page is closed: for tests, and for a page that the browser lets keep nothing. */
export function openMemoryStore(memory = new Memory()): KeptStore {
  return new MemoryStore(memory);
}

class MemoryStore implements KeptStore {
  private readonly ends = new Set<() => void>();
  private isClosed = false;

  constructor(private readonly memory: Memory) {}

  async list(kind: KeptKind): Promise<KeptEntry[]> {
    this.checkOpen();
    return lastSavedFirst([...this.memory.kept.values()].filter((kept) => kept.kind === kind).map(entryOf));
  }

  async get(kind: KeptKind, id: string): Promise<Kept | null> {
    this.checkOpen();
    checkKeepable(kind, id);
    return this.memory.kept.get(`${kind} ${id}`) ?? null;
  }

  async put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about = ''): Promise<PutResult> {
    this.checkOpen();
    checkKeepable(kind, id, text, about);
    const { kept, hearers } = this.memory;
    const current = kept.get(`${kind} ${id}`) ?? null;
    const isSame = current === null ? text === null : current.text === text && current.about === about;
    if (isSame) return { ok: true, revision: current?.revision ?? '' };
    if ((current?.revision ?? null) !== readAt) return { ok: false, reason: 'conflict', current };
    if (text === null) {
      kept.delete(`${kind} ${id}`);
      hearers.tell({ kind, id, entry: null });
      return { ok: true, revision: '' };
    }
    const entry: KeptEntry = { kind, id, revision: drawName(), about, savedAt: new Date().toISOString() };
    kept.set(`${kind} ${id}`, { ...entry, text });
    hearers.tell({ kind, id, entry });
    return { ok: true, revision: entry.revision };
  }

  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void {
    const end = this.memory.hearers.add(kind, hear);
    this.ends.add(end);
    return () => {
      end();
      this.ends.delete(end);
    };
  }

  close(): void {
    this.isClosed = true;
    for (const end of this.ends) end();
  }

  private checkOpen(): void {
    if (this.isClosed) throw new StorageFault('fault', 'This store was closed. Open it anew.');
  }
}
