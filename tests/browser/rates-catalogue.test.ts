/** The catalogue desk on a page of its own: renaming, removing what is in use, tables in and out, undo. */
import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Locator, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { absentModules } from '../../components/grid/absent/alias.js';
import { CATALOGUE_COLUMNS, LIST_TITLES } from '../../components/rates/catalogue-lists.js';
import { parseCatalogue } from '../../src/documents/catalogue.js';
import type { CatalogueList } from '../../src/store/catalogue-draft.js';
import { launchChromium } from './support/chromium.js';
import { serveFolder, type StaticServer } from './support/serve.js';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let folder: string;
let server: StaticServer;
let browser: Browser;
let page: Page;
/** Everything that the browser complained about: scripts that failed, and the strict policy's reports. */
let complaints: string[];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'catalogue-'));
  await build({
    configFile: false,
    root: fileURLToPath(new URL('./rates-catalogue-page/', import.meta.url)),
    base: './',
    logLevel: 'error',
    resolve: { alias: absentModules },
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', modulePreload: { polyfill: false } },
  });
  server = await serveFolder(folder);
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  await rm(folder, { recursive: true, force: true });
});

beforeEach(async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 1000 }, permissions: ['clipboard-read', 'clipboard-write'] });
  page = await context.newPage();
  complaints = [];
  page.on('pageerror', (error) => complaints.push(error.stack ?? error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' && !message.location().url.endsWith('favicon.ico')) complaints.push(message.text());
  });
  await page.goto(`${server.url}/`);
  await page.waitForSelector('html[data-ready]');
});

afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

// Finding and doing

const tab = (list: CatalogueList): Locator => page.getByRole('tab', { name: new RegExp(`^${LIST_TITLES[list].title} \\d+`) });
const grid = (list: CatalogueList): Locator => page.getByRole('grid', { name: LIST_TITLES[list].title, exact: true });
const button = (name: string | RegExp): Locator => page.getByRole('button', { name, exact: typeof name === 'string' });
const dialog = (name: string | RegExp): Locator => page.getByRole('dialog', { name });
const said = (): Locator => page.locator('baysheet-catalogue-desk p[role=status]').last();

async function open(list: CatalogueList): Promise<void> {
  await tab(list).click();
  await grid(list).waitFor();
}

/** The cell of the row whose first cell reads `words`, after a search that brings it onto the screen. */
function cell(list: CatalogueList, words: string, column: string): Locator {
  const at = (CATALOGUE_COLUMNS[list] as readonly { id: string }[]).findIndex(({ id }) => id === column);
  const first = page.locator(`[aria-colindex="1"]:text-is(${JSON.stringify(words)})`);
  return grid(list)
    .locator('tbody tr[role=row]')
    .filter({ has: first })
    .first()
    .locator(`[aria-colindex="${at + 1}"]`);
}

const search = (words: string): Promise<void> => page.getByRole('searchbox').fill(words);

