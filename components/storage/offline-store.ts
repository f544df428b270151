import { KEPT_KINDS } from './keepable.js';
import { isWaiting, NEW_NOTE, Notes, type ShortNote } from './offline-notes.js';
import { type Places, settle } from './offline-settle.js';
import { type KeptState, keyOf, type OfflineStanding, placeOf, Standing } from './offline-standing.js';
import { type Kept, type KeptChange, type KeptEntry, type KeptKind, type KeptStore, type PutResult, StorageFault } from './port.js';

/** Two versions of one text, side by side; null: removed. */
export interface KeptConflict {
  readonly here: Kept | null;
  readonly there: Kept | null;
}

export interface OfflineStore extends KeptStore {
  state(kind: KeptKind, id: string): Promise<KeptState>;
  /** Null where there is no conflict. */
  conflict(kind: KeptKind, id: string): Promise<KeptConflict | null>;
  /**
   * Ends a conflict with what a person has chosen or put together (null: removed). It is kept here like any put, and goes
   * there in place of what was shown; should that have changed again meanwhile, there is a new conflict.
   */
  resolve(kind: KeptKind, id: string, text: string | null, about?: string): Promise<PutResult>;
  /** How things stand, told at once and after every change. The function returned ends it. */
  watchStanding(hear: (standing: OfflineStanding) => void): () => void;
  /** Tries now, rather than at the next turn; resolves when nothing more can be done. */
  sync(): Promise<void>;
}

export interface OfflineStoreOptions {
  /** Longest time between two tries while the other place cannot be had, in milliseconds; 30000 without it. */
  readonly retryEvery?: number;
}

/** Photos are large, and kept under their content hash: they are fetched when they are asked for. */
const FETCHED_WHEN_ASKED: readonly KeptKind[] = ['photo'];

/**
 * Keeps everything here first and brings it there as soon as that can be had: a put resolves when it is safe here. `local`
 * and `notes` are two stores of this browser with different names, for this one `remote` alone. What is removed here must be
 * removed through this store: a text that only went missing here is fetched again.
 *
 * A text that was changed in both places is kept in both versions until a person resolves it; meanwhile it can be edited on.
 */
export function openOfflineStore(
  local: KeptStore,
  remote: KeptStore,
  notes: KeptStore,
  { retryEvery = 30_000 }: OfflineStoreOptions = {},
): OfflineStore {
  return new TwoPlaces({ local, remote, notes: new Notes(notes) }, retryEvery);
}

class TwoPlaces implements OfflineStore {
  private readonly standing = new Standing();
  /** What to look at, besides everything; with the revision there where that was heard of. */
  private readonly queue = new Map<string, string | null | undefined>();
  /** Everything must be looked at: at the start, and after the other place could not be had. */
  private isAllDue = true;
  private working: Promise<void> | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private failures = 0;
  private isClosed = false;
  private readonly ends: (() => void)[];

  constructor(
    private readonly places: Places,
    private readonly retryEvery: number,
  ) {
    this.ends = KEPT_KINDS.flatMap((kind) => [
      places.remote.watch(kind, ({ id, entry }) => void this.hearRemote(kind, id, entry)),
      // Also of another tab, which may be closed before it has brought it there.
      places.local.watch(kind, ({ id }) => this.queueOne(kind, id)),
      places.notes.watch(kind, (id) => void this.review(kind, id)),
    ]);
    globalThis.addEventListener?.('online', this.onOnline);
    void this.sync();
  }

  async list(kind: KeptKind): Promise<KeptEntry[]> {
    const entries = await this.places.local.list(kind);
    // Nothing yet, as in a new browser: the other place may have something.
    if (entries.length > 0 || !this.isAllDue) return entries;
    await this.sync();
    return this.places.local.list(kind);
  }

