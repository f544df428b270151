/**
 * The browser is killed in the middle of edits, as by a power cut of the process: what was acknowledged is there after the
 * next start. `STORAGE_LONG=1` does it a hundred times.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { until } from '../support/storage-contract.js';
import { openTab, serveStorageSite } from './storage-page/storage-site.js';
import { KillableChromium } from './support/killable-chromium.js';
import type { StaticServer } from './support/serve.js';

const TIMES = process.env['STORAGE_LONG'] === '1' ? 100 : 5;

let site: StaticServer;
const browser = new KillableChromium();

beforeAll(async () => {
  site = await serveStorageSite();
});
afterAll(async () => {
  await browser.remove();
  await site?.close();
});

async function start(): Promise<Page> {
  return openTab(await browser.start(), site.url);
}

it(`killed ${TIMES} times in the middle of edits: every acknowledged edit is kept, and nothing is corrupt`, async () => {
  /** Last acknowledged text of each estimate. */
  const acknowledged = new Map<string, number>();
  let edits = 0;
  for (let round = 0; round <= TIMES; round += 1) {
    const page = await start();
    const found = await page.evaluate(async () => {
      const store = window.harness.openBrowserStore('crash');
      const texts: Record<string, string> = {};
      for (const kind of ['estimate', 'photo'] as const) {
        // Throws where one is corrupt.
        for (const { id } of await store.list(kind)) texts[id] = (await store.get(kind, id))!.text;
      }
      return Object.entries(texts).map(([id, text]) => [id, Number(text.split(' ')[0]), text.length] as const);
    });
    const counts = new Map(found.map(([id, count]) => [id, count]));
    for (const [id, count] of acknowledged) {
      expect(counts.get(id) ?? -1, `round ${round}, ${id}`).toBeGreaterThanOrEqual(count);
      // At most the edit that was not acknowledged any more is there too.
      expect(counts.get(id)).toBeLessThanOrEqual(count + 1);
    }
    for (const [id, count, length] of found) expect(length, id).toBe(`${count} `.length + (id === 'p' ? 200_000 : 20_000));
    if (round === TIMES) break;

    await page.exposeBinding('acknowledge', (_, id: string, count: number) => {
      acknowledged.set(id, count);
      edits += 1;
    });
    const before = edits;
    await page.evaluate(() => {
      const { acknowledge } = window as unknown as { acknowledge(id: string, count: number): Promise<void> };
      const store = window.harness.openBrowserStore('crash');
      const edit = async (kind: 'estimate' | 'photo', id: string, length: number): Promise<void> => {
        for (;;) {
          const read = await store.get(kind, id);
          const count = Number(read?.text.split(' ')[0] ?? 0) + 1;
          const result = await store.put(kind, id, `${count} ${'x'.repeat(length)}`, read?.revision ?? null);
          if (result.ok) await acknowledge(id, count);
        }
      };
      for (const id of ['e-1', 'e-2', 'e-3']) void edit('estimate', id, 20_000);
      void edit('photo', 'p', 200_000);
    });
    await until('edits are made', () => edits > before + 20);
    await new Promise((resolve) => setTimeout(resolve, (round * 37) % 120));
    await browser.kill();
  }
  console.log(`killed ${TIMES} times in the middle of ${edits} acknowledged edits: none lost, none corrupt`);
  expect(edits).toBeGreaterThan(20 * TIMES);
}, 600_000);
