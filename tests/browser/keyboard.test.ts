/**
 * Every key of a grid, on both grids of the sheet and on one of the owner's desk.
 *
 * Against: W3C, ARIA Authoring Practices Guide, Grid Pattern, "Data Grids" and "Editing and Navigating Inside a Cell"
 * (https://www.w3.org/WAI/ARIA/apg/patterns/grid/), from memory. Where a spreadsheet's habit differs from it, the table
 * says so; that Tab steps through the cells is allowed for as long as the way out is told (WCAG 2.2, 2.1.2).
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { useDemo } from './support/demo-site.js';
import { openWatched, type WatchedPage } from './support/watched-page.js';

const here = useDemo();

/** Row and column, counted from 0; negative from the end. A row may be named by the words of its first cell. */
type Place = readonly [row: number, column: number];
type NamedPlace = readonly [row: string, column: number];

interface GridCase {
  readonly page: string;
  readonly grid: string;
  /** A cell that takes words or figures, and what may be entered there. */
  readonly text: NamedPlace;
  readonly entry: string;
  /** A cell that only shows. */
  readonly readOnly: NamedPlace | null;
}

const GRIDS: readonly GridCase[] = [
  { page: '?estimate=van', grid: 'Lines', text: ['Replace the thermostat', 3], entry: '1.7', readOnly: ['Replace the thermostat', 4] },
  { page: '?estimate=van', grid: 'Findings', text: ['Heater hose', 7], entry: 'It seeps when warm', readOnly: null },
  { page: 'rates.html', grid: 'Labour classes', text: ['Electrical work', 1], entry: '141.50', readOnly: null },
];

/** What a key does to the active cell: from, key, to; and what the pattern says of it. */
const MOVES: readonly (readonly [from: Place, key: string, to: Place, says: string])[] = [
  [[0, 0], 'ArrowRight', [0, 1], 'one cell to the right'],
  [[1, -1], 'ArrowRight', [1, -1], 'stays on the right-most cell'],
  [[1, 1], 'ArrowLeft', [1, 0], 'one cell to the left'],
  [[1, 0], 'ArrowLeft', [1, 0], 'stays on the left-most cell'],
  [[0, 1], 'ArrowDown', [1, 1], 'one cell down'],
  [[-1, 1], 'ArrowDown', [-1, 1], 'stays on the bottom cell'],
  [[1, 1], 'ArrowUp', [0, 1], 'one cell up'],
  [[0, 1], 'ArrowUp', [0, 1], 'stays on the top cell'],
  [[-1, 1], 'PageDown', [-1, 1], 'stays in the last row'],
  [[0, 1], 'PageUp', [0, 1], 'stays in the first row'],
  [[1, 1], 'Home', [1, 0], 'to the first cell of the row'],
  [[1, 1], 'End', [1, -1], 'to the last cell of the row'],
  [[1, 1], 'Control+Home', [0, 0], 'to the first cell of the first row'],
  [[1, 1], 'Control+End', [-1, -1], 'to the last cell of the last row'],
  // Spreadsheets' own, which the pattern leaves free.
  [[1, 1], 'Control+ArrowDown', [-1, 1], 'to the last row'],
  [[1, 1], 'Control+ArrowUp', [0, 1], 'to the first row'],
  [[1, 1], 'Control+ArrowRight', [1, -1], 'to the last column'],
  [[1, 1], 'Control+ArrowLeft', [1, 0], 'to the first column'],
  [[0, 0], 'Tab', [0, 1], 'the next cell, as in a spreadsheet'],
  [[0, -1], 'Tab', [1, 0], 'reads on into the next row'],
  [[1, 0], 'Shift+Tab', [0, -1], 'reads back into the row above'],
  [[1, 1], 'Shift+Enter', [0, 1], 'one cell up, as in a spreadsheet'],
];

/** What a key selects: from, keys, and the corners of the block. */
const BLOCKS: readonly (readonly [from: Place, keys: readonly string[], topLeft: Place, bottomRight: Place, says: string])[] = [
  [[1, 1], ['Control+Space'], [0, 1], [-1, 1], 'the column'],
  [[1, 1], ['Shift+Space'], [1, 0], [1, -1], 'the row'],
  [[1, 1], ['Control+a'], [0, 0], [-1, -1], 'all cells'],
  [[0, 0], ['Shift+ArrowRight'], [0, 0], [0, 1], 'one cell more to the right'],
  [[0, 1], ['Shift+ArrowLeft'], [0, 0], [0, 1], 'one cell more to the left'],
  [[0, 0], ['Shift+ArrowDown'], [0, 0], [1, 0], 'one cell more below'],
  [[1, 0], ['Shift+ArrowUp'], [0, 0], [1, 0], 'one cell more above'],
  [[1, 1], ['Shift+Home'], [1, 0], [1, 1], 'to the first cell of the row'],
  [[1, 1], ['Shift+End'], [1, 1], [1, -1], 'to the last cell of the row'],
  [[1, 1], ['Control+Shift+End'], [1, 1], [-1, -1], 'to the last cell of all'],
  [[1, 1], ['Control+Shift+Home'], [0, 0], [1, 1], 'to the first cell of all'],
  [[1, 1], ['Control+a', 'ArrowDown'], [1, 0], [1, 0], 'an arrow ends the block, and goes on from its first cell'],
];

