import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Locator, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { MadeUpEstimates } from '../../demo/made-up-estimates.js';
import card from '../../rates/card.demo.json' with { type: 'json' };
import catalogueOfDemo from '../../rates/catalogue.demo.json' with { type: 'json' };
import { parseCatalogue, parseRates, type Parsed, type Rates, replay } from '../../src/index.js';
import { launchChromium } from './support/chromium.js';
import { serveFolder, type StaticServer, strictPolicy } from './support/serve.js';

const axe = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const must = <T>(parsed: Parsed<T>): T => {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
};
const catalogue = must(parseCatalogue(catalogueOfDemo));
const before = must(parseRates(card));
const dearer: Rates = {
  ...before,
  labourClasses: before.labourClasses.map((each) => ({ ...each, rate: (Number(each.rate) + 4).toFixed(2) })),
};

let folder: string;
/** Under a policy that knows the worker, and under one that does not. */
let server: StaticServer;
let withoutWorker: StaticServer;
let browser: Browser;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'what-if-'));
  process.env['NODE_ENV'] = 'production';
  await build({
    root: fileURLToPath(new URL('./rates-what-if-page/', import.meta.url)),
    configFile: false,
    base: './',
    logLevel: 'warn',
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
  });
  server = await serveFolder(folder, { 'content-security-policy': strictPolicy.replace('lit-html', 'lit-html baysheet-worker') });
  withoutWorker = await serveFolder(folder);
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  await withoutWorker?.close();
  await rm(folder, { recursive: true, force: true });
});

afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

async function open({ count = 60, at = server, dark = false } = {}): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, colorScheme: dark ? 'dark' : 'light' });
  page = await context.newPage();
  complaints = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' && !message.location().url.endsWith('favicon.ico')) complaints.push(message.text());
  });
  await page.goto(`${at.url}/?count=${count}`);
  await page.waitForSelector('html[data-ready]');
}

const status = (words: string | RegExp): Locator => page.getByRole('status').filter({ hasText: words });
const heard = (type: string) =>
  page.evaluate(
    (wanted) => window.whatIf.heard.filter((event) => event.type === wanted).map(({ detail }) => detail as never),
    type,
  ) as Promise<Record<string, unknown>[]>;

/** A row of the figures: before, after, difference. */
async function figures(title: string): Promise<string[]> {
  const row = page
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: new RegExp(`^${title}`) }) })
    .first();
  return row.getByRole('cell').allInnerTexts();
}

async function loadAndReplay(): Promise<void> {
  await page.getByRole('button', { name: /made-up estimates$/ }).click();
  await page.getByRole('button', { name: /^Replay/ }).click();
  await status(/replayed\.$/).waitFor();
}

const dollars = (amount: string | null): string =>
  new Intl.NumberFormat('en-US', { style: 'currency', currency: 'USD' }).format(amount as Intl.StringNumericLiteral);

async function expectNoFaultsByAxe(): Promise<void> {
  // Trusted Types keep a page from loading text as a script; the protocol of the browser does not.
  await (await page.context().newCDPSession(page)).send('Runtime.evaluate', { expression: await axe });
  const faults = await page.evaluate(async () => {
    const { axe: checker } = window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } };
    return (await checker.run()).violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  });
  expect(faults).toEqual([]);
}

test('replays in a worker what the engine replays in Node', async () => {
  await open();
  const worker = page.waitForEvent('worker');
  await loadAndReplay();
  await worker;
  const expected = await replay(new MadeUpEstimates(catalogue, 60), catalogue, before, dearer);
  if (!expected.ok) throw new Error();
  const { result } = expected;
  for (const [title, name] of [
    ['Revenue before tax', 'beforeTax'],
    ['Labour sales', 'labourSales'],
    ['Gross profit', 'grossProfit'],
    ['Effective labour rate', 'effectiveLabourRate'],
  ] as const) {
    expect(await figures(title)).toEqual([
      dollars(result.before[name]),
      dollars(result.after[name]),
      `+${dollars(result.difference[name])}`,
    ]);
  }
  expect(await figures('Hours given back')).toEqual([
    `${result.before.hoursGivenBack}\u00a0h`,
    `${result.after.hoursGivenBack}\u00a0h`,
    '0',
  ]);
  await expectNoFaultsByAxe();
});

test('shows how the totals change as a picture with a table beside it', async () => {
  await open({ dark: true });
  await loadAndReplay();
  const picture = page.getByRole('img', { name: 'How the totals of 60 estimates change: 60 rise, 0 fall, 0 stay.' });
  expect(await picture.locator('rect.bar').count()).toBeGreaterThan(3);
  await page.getByText('The same as a table').click();
  const counts = await page
    .getByRole('table', { name: /^How the totals/ })
    .locator('tbody td:last-child')
    .allInnerTexts();
  expect(counts.reduce((sum, count) => sum + Number(count), 0)).toBe(60);
  // A bar is as high as its count: the highest one has the largest.
  const heights = await picture
    .locator('rect.bar')
    .evaluateAll((bars) => bars.map((bar) => Number(bar.getAttribute('height')!.replace('%', ''))));
  const drawn = counts.map(Number).filter((count) => count > 0);
  expect(heights.indexOf(Math.max(...heights))).toBe(drawn.indexOf(Math.max(...drawn)));
  await expectNoFaultsByAxe();
});

