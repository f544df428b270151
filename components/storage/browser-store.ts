import {
  asStorageFault,
  type Database,
  DATABASE_VERSION,
  ENTRIES,
  isLostConnection,
  newer,
  openDatabase,
  TEXTS,
} from './browser-database.js';
import { Hearers } from './hearers.js';
import { checkKeepable, drawName, KEPT_KINDS, lastSavedFirst, named } from './keepable.js';
import { type Poll, poll } from './poll.js';
import { type Kept, type KeptChange, type KeptEntry, type KeptKind, type KeptStore, type PutResult, StorageFault } from './port.js';

/** What is listed of a record; the text lies apart. `length` in UTF-16 units tells a text that was cut. */
interface Entry {
  readonly revision: string;
  readonly about: string;
  readonly savedAt: string;
  readonly length: number;
}

export interface BrowserStore extends KeptStore {
  /**
   * What lies under an id, whatever it is, as JSON text: for a record that `get` calls `corrupt`, so that a person can
   * save it. Null where there is nothing.
   */
  raw(kind: KeptKind, id: string): Promise<string | null>;
}

export interface BrowserStoreOptions {
  /** How often other tabs' changes are looked for where the browser has no BroadcastChannel, in milliseconds. */
  readonly pollEvery?: number;
}

/** The revision of a record that has none that can be read, so that it can still be replaced or removed. */
const UNREADABLE = 'unreadable';

/**
 * Keeps everything in this browser (IndexedDB): nothing to install, and only as lasting as the browser's storage. Opens
 * nothing before it is asked for something; all tabs of one origin with the same `name` share one store. A put compares
 * and writes in one transaction, and resolves when the browser has told the disk to keep it (durability `strict`).
 *
 * A record that cannot be read is listed with the revision it can be removed by; `get` says what is wrong with it, `raw`
 * gives what is there.
 */
export function openBrowserStore(name = 'baysheet', { pollEvery = 2000 }: BrowserStoreOptions = {}): BrowserStore {
  return new IndexedDbStore(name, pollEvery);
}

class IndexedDbStore implements BrowserStore {
  private readonly hearers = new Hearers();
  private readonly polls = new Map<KeptKind, Poll>();
  private opening: Promise<Database> | null = null;
  private channel: BroadcastChannel | null | undefined;
  /** Set when this store is of no use any more: closed, or overtaken by a newer version. */
  private ended: StorageFault | null = null;

  constructor(
    private readonly name: string,
    private readonly pollEvery: number,
  ) {}

  async list(kind: KeptKind): Promise<KeptEntry[]> {
    await this.polls.get(kind)?.started;
    return this.run('What is kept cannot be listed', async (db) => {
      const store = db.transaction(ENTRIES).store;
      const all = IDBKeyRange.bound([kind], [kind, []]);
      const [keys, records] = await Promise.all([store.getAllKeys(all), store.getAll(all)]);
      return lastSavedFirst(keys.map((key, i) => listed(kind, (key as [string, string])[1], records[i])));
    });
  }

  async get(kind: KeptKind, id: string): Promise<Kept | null> {
    checkKeepable(kind, id);
    return this.run(`The ${named(kind, id)} cannot be read`, (db) => read(db.transaction([ENTRIES, TEXTS]), kind, id));
  }

  async raw(kind: KeptKind, id: string): Promise<string | null> {
    checkKeepable(kind, id);
    return this.run(`The ${named(kind, id)} cannot be read`, async (db) => {
      const [entry, text] = await readParts(db.transaction([ENTRIES, TEXTS]), kind, id);
      return entry === undefined && text === undefined ? null : JSON.stringify({ kind, id, entry, text }, null, 2);
    });
  }

