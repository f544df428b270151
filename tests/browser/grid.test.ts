import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { absentModules } from '../../components/grid/absent/alias.js';
import { fillEdits, longestCell, mostPastedRows, pasteEdits } from '../../components/grid/edits.js';
import { fitColumns } from '../../components/grid/layout.js';
import { SheetModel } from '../../components/grid/model.js';
import { parseTsv, printTsv } from '../../components/grid/tsv.js';
import type { SheetEdit, SheetSelection } from '../../components/grid/sheet.js';
import { launchChromium } from './support/chromium.js';
import { serveFolder } from './support/serve.js';
import type { StaticServer } from './support/serve.js';

const here = import.meta.dirname;
const output = join(here, '../../test-output/grid-page');
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let server: StaticServer;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[] = [];

beforeAll(async () => {
  await build({
    configFile: false,
    root: join(here, 'grid-page'),
    base: './',
    logLevel: 'warn',
    resolve: { alias: absentModules },
    build: { outDir: output, emptyOutDir: true, target: 'es2022', modulePreload: { polyfill: false } },
  });
  server = await serveFolder(output);
  browser = await launchChromium(['--js-flags=--expose-gc']);
  context = await browser.newContext({ permissions: ['clipboard-read', 'clipboard-write'] });
  page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.stack ?? error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.route('**/favicon.ico', (route) => route.fulfill({ status: 204 }));
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

beforeEach(async () => {
  complaints = [];
  await page.setViewportSize({ width: 1100, height: 900 });
  await page.mouse.move(0, 0);
  await page.goto(`${server.url}/`);
  await grid().waitFor();
});

// Whatever a test does, the page must stay free of errors and of reports of its policy.
afterEach(async () => {
  const violations = await page.evaluate(() => (window as unknown as Harness).harness.violations);
  expect(violations).toEqual([]);
  expect(complaints).toEqual([]);
});

// What the harness page offers

interface OwnerView {
  rows: { id: string; label: string; level: string; cells: Record<string, { text: string }> }[];
  log: { what: string; detail: unknown }[];
  selection: SheetSelection | null;
  late: boolean;
  sheet: {
    update(rows: unknown): void;
    focus(row: string, column?: string): void;
    destroy(): void;
    widths(): Record<string, number>;
  };
  create(): OwnerView['sheet'];
  show(rows: unknown): void;
}

interface Harness {
  harness: { violations: string[]; manyRows(count: number): OwnerView['rows']; smallRows(): OwnerView['rows'] };
}

type Which = 'first' | 'second';

function grid(which: Which = 'first'): Locator {
  return page.locator(`#page >> role=grid[name="${which === 'first' ? 'Lines' : 'Findings'}"]`);
}

/** Runs `work` in the page with the owner of a sheet. */
async function owner<T>(work: (owner: OwnerView) => T, which: Which = 'first'): Promise<T> {
  const handle = await page.evaluateHandle(
    (name) => (document.querySelector('#page') as unknown as Record<string, OwnerView>)[name]!,
    which,
  );
  const result = await handle.evaluate(work as never);
  await handle.dispose();
  return result as T;
}

const logged = (what: string, which: Which = 'first'): Promise<{ what: string; detail: unknown }[]> =>
  owner((it) => it.log, which).then((log) => log.filter((entry) => entry.what.startsWith(what)));

const edits = async (which: Which = 'first'): Promise<{ source: string; edits: SheetEdit[] }[]> =>
  (await logged('edit:', which)).map(({ what, detail }) => ({ source: what.slice(5), edits: detail as SheetEdit[] }));

const lastSaid = async (which: Which = 'first'): Promise<unknown> => (await logged('announce', which)).at(-1)?.detail;

const rowTexts = (column: string): Promise<string[]> =>
  owner((it) => it.rows).then((rows) => rows.map((row) => row.cells[column]?.text ?? ''));

/** A cell by index, as a screen reader finds it: by its row and column number. */
function cell(row: number, column: number, which: Which = 'first'): Locator {
  return grid(which).locator(`[aria-rowindex="${row + 2}"] > [aria-colindex="${column + 1}"]`);
}

/** "row,column" of the cell that the grid names as active, `null` if it names none or one that is not there. */
function active(which: Which = 'first'): Promise<string | null> {
  return grid(which).evaluate((element) => {
    const id = element.getAttribute('aria-activedescendant');
    const found = id ? (element.getRootNode() as ShadowRoot).getElementById(id) : null;
    if (!found) return null;
    const number = (on: Element, name: string): number => Number(on.getAttribute(name));
    return `${number(found.parentElement!, 'aria-rowindex') - 2},${number(found, 'aria-colindex') - 1}`;
  });
}

/** The selected block as "top,left bottom,right", from what is marked as selected. */
function block(which: Which = 'first'): Promise<string> {
  return grid(which).evaluate((element) => {
    const places = [...element.querySelectorAll('[aria-selected="true"]')].map((found) => [
      Number(found.parentElement!.getAttribute('aria-rowindex')) - 2,
      Number(found.getAttribute('aria-colindex')) - 1,
    ]);
    if (places.length === 0) return '';
    const rows = places.map(([row]) => row!);
    const columns = places.map(([, column]) => column!);
    return `${Math.min(...rows)},${Math.min(...columns)} ${Math.max(...rows)},${Math.max(...columns)}`;
  });
}

const press = async (...keys: string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key);
};

/** Clicks a cell and waits for it to be the active one. */
async function click(row: number, column: number, which: Which = 'first'): Promise<void> {
  await cell(row, column, which).click();
  expect(await active(which)).toBe(`${row},${column}`);
}

const field = (): Locator => page.locator('#page >> .sheet-field');
const list = (): Locator => page.locator('#page >> role=listbox');
const menu = (): Locator => page.locator('#page >> role=menu');
const hint = (): Locator => page.locator('#page >> role=tooltip');

/** What has the focus, through all shadow roots: an id, a role, or a tag name. */
function focused(): Promise<string> {
  return page.evaluate(() => {
    let element = document.activeElement;
    while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    const label = element?.getAttribute('aria-label');
    return element?.id || [element?.getAttribute('role'), label].filter(Boolean).join(' ') || element?.tagName || '';
  });
}

const clipboard = (): Promise<string> => page.evaluate(() => navigator.clipboard.readText());
const putOnClipboard = (text: string): Promise<void> => page.evaluate((value) => navigator.clipboard.writeText(value), text);

const useRows = (count: number): Promise<void> =>
  page.evaluate((many) => {
    const { harness } = window as unknown as Harness;
    (document.querySelector('#page') as unknown as { first: OwnerView }).first.show(harness.manyRows(many));
  }, count);

describe('roles', () => {
  test('the grid pattern: names, counts, one tab stop', async () => {
    const found = await grid().evaluate((element) => ({
      rows: element.getAttribute('aria-rowcount'),
      columns: element.getAttribute('aria-colcount'),
      headings: [...element.querySelectorAll('[role="columnheader"]')].map((heading) => heading.textContent),
      groups: element.querySelectorAll('[role="rowgroup"]').length,
      firstRow: [...element.querySelectorAll('[aria-rowindex="2"] > *')].map((it) => it.getAttribute('role')),
      stops: element.parentElement!.parentElement!.parentElement!.querySelectorAll('[tabindex="0"]').length,
    }));
    expect(found).toEqual({
      rows: '7',
      columns: '8',
      headings: ['Work', 'Position', 'Book hours', 'Shared', 'Quantity', 'Unit price', 'Amount', 'Note'],
      groups: 2,
      firstRow: ['rowheader', ...Array<string>(7).fill('gridcell')],
      stops: 1,
    });
  });

  test('cells say whether they can be changed, whether they are wrong, and why', async () => {
    expect(await cell(0, 3).getAttribute('aria-readonly')).toBe('true');
    expect(await cell(0, 2).getAttribute('aria-readonly')).toBe(null);
    expect(await cell(0, 3).getAttribute('aria-description')).toBe('The coolant drain is carried by line 2.');
    expect(await cell(3, 4).getAttribute('aria-invalid')).toBe('true');
    expect(await cell(3, 4).getAttribute('aria-description')).toMatch(/^Not a number/);
  });

  test('what Chromium hands to a screen reader is a grid with named headings and cells', async () => {
    await click(1, 4);
    const session = await context.newCDPSession(page);
    const { nodes } = (await session.send('Accessibility.getFullAXTree')) as {
      nodes: { role?: { value: string }; name?: { value: string }; ignored: boolean }[];
    };
    const said = nodes.filter((node) => !node.ignored).map((node) => `${node.role?.value} ${node.name?.value}`);
    expect(said).toContain('grid Lines');
    expect(said).toContain('rowheader Hose seal');
    expect(said.filter((words) => words === 'columnheader Quantity')).toHaveLength(4);
    expect(said.filter((words) => words === 'gridcell 7.95')).toHaveLength(4);
  });
});

// Keys of the grid pattern: WAI-ARIA Authoring Practices, patterns/grid/grid-pattern.html, data grid.
describe('keys of a data grid (WAI-ARIA Authoring Practices, grid pattern)', () => {
  const table: [start: [number, number], key: string, end: string][] = [
    [[1, 1], 'ArrowRight', '1,2'],
    [[1, 7], 'ArrowRight', '1,7'],
    [[1, 1], 'ArrowLeft', '1,0'],
    [[1, 0], 'ArrowLeft', '1,0'],
    [[1, 1], 'ArrowDown', '2,1'],
    [[5, 1], 'ArrowDown', '5,1'],
    [[1, 1], 'ArrowUp', '0,1'],
    [[0, 1], 'ArrowUp', '0,1'],
    [[1, 3], 'Home', '1,0'],
    [[1, 3], 'End', '1,7'],
    [[3, 3], 'Control+Home', '0,0'],
    [[3, 3], 'Control+End', '5,7'],
    [[2, 3], 'Control+ArrowUp', '0,3'],
    [[2, 3], 'Control+ArrowDown', '5,3'],
    [[2, 3], 'Control+ArrowLeft', '2,0'],
    [[2, 3], 'Control+ArrowRight', '2,7'],
    [[1, 1], 'Tab', '1,2'],
    [[1, 7], 'Tab', '2,0'],
    [[2, 0], 'Shift+Tab', '1,7'],
    [[3, 3], 'PageDown', '5,3'],
    [[3, 3], 'PageUp', '0,3'],
    [[3, 3], 'Shift+Enter', '2,3'],
    [[0, 3], 'Shift+Enter', '0,3'],
  ];
  test.each(table)('from %j %s goes to %s', async ([row, column], key, end) => {
    await click(row, column);
    await press(key);
    expect(await active()).toBe(end);
    expect(await focused()).toBe('grid Lines');
  });

  const blocks: [start: [number, number], keys: string[], end: string][] = [
    [[1, 1], ['Shift+ArrowRight', 'Shift+ArrowDown'], '1,1 2,2'],
    [[1, 1], ['Shift+ArrowLeft', 'Shift+ArrowUp'], '0,0 1,1'],
    [[1, 1], ['Shift+ArrowRight', 'Shift+ArrowLeft', 'Shift+ArrowLeft'], '1,0 1,1'],
    [[1, 3], ['Shift+Home'], '1,0 1,3'],
    [[1, 3], ['Shift+End'], '1,3 1,7'],
    [[1, 3], ['Control+Shift+End'], '1,3 5,7'],
    [[2, 3], ['Shift+PageUp'], '0,3 2,3'],
    [[2, 3], ['Control+a'], '0,0 5,7'],
    [[2, 3], ['Shift+Space'], '2,0 2,7'],
    [[2, 3], ['Control+Space'], '0,3 5,3'],
  ];
  test.each(blocks)('from %j %j selects %s', async ([row, column], keys, end) => {
    await click(row, column);
    await press(...keys);
    expect(await block()).toBe(end);
    expect(await lastSaid()).toMatch(/^\d+ rows? by \d+ columns? selected\.$/);
  });

  test('PageDown and PageUp go by what is on the screen, and stay at the ends', async () => {
    await useRows(100);
    await click(0, 0);
    await press('PageDown');
    const first = Number((await active())!.split(',')[0]);
    expect(first).toBeGreaterThan(5);
    expect(first).toBeLessThan(13);
    await press(...Array<string>(20).fill('PageDown'));
    expect(await active()).toBe('99,0');
    await press(...Array<string>(20).fill('PageUp'));
    expect(await active()).toBe('0,0');
  });

  test('Enter, F2 and a letter edit; Escape restores', async () => {
    for (const key of ['Enter', 'F2', 'x']) {
      await owner((it) => it.sheet.focus('p1', 'price'));
      await press(key);
      expect(await field().inputValue()).toBe(key === 'x' ? 'x' : '7.95');
      await press('Escape');
      expect(await field().count()).toBe(0);
      expect(await focused()).toBe('grid Lines');
    }
    expect(await edits()).toEqual([]);
  });
});

describe('into the grid and out of it by keyboard', () => {
  test('Tab comes in at the first cell and Escape then Tab goes on past the grid', async () => {
    await page.locator('#button').focus();
    await press('Tab');
    expect(await focused()).toBe('grid Lines');
    expect(await active()).toBe('0,0');
    await press('Tab', 'Escape', 'Tab');
    expect(await focused()).toBe('inside');
    await press('Tab');
    expect(await focused()).toBe('grid Findings');
    await press('Escape', 'Shift+Tab');
    expect(await focused()).toBe('inside');
    await press('Shift+Tab');
    expect(await focused()).toBe('grid Lines');
    expect(await active()).toBe('0,1');
  });

  test('Tab leaves from the last cell, Shift+Tab from the first', async () => {
    await click(5, 7);
    await press('Tab');
    expect(await focused()).toBe('inside');
    await click(0, 0);
    await press('Shift+Tab');
    expect(await focused()).toBe('button');
  });

  test('after another key Escape is forgotten', async () => {
    await click(1, 1);
    await press('Escape', 'ArrowDown', 'Tab');
    expect(await active()).toBe('2,2');
  });

  test('keys the grid does not know reach the page', async () => {
    await page.evaluate(() => {
      const heard: string[] = [];
      Object.assign(window, { heard });
      document.addEventListener('keydown', (event) => heard.push(event.key));
    });
    await click(1, 1);
    await press('F7', 'Control+k', 'Escape', 'Escape', 'ArrowDown');
    const heard = await page.evaluate(() => (window as unknown as { heard: string[] }).heard);
    expect(heard).toEqual(['F7', 'Control', 'k', 'Escape']);
  });
});

describe('editing', () => {
  test('typing replaces, Enter enters and goes down', async () => {
    await click(1, 4);
    await page.keyboard.type('12');
    await press('Enter');
    expect(await edits()).toEqual([{ source: 'type', edits: [{ row: 'p1', column: 'qty', text: '12' }] }]);
    expect(await active()).toBe('2,4');
    expect(await cell(1, 4).textContent()).toBe('12');
  });

  test('Enter in the last row stays put', async () => {
    await click(5, 7);
    await press('F2', 'Enter');
    expect(await active()).toBe('5,7');
  });

  test('Shift+Enter goes up, Tab right, Shift+Tab left, arrows leave what was typed over', async () => {
    for (const [key, end] of [
      ['Shift+Enter', '0,5'],
      ['Tab', '1,6'],
      ['Shift+Tab', '1,4'],
      ['ArrowUp', '0,5'],
      ['ArrowDown', '2,5'],
      ['ArrowLeft', '1,4'],
      ['ArrowRight', '1,6'],
    ] as const) {
      await owner((it) => it.sheet.focus('p1', 'price'));
      await page.keyboard.type(key);
      await press(key);
      expect(await active(), key).toBe(end);
      expect((await rowTexts('price'))[1]).toBe(key);
    }
  });

  test('F2 goes on with the bare entry, and arrows move in it', async () => {
    await click(3, 5);
    await press('F2');
    expect(await field().inputValue()).toBe('1148');
    await press('ArrowLeft', 'ArrowLeft', '9', 'Enter');
    expect((await edits())[0]!.edits[0]!.text).toBe('11948');
  });

  test('a double click edits, a click into the open field keeps it open', async () => {
    await cell(1, 5).dblclick();
    expect(await field().inputValue()).toBe('7.95');
    await field().click();
    await page.keyboard.type('1');
    expect(await field().count()).toBe(1);
    await press('Enter');
    expect((await edits())[0]!.edits[0]!.text).toContain('1');
  });

  test('an entry that changes nothing is no edit', async () => {
    await click(1, 5);
    await press('F2', 'Enter');
    expect(await edits()).toEqual([]);
  });

  test('a cell that cannot be changed does not open, and says so', async () => {
    await click(0, 3);
    await page.keyboard.type('5');
    await cell(0, 3).dblclick();
    expect(await field().count()).toBe(0);
    expect(await lastSaid()).toBe('Heater hose, renew one, Shared cannot be changed here.');
    await press('Enter');
    expect(await active()).toBe('1,3');
  });

  test('the field is labelled with row and column', async () => {
    await click(1, 4);
    await press('F2');
    expect(await field().getAttribute('aria-label')).toBe('Hose seal, Quantity');
  });

  test('Control and Enter puts the entry into every selected cell', async () => {
    await click(0, 7);
    await press('Shift+ArrowDown');
    await page.keyboard.type('both');
    await press('Control+Enter');
    expect((await edits())[0]!.edits.map((edit) => edit.text)).toEqual(['both', 'both']);
  });

  test('Alt and Enter breaks the line, and the entry keeps it', async () => {
    await click(0, 7);
    await page.keyboard.type('one');
    await press('Alt+Enter');
    await page.keyboard.type('two');
    await press('Enter');
    expect((await edits())[0]!.edits[0]!.text).toBe('one\ntwo');
  });

  test('no more than 10,000 characters get in', async () => {
    await putOnClipboard('7'.repeat(10_001));
    await click(0, 7);
    await press('F2', 'Control+v');
    expect((await field().inputValue()).length).toBe(10_000);
    await press('Escape', 'Control+v');
    expect((await edits())[0]!.edits[0]!.text.length).toBe(10_000);
    expect(await lastSaid()).toContain('cut to 10000 characters');
  });

  test('an input method starts in a field of its own, and its Enter is not ours', async () => {
    await click(0, 7);
    const session = await context.newCDPSession(page);
    const key = { type: 'rawKeyDown', key: 'Process', code: 'KeyN', windowsVirtualKeyCode: 229 } as const;
    await session.send('Input.dispatchKeyEvent', key);
    await session.send('Input.imeSetComposition', { text: '日本', selectionStart: 2, selectionEnd: 2 });
    expect(await field().inputValue()).toBe('日本');
    await session.send('Input.dispatchKeyEvent', { ...key, code: 'Enter' });
    expect(await field().count()).toBe(1);
    await session.send('Input.insertText', { text: '日本' });
    await press('Enter');
    expect((await edits())[0]!.edits[0]!.text).toBe('日本');
    await session.detach();
  });

  for (const late of [false, true]) {
    test(`a typed spare row becomes a row of its own (owner answers ${late ? 'late' : 'at once'})`, async () => {
      if (late) await owner((it) => void (it.late = true));
      await click(5, 7);
      await press('Home');
      await page.keyboard.type('Own work');
      await press('Tab');
      // The person goes on in the row that was just made ...
      await expect.poll(() => owner((it) => it.rows.length)).toBe(7);
      expect(await active()).toBe('5,1');
      expect((await owner((it) => it.selection))!.row).toBe('n1');
      // ... and Enter at the end of it leads to the new spare row.
      await press('End', 'ArrowDown');
      await page.keyboard.type('more');
      await press('Enter');
      await expect.poll(() => owner((it) => it.rows.length)).toBe(8);
      expect(await active()).toBe('7,7');
    });
  }
});

describe('blocks', () => {
  test('Delete and Backspace clear a block in one edit, and pass over what cannot be changed', async () => {
    for (const key of ['Delete', 'Backspace']) {
      await owner((it) => it.sheet.focus('p1', 'qty'));
      await press('Shift+ArrowRight', 'Shift+ArrowRight', key);
      expect((await edits()).at(-1)).toEqual({
        source: 'clear',
        edits: [
          { row: 'p1', column: 'qty', text: '' },
          { row: 'p1', column: 'price', text: '' },
        ],
      });
      expect(await lastSaid()).toBe('Cleared 2 cells. 1 cell cannot be changed and was left as it is.');
      await press('Control+z');
    }
  });

  test('copy puts a block on the clipboard as spreadsheets do', async () => {
    await owner((it) => {
      it.show(
        it.rows.map((row) =>
          row.id === 'p1' ? { ...row, cells: { ...row.cells, note: { text: 'a 1/2" hose\tnew', editor: 'text' } } } : row,
        ),
      );
    });
    await click(1, 5);
    await press('Shift+End', 'Shift+ArrowDown', 'Control+c');
    expect(await lastSaid()).toBe('Copied 2 rows by 3 columns.');
    expect(await clipboard()).toBe('7.95\t15.90\t"a 1/2"" hose\tnew"\n\t\t');
  });

  test('cut copies and clears', async () => {
    await click(1, 4);
    await press('Shift+ArrowRight', 'Control+x');
    expect(await clipboard()).toBe('2\t7.95');
    expect((await edits())[0]).toMatchObject({ source: 'cut', edits: [{ text: '' }, { text: '' }] });
  });

  test('paste lays a block over the sheet in one edit', async () => {
    await putOnClipboard('3\t"8,10"\r\n4\t"two ""inch"""\r\n');
    await click(1, 4);
    await press('Control+v');
    expect(await edits()).toEqual([
      {
        source: 'paste',
        edits: [
          { row: 'p1', column: 'qty', text: '3' },
          { row: 'p1', column: 'price', text: '8,10' },
        ],
      },
    ]);
    // The row below is no part row: both its cells are fixed.
    expect(await lastSaid()).toBe('Pasted 2 cells. 2 cells cannot be changed and were left as they are.');
    expect(await block()).toBe('1,4 2,5');
  });

  test('what runs over the end becomes new rows, what runs over the side is left out', async () => {
    await putOnClipboard('a\tb\nc\td\ne\tf');
    await click(5, 7);
    await press('Control+v');
    expect((await edits())[0]!.edits).toEqual([
      { row: 'spare', column: 'note', text: 'a' },
      { row: null, extra: 0, column: 'note', text: 'c' },
      { row: null, extra: 1, column: 'note', text: 'e' },
    ]);
    expect(await lastSaid()).toBe('Pasted 3 cells. 1 column beyond the last column left out.');
    expect((await rowTexts('note')).slice(5)).toEqual(['a', 'c', 'e', '']);
    expect(await block()).toBe('5,7 7,7');
  });

  test('one copied cell fills a selected block', async () => {
    await putOnClipboard('same');
    await click(0, 7);
    await press('Shift+ArrowDown', 'Shift+ArrowDown', 'Control+v');
    expect((await rowTexts('note')).slice(0, 3)).toEqual(['same', 'same', 'same']);
    expect(await edits()).toHaveLength(1);
  });

  test('only plain text is read, and markup in it is text', async () => {
    await page.evaluate(async () => {
      const flavour = (type: string, text: string): Blob => new Blob([text], { type });
      await navigator.clipboard.write([
        new ClipboardItem({
          'text/plain': flavour('text/plain', '<img src=x onerror=alert(1)>'),
          'text/html': flavour('text/html', '<table><tr><td>other</td></tr></table>'),
        }),
      ]);
    });
    await click(0, 7);
    await press('Control+v');
    expect((await rowTexts('note'))[0]).toBe('<img src=x onerror=alert(1)>');
    expect(await cell(0, 7).evaluate((it) => [it.textContent, it.childElementCount])).toEqual(['<img src=x onerror=alert(1)>', 0]);
  });

  test("inside an open field the clipboard is the field's", async () => {
    await putOnClipboard('into the text');
    await click(0, 7);
    await press('F2', 'Control+v', 'Enter');
    expect(await edits()).toEqual([{ source: 'type', edits: [{ row: 'l1', column: 'note', text: 'into the text' }] }]);
  });

  test('the fill handle repeats the selected cells', async () => {
    await click(0, 7);
    await page.keyboard.type('once');
    await press('Enter', 'ArrowUp');
    const corner = page.locator('#page >> .box >> nth=0 >> .ht_master .wtBorder.current.corner');
    await corner.hover();
    await page.mouse.down();
    await cell(2, 7).hover();
    await cell(3, 7).hover();
    await page.mouse.up();
    expect((await edits()).at(-1)).toEqual({
      source: 'fill',
      edits: ['p1', 'l2', 'p2'].map((row) => ({ row, column: 'note', text: 'once' })),
    });
    expect(await block()).toBe('0,7 3,7');
  });

  test('Control+D fills down: a block from its first row, one cell from the cell above', async () => {
    await click(0, 2);
    await press('Shift+ArrowDown', 'Shift+ArrowDown', 'Control+d');
    expect((await edits()).at(-1)).toEqual({ source: 'fill', edits: [{ row: 'l2', column: 'book', text: '1.4' }] });
    await click(3, 5);
    await press('ArrowDown');
    await click(3, 7);
    await press('ArrowUp', 'ArrowDown', 'Control+d');
    expect((await edits()).at(-1)).toEqual({ source: 'fill', edits: [{ row: 'p2', column: 'note', text: '' }] });
  });

  test('undo and redo are handed on', async () => {
    await click(1, 4);
    await press('Delete', 'Control+z', 'Control+y', 'Control+z', 'Control+Shift+Z', 'Meta+z');
    expect((await owner((it) => it.log)).map((entry) => entry.what).filter((what) => /do$/.test(what))).toEqual([
      'undo',
      'redo',
      'undo',
      'redo',
      'undo',
    ]);
    expect((await rowTexts('qty'))[1]).toBe('2');
  });

  test('dragging selects a block, Shift and a click extends it, a heading selects its column', async () => {
    await cell(1, 4).hover();
    await page.mouse.down();
    await cell(3, 5).hover();
    await page.mouse.up();
    expect(await block()).toBe('1,4 3,5');
    await cell(4, 6).click({ modifiers: ['Shift'] });
    expect(await block()).toBe('1,4 4,6');
    await page.locator('#page >> .box >> nth=0 >> .ht_clone_top th >> nth=2').click();
    expect(await block()).toBe('0,2 5,2');
    expect(await focused()).toBe('grid Lines');
  });
});

describe('a press while the rows move', () => {
  /** From now on every entry in `which` brings a new row below the first of the first sheet. */
  const entriesBringARow = (which: Which, late: boolean): Promise<void> =>
    page.evaluate(
      ({ which, late }) => {
        const { first, ...others } = document.querySelector<HTMLElement & Record<Which, OwnerView>>('#page')!;
        const show: (rows: OwnerView['rows']) => void = first.show.bind(first);
        const more = (rows: OwnerView['rows']): void => show([rows[0]!, { ...rows[1]!, id: 'new' }, ...rows.slice(1)]);
        first.late = late;
        if (which === 'first') first.show = more;
        else others.second.show = () => more(first.rows);
      },
      { which, late },
    );

  for (const late of [false, true]) {
    test(`selects the row that was pressed, not the one that takes its place when the press ends an entry (owner answers ${late ? 'late' : 'at once'})`, async () => {
      await entriesBringARow('first', late);
      await click(0, 7);
      await page.keyboard.type('typed');
      await cell(2, 7).click();
      await expect.poll(() => rowTexts('note')).toHaveLength(7);
      expect((await edits())[0]!.edits).toEqual([{ row: 'l1', column: 'note', text: 'typed' }]);
      expect(await owner((it) => it.selection?.row)).toBe('l2');
      await expect.poll(() => active()).toBe('3,7');
      await page.keyboard.type('here');
      await press('Enter');
      expect((await edits())[1]!.edits).toEqual([{ row: 'l2', column: 'note', text: 'here' }]);
    });
  }

  test('nor when the entry was made in another sheet', async () => {
    await entriesBringARow('second', true);
    await click(0, 7, 'second');
    await page.keyboard.type('typed');
    await cell(2, 7).click();
    await expect.poll(() => rowTexts('note')).toHaveLength(7);
    expect(await owner((it) => it.selection?.row)).toBe('l2');
    await expect.poll(() => active()).toBe('3,7');
    expect(await edits('second')).toHaveLength(1);
  });

  test('makes no block when the cells move away under the mouse, and dragging still does', async () => {
    const box = (await cell(3, 7).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const setHeight = (pixels: string): Promise<void> =>
      page.evaluate((height) => void (document.querySelector('h1')!.style.paddingBlockEnd = height), pixels);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await setHeight('60px');
    // A hand is never quite still.
    await page.mouse.move(x + 1, y + 1);
    await page.mouse.up();
    expect(await block()).toBe('3,7 3,7');
    expect(await logged('announce')).toEqual([]);

    await setHeight('0');
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y + box.height);
    await page.mouse.up();
    expect(await block()).toBe('3,7 4,7');
  });
});

describe('type-ahead', () => {
  test('finds by plain words, and Enter takes the highlighted choice', async () => {
    await click(5, 0);
    await page.keyboard.type('hose seep');
    expect(await field().getAttribute('role')).toBe('combobox');
    expect(await list().locator('[role=option]').allTextContents()).toEqual(['Heater hose, renew one seeps at the joint']);
    expect(await field().getAttribute('aria-activedescendant')).toMatch(/-0$/);
    await press('Enter');
    expect((await edits())[0]!.edits[0]!.text).toBe('Heater hose, renew one');
    expect(await list().count()).toBe(0);
  });

  test("arrows move in the list, and past its end back to one's own words", async () => {
    await click(5, 0);
    await page.keyboard.type('renew');
    const marked = (): Promise<string[]> => list().locator('[aria-selected=true] > :first-child').allTextContents();
    expect(await marked()).toEqual(['Heater hose, renew one']);
    await press('ArrowDown');
    expect(await marked()).toEqual(['Heater hoses, renew the set']);
    await press('ArrowUp', 'ArrowUp');
    expect(await marked()).toEqual([]);
    await press('Tab');
    expect((await edits())[0]!.edits[0]!.text).toBe('renew');
  });

  test("words of one's own stay, even while something similar is listed", async () => {
    await click(5, 0);
    await page.keyboard.type('Rewire the relay');
    await press('Enter');
    expect((await edits())[0]!.edits[0]!.text).toBe('Rewire the relay');
  });

  test('F2, a double click and Alt+Down list everything', async () => {
    for (const open of [() => press('F2'), () => press('Alt+ArrowDown'), () => press('Enter'), () => cell(2, 0).dblclick()]) {
      await owner((it) => it.sheet.focus('l2', 'work'));
      await open();
      expect(await list().locator('[role=option]').count()).toBe(5);
      expect(await list().locator('[aria-selected=true]').textContent()).toContain('Water pump');
      await press('Escape');
      expect(await list().count()).toBe(0);
      expect(await field().count()).toBe(1);
      await press('Escape');
      expect(await field().count()).toBe(0);
    }
    expect(await edits()).toEqual([]);
  });

  test('a click picks', async () => {
    await click(5, 0);
    await page.keyboard.type('renew');
    await list().getByText('Radiator, renew').click();
    expect((await edits())[0]!.edits[0]!.text).toBe('Radiator, renew');
    expect(await field().count()).toBe(0);
    expect(await focused()).toBe('grid Lines');
  });
});

describe('row menu', () => {
  test('opens by right click, Shift+F10 and the menu key; arrows, Escape and Enter work', async () => {
    await cell(2, 1).click({ button: 'right' });
    expect(await menu().getAttribute('aria-label')).toBe('Water pump, renew');
    expect(await focused()).toBe('menuitem');
    await press('Escape');
    expect(await menu().count()).toBe(0);
    expect(await focused()).toBe('grid Lines');
    for (const key of ['Shift+F10', 'ContextMenu']) {
      await press(key);
      expect(await menu().count(), key).toBe(1);
      await press('ArrowDown', 'ArrowUp', 'ArrowUp', 'Enter');
      // The last entry is disabled: nothing is done, and the menu stays.
      expect(await menu().count()).toBe(1);
      await press('Escape');
    }
    await press('Shift+F10', 'r', 'Enter');
    const [act] = await logged('act:');
    expect(act!.what).toBe('act:remove');
    expect(act!.detail).toMatchObject({ row: 'l2', column: 'position', rows: ['l2'] });
    expect(await focused()).toBe('grid Lines');
  });

  test('opens by the button of the active row', async () => {
    await click(2, 5);
    const button = page.locator('#page >> .sheet-row-button');
    const [at, row] = [(await button.boundingBox())!, (await cell(2, 0).boundingBox())!];
    expect(at.width * at.height).toBeGreaterThanOrEqual(24 * 24);
    expect(Math.abs(at.y - row.y)).toBeLessThan(4);
    await button.click();
    expect(await menu().getAttribute('aria-label')).toBe('Water pump, renew');
    await press('Escape');
    expect(await active()).toBe('2,5');
  });

  test('a right click inside the selected block keeps the block', async () => {
    await click(1, 4);
    await press('Shift+ArrowDown', 'Shift+ArrowDown');
    await cell(2, 4).click({ button: 'right' });
    await menu().getByText('Remove the row').click();
    expect((await logged('act:'))[0]!.detail).toMatchObject({ rows: ['p1', 'l2', 'p2'] });
    expect(await owner((it) => it.rows.map((row) => row.id))).toEqual(['l1', 'l3', 'spare']);
  });

  test('stays inside the viewport, and a press elsewhere closes it', async () => {
    await page.setViewportSize({ width: 500, height: 320 });
    await cell(0, 2).click({ button: 'right' });
    await page.keyboard.press('Escape');
    await owner((it) => it.sheet.focus('spare', 'note'));
    await press('Shift+F10');
    const box = (await menu().boundingBox())!;
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(500);
    expect(box.y + box.height).toBeLessThanOrEqual(320);
    await page.mouse.click(2, 2);
    expect(await menu().count()).toBe(0);
  });
});

describe('hints', () => {
  test('come up on hover and under the keyboard, and Escape puts them away', async () => {
    await cell(3, 4).hover();
    await hint().waitFor();
    expect(await hint().textContent()).toMatch(/^Not a number/);
    await page.mouse.move(5, 5);
    expect(await hint().count()).toBe(0);
    await click(0, 2);
    await page.mouse.move(5, 5);
    await press('ArrowRight');
    expect(await hint().textContent()).toBe('The coolant drain is carried by line 2.');
    await press('Escape');
    expect(await hint().count()).toBe(0);
    // That Escape was the hint's: Tab still goes on to the next cell.
    await press('Tab');
    expect(await active()).toBe('0,4');
  });

  test('a cell that is too narrow shows its whole text', async () => {
    await owner((it) => {
      it.show(
        it.rows.map((row) =>
          row.id === 'p1' ? { ...row, cells: { ...row.cells, note: { text: 'long '.repeat(40), editor: 'text' } } } : row,
        ),
      );
    });
    await click(1, 7);
    await expect.poll(() => hint().textContent()).toContain('long long');
  });
});

describe('axe finds nothing', () => {
  /** Runs axe on the part of the page that we build. */
  async function findings(): Promise<string[]> {
    return page.evaluate(async () => {
      const { axe } = window as unknown as { axe: { run(on: unknown): Promise<AxeResult> } };
      interface AxeResult {
        violations: { id: string; nodes: { html: string; failureSummary: string }[] }[];
      }
      const { violations } = await axe.run({ include: [['#page'], ['#outer']] });
      return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html} ${node.failureSummary}`));
    });
  }

  beforeEach(async () => {
    // Through the protocol: the page's own policy would refuse a script that is written into it.
    await page.evaluate(axeSource);
  });

  const states: [name: string, reach: () => Promise<void>][] = [
    ['idle', async () => {}],
    ['with a cell selected and its hint shown', () => click(3, 4)],
    ['with a block selected', () => click(1, 1).then(() => press('Control+a'))],
    ['while editing', () => click(1, 5).then(() => press('F2'))],
    ['with the list open', () => click(2, 0).then(() => press('F2', 'ArrowDown'))],
    ['with the menu open', () => click(2, 0).then(() => press('Shift+F10'))],
    [
      'with many rows, scrolled',
      () =>
        useRows(500)
          .then(() => click(0, 0))
          .then(() => press('PageDown', 'PageDown')),
    ],
  ];
  for (const colorScheme of ['light', 'dark'] as const) {
    test.each(states)(`%s, ${colorScheme}`, async (_name, reach) => {
      await page.emulateMedia({ colorScheme });
      await reach();
      expect(await findings()).toEqual([]);
      await page.emulateMedia({ colorScheme: null });
    });
  }
});

describe('keys typed elsewhere stay elsewhere', () => {
  const places: [string, () => Locator][] = [
    ['the same shadow root', () => page.locator('#page >> #inside')],
    ['the page', () => page.locator('#before')],
    ['another shadow root', () => page.locator('#outer >> #inside')],
  ];
  for (const [where, find] of places) {
    for (const how of ['script', 'mouse'] as const) {
      test(`a field in ${where}, focused by ${how}`, async () => {
        await click(1, 4);
        if (how === 'script') await find().evaluate((element) => (element as HTMLElement).focus());
        else await find().click();
        await page.keyboard.type('ab1');
        await press('Backspace', 'ArrowLeft', 'Delete', 'Enter', 'Control+a', 'Escape');
        await page.keyboard.type('word');
        expect(await find().inputValue()).toBe('word');
        await press('Control+z');
        expect(await edits()).toEqual([]);
        expect(await logged('undo')).toEqual([]);
        expect(await field().count()).toBe(0);
        expect(await block()).toBe('1,4 1,4');
      });
    }
  }

  test('of two sheets only the one with the keyboard reacts, and the other lets go', async () => {
    await click(1, 4);
    await click(0, 7, 'second');
    expect(await block('first')).toBe('');
    expect(await owner((it) => it.selection)).toBe(null);
    await page.keyboard.type('here');
    await press('Enter', 'Control+z');
    expect(await edits('first')).toEqual([]);
    expect(await edits('second')).toHaveLength(1);
    expect(await logged('undo', 'first')).toEqual([]);
    // Tab comes back to where the first sheet was left.
    await press('Escape', 'Shift+Tab', 'Shift+Tab');
    expect(await active('first')).toBe('1,4');
  });
});

describe('a press elsewhere ends the editing and keeps what was typed', () => {
  const places: [string, () => Promise<void>][] = [
    ['on text of the page', () => page.locator('#blank').click()],
    ['on a field of the page', () => page.locator('#before').click()],
    [
      'on a button that prevents the loss of focus',
      async () => {
        await page.locator('#button').evaluate((button) => button.addEventListener('mousedown', (it) => it.preventDefault()));
        await page.locator('#button').click();
      },
    ],
    ['on another cell', () => cell(3, 5).click()],
    ['in the other sheet', () => cell(3, 5, 'second').click()],
    ['on a heading', () => page.locator('#page >> .box >> nth=0 >> .ht_clone_top th >> nth=1').click()],
    ['by script', () => page.locator('#before').evaluate((element) => (element as HTMLElement).focus())],
  ];
  test.each(places)('%s', async (_where, go) => {
    await click(1, 4);
    await page.keyboard.type('34');
    await go();
    await expect.poll(() => field().count()).toBe(0);
    expect(await edits()).toEqual([{ source: 'type', edits: [{ row: 'p1', column: 'qty', text: '34' }] }]);
  });

  test("the selection stays for the page's own buttons", async () => {
    await click(1, 4);
    await page.locator('#button').click();
    expect((await owner((it) => it.selection))!.row).toBe('p1');
    expect(await block()).toBe('1,4 1,4');
  });
});

describe('new rows', () => {
  const insertFirst = (): Promise<void> => owner((it) => it.show([{ ...it.rows[0]!, id: 'new', label: 'New' }, ...it.rows]));

  test('leave an open editor alone', async () => {
    await click(1, 5);
    await page.keyboard.type('12');
    await insertFirst();
    await page.keyboard.type('34');
    expect(await field().inputValue()).toBe('1234');
    const over = async (): Promise<number[]> => {
      const [a, b] = await Promise.all([field().boundingBox(), cell(2, 5).boundingBox()]);
      return [Math.abs(a!.y - b!.y), Math.abs(a!.x - b!.x)];
    };
    expect(Math.max(...(await over()))).toBeLessThan(3);
    await press('Enter');
    expect((await edits())[0]!.edits).toEqual([{ row: 'p1', column: 'price', text: '1234' }]);
  });

  test('that take away the row of an open editor say what was typed', async () => {
    await click(1, 5);
    await page.keyboard.type('12');
    await owner((it) => it.show(it.rows.filter((row) => row.id !== 'p1')));
    expect(await field().count()).toBe(0);
    expect(await lastSaid()).toContain('What was typed: 12');
    expect(await focused()).toBe('grid Lines');
  });

  test('keep the selection on its rows', async () => {
    await click(1, 4);
    await press('Shift+ArrowDown', 'Shift+ArrowRight');
    await insertFirst();
    expect(await block()).toBe('2,4 3,5');
    expect((await owner((it) => it.selection))!.rows).toEqual(['p1', 'l2']);
    await owner((it) => it.show(it.rows.slice(0, 2)));
    expect(await block()).toBe('1,4 1,5');
    await owner((it) => it.show([]));
    expect(await block()).toBe('');
    expect(await owner((it) => it.selection)).toBe(null);
  });

  test('keep the scroll position, and an editor that is scrolled away comes back with its text', async () => {
    await useRows(500);
    await click(2, 7);
    await press('PageDown', 'PageDown', 'x');
    const scroll = (): Promise<number> => grid().evaluate((element) => element.scrollTop);
    const before = await scroll();
    expect(before).toBeGreaterThan(100);
    await owner((it) => it.show(it.rows.map((row) => ({ ...row, label: `${row.label}!` }))));
    await owner((it) => it.show([...it.rows, { ...it.rows[0]!, id: 'one more' }]));
    expect(await scroll()).toBe(before);
    await grid().evaluate((element) => void (element.scrollTop = 9000));
    await expect.poll(() => field().evaluate((element) => element.classList.contains('sheet-field-away'))).toBe(true);
    await page.keyboard.type('y');
    await grid().evaluate((element, top) => void (element.scrollTop = top), before);
    await expect.poll(() => field().evaluate((element) => element.classList.contains('sheet-field-away'))).toBe(false);
    expect(await field().inputValue()).toBe('xy');
  });

  test('columns may change too', async () => {
    await click(1, 4);
    await page.evaluate(() => {
      const { first } = document.querySelector('#page') as unknown as {
        first: { rows: unknown; columns: unknown[]; sheet: { update(rows: unknown, columns: unknown): void } };
      };
      first.columns = first.columns.slice(2);
      first.sheet.update(first.rows, first.columns);
    });
    expect(await grid().getAttribute('aria-colcount')).toBe('6');
    expect(await block()).toBe('1,2 1,2');
    expect(await cell(1, 2).textContent()).toBe('2');
    await press('ArrowRight');
    expect((await owner((it) => it.selection))!.column).toBe('price');
  });
});

describe('many rows', () => {
  test('only those on the screen are in the document, and scrolling shows the others', async () => {
    await useRows(2000);
    const inDocument = (): Promise<number> => grid().locator('tbody tr').count();
    expect(await inDocument()).toBeLessThan(60);
    expect(await grid().getAttribute('aria-rowcount')).toBe('2001');
    await owner((it) => it.sheet.focus('r1500', 'note'));
    expect(await active()).toBe('1500,7');
    expect(await cell(1500, 7).textContent()).toBe('note 1500');
    expect(await inDocument()).toBeLessThan(60);
    await press('Control+End');
    expect(await active()).toBe('1999,7');
    await grid().evaluate((element) => void (element.scrollTop = 0));
    await expect.poll(() => cell(0, 0).count()).toBe(1);
    expect(await active()).toBe(null);
  });

  test('an update touches only the cells that differ', async () => {
    await useRows(2000);
    const touched = await page.evaluate(async () => {
      const element = document.querySelector('#page') as unknown as { first: OwnerView; shadowRoot: ShadowRoot };
      const body = element.shadowRoot.querySelector('[role="grid"] tbody')!;
      const cells = new Set<string>();
      const observer = new MutationObserver((records) => {
        for (const { target } of records)
          cells.add(((target.parentElement ?? target) as HTMLElement).closest('td, tr')!.id || target.nodeName);
      });
      observer.observe(body, { subtree: true, childList: true, characterData: true, attributes: true });
      const { first } = element;
      first.show(
        first.rows.map((row, index) =>
          index === 1 || index === 1500 ? { ...row, cells: { ...row.cells, book: { text: '9.9', editor: 'text' } } } : { ...row },
        ),
      );
      await new Promise((resolve) => setTimeout(resolve, 50));
      observer.disconnect();
      return [...cells].length;
    });
    expect(touched).toBe(1);
    expect(await cell(1, 2).textContent()).toBe('9.9');
  });
});

describe('in the page', () => {
  test("a host's resets do not change the rows: 24 pixels or more, and not two lines high", async () => {
    const heights = await grid().evaluate((element) =>
      [...element.querySelectorAll('tbody tr')].map((row) => row.getBoundingClientRect().height),
    );
    expect(new Set(heights).size).toBe(1);
    expect(heights[0]).toBeGreaterThanOrEqual(24);
    expect(heights[0]).toBeLessThanOrEqual(34);
  });

  test('made while hidden and shown later, hidden and shown again', async () => {
    await page.evaluate(() => {
      const element = document.querySelector('#page') as unknown as { first: OwnerView } & HTMLElement;
      element.first.sheet.destroy();
      element.style.display = 'none';
      element.first.sheet = element.first.create();
      element.first.sheet.focus('p1', 'qty');
      element.first.show(element.first.rows.slice(0, 4));
      element.style.display = '';
    });
    await expect.poll(() => cell(3, 0).textContent()).toBe('Pump and gasket');
    expect(await active()).toBe('1,4');
    const display = (value: string): Promise<void> =>
      page.evaluate((it) => void (document.querySelector<HTMLElement>('#page')!.style.display = it), value);
    await display('none');
    await owner((it) => it.show(it.rows.slice(0, 3)));
    await owner((it) => it.sheet.focus('l2', 'note'));
    await display('');
    expect(await active()).toBe('2,7');
    await expect.poll(() => grid().locator('tbody tr').count()).toBe(3);
    await click(2, 2);
  });

  test('hidden, given other rows and shown again within one frame, of which no observer of sizes hears', async () => {
    const before = await grid().locator('tbody tr').count();
    await page.evaluate(() => {
      const element = document.querySelector('#page') as unknown as { first: OwnerView } & HTMLElement;
      element.style.display = 'none';
      element.first.show(element.first.rows.slice(0, 2));
      element.style.display = '';
    });
    expect(before).toBeGreaterThan(2);
    await expect.poll(() => grid().locator('tbody tr').count()).toBe(2);
  });

  test('a narrower page scrolls the sheet inside itself, a wider one gives the room to the words', async () => {
    const widths = (): Promise<[number, number, number]> =>
      grid().evaluate((element) => [element.clientWidth, element.scrollWidth, element.querySelector('th')!.getBoundingClientRect().width]);
    const [, , before] = await widths();
    await page.setViewportSize({ width: 1500, height: 900 });
    await expect.poll(async () => (await widths())[2]).toBe(before + 400);
    await page.setViewportSize({ width: 500, height: 900 });
    await expect.poll(async () => (await widths())[0]).toBeLessThan(500);
    expect((await widths())[1]).toBeGreaterThan(900);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(500);
    await owner((it) => it.sheet.focus('p1', 'note'));
    const box = (await cell(1, 7).boundingBox())!;
    expect(box.x + box.width).toBeLessThanOrEqual(500);
    const heading = (await page.locator('#page >> .box >> nth=0 >> .ht_clone_top th:has-text("Note")').boundingBox())!;
    expect(Math.abs(heading.x - box.x)).toBeLessThan(2);
  });

  test('a column is dragged wider by its grip, and selects nothing by it', async () => {
    const heading = page.locator('#page >> .box >> nth=0 >> .ht_clone_top th >> nth=1');
    const box = (await heading.boundingBox())!;
    await page.mouse.move(box.x + box.width - 4, box.y + 8);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width + 56, box.y + 8, { steps: 4 });
    await page.mouse.up();
    const wider = box.width + 60;
    expect(await owner((it) => it.sheet.widths())).toEqual({ position: wider });
    expect((await heading.boundingBox())!.width).toBe(wider);
    expect((await cell(0, 1).boundingBox())!.width).toBe(wider);
    expect(await block()).toBe('');
  });

  test('moving on by keyboard scrolls the page to the cell', async () => {
    await page.setViewportSize({ width: 1100, height: 300 });
    await owner((it) => it.sheet.focus('l1', 'work'));
    await press('Control+End');
    const box = (await cell(5, 7).boundingBox())!;
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.y + box.height).toBeLessThanOrEqual(300);
  });

  test.each([1, 2])('the wheel over a sheet that is all shown scrolls the page (%s device pixels)', async (pixels) => {
    const screen = await browser.newContext({ deviceScaleFactor: pixels, viewport: { width: 1100, height: 300 } });
    const other = await screen.newPage();
    await other.goto(`${server.url}/`);
    await other.locator('#page >> role=grid[name="Lines"] >> [aria-rowindex="2"] > [aria-colindex="3"]').hover();
    await other.mouse.wheel(0, 120);
    await expect.poll(() => other.evaluate(() => scrollY)).toBe(120);
    await screen.close();
  });

  test('touch: a tap selects, two taps edit', async () => {
    const touch = await browser.newContext({ hasTouch: true, viewport: { width: 1100, height: 900 } });
    const tablet = await touch.newPage();
    await tablet.goto(`${server.url}/`);
    const at = tablet.locator('#page >> role=grid[name="Lines"] >> [aria-rowindex="3"] > [aria-colindex="6"]');
    await at.tap();
    await expect.poll(() => at.getAttribute('aria-selected')).toBe('true');
    expect(await tablet.locator('#page >> .sheet-field').count()).toBe(0);
    await at.dblclick();
    expect(await tablet.locator('#page >> .sheet-field').inputValue()).toBe('7.95');
    await touch.close();
  });

  test('moved in the document and put into another shadow root, the sheet goes on', async () => {
    await page.evaluate(() => {
      const element = document.querySelector('#page') as unknown as { first: OwnerView } & HTMLElement;
      document.body.append(element);
      element.first.sheet.focus('p1', 'qty');
    });
    await page.keyboard.type('5');
    await press('Enter');
    expect((await rowTexts('qty'))[1]).toBe('5');
    expect(await active()).toBe('2,4');
  });

  test('two shadow roots deep: mouse, keys, editor, list, menu and clipboard', async () => {
    const deep = page.locator('#outer >> role=grid[name="Lines"]');
    const at = (row: number, column: number): Locator => deep.locator(`[aria-rowindex="${row + 2}"] > [aria-colindex="${column + 1}"]`);
    await at(1, 4).click();
    await page.keyboard.type('8');
    await press('Enter', 'ArrowUp', 'Control+c');
    expect(await at(1, 4).textContent()).toBe('8');
    expect(await clipboard()).toBe('8');
    await at(1, 5).dblclick();
    await page.locator('#outer >> .sheet-field').click();
    await page.keyboard.type('0');
    await press('Enter');
    expect(await at(1, 5).textContent()).toContain('0');
    await at(5, 0).click();
    await page.keyboard.type('radiator');
    await page.locator('#outer >> role=option').first().click();
    expect(await at(5, 0).textContent()).toBe('Radiator, renew');
    await at(5, 0).click({ button: 'right' });
    await page.locator('#outer >> role=menuitem').nth(1).click();
    expect(await deep.getAttribute('aria-rowcount')).toBe('7');
  });

  test('with forced colours the selection can be seen', async () => {
    await page.emulateMedia({ forcedColors: 'active' });
    await click(1, 4);
    const colours = await page
      .locator('#page >> .box >> nth=0 >> .ht_master .wtBorder.current >> nth=0')
      .evaluate((line) => [getComputedStyle(line).backgroundColor, getComputedStyle(line.closest('.sheet-frame')!).backgroundColor]);
    expect(colours[0]).not.toBe(colours[1]);
    await page.emulateMedia({ forcedColors: null });
  });
});

test('a destroyed sheet takes no more calls and hears no more events', async () => {
  await useRows(100);
  await click(2, 7);
  await owner((it) => {
    const shadow = (document.querySelector('#page') as HTMLElement).shadowRoot!;
    shadow.activeElement!.scrollTop = 700;
    it.sheet.destroy();
    it.sheet.destroy();
    it.show(it.rows.slice(0, 5));
    it.sheet.focus('r1');
    return new Promise((resolve) => setTimeout(resolve, 100));
  });
  expect(await grid().count()).toBe(0);
  expect(await page.locator('#page >> .box >> nth=0').evaluate((box) => box.childNodes.length)).toBe(0);
});

test('50 sheets made, used and destroyed leave no nodes, listeners or timers', async () => {
  const session = await context.newCDPSession(page);
  await session.send('Performance.enable');
  const counts = async (): Promise<{ nodes: number; listeners: number; onDocument: number }> => {
    await page.evaluate(async () => {
      for (let round = 0; round < 3; round += 1) {
        await new Promise((resolve) => setTimeout(resolve, 700));
        (globalThis as unknown as { gc(): void }).gc();
      }
    });
    const { metrics } = await session.send('Performance.getMetrics');
    const metric = (name: string): number => metrics.find((it) => it.name === name)!.value;
    let onDocument = 0;
    for (const expression of ['window', 'document', 'document.documentElement', 'document.body']) {
      const { result } = await session.send('Runtime.evaluate', { expression });
      const { listeners } = await session.send('DOMDebugger.getEventListeners', { objectId: result.objectId! });
      onDocument += listeners.length;
      await session.send('Runtime.releaseObject', { objectId: result.objectId! });
    }
    return { nodes: metric('Nodes'), listeners: metric('JSEventListeners'), onDocument };
  };
  const cycle = (times: number): Promise<void> =>
    page.evaluate(async (count) => {
      const { first } = document.querySelector('#page') as unknown as { first: OwnerView };
      for (let round = 0; round < count; round += 1) {
        // A hint, then the list or the menu, is open when the sheet goes.
        first.sheet.focus('l1', round % 3 ? 'work' : 'shared');
        const holder = (document.querySelector('#page') as HTMLElement).shadowRoot!.activeElement!;
        if (round % 3) holder.dispatchEvent(new KeyboardEvent('keydown', { key: round % 2 ? 'F2' : 'ContextMenu', bubbles: true }));
        first.sheet.destroy();
        await new Promise((resolve) => setTimeout(resolve));
        first.sheet = first.create();
      }
      first.log.length = 0;
    }, times);
  await cycle(5);
  const before = await counts();
  await cycle(50);
  const after = await counts();
  expect(after.onDocument).toBe(before.onDocument);
  expect(after.listeners).toBeLessThanOrEqual(before.listeners);
  expect(after.nodes).toBeLessThanOrEqual(before.nodes);
  expect(await page.locator('#page >> .sheet-popup').count()).toBe(0);
});

// Pure rules, without the browser. How spreadsheets quote a clipboard block: common practice, no source.
describe('the rules behind the gestures', () => {
  test('clipboard text and cells, both ways', () => {
    const blocks: [text: string, cells: string[][]][] = [
      ['', [['']]],
      ['a', [['a']]],
      [
        'a\tb\nc\td',
        [
          ['a', 'b'],
          ['c', 'd'],
        ],
      ],
      [
        '\t\n\t',
        [
          ['', ''],
          ['', ''],
        ],
      ],
      ['"two\nlines"\t"a ""word"""', [['two\nlines', 'a "word"']]],
      ['"a\tb"', [['a\tb']]],
    ];
    for (const [text, cells] of blocks) {
      expect(parseTsv(text)).toEqual(cells);
      expect(printTsv(cells)).toBe(text);
    }
    expect(parseTsv('a\r\nb\rc\n')).toEqual([['a'], ['b'], ['c']]);
    expect(parseTsv('"quoted" words\t1/2"')).toEqual([['"quoted" words', '1/2"']]);
    expect(parseTsv('"never closed\tb')).toEqual([['"never closed', 'b']]);
  });

  const model = new SheetModel();
  const row = (id: string, level: 'main' | 'spare', values: string[]) => ({
    id,
    label: id,
    level,
    cells: Object.fromEntries(values.map((text, index) => [`c${index}`, { text, editor: 'text' as const }])),
  });
  model.set(
    [row('a', 'main', ['1', '2', '3']), row('b', 'main', ['4', '5', '6']), row('s', 'spare', ['', '', ''])],
    ['c0', 'c1', 'c2', 'fixed'].map((id) => ({ id, title: id, width: 50 })),
  );
  const at = (top: number, left: number, bottom = top, right = left) => ({ top, left, bottom, right });

  test('a block that fits a whole number of times is repeated, any other is laid down once', () => {
    expect(pasteEdits(model, at(0, 0, 1, 1), [['x', 'y']]).edits.map((edit) => edit.text)).toEqual(['x', 'y', 'x', 'y']);
    expect(pasteEdits(model, at(0, 0, 2, 1), [['x'], ['y']]).area).toEqual(at(0, 0, 1, 0));
    expect(pasteEdits(model, at(2, 3), [['x'], ['y']])).toMatchObject({ edits: [], skipped: 2 });
  });

  test('a paste has bounds, and says what it left out', () => {
    const long = pasteEdits(
      model,
      at(2, 0),
      Array.from({ length: mostPastedRows + 3 }, () => ['z']),
    );
    expect([long.edits.length, long.droppedRows]).toEqual([mostPastedRows, 3]);
    const wide = pasteEdits(model, at(0, 2), [['x', 'y', 'z'.repeat(longestCell + 1)]]);
    expect(wide).toMatchObject({ skipped: 1, droppedColumns: 1, cut: 0 });
    expect(pasteEdits(model, at(0, 0), [['z'.repeat(longestCell + 1)]]).cut).toBe(1);
  });

  test('a fill repeats its source in every direction', () => {
    const texts = (source: ReturnType<typeof at>, target: ReturnType<typeof at>): string[] =>
      fillEdits(model, source, target).edits.map((edit) => edit.text);
    expect(texts(at(0, 0, 1, 0), at(2, 0))).toEqual(['1']);
    expect(texts(at(1, 0, 1, 1), at(0, 0, 0, 1))).toEqual(['4', '5']);
    expect(texts(at(0, 0, 0, 1), at(0, 2))).toEqual(['1']);
    expect(texts(at(0, 2), at(0, 0, 0, 1))).toEqual(['3', '3']);
  });

  test('left-over room goes to the widest column of words that was not dragged', () => {
    const columns = [
      { id: 'a', title: 'a', width: 100 },
      { id: 'b', title: 'b', width: 50 },
      { id: 'n', title: 'n', width: 150, align: 'end' as const },
    ];
    expect(fitColumns(columns, new Map(), 400, 14)).toEqual([200, 50, 150]);
    expect(fitColumns(columns, new Map([['a', 60]]), 400, 14)).toEqual([60, 190, 150]);
    expect(fitColumns(columns, new Map(), 200, 14)).toEqual([100, 50, 150]);
    expect(fitColumns(columns, new Map(), 0, 28)).toEqual([200, 100, 300]);
  });
});