  async get(kind: KeptKind, id: string): Promise<Kept | null> {
    const here = await this.places.local.get(kind, id);
    if (here !== null || !FETCHED_WHEN_ASKED.includes(kind)) return here;
    await settle(this.places, kind, id);
    return this.places.local.get(kind, id);
  }

  async put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about = ''): Promise<PutResult> {
    const { local } = this.places;
    if (text === null) await this.noteRemoval(kind, id);
    const result = await local.put(kind, id, text, readAt, about);
    if (result.ok) this.queueOne(kind, id);
    return result;
  }

  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void {
    return this.places.local.watch(kind, hear);
  }

  async state(kind: KeptKind, id: string): Promise<KeptState> {
    const { note } = await this.places.notes.find(kind, id);
    if (note.conflict !== null) return 'conflict';
    return isWaiting(await this.places.local.get(kind, id), note) ? 'waiting' : 'kept everywhere';
  }

  async conflict(kind: KeptKind, id: string): Promise<KeptConflict | null> {
    const { note } = await this.places.notes.find(kind, id);
    return note.conflict === null ? null : { here: await this.places.local.get(kind, id), there: note.conflict.there };
  }

  async resolve(kind: KeptKind, id: string, text: string | null, about = ''): Promise<PutResult> {
    const { local, notes } = this.places;
    const { note: shown } = await notes.find(kind, id);
    const here = await local.get(kind, id);
    const result = await this.put(kind, id, text, here?.revision ?? null, about);
    if (!result.ok || shown.conflict === null) return result;
    // After the put: should this be as far as it gets, the conflict is still there to be resolved.
    for (;;) {
      const found = await notes.find(kind, id);
      const isShown = JSON.stringify(found.note.conflict) === JSON.stringify(shown.conflict);
      if (!isShown) break;
      const next = { ...found.note, there: shown.conflict.there?.revision ?? null, conflict: null, sent: [], isRemoved: text === null };
      if (await notes.save(kind, id, next, found)) break;
    }
    this.queueOne(kind, id);
    return result;
  }

  watchStanding(hear: (standing: OfflineStanding) => void): () => void {
    return this.standing.watch(hear);
  }

  async sync(): Promise<void> {
    this.isAllDue = true;
    await this.working;
    await this.work();
  }

  close(): void {
    this.isClosed = true;
    clearTimeout(this.timer);
    globalThis.removeEventListener?.('online', this.onOnline);
    for (const end of this.ends) end();
    this.standing.clear();
    this.places.local.close();
    this.places.remote.close();
    this.places.notes.close();
  }

  private readonly onOnline = (): void => void this.sync();

  /** So that nobody takes what is missing here for a loss and fetches it again. */
  private async noteRemoval(kind: KeptKind, id: string): Promise<void> {
    const { notes } = this.places;
    for (;;) {
      const found = await notes.find(kind, id);
      if (found.note.isRemoved || (await notes.save(kind, id, { ...found.note, isRemoved: true }, found))) return;
    }
  }

  private async hearRemote(kind: KeptKind, id: string, entry: KeptEntry | null): Promise<void> {
    const { note } = await this.places.notes.find(kind, id).catch(() => ({ note: NEW_NOTE }));
    // One's own put, or a photo that nobody has asked for.
    if (note.there === (entry?.revision ?? null) && note.conflict === null) return;
    if (FETCHED_WHEN_ASKED.includes(kind) && note.here === null) return;
    this.queueOne(kind, id, entry?.revision ?? null);
  }

  private queueOne(kind: KeptKind, id: string, there?: string | null): void {
    const key = keyOf(kind, id);
    this.queue.set(key, there === undefined ? this.queue.get(key) : there);
    void this.review(kind, id).then(() => this.work());
  }

  /** One run at a time; what is queued meanwhile is part of it. */
  private work(): Promise<void> {
    if (this.isClosed) return Promise.resolve();
    clearTimeout(this.timer);
    this.working ??= this.workThrough().finally(() => {
      this.working = null;
    });
    return this.working;
  }

  private async workThrough(): Promise<void> {
    let fault: unknown = null;
    /** What could not be settled, while the rest could. */
    const left = new Map<string, string | null | undefined>();
    try {
      while (!this.isClosed && (this.isAllDue || this.queue.size > 0)) {
        if (this.isAllDue) await this.queueAll();
        for (const [key, there] of [...this.queue]) {
          if (this.isClosed) return;
          // Before the work: what changes during it is looked at again.
          this.queue.delete(key);
          const { kind, id } = placeOf(key);
          try {
            if (await this.isUnsettled(kind, id, there)) await settle(this.places, kind, id);
          } catch (error) {
            fault = error;
            left.set(key, there);
            if (error instanceof StorageFault && error.code === 'away') throw error;
          }
          await this.review(kind, id);
        }
      }
    } catch (error) {
      fault = error;
    }
    for (const [key, there] of left) this.queue.set(key, there);
    this.conclude(fault);
  }

  /** Most of what is heard of is one's own. */
  private async isUnsettled(kind: KeptKind, id: string, there: string | null | undefined): Promise<boolean> {
    const { note } = await this.places.notes.find(kind, id);
    const here = await this.places.local.get(kind, id);
    if (note.conflict !== null || isWaiting(here, note)) return true;
    return there !== undefined && (there !== note.there || (there === null) !== (here === null));
  }

  /** Tells how it went, and tries again later where it did not go well. */
  private conclude(fault: unknown): void {
    if (this.isClosed) return;
    if (fault === null) {
      this.failures = 0;
      this.standing.setFault(null);
      return;
    }
    this.isAllDue = true;
    this.failures += 1;
    const words = `What is kept here and there cannot be brought together: ${fault instanceof Error ? fault.message : 'the reason is not known'}. Reload the page and try again.`;
    this.standing.setFault(fault instanceof StorageFault ? fault : new StorageFault('fault', words, { cause: fault }));
    this.timer = setTimeout(() => void this.work(), Math.min(this.retryEvery, 500 * 2 ** this.failures));
  }

  /** Queues what waits here, what is new there and what is gone there. */
  private async queueAll(): Promise<void> {
    const { local, remote, notes } = this.places;
    for (const kind of KEPT_KINDS) {
      const [here, noted] = [await local.list(kind), await notes.list(kind)];
      const ids = new Set([...here.map(({ id }) => id), ...noted.keys()]);
      const entries = new Map(here.map((entry) => [entry.id, entry]));
      this.standing.set(
        kind,
        [...ids].map((id) => [id, stateOf(entries.get(id) ?? null, noted.get(id))] as const),
      );
      const there = new Map((await remote.list(kind)).map(({ id, revision }) => [id, revision]));
      for (const id of there.keys()) ids.add(id);
      for (const id of ids) {
        const note = noted.get(id);
        const isUnknown = note === undefined && !entries.has(id);
        if (isUnknown && FETCHED_WHEN_ASKED.includes(kind)) continue;
        const isSame = (there.get(id) ?? null) === (note?.there ?? null) && there.has(id) === entries.has(id);
        const isSettled = isSame && stateOf(entries.get(id) ?? null, note) === 'kept everywhere';
        if (!isSettled) this.queue.set(keyOf(kind, id), there.get(id) ?? null);
      }
    }
    this.isAllDue = false;
  }

  private async review(kind: KeptKind, id: string): Promise<void> {
    if (this.isClosed) return;
    try {
      this.standing.set(kind, [[id, await this.state(kind, id)]]);
    } catch {
      // Whoever asks for the text hears what is wrong with it.
    }
  }
}

function stateOf(entry: KeptEntry | null, note: ShortNote | undefined): KeptState {
  if (note?.isConflict) return 'conflict';
  return isWaiting(entry, note ?? NEW_NOTE) ? 'waiting' : 'kept everywhere';
}