  async put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about = ''): Promise<PutResult> {
    checkKeepable(kind, id, text, about);
    const entry: KeptEntry = { kind, id, revision: drawName(), about, savedAt: new Date().toISOString() };
    const what = `The ${named(kind, id)} was not ${text === null ? 'removed' : 'saved'}`;
    const result = await this.run(what, (db) => write(db, entry, text, readAt));
    if (result.ok && result.changed) this.announce({ kind, id, entry: text === null ? null : entry });
    return result.ok ? { ok: true, revision: result.revision } : result;
  }

  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void {
    const end = this.hearers.add(kind, hear);
    if (this.openChannel() === null && !this.polls.has(kind)) {
      this.polls.set(
        kind,
        poll(
          kind,
          () => this.list(kind),
          (change) => this.hearers.tell(change),
          this.pollEvery,
        ),
      );
    }
    return () => {
      end();
      if (this.hearers.has(kind)) return;
      this.polls.get(kind)?.end();
      this.polls.delete(kind);
    };
  }

  close(): void {
    this.end(new StorageFault('fault', 'This store was closed. Open it anew.'));
    this.hearers.clear();
    for (const { end } of this.polls.values()) end();
    this.polls.clear();
    this.channel?.close();
    this.channel = null;
  }

  /** Opens where needed, and anew, once, where the connection was lost under the work. */
  private async run<T>(what: string, work: (db: Database) => Promise<T>): Promise<T> {
    for (let again = true; ; again = false) {
      let opening: Promise<Database> | null = null;
      try {
        opening = this.database();
        return await work(await opening);
      } catch (error) {
        if (this.ended !== null) throw this.ended;
        if (!again || !isLostConnection(error)) throw asStorageFault(error, what);
        this.forget(opening);
      }
    }
  }

  private database(): Promise<Database> {
    if (this.ended !== null) throw this.ended;
    if (this.opening !== null) return this.opening;
    const opening = openDatabase(this.name, (why) => (why === 'newer' ? this.end(newer()) : this.forget(opening)), DATABASE_VERSION);
    this.opening = opening;
    // One that failed is not kept: storage may be allowed, or room made, meanwhile.
    opening.catch(() => this.forget(opening));
    return opening;
  }

  private forget(opening: Promise<Database> | null): void {
    void opening?.then(
      (db) => db.close(),
      () => undefined,
    );
    if (this.opening === opening) this.opening = null;
  }

  private end(why: StorageFault): void {
    this.ended ??= why;
    this.forget(this.opening);
  }

  /** Null where there is none: old browsers, and pages without an origin. */
  private openChannel(): BroadcastChannel | null {
    if (this.channel !== undefined) return this.channel;
    try {
      this.channel = new BroadcastChannel(`baysheet-storage:${this.name}`);
      this.channel.onmessage = ({ data }: MessageEvent<unknown>) => {
        if (isChange(data)) this.hearers.tell(data);
      };
    } catch {
      this.channel = null;
    }
    return this.channel;
  }

  private announce(change: KeptChange): void {
    // A poll tells one's own changes too.
    if (!this.polls.has(change.kind)) this.hearers.tell(change);
    this.openChannel()?.postMessage(change);
  }
}

type Reading = ReturnType<Database['transaction']>;
type Written = { readonly ok: true; readonly revision: string; readonly changed: boolean } | Extract<PutResult, { ok: false }>;

