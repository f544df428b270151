import { Hearers } from './hearers.js';
import { HttpDesk, type HttpStoreOptions } from './http-desk.js';
import { checkKeepable, lastSavedFirst } from './keepable.js';
import { type Poll, poll } from './poll.js';
import { type Kept, type KeptChange, type KeptEntry, type KeptKind, type KeptStore, type PutResult, StorageFault } from './port.js';

/**
 * Keeps everything on a host's own server, which needs six answers (RFC 9110; `demo/server.ts` is one that gives them).
 * KIND is `estimate`, `rates`, `catalogue` or `photo`; ID is the id, and `~.` and `~..` for the ids `.` and `..`.
 *
 * | request | answer |
 * |---|---|
 * | `GET base/KIND/` | 200, `{ "entries": [{ "id", "revision", "about", "savedAt" }] }`, where `revision` is the ETag of the text; an `ETag` of the list, and 304 where `If-None-Match` names it |
 * | `GET base/KIND/ID` | 200 with the text as UTF-8, its strong `ETag`, `Baysheet-About` (percent-encoded) and `Baysheet-Saved-At` (ISO 8601); 404 where nothing is kept |
 * | `PUT base/KIND/ID` with `If-None-Match: *` | 201 with the new `ETag` if nothing was kept, else 412 |
 * | `PUT base/KIND/ID` with `If-Match: ETAG` | 200 or 204 with the new `ETag` if that is what is kept, else 412 |
 * | `DELETE base/KIND/ID` with `If-Match: ETAG` | 204 if that is what is kept, else 412 |
 * | any of them, refused | 401 or 403: not allowed; 413 or 507: no room; 5xx: try again later |
 *
 * For a page of another origin the server exposes `ETag`, `Baysheet-About` and `Baysheet-Saved-At`. `watch` asks for
 * the list every `pollEvery` milliseconds, which costs an unchanged list a 304 without a body.
 *
 * A put whose answer was lost is looked up: it is `ok` if the server has exactly that text.
 */
export function openHttpStore(options: HttpStoreOptions): KeptStore {
  return new HttpStore(new HttpDesk(options), options.pollEvery ?? 5000);
}

class HttpStore implements KeptStore {
  private readonly hearers = new Hearers();
  private readonly polls = new Map<KeptKind, Poll>();

  constructor(
    private readonly desk: HttpDesk,
    private readonly pollEvery: number,
  ) {}

  async list(kind: KeptKind): Promise<KeptEntry[]> {
    await this.polls.get(kind)?.started;
    const { entries } = (await this.desk.list(kind, null))!;
    return lastSavedFirst(entries);
  }

  async get(kind: KeptKind, id: string): Promise<Kept | null> {
    checkKeepable(kind, id);
    return this.desk.get(kind, id);
  }

  async put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about = ''): Promise<PutResult> {
    checkKeepable(kind, id, text, about);
    // There is no request for "delete it if it is not there".
    if (text === null && readAt === null) return this.compare(kind, id, null, about);
    try {
      const revision = await this.desk.put(kind, id, text, readAt, about);
      return revision === null ? await this.compare(kind, id, text, about) : { ok: true, revision };
    } catch (fault) {
      if (!(fault instanceof StorageFault && fault.code === 'away')) throw fault;
      return this.lookUp(kind, id, text, readAt, about, fault);
    }
  }

  watch(kind: KeptKind, hear: (change: KeptChange) => void): () => void {
    const end = this.hearers.add(kind, hear);
    if (!this.polls.has(kind)) {
      let known: string | null = null;
      const list = async (): Promise<readonly KeptEntry[] | null> => {
        const answer = await this.desk.list(kind, known);
        known = answer?.tag ?? known;
        return answer?.entries ?? null;
      };
      this.polls.set(
        kind,
        poll(kind, list, (change) => this.hearers.tell(change), this.pollEvery),
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
    this.hearers.clear();
    for (const { end } of this.polls.values()) end();
    this.polls.clear();
    this.desk.close();
  }

  /** What a put was compared with and found other; exactly the same text is no conflict. */
  private async compare(kind: KeptKind, id: string, text: string | null, about: string): Promise<PutResult> {
    const current = await this.desk.get(kind, id);
    return isSame(current, text, about) ? { ok: true, revision: current?.revision ?? '' } : { ok: false, reason: 'conflict', current };
  }

  /** The answer to a put was lost, and perhaps not the put. */
  private async lookUp(
    kind: KeptKind,
    id: string,
    text: string | null,
    readAt: string | null,
    about: string,
    fault: StorageFault,
  ): Promise<PutResult> {
    const current = await this.desk.get(kind, id).catch(() => undefined);
    if (current !== undefined && isSame(current, text, about)) return { ok: true, revision: current?.revision ?? '' };
    if (current !== undefined && (current?.revision ?? null) !== readAt) return { ok: false, reason: 'conflict', current };
    throw fault;
  }
}

function isSame(current: Kept | null, text: string | null, about: string): boolean {
  return current === null ? text === null : current.text === text && current.about === about;
}
