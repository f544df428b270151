/** What can go wrong with the keeping is said in the sheet, loses nothing on the screen, and ends when its cause ends. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { kept, putBeside, saved, saving } from './support/kept.js';
import { SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
const GASKET = 'Replace the upper plenum gasket';
let sheet: SheetPage;
afterEach(() => sheet.done());

async function savedFile(page: Page, press: () => Promise<void>): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return readFile(await download.path(), 'utf8');
}

test.each([
  ['no room', 'QuotaExceededError', /there is no more room for this site/],
  ['a disk that fails', 'UnknownError', /The browser says: UnknownError/],
])('%s: says so, offers a file, goes on, and saves when it can', async (_, name, words) => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  await page.evaluate((fault) => {
    const put = IDBObjectStore.prototype.put;
    Object.assign(window, { mend: () => (IDBObjectStore.prototype.put = put) });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('made by the test', fault);
    };
  }, name);
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await expect.poll(() => saving(page)).toBe('Not saved in this browser');
  const note = page.getByRole('alert');
  expect(await note.innerText()).toMatch(words);
  expect(await note.innerText()).toMatch(/Nothing on the screen is lost; it is tried again/);
  const file = JSON.parse(await savedFile(page, () => note.getByRole('button', { name: 'Save as a file' }).click())) as unknown;
  expect(file).toEqual(await sheet.estimate());
  expect(file).toMatchObject({ lines: [{ bookHours: '2.5' }, {}] });
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.75');
  await sheet.expectTotalOfEngine();
  await page.evaluate(() => void (window as unknown as { mend(): unknown }).mend());
  // By itself, within its pauses.
  await expect.poll(() => saving(page), { timeout: 15_000 }).toMatch(/^Saved in this browser/);
  expect(await note.count()).toBe(0);
  expect(await kept(page, 'demo-plenum')).toMatchObject({ lines: [{ bookHours: '2.75' }, {}] });
});

test('storage denied: the sheet says so and works all the same; once allowed, everything is saved', async () => {
  sheet = await SheetPage.open(here.browser, here.site.bare);
  const { page } = sheet;
  await page.addInitScript(() => {
    const real = indexedDB;
    Object.defineProperty(window, 'indexedDB', {
      configurable: true,
      value: {
        open: () => {
          throw new DOMException('made by the test', 'SecurityError');
        },
      },
    });
    Object.assign(window, { allow: () => Object.defineProperty(window, 'indexedDB', { configurable: true, value: real }) });
  });
  await page.goto(here.site.demo('plenum'));
  await sheet.ready();
  await expect.poll(() => saving(page)).toBe('Not saved in this browser');
  expect(await page.getByRole('alert').innerText()).toMatch(
    /This browser lets the page keep nothing: it is a private window, or storage is blocked/,
  );
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await sheet.expectTotalOfEngine();
  await page.evaluate(() => void (window as unknown as { allow(): unknown }).allow());
  await page.getByRole('alert').getByRole('button', { name: 'Try again' }).click();
  await saved(page);
  expect(await kept(page, 'demo-plenum')).toMatchObject({ lines: [{ bookHours: '2.5' }, {}] });
});

test('what a newer page keeps is not touched: says to reload, and offers the work as a file', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  const newer = await sheet.context.newPage();
  await newer.goto(here.site.bare);
  await newer.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.open('baysheet', 99);
        request.onsuccess = () => resolve();
        request.onerror = () => reject(request.error!);
      }),
  );
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await expect.poll(() => saving(page)).toBe('Not saved in this browser');
  const note = page.getByRole('alert');
  expect(await note.innerText()).toMatch(/A newer version of this page has taken over .* Reload the page/);
  expect(await savedFile(page, () => note.getByRole('button', { name: 'Save as a file' }).click())).toContain('"bookHours": "2.5"');
});

test.each([
  ['cut off', (text: string) => text.slice(0, 400), { length: 9_999 }, /its text has 400 characters of 9999/],
  ['no JSON', (text: string) => text.slice(0, 400), {}, /no whole JSON text/],
  [
    'of a newer format',
    (text: string) => text.replace('"version":1', '"version":2'),
    {},
    /written by a newer version of this page \(format 2\)/,
  ],
] as const)('a kept estimate that is %s: named, saved as a file, left as it is', async (_, spoil, entry, words) => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  const spoilt = spoil(JSON.stringify(await kept(page, 'demo-plenum')));
  await putBeside(page, 'demo-plenum', spoilt, entry);
  await page.reload();
  await sheet.ready();
  const note = page.getByRole('alert').filter({ hasText: 'cannot be opened' });
  await note.waitFor();
  expect(await note.innerText()).toMatch(words);
  const file = await savedFile(page, () => note.getByRole('button', { name: 'Save what is kept as a file' }).click());
  expect(file.includes(spoilt) || (JSON.parse(file) as { text: string }).text === spoilt).toBe(true);

  // The sheet goes on with the page's own, and puts nothing over what is there.
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await expect.poll(() => saving(page)).toMatch(/^Not saved/);
  const lies = await page.evaluate(
    () =>
      new Promise((resolve) => {
        indexedDB.open('baysheet').onsuccess = (event) => {
          const db = (event.target as IDBOpenDBRequest).result;
          db.transaction('texts').objectStore('texts').get(['estimate', 'demo-plenum']).onsuccess = ({ target }) => {
            db.close();
            resolve((target as IDBRequest<unknown>).result);
          };
        };
      }),
  );
  expect(lies).toBe(spoilt);
});
