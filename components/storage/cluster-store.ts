import { type Bucket, ClusterConnection, clusterFault, type ClusterOptions } from './cluster-connection.js';
import { allMessages } from './cluster-messages.js';
import {
  copyVersion,
  corrupt,
  dropTexts,
  dropVersions,
  entryFrom,
  HELD_UP,
  idOf,
  lastVersion,
  makeVersion,
  parseVersion,
  readCopy,
  readText,
  revisionOf,
  type Version,
  versionKey,
  writeText,
} from './cluster-versions.js';
import { ClusterWatch } from './cluster-watch.js';
import { Hearers } from './hearers.js';
import { checkKeepable, drawName, lastSavedFirst, named } from './keepable.js';
import type { Kept, KeptChange, KeptEntry, KeptKind, KeptStore, PutResult } from './port.js';

export interface ClusterStoreOptions {
  /** WebSocket addresses of the servers, `wss://…`; any of them will do for all. */
  readonly servers: readonly string[];
  /** The key-value bucket, `baysheet` without it; made where it is not there yet. */
  readonly bucket?: string;
  /** On how many servers each text is kept: 3 without it, which outlasts the loss of one. */
  readonly replicas?: number;
  /** How many versions of a text are kept, the present one included; 8 without it. */
  readonly history?: number;
  /** Most bytes that the bucket may hold, set when it is made; no limit without it. */
  readonly maxBytes?: number;
  /** How long a put is tried again while the cluster is without a leader, in milliseconds; 10000 without it. */
  readonly patience?: number;
  /** What else the client library is told, such as `user` and `pass`, `token` or `authenticator`. */
  readonly connection?: ClusterOptions['connection'];
}

export interface ClusterStore extends KeptStore {
  /** The versions that are still kept, the present one first; none of a text that was removed. */
  history(kind: KeptKind, id: string): Promise<Kept[]>;
}

/**
 * Keeps everything in a JetStream cluster (`nats-server`), which several machines and shops share: a put resolves when
 * more than half of the servers have it. It connects over WebSocket when it is first asked for something, and by itself
 * again after every loss.
 */
export function openClusterStore({
  servers,
  bucket = 'baysheet',
  replicas = 3,
  history = 8,
  patience = 10_000,
  maxBytes,
  connection,
}: ClusterStoreOptions): ClusterStore {
  const options = { servers, bucket, replicas, ...(maxBytes === undefined ? {} : { maxBytes }), ...(connection ? { connection } : {}) };
  return new JetStreamStore(new ClusterConnection(options), history, patience);
}

class JetStreamStore implements ClusterStore {
  private readonly hearers = new Hearers();
  private readonly watches = new Map<KeptKind, ClusterWatch>();

  constructor(
    private readonly connection: ClusterConnection,
    private readonly versions: number,
    private readonly patience: number,
  ) {}

  async list(kind: KeptKind): Promise<KeptEntry[]> {
    await this.watches.get(kind)?.started;
    return this.run('What is kept cannot be listed', async (bucket) => {
      const entries: KeptEntry[] = [];
      for (const { key, text } of await allMessages(bucket, `${kind}.*`)) {
        const id = idOf(key);
        const version = await readCopy(bucket, kind, id, text);
        if (version.text !== null) entries.push(entryFrom(kind, id, version));
      }
      return lastSavedFirst(entries);
    });
  }

  async get(kind: KeptKind, id: string): Promise<Kept | null> {
    checkKeepable(kind, id);
    return this.run(`The ${named(kind, id)} cannot be read`, (bucket) => read(bucket, kind, id));
  }

  async history(kind: KeptKind, id: string): Promise<Kept[]> {
    checkKeepable(kind, id);
    return this.run(`The ${named(kind, id)} cannot be read`, async (bucket) => {
      const { token, earlier } = await lastVersion(bucket, kind, id);
      const found = new Map<string, Kept>();
      for (const message of await allMessages(bucket, versionKey(kind, id, '*'))) {
        const version = parseVersion(kind, id, message.text);
        const text = await readText(bucket, kind, id, version);
        if (text !== null) found.set(version.token, { ...entryFrom(kind, id, version), text });
      }
      return [token, ...earlier].flatMap((one) => found.get(one) ?? []);
    });
  }

