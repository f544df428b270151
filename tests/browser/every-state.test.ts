/**
 * An advisor, an owner and a customer do their whole job on the pages of the demonstration. In every state that they come to
 * the page's strict policy has nothing to report, axe-core finds nothing by any of its rules, and at the end the element has
 * shown and sent what its comments promise, and nothing else. The sizes are those of WCAG 2.2: 320 CSS pixels (1.4.10) and
 * 200 % (1.4.4).
 */
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { noteEvents, Seen } from './support/as-documented.js';
import { useDemo } from './support/demo-site.js';
import { axeFaults, openWatched, type WatchedPage } from './support/watched-page.js';
import { type At, walkCustomer, walkRates, walkSheet } from './support/walks.js';

const here = useDemo();
let watched: WatchedPage;

afterEach(() => watched.close());

/** Rules whose answer depends on colours alone; on sizes alone. */
const COLOURS = ['color-contrast', 'link-in-text-block'];
const SIZES = ['target-size', 'scrollable-region-focusable', 'aria-hidden-focus'];
/** What hangs at a cell goes away, or moves, with the size of the window. */
const HANGS = /list open|menu open|refused/;
/** States in which something is drawn that is drawn in no other; colours that are forced are looked at there. */
const DRAWN = /^(loaded|card|catalogue|replayed|to read|answered)$|menu open|list open|refused|every pane open/;
const NARROW = ['320 px', 320, 640] as const;
/** A page of 1,280 at 200 %. */
const ZOOMED = ['200 %', 640, 450] as const;

/** What axe finds in a state: in light and dark, in forced colours where it matters, narrow and zoomed. */
async function faultsIn(page: Page, state: string): Promise<string[]> {
  const faults: string[] = [];
  const look = async (where: string, rules?: readonly string[]): Promise<void> => {
    faults.push(...(await axeFaults(page, rules)).map((words) => `${where}: ${words}`));
  };
  await look(state);
  await page.emulateMedia({ colorScheme: 'dark' });
  await look(`${state}, dark`, COLOURS);
  await page.emulateMedia({ colorScheme: 'light' });
  if (DRAWN.test(state)) {
    await page.emulateMedia({ forcedColors: 'active' });
    await look(`${state}, forced colours`, COLOURS);
    await page.emulateMedia({ forcedColors: 'none' });
  }
  if (HANGS.test(state)) return faults;
  const full = page.viewportSize()!;
  for (const [name, width, height] of [NARROW, ZOOMED]) {
    await page.setViewportSize({ width, height });
    await look(`${state}, ${name}`, SIZES);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (over > 0) faults.push(`${state}, ${name}: reaches ${over} px beyond the side`);
  }
  await page.setViewportSize(full);
  return faults;
}

/** Does a whole job; answers with the states that it came through. */
async function wholeJob(tag: string, path: string, walk: (page: Page, at: At) => Promise<void>, options = {}): Promise<string[]> {
  watched = await openWatched(here.browser, `${here.site.url}/${path}`, options, noteEvents);
  const { page, complaints } = watched;
  const seen = new Seen(page, tag);
  const states: string[] = [];
  const faults: string[] = [];
  let known = 0;
  const noteComplaints = (state: string): void => {
    faults.push(...complaints.slice(known).map((words) => `${state}: ${words}`));
    known = complaints.length;
  };
  await walk(page, async (state) => {
    states.push(state);
    noteComplaints(state);
    await seen.look(state);
    // Nobody hears or presses paper.
    if (state !== 'on paper') faults.push(...(await faultsIn(page, state)));
  });
  await page.pdf();
  noteComplaints('at the end');
  expect.soft(faults).toEqual([]);
  await seen.expectAsDocumented();
  return states;
}

test('the sheet', async () => {
  expect((await wholeJob('baysheet-estimate', '?estimate=van', walkSheet)).length).toBeGreaterThan(20);
}, 240_000);

test('the owner’s desk', async () => {
  expect((await wholeJob('baysheet-rates', 'rates.html?card=us-parts-tax', walkRates)).length).toBeGreaterThan(15);
}, 240_000);

test('the customer’s page', async () => {
  const options = { viewport: { width: 390, height: 760 } };
  expect((await wholeJob('baysheet-customer', 'customer.html', walkCustomer, options)).length).toBeGreaterThan(7);
}, 120_000);
