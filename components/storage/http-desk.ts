/** One request at a time to a server that keeps documents: how it is put, and what its answers mean. */
import { named } from './keepable.js';
import { type Kept, type KeptEntry, type KeptKind, StorageFault, type StorageFaultCode } from './port.js';

type SentHeaders = Readonly<Record<string, string>>;

export interface HttpStoreOptions {
  /** Address above the kinds, such as `/documents` or `https://shop.example/api/baysheet`. */
  readonly base: string;
  /** Sent with every request, such as `Authorization`; asked for anew each time where it is a function. */
  readonly headers?: SentHeaders | (() => SentHeaders | Promise<SentHeaders>);
  /** As for `fetch`; `include` sends cookies to another origin. */
  readonly credentials?: RequestCredentials;
  /** How often a watched list is asked for, in milliseconds; 5000 without it. */
  readonly pollEvery?: number;
  /** How long an answer is waited for, in milliseconds; 30000 without it. */
  readonly patience?: number;
  /** Sends the requests instead of the browser's own `fetch`. */
  readonly fetch?: typeof globalThis.fetch;
}

interface Answer {
  readonly status: number;
  readonly headers: Headers;
  readonly body: ArrayBuffer;
}

export class HttpDesk {
  private readonly inFlight = new Set<AbortController>();
  private isClosed = false;

  constructor(private readonly options: HttpStoreOptions) {}

  /** All entries of a kind and the tag of the list; null where the list still has the tag that is `known`. */
  async list(kind: KeptKind, known: string | null): Promise<{ entries: KeptEntry[]; tag: string | null } | null> {
    const what = `The list of what is kept as “${kind}” cannot be had`;
    const answer = await this.ask(what, 'GET', `${kind}/`, known === null ? {} : { 'If-None-Match': known });
    if (answer.status === 304) return null;
    if (answer.status !== 200) throw refusal(what, answer);
    return { entries: readList(kind, what, decode(what, answer)), tag: answer.headers.get('ETag') };
  }

  async get(kind: KeptKind, id: string): Promise<Kept | null> {
    const what = `The ${named(kind, id)} cannot be read`;
    const answer = await this.ask(what, 'GET', pathOf(kind, id));
    if (answer.status === 404) return null;
    if (answer.status !== 200) throw refusal(what, answer);
    const about = readAbout(answer.headers.get('Baysheet-About'));
    return { kind, id, revision: revisionOf(what, answer), about, savedAt: readSavedAt(answer.headers), text: decode(what, answer) };
  }

  /** The new revision; null where the server has another one than was read. */
  async put(kind: KeptKind, id: string, text: string | null, readAt: string | null, about: string): Promise<string | null> {
    const what = `The ${named(kind, id)} was not ${text === null ? 'removed' : 'saved'}`;
    const condition: Record<string, string> = readAt === null ? { 'If-None-Match': '*' } : { 'If-Match': readAt };
    const words = { 'Content-Type': 'text/plain; charset=utf-8', 'Baysheet-About': encodeURIComponent(about) };
    const answer =
      text === null
        ? await this.ask(what, 'DELETE', pathOf(kind, id), condition)
        : await this.ask(what, 'PUT', pathOf(kind, id), { ...condition, ...words }, text);
    // What is not there cannot be deleted: as good as a condition that fails.
    if (answer.status === 412 || (text === null && [404, 410].includes(answer.status))) return null;
    if (![200, 201, 204].includes(answer.status)) throw refusal(what, answer);
    return text === null ? '' : revisionOf(what, answer);
  }

  close(): void {
    this.isClosed = true;
    for (const request of this.inFlight) request.abort();
  }

