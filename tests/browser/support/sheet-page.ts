import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser, BrowserContext, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { FINDING_COLUMNS } from '../../../components/estimate/finding-columns.js';
import { LINE_COLUMNS } from '../../../components/estimate/line-columns.js';
import { parseCatalogue } from '../../../src/documents/catalogue.js';
import type { Estimate } from '../../../src/documents/estimate.js';
import { parseRates } from '../../../src/documents/rates.js';
import type { PricedEstimate } from '../../../src/pricing/priced-estimate.js';
import { priceEstimate } from '../../../src/pricing/price-estimate.js';

export type GridName = 'Findings' | 'Lines';

const root = join(import.meta.dirname, '../../..');
const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const COLUMNS = { Findings: FINDING_COLUMNS, Lines: LINE_COLUMNS };

/** Where the person is: the active cell of the grid that has the focus. */
export interface ActiveCell {
  readonly grid: string;
  /** Text of the row's first cell. */
  readonly row: string;
  readonly rowIndex: number;
  readonly column: string;
  readonly text: string;
}

/**
 * A page with one `<baysheet-estimate>`, used as a person uses it: by roles, names and keys, through all shadow roots.
 * It notes everything that must not happen: errors, reports of the page's policy, requests to elsewhere.
 */
export class SheetPage {
  private readonly complaints: string[] = [];
  /** Warnings in the console. */
  readonly warnings: string[] = [];
  private readonly expected: RegExp[] = [];

  private constructor(
    readonly context: BrowserContext,
    readonly page: Page,
    /** The element; grids, buttons and the rest are looked for inside it. */
    private host: Locator,
  ) {}

  static async open(browser: Browser, address: string, options: BrowserContextOptions = {}): Promise<SheetPage> {
    const context = await browser.newContext({
      viewport: { width: 1400, height: 1000 },
      permissions: ['clipboard-read', 'clipboard-write'],
      ...options,
    });
    const page = await context.newPage();
    const sheet = new SheetPage(context, page, page.locator('baysheet-estimate'));
    await sheet.watch(new URL(address).origin);
    await page.goto(address);
    return sheet;
  }

  /** A demo page, ready to be used. */
  static async openReady(browser: Browser, address: string, options: BrowserContextOptions = {}): Promise<SheetPage> {
    const sheet = await SheetPage.open(browser, address, options);
    await sheet.ready();
    return sheet;
  }

  async ready(): Promise<void> {
    await this.grid('Lines').waitFor();
    await this.grid('Findings').waitFor();
    await this.opened();
  }

  /** Until it is clear whether this tab may write: what is pressed before is refused in words. */
  async opened(): Promise<void> {
    const isOpen = (host: Element): boolean =>
      !host.matches(':state(reading)') || /^Read only/.test(host.shadowRoot!.querySelector('.saving')?.textContent.trim() ?? '');
    await expect.poll(() => this.host.evaluate(isOpen)).toBe(true);
  }

  /** Goes on with another element of the page. */
  use(selector: string): this {
    this.host = this.page.locator(selector);
    return this;
  }

  /** Goes on with an element that a selector of the page does not reach, as in a frame. */
  useLocator(locator: Locator): this {
    this.host = locator;
    return this;
  }

  get element(): Locator {
    return this.host;
  }

