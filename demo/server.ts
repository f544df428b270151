/**
 * A small server that keeps documents for `openHttpStore`, as an example of the six answers a host's own back end gives
 * (they are listed in components/storage/http-store.ts), and for the tests.
 *
 *   npm run -s documents -- [--folder kept-documents] [--port 8737] [--allow-origin http://localhost:5173]
 *
 * It knows no users and listens on this machine only. One process has a folder to itself.
 */
import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { createServer, type IncomingMessage, type RequestListener, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

export interface DocumentServerOptions {
  /** Where the files are; null keeps everything in memory. */
  readonly folder: string | null;
  /** 0: one that is free. */
  readonly port: number;
  /** Origin of pages that may ask from elsewhere; `*` for any. */
  readonly allowOrigin?: string;
}

export interface DocumentServer {
  /** The `base` for `openHttpStore`. */
  readonly base: string;
  close(): Promise<void>;
}

interface Document {
  readonly id: string;
  readonly about: string;
  readonly savedAt: string;
  readonly text: string;
}

const KINDS = ['estimate', 'rates', 'catalogue', 'photo'];
const LARGEST = 16_000_000;

/** Answers requests for what is below `/documents/`, in a server that may have other things elsewhere. */
export async function documentListener({ folder, allowOrigin }: Omit<DocumentServerOptions, 'port'>): Promise<RequestListener> {
  const shelf = await Shelf.open(folder);
  return (request, response) => {
    if (allowOrigin !== undefined) allow(response, allowOrigin);
    answer(shelf, request, response).catch((fault: unknown) => {
      const status = fault instanceof Refusal ? fault.status : (fault as NodeJS.ErrnoException).code === 'ENOSPC' ? 507 : 500;
      if (status === 500) console.error(fault);
      response
        .writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8' })
        .end(fault instanceof Error ? fault.message : String(fault));
    });
  };
}

export async function startDocumentServer({ port, ...options }: DocumentServerOptions): Promise<DocumentServer> {
  const server = createServer(await documentListener(options));
  await new Promise<void>((resolve, reject) => server.once('error', reject).listen(port, '127.0.0.1', resolve));
  return {
    base: `http://127.0.0.1:${(server.address() as AddressInfo).port}/documents`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

class Refusal extends Error {
  constructor(
    readonly status: number,
    message: string,
  ) {
    super(message);
  }
}

function allow(response: ServerResponse, origin: string): void {
  response.setHeader('Access-Control-Allow-Origin', origin);
  response.setHeader('Access-Control-Allow-Methods', 'GET, PUT, DELETE');
  response.setHeader('Access-Control-Allow-Headers', 'If-Match, If-None-Match, Content-Type, Authorization, Baysheet-About');
  response.setHeader('Access-Control-Expose-Headers', 'ETag, Baysheet-About, Baysheet-Saved-At');
}

async function answer(shelf: Shelf, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (request.method === 'OPTIONS') {
    response.writeHead(204).end();
    return;
  }
  const path = /^\/documents\/([a-z]+)\/(~\.{1,2}|[A-Za-z0-9._-]{1,64})?$/.exec(new URL(request.url ?? '/', 'http://localhost').pathname);
  const [, kind = '', named] = path ?? [];
  if (!KINDS.includes(kind)) throw new Refusal(404, `There is nothing at this address. Documents are at /documents/${KINDS.join('|')}/ID.`);
  if (named === undefined) sendList(shelf, kind, request, response);
  else if (request.method === 'GET') sendText(await shelf.get(kind, named.replace('~', '')), response);
  else if (request.method === 'PUT') await putText(shelf, kind, named.replace('~', ''), request, response);
  else if (request.method === 'DELETE') await removeText(shelf, kind, named.replace('~', ''), request, response);
  else throw new Refusal(405, 'Here GET, PUT and DELETE are understood.');
}

function sendList(shelf: Shelf, kind: string, request: IncomingMessage, response: ServerResponse): void {
  if (request.method !== 'GET') throw new Refusal(405, 'A list can only be read.');
  const body = JSON.stringify({ entries: shelf.list(kind) });
  const tag = hashOf(body);
  const headers = { ETag: tag, 'Cache-Control': 'no-store', 'Content-Type': 'application/json; charset=utf-8' };
  if (request.headers['if-none-match'] === tag) response.writeHead(304, headers).end();
  else response.writeHead(200, headers).end(body);
}

function sendText(document: Document | null, response: ServerResponse): void {
  if (document === null) throw new Refusal(404, 'Nothing is kept under this id.');
  response
    .writeHead(200, { ...headersOf(document), 'Cache-Control': 'no-store', 'Content-Type': 'text/plain; charset=utf-8' })
    .end(document.text);
}

async function putText(shelf: Shelf, kind: string, id: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const about = decodeURIComponent(request.headers['baysheet-about']?.toString() ?? '');
  const document = { id, about, savedAt: new Date().toISOString(), text: await readBody(request) };
  const before = await shelf.change(kind, id, conditionOf(request), document);
  response.writeHead(before === null ? 201 : 204, headersOf(document)).end();
}

async function removeText(shelf: Shelf, kind: string, id: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  await shelf.change(kind, id, conditionOf(request), null);
  response.writeHead(204).end();
}

/** What must be kept at the moment: the tag of a text, or null for nothing. */
function conditionOf({ headers }: IncomingMessage): string | null {
  if (headers['if-none-match'] === '*') return null;
  if (headers['if-match'] !== undefined) return headers['if-match'];
  throw new Refusal(428, 'Say what was read with If-Match, or If-None-Match: * for what is new.');
}

async function readBody(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    // Read to its end all the same: whoever is still sending does not hear the answer.
    if (size <= LARGEST) chunks.push(chunk);
  }
  if (size > LARGEST) throw new Refusal(413, `A document has at most ${LARGEST} bytes.`);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(Buffer.concat(chunks));
  } catch {
    throw new Refusal(400, 'The document is not text in UTF-8.');
  }
}

function headersOf(document: Document): Record<string, string> {
  return { ETag: tagOf(document), 'Baysheet-About': encodeURIComponent(document.about), 'Baysheet-Saved-At': document.savedAt };
}

/** A strong tag, from what is kept and nothing else, so that it survives a restart; worked out once for each document. */
function tagOf(document: Document): string {
  const tag = tags.get(document) ?? hashOf(document.about, document.text);
  tags.set(document, tag);
  return tag;
}

const tags = new WeakMap<Document, string>();

function hashOf(...texts: string[]): string {
  const hash = createHash('sha256');
  for (const text of texts) hash.update(`${text.length} `).update(text);
  return `"${hash.digest('base64url').slice(0, 27)}"`;
}

/** Documents in memory and, where there is a folder, each in a file of its own. */
class Shelf {
  private readonly documents = new Map<string, Document>();
  /** What was asked for last of each document: one change after the other. */
  private readonly turns = new Map<string, Promise<unknown>>();

  private constructor(private readonly folder: string | null) {}

  /** Reads a folder. A file that cannot be read stops the server, rather than count as nothing and be written over. */
  static async open(folder: string | null): Promise<Shelf> {
    const shelf = new Shelf(folder);
    if (folder === null) return shelf;
    for (const kind of KINDS) {
      await mkdir(join(folder, kind), { recursive: true });
      for (const name of await readdir(join(folder, kind))) {
        const path = join(folder, kind, name);
        // Left by a write that a crash has cut short; what it was to replace is whole.
        if (name.endsWith('.part')) await rm(path);
        else shelf.documents.set(`${kind}/${nameToId(name)}`, await readDocument(path));
      }
    }
    return shelf;
  }

  list(kind: string): { id: string; revision: string; about: string; savedAt: string }[] {
    return [...this.documents]
      .filter(([key]) => key.startsWith(`${kind}/`))
      .map(([, document]) => ({ id: document.id, revision: tagOf(document), about: document.about, savedAt: document.savedAt }));
  }

  async get(kind: string, id: string): Promise<Document | null> {
    return this.documents.get(`${kind}/${id}`) ?? null;
  }

  /** Writes or (null) removes a document if what is kept has the tag `condition`; gives what was kept before. */
  change(kind: string, id: string, condition: string | null, document: Document | null): Promise<Document | null> {
    const key = `${kind}/${id}`;
    const turn = (this.turns.get(key) ?? Promise.resolve()).then(async () => {
      const before = this.documents.get(key) ?? null;
      const tag = before === null ? null : tagOf(before);
      if (tag !== condition) throw new Refusal(412, 'Something else is kept under this id.');
      if (this.folder !== null) await this.write(join(this.folder, kind), id, document);
      if (document === null) this.documents.delete(key);
      else this.documents.set(key, document);
      return before;
    });
    const settled = turn
      .catch(() => undefined)
      .then(() => {
        if (this.turns.get(key) === settled) this.turns.delete(key);
      });
    this.turns.set(key, settled);
    return turn;
  }

  /** Beside, then in place: a crash leaves the old file or the new one, whole. */
  private async write(folder: string, id: string, document: Document | null): Promise<void> {
    const path = join(folder, idToName(id));
    if (document === null) {
      await rm(path);
    } else {
      const beside = join(folder, `${randomUUID()}.part`);
      const file = await open(beside, 'w');
      try {
        await file.writeFile(JSON.stringify(document));
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(beside, path);
    }
    await syncFolder(folder);
  }
}

/** Makes the name in the folder last too, where a folder can be opened (not on Windows). */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function readDocument(path: string): Promise<Document> {
  try {
    const { id, about, savedAt, text } = JSON.parse(await readFile(path, 'utf8')) as Document;
    if (![id, about, savedAt, text].every((value) => typeof value === 'string')) throw new Error('a value is missing');
    return { id, about, savedAt, text };
  } catch (fault) {
    throw new Error(
      `${path} cannot be read (${(fault as Error).message}). Restore it from a backup, or move it elsewhere, and start again.`,
      { cause: fault },
    );
  }
}

/** Some file systems take A for a, and some names for devices: capitals become `+a`, and every name ends in `.kept`. */
function idToName(id: string): string {
  return `=${id.replace(/[A-Z]/g, (letter) => `+${letter.toLowerCase()}`)}.kept`;
}

function nameToId(name: string): string {
  return name.replace(/^=|\.kept$/g, '').replace(/\+(.)/g, (_, letter: string) => letter.toUpperCase());
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { values } = parseArgs({
    options: {
      folder: { type: 'string', default: 'kept-documents' },
      port: { type: 'string', default: '8737' },
      'allow-origin': { type: 'string' },
    },
  });
  const { base } = await startDocumentServer({
    folder: values.folder,
    port: Number(values.port),
    ...(values['allow-origin'] ? { allowOrigin: values['allow-origin'] } : {}),
  });
  console.log(`Documents are kept in ${values.folder}, at ${base}`);
}
