/** One estimate in two tabs: one writes, the other reads and may take over; what was put meanwhile is never put over without a person who chose so. */
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { kept, keptText, putBeside, saved, saving } from './support/kept.js';
import { SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
const GASKET = 'Replace the upper plenum gasket';
let sheet: SheetPage;
afterEach(() => sheet.done());

async function secondTab(): Promise<Page> {
  const page = await sheet.context.newPage();
  await page.goto(here.site.demo('plenum'));
  await page.getByRole('grid', { name: 'Lines' }).waitFor();
  return page;
}

const bookHours = (page: Page): Promise<string> =>
  page.locator('baysheet-estimate').evaluate((element) => {
    const line = (element as HTMLElementTagNameMap['baysheet-estimate']).estimate!.lines[0]!;
    return line.kind === 'operation' ? String(line.bookHours) : '';
  });

test('the second tab reads and follows, takes over, and gives it back when it is closed', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const first = sheet.page;
  await saved(first);
  const second = await secondTab();
  await expect.poll(() => saving(second)).toBe('Read only: open in another tab');
  const note = second.getByRole('note', { name: 'Read only' });
  expect(await note.innerText()).toMatch(/open in another tab. It can be read here, and follows/);

  // Nothing can be changed in it: neither in a cell nor in a field.
  const before = await kept(second, 'demo-plenum');
  const cell = second.getByRole('grid', { name: 'Lines' }).locator('tbody tr').first().locator('[aria-colindex="4"]');
  await cell.click();
  await second.keyboard.type('7');
  expect(await second.locator('.sheet-field').count()).toBe(0);
  await second.locator('baysheet-job summary').click();
  const plate = second.getByLabel('Plate');
  const was = await plate.inputValue();
  await plate.click();
  await second.keyboard.type('XYZ');
  expect(await plate.inputValue()).toBe(was);
  expect(await second.locator('baysheet-estimate p[role=status]').innerText()).toMatch(/can only be read here. Take over/);
  const exempt = second.getByRole('checkbox', { name: /^State sales tax/ });
  await exempt.click();
  expect(await exempt.isChecked()).toBe(false);
  expect(await kept(second, 'demo-plenum')).toEqual(before);

  // It follows the first.
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await expect.poll(() => bookHours(second)).toBe('2.5');

  // It takes over, while a text stands in an open field of the first: that is entered, not lost.
  await sheet.clickCell('Lines', GASKET, 'Book h');
  await sheet.type('3.5');
  await note.getByRole('button', { name: 'Take over' }).click();
  await expect.poll(() => saving(second)).toMatch(/^Saved in this browser/);
  await expect.poll(() => bookHours(second)).toBe('3.5');
  await expect.poll(() => saving(first)).toBe('Read only: open in another tab');
  expect(await first.getByRole('note', { name: 'Read only' }).innerText()).toMatch(/Another tab has taken this estimate over/);
  await cell.click();
  await second.keyboard.type('4');
  await second.keyboard.press('Enter');
  await expect.poll(() => bookHours(first)).toBe('4');

  await second.close();
  await expect.poll(() => saving(first)).toMatch(/^Saved in this browser/);
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '5');
  await expect.poll(async () => (await kept(first, 'demo-plenum'))?.['lines']).toMatchObject([{ bookHours: '5' }, {}]);
});

/** Changes the sheet after somebody else has put another text. */
async function conflict(theirs: (estimate: Record<string, unknown>) => Record<string, unknown> | null): Promise<void> {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await saved(page);
  const other = theirs((await kept(page, 'demo-plenum'))!);
  await putBeside(page, 'demo-plenum', other === null ? null : JSON.stringify(other));
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.5');
  await expect.poll(() => saving(page)).toBe('Not saved: changed elsewhere');
  // Going on does not put it over either.
  await sheet.clickAndEnter('Lines', GASKET, 'Book h', '2.6');
  expect(await keptText(page, 'demo-plenum')).toBe(other === null ? null : JSON.stringify(other));
  await page.getByRole('button', { name: 'Compare …' }).click();
}

const theirs = (estimate: Record<string, unknown>): Record<string, unknown> => ({
  ...estimate,
  number: 'B-2000',
  lines: (estimate['lines'] as object[]).slice(0, 1),
});

test('two versions are shown side by side; mine is put over theirs when a person says so', async () => {
  await conflict(theirs);
  const { page } = sheet;
  const dialog = page.getByRole('dialog', { name: 'Two versions of this estimate' });
  const table = await dialog.getByRole('table').innerText();
  expect(table).toMatch(/Estimate number\s+B-1044\s+B-2000/);
  expect(table).toMatch(/Line[^\n]*\n?[^\n]*not there/);
  expect(table).toMatch(/Total\s+\$[\d,.]+\s+\$[\d,.]+/);
  await dialog.getByRole('button', { name: 'Keep mine', exact: true }).click();
  await saved(page);
  expect(await kept(page, 'demo-plenum')).toMatchObject({ number: 'B-1044', lines: [{ bookHours: '2.6' }, {}] });
});

test('theirs is taken, and undo brings mine back', async () => {
  await conflict(theirs);
  const { page } = sheet;
  await page.getByRole('button', { name: 'Take theirs' }).click();
  await saved(page);
  expect(await sheet.estimate()).toMatchObject({ number: 'B-2000' });
  expect((await sheet.estimate()).lines).toHaveLength(1);
  await sheet.expectTotalOfEngine();
  await sheet.button('Undo').click();
  await expect.poll(async () => kept(page, 'demo-plenum')).toMatchObject({ number: 'B-1044', lines: [{ bookHours: '2.6' }, {}] });
});

test('mine is kept as a copy, and both stay', async () => {
  await conflict(theirs);
  const { page } = sheet;
  await page.getByRole('button', { name: 'Keep mine as a copy' }).click();
  await saved(page);
  const mine = await sheet.estimate();
  expect(mine).toMatchObject({ number: 'B-1044 (copy)', lines: [{ bookHours: '2.6' }, {}] });
  expect(mine.id).not.toBe('demo-plenum');
  expect(await kept(page, mine.id)).toMatchObject({ number: 'B-1044 (copy)' });
  expect(await kept(page, 'demo-plenum')).toMatchObject({ number: 'B-2000' });
});

test('removed elsewhere while it was changed here: asked, and kept again', async () => {
  await conflict(() => null);
  const { page } = sheet;
  const dialog = page.getByRole('dialog', { name: 'Two versions of this estimate' });
  expect(await dialog.innerText()).toMatch(/was removed from where it is kept/);
  await dialog.getByRole('button', { name: 'Keep mine', exact: true }).click();
  await saved(page);
  expect(await kept(page, 'demo-plenum')).toMatchObject({ lines: [{ bookHours: '2.6' }, {}] });
});