  private async watch(origin: string): Promise<void> {
    const { page, complaints, warnings } = this;
    page.on('pageerror', (error) => complaints.push(error.stack ?? error.message));
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(`${message.text()} ${message.location().url}`);
      if (message.type() === 'warning') warnings.push(message.text());
    });
    page.on('request', (request) => {
      const url = new URL(request.url());
      if (!['data:', 'blob:'].includes(url.protocol) && url.origin !== origin) complaints.push(`request to ${url}`);
    });
    await page.exposeBinding('complainOfPolicy', (_, words: string) => void complaints.push(words));
    await page.addInitScript(() => {
      addEventListener('securitypolicyviolation', (event) => {
        const { violatedDirective, blockedURI, sourceFile, lineNumber } = event;
        const words = `${violatedDirective} ${blockedURI} ${sourceFile}:${lineNumber}`;
        (window as unknown as { complainOfPolicy(words: string): void }).complainOfPolicy(words);
      });
    });
  }

  /** Something that the browser will write to the console and that is meant to happen. */
  expectComplaint(words: RegExp): void {
    this.expected.push(words);
  }

  /** Ends the test: nothing has gone wrong on the page, and all that was expected to has. */
  async done(): Promise<void> {
    await this.context.close();
    const { complaints, expected } = this;
    expect(complaints.filter((complaint) => !expected.some((words) => words.test(complaint)))).toEqual([]);
    expect(expected.filter((words) => !complaints.some((complaint) => words.test(complaint)))).toEqual([]);
  }

  // Finding things

  grid(name: GridName): Locator {
    return this.host.getByRole('grid', { name, exact: true });
  }

  /** The `nth` row whose first cell reads `words`. */
  row(name: GridName, words: string, nth = 0): Locator {
    const first = this.page.locator(`[aria-colindex="1"]:text-is(${JSON.stringify(words)})`);
    return this.grid(name).locator('tbody tr[role=row]').filter({ has: first }).nth(nth);
  }

  cell(name: GridName, words: string, column: string, nth = 0): Locator {
    return this.row(name, words, nth).locator(`[aria-colindex="${this.columnIndex(name, column) + 1}"]`);
  }

  columnIndex(name: GridName, column: string): number {
    const index = COLUMNS[name].findIndex(({ title }) => title === column);
    if (index < 0) throw new Error(`The ${name} grid has no column "${column}".`);
    return index;
  }

  heading(name: GridName, column: string): Locator {
    // The heading that is seen is a copy above the scrolling rows.
    return this.host
      .locator(`.sheet-of#${name.toLowerCase()} .ht_clone_top th`)
      .filter({ has: this.page.locator(`.sheet-heading:text-is(${JSON.stringify(column)})`) });
  }

  button(name: string): Locator {
    return this.host.getByRole('button', { name, exact: true });
  }

  /** The open editor. */
  field(): Locator {
    return this.host.locator('.sheet-field');
  }

  list(): Locator {
    return this.host.getByRole('listbox');
  }

  menu(): Locator {
    return this.host.getByRole('menu');
  }

  hint(): Locator {
    return this.host.getByRole('tooltip');
  }

  // Reading

  /** Every row on the screen as the texts of its cells, by column title; empty cells are left out. */
  rows(name: GridName): Promise<Record<string, string>[]> {
    const titles = COLUMNS[name].map(({ title }) => title);
    return this.grid(name).evaluate(
      (grid, columns) =>
        [...grid.querySelectorAll('tbody tr')].map((row) =>
          Object.fromEntries(
            [...row.children].flatMap((cell) => {
              const title = columns[Number(cell.getAttribute('aria-colindex')) - 1]!;
              return cell.textContent ? [[title, cell.textContent]] : [];
            }),
          ),
        ),
      titles,
    );
  }

  /** The texts of one column, of the rows on the screen. */
  async column(name: GridName, column: string): Promise<string[]> {
    return (await this.rows(name)).map((row) => row[column] ?? '');
  }

  /** One row of the totals, as a bare figure: "1234.50". */
  async figure(title: string): Promise<string> {
    const row = this.host
      .locator('aside')
      .getByRole('row')
      .filter({ hasText: new RegExp(`^\\s*${title}`) })
      .first();
    return (await row.locator('td').innerText()).replace(/[^\d.-]/g, '');
  }

  total(): Promise<string> {
    return this.figure('Total');
  }

  estimate(): Promise<Estimate> {
    return this.host.evaluate((element) => (element as HTMLElementTagNameMap['baysheet-estimate']).estimate!);
  }

  /** What was said last to a screen reader. */
  said(): Promise<string> {
    return this.host.locator('p[role=status]').innerText();
  }

  /** The estimate of the page, priced here in Node by the engine. */
  async pricedInNode(): Promise<PricedEstimate> {
    const { catalogue, rates } = await demoReference();
    return priceEstimate({ estimate: await this.estimate(), catalogue, rates });
  }

  /** The page shows the total that the engine gives in Node. */
  async expectTotalOfEngine(): Promise<PricedEstimate> {
    const priced = await this.pricedInNode();
    expect(await this.total()).toBe(priced.totals.total);
    return priced;
  }

  /** The active cell of the grid that has the focus; null where none has. */
  async active(): Promise<ActiveCell | null> {
    const found = await this.page.evaluate(() => {
      let element = document.activeElement;
      while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
      const id = element?.getAttribute('aria-activedescendant');
      const cell = id && element?.getAttribute('role') === 'grid' ? (element.getRootNode() as ShadowRoot).getElementById(id) : null;
      if (!element || !cell) return null;
      return {
        grid: element.getAttribute('aria-label')!,
        row: cell.parentElement!.firstElementChild!.textContent,
        rowIndex: Number(cell.parentElement!.getAttribute('aria-rowindex')) - 2,
        columnIndex: Number(cell.getAttribute('aria-colindex')) - 1,
        text: cell.textContent,
      };
    });
    if (found === null) return null;
    const { columnIndex, ...rest } = found;
    return { ...rest, column: COLUMNS[found.grid as GridName][columnIndex]!.title };
  }

  /** What has the focus, through all shadow roots: its role and its name. */
  focused(): Promise<string> {
    return this.page.evaluate(() => {
      let element = document.activeElement;
      while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
      if (!element) return '';
      const role = element.getAttribute('role') ?? element.tagName.toLowerCase();
      const name = element.getAttribute('aria-label') ?? element.textContent ?? '';
      return `${role} ${name.replace(/\s+/g, ' ')}`.trim();
    });
  }

  // Doing

  async press(...keys: string[]): Promise<void> {
    for (const key of keys) await this.page.keyboard.press(key);
  }

  /** Types into whatever has the focus. */
  type(text: string): Promise<void> {
    return this.page.keyboard.type(text);
  }

  /** Types an entry into the active cell and ends it with a key. */
  async enter(text: string, end = 'Enter'): Promise<void> {
    await this.type(text);
    await this.press(end);
  }

  /** By Tab alone, to what is called `name` ("button Add finding"). */
  async tabTo(name: string, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    const passed: string[] = [];
    for (let i = 0; i < 80; i += 1) {
      // A grid keeps Tab for its cells until Escape gives it free.
      if ((await this.focused()).startsWith('grid ')) await this.press('Escape', 'Escape');
      await this.press(key);
      const now = await this.focused();
      if (now === name) return;
      passed.push(now);
    }
    throw new Error(`Tab does not come to "${name}". It came to: ${[...new Set(passed)].join(' | ')}`);
  }

  /** By keys alone, within the grid that has the focus, to the `nth` row whose first cell reads `words`. */
  async goTo(words: string, column: string, nth = 0): Promise<void> {
    await this.press('Control+Home');
    const seen: string[] = [];
    for (let place = await this.active(), met = 0; ; place = await this.active()) {
      if (place === null) throw new Error('No grid has the focus.');
      if (place.row === words && met++ === nth) break;
      seen.push(place.row);
      await this.press('ArrowDown');
      if ((await this.active())?.rowIndex === place.rowIndex) throw new Error(`No row "${words}" among: ${seen.join(' | ')}`);
    }
    const grid = (await this.active())!.grid as GridName;
    await this.press(...Array<string>(this.columnIndex(grid, column)).fill('ArrowRight'));
  }

  /** By keys alone: goes to a cell and makes an entry. */
  async enterAt(words: string, column: string, text: string, end = 'Enter'): Promise<void> {
    await this.goTo(words, column);
    await this.enter(text, end);
  }

  /** By mouse and keys: clicks a cell and makes an entry. */
  async clickAndEnter(name: GridName, words: string, column: string, text: string): Promise<void> {
    await this.clickCell(name, words, column);
    await this.enter(text);
  }

  /**
   * As a person does: first the row is scrolled into sight, then clicked. A sheet that scrolls gives its elements other
   * rows, so one that was found before is not to be clicked.
   */
  async clickCell(name: GridName, words: string, column: string, nth = 0): Promise<void> {
    const isStill = (element: Element): Promise<boolean> => {
      const place = (): string => [element.parentElement!.ariaRowIndex, element.getBoundingClientRect().top].join(' ');
      element.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      const before = place();
      return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(place() === before))));
    };
    const cell = this.cell(name, words, column, nth);
    await expect.poll(() => cell.evaluate(isStill)).toBe(true);
    await cell.click();
  }

  /** Chooses from the row menu of the row that is active. */
  async chooseFromMenu(title: string | RegExp): Promise<void> {
    await this.menu().getByRole('menuitem', { name: title }).click();
    await this.menu().waitFor({ state: 'detached' });
  }

  clipboard(): Promise<string> {
    return this.page.evaluate(() => navigator.clipboard.readText());
  }

  async putOnClipboard(text: string): Promise<void> {
    await this.page.evaluate((value) => navigator.clipboard.writeText(value), text);
  }

  async paste(text: string): Promise<void> {
    await this.putOnClipboard(text);
    await this.press('Control+v');
  }

  // Events

  /** Begins to note the element's events; `heard` gives them. */
  async listen(): Promise<void> {
    await this.page.evaluate(() => {
      const heard: unknown[] = [];
      Object.assign(window, { heardEvents: heard });
      for (const type of ['baysheet-change', 'baysheet-save', 'baysheet-problem']) {
        document.addEventListener(type, (event) => {
          const { detail } = event as CustomEvent;
          heard.push({ type, detail: structuredClone(detail) });
        });
      }
    });
  }

  heard(): Promise<{ type: string; detail: { what: string; estimate: Estimate; totals: { total: string } } }[]> {
    return this.page.evaluate(() => (window as unknown as { heardEvents: never[] }).heardEvents);
  }

  // Looking

  /** What axe finds wrong, in words. */
  async axe(): Promise<string[]> {
    await this.page.evaluate(await axeSource);
    return this.page.evaluate(async () => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run(document);
      return violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 80)}`).join(' | ')}`,
      );
    });
  }

  /** A picture of the whole page for people to look at, in test-output/. */
  async picture(name: string): Promise<void> {
    await this.page.screenshot({ path: join(root, 'test-output', `estimate-${name}.png`), fullPage: true });
  }
}

/** The demo's catalogue and rate card, read in Node. */
export async function demoReference() {
  const read = async (name: string): Promise<string> => readFile(join(root, 'rates', name), 'utf8');
  const catalogue = parseCatalogue(await read('catalogue.demo.json'));
  const rates = parseRates(await read('card.demo.json'));
  if (!catalogue.ok || !rates.ok) throw new Error('The demo’s documents must be valid.');
  return { catalogue: catalogue.value, rates: rates.value };
}

/** A demo estimate as it lies in the folder. */
export async function demoEstimate(name: string): Promise<Record<string, unknown>> {
  return JSON.parse(await readFile(join(root, 'demo', `${name}.estimate.json`), 'utf8')) as Record<string, unknown>;
}
