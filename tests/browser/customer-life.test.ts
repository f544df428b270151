/** What happens to `<baysheet-customer>` over time: loaded again, kept offline, put in and out, and given what is no estimate. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { build, type Rolldown } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { customerFile } from '../../components/share/customer-file.js';
import { type CustomerCopy, customerCopy } from '../../src/share/customer-copy.js';
import { ShareFault } from '../../src/share/fault.js';
import { signCompact } from '../../src/share/jws.js';
import { packCopy } from '../../src/share/pack.js';
import { openReply } from '../../src/share/reply-text.js';
import { CustomerPage, demoDocuments, type Documents, sealed, serveCustomerSite, SHOP } from './customer-page/customer-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

let server: StaticServer;
let browser: Browser;
let documents: Documents;
let link: Awaited<ReturnType<typeof sealed>>;

beforeAll(async () => {
  [server, browser, documents] = await Promise.all([serveCustomerSite(), launchChromium(), demoDocuments()]);
  link = await sealed(documents);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

describe('a page that is loaded again', () => {
  async function open(options: BrowserContextOptions = {}): Promise<CustomerPage> {
    const customer = await CustomerPage.open(browser, server, options);
    await show(customer, link);
    return customer;
  }

  async function show(customer: CustomerPage, { token, keys }: typeof link): Promise<void> {
    await customer.page.evaluate((value) => (location.hash = `#e=${value}`), token);
    await customer.show({ fromHash: true, keys });
  }

  async function reload(customer: CustomerPage): Promise<void> {
    await customer.page.reload();
    await customer.page.waitForSelector('html[data-ready]');
    await show(customer, link);
  }

  const answers = (page: Page): Promise<string[]> =>
    page
      .locator('.answer input:checked')
      .evaluateAll((inputs) => inputs.map((input) => `${(input as HTMLInputElement).name} ${(input as HTMLInputElement).value}`));
  const stored = (page: Page): Promise<number> => page.evaluate(() => sessionStorage.length);

  test('has the answers, the name, the contact and the ceiling; the tick is asked for again', async () => {
    const customer = await open();
    const { page } = customer;
    const before = await answers(page);
    await customer.choice('l3', 'no').click();
    await customer.choice('l4', 'later').click();
    await page.locator('#ceiling').fill('1500');
    await customer.button('Show what fits').click();
    await customer.button('Answer like this').click();
    await customer.review();
    await customer.fillIn();
    const given = await (async () => {
      await customer.button('Change my answers').click();
      return answers(page);
    })();
    expect(given).not.toEqual(before);
    const total = await customer.total();

    await reload(customer);
    expect(await answers(page)).toEqual(given);
    expect(await customer.total()).toBe(total);
    expect(await page.locator('#ceiling').inputValue()).toBe('1500');
    await customer.review();
    expect(await page.getByLabel('Your name').inputValue()).toBe('Orla Finchley-Dane');
    expect(await page.getByLabel('Phone', { exact: true }).inputValue()).toBe('+1 303 555 0142');
    expect(await page.getByRole('checkbox').isChecked()).toBe(false);
    await customer.done();
  });

  test('another estimate begins without them, and they are still there afterwards', async () => {
    const customer = await open();
    const { page } = customer;
    await customer.choice('l9', 'no').click();
    const given = await answers(page);
    const plenum = await sealed(await demoDocuments('plenum'));
    await page.reload();
    await page.waitForSelector('html[data-ready]');
    await show(customer, plenum);
    expect(await page.locator('.line.left').count()).toBe(0);
    await reload(customer);
    expect(await answers(page)).toEqual(given);
    await customer.done();
  });

  test('nothing is kept once the answer was handed over', async () => {
    const customer = await open();
    const { page } = customer;
    const before = await answers(page);
    await customer.answerOpen();
    expect(await stored(page)).toBe(1);
    await customer.review();
    await customer.fillIn();
    await page.evaluate(() => window.customer.take());
    await customer.confirm();
    await page.getByText('has been handed to the shop').waitFor();
    expect(await stored(page)).toBe(0);
    await reload(customer);
    expect(await answers(page)).toEqual(before);
    await customer.done();
  });

  test('an answer that the customer sends is kept until it is on its way', async () => {
    const customer = await open({ permissions: ['clipboard-read', 'clipboard-write'] });
    const { page } = customer;
    await customer.answerOpen();
    await customer.review();
    await customer.fillIn();
    await customer.confirm();
    await page.locator('.done').waitFor();
    expect(await stored(page)).toBe(1);
    await customer.button('Copy').click();
    await page.getByText('Copied.').waitFor();
    expect(await stored(page)).toBe(0);
    await customer.done();
  });

  test.each([
    ['no JSON', 'nonsense'],
    ['a list', '[1, 2]'],
    ['answers that are none', '{"answers":{"l3":"perhaps","zz":"no","l4":7},"name":5,"ceiling":{}}'],
  ])('what was kept is %s: the page begins afresh', async (_, text) => {
    const customer = await open();
    const { page } = customer;
    const before = await answers(page);
    await customer.choice('l3', 'no').click();
    await page.evaluate((value) => sessionStorage.setItem(sessionStorage.key(0)!, value), text);
    await reload(customer);
    expect(await answers(page)).toEqual(before);
    expect(await page.locator('#ceiling').inputValue()).toBe('');
    await customer.done();
  });

  test('where the browser denies its storage, everything else works', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.page.addInitScript(() =>
      Object.defineProperty(window, 'sessionStorage', {
        get() {
          throw new DOMException('denied', 'SecurityError');
        },
      }),
    );
    await reload(customer);
    const { page } = customer;
    const before = await answers(page);
    await customer.answerOpen();
    await customer.review();
    await customer.fillIn();
    await customer.confirm();
    await page.locator('.done').waitFor();
    await reload(customer);
    expect(await answers(page)).toEqual(before);
    await customer.done();
  });
});

describe('more may be found', () => {
  const WORDS = { en: 'More may be found', es: 'Puede aparecer más', fr: 'On peut trouver autre chose' } as const;
  const rounds = (...clean: boolean[]): Documents['estimate']['rounds'] =>
    clean.map((each, i) => ({ n: i + 1, method: 'pressure test', clean: each, note: '' }));

  test.each(['en', 'es', 'fr'] as const)(
    '%s: said with the findings and where the answer is checked, when the last test round was not clean',
    async (lang) => {
      const { token, keys } = await sealed({ ...documents, estimate: { ...documents.estimate, rounds: rounds(true, false) } });
      const customer = await CustomerPage.open(browser, server);
      await customer.show({ token, keys, lang });
      expect(await customer.page.locator('.findings').innerText()).toContain(WORDS[lang]);
      await customer.page.locator('.work > .buttons button').first().click();
      await customer.page.locator('.bar button').click();
      expect(await customer.page.locator('.confirm').innerText()).toContain(WORDS[lang]);
      await customer.done();
    },
  );

  test.each([
    ['the last was clean', rounds(false, true)],
    ['there was none', rounds()],
  ])('not said when %s', async (_, given) => {
    const { token, keys } = await sealed({ ...documents, estimate: { ...documents.estimate, rounds: given } });
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token, keys });
    expect(await customer.page.locator('.sheet').innerText()).not.toContain(WORDS.en);
    await customer.done();
  });
});

describe('who the shop is', () => {
  test.each([
    ['as the page says beside its keys, where the link leaves it out', (keys: JsonWebKey[]) => ({ keys, shop: SHOP }), SHOP.name],
    ['as JSON text too', (keys: JsonWebKey[]) => JSON.stringify({ keys, shop: SHOP }), SHOP.name],
    ['nobody, where neither says it; the estimate shows all the same', (keys: JsonWebKey[]) => ({ keys }), ''],
  ])('%s', async (_, keysOf, name) => {
    const { token, keys } = await sealed(documents, { ...SHOP, published: true });
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token, keys: keysOf(keys) });
    const shown = await customer.page.locator('[part=head]').innerText();
    expect(shown).toContain(documents.estimate.customer.name);
    expect(shown.includes(SHOP.name)).toBe(name !== '');
    await customer.done();
  });
});

describe('in several files', () => {
  let several: StaticServer;
  beforeAll(async () => {
    several = await serveCustomerSite({ inOneFile: false });
  });
  afterAll(() => several?.close());

  const isPart =
    (name: string) =>
    (url: URL): boolean =>
      new RegExp(`/${name}-[^/]*\\.js$`).test(url.pathname);

  test('the estimate shows while everything else is still on its way; a language comes when it is wanted', async () => {
    const customer = await CustomerPage.open(browser, several);
    const { page } = customer;
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).pathname));
    let release = (): void => undefined;
    const held = new Promise<void>((resolve) => (release = resolve));
    await page.route(isPart('rest'), async (route) => {
      await held;
      await route.continue();
    });
    await customer.show({ token: link.token, keys: link.keys, lang: 'fr' });
    expect(await page.locator('#found').innerText()).toBe('Ce que nous avons trouvé');
    expect(asked.filter((path) => /\/es-/.test(path))).toEqual([]);
    await customer.choice('l4', 'no').click();
    release();
    await customer.button('Español').click();
    await expect.poll(() => page.locator('#found').innerText()).toBe('Lo que encontramos');
    await page.locator('#ceiling').fill('700');
    await page.locator('.budget form button').click();
    await page.locator('.proposal').waitFor();
    await customer.done();
  });

  test('once the page stands it works offline, to the QR code', async () => {
    const customer = await CustomerPage.open(browser, several);
    const { page } = customer;
    const rest = page.waitForResponse((response) => isPart('rest')(new URL(response.url())));
    await customer.show({ token: link.token, keys: link.keys });
    await (await rest).finished();
    await customer.context.setOffline(true);
    await customer.answerOpen();
    await customer.review();
    await customer.fillIn();
    await customer.confirm();
    await customer.button('Show as QR code').click();
    await page.locator('svg.qr').waitFor();
    await customer.done();
  });

  test('what the network does not bring is said, and nothing is lost', async () => {
    const customer = await CustomerPage.open(browser, several);
    const { page } = customer;
    await page.route(isPart('rest'), (route) => route.abort());
    await page.route(isPart('es'), (route) => route.abort());
    await customer.show({ token: link.token, keys: link.keys });
    await customer.answerOpen();
    await customer.button('Review').click();
    await expect.poll(() => page.locator('.bar .fault').innerText()).toContain('could not be loaded');
    await page.locator('#ceiling').fill('700');
    await customer.button('Show what fits').click();
    await expect.poll(() => page.locator('.budget [role=status]').innerText()).toContain('could not be loaded');
    const refused = page.waitForEvent('requestfailed', (request) => isPart('es')(new URL(request.url())));
    await customer.button('Español').click();
    await refused;
    expect(await page.locator('#found').innerText()).toBe('What we found');
    expect(await page.locator('.answer input[value=yes]:checked').count()).toBeGreaterThan(10);
    await customer.done([/ERR_FAILED/]);
  });
});

/** The script for one script tag, as `npm run build` makes it. */
async function oneFile(): Promise<string> {
  process.env['NODE_ENV'] = 'production';
  const configFile = join(import.meta.dirname, '../../vite.config.ts');
  const built = await build({ configFile, mode: 'one-file-customer', logLevel: 'error', build: { write: false } });
  const { output } = (Array.isArray(built) ? built[0] : built) as Rolldown.RolldownOutput;
  return output.find((file) => file.type === 'chunk')!.code;
}