describe.each(GRIDS)('$grid', ({ page: path, grid, text: [named, textColumn], entry, readOnly }) => {
  let text: Place;
  let watched: WatchedPage;
  let page: Page;
  let rows: number;
  let columns: number;

  const holder = () => page.getByRole('grid', { name: grid, exact: true });
  const whole = ([row, column]: Place): Place => [row < 0 ? rows + row : row, column < 0 ? columns + column : column];

  beforeAll(async () => {
    watched = await openWatched(here.browser, `${here.site.url}/${path}`);
    ({ page } = watched);
    await holder().waitFor();
    const count = async (name: string) => Number(await holder().getAttribute(name));
    [rows, columns] = [(await count('aria-rowcount')) - 1, await count('aria-colcount')];
    await holder().scrollIntoViewIfNeeded();
    const row = holder()
      .locator('tbody tr[role=row]')
      .filter({ has: page.locator(`[aria-colindex="1"]:text-is(${JSON.stringify(named)})`) })
      .first();
    text = [Number(await row.getAttribute('aria-rowindex')) - 2, textColumn];
    await holder().focus();
  });

  afterAll(async () => {
    await watched.close();
    expect(watched.complaints).toEqual([]);
  });

  async function press(...keys: string[]): Promise<void> {
    for (const key of keys) await page.keyboard.press(key);
  }

  /** The active cell; null while the grid does not have the keyboard. */
  const active = (): Promise<Place | null> =>
    holder().evaluate((element): Place | null => {
      const root = element.getRootNode() as ShadowRoot;
      const id = element.getAttribute('aria-activedescendant');
      const cell = root.activeElement === element && id !== null ? root.getElementById(id) : null;
      if (cell === null) return null;
      return [Number(cell.parentElement!.getAttribute('aria-rowindex')) - 2, Number(cell.getAttribute('aria-colindex')) - 1];
    });

  /** The corners of the selected block, of what is on the screen: its first row, first column, last row, last column. */
  const block = (): Promise<number[]> =>
    holder().evaluate((element) => {
      const cells = [...element.querySelectorAll('[aria-selected="true"]')];
      const row = cells.map((cell) => Number(cell.parentElement!.getAttribute('aria-rowindex')) - 2);
      const column = cells.map((cell) => Number(cell.getAttribute('aria-colindex')) - 1);
      return [Math.min(...row), Math.min(...column), Math.max(...row), Math.max(...column)];
    });
  const shownRows = (): Promise<number[]> =>
    holder().evaluate((element) => {
      const all = [...element.querySelectorAll('tbody [aria-rowindex]')].map((row) => Number(row.getAttribute('aria-rowindex')) - 2);
      return [Math.min(...all), Math.max(...all)];
    });

  async function goTo(place: Place): Promise<void> {
    const [row, column] = whole(place);
    if ((await active()) === null) await holder().focus();
    await press(row * 2 > rows ? 'Control+End' : 'Control+Home', 'Home');
    const from = (await active())![0];
    await press(...Array<string>(Math.abs(row - from)).fill(row > from ? 'ArrowDown' : 'ArrowUp'));
    await press(
      ...(column * 2 > columns
        ? ['End', ...Array<string>(columns - 1 - column).fill('ArrowLeft')]
        : Array<string>(column).fill('ArrowRight')),
    );
    expect(await active(), `way to ${place}`).toEqual([row, column]);
  }

  const field = () => page.locator('.sheet-field');
  const cellText = async (): Promise<string> =>
    holder().evaluate(
      (element) => (element.getRootNode() as ShadowRoot).getElementById(element.getAttribute('aria-activedescendant')!)!.innerText,
    );

  test('is one stop of Tab, with as many rows and columns as it says', async () => {
    expect(rows).toBeGreaterThan(1);
    expect(columns).toBeGreaterThan(2);
    expect(await holder().getAttribute('tabindex')).toBe('0');
    expect(await holder().locator('[tabindex="0"], button, input, a[href]').count()).toBe(0);
  });

  test.each(MOVES)('%j %s → %j: %s', async (from, key, to) => {
    await goTo(from);
    await press(key);
    expect(await active()).toEqual(whole(to));
  });

  test('PageDown and PageUp: by the rows in sight, and as far back', async () => {
    await goTo([0, 1]);
    await press('PageDown');
    const [row, column] = (await active())!;
    expect(column).toBe(1);
    expect(row).toBeGreaterThan(0);
    await press('PageUp');
    expect(await active()).toEqual([0, 1]);
  });

  test.each(BLOCKS)('%j %j selects from %j to %j: %s', async (from, keys, topLeft, bottomRight) => {
    await goTo(from);
    await press(...keys);
    const [[top, left], [bottom, right]] = [whole(topLeft), whole(bottomRight)];
    // Rows that are scrolled away are not in the document.
    const [first, last] = await shownRows();
    expect(await block()).toEqual([Math.max(top, first!), left, Math.min(bottom, last!), right]);
  });

  test.each(['Enter', 'F2', 'a letter'])('%s begins to edit; Escape takes it back and gives the keyboard to the grid', async (key) => {
    await goTo(text);
    const before = await cellText();
    await press(key === 'a letter' ? 'x' : key);
    expect(await field().inputValue()).toBe(key === 'a letter' ? 'x' : before);
    expect(await field().getAttribute('aria-label')).toMatch(/\S, \S/);
    await page.keyboard.type('7');
    await press('Escape');
    expect(await field().count()).toBe(0);
    expect(await active()).toEqual(whole(text));
    expect(await cellText()).toBe(before);
  });

  test('while one edits, arrows, Home and End are the field’s; a second F2 gives the arrows back to the grid', async () => {
    await goTo(text);
    await press('F2', 'Home', 'ArrowRight', 'ArrowLeft', 'End', 'ArrowLeft');
    expect(await field().count()).toBe(1);
    await press('F2', 'ArrowDown');
    expect(await field().count()).toBe(0);
    expect(await active()).toEqual(whole([text[0] + 1, text[1]]));
  });

  test.each([
    ['Enter', [1, 0]],
    ['Shift+Enter', [-1, 0]],
    ['Tab', [0, 1]],
    ['Shift+Tab', [0, -1]],
    ['ArrowDown', [1, 0]],
    ['ArrowUp', [-1, 0]],
  ] as const)('an entry that is typed is ended by %s, which goes on from there', async (key, [down, right]) => {
    await goTo(text);
    const before = await cellText();
    await page.keyboard.type(entry);
    await press(key);
    const [row, column] = whole(text);
    const end = row * columns + column + right;
    expect(await active()).toEqual([Math.floor(end / columns) + down, ((end % columns) + columns) % columns]);
    await goTo(text);
    expect(await cellText()).toBe(entry);
    await press('Control+z');
    await expect.poll(cellText).toBe(before);
  });

  test('Space begins to edit, and the browser does not scroll by it', async () => {
    await goTo(text);
    const top = await page.evaluate(() => scrollY);
    await press('Space');
    expect(await field().inputValue()).toBe(' ');
    await press('Escape');
    expect(await page.evaluate(() => scrollY)).toBe(top);
  });

  test('Delete empties a cell, undo brings it back, redo empties it again', async () => {
    await goTo(text);
    const before = await cellText();
    await page.keyboard.type(entry);
    await press('Enter');
    await goTo(text);
    await press('Delete');
    await expect.poll(cellText).not.toBe(entry);
    await press('Control+z');
    await expect.poll(cellText).toBe(entry);
    await press('Control+y');
    await expect.poll(cellText).not.toBe(entry);
    await press('Control+z', 'Control+z');
    await expect.poll(cellText).toBe(before);
  });

  test.runIf(readOnly !== null)('a cell that cannot be changed says so, and Enter goes on', async () => {
    await goTo([text[0], readOnly![1]]);
    await press('x');
    expect(await field().count()).toBe(0);
    await expect.poll(() => page.locator('baysheet-estimate p[role=status]').innerText()).toMatch(/cannot be changed here\.\s*$/);
    await press('Enter');
    expect(await active()).toEqual([text[0] + 1, readOnly![1]]);
  });

  test.each(['Shift+F10', 'ContextMenu'])('%s opens the row’s menu; arrows go through it, Escape gives the keyboard back', async (key) => {
    await goTo([0, 0]);
    await press(key);
    const items = page.getByRole('menu').getByRole('menuitem');
    await items.first().waitFor();
    const here = () => items.evaluateAll((all) => all.findIndex((item) => item.matches(':focus')));
    const first = await here();
    await press('ArrowDown');
    expect(await here()).not.toBe(first);
    await press('Escape');
    expect(await page.getByRole('menu').count()).toBe(0);
    expect(await active()).toEqual([0, 0]);
  });

  test('Tab leaves after Escape, from the last cell, and backwards from the first; and the grid says how', async () => {
    expect(await holder().getAttribute('aria-description')).toMatch(/Escape, then Tab/);
    await goTo([0, 1]);
    await press('Escape', 'Tab');
    expect(await active()).toBeNull();
    await press('Shift+Tab');
    expect(await active()).toEqual([0, 1]);
    await press('Escape', 'Shift+Tab');
    expect(await active()).toBeNull();
    await press('Tab');
    expect(await active()).toEqual([0, 1]);
    await goTo([-1, -1]);
    await press('Tab');
    expect(await active()).toBeNull();
    await goTo([0, 0]);
    await press('Shift+Tab');
    expect(await active()).toBeNull();
  });
});