  private async ask(what: string, method: string, path: string, headers: SentHeaders = {}, body?: string): Promise<Answer> {
    if (this.isClosed) throw new StorageFault('fault', 'This store was closed. Open it anew.');
    const { base, credentials, fetch = globalThis.fetch, patience = 30_000 } = this.options;
    const given = typeof this.options.headers === 'function' ? await this.options.headers() : this.options.headers;
    const request = new AbortController();
    this.inFlight.add(request);
    const timer = setTimeout(() => request.abort(), patience);
    try {
      const response = await fetch(`${base.replace(/\/+$/, '')}/${path}`, {
        method,
        headers: { ...given, ...headers },
        // Else a list that has not changed might come from the browser's cache.
        cache: 'no-store',
        signal: request.signal,
        ...(credentials === undefined ? {} : { credentials }),
        ...(body === undefined ? {} : { body }),
      });
      return { status: response.status, headers: response.headers, body: await response.arrayBuffer() };
    } catch (error) {
      throw new StorageFault(
        'away',
        `${what}: the server cannot be reached. Check the connection; it is tried again, or try again later.`,
        { cause: error },
      );
    } finally {
      clearTimeout(timer);
      this.inFlight.delete(request);
    }
  }
}

/** Two ids that an address would lose: `.` and `..`. */
function pathOf(kind: KeptKind, id: string): string {
  return `${kind}/${/^\.{1,2}$/.test(id) ? `~${id}` : id}`;
}

function refusal(what: string, { status }: Answer): StorageFault {
  const [code, why] = meaning(status);
  return new StorageFault(code, `${what}: ${why} (the server answered ${status}).`);
}

function meaning(status: number): [code: StorageFaultCode, why: string] {
  if (status === 401) return ['denied', 'the server does not know who you are. Sign in, then try again'];
  if (status === 403) return ['denied', 'the server does not allow it. Ask whoever looks after it'];
  if (status === 413) return ['full', 'it is larger than the server takes. Make it smaller, or ask whoever looks after the server'];
  if (status === 507) return ['full', 'the server has no more room. Save the work as a file and tell whoever looks after the server'];
  if (status === 408 || status === 429 || status >= 500)
    return ['away', 'the server cannot answer now. It is tried again, or try again later'];
  return [
    'fault',
    'the server does not keep documents at this address as it should. Check the address, or tell whoever looks after the server',
  ];
}

/** A weak tag is a strong one that a compressing proxy has marked; only strong ones match. */
function revisionOf(what: string, { headers }: Answer): string {
  const tag = headers.get('ETag')?.replace(/^W\//, '');
  if (!tag) {
    throw new StorageFault(
      'fault',
      `${what}: the answer has no ETag, or the server hides it from this page. Whoever looks after the server can mend it: Access-Control-Expose-Headers.`,
    );
  }
  return tag;
}

function decode(what: string, { headers, body }: Answer): string {
  if (headers.get('Content-Type')?.startsWith('text/html')) {
    throw new StorageFault(
      'denied',
      `${what}: the server answered with a web page instead, perhaps one to sign in. Sign in, then try again.`,
    );
  }
  try {
    // Without `ignoreBOM` a mark at the start, which belongs to the text, would be lost.
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(body);
  } catch (error) {
    throw new StorageFault('corrupt', `${what}: what the server has is not text in UTF-8. Restore it there from a backup.`, {
      cause: error,
    });
  }
}

function readList(kind: KeptKind, what: string, text: string): KeptEntry[] {
  const bad = (why: string): StorageFault =>
    new StorageFault(
      'fault',
      `${what}: the server’s list is not of the shape that was agreed on (${why}). Tell whoever looks after the server.`,
    );
  let entries: unknown;
  try {
    entries = (JSON.parse(text) as { entries?: unknown }).entries;
  } catch {
    throw bad('no JSON');
  }
  if (!Array.isArray(entries)) throw bad('no "entries"');
  return entries.map((entry: Partial<Record<keyof KeptEntry, unknown>> | null, i) => {
    const { id, revision, about, savedAt } = entry ?? {};
    const isWhole = [id, revision, about, savedAt].every((value) => typeof value === 'string');
    if (!isWhole) throw bad(`entries[${i}] lacks one of "id", "revision", "about", "savedAt"`);
    return { kind, id, revision: (revision as string).replace(/^W\//, ''), about, savedAt } as KeptEntry;
  });
}

function readAbout(header: string | null): string {
  try {
    return decodeURIComponent(header ?? '');
  } catch {
    return header ?? '';
  }
}

function readSavedAt(headers: Headers): string {
  const time = new Date(headers.get('Baysheet-Saved-At') ?? headers.get('Last-Modified') ?? '');
  return Number.isNaN(time.getTime()) ? '' : time.toISOString();
}
