/** The store on a host's server: the contract against the demo's server, lost answers, refusals. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { openHttpStore } from '../../../components/storage/http-store.js';
import { type KeptStore, StorageFault } from '../../../components/storage/port.js';
import { type DocumentServer, startDocumentServer } from '../../../demo/server.js';
import { CONTRACT, current, faultOf, hearing, kept, runCheck, until } from '../../support/storage-contract.js';

const endings: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of endings.splice(0).reverse()) await end();
});

function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'documents-'));
  endings.push(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

async function serve(folder: string | null = null): Promise<DocumentServer> {
  const server = await startDocumentServer({ folder, port: 0 });
  endings.push(() => server.close());
  return server;
}

function opened(store: KeptStore): KeptStore {
  endings.push(() => store.close());
  return store;
}

/** A server that answers as it is told; gives its address. */
async function answering(listener: RequestListener): Promise<string> {
  const server: Server = createServer(listener);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  endings.push(
    () => server.close(),
    () => server.closeAllConnections(),
  );
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}

async function messageOf(promise: Promise<unknown>): Promise<string> {
  return promise.then(
    () => 'no fault',
    (fault: unknown) => (fault instanceof StorageFault ? `${fault.code}: ${fault.message}` : String(fault)),
  );
}

describe.each(['in memory', 'in a folder'])('the contract, with a server that keeps documents %s', (where) => {
  it.each(CONTRACT.map(({ name }) => name))('%s', async (name) => {
    const { base } = await serve(where === 'in memory' ? null : temporaryFolder());
    await runCheck(name, openHttpStore({ base, pollEvery: 20 }), openHttpStore({ base: `${base}/`, pollEvery: 20 }));
  });
});

describe('an answer that was lost', () => {
  /** Sends requests on, and loses the answers to the first puts, or (before) the puts themselves. */
  function losing(count: number, when: 'before' | 'after'): typeof fetch {
    let left = count;
    return async (input, init) => {
      const loses = init?.method !== 'GET' && left-- > 0;
      if (loses && when === 'before') throw new TypeError('fetch failed');
      const response = await fetch(input, init);
      if (loses) throw new TypeError('fetch failed');
      return response;
    };
  }

  it('is no conflict with oneself: the text is found on the server', async () => {
    const { base } = await serve();
    const store = opened(openHttpStore({ base, fetch: losing(2, 'after') }));
    const first = kept(await store.put('estimate', 'e-1', 'one', null, 'words'));
    const second = kept(await store.put('estimate', 'e-1', 'two', first, 'words'));
    expect((await store.get('estimate', 'e-1'))?.revision).toBe(second);
    const removing = opened(openHttpStore({ base, fetch: losing(1, 'after') }));
    kept(await removing.put('estimate', 'e-1', null, second));
    expect(await store.get('estimate', 'e-1')).toBeNull();
  });

  it('says away where the put did not arrive, and the same put succeeds later', async () => {
    const { base } = await serve();
    const store = opened(openHttpStore({ base, fetch: losing(1, 'before') }));
    expect(await messageOf(store.put('estimate', 'e-1', 'one', null))).toMatch(
      /^away: The estimate “e-1” was not saved: the server cannot be reached/,
    );
    kept(await store.put('estimate', 'e-1', 'one', null));
  });

  it('is recognised when the server is away in between too', async () => {
    const { base } = await serve();
    let isDown = false;
    let isFirst = true;
    const store = opened(
      openHttpStore({
        base,
        fetch: async (input, init) => {
          if (isDown) throw new TypeError('fetch failed');
          const response = await fetch(input, init);
          isDown = isFirst;
          isFirst = false;
          if (isDown) throw new TypeError('fetch failed');
          return response;
        },
      }),
    );
    expect(await faultOf(store.put('estimate', 'e-1', 'one', null))).toBe('away');
    isDown = false;
    kept(await store.put('estimate', 'e-1', 'one', null));
  });

  it('is a conflict where somebody else was there meanwhile', async () => {
    const { base } = await serve();
    const other = opened(openHttpStore({ base }));
    const first = kept(await other.put('estimate', 'e-1', 'one', null));
    const store = opened(openHttpStore({ base, fetch: losing(1, 'before') }));
    kept(await other.put('estimate', 'e-1', 'of another', first));
    expect(current(await store.put('estimate', 'e-1', 'two', first))?.text).toBe('of another');
  });
});