describe('an estimate as a file', () => {
  // A dark square that is lit at one corner, drawn for this test.
  const PHOTO =
    'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAIAAAACCAIAAAD91JpzAAAAFUlEQVR42mNgYGD4//8/AwMDAwMDAwAl2gP9qmlrJwAAAABJRU5ErkJggg==';

  test('opens from the disk, offline, with its photos and their words; the answer names the sealed copy', async () => {
    const estimate = structuredClone(documents.estimate);
    estimate.findings[0]!.seen[0] = {
      how: 'dye trace',
      note: 'internal',
      reading: '',
      photo: PHOTO,
      alt: 'A bright line along the seam of the hose',
    };
    estimate.findings[1]!.seen[0] = { how: 'by eye', note: '', reading: '', photo: PHOTO };
    estimate.findings[2]!.seen[0] = { how: 'by hand', note: '', reading: '', photo: PHOTO, alt: 'The customer’s bag', forCustomer: false };
    const made = { ...documents, estimate, shop: SHOP };
    const { hash, token } = await sealed({ ...documents, estimate });
    expect(token.length).toBeLessThan(3000);
    const html = customerFile({
      copy: customerCopy(made, { photos: true }),
      hash,
      script: await oneFile(),
      lang: 'en-US',
      title: 'Estimate',
    });
    expect(html).not.toContain('internal"');
    expect(html).not.toContain('The customer’s bag');

    const folder = await mkdtemp(join(tmpdir(), 'customer-file-'));
    await writeFile(join(folder, 'estimate.html'), html);
    const context = await browser.newContext({ offline: true, viewport: { width: 390, height: 760 } });
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('pageerror', (fault) => faults.push(fault.message));
    page.on('console', (message) => {
      if (message.type() === 'error') faults.push(message.text());
    });
    page.on('request', (request) => {
      if (!/^(file|data):/.test(request.url())) faults.push(request.url());
    });
    await page.goto(pathToFileURL(join(folder, 'estimate.html')).href);
    await page.getByAltText('A bright line along the seam of the hose').waitFor();
    const photos = await page.locator('img').evaluateAll((images) =>
      images.map((image) => ({
        alt: (image as HTMLImageElement).alt,
        drawn: (image as HTMLImageElement).naturalWidth,
        size: image.getBoundingClientRect().width,
      })),
    );
    expect(photos.map(({ alt, drawn }) => [alt, drawn])).toEqual([
      ['A bright line along the seam of the hose', 2],
      ['Photo: by eye', 2],
    ]);
    expect(photos.every(({ size }) => size > 0)).toBe(true);

    await page.locator('.work > .buttons button').first().click();
    await page.locator('.bar button').click();
    await page.getByLabel('Your name').fill('Orla');
    await page.getByLabel('Phone', { exact: true }).fill('303 555 0142');
    await page.getByRole('checkbox').check();
    await page.getByRole('button', { name: 'Confirm and answer' }).click();
    const opened = await openReply(await page.locator('#code').inputValue());
    expect(opened).toMatchObject({ ok: true, reply: { hash, name: 'Orla', estimate: 'demo-van' } });
    expect(faults).toEqual([]);
    await context.close();
    await rm(folder, { recursive: true, force: true });
  });
});

