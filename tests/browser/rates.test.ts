/** The owner's desk: a rate is tuned, a cliff is left, a version saved, an old estimate keeps its prices. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Locator, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { compactLiterals } from '../../components/compact-literals.js';
import { absentModules } from '../../components/grid/absent/alias.js';
import type { Rates } from '../../src/index.js';
import { launchChromium } from './support/chromium.js';
import { serveFolder, type StaticServer, strictPolicy } from './support/serve.js';
import type {} from './rates-page/main.js';

const axe = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let folder: string;
let server: StaticServer;
let browser: Browser;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'rates-'));
  process.env['NODE_ENV'] = 'production';
  await build({
    root: fileURLToPath(new URL('./rates-page/', import.meta.url)),
    configFile: false,
    base: './',
    logLevel: 'error',
    resolve: { alias: absentModules },
    // As the package is built.
    plugins: [compactLiterals()],
    worker: { format: 'es' },
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
  });
  // The replay's worker is a script by address, which a page that names its policies has to allow (README).
  server = await serveFolder(folder, { 'content-security-policy': strictPolicy.replace('lit-html', 'lit-html baysheet-worker') });
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  await rm(folder, { recursive: true, force: true });
});

beforeEach(async () => {
  complaints = [];
  const context = await browser.newContext({ viewport: { width: 1400, height: 1000 }, acceptDownloads: true });
  page = await context.newPage();
  page.on('pageerror', (fault) => complaints.push(fault.stack ?? fault.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on(
    'request',
    (request) => !request.url().startsWith(server.url) && !/^(data|blob):/.test(request.url()) && complaints.push(request.url()),
  );
  await page.goto(server.url);
  await page.locator('html[data-ready]').waitFor();
});

afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

// Finding things

async function openDesk(card: 'demo' | 'cliff'): Promise<Locator> {
  await page.evaluate((name) => window.rates.desk(name).then(() => undefined), card);
  const desk = page.locator('#desk');
  await grid(desk, 'Taxes').waitFor();
  return desk;
}

const grid = (within: Locator, name: string): Locator => within.getByRole('grid', { name, exact: true });
/** A cell by the row's first cell and the number of its column, counted from 1. */
const cell = (within: Locator, name: string, first: string, column: number): Locator =>
  grid(within, name)
    .locator('tbody tr[role=row]')
    .filter({ has: page.locator(`[aria-colindex="1"]:text-is(${JSON.stringify(first)})`) })
    .locator(`[aria-colindex="${column}"]`);
const button = (within: Locator, name: string | RegExp): Locator => within.getByRole('button', { name });
const problems = (desk: Locator): Locator => desk.locator('[part=problems]');
const example = (desk: Locator, name: string): Locator => desk.locator('[part=examples] tr').filter({ hasText: name });
const cardNow = (): Promise<Rates> => page.evaluate(() => document.querySelector<HTMLElementTagNameMap['baysheet-rates']>('#desk')!.rates!);
const rateNow = async (): Promise<string> => (await cardNow()).labourClasses[0]!.rate;
const heard = (type: string): Promise<string[]> =>
  page.evaluate(
    (wanted) => window.rates.heard.filter((event) => event.type === wanted && event.composed).map(({ detail }) => detail.what ?? ''),
    type,
  );
const keptHashes = (): Promise<string[]> =>
  page.evaluate(() => [...window.rates.memory.kept.keys()].filter((key) => key.startsWith('rates ')));