test('opens an estimate that moves, line by line', async () => {
  await open();
  await loadAndReplay();
  const row = page.getByRole('table', { name: 'The estimates that move most' }).getByRole('row').nth(1);
  const [was, is, change] = await row.getByRole('cell').allInnerTexts();
  await row.getByRole('button').click();
  const dialog = page.getByRole('dialog');
  const total = dialog
    .getByRole('row')
    .filter({ hasText: /^\s*Total/ })
    .getByRole('cell');
  await total.last().waitFor();
  expect((await total.allInnerTexts()).slice(1)).toEqual([was, is, change]);
  await dialog.getByRole('button', { name: 'Open the estimate' }).click();
  const number = (await row.getByRole('rowheader').innerText()).split(' ')[0];
  expect(await heard('open-estimate')).toMatchObject([{ estimate: { number } }]);
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'hidden' });
});

test('a replay that is cancelled leaves what was shown, and so does one that goes wrong', async () => {
  await open({ count: 4000 });
  await page.evaluate(() => {
    const few = window.whatIf.madeUp;
    window.whatIf.pane.source = { title: 'a few', count: 30, read: (at) => few.read(at) };
  });
  await page.getByRole('button', { name: 'Replay 30 estimates' }).click();
  await status('30 estimates replayed.').waitFor();
  const shown = await figures('Revenue with tax');

  await page.getByRole('button', { name: '4,000 made-up estimates' }).click();
  await page.getByRole('button', { name: 'Replay 4,000 estimates' }).click();
  await page.getByRole('progressbar', { name: 'Replay' }).waitFor();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await status('The replay was cancelled. What is shown is the one before.').waitFor();
  expect(await figures('Revenue with tax')).toEqual(shown);
  expect(await page.getByRole('progressbar').count()).toBe(0);
  expect(page.workers()).toEqual([]);
  await page.getByText('The card, the catalogue or the estimates have changed since this replay.').waitFor();

  await page.evaluate(() => {
    const { pane, dearer: more } = window.whatIf;
    pane.ratesAfter = { ...more(1), currency: 'CAD' };
  });
  await page.getByRole('button', { name: 'Replay 4,000 estimates' }).click();
  await page
    .getByRole('alert')
    .filter({ hasText: 'Nothing was replayed.' })
    .filter({ hasText: 'The card before is in USD, the card after in CAD' })
    .waitFor();
  expect(await figures('Revenue with tax')).toEqual(shown);
});

test('reads files and what is kept, and tells what it must leave out', async () => {
  await open();
  const estimates = new MadeUpEstimates(catalogue, 4);
  const file = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  await page
    .locator('#files')
    .setInputFiles([
      ...[0, 1, 2].map((at) => file(`${at}.json`, JSON.stringify(estimates.read(at)))),
      file('cut.json', JSON.stringify(estimates.read(3)).slice(0, 300)),
      file('letter.txt', 'nothing of ours'),
    ]);
  await status('4 files loaded.').waitFor();
  await page.getByRole('button', { name: 'Replay 4 estimates' }).click();
  await status('3 estimates replayed.').waitFor();
  await page.getByText('1 estimate is left out of both sides').click();
  await page.getByText('Number 4 in order cannot be read: The estimate is not JSON').waitFor();

  await page.locator('#files').setInputFiles([file('letter.txt', 'nothing of ours')]);
  await page.getByRole('alert').filter({ hasText: 'There is no estimate among these.' }).waitFor();
  await page.getByRole('button', { name: 'Replay 4 estimates' }).waitFor();

  const past = join(folder, 'past');
  await mkdir(join(past, 'last year'), { recursive: true });
  await writeFile(join(past, 'a.json'), JSON.stringify(estimates.read(0)));
  await writeFile(join(past, 'last year', 'b.json'), JSON.stringify(estimates.read(1)));
  await writeFile(join(past, 'last year', 'notes.txt'), 'nothing of ours');
  await page.locator('#folder').setInputFiles(past);
  await page.getByRole('button', { name: 'Replay 2 estimates' }).click();
  await status('2 estimates replayed.').waitFor();

  // Dropped files are read like chosen ones.
  await page.locator('.drop').evaluate(
    (place, text) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([text], 'dropped.json'));
      place.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    },
    JSON.stringify(estimates.read(2)),
  );
  await page.getByRole('button', { name: 'Replay 1 estimate', exact: true }).click();
  await status('1 estimate replayed.').waitFor();

  await page.evaluate((texts) => (window.whatIf.pane.store = window.whatIf.storeOf(texts)), {
    one: JSON.stringify(estimates.read(0)),
    gone: '',
  });
  await page.getByRole('button', { name: 'Those kept here' }).click();
  await status('2 estimates kept here loaded.').waitFor();
  await page.getByRole('button', { name: 'Replay 2 estimates' }).click();
  await status('1 estimate replayed.').waitFor();
  await page.getByText('The estimate cannot be read (estimate gone was removed meanwhile).').waitFor({ state: 'attached' });
});

