/** The store in the browser, in a real one: the contract, and what only a browser can do wrong. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { CONTRACT } from '../support/storage-contract.js';
import { openTab, serveStorageSite } from './storage-page/storage-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

let site: StaticServer;
let browser: Browser;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  site = await serveStorageSite();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});
beforeEach(async () => {
  context = await browser.newContext();
  page = await openTab(context, site.url);
});
afterEach(() => context.close());

describe('the contract', () => {
  it.each(CONTRACT.map(({ name }) => name))('%s', async (name) => {
    await page.evaluate((check) => {
      const { openBrowserStore, runCheck } = window.harness;
      return runCheck(check, openBrowserStore('contract'), openBrowserStore('contract'));
    }, name);
  });

  it('hears of others’ changes where there is no BroadcastChannel', async () => {
    const found = await page.evaluate(async () => {
      Reflect.deleteProperty(window, 'BroadcastChannel');
      const { CONTRACT: checks, openBrowserStore, runCheck } = window.harness;
      const names = checks.map(({ name }) => name).filter((name) => /hear/.test(name));
      for (const name of names) await runCheck(name, openBrowserStore(name, { pollEvery: 20 }), openBrowserStore(name, { pollEvery: 20 }));
      return names.length;
    });
    expect(found).toBe(2);
  });
});

/** Code and message of the fault that `work` ends with. */
type Told = { code: string; message: string };

