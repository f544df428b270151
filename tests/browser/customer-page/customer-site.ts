import { readFile, mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { build } from 'vite';
import { expect } from 'vitest';
import { everythingAtOnce, lightLibraries } from '../../../components/customer/light/alias.js';
import { lightPlugins } from '../../../components/customer/light/plugins.js';
import type { BaysheetCustomer } from '../../../components/customer/baysheet-customer.js';
import { parseCatalogue } from '../../../src/documents/catalogue.js';
import { type Estimate, parseEstimate } from '../../../src/documents/estimate.js';
import { parseRates } from '../../../src/documents/rates.js';
import { sealEstimate } from '../../../src/share/seal.js';
import type { ShopSettings } from '../../../src/share/shop.js';
import { serveFolder, type StaticServer } from '../support/serve.js';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const SHOP = {
  name: 'Quillbrook Motor Works',
  phone: '+1 303 555 0117',
  email: 'desk@example.com',
  address: '14 Invented Lane',
  terms: 'All invented.',
};

/** The harness page, built as the element is shipped, all in one file or in several, under the strict policy. */
export async function serveCustomerSite({ inOneFile = true } = {}): Promise<StaticServer> {
  const folder = await mkdtemp(join(tmpdir(), 'customer-'));
  await build({
    configFile: false,
    root: join(root, 'tests/browser/customer-page'),
    base: './',
    publicDir: false,
    logLevel: 'error',
    resolve: { alias: [...lightLibraries, ...(inOneFile ? everythingAtOnce : [])] },
    plugins: lightPlugins(),
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', modulePreload: false },
  });
  const server = await serveFolder(folder);
  return {
    url: server.url,
    close: async () => {
      await server.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

export async function demoDocuments(name: 'van' | 'plenum' | 'brakes' = 'van') {
  const read = (path: string) => readFile(join(root, path), 'utf8');
  const estimate = parseEstimate(await read(`demo/${name}.estimate.json`));
  const catalogue = parseCatalogue(await read('rates/catalogue.demo.json'));
  const rates = parseRates(await read('rates/card.demo.json'));
  if (!estimate.ok || !catalogue.ok || !rates.ok) throw new Error('The demo’s documents must be valid.');
  return { estimate: estimate.value, catalogue: catalogue.value, rates: rates.value };
}

export type Documents = Awaited<ReturnType<typeof demoDocuments>>;

/** A link as a shop makes it, and the public keys of that shop. @param shop what the sheet says of the shop */
export async function sealed(documents: Documents, shop: ShopSettings = SHOP) {
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, true, ['sign', 'verify']);
  const { token, hash } = await sealEstimate({ ...documents, shop }, { kid: 'shop', privateKey: pair.privateKey });
  const keys = [{ ...(await crypto.subtle.exportKey('jwk', pair.publicKey)), kid: 'shop' }];
  return { token, hash, keys };
}

/** Ids of the lines that can be answered. */
export function lineIds(estimate: Estimate): string[] {
  return estimate.lines.filter((line) => line.kind !== 'note').map(({ id }) => id);
}

type Shown = Partial<Record<keyof BaysheetCustomer, unknown>>;

/** A page with `<baysheet-customer>`, used as a customer uses it. It notes everything that must not happen. */
export class CustomerPage {
  readonly complaints: string[] = [];

  private constructor(
    readonly context: BrowserContext,
    readonly page: Page,
  ) {}

  static async open(browser: Browser, server: StaticServer, options: BrowserContextOptions = {}): Promise<CustomerPage> {
    const context = await browser.newContext({ viewport: { width: 390, height: 760 }, ...options });
    context.setDefaultTimeout(5_000);
    const page = await context.newPage();
    const customer = new CustomerPage(context, page);
    page.on('pageerror', (error) => customer.complaints.push(error.stack ?? error.message));
    page.on('console', (message) => {
      if (message.type() === 'error') customer.complaints.push(message.text());
    });
    page.on('request', (request) => {
      const url = new URL(request.url());
      if (url.protocol !== 'data:' && url.origin !== server.url) customer.complaints.push(`request to ${url}`);
    });
    await page.goto(`${server.url}/`);
    await page.waitForSelector('html[data-ready]');
    return customer;
  }

  async show(properties: Shown, inShadow = false): Promise<void> {
    await this.page.evaluate(([given, shadow]) => window.customer.show(given as never, shadow), [properties, inShadow] as const);
    await this.page.locator('.line, .refused').first().waitFor();
  }

  /** One choice of a line: the label that a thumb meets. */
  choice(line: string, answer: 'yes' | 'no' | 'later'): Locator {
    return this.page.locator(`#line-${line} .answer label`).nth(['yes', 'no', 'later'].indexOf(answer));
  }

  button(name: string | RegExp): Locator {
    return this.page.getByRole('button', { name, exact: typeof name === 'string' });
  }

  /** The total that stays in sight, as a bare figure. */
  async total(): Promise<string> {
    return bare(await this.page.locator('.bar .sum').innerText());
  }

  async answerOpen(): Promise<void> {
    await this.button('Yes to all that is open').click();
  }

  async review(): Promise<void> {
    await this.button('Review').click();
    await this.page.locator('.confirm').waitFor();
  }

  async fillIn({ name = 'Orla Finchley-Dane', phone = '+1 303 555 0142' } = {}): Promise<void> {
    await this.page.getByLabel('Your name').fill(name);
    await this.page.getByLabel('Phone', { exact: true }).fill(phone);
    await this.page.getByRole('checkbox').check();
  }

  async confirm(): Promise<void> {
    await this.button('Confirm and answer').click();
  }

  async axe(): Promise<string[]> {
    await this.page.evaluate(await axeSource);
    return this.page.evaluate(async () => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run(document);
      return violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 80)}`).join(' | ')}`,
      );
    });
  }

  sidewaysRoom(): Promise<number> {
    return this.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  }

  async done(expected: readonly RegExp[] = []): Promise<void> {
    await this.context.close();
    expect(this.complaints.filter((complaint) => !expected.some((words) => words.test(complaint)))).toEqual([]);
  }
}

/** `Total $1,684.84` → `1684.84` */
export function bare(text: string): string {
  return text.replace(/[^\d.-]/g, '');
}