  async put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about = ''): Promise<PutResult> {
    checkKeepable(kind, id, text, about);
    const put = new Put(kind, id, text, readAt, about, this.versions);
    const what = `The ${named(kind, id)} was not ${text === null ? 'removed' : 'saved'}`;
    return this.run(what, (bucket) => put.attempt(bucket));
  }

  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void {
    const end = this.hearers.add(kind, hear);
    if (!this.watches.has(kind)) {
      const watch = new ClusterWatch(
        kind,
        () => this.connection.bucket(),
        (change) => this.hearers.tell(change),
      );
      this.watches.set(kind, watch);
    }
    return () => {
      end();
      if (this.hearers.has(kind)) return;
      this.watches.get(kind)?.end();
      this.watches.delete(kind);
    };
  }

  close(): void {
    this.hearers.clear();
    for (const watch of this.watches.values()) watch.end();
    this.watches.clear();
    this.connection.close();
  }

  /**
   * Tries again, as long as patience lasts, what a passing fault has stopped: a server that has died takes its
   * connections and perhaps the leader with it, and others take over within seconds.
   */
  private async run<T>(what: string, work: (bucket: Bucket) => Promise<T>): Promise<T> {
    const end = Date.now() + this.patience;
    for (;;) {
      try {
        return await work(await this.connection.bucket());
      } catch (error) {
        const fault = clusterFault(error, what);
        if (fault.code !== 'away' || Date.now() > end) throw fault;
        await new Promise((resolve) => setTimeout(resolve, 200));
      }
    }
  }
}

/** One put, over as many attempts as it takes. */
class Put {
  private readonly token = drawName();
  private written: { pieces: number; bytes: number } | null = null;

  constructor(
    private readonly kind: KeptKind,
    private readonly id: string,
    private readonly text: string | null,
    private readonly readAt: string | null,
    private readonly about: string,
    private readonly versions: number,
  ) {}

  async attempt(bucket: Bucket): Promise<PutResult> {
    const { kind, id, text, token } = this;
    for (;;) {
      const began = Date.now();
      const last = await lastVersion(bucket, kind, id, true);
      const arrived = await this.findOwn(bucket, last);
      if (arrived !== null) return arrived;
      if (revisionOf(last) !== this.readAt) return this.compare(bucket, last);
      // Nothing is there, and nothing shall be.
      if (last.text === null && text === null) return { ok: true, revision: '' };

      if (text !== null) this.written ??= await writeText(bucket, token, text);
      const tokens = last.text === null ? [] : [last.token, ...last.earlier];
      const next: Version = {
        n: last.n + 1,
        token,
        about: text === null ? '' : this.about,
        savedAt: new Date().toISOString(),
        text: this.written,
        earlier: text === null ? [] : tokens.slice(0, this.versions - 1),
      };
      // Somebody else was first: the next turn sees who. So too where it took so long that old versions may have gone.
      if (!(await makeVersion(bucket, kind, id, next)) || Date.now() - began > HELD_UP / 2) continue;
      return this.conclude(bucket, next, tokens);
    }
  }

  /** The version is made, and so the text is kept; what follows is for lists, and to make room. */
  private async conclude(bucket: Bucket, version: Version, before: readonly string[]): Promise<PutResult> {
    const { kind, id } = this;
    await copyVersion(bucket, kind, id, version);
    dropTexts(
      bucket,
      before.filter((token) => !version.earlier.includes(token)),
    );
    void dropVersions(bucket, kind, id, version.n, this.versions).catch(() => undefined);
    return { ok: true, revision: revisionOf(version) ?? '' };
  }

  /** An attempt before this one arrived and its answer did not; somebody else may have gone on from there. */
  private async findOwn(bucket: Bucket, last: Version): Promise<PutResult | null> {
    if (last.token === this.token) return this.conclude(bucket, last, []);
    return last.earlier.includes(this.token) ? { ok: true, revision: `before ${last.n}` } : null;
  }

  /** Something else is there than was read; exactly the same text is no conflict. */
  private async compare(bucket: Bucket, last: Version): Promise<PutResult> {
    const current = await read(bucket, this.kind, this.id);
    const isSame = current === null ? this.text === null : current.text === this.text && current.about === this.about;
    // Only what is surely later than what was read has surely kept this put out: a server that lags may answer too.
    if (this.written !== null && last.n > Number.parseInt(this.readAt ?? '0', 10)) dropTexts(bucket, [this.token]);
    return isSame ? { ok: true, revision: current?.revision ?? '' } : { ok: false, reason: 'conflict', current };
  }
}

async function read(bucket: Bucket, kind: KeptKind, id: string): Promise<Kept | null> {
  // A text may be gone by the time that it is asked for: then there is a later version.
  for (let before = -1; ;) {
    const version = await lastVersion(bucket, kind, id);
    if (version.text === null) return null;
    const text = await readText(bucket, kind, id, version);
    if (text !== null) return { ...entryFrom(kind, id, version), text };
    if (version.n === before) throw corrupt(kind, id, 'its text is missing');
    before = version.n;
  }
}
