import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { ScenarioName } from './panes-page/scenarios.js';
import { launchChromium } from './support/chromium.js';
import { serveFolder, type StaticServer } from './support/serve.js';

let folder: string;
let server: StaticServer;
let browser: Browser;
let page: Page;
/** Everything that the browser complained about: scripts that failed, and the strict policy's reports. */
let complaints: string[];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panes-'));
  await build({
    root: fileURLToPath(new URL('./panes-page/', import.meta.url)),
    base: './',
    logLevel: 'warn',
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', modulePreload: false },
  });
  server = await serveFolder(folder);
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  await rm(folder, { recursive: true, force: true });
});

afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

type Look = { width?: number; dark?: boolean; forced?: boolean };

async function open(name: ScenarioName, { width = 1100, dark = false, forced = false }: Look = {}): Promise<void> {
  const context = await browser.newContext({
    viewport: { width, height: 800 },
    colorScheme: dark ? 'dark' : 'light',
    forcedColors: forced ? 'active' : 'none',
  });
  page = await context.newPage();
  complaints = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    const isIcon = message.location().url.endsWith('favicon.ico');
    if (message.type() === 'error' && !isIcon) complaints.push(message.text());
  });
  await page.goto(`${server.url}/`);
  await page.waitForSelector('html[data-ready]');
  await page.evaluate((shown) => window.panes.show(shown), name);
}

const heard = (type: string) =>
  page.evaluate((wanted) => window.panes.heard.filter((event) => event.type === wanted).map(({ detail }) => detail), type);
/** Texts of all elements that a selector finds, with plain blanks. */
const texts = async (selector: string) => (await page.locator(selector).allInnerTexts()).map((text) => text.replace(/\s+/g, ' ').trim());

