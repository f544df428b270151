/** Documents kept in a cluster of three real servers, from a real browser. What happens when one dies: storage-cluster-loss.test.ts. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CONTRACT } from '../support/storage-contract.js';
import { type NatsCluster, startNatsCluster } from '../support/nats-cluster.js';
import { openTab, serveStorageSite } from './storage-page/storage-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

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

describe('the contract', () => {
  beforeAll(async () => {
    // All buckets at once: each takes a moment to settle when it is new.
    await page.evaluate(
      async ({ servers, count }) => {
        const stores = Array.from({ length: count }, (_, i) =>
          window.harness.openClusterStore({ servers, bucket: `check-${i}`, patience: 30_000 }),
        );
        await Promise.all(stores.map((store) => store.list('estimate')));
        for (const store of stores) store.close();
      },
      { servers: cluster.servers, count: CONTRACT.length },
    );
  });

  it.each(CONTRACT.map(({ name }, i) => [name, i] as const))('%s', async (name, i) => {
    await page.evaluate(
      async ({ check, servers, bucket }) => {
        const { openClusterStore, runCheck } = window.harness;
        await runCheck(check, openClusterStore({ servers, bucket }), openClusterStore({ servers, bucket }));
      },
      { check: name, servers: cluster.servers, bucket: `check-${i}` },
    );
  });
});

it('keeps the versions that it was told to, and no others', async () => {
  const found = await page.evaluate(async (servers) => {
    const { ClusterConnection, kept, largeText, openClusterStore, until: wait } = window.harness;
    const store = openClusterStore({ servers, bucket: 'history', history: 3 });
    const texts = ['one', 'two', `three ${largeText(700_000)}`, 'four', ''];
    let revision: string | null = null;
    for (const text of texts) revision = kept(await store.put('estimate', 'e.1', text, revision, `words of ${text.slice(0, 5)}`));
    const versions = await store.history('estimate', 'e.1');
    const { kv } = await new ClusterConnection({ servers, bucket: 'history', replicas: 3 }).bucket();
    const pieces = async (): Promise<number> => {
      let count = 0;
      for await (const key of await kv.keys('text.>')) count += key.startsWith('text.') ? 1 : 0;
      return count;
    };
    // Of the versions that are left, the empty one has no piece and the large one has two.
    await wait('old texts are let go of', async () => (await pieces()) === 3);
    kept(await store.put('estimate', 'e.1', null, revision));
    await wait('all are let go of', async () => (await pieces()) === 0);
    const again = kept(await store.put('estimate', 'e.1', 'anew', null));
    const after = (await store.history('estimate', 'e.1')).map(({ text, revision: at }) => [text, at === again]);
    store.close();
    return {
      texts: versions.map(({ text }) => text.slice(0, 5)),
      abouts: versions.map(({ about }) => about),
      last: versions[0]?.revision === revision,
      after,
    };
  }, cluster.servers);
  expect(found).toEqual({
    texts: ['', 'four', 'three'],
    abouts: ['words of ', 'words of four', 'words of three'],
    last: true,
    after: [['anew', true]],
  });
});

it('says what is wrong: no room, a newer version’s entry, one that cannot be read', async () => {
  const found = await page.evaluate(async (servers) => {
    const { ClusterConnection, kept, largeText, openClusterStore } = window.harness;
    const tell = (promise: Promise<unknown>): Promise<string> =>
      promise.then(
        () => 'no fault',
        ({ code, message }) => `${code}: ${message}`,
      );
    const small = openClusterStore({ servers, bucket: 'small', maxBytes: 300_000 });
    kept(await small.put('estimate', 'e-1', 'one', null));
    const full = await tell(small.put('photo', 'p-1', largeText(400_000), null));
    const one = (await small.get('estimate', 'e-1'))?.text;
    small.close();

    const store = openClusterStore({ servers, bucket: 'odd' });
    kept(await store.put('estimate', 'whole', 'text', null));
    const connection = new ClusterConnection({ servers, bucket: 'odd', replicas: 3 });
    const { kv } = await connection.bucket();
    // Each with the copy that lists read.
    const write = async (id: string, json: string): Promise<void> => {
      await kv.put(`v.estimate.${id}.1`, json);
      await kv.put(`estimate.${id}`, json);
    };
    const version = JSON.parse((await kv.get('estimate.whole'))!.string());
    await write('newer', JSON.stringify({ v: 2 }));
    await write('odd', 'no JSON');
    await write('shape', '{"v":1}');
    await write('cut', JSON.stringify({ ...version, text: { pieces: 1, bytes: 99 } }));
    await write('lost', JSON.stringify({ ...version, token: 'nowhere' }));
    // A copy that cannot be read is no loss: the versions are there.
    kept(await store.put('estimate', 'copy', 'text', null));
    await kv.put('estimate.copy', 'no JSON');
    connection.close();
    const told: Record<string, string> = {};
    for (const { id, revision } of await store.list('estimate')) {
      told[id] = await tell(store.get('estimate', id));
      if (id === 'odd') kept(await store.put('estimate', id, 'mended', revision));
      if (id === 'shape') kept(await store.put('estimate', id, null, revision));
      if (id === 'newer') told['over newer'] = await tell(store.put('estimate', id, 'older', revision));
    }
    const mended = (await store.get('estimate', 'odd'))?.text;
    store.close();
    return { full, one, told, mended };
  }, cluster.servers);
  expect(found.full).toMatch(/^full: The photo “p-1” was not saved: the cluster has no more room/);
  expect(found.one).toBe('one');
  expect(found.told).toEqual({
    whole: 'no fault',
    copy: 'no fault',
    newer: expect.stringMatching(/^newer: The estimate “newer” was saved by a newer version/),
    'over newer': expect.stringMatching(/^newer: /),
    odd: expect.stringMatching(/^corrupt: The estimate “odd” cannot be read: its entry is no JSON/),
    shape: expect.stringMatching(/^corrupt: .*“shape”.*shape/),
    cut: expect.stringMatching(/^corrupt: .*“cut”.*4 bytes of 99/),
    lost: expect.stringMatching(/^corrupt: .*“lost”.*text is missing/),
  });
  expect(found.mended).toBe('mended');
});

it('nobody at the addresses is away; fewer servers than copies is said', async () => {
  const told = await page.evaluate(
    async ({ servers }) => {
      const tell = (promise: Promise<unknown>): Promise<string> =>
        promise.then(
          () => 'no fault',
          ({ code, message }) => `${code}: ${message}`,
        );
      const nobody = window.harness.openClusterStore({ servers: [servers[0]!.replace(/:\d+$/, ':1')], patience: 100 });
      const many = window.harness.openClusterStore({ servers, bucket: 'many', replicas: 5, patience: 100 });
      return [await tell(nobody.list('estimate')), await tell(many.list('estimate'))];
    },
    { servers: [...cluster.servers] },
  );
  expect(told[0]).toMatch(/^away: .*cannot be reached/);
  expect(told[1]).toMatch(/^fault: .*fewer servers than copies/);
});