describe('what can go wrong', () => {
  it('no room: says so, keeps what was kept, and goes on when there is room again', async () => {
    const session = await context.newCDPSession(page);
    // Before the first write: Chromium remembers for half a minute how much room there was.
    await session.send('Storage.overrideQuotaForOrigin', { origin: site.url, quotaSize: 300_000 });
    await page.evaluate(() => {
      const store = window.harness.openBrowserStore('quota');
      Object.assign(window, { store });
      return store.put('estimate', 'e-1', 'one', null);
    });
    const told = await page.evaluate(async () => {
      const { largeText } = window.harness;
      const { store } = window as unknown as { store: ReturnType<typeof window.harness.openBrowserStore> };
      for (let i = 0; i < 40; i += 1) {
        try {
          await store.put('photo', `p-${i}`, largeText(60_000), null);
        } catch (fault) {
          const { code, message } = fault as Told;
          const photos = (await store.list('photo')).map(({ id }) => id);
          const texts = await Promise.all(photos.map(async (id) => (await store.get('photo', id))?.text === largeText(60_000)));
          return { code, message, i, photos: photos.length, whole: texts.every(Boolean), one: (await store.get('estimate', 'e-1'))?.text };
        }
      }
      throw new Error('it never was full');
    });
    expect(told).toMatchObject({ code: 'full', photos: told.i, whole: true, one: 'one' });
    expect(told.message).toMatch(/photo “p-\d+” was not saved: there is no more room .* Save the work as a file/);
    await session.send('Storage.overrideQuotaForOrigin', { origin: site.url });
    const after = await page.evaluate(async (i) => {
      const { store } = window as unknown as { store: ReturnType<typeof window.harness.openBrowserStore> };
      return (await store.put('photo', `p-${i}`, 'small', null)).ok;
    }, told.i);
    expect(after).toBe(true);
  });

  it.each(['no indexedDB', 'a SecurityError', 'an InvalidStateError'])(
    'storage denied (%s): says so, and works once it is allowed',
    async (how) => {
      const told = await page.evaluate(async (way): Promise<Told & { after: boolean }> => {
        const { openBrowserStore } = window.harness;
        const real = indexedDB;
        const refuse = (): never => {
          throw new DOMException('refused', way.split(' ')[1]);
        };
        Object.defineProperty(window, 'indexedDB', { configurable: true, value: way === 'no indexedDB' ? undefined : { open: refuse } });
        const store = openBrowserStore('denied');
        const fault = (await store.put('estimate', 'e-1', 'one', null).catch((error: unknown) => error)) as Told;
        Object.defineProperty(window, 'indexedDB', { configurable: true, value: real });
        const after = (await store.put('estimate', 'e-1', 'one', null)).ok;
        return { code: fault.code, message: fault.message, after };
      }, how);
      expect(told).toMatchObject({ code: 'denied', after: true });
      expect(told.message).toMatch(/private window.*Allow it/);
    },
  );

  it('a page without an origin, as in a sandboxed frame: denied', async () => {
    const sandboxed = await context.newPage();
    await sandboxed.route('**/*', async (route) => {
      const response = await route.fetch();
      const headers = { ...response.headers(), 'content-security-policy': 'sandbox allow-scripts', 'access-control-allow-origin': '*' };
      await route.fulfill({ response, headers });
    });
    await sandboxed.goto(`${site.url}/`);
    await sandboxed.waitForSelector('html[data-ready]', { state: 'attached' });
    const told = await sandboxed.evaluate(async (): Promise<Told> => {
      const fault = await window.harness
        .openBrowserStore('sandboxed')
        .list('estimate')
        .catch((error: unknown) => error);
      const { code, message } = fault as Told;
      return { code, message };
    });
    expect(told.code).toBe('denied');
  });

  it('kept by a newer version: says so and touches nothing', async () => {
    const told = await page.evaluate(async () => {
      const { openBrowserStore, openDatabase } = window.harness;
      const first = openBrowserStore('versions');
      await first.put('estimate', 'e-1', 'one', null);
      // Another tab, of a newer page, opens the next version: this one lets go.
      const newer = await openDatabase('versions', () => undefined, 2);
      const faults = [];
      for (const work of [
        () => first.get('estimate', 'e-1'),
        () => first.put('estimate', 'e-1', 'two', null),
        () => openBrowserStore('versions').list('estimate'),
      ]) {
        faults.push(((await work().catch((error: unknown) => error)) as Told).code);
      }
      const text = await newer.get('texts', ['estimate', 'e-1']);
      newer.close();
      const { message } = (await first.get('estimate', 'e-1').catch((error: unknown) => error)) as Told;
      return { faults, text, message };
    });
    expect(told).toMatchObject({ faults: ['newer', 'newer', 'newer'], text: 'one' });
    expect(told.message).toMatch(/newer version.*Reload/);
  });

  it('an older page in another tab that does not let go: says so, and opens when it has', async () => {
    const told = await page.evaluate(async () => {
      const { openDatabase } = window.harness;
      const old = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open('blocked', 1);
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error!);
      });
      const fault = (await openDatabase('blocked', () => undefined, 2).catch((error: unknown) => error)) as Told;
      old.close();
      const opened = await openDatabase('blocked', () => undefined, 2);
      const { version } = opened;
      opened.close();
      return { code: fault.code, message: fault.message, version };
    });
    expect(told).toMatchObject({ code: 'away', version: 2 });
    expect(told.message).toMatch(/Close that tab/);
  });

  it('a corrupt record is named, others stay readable, what is left of it can be saved, and it can be replaced or removed', async () => {
    const found = await page.evaluate(async () => {
      const { openBrowserStore, openDatabase } = window.harness;
      const store = openBrowserStore('corrupt');
      for (const id of ['whole', 'cut', 'no-text', 'no-entry', 'odd-entry', 'odd-text'])
        await store.put('estimate', id, `text of ${id}`, null, id);
      const db = await openDatabase('corrupt', () => undefined);
      await db.put('texts', 'text o', ['estimate', 'cut']);
      await db.delete('texts', ['estimate', 'no-text']);
      await db.delete('entries', ['estimate', 'no-entry']);
      await db.put('entries', 7, ['estimate', 'odd-entry']);
      await db.put('texts', { text: 7 }, ['estimate', 'odd-text']);
      db.close();
      const told: Record<string, string> = {};
      const raw: Record<string, string | null> = {};
      for (const { id, revision } of await store.list('estimate')) {
        told[id] = await store.get('estimate', id).then(
          (kept) => kept!.text,
          (fault: Told) => `${fault.code}: ${fault.message}`,
        );
        raw[id] = await store.raw('estimate', id);
        if (id === 'cut') await store.put('estimate', id, 'mended', revision);
        else if (id !== 'whole') await store.put('estimate', id, null, revision);
      }
      const unlisted = await store.get('estimate', 'no-entry').catch((fault: Told) => `${fault.code}: ${fault.message}`);
      await store.put('estimate', 'no-entry', 'mended', 'unreadable');
      const left = await Promise.all((await store.list('estimate')).map(async ({ id }) => (await store.get('estimate', id))!.text));
      return { told, raw, unlisted, left };
    });
    expect(found.told['whole']).toBe('text of whole');
    expect(found.told['cut']).toMatch(
      /^corrupt: The estimate “cut” cannot be read: its text has 6 characters of 11\. Everything else is untouched\. Save/,
    );
    expect(found.told['no-text']).toMatch(/^corrupt: .*“no-text”.*text is missing/);
    expect(found.told['odd-entry']).toMatch(/^corrupt: .*“odd-entry”.*shape/);
    expect(found.told['odd-text']).toMatch(/^corrupt: .*“odd-text”.*no text/);
    expect(found.unlisted).toMatch(/^corrupt: .*“no-entry”.*only its text/);
    expect(JSON.parse(found.raw['cut']!)).toMatchObject({ id: 'cut', text: 'text o', entry: { about: 'cut', length: 11 } });
    expect(found.left.sort()).toEqual(['mended', 'mended', 'text of whole']);
  });

  it('a connection that the browser closed under the code is opened anew, once, and nothing is lost', async () => {
    const found = await page.evaluate(async () => {
      const { openBrowserStore } = window.harness;
      const opened: IDBDatabase[] = [];
      const open = IDBFactory.prototype.open;
      IDBFactory.prototype.open = function (...args) {
        const request = open.apply(this, args);
        request.addEventListener('success', () => opened.push(request.result));
        return request;
      };
      const store = openBrowserStore('lost');
      const first = await store.put('estimate', 'e-1', 'one', null);
      opened.at(-1)!.close();
      const read = await store.get('estimate', 'e-1');
      opened.at(-1)!.close();
      const second = await store.put('estimate', 'e-1', 'two', read!.revision);
      // Aborted as the browser does when it loses the database, after the write was asked for.
      const transaction = IDBDatabase.prototype.transaction;
      let aborts = 1;
      IDBDatabase.prototype.transaction = function (...args) {
        const made = transaction.apply(this, args);
        if (args[1] === 'readwrite' && aborts-- > 0) queueMicrotask(() => made.abort());
        return made;
      };
      const third = second.ok && (await store.put('estimate', 'e-1', 'three', second.revision));
      aborts = 100;
      const fault = (await store
        .put('estimate', 'e-1', 'four', third && third.ok ? third.revision : null)
        .catch((error: unknown) => error)) as Told;
      IDBDatabase.prototype.transaction = transaction;
      IDBFactory.prototype.open = open;
      return {
        first: first.ok,
        read: read?.text,
        second: second.ok,
        third: third && third.ok,
        last: (await store.get('estimate', 'e-1'))?.text,
        times: opened.length,
        fault: fault.code,
      };
    });
    expect(found).toEqual({ first: true, read: 'one', second: true, third: true, last: 'three', times: 5, fault: 'fault' });
  });

  it('a put that was kept although its connection was lost is not called a conflict', async () => {
    const found = await page.evaluate(async () => {
      const { openBrowserStore } = window.harness;
      const store = openBrowserStore('answer');
      const first = await store.put('estimate', 'e-1', 'one', null);
      // The transaction commits, and its answer is lost with the connection.
      const real = IDBTransaction.prototype.addEventListener;
      let swallow = 1;
      IDBTransaction.prototype.addEventListener = function (this: IDBTransaction, type: string, hear: never, options?: never) {
        if (this.mode === 'readwrite' && type === 'complete' && swallow-- > 0) {
          real.call(this, 'complete', () => this.dispatchEvent(new Event('abort')));
          return;
        }
        real.call(this, type, hear, options);
      } as typeof real;
      const second = await store.put('estimate', 'e-1', 'two', first.ok ? first.revision : null);
      IDBTransaction.prototype.addEventListener = real;
      const now = await store.get('estimate', 'e-1');
      return { ok: second.ok, isSame: second.ok && second.revision === now?.revision, text: now?.text };
    });
    expect(found).toEqual({ ok: true, isSame: true, text: 'two' });
  });

  it('goes on when the person clears the site’s data', async () => {
    const found = await page.evaluate(async () => {
      const store = window.harness.openBrowserStore('cleared');
      await store.put('estimate', 'e-1', 'one', null);
      await new Promise((resolve, reject) => {
        const request = indexedDB.deleteDatabase('cleared');
        request.onsuccess = resolve;
        request.onerror = reject;
      });
      const gone = await store.get('estimate', 'e-1');
      return { gone, again: (await store.put('estimate', 'e-1', 'two', null)).ok };
    });
    expect(found).toEqual({ gone: null, again: true });
  });
});