describe('signed, and yet no estimate', () => {
  const JUNK = ['x', '', '-1', '1e9', '0.0000000000000000001', '999999999999.9999999999', 'NaN', '!!', '\u202e'];

  /** Every text in a copy, as a setter. */
  function texts(value: unknown, set: (text: string) => void, found: ((text: string) => void)[] = []): ((text: string) => void)[] {
    if (typeof value === 'string') found.push(set);
    else if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) texts(inner, (text) => ((value as Record<string, unknown>)[key] = text), found);
    }
    return found;
  }

  test('whatever stands in it, the page shows it or says why not; nothing is thrown', async () => {
    const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);
    const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign', 'verify']);
    const keys = [{ ...(await crypto.subtle.exportKey('jwk', pair.publicKey)), kid: 'shop' }];
    // Two operations, and one line of every other kind.
    const lines = documents.estimate.lines.filter(
      ({ kind }, i, all) => all.slice(0, i).filter((line) => line.kind === kind).length < (kind === 'operation' ? 2 : 1),
    );
    const small = { ...documents, estimate: { ...documents.estimate, lines, findings: documents.estimate.findings.slice(0, 2) } };
    const tokens: string[] = [];
    for (let i = 0; tokens.length < 40; i += 1) {
      const copy: CustomerCopy = customerCopy({ ...small, shop: SHOP });
      const places = texts(copy, () => undefined);
      places[(seed + i * 7919) % places.length]!(JUNK[(seed + i) % JUNK.length]!);
      try {
        const packed = packCopy({ copy, sealedAt: '2026-03-02T14:05:00Z' });
        tokens.push(await signCompact(packed, { kid: 'shop', privateKey: pair.privateKey }));
      } catch (fault) {
        // What cannot be packed cannot be sent either.
        if (!(fault instanceof ShareFault || fault instanceof TypeError)) throw fault;
      }
    }
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    const outcomes = await customer.page.evaluate(
      async ([given, trusted]) => {
        const element = document.querySelector('baysheet-customer')!;
        element.keys = trusted;
        const root = element.shadowRoot!;
        const settled = async (): Promise<void> => {
          for (let i = 0; i < 200 && root.querySelector('.bar, .refused, .confirm') === null; i += 1)
            await new Promise((resolve) => setTimeout(resolve, 5));
        };
        const press = async (selector: string): Promise<void> => {
          root.querySelector<HTMLElement>(selector)?.click();
          await new Promise((resolve) => setTimeout(resolve, 5));
          await element.updateComplete;
        };
        const seen: string[] = [];
        for (const token of given) {
          element.token = '';
          element.copy = null;
          await element.updateComplete;
          element.token = token;
          await element.updateComplete;
          await settled();
          const ceiling = root.querySelector<HTMLInputElement>('#ceiling');
          if (ceiling !== null) ceiling.value = '500';
          await press('.budget form button');
          await press('.work > .buttons button');
          await press('.bar button');
          seen.push(root.querySelector('.confirm, .refused, .bar')?.className ?? 'nothing');
        }
        return seen;
      },
      [tokens, keys] as const,
    );
    expect(outcomes, `seed ${seed}`).not.toContain('nothing');
    expect(outcomes.filter((name) => name.startsWith('confirm')).length, `seed ${seed}`).toBeGreaterThan(3);
    expect(outcomes.filter((name) => name.startsWith('refused')).length, `seed ${seed}`).toBeGreaterThan(0);
    await customer.done();
  }, 60_000);
});

