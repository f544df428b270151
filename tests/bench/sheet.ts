/** What an edit costs on the screen, and what a sheet holds on to: the real element in a real browser. */
import type { Browser, CDPSession, Page } from 'playwright-core';
import { launchChromium } from '../browser/support/chromium.js';
import { serveFolder } from '../browser/support/serve.js';
import { benchDocuments } from './documents.js';
import { median } from './measure.js';
import type {} from './page/main.js';

const SIZES = [50, 500, 2000];
const ENTRIES = 14;
/** The first ones compile. */
const UNCOUNTED = 4;
const CYCLES = 40;
/** As many fill what the browser and the grid library keep tables of. */
const FIRST_CYCLES = 15;

/** Milliseconds, medians of the entries. */
interface Entries {
  readonly lines: number;
  /** Until a sheet with so many lines is on the screen for the first time. */
  readonly show: number;
  /** Of script that an entry takes, and of style and layout. */
  readonly script: number;
  readonly layout: number;
  /** From the key that ends the entry to the painted frame. */
  readonly paint: number;
}

export interface SheetBench {
  readonly entries: readonly Entries[];
  /** Kilobytes of heap after collecting garbage. */
  readonly kilobytesPerLine: number;
  /** What stays of each time that a sheet is taken away and put back, and that one is made and dropped. */
  readonly left: { readonly putBack: Held; readonly anew: Held };
}

/** What a page holds on to after collecting garbage. */
interface Held {
  readonly kilobytes: number;
  readonly nodes: number;
  readonly listeners: number;
}

/** @param folder where the page was built to */
export async function benchSheet(folder: string): Promise<SheetBench> {
  const server = await serveFolder(folder);
  const browser = await launchChromium();
  try {
    return { entries: await entries(browser, server.url), ...(await memory(browser, server.url)) };
  } finally {
    await browser.close();
    await server.close();
  }
}

/** Book hours of the first line, typed by keyboard: sheets of all sizes take turns. */
async function entries(browser: Browser, address: string): Promise<Entries[]> {
  const sheets = [];
  for (const lines of SIZES) {
    const page = await open(browser, address);
    const show = await page.evaluate(async (documents) => {
      const start = performance.now();
      await window.bench.show(documents);
      return performance.now() - start;
    }, benchDocuments(lines));
    await bookHours(page).click();
    const session = await page.context().newCDPSession(page);
    await session.send('Performance.enable');
    sheets.push({ lines, page, show, session, spent: [] as Spent[] });
  }
  for (let i = 0; i < ENTRIES; i += 1) {
    for (const { page, session, spent } of sheets) spent.push(await enter(page, session, i % 2 === 0 ? '8.3' : '8.9'));
  }
  const results = [];
  for (const { lines, page, show, spent } of sheets) {
    const hours = await page.evaluate(() => (window.bench.sheet!.estimate!.lines[0] as { bookHours: string }).bookHours);
    if (hours !== '8.9') throw new Error(`The entries of the bench did not arrive: ${hours}.`);
    const paints = await page.evaluate(() => window.bench.paints);
    await page.context().close();
    const counted = spent.slice(UNCOUNTED);
    results.push({
      lines,
      show,
      script: median(counted.map(({ script }) => script)),
      layout: median(counted.map(({ layout }) => layout)),
      paint: median(paints.slice(UNCOUNTED)),
    });
  }
  return results;
}

const bookHours = (page: Page) =>
  page.getByRole('grid', { name: 'Lines', exact: true }).locator('tbody tr[role=row]').first().locator('[aria-colindex="4"]');

/** What the browser has spent, in milliseconds. */
interface Spent {
  readonly script: number;
  readonly layout: number;
}

async function enter(page: Page, session: CDPSession, hours: string): Promise<Spent> {
  await page.bringToFront();
  const painted = await page.evaluate(() => window.bench.paints.length);
  await page.keyboard.type(hours);
  const before = await spentBy(session);
  await page.keyboard.press('Enter');
  await page.waitForFunction((count) => window.bench.paints.length > count, painted);
  const after = await spentBy(session);
  await page.keyboard.press('ArrowUp');
  return { script: after.script - before.script, layout: after.layout - before.layout };
}

async function spentBy(session: CDPSession): Promise<Spent> {
  const { metrics } = await session.send('Performance.getMetrics');
  const of = (wanted: string): number => metrics.find(({ name }) => name === wanted)!.value * 1000;
  return { script: of('ScriptDuration'), layout: of('LayoutDuration') + of('RecalcStyleDuration') };
}

async function memory(browser: Browser, address: string): Promise<Omit<SheetBench, 'entries'>> {
  const heaps = [];
  for (const lines of [50, 2000]) {
    const page = await open(browser, address);
    await page.evaluate((documents) => window.bench.show(documents), benchDocuments(lines));
    heaps.push((await heldBy(page)).kilobytes);
    await page.context().close();
  }
  const page = await open(browser, address);
  const documents = benchDocuments(50);
  await page.evaluate((shown) => window.bench.show(shown), documents);
  const perCycle = async (cycle: (times: number) => Promise<void>): Promise<Held> => {
    await cycle(FIRST_CYCLES);
    const before = await heldBy(page);
    await cycle(CYCLES);
    const after = await heldBy(page);
    const each = (of: keyof Held): number => (after[of] - before[of]) / CYCLES;
    return { kilobytes: each('kilobytes'), nodes: each('nodes'), listeners: each('listeners') };
  };
  const putBack = await perCycle((times) => page.evaluate((count) => window.bench.putBack(count), times));
  const anew = await perCycle((times) => page.evaluate(([shown, count]) => window.bench.anew(shown, count), [documents, times] as const));
  return { kilobytesPerLine: (heaps[1]! - heaps[0]!) / 1950, left: { putBack, anew } };
}

async function open(browser: Browser, address: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  page.on('pageerror', (fault) => console.error(fault));
  await page.goto(address);
  await page.waitForFunction(() => 'bench' in window);
  return page;
}

async function heldBy(page: Page): Promise<Held> {
  const session: CDPSession = await page.context().newCDPSession(page);
  for (let i = 0; i < 3; i += 1) await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const { nodes, jsEventListeners } = await session.send('Memory.getDOMCounters');
  await session.detach();
  return { kilobytes: usedSize / 1000, nodes, listeners: jsEventListeners };
}