async function press(...keys: string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

async function type(text: string, end = 'Enter'): Promise<void> {
  await page.keyboard.type(text);
  await press(end);
}

async function tune(desk: Locator, rate: string): Promise<void> {
  await cell(desk, 'Labour classes', 'General repair', 2).click();
  await type(rate);
  await expect.poll(rateNow).toBe(rate);
}

async function save(desk: Locator, day: string): Promise<void> {
  await button(desk, 'Save a new version …').click();
  await desk.getByLabel('In force from').first().fill(day);
  await button(desk, 'Save version').click();
}

// The card

test('the card stands without what stands beside it, says what could not be loaded, and loads it when asked again', async () => {
  await page.route(/card-beside/, (route) => route.abort(), { times: 1 });
  const desk = await openDesk('demo');
  await desk.getByRole('alert').filter({ hasText: 'What the card does to prices cannot be loaded' }).waitFor();
  expect(await cell(desk, 'Labour classes', 'General repair', 2).innerText()).not.toBe('');
  await button(desk, 'Try again').click();
  await example(desk, 'One hour, General repair').waitFor();
  complaints = complaints.filter((complaint) => !complaint.includes('net::ERR_FAILED'));
});

test('a rate is tuned by keyboard: the examples show it, a bad entry is kept and led to, undo goes all the way back', async () => {
  const desk = await openDesk('demo');
  const atFirst = await cardNow();
  expect(await heard('baysheet-change')).toEqual([]);

  await button(desk, 'Add labour class').focus();
  await press('Enter');
  await type('Hybrid work', 'Tab');
  await type('=160+20');
  expect((await cardNow()).labourClasses.at(-1)).toEqual({ id: 'hybrid-work', title: 'Hybrid work', rate: '180' });
  await tune(desk, '165');
  await expect.poll(() => example(desk, 'One hour, General repair').innerText()).toMatch(/\$150\.00\s+\$165\.00/);

  // What stands there now is electrical work's rate.
  await type('about 170');
  expect(await cell(desk, 'Labour classes', 'Electrical work', 2).innerText()).toBe('about 170');
  expect((await cardNow()).labourClasses[1]!.rate).toBe('162.00');
  await expect.poll(() => problems(desk).innerText()).toContain('is not a figure');
  await cell(desk, 'Taxes', 'Next tax', 1).click();
  await button(problems(desk), '“about 170”').click();
  await type('170');
  expect((await cardNow()).labourClasses[1]!.rate).toBe('170');
  await expect.poll(() => problems(desk).innerText()).not.toContain('is not a figure');

  // A class that operations of the catalogue name.
  await cell(desk, 'Labour classes', 'Diagnosis', 1).click();
  await button(desk, 'Remove the selected labour class').click();
  await expect.poll(() => problems(desk).innerText()).toContain('The card has no labour class "diagnosis"');
  await press('Control+z');
  await expect.poll(() => problems(desk).innerText()).not.toContain('no labour class');

  const steps = (await heard('baysheet-change')).length - 2;
  await press(...Array<string>(steps).fill('Control+z'));
  await expect.poll(cardNow).toEqual(atFirst);
  expect(await button(desk, 'Undo').isDisabled()).toBe(true);
  expect(await page.evaluate(() => window.rates.heard.every(({ composed }) => composed))).toBe(true);
});

test('tiers, taxes and settings: paste, fill, choices, a limit in its place, what the whole card lacks', async () => {
  const desk = await openDesk('demo');
  await cell(desk, 'Mark-up tiers', 'Next limit', 1).click();
  await type('100');
  // At the percentage of the tier that it divides, so that no price moves until one is typed.
  expect((await cardNow()).parts.tiers.map(({ upTo, percent }) => `${upTo} ${percent}`)).toEqual([
    '10.00 100',
    '50.00 70',
    '100 45',
    '200.00 45',
    'null 30',
  ]);

  await cell(desk, 'Mark-up tiers', '100', 1).click();
  await type('20');
  await expect.poll(() => problems(desk).innerText()).toContain('This tier ends at 20, not above the one before it');
  expect(await button(desk, 'Save a new version …').isDisabled()).toBe(true);
  await button(problems(desk), /This tier ends at 20/).click();
  await press('Control+z');
  await expect.poll(() => button(desk, 'Save a new version …').isEnabled()).toBe(true);

  await cell(desk, 'Rounding', 'A half is rounded', 2).click();
  await type('to e');
  expect((await cardNow()).rounding).toBe('half-even');
  await cell(desk, 'The card itself', 'Currency', 2).click();
  await type('usx');
  await expect.poll(() => problems(desk).innerText()).toContain('not a currency of ISO 4217');
  await press('Control+z');

  await cell(desk, 'Taxes', 'State sales tax (invented rate)', 5).click();
  await type('state-tax');
  expect((await cardNow()).supplies!.taxes).toEqual(['state-tax', 'local']);
  await cell(desk, 'Fees', 'Coolant disposal', 2).click();
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData('text/plain', '7.00\n3.50\n');
    let element = document.activeElement!;
    while (element.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, composed: true, cancelable: true }));
  });
  await expect.poll(async () => (await cardNow()).fees.map(({ amount }) => amount)).toEqual(['7.00', '3.50']);
});

