/** What is said to a screen reader after an edit. What axe finds is looked for in `every-state.test.ts`. */
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, test } from 'vitest';
import { useDemo } from './support/demo-site.js';
import { axeFaults, openWatched, type WatchedPage } from './support/watched-page.js';

const here = useDemo();
let watched: WatchedPage;

afterEach(async () => {
  await watched.close();
  expect(watched.complaints).toEqual([]);
});

async function open(path: string): Promise<Page> {
  watched = await openWatched(here.browser, `${here.site.url}/${path}`);
  return watched.page;
}

test('axe finds nothing on an empty sheet', async () => {
  const page = await open('?estimate=empty');
  await page.getByRole('grid', { name: 'Lines', exact: true }).waitFor();
  expect(await axeFaults(page)).toEqual([]);
});

/** WCAG 2.2, 4.1.3: what changes is told without the focus being moved. */
describe('a screen reader is told', () => {
  const said = (page: Page, within: string): Promise<string> => page.locator(`${within} p[role=status]`).first().innerText();
  const cell = (page: Page, grid: string, words: string, column: number) =>
    page
      .getByRole('grid', { name: grid, exact: true })
      .locator('tbody tr[role=row]')
      .filter({ has: page.locator(`[aria-colindex="1"]:text-is(${JSON.stringify(words)})`) })
      .locator(`[aria-colindex="${column}"]`);
  async function enter(page: Page, grid: string, words: string, column: number, text: string): Promise<void> {
    await cell(page, grid, words, column).click();
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
  }

  test('row, column, value and the new total after an entry; the same for a block, a row that is removed, and undo', async () => {
    const page = await open('?estimate=plenum');
    const gasket = 'Replace the upper plenum gasket';
    const now = (): Promise<string> => said(page, 'baysheet-estimate');
    const total = (): Promise<string> => page.locator('baysheet-totals').first().locator('[part=total] td').last().innerText();
    await page.getByRole('grid', { name: 'Lines', exact: true }).waitFor();
    const before = await total();
    await enter(page, 'Lines', gasket, 4, '2.5');
    await expect.poll(now).toMatch(/^Replace the upper plenum gasket, Book h: 2\.5\. Total \S+\d\.\s*$/);
    expect(await total()).not.toBe(before);
    expect(await now()).toContain((await total()).trim());
    await page.keyboard.press('Control+z');
    await expect.poll(now).toMatch(/^undo entry\. Total /);
    expect((await total()).trim()).toBe(before.trim());
    expect(await now()).toContain(before.trim());

    // Nothing is used: no new total, but why.
    await enter(page, 'Lines', gasket, 4, 'two');
    await expect.poll(now).toMatch(/^Replace the upper plenum gasket, Book h\. Not used: "two" is not a figure/);
    // The same once more is said once more.
    await page.evaluate(() => {
      const heard: string[] = [];
      Object.assign(window, { heardChanges: heard });
      const region = document.querySelector('baysheet-estimate')!.shadowRoot!.querySelector('p[role=status]')!;
      new MutationObserver(() => heard.push(region.textContent)).observe(region, { childList: true, characterData: true, subtree: true });
    });
    await enter(page, 'Lines', gasket, 4, 'twe');
    await enter(page, 'Lines', gasket, 4, 'twe ');
    await expect
      .poll(() => page.evaluate(() => (window as unknown as { heardChanges: string[] }).heardChanges.length))
      .toBeGreaterThanOrEqual(2);

    // A row that the entry makes is called by what it is now.
    await enter(page, 'Lines', 'Next line', 1, 'Clean the throttle body');
    await expect.poll(now).toMatch(/^Clean the throttle body, Work: Clean the throttle body\. Total /);
    await cell(page, 'Lines', 'Clean the throttle body', 1).click({ button: 'right' });
    await page.getByRole('menuitem', { name: /^Remove/ }).click();
    await expect.poll(now).toMatch(/^Done: remove.*\. Total /);
    await cell(page, 'Lines', gasket, 4).click();
    await page.keyboard.press('Delete');
    await expect.poll(now).toMatch(/^Cleared 1 cell\. Replace the upper plenum gasket, Book h: 2\. Total /);
  });

  test('row, column and value on the owner’s desk', async () => {
    const page = await open('rates.html');
    await page.getByRole('grid', { name: 'Labour classes', exact: true }).waitFor();
    await enter(page, 'Labour classes', 'Electrical work', 2, '141.5');
    await expect.poll(() => said(page, 'baysheet-rates')).toMatch(/^Electrical work, Rate per hour: 141\.5\.\s*$/);
    await enter(page, 'Labour classes', 'Electrical work', 2, 'much');
    await expect.poll(() => said(page, 'baysheet-rates')).toMatch(/^Electrical work, Rate per hour\. Not used: /);
  });
});
