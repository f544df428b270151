/** What is typed is saved as it is typed, and is there after a reload: estimates, entries that cannot be used, texts in open fields. */
import { afterEach, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { kept, saved } from './support/kept.js';
import { SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
let sheet: SheetPage;
afterEach(() => sheet.done());

async function reload(): Promise<void> {
  await sheet.page.reload();
  await sheet.ready();
  await saved(sheet.page);
}

test('every change is kept at once, undone ones too, and is there after a reload', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  await sheet.clickAndEnter('Lines', 'Replace the upper plenum gasket', 'Book h', '2.5');
  await expect.poll(async () => (await kept(page, 'demo-plenum'))?.['lines']).toMatchObject([{ bookHours: '2.5' }, {}]);
  const changed = await sheet.estimate();
  const total = await sheet.total();
  await reload();
  expect(await sheet.estimate()).toEqual(changed);
  expect(await sheet.total()).toBe(total);
  await sheet.expectTotalOfEngine();
  expect(new URL(page.url()).hash).toBe('#estimate=demo-plenum');

  await sheet.clickAndEnter('Lines', 'Replace the upper plenum gasket', 'Book h', '3');
  await sheet.button('Undo').click();
  await expect.poll(async () => (await kept(page, 'demo-plenum'))?.['lines']).toMatchObject([{ bookHours: '2.5' }, {}]);
  await sheet.button('Redo').click();
  await expect.poll(async () => (await kept(page, 'demo-plenum'))?.['lines']).toMatchObject([{ bookHours: '3' }, {}]);
});

test('an entry that cannot be used stays in its cell over a reload', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  await saved(sheet.page);
  await sheet.clickAndEnter('Lines', 'Replace the upper plenum gasket', 'Book h', 'two and a bit');
  await expect.poll(async () => JSON.stringify(await kept(sheet.page, 'demo-plenum'))).toContain('two and a bit');
  const before = await sheet.estimate();
  await reload();
  expect(await sheet.estimate()).toEqual(before);
  const cell = sheet.cell('Lines', 'Replace the upper plenum gasket', 'Book h');
  expect(await cell.innerText()).toBe('two and a bit');
  expect(await cell.getAttribute('aria-invalid')).toBe('true');
});

test('a text in an open field is kept with every key, offered after a reload, and entered where it was', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  await sheet.clickCell('Lines', 'Replace the upper plenum gasket', 'Book h');
  await sheet.type('2.75');
  await expect.poll(async () => JSON.stringify(await kept(page, 'demo-plenum'))).toContain('"text":"2.75"');
  const before = await sheet.estimate();
  await reload();
  expect(await sheet.estimate()).toEqual(before);
  const note = page.getByRole('note', { name: 'Not entered yet' });
  expect(await note.innerText()).toMatch(/in “Replace the upper plenum gasket, Book h” .*2\.75/s);
  await note.getByRole('button', { name: 'Enter it there' }).click();
  await expect.poll(() => sheet.cell('Lines', 'Replace the upper plenum gasket', 'Book h').innerText()).toBe('2.75');
  expect(await note.count()).toBe(0);
  // Nothing of it is left beside the estimate.
  await expect.poll(async () => JSON.stringify(await kept(page, 'demo-plenum'))).not.toContain('baysheet-unfinished');
  expect((await kept(page, 'demo-plenum'))?.['lines']).toMatchObject([{ bookHours: '2.75' }, {}]);

  // A field of the form, left out this time.
  await page.locator('baysheet-job summary').click();
  const plate = page.getByLabel('Plate');
  await plate.fill('');
  await plate.pressSequentially('NEW 1');
  await expect.poll(async () => JSON.stringify(await kept(page, 'demo-plenum'))).toContain('"text":"NEW 1"');
  await reload();
  expect(await note.innerText()).toMatch(/in “Plate” .*NEW 1/s);
  await note.getByRole('button', { name: 'Leave it out' }).click();
  expect(await note.count()).toBe(0);
  await expect.poll(async () => JSON.stringify(await kept(page, 'demo-plenum'))).not.toContain('NEW 1');
});

test('Escape leaves nothing behind', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  await sheet.clickCell('Lines', 'Replace the upper plenum gasket', 'Book h');
  await sheet.type('9');
  await expect.poll(async () => JSON.stringify(await kept(page, 'demo-plenum'))).toContain('baysheet-unfinished');
  await sheet.press('Escape');
  await expect.poll(async () => JSON.stringify(await kept(page, 'demo-plenum'))).not.toContain('baysheet-unfinished');
});

test('without anything named, the estimate that was open last is opened again', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('brakes'));
  const { page } = sheet;
  await saved(page);
  await page.goto(here.site.url);
  await sheet.ready();
  await saved(page);
  expect((await sheet.estimate()).id).toBe('demo-brakes');
});
