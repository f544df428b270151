/** Two browsers edit one estimate, offline and back: a server of a host, and a cluster, that go away and come again. */
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { OfflineStanding } from '../../components/storage/offline-standing.js';
import type { OfflineStore } from '../../components/storage/offline-store.js';
import { type DocumentServer, startDocumentServer } from '../../demo/server.js';
import { type NatsCluster, startNatsCluster } from '../support/nats-cluster.js';
import { openTab, serveStorageSite } from './storage-page/storage-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

let site: StaticServer;
let browser: Browser;
let cluster: NatsCluster;
let documents: DocumentServer | null = null;
const folder = mkdtempSync(join(tmpdir(), 'offline-'));
let port: number;

beforeAll(async () => {
  cluster = await startNatsCluster();
  port = await freePort();
  site = await serveStorageSite([...cluster.servers, `http://127.0.0.1:${port}`]);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
  await documents?.close();
  await cluster?.close();
  rmSync(folder, { recursive: true, force: true });
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const found = (server.address() as { port: number }).port;
  await new Promise((resolve) => server.close(resolve));
  return found;
}

/** Places that both browsers know, and how they go away and come back. */
const places = {
  server: {
    away: async () => {
      await documents?.close();
      documents = null;
    },
    back: async () => {
      documents ??= await startDocumentServer({ folder, port, allowOrigin: site.url });
    },
  },
  cluster: {
    away: async () => void (await Promise.all([0, 1, 2].map((server) => cluster.kill(server)))),
    back: async () => void (await Promise.all([0, 1, 2].map((server) => cluster.start(server)))),
  },
};

interface Held {
  store: OfflineStore;
  standing: OfflineStanding;
}

/** Opens the store of a page; also after a reload. */
async function open(page: Page, place: keyof typeof places): Promise<void> {
  await page.evaluate(
    ({ where, base, servers }) => {
      const { openBrowserStore, openClusterStore, openHttpStore, openOfflineStore } = window.harness;
      const remote = where === 'server' ? openHttpStore({ base, pollEvery: 100 }) : openClusterStore({ servers, patience: 500 });
      const held = {
        store: openOfflineStore(openBrowserStore(where), remote, openBrowserStore(`${where}-notes`), { retryEvery: 500 }),
      } as Held;
      held.store.watchStanding((standing) => (held.standing = standing));
      Object.assign(window, { held });
    },
    { where: place, base: `http://127.0.0.1:${port}/documents`, servers: cluster.servers },
  );
}

async function newPage(place: keyof typeof places): Promise<Page> {
  const page = await openTab(await browser.newContext(), site.url);
  await open(page, place);
  return page;
}

/** Adds words to the estimate one after the other; gives those that were acknowledged. */
function add(page: Page, words: string[]): Promise<string[]> {
  return page.evaluate(async (wanted) => {
    const { store } = (window as unknown as { held: Held }).held;
    const acknowledged: string[] = [];
    for (const word of wanted) {
      const read = await store.get('estimate', 'e-1');
      const result = await store.put('estimate', 'e-1', `${read?.text ?? ''} ${word}`, read?.revision ?? null);
      if (result.ok) acknowledged.push(word);
    }
    return acknowledged;
  }, words);
}

function text(page: Page): Promise<string> {
  return page.evaluate(async () => (await (window as unknown as { held: Held }).held.store.get('estimate', 'e-1'))?.text ?? '');
}

async function becomes(page: Page, state: 'waiting' | 'conflict' | 'kept everywhere'): Promise<void> {
  await page.waitForFunction(
    (wanted) => {
      const { standing } = (window as unknown as { held: Held }).held;
      const found = standing.conflicts.length > 0 ? 'conflict' : standing.waiting.length > 0 ? 'waiting' : 'kept everywhere';
      return found === wanted;
    },
    state,
    { polling: 50, timeout: 40_000 },
  );
}

const some = (name: string, count: number): string[] => Array.from({ length: count }, (_, i) => `${name}${i}`);

describe.each(['server', 'cluster'] as const)('with a %s', (place) => {
  it('no acknowledged edit is lost: both edit while it is away, one is loaded anew, a person resolves the conflict', async () => {
    await places[place].back();
    const [one, two] = [await newPage(place), await newPage(place)];
    const acknowledged = await add(one, some('before', 10));
    await becomes(one, 'kept everywhere');
    await expect.poll(() => text(two), { timeout: 20_000 }).toContain('before9');

    await places[place].away();
    acknowledged.push(...(await add(one, some('one', 30))), ...(await add(two, some('two', 30))));
    expect(acknowledged.length).toBe(70);
    await becomes(one, 'waiting');
    await becomes(two, 'waiting');
    await one.reload();
    await one.waitForSelector('html[data-ready]', { state: 'attached' });
    await open(one, place);
    expect(await text(one)).toContain('one29');
    acknowledged.push(...(await add(one, some('again', 5))));

    await places[place].back();
    // Whoever is first brings it there; the other one has the conflict, with both versions.
    const isConflict = (page: Page) => becomes(page, 'conflict').then(() => page);
    const torn = await Promise.any([isConflict(one), isConflict(two)]);
    const other = torn === one ? two : one;
    await becomes(other, 'kept everywhere');
    const shown = await torn.evaluate(async () => {
      const { store } = (window as unknown as { held: Held }).held;
      const conflict = (await store.conflict('estimate', 'e-1'))!;
      return { here: conflict.here!.text, there: conflict.there!.text };
    });
    expect([shown.here.includes(torn === one ? 'again4' : 'two29'), shown.there.includes(torn === one ? 'two29' : 'again4')]).toEqual([
      true,
      true,
    ]);
    const merged = [...new Set([...shown.here.trim().split(' '), ...shown.there.trim().split(' ')])].join(' ');
    await torn.evaluate((words) => (window as unknown as { held: Held }).held.store.resolve('estimate', 'e-1', words), merged);
    await becomes(torn, 'kept everywhere');
    await expect.poll(() => text(other), { timeout: 20_000 }).toBe(merged);

    const fresh = await newPage(place);
    await expect.poll(async () => (await text(fresh)).split(' ').sort(), { timeout: 20_000 }).toEqual([...acknowledged].sort());
    console.log(`${place}: ${acknowledged.length} acknowledged edits from two browsers, none lost`);
  });
});