test('a cliff is named and drawn, and left with one press, which undo takes back', async () => {
  const desk = await openDesk('cliff');
  const before = (await cardNow()).parts;
  const panel = desk.locator('.mark-up');
  expect(await panel.getByRole('img').first().getAttribute('aria-label')).toContain('at a cost of $10.00 from $21.00 to $18.00');
  expect(await panel.innerText()).toContain('Falls at a cost of $150.00 from $240.00 to $210.00.');
  expect(await desk.getByRole('table', { name: 'What parts sell for' }).innerText()).toContain('less than above');
  await expect.poll(() => problems(desk).innerText()).toContain('A part that costs 10 sells for 21.00');

  await button(desk, 'Hold the mark-up at the limits').click();
  await expect.poll(() => panel.innerText()).toContain('A dearer part never sells for less.');
  expect((await cardNow()).parts.mode).toBe('progressive');
  expect(await problems(desk).innerText()).not.toContain('sells for 21.00');
  expect(await button(desk, 'Hold the mark-up at the limits').count()).toBe(0);
  await button(desk, 'Undo').click();
  await expect.poll(async () => (await cardNow()).parts).toEqual(before);
  await button(desk, 'Use progressive tiers').click();
  await expect.poll(async () => (await cardNow()).parts).toEqual({ ...before, mode: 'progressive' });
});

test('a rule of a place comes with its source and its worth', async () => {
  const desk = await openDesk('demo');
  await button(desk, 'Rule of a place …').click();
  expect(await desk.getByRole('dialog').innerText()).toContain('not legal or tax advice');
  await desk.getByLabel('Place', { exact: true }).selectOption('us-oregon');
  expect(await desk.getByRole('dialog').innerText()).toContain('oregonlaws.org');
  await button(desk, 'Put on the card').click();
  await expect.poll(async () => (await cardNow()).authorisation).toMatchObject({ percent: '10', amount: '200', pick: 'lesser' });
  await button(desk, 'Taxes of a place …').click();
  await desk.getByLabel('Place', { exact: true }).selectOption('canada-quebec');
  await button(desk, 'Put on the card').click();
  await expect.poll(async () => (await cardNow()).taxes.map(({ percent }) => percent)).toEqual(['5', '9.975']);
  await press('Escape');
  await button(desk, 'Undo').click();
  await expect.poll(async () => (await cardNow()).taxes.map(({ id }) => id)).toEqual(['state', 'local']);
});

// Versions