test('100 times put into the page, used and taken out: no nodes, no listeners and no memory stay behind', async () => {
  const customer = await CustomerPage.open(browser, server);
  const { page } = customer;
  await customer.show({ token: link.token, keys: link.keys });
  await page.evaluate(() => document.querySelector('baysheet-customer')!.remove());
  const session = await customer.context.newCDPSession(page);
  await session.send('Performance.enable');
  await session.send('HeapProfiler.enable');
  const counts = async () => {
    // What was to be done when the browser is idle has been done.
    await page.evaluate(() => new Promise((resolve) => requestIdleCallback(resolve)));
    for (let i = 0; i < 3; i += 1) await session.send('HeapProfiler.collectGarbage');
    const { metrics } = await session.send('Performance.getMetrics');
    const metric = (name: string): number => metrics.find((it) => it.name === name)!.value;
    return { nodes: metric('Nodes'), listeners: metric('JSEventListeners'), heap: metric('JSHeapUsedSize') };
  };
  const copy = customerCopy({ ...documents, shop: SHOP });
  const cycles = (times: number) =>
    page.evaluate(
      async ([count, token, keys, copy]) => {
        for (let i = 0; i < count; i += 1) {
          await window.customer.show(i % 10 === 0 ? { token, keys } : { copy });
          const element = document.querySelector('baysheet-customer')!;
          const root = element.shadowRoot!;
          while (root.querySelector('.bar') === null) await new Promise((resolve) => setTimeout(resolve, 2));
          root.querySelector<HTMLElement>('.work > .buttons button')!.click();
          sessionStorage.clear();
          await element.updateComplete;
          // In turn: taken out while it is read, while the answer is checked, and put back once.
          if (i % 3 > 0) root.querySelector<HTMLElement>('.bar button')!.click();
          await element.updateComplete;
          element.remove();
          if (i % 3 === 2) {
            document.querySelector('main')!.append(element);
            await element.updateComplete;
            element.remove();
          }
        }
        window.customer.heard.length = 0;
      },
      [times, link.token, link.keys as JsonWebKey[], copy] as const,
    );
  await cycles(15);
  const first = await counts();
  await cycles(100);
  const second = await counts();
  // A small constant for what the browser itself keeps of the last one; it may not grow with the cycles.
  expect(second.nodes - first.nodes).toBeLessThanOrEqual(20);
  expect(second.listeners - first.listeners).toBeLessThanOrEqual(4);
  // One element with its estimate takes more than 300 kB, so that 100 of them would be far above this.
  expect(second.heap - first.heap).toBeLessThan(1_500_000);
  await customer.done();
}, 60_000);