describe('refusals, in words', () => {
  it.each([
    [401, 'denied', /who you are\. Sign in/],
    [403, 'denied', /does not allow/],
    [413, 'full', /larger than the server takes/],
    [507, 'full', /no more room/],
    [429, 'away', /cannot answer now/],
    [500, 'away', /cannot answer now/],
    [503, 'away', /cannot answer now/],
    [405, 'fault', /Check the address/],
    [428, 'fault', /Check the address/],
  ])('%d is %s', async (status, code, words) => {
    const base = await answering((request, response) => void request.resume().on('end', () => response.writeHead(status).end()));
    const store = opened(openHttpStore({ base }));
    for (const ask of [
      () => store.list('estimate'),
      () => store.get('estimate', 'e-1'),
      () => store.put('estimate', 'e-1', 'text', null),
    ]) {
      const told = await messageOf(ask());
      expect(told).toMatch(words);
      expect(told).toMatch(new RegExp(`^${code}: .*\\(the server answered ${status}\\)`));
    }
  });

  it('nobody at the address is away, and so is a server that does not answer', async () => {
    const nobody = opened(openHttpStore({ base: 'http://127.0.0.1:1' }));
    expect(await messageOf(nobody.list('estimate'))).toMatch(/^away: .*cannot be reached\. Check the connection/);
    const base = await answering(() => undefined);
    expect(await faultOf(opened(openHttpStore({ base, patience: 50 })).get('estimate', 'e-1'))).toBe('away');
  });

  it('a web page instead of an answer is somebody who wants a sign-in', async () => {
    const base = await answering((_, response) =>
      response.writeHead(200, { 'content-type': 'text/html', etag: '"a"' }).end('<p>Sign in</p>'),
    );
    const store = opened(openHttpStore({ base }));
    expect(await messageOf(store.get('estimate', 'e-1'))).toMatch(/^denied: .*web page.*sign in/);
    expect(await messageOf(store.list('estimate'))).toMatch(/^denied: /);
  });

  it('an answer without ETag, a list of another shape and bytes that are no text are told', async () => {
    let answer: { headers: Record<string, string>; body: string | Buffer } = { headers: {}, body: 'text' };
    const base = await answering((_, response) => response.writeHead(200, answer.headers).end(answer.body));
    const store = opened(openHttpStore({ base }));
    expect(await messageOf(store.get('estimate', 'e-1'))).toMatch(/^fault: .*no ETag.*Access-Control-Expose-Headers/);
    answer = { headers: { etag: '"a"' }, body: Buffer.from([0x66, 0xff]) };
    expect(await messageOf(store.get('estimate', 'e-1'))).toMatch(/^corrupt: .*“e-1”.*UTF-8/);
    for (const [body, why] of [
      ['no', 'no JSON'],
      ['null', 'no JSON'],
      ['{}', 'no "entries"'],
      ['{"entries":[{"id":"a"}]}', 'entries[0]'],
    ] as const) {
      answer = { headers: {}, body };
      expect(await messageOf(store.list('estimate'))).toContain(why);
    }
  });

  it('a tag that a compressing proxy has made weak still matches', async () => {
    const { base } = await serve();
    const weakening: typeof fetch = async (input, init) => {
      const response = await fetch(input, init);
      const headers = new Headers(response.headers);
      if (headers.has('etag')) headers.set('etag', `W/${headers.get('etag')}`);
      return new Response(response.status === 204 ? null : await response.arrayBuffer(), { status: response.status, headers });
    };
    const store = opened(openHttpStore({ base, fetch: weakening }));
    const first = kept(await store.put('estimate', 'e-1', 'one', null));
    expect((await store.get('estimate', 'e-1'))?.revision).toBe(first);
    kept(await store.put('estimate', 'e-1', 'two', first));
  });
});

describe('what is sent', () => {
  it('headers of the host go with every request, asked for anew each time', async () => {
    const seen: (string | undefined)[] = [];
    const base = await answering((request, response) => {
      seen.push(request.headers.authorization);
      request.resume().on('end', () => response.writeHead(404).end());
    });
    let turn = 0;
    const store = opened(openHttpStore({ base, headers: async () => ({ Authorization: `Bearer ${(turn += 1)}` }) }));
    await store.get('estimate', 'e-1');
    await store.put('estimate', 'e-1', 'text', null).catch(() => undefined);
    expect(seen).toEqual(['Bearer 1', 'Bearer 2']);
  });

  it('a watched list that has not changed costs an answer without a body', async () => {
    const { base } = await serve();
    const statuses: number[] = [];
    const counting: typeof fetch = async (input, init) => {
      const response = await fetch(input, init);
      statuses.push(response.status);
      return response;
    };
    const store = opened(openHttpStore({ base, pollEvery: 5, fetch: counting }));
    kept(await store.put('estimate', 'e-1', 'one', null));
    const { heard, end } = hearing(store, 'estimate');
    await until('some turns', () => statuses.length > 6);
    end();
    expect(statuses.slice(0, 2)).toEqual([201, 200]);
    expect(new Set(statuses.slice(2))).toEqual(new Set([304]));
    expect(heard).toEqual([]);
  });

  it('a watch goes on when the server comes back, and tells what changed meanwhile', async () => {
    const folder = temporaryFolder();
    const first = await startDocumentServer({ folder, port: 0 });
    const store = opened(openHttpStore({ base: first.base, pollEvery: 10 }));
    const { heard } = hearing(store, 'estimate');
    await store.list('estimate');
    await first.close();
    expect(await faultOf(store.list('estimate'))).toBe('away');
    const second = await startDocumentServer({ folder, port: Number(new URL(first.base).port) });
    endings.push(() => second.close());
    kept(await opened(openHttpStore({ base: second.base })).put('estimate', 'e-1', 'one', null));
    await until('it is heard', () => heard.some(({ id }) => id === 'e-1'));
  });
});

