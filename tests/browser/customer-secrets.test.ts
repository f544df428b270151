/**
 * Secrets in every private field of random estimates: none in what the customer's page shows, says of itself, keeps or
 * prints. 50 estimates with every run, BAYSHEET_SECRETS says how many otherwise, BAYSHEET_SEED brings a run back.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { customerCopy } from '../../src/share/customer-copy.js';
import { ShareFault } from '../../src/share/fault.js';
import { type Proof, tryCases } from '../prove/proof.js';
import { readDocuments } from '../support/builders.js';
import { leaked, plantCanaries, type Secret } from '../support/canaries.js';
import type { Documents } from '../support/oracle-documents.js';
import { CustomerPage, sealed, serveCustomerSite, SHOP } from './customer-page/customer-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);
const cases = Number(process.env['BAYSHEET_SECRETS'] ?? 50);

let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  [server, browser] = await Promise.all([serveCustomerSite(), launchChromium()]);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const PAPER = 'on paper';

/** Everything of the page that a person, a program or a printer could read. */
function wholePage(withPseudo: boolean): string {
  const found: string[] = [
    document.title,
    location.href,
    JSON.stringify({ ...sessionStorage }),
    JSON.stringify({ ...localStorage }),
    JSON.stringify(window.customer.heard),
  ];
  const walk = (node: Node): void => {
    if (node.nodeType === Node.TEXT_NODE || node.nodeType === Node.COMMENT_NODE) found.push(node.textContent ?? '');
    if (node instanceof Element) {
      for (const { name, value } of node.attributes) found.push(`${name}=${value}`);
      for (const pseudo of withPseudo ? ['::before', '::after'] : []) found.push(getComputedStyle(node, pseudo).content);
      if (node instanceof HTMLInputElement || node instanceof HTMLTextAreaElement) found.push(node.value);
      if (node.shadowRoot !== null) walk(node.shadowRoot);
    }
    node.childNodes.forEach(walk);
  };
  walk(document.documentElement);
  return found.join('\n');
}

test(`${cases} estimates (seed ${seed})`, { timeout: 60_000 + cases * 2_000 }, async () => {
  const customer = await CustomerPage.open(browser, server);
  const { page } = customer;
  let seen = 0;

  const search = async (when: string, secrets: readonly Secret[]): Promise<string> => {
    const text = await page.evaluate(wholePage, when === PAPER);
    const found = leaked(secrets, text).map(({ path, secret }) => `${path} (${secret})`);
    if (found.length > 0) throw new Error(`${when}: ${found.join(', ')}`);
    return text;
  };

  const proof: Proof = {
    name: 'page',
    what: 'estimates on the customer’s page',
    cases,
    few: cases,
    async try(d, count) {
      const { documents: planted, secrets } = plantCanaries(d);
      const documents = readDocuments(planted as Documents);
      const isFile = d.chance(50);
      try {
        await page.evaluate(() => document.querySelector('main')!.replaceChildren());
        if (isFile) await customer.show({ copy: customerCopy({ ...documents, shop: SHOP }, { photos: true }) });
        else {
          const { token, keys } = await sealed(documents);
          await customer.show({ token, keys });
        }
      } catch (fault) {
        if (fault instanceof ShareFault) return count(fault.code);
        throw fault;
      }
      const kept = isFile ? secrets.filter(({ inFiles }) => !inFiles) : secrets;
      const text = await search(isFile ? 'a file, opened' : 'a link, opened', kept);
      // One whose lines cannot all be priced is not shown.
      if ((await page.locator('.refused').count()) > 0) return count('refused');
      expect(text).toContain(SHOP.name);
      if (seen % 5 === 0) {
        await page.emulateMedia({ media: 'print' });
        await search(PAPER, kept);
        await page.emulateMedia({ media: 'screen' });
      }
      seen += 1;
      if (!isFile && seen % 2 === 0) return;
      const all = customer.button('Yes to all that is open');
      if ((await all.count()) === 0) return count('nothing to answer');
      await all.click();
      await customer.review();
      await search('before the answer is sent', kept);
      count('answered');
    },
  };
  const { tried, counts, fault } = await tryCases(proof, { seed, cases });
  expect(fault).toBeNull();
  expect(tried).toBe(cases);
  expect(seen).toBeGreaterThan(cases / 2);
  expect(counts.get('answered') ?? 0).toBeGreaterThan(cases / 4);
  // A photo with a word in it is none that a browser can show.
  await customer.done([/ERR_INVALID_URL/]);
});