async function enter(list: CatalogueList, words: string, column: string, text: string): Promise<void> {
  await cell(list, words, column).click();
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

const catalogue = () => page.evaluate(() => window.desk.element!.catalogue!);
const heard = (type: string) =>
  page.evaluate((wanted) => window.desk.heard.filter((event) => event.type === wanted).map(({ detail }) => detail as never), type);

/** What the last check of the present state found. */
async function checked(): Promise<{ usable: boolean; problems: { code: string; message: string }[] }> {
  await page.waitForFunction(() => {
    const last = window.desk.heard.filter(({ type }) => type === 'catalogue-checked').at(-1);
    return last !== undefined && (last.detail as { catalogue: unknown }).catalogue === window.desk.element!.catalogue;
  });
  return page.evaluate(() => {
    const { usable, problems } = window.desk.heard.filter(({ type }) => type === 'catalogue-checked').at(-1)!.detail as {
      usable: boolean;
      problems: { code: string; message: string }[];
    };
    return { usable, problems };
  });
}
const usable = async (): Promise<boolean> => (await checked()).usable;

describe('an id', () => {
  test('that is changed is changed everywhere, and changed back by one undo', async () => {
    const before = await catalogue();
    await open('steps');
    await search('drain');
    await enter('steps', 'Drain, refill and bleed the coolant', 'id', 'drained');
    await expect.poll(() => said().innerText()).toMatch(/coolant-out is drained now, in \d+ other places/);

    const after = await catalogue();
    expect(after).not.toEqual(before);
    expect(after).toEqual(JSON.parse(JSON.stringify(before).replaceAll('"coolant-out"', '"drained"')));
    expect(await usable()).toBe(true);

    await button('Undo').click();
    expect(await catalogue()).toEqual(before);
    await button('Redo').click();
    expect(await catalogue()).toEqual(after);
  });

  test('that is taken or is none stays in its cell with the reason, and the catalogue as it was', async () => {
    const before = await catalogue();
    await open('steps');
    await enter('steps', 'Undertray off and on', 'id', 'lift');
    const id = cell('steps', 'Undertray off and on', 'id');
    await expect.poll(() => id.getAttribute('aria-invalid')).toBe('true');
    expect(await id.getAttribute('aria-description')).toContain('Another step has the id "lift" already');
    await enter('steps', 'Undertray off and on', 'id', 'two words');
    await expect.poll(() => id.getAttribute('aria-description')).toContain('"two words" cannot be an id');
    expect(await catalogue()).toEqual(before);
    await enter('steps', 'Undertray off and on', 'id', 'undertray');
    await expect.poll(() => id.getAttribute('aria-invalid')).toBeNull();
    expect(await catalogue()).toEqual(before);
  });
});

describe('removing', () => {
  test('what is in use says where, and leaves all as it is unless the person takes the uses out too', async () => {
    const before = await catalogue();
    await open('steps');
    await cell('steps', 'Drive belt off and on', 'title').click();
    await button('Remove the selected step').click();
    const asks = dialog(/Remove “Drive belt off and on”/);
    await asks.waitFor();
    const places = await asks.getByRole('listitem').allInnerTexts();
    const users = before.operations.filter(({ steps }) => steps.includes('belt-off')).map(({ title }) => title);
    expect(places.length).toBeGreaterThan(0);
    for (const title of users)
      expect(
        places.some((place) => place.includes(`“${title}”`)),
        title,
      ).toBe(true);

    await asks.getByRole('button', { name: 'Leave all as it is' }).click();
    expect(await catalogue()).toEqual(before);

    await button('Remove the selected step').click();
    await asks.getByRole('button', { name: 'Remove it and these uses' }).click();
    const after = await catalogue();
    expect(after.steps.some(({ id }) => id === 'belt-off')).toBe(false);
    expect(JSON.stringify(after)).not.toContain('"belt-off"');
    await page.keyboard.press('Escape');
    await button('Undo').click();
    expect(await catalogue()).toEqual(before);
  });

  test('what nothing names goes at once', async () => {
    await search('thermostat housing');
    await open('overlaps');
    await search('');
    const before = await catalogue();
    await grid('overlaps').locator('tbody tr').first().locator('[aria-colindex="1"]').click();
    await button('Remove the selected overlap').click();
    expect((await catalogue()).overlaps).toEqual(before.overlaps.slice(1));
  });
});

describe('entries', () => {
  test('make rows, know ids by their words, and what cannot be used is shown and kept', async () => {
    await search('nothing is called so');
    await button('Add operation').click();
    await page.keyboard.type('Renew the tail lamp');
    await page.keyboard.press('Enter');
    const made = (await catalogue()).operations.at(-1)!;
    expect(made).toMatchObject({ id: 'renew-the-tail-lamp', title: 'Renew the tail lamp', bookHours: '0' });

    await search('tail lamp');
    await enter('operations', 'Renew the tail lamp', 'bookHours', '=0.3+0,2');
    await expect.poll(() => cell('operations', 'Renew the tail lamp', 'bookHours').getAttribute('aria-invalid')).toBe('true');
    await enter('operations', 'Renew the tail lamp', 'bookHours', '=0.3+0.2');
    await enter('operations', 'Renew the tail lamp', 'parts', 'clip-nowhere × 2; coolant-litre');
    // The list below the cell is searched by words.
    await cell('operations', 'Renew the tail lamp', 'steps').click();
    await page.keyboard.press('Enter');
    await page.keyboard.type('load floor');
    await page.getByRole('option').first().waitFor();
    expect(await page.getByRole('option').first().innerText()).toContain('Load floor trim');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');

    const after = (await catalogue()).operations.at(-1)!;
    expect(after.bookHours).toBe('0.5');
    expect(after.parts).toEqual([
      { part: 'clip-nowhere', qty: '2', each: false },
      { part: 'coolant-litre', qty: '1', each: false },
    ]);
    expect(after.steps).toHaveLength(1);

    // A part that is not there: told, with a way to its cell.
    const { usable, problems } = await checked();
    expect([usable, problems.map(({ code }) => code)]).toEqual([false, ['unknown-reference']]);
    await open('cautions');
    await button(/There is no part "clip-nowhere"/).click();
    await grid('operations').waitFor();
    const active = cell('operations', 'Renew the tail lamp', 'parts');
    await expect.poll(() => active.getAttribute('aria-selected')).toBe('true');
    expect(await active.getAttribute('aria-invalid')).toBe('true');
  });

  test('paste and fill over many rows are one step', async () => {
    await open('parts');
    await button('Add part').click();
    await page.evaluate(() => navigator.clipboard.writeText('Wedge\twedge\tN-1\t2.50\nWedge two\t\tN-2\tnone'));
    await page.keyboard.press('Control+v');
    const parts = (await catalogue()).parts.slice(-2);
    expect(parts.map(({ id, cost }) => [id, cost])).toEqual([
      ['wedge', '2.50'],
      ['wedge-two', '0'],
    ]);
    await search('wedge');
    expect(await cell('parts', 'Wedge two', 'cost').innerText()).toBe('none');
    await cell('parts', 'Wedge', 'condition').click();
    await page.keyboard.type('used');
    await page.keyboard.press('Enter');
    await cell('parts', 'Wedge', 'condition').click();
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+d');
    expect((await catalogue()).parts.slice(-2).map(({ condition }) => condition)).toEqual(['used', 'used']);
    for (const _ of [1, 2, 3]) await page.keyboard.press('Control+z');
    expect((await catalogue()).parts.some(({ id }) => id.startsWith('wedge'))).toBe(false);
  });

  test('a remedy may be begun and finished later: until then it is told', async () => {
    await open('remedies');
    await button('Add remedy').click();
    await page.keyboard.type('radiator');
    await page.keyboard.press('Tab');
    expect((await checked()).problems.map(({ code }) => code)).toEqual(['unfinished']);
    await page.keyboard.type('cracked at the neck');
    await page.keyboard.press('Tab');
    await page.keyboard.type('radiator');
    await page.keyboard.press('Tab');
    expect(await checked()).toMatchObject({ usable: true, problems: [] });
    expect((await catalogue()).remedies.at(-1)).toEqual({
      component: 'radiator',
      fault: 'cracked at the neck',
      operations: ['radiator'],
      instead: [],
    });
  });
});

describe('a table', () => {
  const TABLE = [
    'Op code;Description;Hrs;Skill',
    'radiator;Replace the radiator;2,6;general',
    'lamp-tail;Renew the tail lamp;0,4;',
    'lamp-side;Renew the side lamp;half;',
    'heater-core;Replace the heater core;0,1;general',
    'lamp-tail;Again;1;',
    "'=HYPERLINK(1);Looks like a formula;1;",
  ].join('\r\n');

  async function read(table: string): Promise<Locator> {
    await button('Take in a table …').click();
    const takes = dialog('Take in a table of operations');
    await takes
      .locator('input[type=file]')
      .setInputFiles({ name: 'hours.csv', mimeType: 'text/csv', buffer: Buffer.from(`\ufeff${table}`) });
    await takes.getByText('rows with').waitFor();
    return takes;
  }

  test('is taken in: columns, every bad row with its line and reason, the exact difference, and undone by one step', async () => {
    const before = await catalogue();
    const takes = await read(TABLE);
    expect(await takes.getByRole('combobox', { name: 'Book hours', exact: true }).inputValue()).toBe('2');
    await takes.getByLabel('Figures are written').selectOption('de-DE');

    const bad = await takes.getByRole('table', { name: 'Rows that cannot be taken' }).getByRole('row').allInnerTexts();
    expect(bad.map((row) => row.split(/\t/)[0])).toEqual(['line 4', 'line 5', 'line 6', 'line 7']);
    expect(bad[0]).toContain('"half" is not a figure');
    expect(bad[1]).toContain('below the hours of its steps');
    expect(bad[2]).toContain('stands in line 3 already');
    expect(bad[3]).toContain('cannot be an id');
    const changes = await takes.getByRole('table', { name: 'What would change' }).locator('tbody').getByRole('row').allInnerTexts();
    expect(
      changes.map((row) =>
        row
          .split(/\t/)
          .slice(2)
          .map((text) => text.trim()),
      ),
    ).toEqual([
      ['Book hours', '2.4', '2.6'],
      ['new', '', '0.4 h'],
    ]);
    expect(await catalogue()).toEqual(before);

    await takes.getByLabel('Take nothing unless every row is good').check();
    expect(await takes.getByRole('button', { name: 'Take nothing' }).isDisabled()).toBe(true);
    await takes.getByLabel('Take the good rows, leave the bad ones').check();
    await takes.getByRole('button', { name: 'Take 2 operations' }).click();

    const after = await catalogue();
    expect(after.operations.find(({ id }) => id === 'radiator')!.bookHours).toBe('2.6');
    expect(after.operations.at(-1)).toMatchObject({
      id: 'lamp-tail',
      title: 'Renew the tail lamp',
      bookHours: '0.4',
      labourClass: 'general',
    });
    expect(await usable()).toBe(true);
    await button('Undo').click();
    expect(await catalogue()).toEqual(before);
  });

  test('that cannot be read says so and changes nothing', async () => {
    const before = await catalogue();
    const takes = await read('Id,Operation,Hours\na,Fine,1\nb,"Never ends,2\n');
    await takes.getByText('line 3: A cell begins with a quote that never ends.').waitFor();
    await page.keyboard.press('Escape');
    expect(await catalogue()).toEqual(before);
    expect(await heard('catalogue-edit')).toEqual([]);
  });

  test('goes out and comes back without a difference; the catalogue as JSON reads as it was', async () => {
    const before = await catalogue();
    const download = async (name: string): Promise<string> => {
      const [file] = await Promise.all([page.waitForEvent('download'), button(name).click()]);
      return readFile(await file.path(), 'utf8');
    };
    const json = parseCatalogue(await download('Catalogue as JSON'));
    expect(json.ok && json.value).toEqual(before);

    const csv = await download('Operations as CSV');
    const takes = await read(csv.replace(/^\ufeff/, ''));
    await takes.getByRole('heading', { name: `${before.operations.length} as they are already` }).waitFor();
    expect(await takes.getByRole('button', { name: 'Take nothing' }).isDisabled()).toBe(true);
  });
});

describe('the desk', () => {
  test('opens a catalogue from a file as one step, and refuses what is none', async () => {
    const before = await catalogue();
    const file = (name: string, text: string) =>
      page.locator('.tools input[type=file]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
    await file(
      'broken.json',
      '{ "format": "baysheet-catalogue", "version": 1, "id": "x", "steps": [{ "id": "a", "title": "A", "hours": 1 }] }',
    );
    await page.getByRole('alert').getByText('is a JSON number').waitFor();
    expect(await catalogue()).toEqual(before);
    await file('small.json', '{ "format": "baysheet-catalogue", "version": 1, "id": "small" }');
    await expect.poll(async () => (await catalogue()).id).toBe('small');
    await button('Undo').click();
    expect(await catalogue()).toEqual(before);
  });

  test('draws what a step needs and what needs it; a box leads to its row', async () => {
    await search('coolant');
    await open('steps');
    await cell('steps', 'Drain, refill and bleed the coolant', 'title').click();
    const picture = page.getByRole('group', { name: 'What needs what' });
    const boxes = await picture.getByRole('button').allInnerTexts();
    expect(boxes.length).toBeGreaterThan(3);
    await picture.getByRole('button', { name: /^Undertray off and on .* step$/ }).click();
    await expect.poll(() => cell('steps', 'Undertray off and on', 'title').getAttribute('aria-selected')).toBe('true');
  });

  test('keeps its history and grids when it is moved, and leaves nothing running when it is taken out', async () => {
    await open('steps');
    await enter('steps', 'Undertray off and on', 'id', 'tray-off');
    const state = await page.evaluate(async () => {
      const { element } = window.desk;
      const home = element!.parentElement!;
      element!.remove();
      document.querySelector('main')!.prepend(element!);
      await element!.updateComplete;
      home.append(element!);
      await element!.updateComplete;
      return element!.catalogue!.steps.some(({ id }) => id === 'tray-off');
    });
    expect(state).toBe(true);
    await grid('steps').waitFor();
    await button('Undo').click();
    expect((await catalogue()).steps.some(({ id }) => id === 'undertray')).toBe(true);
  });

  test('axe finds nothing, with dialogs open and in the dark', async () => {
    const axe = async (): Promise<string[]> =>
      page.evaluate(async () => {
        const { violations } = await (window as unknown as { axe: typeof import('axe-core') }).axe.run(document);
        return violations.map(
          ({ id, nodes }) => `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 80)}`).join(' | ')}`,
        );
      });
    await page.evaluate(axeSource);
    await checked();
    expect(await axe()).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await axe()).toEqual([]);
    await button('Take in a table …').click();
    await dialog('Take in a table of operations').getByLabel('or the table itself, pasted').fill('Operation,Hours\nA,x\nB,1');
    await page.keyboard.press('Tab');
    await page.getByText('Rows that cannot be taken').waitFor();
    expect(await axe()).toEqual([]);
  });

  test('5,000 operations: what is typed is there, and all of them are checked', async () => {
    await page.evaluate(async () => void (await window.desk.show(window.desk.many(5000))));
    await grid('operations').waitFor();
    expect(await usable()).toBe(true);
    await search('4999');
    await grid('operations').locator('tbody tr').first().locator('[aria-colindex="5"]').click();
    await page.keyboard.type('99');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => window.desk.element!.catalogue!.operations[4999]!.bookHours)).toBe('99');
    expect(await usable()).toBe(true);
  });
});