test('seeks a goal, or says that no value in the range does it', async () => {
  await open();
  await page.getByRole('button', { name: /made-up estimates$/ }).click();
  await page.getByRole('button', { name: 'Seek' }).click();
  await page
    .getByRole('alert')
    .filter({ hasText: /^Target, USD: There is no figure here/ })
    .waitFor();

  await page.getByLabel('Target, USD').fill('140');
  await page.getByRole('button', { name: 'Seek' }).click();
  await status('There is an answer.').waitFor();
  const answer = await page.locator('.answer').innerText();
  const rate = /gives? effective labour rate/.test(answer) ? /\$(\d+\.\d\d) gives/.exec(answer)![1]! : '';
  await page.getByRole('button', { name: 'Put it on the card' }).click();
  const [taken] = (await heard('take-card')) as unknown as { rates: Rates; what: string }[];
  expect(taken!.what).toBe(`Labour rate, General repair: $${rate}`);
  // The answer is checked once more, in Node.
  const checked = await replay(new MadeUpEstimates(catalogue, 60), catalogue, before, taken!.rates);
  expect(checked).toMatchObject({ ok: true });
  if (checked.ok) expect(answer).toContain(dollars(checked.result.after.effectiveLabourRate));

  await page.getByLabel('Target, USD').fill('900');
  await page.getByRole('button', { name: 'Seek' }).click();
  await page.getByText(/^No value from 77 to 308 does it: the target is 900\.00/).waitFor();
});

test('sets clocked hours beside charged ones, and takes over only what is ticked', async () => {
  await open();
  await page.getByRole('button', { name: /made-up estimates$/ }).click();
  const rows = [...Array(6)].map((_, i) => `radiator,${(3 + i / 10).toFixed(1)},`);
  const table = (text: string) =>
    page.locator('baysheet-time input[type=file]').setInputFiles({ name: 'clocked.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await table(['operation,hours,estimate', ...rows, 'no-such-thing,1,', 'radiator,soon,', 'thermostat,1,M00001'].join('\n'));
  await status('clocked.csv read.').waitFor();
  await page.getByText(/rows were not used|row was not used/).click();
  await page.getByText('Line 8: The catalogue has no operation "no-such-thing".').waitFor();
  await page.getByText('Line 9: "soon" is not a figure.').waitFor();
  // 6 × 2.4 h by the book; clocked 3.0 to 3.5.
  const lost = page.getByRole('table', { name: 'The operations that lose most hours' }).getByRole('row').nth(1);
  expect((await lost.getByRole('cell').allInnerTexts()).slice(0, 6).map((text) => text.replace('\u00a0', ' '))).toEqual([
    '6',
    '2.4 h',
    '14.4 h',
    '19.5 h',
    '0.74',
    '+5.1 h',
  ]);
  await page.getByRole('img', { name: /^How long the operations took that lose most: Replace the radiator 5\.1/ }).waitFor();
  expect(await heard('take-hours')).toEqual([]);
  await page.getByRole('checkbox', { name: 'Take over Replace the radiator' }).check();
  await page.getByRole('button', { name: 'Take over what is ticked' }).click();
  expect(await heard('take-hours')).toEqual([{ hours: [{ operation: 'radiator', bookHours: '3.3' }], what: 'book hours of an operation' }]);
  await expectNoFaultsByAxe();

  await table('operation,hours\nnothing,1\n');
  await page.getByRole('alert').filter({ hasText: 'no row can be used. What is shown is as it was before. Line 2:' }).waitFor();
  expect(await lost.count()).toBe(1);

  await table('what,how long\nradiator,2\n');
  await page.getByText('Which column is which?').waitFor();
  await page.getByLabel('Clocked hours').selectOption({ label: 'how long' });
  await page.getByRole('button', { name: 'Read the table' }).click();
  await page.getByText('clocked.csv: 1 job of 1 operation.').waitFor();
});

test('does the same on the page where the policy allows no worker', async () => {
  await open({ count: 40, at: withoutWorker });
  await loadAndReplay();
  const expected = await replay(new MadeUpEstimates(catalogue, 40), catalogue, before, dearer);
  if (!expected.ok) throw new Error();
  expect((await figures('Revenue with tax'))[1]).toBe(dollars(expected.result.after.total));
  // The browser reports that the page does not allow the worker; nothing else.
  expect(complaints.splice(0)).toEqual([expect.stringContaining("Creating a TrustedTypePolicy named 'baysheet-worker' violates")]);
});
