/** One estimate in two tabs of one browser: who writes. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Presence } from '../../components/storage/presence.js';
import { openTab, serveStorageSite } from './storage-page/storage-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

let site: StaticServer;
let browser: Browser;
let context: BrowserContext;

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
});
afterEach(() => context.close());

async function enter(withLocks: boolean): Promise<Page> {
  const page = await openTab(context, site.url);
  await join(page, withLocks);
  return page;
}

async function join(page: Page, withLocks: boolean): Promise<void> {
  await page.evaluate((locks) => {
    const presence = window.harness.openPresence('estimate 1042', () => undefined, locks ? {} : { locks: null });
    Object.assign(window, { presence });
  }, withLocks);
}

async function becomes(page: Page, state: string): Promise<void> {
  await page.waitForFunction((wanted) => (window as unknown as { presence: Presence }).presence.state === wanted, state, { polling: 20 });
}

async function takeOver(page: Page): Promise<void> {
  await page.evaluate(() => (window as unknown as { presence: Presence }).presence.takeOver());
}

describe.each([
  ['by Web Locks', true],
  ['by asking, as over plain http', false],
])('%s', (_, withLocks) => {
  it('the second tab knows, takes over, and the first one hears', async () => {
    const first = await enter(withLocks);
    await becomes(first, 'here');
    const second = await enter(withLocks);
    await becomes(second, 'elsewhere');
    await takeOver(second);
    await becomes(second, 'here');
    await becomes(first, 'elsewhere');
    await takeOver(first);
    await becomes(first, 'here');
    await becomes(second, 'elsewhere');
  });

  it('a tab that waits gets it when the other is closed', async () => {
    const first = await enter(withLocks);
    await becomes(first, 'here');
    const second = await enter(withLocks);
    await becomes(second, 'elsewhere');
    await first.close();
    await becomes(second, 'here');
  });

  it('a tab that waits gets it when the other’s page crashes', async () => {
    const first = await enter(withLocks);
    await becomes(first, 'here');
    const second = await enter(withLocks);
    await becomes(second, 'elsewhere');
    await first.goto('chrome://crash').catch(() => undefined);
    await becomes(second, 'here');
  });

  it('one that goes to another page lets go, and asks again when it comes back', async () => {
    const first = await enter(withLocks);
    await becomes(first, 'here');
    const second = await enter(withLocks);
    await becomes(second, 'elsewhere');
    await first.goto(`${site.url}/?elsewhere`);
    await becomes(second, 'here');
    await first.goBack();
    // Playwright's Chromium keeps no page for "back", so the page is a new one; the events of one that was kept are made.
    await first.waitForSelector('html[data-ready]', { state: 'attached' });
    await join(first, withLocks);
    await becomes(first, 'elsewhere');
    await second.evaluate(() => window.dispatchEvent(new PageTransitionEvent('pagehide', { persisted: true })));
    await becomes(first, 'here');
    await second.evaluate(() => window.dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true })));
    await becomes(second, 'elsewhere');
  });
});

it('goes on alone in a frame that may ask nobody', async () => {
  const page = await openTab(context, site.url);
  const state = await page.evaluate(async () => {
    const heard: string[] = [];
    const refusing = { request: () => Promise.reject(new DOMException('no', 'SecurityError')) } as unknown as LockManager;
    const presence = window.harness.openPresence('a', (now) => void heard.push(now), { locks: refusing });
    await window.harness.until('it is told', () => heard.length > 0);
    presence.close();
    return heard;
  });
  expect(state).toEqual(['here']);
});
