/** The sheet inside pages of React and Vue, and on a page with a back end of its own: the pages of demo/hosts, as built. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { documentListener } from '../../demo/server.js';
import { launchChromium } from './support/chromium.js';
import { serveFolder, type StaticServer, strictPolicy } from './support/serve.js';
import { SheetPage } from './support/sheet-page.js';

let strict: StaticServer;
let withVue: StaticServer;
let browser: Browser;

beforeAll(async () => {
  const folder = inject('demo');
  const answer = await documentListener({ folder: null });
  strict = await serveFolder(folder, { 'content-security-policy': strictPolicy }, answer);
  // Vue makes a Trusted Types policy of its own as soon as it is loaded.
  withVue = await serveFolder(folder, { 'content-security-policy': `${strictPolicy} vue` });
  browser = await launchChromium(['--js-flags=--expose-gc']);
});

afterAll(async () => {
  await browser?.close();
  await strict?.close();
  await withVue?.close();
});

const GASKET = 'Replace the upper plenum gasket';
const RINGS = 'Replace the injector O-rings';

const frameworks = [
  { name: 'React', address: () => `${strict.url}/hosts/react.html` },
  { name: 'Vue', address: () => `${withVue.url}/hosts/vue.html` },
];

describe.each(frameworks)('inside $name', ({ name, address }) => {
  const told = (sheet: SheetPage): Promise<string> => sheet.page.locator('.host output').innerText();
  const hostButton = (sheet: SheetPage, title: string) => sheet.page.locator('.host').getByRole('button', { name: title });

  it('properties go in, events come out, and what the page gives back disturbs nothing', async () => {
    const sheet = await SheetPage.openReady(browser, address());
    expect((await sheet.estimate()).number).toBe('B-1042');
    await hostButton(sheet, 'Open B-1044').click();
    await expect.poll(() => sheet.column('Lines', 'Work')).toContain(RINGS);
    const before = await sheet.expectTotalOfEngine();

    // By keyboard alone.
    await sheet.tabTo('grid Lines');
    await sheet.enterAt(RINGS, 'Decision', 'declined');
    const after = await sheet.expectTotalOfEngine();
    expect(after.totals.total).not.toBe(before.totals.total);
    await expect.poll(() => told(sheet)).toBe(`Total ${after.totals.total}`);

    // The page draws itself again while somebody types: its clock goes on, and so does the entry.
    const clock = sheet.page.locator('.host time');
    await sheet.goTo(GASKET, 'Book h');
    await sheet.type('2.');
    const shown = await clock.innerText();
    await expect.poll(() => clock.innerText(), { timeout: 10_000 }).not.toBe(shown);
    expect(await sheet.field().inputValue()).toBe('2.');
    await sheet.type('7');
    await sheet.press('Enter');
    await expect.poll(async () => (await sheet.estimate()).lines.find((line) => 'bookHours' in line)).toMatchObject({ bookHours: '2.7' });
    await expect.poll(async () => told(sheet)).toBe(`Total ${(await sheet.pricedInNode()).totals.total}`);

    // What the page has given back after each change has begun no new history, and left alone what cannot be used.
    await sheet.enterAt(GASKET, 'Book h', 'two');
    await sheet.enterAt(RINGS, 'Decision', 'approved');
    await expect.poll(() => sheet.cell('Lines', GASKET, 'Book h').innerText()).toBe('two');
    for (let i = 0; i < 4; i += 1) await sheet.press('Control+z');
    await expect.poll(() => told(sheet)).toBe(`Total ${before.totals.total}`);
    await sheet.picture(`inside-${name.toLowerCase()}`);

    await sheet.button('Save').click();
    await sheet.page.getByText('The page has B-1044, revision 1.').waitFor();
    await sheet.done();
  });

  it('taken out by the page, with an entry under way, it leaves nothing', async () => {
    const sheet = await SheetPage.openReady(browser, address());
    const session = await sheet.context.newCDPSession(sheet.page);
    await session.send('Performance.enable');
    await session.send('HeapProfiler.enable');
    const counts = async () => {
      await sheet.page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 600)));
      for (let i = 0; i < 3; i += 1) await session.send('HeapProfiler.collectGarbage');
      const { metrics } = await session.send('Performance.getMetrics');
      const metric = (of: string): number => metrics.find((one) => one.name === of)!.value;
      return { nodes: metric('Nodes'), listeners: metric('JSEventListeners') };
    };
    const cycle = async (times: number): Promise<void> => {
      for (let i = 0; i < times; i += 1) {
        await hostButton(sheet, 'Close').evaluate((it) => (it as HTMLElement).click());
        await expect.poll(() => sheet.element.count()).toBe(0);
        await hostButton(sheet, 'Open B-1044').evaluate((it) => (it as HTMLElement).click());
        await sheet.ready();
        await sheet.page.evaluate(() => {
          const { shadowRoot } = document.querySelector('baysheet-estimate')!;
          const grid = shadowRoot!.querySelector<HTMLElement>('#lines [role=grid]')!;
          grid.focus();
          grid.dispatchEvent(new KeyboardEvent('keydown', { key: 'F2', bubbles: true, composed: true, cancelable: true }));
        });
      }
      await hostButton(sheet, 'Close').evaluate((it) => (it as HTMLElement).click());
      await expect.poll(() => sheet.element.count()).toBe(0);
    };
    await cycle(3);
    expect(await sheet.page.evaluate(() => document.body.querySelectorAll(':scope > :not(header, main)').length)).toBe(0);
    const first = await counts();
    await cycle(6);
    const second = await counts();
    expect(second.nodes - first.nodes).toBeLessThanOrEqual(60);
    expect(second.listeners - first.listeners).toBeLessThanOrEqual(8);
    await sheet.done();
  });
});

it('Vue under a policy that does not name its own says so once, and works', async () => {
  const sheet = await SheetPage.open(browser, `${strict.url}/hosts/vue.html`);
  sheet.expectComplaint(/Creating a TrustedTypePolicy named 'vue'|trusted-types/);
  await sheet.ready();
  await sheet.expectTotalOfEngine();
  await sheet.done();
});

describe('with a back end of its own', () => {
  const open = (): Promise<SheetPage> => SheetPage.openReady(browser, `${strict.url}/hosts/back-end.html`);
  const says = (sheet: SheetPage, words: string): Promise<void> => sheet.page.locator('#standing').getByText(words).waitFor();

  it('opens, saves what was read and nothing else, and asks when somebody else has saved meanwhile', async () => {
    const first = await open();
    await says(first, 'Opened from the server.');
    await first.page.locator('#estimates').selectOption({ index: 1 });
    await expect.poll(() => first.column('Lines', 'Work')).toContain(RINGS);
    const second = await open();
    await second.page.locator('#estimates').selectOption({ index: 1 });
    await expect.poll(() => second.column('Lines', 'Work')).toContain(RINGS);

    await first.clickAndEnter('Lines', RINGS, 'Decision', 'declined');
    await says(first, 'Changed and not saved: entry.');
    await first.button('Save').click();
    await says(first, 'Saved on the server.');
    await first.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
    await first.button('Save').click();
    await says(first, 'Saved on the server.');

    // The other one has read what is no longer there.
    second.expectComplaint(/412/);
    await second.clickAndEnter('Lines', GASKET, 'Book h', '3');
    await second.button('Save').click();
    await second.page.getByRole('alert').getByText('Somebody else has saved this estimate').waitFor();
    await second.page.getByRole('button', { name: 'Put mine in its place' }).click();
    await says(second, 'Saved on the server.');

    first.expectComplaint(/412/);
    await first.clickAndEnter('Lines', GASKET, 'Book h', '4');
    await first.button('Save').click();
    await first.page.getByRole('button', { name: 'Open what is on the server' }).click();
    await says(first, 'Opened from the server.');
    expect(await first.estimate()).toEqual(await second.estimate());
    expect(await first.page.getByRole('alert').isHidden()).toBe(true);
    await first.expectTotalOfEngine();
    await first.picture('back-end');
    await first.done();
    await second.done();
  });

  it('says where there is no server', async () => {
    const sheet = await SheetPage.open(browser, `${withVue.url}/hosts/back-end.html`);
    sheet.expectComplaint(/404/);
    await sheet.page.getByText('There is no server for documents at /documents/estimate/ (404).').waitFor();
    await sheet.done();
  });
});
