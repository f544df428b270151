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