describe('two tabs', () => {
  it('600 additions from two tabs: none is lost, and each tab hears of the other', async () => {
    const other = await openTab(context, site.url);
    type Listening = ReturnType<typeof window.harness.hearing> & { store: ReturnType<typeof window.harness.openBrowserStore> };
    // Both listen before either begins.
    for (const tab of [page, other]) {
      await tab.evaluate(async () => {
        const store = window.harness.openBrowserStore('tabs');
        Object.assign(window, { listening: { store, ...window.harness.hearing(store, 'estimate') } });
        await store.list('estimate');
      });
    }
    const add = (tab: Page, side: string) =>
      tab.evaluate(async (name) => {
        const { store, heard, end } = (window as unknown as { listening: Listening }).listening;
        for (let done = 0; done < 300;) {
          const read = await store.get('estimate', 'list');
          const result = await store.put('estimate', 'list', `${read?.text ?? ''} ${name}${done}`, read?.revision ?? null);
          if (result.ok) done += 1;
        }
        await window.harness.until('both are heard', () => heard.length >= 600);
        end();
        store.close();
        return heard.length;
      }, side);
    expect(await Promise.all([add(page, 'a'), add(other, 'b')])).toEqual([600, 600]);
    const words = await page.evaluate(async () =>
      (await window.harness.openBrowserStore('tabs').get('estimate', 'list'))!.text.trim().split(' '),
    );
    for (const side of ['a', 'b']) {
      expect(words.filter((word) => word.startsWith(side))).toEqual(Array.from({ length: 300 }, (_, i) => `${side}${i}`));
    }
  });
});