test('a rate is tuned, tried on past estimates, and saved as a version; an old estimate prices as quoted until it is priced again', async () => {
  // The advisor's sheet, under the card of the page: the first change quotes it.
  await page.evaluate(() => window.rates.sheet(window.rates.cards.demo, window.rates.estimate).then(() => undefined));
  let sheet = page.locator('#sheet');
  await sheet.getByRole('grid', { name: 'Lines', exact: true }).waitFor();
  const totalNow = (): Promise<string> => page.evaluate(() => document.querySelector('baysheet-estimate')!.priced!.totals.total);
  await sheet.getByRole('grid', { name: 'Lines', exact: true }).locator('tbody tr').first().locator('[aria-colindex="13"]').click();
  await type('approved');
  const estimate = await page.evaluate(() => document.querySelector('baysheet-estimate')!.estimate!);
  expect(estimate.quoted?.rates).toMatch(/^[0-9a-f]{64}$/);
  await expect.poll(keptHashes).toEqual([`rates ${estimate.quoted!.rates}`]);
  const quotedTotal = await totalNow();
  expect(await sheet.getByRole('note').count()).toBe(0);

  // The owner's desk: a dearer hour, in force since a day that has passed.
  await page.evaluate(() => document.querySelector('#place')!.replaceChildren());
  await page.evaluate((old) => window.rates.store.put('estimate', old.id, JSON.stringify(old), null), estimate);
  const desk = await openDesk('demo');
  await tune(desk, '165');

  // What it would have done to the estimates that are kept here, before anything is saved.
  await desk.getByRole('tab', { name: 'What if' }).click();
  const whatIf = desk.getByRole('tabpanel', { name: 'What if' });
  await button(whatIf, 'Those kept here').click();
  await button(whatIf, /^Replay/).click();
  await whatIf
    .getByRole('status')
    .filter({ hasText: /replayed\.$/ })
    .waitFor();
  const effective = whatIf
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: /^Effective labour rate/ }) })
    .first();
  expect(await effective.getByRole('cell').allInnerTexts()).toEqual(['$150.00', '$165.00', expect.stringContaining('$15.00')]);
  expect(await keptHashes()).toHaveLength(1);
  await desk.getByRole('tab', { name: 'Rate card' }).click();

  await save(desk, '2026-02-01');
  await expect.poll(() => desk.locator('.kept').innerText()).toContain('Feb 1, 2026');
  expect(await heard('baysheet-save')).toHaveLength(1);
  expect(await keptHashes()).toHaveLength(2);
  await desk.getByRole('tab', { name: 'Rate card' }).focus();
  await press('End');
  const versions = desk.getByRole('tabpanel', { name: 'Versions' });
  expect(await versions.getByRole('table').innerText()).toMatch(/Feb 1, 2026[\s\S]+in force today[\s\S]+Jan 1, 2026/);
  await versions.getByLabel('In force on').fill('2026-01-15');
  expect(await versions.getByRole('status').innerText()).toContain('the version from Jan 1, 2026');
  await versions.getByLabel('From', { exact: true }).selectOption({ index: 2 });
  expect(await versions.getByRole('list', { name: 'What differs' }).innerText()).toContain('General repair, rate: 150.00 → 165');

  // The old estimate, on a page that has the new card.
  const card = await cardNow();
  await page.evaluate(([rates, old]) => window.rates.sheet(rates, old).then(() => undefined), [card, estimate] as const);
  sheet = page.locator('#sheet');
  await sheet.getByRole('grid', { name: 'Lines', exact: true }).waitFor();
  expect(await totalNow()).toBe(quotedTotal);
  expect(await sheet.getByRole('note', { name: 'Quotation' }).innerText()).toContain(
    'Priced as quoted, under the card from Jan 1, 2026. Another card is in force now.',
  );
  await button(sheet, /Price again under the card from Feb 1, 2026/).click();
  const dialog = sheet.getByRole('dialog', { name: 'Price this estimate again' });
  expect(await dialog.innerText()).toMatch(/Lines that move[\s\S]+labour rate/);
  await button(dialog, 'Price again').click();
  await expect.poll(totalNow).not.toBe(quotedTotal);
  expect(await page.evaluate(() => document.querySelector('baysheet-estimate')!.estimate!.quoted!.rates)).not.toBe(estimate.quoted!.rates);
  await expect.poll(() => sheet.getByRole('note').count()).toBe(0);
  await button(sheet, 'Undo').click();
  await expect.poll(totalNow).toBe(quotedTotal);
});

test.each([
  ['full', 'There is no room left in the store.'],
  ['denied', 'does not allow anything to be kept here'],
] as const)('when the store is %s, the desk says so, loses nothing, offers the card as a file, and saves later', async (code, words) => {
  const desk = await openDesk('demo');
  await tune(desk, '165');
  await page.evaluate((refuse) => (window.rates.refuse = refuse), code);
  await save(desk, '2026-02-01');
  const dialog = desk.getByRole('dialog', { name: 'Save a new version' });
  await expect.poll(() => dialog.getByRole('alert').innerText()).toContain(words);
  expect(await heard('baysheet-problem')).toHaveLength(1);
  const [file] = await Promise.all([page.waitForEvent('download'), button(dialog, 'Save as a file').click()]);
  const saved = JSON.parse(await readFile(await file.path(), 'utf8')) as Rates;
  expect([saved.labourClasses[0]!.rate, saved.effectiveFrom]).toEqual(['165', '2026-02-01']);
  expect(await rateNow()).toBe('165');
  expect(await keptHashes()).toEqual([]);
  await page.evaluate(() => (window.rates.refuse = null));
  await button(dialog, 'Try again').click();
  await expect.poll(async () => (await keptHashes()).length).toBe(2);
  expect(await dialog.count()).toBe(0);
});