describe('the demo’s server', () => {
  it('keeps documents in files and has them again after it was killed in the middle of puts', async () => {
    const folder = temporaryFolder();
    const script = join(import.meta.dirname, '../../../demo/server.ts');
    const child = spawn(process.execPath, ['--import', 'tsx', script, '--folder', folder, '--port', '0'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    endings.push(() => child.kill('SIGKILL'));
    const base = await new Promise<string>((resolve) =>
      child.stdout.on('data', (data: Buffer) => resolve(/http:\S+/.exec(data.toString())![0])),
    );
    const store = opened(openHttpStore({ base }));
    const acknowledged: string[] = [];
    const puts = Array.from({ length: 4 }, async (_, worker) => {
      for (let i = 0; ; i += 1) {
        const result = await store.put('estimate', `e-${worker}-${i}`, `text ${worker} ${i}`, null);
        if (result.ok) acknowledged.push(`e-${worker}-${i}`);
      }
    });
    const ended = Promise.allSettled(puts);
    await until('some are kept', () => acknowledged.length > 40);
    child.kill('SIGKILL');
    await ended;
    const { base: again } = await serve(folder);
    const reopened = opened(openHttpStore({ base: again }));
    const ids = new Set((await reopened.list('estimate')).map(({ id }) => id));
    expect(acknowledged.filter((id) => !ids.has(id))).toEqual([]);
    for (const id of ids) expect((await reopened.get('estimate', id))?.text).toBe(`text ${id.slice(2).replace('-', ' ')}`);
    expect(readdirSync(join(folder, 'estimate')).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('refuses a put that does not say what was read, a document that is too large and an address that is none', async () => {
    const { base } = await serve();
    const status = async (path: string, init: RequestInit): Promise<number> => (await fetch(`${base}/${path}`, init)).status;
    expect(await status('estimate/e-1', { method: 'PUT', body: 'text' })).toBe(428);
    expect(await status('estimate/e-1', { method: 'PUT', body: 'x'.repeat(16_000_001), headers: { 'If-None-Match': '*' } })).toBe(413);
    expect(await status('estimate/e-1', { method: 'PUT', body: new Uint8Array([0xff]), headers: { 'If-None-Match': '*' } })).toBe(400);
    expect(await status('recipe/e-1', {})).toBe(404);
    expect(await status('estimate/a%2Fb', {})).toBe(404);
    expect(await status('estimate/e-1', { method: 'POST', body: '' })).toBe(405);
    expect(await status('estimate/', { method: 'PUT', body: '' })).toBe(405);
    expect(await faultOf(opened(openHttpStore({ base })).put('photo', 'p', 'x'.repeat(16_000_001), null))).toBe('full');
  });

  it('stops at a file that cannot be read and names it, rather than write over it', async () => {
    const folder = temporaryFolder();
    const { base } = await serve(folder);
    kept(await opened(openHttpStore({ base })).put('estimate', 'Ab', 'text', null));
    expect(readdirSync(join(folder, 'estimate'))).toEqual(['=+ab.kept']);
    writeFileSync(join(folder, 'estimate', '=+ab.kept'), '{"id":"Ab"');
    await expect(startDocumentServer({ folder, port: 0 })).rejects.toThrow(/=\+ab\.kept cannot be read .*Restore it/);
  });

  it('lets pages of another origin ask only where it is told to', async () => {
    const closed = await fetch(`${(await serve()).base}/estimate/`, { headers: { origin: 'http://shop.example' } });
    expect(closed.headers.get('access-control-allow-origin')).toBeNull();
    const server = await startDocumentServer({ folder: null, port: 0, allowOrigin: 'http://shop.example' });
    endings.push(() => server.close());
    const preflight = await fetch(`${server.base}/estimate/e-1`, { method: 'OPTIONS' });
    expect(preflight.status).toBe(204);
    expect(preflight.headers.get('access-control-allow-origin')).toBe('http://shop.example');
    expect(preflight.headers.get('access-control-allow-methods')).toContain('PUT');
  });
});