describe('all three', () => {
  test.each<[ScenarioName, Look]>([
    ['van', {}],
    ['van', { dark: true, width: 320 }],
    ['brakes', { dark: true }],
    ['overlaps', { width: 500 }],
    ['odd', {}],
    ['none', {}],
    ['forty', { forced: true }],
  ])('%s %j: axe finds nothing, with everything open', async (name, look) => {
    await open(name, look);
    await page.evaluate(async () => {
      window.panes.job.open = true;
      await window.panes.job.updateComplete;
      for (const details of window.panes.teardown.renderRoot.querySelectorAll('details')) details.open = true;
    });
    await page.evaluate(await readFile(new URL('../../node_modules/axe-core/axe.min.js', import.meta.url), 'utf8'));
    const found = await page.evaluate(async () => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run(document);
      return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
    });
    expect(found).toEqual([]);
  });

  test.each<ScenarioName>(['van', 'forty', 'odd'])('%s: nothing makes the page scroll sideways', async (name) => {
    await open(name);
    await page.evaluate(() => (window.panes.job.open = true));
    for (const width of [320, 500, 900, 1400]) {
      await page.setViewportSize({ width, height: 800 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
  });

  test('a page that styles everything does not get through; hidden is hidden', async () => {
    await open('van');
    const looks = await page.evaluate(() =>
      (['job', 'totals', 'teardown'] as const).map((name) => {
        const inner = window.panes[name].renderRoot.querySelector('table, summary, .frame')!;
        const { fontStyle, fontSize, letterSpacing, lineHeight } = getComputedStyle(inner);
        window.panes[name].hidden = true;
        return [fontStyle, fontSize, letterSpacing, lineHeight, getComputedStyle(window.panes[name]).display].join(' ');
      }),
    );
    expect(new Set(looks)).toEqual(new Set(['normal 14px normal 19.6px none']));
  });
});

describe('totals', () => {
  test('the rows come in the order of the sum, those that apply', async () => {
    await open('van');
    expect(await texts('baysheet-totals .sum th')).toEqual([
      'Labour',
      'Parts',
      'Sublet',
      'Shop supplies',
      'Fees',
      'Subtotal',
      'Discount: First visit, labour',
      'State sales tax (invented rate) 4.25% of $789.78',
      'Local sales tax (invented rate) 1.5% of $789.78',
      'Total',
    ]);
  });

  test('every figure is the engine’s', async () => {
    await open('van');
    const shown = (await texts('baysheet-totals .sum td')).map((text) => text.replace(/[$,]/g, ''));
    const expected = await page.evaluate(() => {
      const { totals } = window.panes.scenario('van').priced;
      const kinds = [totals.labour, totals.part, totals.sublet, totals.supplies, totals.fee];
      const taxes = totals.taxes.map(({ amount }) => amount);
      return [...kinds, totals.subtotal, `-${totals.discount}`, ...taxes, totals.total];
    });
    expect(shown).toEqual(expected);
  });

  test('only the total is announced, and it changes in place', async () => {
    await open('van');
    const live = page.locator('baysheet-totals [aria-live]');
    expect(await live.count()).toBe(1);
    const before = await live.elementHandle();
    const text = await live.innerText();
    await page.evaluate(() => window.panes.show('brakes'));
    expect(await live.innerText()).not.toBe(text);
    expect(await before.evaluate((node) => node.isConnected)).toBe(true);
  });

  test('says what is saved, and what each line costs now and later', async () => {
    await open('plenum');
    expect(await texts('baysheet-totals .saved p')).toEqual(['1.2 h of labour paid once $180.00']);
    const deferral = await page.evaluate(() => window.panes.scenario('plenum').deferral);
    const expected = Object.values(deferral).flatMap(({ now, later, extra }) => [now, later, extra]);
    expect(await texts('baysheet-totals .later td')).toEqual(expected);
  });

  test('an exemption, taxes inside the prices and an incomplete sum are said in words', async () => {
    await open('odd');
    const all = (await texts('baysheet-totals :is(.notice, .sum)')).join(' ');
    expect(all).toContain('exempt (otherwise 4.25% of');
    expect(all).toContain('inside the prices');
    expect(all).toContain('Not complete.');
  });

  test('the total in cash stands below where it differs', async () => {
    await open('van');
    expect(await page.locator('baysheet-totals [part=cash]').count()).toBe(0);
    await page.evaluate(async () => {
      const { priced } = window.panes.scenario('van');
      window.panes.totals.priced = { ...priced, totals: { ...priced.totals, cash: '2104.25' } };
      await window.panes.totals.updateComplete;
    });
    expect(await texts('baysheet-totals [part=cash] td')).toEqual(['$2,104.25']);
  });
});

describe('job form', () => {
  test('folds to one line that tells the job', async () => {
    await open('van');
    expect(await texts('baysheet-job summary > span')).toEqual([
      'B-1042',
      'Halvern Tallow 2.0 petrol van, long wheelbase (made up)',
      'plate DEMO 42',
      'Orla Finchley-Dane (made up)',
    ]);
    expect(await page.getByLabel('Plate').isVisible()).toBe(false);
    await page.locator('baysheet-job summary').click();
    expect(await page.getByLabel('Plate').isVisible()).toBe(true);
    await page.waitForFunction(() => window.panes.job.open);
  });

  test('a sheet with nothing in it opens its fields', async () => {
    await open('none');
    expect(await page.getByLabel('Plate').isVisible()).toBe(true);
  });

  test('each text is announced when its field is left, not before', async () => {
    await open('van');
    await page.locator('baysheet-job summary').click();
    const edits = [
      ['Estimate number', ['number'], 'B-2'],
      ['Vehicle', ['vehicle', 'label'], 'Another van'],
      ['Plate', ['vehicle', 'plate'], 'AB 12'],
      ['Odometer', ['vehicle', 'odometer'], '90001'],
      ['VIN', ['vehicle', 'vin'], '1M8GDM9AXKP042788'],
      ['Customer', ['customer', 'name'], 'Somebody else'],
      ['Phone', ['customer', 'phone'], '+1 555 0100'],
      ['E-mail', ['customer', 'email'], 'else@example.com'],
      ['What the customer said', ['concern'], 'Two\nlines'],
    ] as const;
    const expected: unknown[] = [];
    for (const [label, path, value] of edits) {
      const field = page.locator('baysheet-job').getByLabel(label, { exact: true });
      await field.fill(value);
      expect(await heard('baysheet-job-edit')).toEqual(expected);
      await field.blur();
      expected.push({ path, value });
      expect(await heard('baysheet-job-edit')).toEqual(expected);
    }
  });

  test('unit and exemptions are announced', async () => {
    await open('van');
    await page.locator('baysheet-job summary').click();
    await page.getByLabel('Odometer unit').selectOption('km');
    await page.getByLabel('Local sales tax').check();
    expect(await heard('baysheet-job-edit')).toEqual([
      { path: ['vehicle', 'unit'], value: 'km' },
      { path: ['customer', 'taxExempt'], value: ['local'] },
    ]);
  });

  test('what is being typed survives a new state of the same job, but not another job', async () => {
    await open('van');
    await page.locator('baysheet-job summary').click();
    const plate = page.getByLabel('Plate');
    await plate.fill('HALF TY');
    await page.evaluate(async () => {
      const { job } = window.panes;
      job.estimate = { ...job.estimate!, concern: 'changed elsewhere' };
      await job.updateComplete;
    });
    expect(await plate.inputValue()).toBe('HALF TY');
    expect(await page.getByLabel('What the customer said').inputValue()).toBe('changed elsewhere');
    await page.evaluate(() => window.panes.show('brakes'));
    expect(await plate.inputValue()).toBe('DEMO 42');
  });

  test('a doubtful VIN is explained beside its field and still taken', async () => {
    await open('van');
    await page.locator('baysheet-job summary').click();
    const reason = page.locator('baysheet-job #vin-reason');
    expect(await reason.innerText()).toBe('');
    const put = (vin: string) =>
      page.evaluate(async (text) => {
        const { job } = window.panes;
        job.estimate = { ...job.estimate!, vehicle: { ...job.estimate!.vehicle, vin: text } };
        await job.updateComplete;
      }, vin);
    await put('1111111111111111');
    expect(await reason.innerText()).toBe('A VIN has 17 characters; this one has 16.');
    expect(await page.getByLabel('VIN').getAttribute('aria-describedby')).toBe('vin-reason');
    await put('');
    expect(await reason.innerText()).toBe('');
  });

  // WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels.
  test('every control is large enough to hit', async () => {
    await open('van', { width: 320 });
    await page.evaluate(() => (window.panes.job.open = true));
    const small = await page.locator('baysheet-job :is(input, select, textarea, summary)').evaluateAll(
      (controls) =>
        controls.filter((control) => {
          const { width, height } = control.getBoundingClientRect();
          return width < 24 || height < 24;
        }).length,
    );
    expect(small).toBe(0);
  });
});

describe('teardown picture', () => {
  const active = () => page.evaluate(() => window.panes.teardown.shadowRoot!.activeElement?.getAttribute('aria-label'));
  const named = async () => (await active())?.replaceAll('\u00a0', ' ');

  test('is one tab stop; arrows walk; Enter picks the line', async () => {
    await open('plenum');
    await page.locator('baysheet-totals summary').focus();
    await page.keyboard.press('Tab');
    expect(await named()).toBe('Replace the upper plenum gasket, own work 0.8 h, charged 0.8 h of 2 h');
    await page.keyboard.press('ArrowRight');
    expect(await named()).toBe('A: Upper plenum off and on, 1.2 h, needed by 2 lines, carried by Replace the injector O-rings');
    await page.keyboard.press('Enter');
    expect(await heard('baysheet-pick')).toEqual([{ line: 'l2' }]);
    await page.keyboard.press('ArrowUp');
    expect(await named()).toContain('Replace the upper plenum gasket, own work');
    await page.keyboard.press('ArrowDown');
    expect(await named()).toContain('Replace the injector O-rings, own work');
    await page.keyboard.press('ArrowRight');
    expect(await named()).toContain('Replace the injector O-rings, own work');
    await page.keyboard.press('Home');
    expect(await named()).toContain('Replace the upper plenum gasket, own work');
    await page.keyboard.press('End');
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => window.panes.teardown.shadowRoot!.activeElement?.localName);
    expect(focused).toBe('summary');
    await page.keyboard.press('Shift+Tab');
    expect(await named()).toContain('Replace the injector O-rings, own work');
    expect(await page.locator('baysheet-teardown [tabindex="0"][role=button]').count()).toBe(1);
  });

  test('the focused block can be seen and read', async () => {
    await open('van');
    await page.locator('baysheet-totals summary').focus();
    await page.keyboard.press('Tab');
    const outline = await page.evaluate(() => getComputedStyle(window.panes.teardown.shadowRoot!.activeElement!).outlineStyle);
    expect(outline).toBe('solid');
    expect(await texts('baysheet-teardown .reading')).toEqual([await named()]);
    expect(await page.locator('baysheet-teardown .labels .touched').count()).toBeGreaterThan(0);
  });

  test('a click on a block or on a row’s title picks the line', async () => {
    await open('plenum');
    await page.locator('baysheet-teardown .labels li').first().click();
    await page.locator('baysheet-teardown .drawing rect.carried').click();
    expect(await heard('baysheet-pick')).toEqual([{ line: 'l1' }, { line: 'l2' }]);
  });

  test('a shared step is drawn once, as wide as it is long, over its rows', async () => {
    await open('van');
    const drawn = await page.evaluate(() => {
      const { priced } = window.panes.scenario('van');
      const blocks = [...window.panes.teardown.renderRoot.querySelectorAll('[data-stop^="step "]')];
      const box = (name: string) => {
        const block = blocks.filter((g) => g.getAttribute('aria-label')!.includes(name));
        return { count: block.length, rect: block[0]!.querySelector('rect.wood')!.getBoundingClientRect() };
      };
      const [drain, belt] = [box('Drain, refill and bleed the coolant'), box('Drive belt off and on')];
      return {
        all: blocks.length === priced.overlap.steps.length,
        counts: [drain.count, belt.count],
        widths: drain.rect.width / belt.rect.width,
        heights: drain.rect.height / belt.rect.height,
      };
    });
    expect(drawn.all).toBe(true);
    expect(drawn.counts).toEqual([1, 1]);
    expect(drawn.widths).toBeCloseTo(0.6 / 0.4, 1);
    expect(drawn.heights).toBeCloseTo(4 / 2, 1);
  });

  test('carrying is said in a word and shown by a pattern, in forced colours too', async () => {
    await open('van', { forced: true });
    expect((await texts('baysheet-teardown .labels .facts')).join('; ')).toContain('2.7 of 3.2 h, carries F I');
    expect(await page.locator('baysheet-teardown .signs').innerText()).toContain('charged in this row, which carries it');
    const fills = await page.evaluate(() =>
      ['.carried', '.wood'].map((name) => getComputedStyle(window.panes.teardown.renderRoot.querySelector(name)!).fill),
    );
    expect(fills[0]).not.toBe(fills[1]);
    expect(await page.locator('baysheet-teardown [fill="url(#hatch)"]').count()).toBeGreaterThan(0);
  });

  test('the tables tell the same facts', async () => {
    await open('plenum');
    await page.getByText('As a table').click();
    expect(await texts('baysheet-teardown tbody tr')).toEqual([
      'A Upper plenum off and on 1.2 Replace the injector O-rings Replace the upper plenum gasket 1.2',
      'B Fuel rail off and on 0.5 Replace the injector O-rings no other line 0',
      'Replace the upper plenum gasket 2 1.2 0.8 0.8 A none',
      'Replace the injector O-rings 2.6 0 2.6 0.9 A B A B',
    ]);
  });

  test('declared overlaps are joints that can be reached, included lines are part of theirs', async () => {
    await open('overlaps');
    expect(await page.locator('baysheet-teardown [data-stop^="joint "]').count()).toBe(3);
    await page.evaluate(() => window.panes.show('brakes'));
    expect(await page.locator('baysheet-teardown [data-stop="included l2"]').getAttribute('aria-label')).toBe(
      'Replace brake pads at a wheel, included in Replace a brake disc and its pads, no hours charged',
    );
  });

  test('on a narrow host the drawing scrolls by itself and follows the keyboard; the titles stay', async () => {
    await open('forty', { width: 320 });
    const scroller = page.locator('baysheet-teardown .scroller');
    expect(await scroller.evaluate((div) => div.scrollWidth > div.clientWidth)).toBe(true);
    await page.locator('baysheet-totals summary').focus();
    await page.keyboard.press('Tab');
    await page.keyboard.press('End');
    expect(await scroller.evaluate((div) => div.scrollLeft)).toBeGreaterThan(0);
    const left = await page.locator('baysheet-teardown .labels').evaluate((list) => list.getBoundingClientRect().left);
    expect(left).toBeGreaterThanOrEqual(0);
  });

  test('each row of the drawing stands beside its title', async () => {
    await open('brakes', { width: 700 });
    const apart = await page.evaluate(() => {
      const root = window.panes.teardown.renderRoot;
      const titles = [...root.querySelectorAll('.labels li:not(.included)')].map((li) => li.getBoundingClientRect().top);
      const bars = [...root.querySelectorAll('rect.own')].map((rect) => rect.getBoundingClientRect().top);
      return titles.map((top, i) => Math.round(bars[i]! - top));
    });
    expect(new Set(apart).size).toBe(1);
  });

  test('on paper the whole drawing fits the width', async () => {
    await open('forty', { width: 700 });
    await page.emulateMedia({ media: 'print' });
    const right = await page.locator('baysheet-teardown .drawing').evaluate((drawing) => drawing.getBoundingClientRect().right);
    expect(right).toBeLessThanOrEqual(700);
    expect(await page.locator('baysheet-teardown .reading').isVisible()).toBe(false);
  });

  test('with nothing priced it says so', async () => {
    await open('none');
    expect(await texts('baysheet-teardown p')).toEqual(['No operation is priced yet, so there is nothing to draw.']);
  });
});