// Life

test('ids follow from the card into the catalogue, and back with undo', async () => {
  const desk = await openDesk('demo');
  const classOf = (): Promise<string[]> =>
    page.evaluate(() => [
      ...new Set(
        document.querySelector<HTMLElementTagNameMap['baysheet-rates']>('#desk')!.catalogue!.operations.map((each) => each.labourClass),
      ),
    ]);
  expect(await classOf()).toContain('electrical');
  await cell(desk, 'Labour classes', 'Electrical work', 3).click();
  await type('auto-electric');
  await expect.poll(classOf).toContain('auto-electric');
  expect(await classOf()).not.toContain('electrical');
  await button(desk, 'Undo').first().click();
  await expect.poll(classOf).not.toContain('auto-electric');
});

test('a bad card is refused with reasons and changes nothing; what the page sets is not announced', async () => {
  const desk = await openDesk('demo');
  await page.evaluate(() => {
    const element = document.querySelector<HTMLElementTagNameMap['baysheet-rates']>('#desk')!;
    element.rates = '{ "format": "baysheet-rates", "version": 1, "id": "x", "currency": "USD", "parts": { "tiers": [{ "percent": 5 }] } }';
  });
  await expect.poll(() => desk.getByRole('alert').first().innerText()).toContain('is a JSON number');
  expect(await rateNow()).toBe('150.00');
  expect(await heard('baysheet-problem')).toHaveLength(1);
  expect(await heard('baysheet-change')).toEqual([]);
});

test('it works moved, taken away and brought back, twice, and in another shadow root', async () => {
  const desk = await openDesk('demo');
  await tune(desk, '151');
  await page.evaluate(async () => {
    const first = document.querySelector('#desk')!;
    first.remove();
    const host = document.createElement('div');
    document.querySelector('#place')!.append(host);
    host.attachShadow({ mode: 'open' }).append(first);
    await window.rates.desk('cliff', 'second');
  });
  await grid(desk, 'Taxes').waitFor();
  await tuneIn(desk, '152');
  const second = page.locator('#second');
  await grid(second, 'Taxes').waitFor();
  await tuneIn(second, '139');
  const ratesOf = (): Promise<(string | undefined)[]> =>
    page.evaluate(() => {
      const all = [
        document.querySelector('#place > div')!.shadowRoot!.querySelector('baysheet-rates'),
        document.querySelector<HTMLElementTagNameMap['baysheet-rates']>('#second'),
      ];
      return all.map((each) => each!.rates!.labourClasses[0]!.rate);
    });
  await expect.poll(ratesOf).toEqual(['152', '139']);
  await button(desk, 'Undo').click();
  await button(desk, 'Undo').click();
  await expect.poll(ratesOf).toEqual(['150.00', '139']);
});

async function tuneIn(desk: Locator, rate: string): Promise<void> {
  await cell(desk, 'Labour classes', 'General repair', 2).click();
  await type(rate);
}

test('axe finds nothing wrong with the card, the picture and the versions', async () => {
  const desk = await openDesk('cliff');
  await page.evaluate(await axe);
  const faults = (): Promise<string[]> =>
    page.evaluate(async () => {
      const { axe: run } = window as unknown as { axe: typeof import('axe-core') };
      const { violations } = await run.run(document.querySelector('#place')!);
      return violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 90)}`).join(' | ')}`,
      );
    });
  expect(await faults()).toEqual([]);
  await save(desk, '2026-02-01');
  await expect.poll(async () => (await keptHashes()).length).toBe(2);
  await desk.getByRole('tab', { name: 'Versions' }).click();
  expect(await faults()).toEqual([]);
});
