/**
 * One of three real servers is killed while real browsers edit. `STORAGE_LONG=1` kills every server in turn, in the middle
 * of three times as many edits.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { until } from '../support/storage-contract.js';
import { type NatsCluster, startNatsCluster } from '../support/nats-cluster.js';
import { openTab, serveStorageSite } from './storage-page/storage-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

const isLong = process.env['STORAGE_LONG'] === '1';

let cluster: NatsCluster;
let site: StaticServer;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  cluster = await startNatsCluster();
  site = await serveStorageSite(cluster.servers);
  browser = await launchChromium();
  page = await newPage();
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
  await cluster?.close();
});

async function newPage(): Promise<Page> {
  const tab = await openTab(await browser.newContext(), site.url);
  tab.on('pageerror', (error) => console.error(error));
  return tab;
}

/** The name of the server that leads a bucket, as a number. */
async function leaderOf(bucket: string): Promise<number> {
  return page.evaluate(
    async ({ servers, name }) => {
      const connection = new window.harness.ClusterConnection({ servers, bucket: name, replicas: 3 });
      const { manager } = await connection.bucket();
      const { cluster: told } = await manager.streams.info(`KV_${name}`);
      connection.close();
      return Number(told!.leader!.slice(1));
    },
    { servers: cluster.servers, name: bucket },
  );
}

describe('a server that dies', () => {
  interface Edits {
    /** Words that were acknowledged, by estimate. */
    acknowledged: Record<string, string[]>;
    count: number;
    conflicts: number;
    faults: number;
    /** Of one edit, in milliseconds. */
    longest: number;
  }

  /** Adds `edits` words to ten estimates that others add to as well; goes on after every conflict and fault. */
  async function edit(tab: Page, side: string, bucket: string, edits: number): Promise<void> {
    await tab.evaluate(
      ({ servers, name, word, total }) => {
        const made: Edits = { acknowledged: {}, count: 0, conflicts: 0, faults: 0, longest: 0 };
        const store = window.harness.openClusterStore({ servers, bucket: name });
        let begun = 0;
        const work = async (): Promise<void> => {
          while (begun < total) {
            const n = begun;
            begun += 1;
            const id = `e-${n % 10}`;
            const began = performance.now();
            for (let isKept = false; !isKept;) {
              try {
                const read = await store.get('estimate', id);
                // A put that ended in a fault may have been kept all the same: whoever tries again looks first.
                isKept = read?.text.split(' ').includes(`${word}${n}`) === true;
                if (isKept) continue;
                const result = await store.put('estimate', id, `${read?.text ?? ''} ${word}${n}`, read?.revision ?? null);
                isKept = result.ok;
                if (!result.ok) made.conflicts += 1;
              } catch {
                made.faults += 1;
              }
            }
            (made.acknowledged[id] ??= []).push(`${word}${n}`);
            made.count += 1;
            made.longest = Math.max(made.longest, performance.now() - began);
          }
        };
        Object.assign(window, { made, working: [work(), work(), work()] });
      },
      { servers: cluster.servers, name: bucket, word: side, total: edits },
    );
  }

  const made = (tab: Page): Promise<Edits> => tab.evaluate(() => (window as unknown as { made: Edits }).made);

  it('in the middle of 1,000 edits from two browsers: nothing acknowledged is lost', async () => {
    const rounds = isLong ? 3 : 1;
    const total = 1000 * rounds;
    const tabs = [await newPage(), await newPage()];
    // Three servers that have just begun on a busy machine may take long to agree on who leads.
    await page.evaluate(
      (servers) => window.harness.openClusterStore({ servers, bucket: 'edits', patience: 60_000 }).list('estimate'),
      cluster.servers,
    );
    await Promise.all(tabs.map((tab, i) => edit(tab, 'ab'[i]!, 'edits', total / 2)));
    const count = async (): Promise<number> => (await Promise.all(tabs.map(made))).reduce((sum, { count: one }) => sum + one, 0);
    const killed: string[] = [];
    for (let round = 0; round < rounds; round += 1) {
      await until(`${300 + 1000 * round} edits`, async () => (await count()) >= 300 + 1000 * round, 120);
      // The one that has the most to say; in the long run then the others too.
      const server = round === 0 ? await leaderOf('edits') : (Number(killed[0]) + round) % 3;
      await cluster.kill(server);
      killed.push(String(server));
      const at = await count();
      await until('edits go on without it', async () => (await count()) > at + 100, 60);
      if (round < rounds - 1) {
        await cluster.start(server);
        await until('edits go on with it', async () => (await count()) > at + 200, 60);
      }
    }
    await until('all edits are made', async () => (await count()) === total, 240);

    const results = await Promise.all(tabs.map(made));
    const texts = await page.evaluate(async (servers) => {
      const store = window.harness.openClusterStore({ servers, bucket: 'edits', patience: 60_000 });
      const entries = await store.list('estimate');
      const found = await Promise.all(entries.map(async ({ id }) => [id, (await store.get('estimate', id))!.text] as const));
      store.close();
      return Object.fromEntries(found);
    }, cluster.servers);
    const lost = results.flatMap(({ acknowledged }) =>
      Object.entries(acknowledged).flatMap(([id, words]) => {
        const there = texts[id]!.split(' ');
        return words.filter((word) => there.filter((one) => one === word).length !== 1);
      }),
    );
    console.log(
      `${total} edits, killed: ${killed.map((server) => `s${server}`).join(', ')} (the first led the bucket). Conflicts resolved ${results.reduce((sum, { conflicts }) => sum + conflicts, 0)}, ` +
        `faults retried ${results.reduce((sum, { faults }) => sum + faults, 0)}, longest edit ${Math.max(...results.map(({ longest }) => longest)).toFixed(0)} ms, lost or doubled ${lost.length}`,
    );
    expect(results.map(({ count: one }) => one)).toEqual([total / 2, total / 2]);
    expect(lost).toEqual([]);
    await cluster.start(Number(killed.at(-1)));
  }, 600_000);

  it('a watch goes on when its server is gone', async () => {
    const heard = await page.evaluate(async (servers) => {
      const store = window.harness.openClusterStore({ servers: [...servers].reverse(), bucket: 'watched', patience: 60_000 });
      const listening = window.harness.hearing(store, 'estimate');
      await store.list('estimate');
      Object.assign(window, { store, listening });
      return listening.heard.length;
    }, cluster.servers);
    expect(heard).toBe(0);
    const server = await leaderOf('watched');
    await cluster.kill(server);
    const ids = await page.evaluate(async () => {
      const { store, listening } = window as unknown as {
        store: ReturnType<typeof window.harness.openClusterStore>;
        listening: ReturnType<typeof window.harness.hearing>;
      };
      for (let i = 0; i < 5; i += 1) window.harness.kept(await store.put('estimate', `e-${i}`, 'text', null));
      await window.harness.until('all are heard', () => new Set(listening.heard.map(({ id }) => id)).size === 5, 45);
      store.close();
      return listening.heard.map(({ id }) => id);
    });
    expect(ids).toEqual(['e-0', 'e-1', 'e-2', 'e-3', 'e-4']);
    await cluster.start(server);
  }, 180_000);
});