/** Compares and writes in one transaction: no other tab comes between. */
async function write(db: Database, entry: KeptEntry, text: string | null, readAt: string | null): Promise<Written> {
  const { kind, id, revision, about, savedAt } = entry;
  const transaction = db.transaction([ENTRIES, TEXTS], 'readwrite', { durability: 'strict' });
  // Awaited below; where a request fails first, its own fault is the one to tell.
  transaction.done.catch(() => undefined);
  const entries = transaction.objectStore(ENTRIES);
  const texts = transaction.objectStore(TEXTS);
  const key: [string, string] = [kind, id];
  const [found, textKey] = await Promise.all([entries.get(key) as Promise<unknown>, texts.getKey(key)]);
  const current = found === undefined && textKey === undefined ? null : listed(kind, id, found);
  if (current === null && text === null) return { ok: true, revision: '', changed: false };
  // The old text is read only where it can be the same: one that the browser cannot read must not be in the way of another.
  const mayBeSame = isEntry(found) && found.about === about && found.length === text?.length;
  if (mayBeSame && (await texts.get(key)) === text) return { ok: true, revision: found.revision, changed: false };
  if ((current?.revision ?? null) !== readAt) {
    await transaction.done;
    return { ok: false, reason: 'conflict', current: await read(db.transaction([ENTRIES, TEXTS]), kind, id) };
  }
  if (text === null) {
    await Promise.all([entries.delete(key), texts.delete(key)]);
  } else {
    const record: Entry = { revision, about, savedAt, length: text.length };
    await Promise.all([entries.put(record, key), texts.put(text, key)]);
  }
  await transaction.done;
  return { ok: true, revision, changed: true };
}

async function read(transaction: Reading, kind: KeptKind, id: string): Promise<Kept | null> {
  const [entry, text] = await readParts(transaction, kind, id);
  if (entry === undefined && text === undefined) return null;
  if (!isEntry(entry))
    throw corrupt(kind, id, entry === undefined ? 'only its text is there' : 'its entry is not of the shape that it was written in');
  if (text === undefined) throw corrupt(kind, id, 'its text is missing');
  if (typeof text !== 'string') throw corrupt(kind, id, 'what is kept as its text is no text');
  if (text.length !== entry.length) throw corrupt(kind, id, `its text has ${text.length} characters of ${entry.length}`);
  return { ...listed(kind, id, entry), text };
}

/** Entry and text as they lie there. A text that the browser itself cannot read any more is corrupt, unless the connection was lost. */
async function readParts(transaction: Reading, kind: KeptKind, id: string): Promise<[entry: unknown, text: unknown]> {
  transaction.done.catch(() => undefined);
  const entry: Promise<unknown> = transaction.objectStore(ENTRIES).get([kind, id]);
  const text = transaction
    .objectStore(TEXTS)
    .get([kind, id])
    .catch((error: unknown) => {
      const name = error instanceof Error ? error.name : '';
      throw ['DataError', 'NotReadableError', 'DataCloneError'].includes(name)
        ? corrupt(kind, id, 'the browser cannot read its text')
        : error;
    });
  return Promise.all([entry, text]);
}

function isEntry(record: unknown): record is Entry {
  if (typeof record !== 'object' || record === null) return false;
  const { revision, about, savedAt, length } = record as Partial<Record<keyof Entry, unknown>>;
  return [revision, about, savedAt].every((value) => typeof value === 'string') && typeof length === 'number';
}

/** The entry of a list, as far as it can be read. */
function listed(kind: KeptKind, id: string, record: unknown): KeptEntry {
  const fields = (typeof record === 'object' && record !== null ? record : {}) as Partial<Record<keyof Entry, unknown>>;
  const words = (value: unknown, missing: string): string => (typeof value === 'string' ? value : missing);
  return { kind, id, revision: words(fields.revision, UNREADABLE), about: words(fields.about, ''), savedAt: words(fields.savedAt, '') };
}

function corrupt(kind: KeptKind, id: string, why: string): StorageFault {
  return new StorageFault(
    'corrupt',
    `The ${named(kind, id)} cannot be read: ${why}. Everything else is untouched. Save what is left of it as a file, then remove it here, or restore it from a backup.`,
  );
}

/** Pages of other versions speak on this channel too. */
function isChange(data: unknown): data is KeptChange {
  if (typeof data !== 'object' || data === null) return false;
  const { kind, id, entry } = data as Partial<KeptChange>;
  if (!KEPT_KINDS.includes(kind as KeptKind) || typeof id !== 'string') return false;
  if (entry === null) return true;
  return typeof entry === 'object' && [entry.revision, entry.about, entry.savedAt].every((value) => typeof value === 'string');
}
