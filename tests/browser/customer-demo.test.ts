/** The made-up shop's page for customers, built and served as the demo is. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { bare, demoDocuments, sealed } from './customer-page/customer-site.js';
import { priceEstimate } from '../../src/pricing/price-estimate.js';
import { launchChromium } from './support/chromium.js';
import { type EstimateSite, serveEstimateSite } from './support/estimate-site.js';

let site: EstimateSite;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  [site, browser] = await Promise.all([serveEstimateSite(), launchChromium()]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});
beforeEach(async () => {
  complaints = [];
  context = await browser.newContext({ viewport: { width: 390, height: 760 } });
  context.setDefaultTimeout(8_000);
  page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
});
afterEach(async () => {
  await context.close();
  expect(complaints).toEqual([]);
});

test('without a link: the van, signed by a key of the moment, and the page says so', async () => {
  await page.goto(`${site.url}/customer.html`);
  const total = bare(await page.locator('.bar .sum').innerText());
  expect(total).toBe(priceEstimate(await demoDocuments()).totals.total);
  expect(await page.locator('#example').innerText()).toContain('thrown away');
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
});

test('a link opens with the keys that the page publishes, and with no others', async () => {
  const { token, keys } = await sealed(await demoDocuments('plenum'));
  await site.put('customer.keys.json', '{ "keys": [] }');
  await page.goto(`${site.url}/customer.html#e=${token}`);
  expect(await page.locator('.refused').innerText()).toContain('This link was not made by this shop');
  expect(await page.locator('#example').isHidden()).toBe(true);

  await site.put('customer.keys.json', JSON.stringify({ keys }));
  await page.reload();
  await page.locator('.line').first().waitFor();
  expect(bare(await page.locator('.bar .sum').innerText())).toBe(priceEstimate(await demoDocuments('plenum')).totals.total);
});
