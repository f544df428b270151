/** The list of what is kept, files, tables of lines, and the backup. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Download, Locator, Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { kept, keptText, saved, saving } from './support/kept.js';
import { SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
const GASKET = 'Replace the upper plenum gasket';
const pictures = join(import.meta.dirname, '../../test-output');
let sheet: SheetPage;
afterEach(() => sheet.done());

async function openList(): Promise<Locator> {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  await saved(sheet.page);
  await sheet.button('Estimates …').click();
  const dialog = sheet.page.getByRole('dialog', { name: 'Estimates' });
  await expect.poll(() => names(dialog)).toHaveLength(4);
  return dialog;
}

const names = (dialog: Locator): Promise<string[]> => dialog.locator('tbody button.open').allInnerTexts();

async function download(page: Page, press: () => Promise<void>): Promise<Download> {
  const [file] = await Promise.all([page.waitForEvent('download'), press()]);
  return file;
}

test('found as one types, by number, name and plate; opened, begun and duplicated, by keyboard alone', async () => {
  const dialog = await openList();
  const { page } = sheet;
  expect((await names(dialog)).sort()).toEqual(['B-1042', 'B-1043', 'B-1044', 'B-1045']);
  expect(await sheet.axe()).toEqual([]);
  await page.screenshot({ path: join(pictures, 'keeping-list.png') });
  const search = dialog.getByRole('searchbox');
  const whatIsFound = (words: string) => expect.poll(async () => (await search.fill(words), names(dialog)));
  await whatIsFound('1045').toEqual(['B-1045']);
  await whatIsFound('demo42').toContain('B-1043');
  await whatIsFound('órla fin').toHaveLength(4);
  await whatIsFound('nobody at all').toEqual([]);
  await dialog.getByText('None of 4 estimates answers to that.').waitFor();

  await search.fill('1045');
  await sheet.press('Enter');
  await expect.poll(async () => (await sheet.estimate()).id).toBe('demo-brakes');
  await saved(page);
  await sheet.expectTotalOfEngine();
  expect(new URL(page.url()).hash).toBe('#estimate=demo-brakes');

  // Arrows lead through the list.
  await sheet.button('Estimates …').press('Enter');
  await expect.poll(() => names(dialog)).toHaveLength(4);
  await sheet.press('ArrowDown', 'ArrowDown', 'ArrowUp');
  await expect.poll(() => sheet.focused()).toMatch(/^button Open B-104/);
  await dialog.getByRole('button', { name: /^Duplicate B-1044/ }).press('Enter');
  await expect.poll(async () => (await sheet.estimate()).id).not.toBe('demo-brakes');
  await saved(page);
  const copy = await sheet.estimate();
  expect(copy).toMatchObject({ number: 'B-1044 (copy)', revision: 1, consents: [], history: [] });
  expect(copy.lines.every(({ decision }) => decision === 'proposed')).toBe(true);
  expect(await kept(page, 'demo-plenum')).toMatchObject({ number: 'B-1044' });

  await sheet.button('Estimates …').click();
  await expect.poll(() => names(dialog)).toHaveLength(5);
  await dialog.getByRole('button', { name: 'New estimate' }).click();
  await expect.poll(async () => (await sheet.estimate()).lines).toEqual([]);
  await sheet.opened();
  // One that nothing is written in is not kept.
  expect(await keptText(page, (await sheet.estimate()).id)).toBeNull();
  await page.getByLabel('Estimate number').fill('B-2001');
  await page.getByLabel('Estimate number').press('Tab');
  await saved(page);
  await expect.poll(async () => kept(page, (await sheet.estimate()).id)).toMatchObject({ number: 'B-2001' });
});

test('a browser that may clear what is kept is asked to keep it, when the person says so', async () => {
  const dialog = await openList();
  const { page } = sheet;
  // Whether a browser agrees is its own affair, so its answers are given here.
  await page.evaluate(() => {
    const answers = [false, true];
    let lasts = false;
    navigator.storage.persisted = () => Promise.resolve(lasts);
    navigator.storage.persist = () => Promise.resolve((lasts = answers.shift()!));
  });
  await page.keyboard.press('Escape');
  await sheet.button('Estimates …').click();
  await dialog.getByText('this browser may clear what is kept in it').waitFor();
  expect(await sheet.axe()).toEqual([]);
  await dialog.getByRole('button', { name: 'Ask it to keep everything' }).click();
  await dialog.getByText('Make a backup now and then').waitFor();
  await dialog.getByRole('button', { name: 'Ask again' }).click();
  await expect.poll(() => dialog.getByText(/promise to keep|may clear/).count()).toBe(0);
});

test('removed after a question, and put back; the one on the screen too', async () => {
  const dialog = await openList();
  const { page } = sheet;
  const was = await keptText(page, 'demo-brakes');
  await dialog.getByRole('button', { name: /^Remove B-1045/ }).click();
  await dialog.getByRole('button', { name: 'Leave it' }).click();
  expect(await names(dialog)).toHaveLength(4);
  await dialog.getByRole('button', { name: /^Remove B-1045/ }).click();
  await dialog.getByRole('button', { name: 'Remove', exact: true }).click();
  await expect.poll(() => names(dialog)).toHaveLength(3);
  expect(await keptText(page, 'demo-brakes')).toBeNull();
  await dialog.getByRole('button', { name: 'Put it back' }).click();
  await expect.poll(() => names(dialog)).toHaveLength(4);
  expect(await keptText(page, 'demo-brakes')).toBe(was);

  await dialog.getByRole('button', { name: /^Remove B-1044/ }).click();
  await dialog.getByRole('button', { name: 'Remove', exact: true }).click();
  await expect.poll(() => names(dialog)).toHaveLength(3);
  expect(await sheet.estimate()).toMatchObject({ number: '', lines: [] });
  await dialog.getByRole('button', { name: 'Put it back' }).click();
  await dialog.getByRole('button', { name: /^Open B-1044/ }).click();
  await expect.poll(async () => (await sheet.estimate()).id).toBe('demo-plenum');
  await sheet.expectTotalOfEngine();
});

test('a JSON file dropped on the sheet is opened and kept; what is none is refused in words', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  const drop = (name: string, type: string, text: string): Promise<void> =>
    sheet.grid('Findings').evaluate(
      (target, [fileName, fileType, content]) => {
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([content!], fileName!, { type: fileType! }));
        target.dispatchEvent(new DragEvent('drop', { bubbles: true, composed: true, cancelable: true, dataTransfer }));
      },
      [name, type, text],
    );
  const given = { ...(await sheet.estimate()), id: 'from-a-file', number: 'B-3000' };
  await drop('given.json', 'application/json', JSON.stringify(given));
  await expect.poll(async () => (await sheet.estimate()).number).toBe('B-3000');
  await saved(page);
  await expect.poll(() => kept(page, 'from-a-file')).toMatchObject({ number: 'B-3000' });
  await drop('bad.json', 'application/json', '{"format":"baysheet-estimate","version":1,"id":');
  await page.getByRole('alert').filter({ hasText: 'The estimate cannot be used' }).waitFor();
  expect((await sheet.estimate()).number).toBe('B-3000');

  // A file with the name of one that is kept, and other words: asked, not put over.
  await drop('other.json', 'application/json', JSON.stringify({ ...given, id: 'demo-brakes', number: 'B-3001' }));
  await expect.poll(() => saving(page)).toBe('Not saved: changed elsewhere');
  expect(await kept(page, 'demo-brakes')).toMatchObject({ number: 'B-1045' });
  await page.getByRole('button', { name: 'Compare …' }).click();
  await page.screenshot({ path: join(pictures, 'keeping-compare.png') });
  expect(await sheet.axe()).toEqual([]);
  await page.getByRole('button', { name: 'Keep mine as a copy' }).click();
  await saved(page);
  expect(await kept(page, 'demo-brakes')).toMatchObject({ number: 'B-1045' });
});

test('lines go out as a table and come in from one, with every bad row listed first', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  const before = await sheet.estimate();
  const dialog = page.getByRole('dialog', { name: 'Lines as a table' });
  await sheet.button('Table …').click();
  const file = await download(page, () => dialog.getByRole('button', { name: 'Save 2 lines as CSV' }).click());
  expect(file.suggestedFilename()).toBe('B-1044.lines.csv');
  const csv = await readFile(await file.path(), 'utf8');
  expect(csv).toContain(GASKET);

  const table =
    'Kind,Work,Book hours,Quantity,Cost,Price\npart,"\'=HYPERLINK(""x"")",,2,3.50,9\nlabour,Look for a rattle,0.5,,,\npart,Clip,,many,1,2\n';
  await dialog.getByLabel(/^or the table itself/).fill(table);
  expect(await dialog.getByRole('group', { name: 'Rows that are no line' }).innerText()).toMatch(/line 4\s.*Quantity/s);
  expect(await sheet.axe()).toEqual([]);
  await page.screenshot({ path: join(pictures, 'keeping-table.png') });
  await dialog.getByRole('button', { name: 'Take in 2 lines, leave the bad rows' }).click();
  const after = await sheet.estimate();
  expect(after.lines.slice(2)).toMatchObject([
    { kind: 'part', title: '=HYPERLINK("x")', qty: '2', unitPrice: '9' },
    { kind: 'labour', hours: '0.5' },
  ]);
  await sheet.expectTotalOfEngine();
  await sheet.button('Undo').click();
  expect((await sheet.estimate()).lines).toEqual(before.lines);

  // What went out comes back as it was.
  await sheet.button('Table …').click();
  await dialog.locator('input[type=file]').setInputFiles({ name: 'lines.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) });
  await dialog.getByRole('button', { name: 'Take in 2 lines' }).click();
  const withoutIds = (lines: typeof before.lines) => lines.map(({ id: _, ...line }) => line);
  expect(withoutIds((await sheet.estimate()).lines.slice(2))).toEqual(withoutIds(before.lines));
});

test('everything in one file and back: what differs is asked about, one by one', async () => {
  const dialog = await openList();
  const { page } = sheet;
  // With the first change the card and the catalogue are kept too.
  await dialog.getByRole('button', { name: 'Close' }).click();
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.25');
  await expect.poll(async () => (await kept(page, 'demo-plenum'))?.['quoted']).toBeTruthy();
  await sheet.button('Estimates …').click();
  await dialog.getByRole('button', { name: 'Backup …' }).click();
  const backup = page.getByRole('dialog', { name: 'Backup' });
  const save = (): Promise<Download> => download(page, () => backup.getByRole('button', { name: 'Save a backup' }).click());
  const file = await save();
  expect(file.suggestedFilename()).toMatch(/^baysheet-backup-\d{4}-\d\d-\d\d\.json$/);
  const text = await readFile(await file.path(), 'utf8');
  await backup.getByRole('button', { name: 'Close' }).click();

  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await saved(page);
  await sheet.button('Estimates …').click();
  await dialog.getByRole('button', { name: /^Remove B-1045/ }).click();
  await dialog.getByRole('button', { name: 'Remove', exact: true }).click();
  await expect.poll(() => names(dialog)).toHaveLength(3);
  await dialog.getByRole('button', { name: 'Backup …' }).click();
  const read = (): Promise<void> =>
    backup.getByLabel('A backup').setInputFiles({ name: 'backup.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await read();
  const choice = backup.getByLabel('What to do with estimate B-1044', { exact: false });
  await choice.waitFor();
  expect(await sheet.axe()).toEqual([]);
  await page.screenshot({ path: join(pictures, 'keeping-backup.png') });
  await backup.getByRole('button', { name: 'Put it back' }).click();
  await backup.getByText(/1 put back, .*1 left as kept/).waitFor();
  expect(await kept(page, 'demo-plenum')).toMatchObject({ lines: [{ bookHours: '2.5' }, {}] });
  expect(await kept(page, 'demo-brakes')).not.toBeNull();

  await read();
  await choice.selectOption('replace');
  await backup.getByRole('button', { name: 'Put it back' }).click();
  await backup.getByText(/1 put over what was kept/).waitFor();
  // The sheet shows it, and the file is the same, byte for byte.
  await expect.poll(async () => (await sheet.estimate()).lines[0]).not.toMatchObject({ bookHours: '2.5' });
  expect(await readFile(await (await save()).path(), 'utf8')).toBe(text);
  await backup
    .getByLabel('A backup')
    .setInputFiles({ name: 'cut.json', mimeType: 'application/json', buffer: Buffer.from(text.slice(0, 500)) });
  await backup.getByText(/This file is no JSON, or was cut short/).waitFor();
});
