import { afterEach, describe, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
let sheet: SheetPage;

afterEach(() => sheet.done());

/** Nothing reaches beyond the sides of the page. */
async function expectNoSidewaysScroll(): Promise<void> {
  const [inner, outer] = await sheet.page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
  expect(inner).toBeLessThanOrEqual(outer);
}

describe('axe finds nothing (axe-core, all its rules)', () => {
  test('loaded, editing, list open, menu open, an entry refused, hint shown', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
    await sheet.element.locator('[part=later]').waitFor();
    expect.soft(await sheet.axe(), 'loaded').toEqual([]);
    await sheet.cell('Lines', 'Replace a heater hose', 'Book h').dblclick();
    expect.soft(await sheet.axe(), 'editing').toEqual([]);
    await sheet.press('Escape');
    await sheet.cell('Lines', 'Replace a heater hose', 'Work').dblclick();
    await sheet.list().waitFor();
    expect.soft(await sheet.axe(), 'list open').toEqual([]);
    await sheet.picture('list');
    await sheet.press('Escape', 'Escape');
    await sheet.cell('Lines', 'Replace a heater hose', 'Kind').click({ button: 'right' });
    await sheet.menu().waitFor();
    expect.soft(await sheet.axe(), 'menu open').toEqual([]);
    await sheet.picture('menu');
    await sheet.press('Escape');
    await sheet.clickAndEnter('Lines', 'Replace a heater hose', 'Book h', 'two');
    await sheet.press('ArrowUp');
    await sheet.hint().waitFor();
    expect.soft(await sheet.axe(), 'entry refused').toEqual([]);
    await sheet.picture('refused');
    await sheet.element.locator('baysheet-job summary').click();
    await sheet.element.locator('summary', { hasText: 'As a table' }).click();
    expect.soft(await sheet.axe(), 'everything open').toEqual([]);
  });

  test('problems of the sum shown, documents that cannot be read', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
    await sheet.element.evaluate((element) => {
      const { estimate } = element as HTMLElementTagNameMap['baysheet-estimate'];
      const broken = { ...estimate!, lines: [{ ...estimate!.lines[0]!, operation: 'nothing-known' }, ...estimate!.lines.slice(1)] };
      Object.assign(element, { estimate: broken });
      Object.assign(element, { rates: '{' });
    });
    await sheet.page.getByRole('heading', { name: 'To look at' }).waitFor();
    await sheet.page.getByRole('alert').waitFor();
    expect.soft(await sheet.axe()).toEqual([]);
    await sheet.picture('problems');
    expect(await sheet.element.getByText('Not complete.').isVisible()).toBe(true);
    // The words lead to the cell.
    await sheet.page.getByRole('button', { name: /nothing-known/ }).click();
    expect(await sheet.active()).toMatchObject({ grid: 'Lines', column: 'Work', rowIndex: 0 });
  });

  test.each([
    ['dark', 'van', { colorScheme: 'dark' }],
    ['empty', 'empty', {}],
    ['empty and dark', 'empty', { colorScheme: 'dark' }],
    ['narrow', 'van', { viewport: { width: 320, height: 640 } }],
  ] as const)('%s', async (_, estimate, options) => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo(estimate), options);
    await sheet.element.locator('baysheet-totals').waitFor();
    expect.soft(await sheet.axe()).toEqual([]);
  });
});

describe('colours', () => {
  const colours = () =>
    sheet.element.evaluate((element) => {
      const root = element.shadowRoot!;
      const look = (selector: string) => {
        const { color, backgroundColor } = getComputedStyle(root.querySelector(selector)!);
        return `${color} on ${backgroundColor}`;
      };
      return [
        look('.sheet'),
        look('.side'),
        look('#lines [role=rowheader]'),
        look('.tools button'),
        getComputedStyle(element).backgroundColor,
      ];
    });

  test('light and dark differ everywhere, and follow the person while the page is open', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
    await sheet.element.locator('[part=later]').waitFor();
    const light = await colours();
    await sheet.picture('light');
    await sheet.page.emulateMedia({ colorScheme: 'dark' });
    const dark = await colours();
    await sheet.picture('dark');
    for (const [i, colour] of light.entries()) expect(dark[i]).not.toBe(colour);
    await sheet.page.emulateMedia({ colorScheme: 'light' });
    expect(await colours()).toEqual(light);
  });

  test('with forced colours text, selection, marks and buttons can be told apart', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'), { forcedColors: 'active' });
    await sheet.clickAndEnter('Lines', 'Replace a heater hose', 'Book h', 'two');
    await sheet.picture('forced');
    const [ink, paper, border] = await sheet.cell('Lines', 'Replace a heater hose', 'Kind').evaluate((cell) => {
      const button = (cell.getRootNode() as ShadowRoot).querySelector('.tools button')!;
      return [
        getComputedStyle(cell).color,
        getComputedStyle(cell.closest('.sheet-of')!).backgroundColor,
        getComputedStyle(button).borderTopColor,
      ];
    });
    expect(ink).not.toBe(paper);
    expect(border).not.toBe(paper);
    expect.soft(await sheet.axe()).toEqual([]);
  });
});

describe('small screens and large text', () => {
  test('at 320 px nothing scrolls sideways but the grids, and the total stays in sight (WCAG 1.4.10, data tables excepted)', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'), { viewport: { width: 320, height: 640 } });
    await expectNoSidewaysScroll();
    await sheet.picture('narrow');
    const bar = sheet.element.locator('.bar');
    const total = await sheet.total();
    expect((await bar.innerText()).replace(/[^\d.]/g, '')).toBe(total);
    const box = (await bar.boundingBox())!;
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.y + box.height).toBeLessThanOrEqual(640);

    // The grid scrolls to what is beyond the side, and can be used there.
    await sheet.tabTo('grid Lines');
    await sheet.press('Control+Home', 'End');
    expect(await sheet.active()).toMatchObject({ column: 'Decision' });
    const cell = sheet.grid('Lines').locator('[aria-rowindex="2"] > [aria-colindex="13"]');
    const at = (await cell.boundingBox())!;
    expect(at.x).toBeGreaterThanOrEqual(0);
    expect(at.x + at.width).toBeLessThanOrEqual(320);
    await sheet.enter('dec');
    expect(await cell.innerText()).toBe('declined');
    await expectNoSidewaysScroll();
  });

  // Blocks of the picture are as wide as their hours; the titles beside them do the same (its exception "equivalent").
  test('touch targets are at least 24 px (WCAG 2.5.8)', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'), { viewport: { width: 390, height: 800 } });
    const small = await sheet.element.evaluate((element) => {
      const found: string[] = [];
      const look = (root: ShadowRoot): void => {
        for (const it of root.querySelectorAll('*')) if (it.shadowRoot) look(it.shadowRoot);
        for (const it of root.querySelectorAll(
          'button, a, summary, select, textarea, input:not([type=file]), [role=button]:not(g), td[role=gridcell]',
        )) {
          const { width, height } = it.getBoundingClientRect();
          if (width > 0 && (width < 23.5 || height < 23.5) && !(it instanceof HTMLInputElement && it.type === 'checkbox')) {
            found.push(`${it.tagName} ${it.textContent?.slice(0, 30)} ${width}×${height}`);
          }
        }
      };
      look(element.shadowRoot!);
      return found;
    });
    expect(small).toEqual([]);
  });

  test('at 200 % zoom and with text of twice the size nothing is lost', async () => {
    // A zoomed page is one with half the width at twice the scale.
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'), { viewport: { width: 700, height: 500 }, deviceScaleFactor: 2 });
    await expectNoSidewaysScroll();
    await sheet.picture('zoom');
    await sheet.clickCell('Lines', 'Replace a heater hose', 'Work');
    await sheet.press('End');
    await sheet.enter('app');
    expect((await sheet.estimate()).lines.find(({ id }) => id === 'l3')!.decision).toBe('approved');

    // The person's own text size: everything that is set in rem or em follows.
    await sheet.page.setViewportSize({ width: 1400, height: 1000 });
    const rowHeight = async () => (await sheet.row('Lines', 'Replace a heater hose').boundingBox())!.height;
    const before = await rowHeight();
    await sheet.page.evaluate(() => document.documentElement.style.setProperty('font-size', '32px'));
    await sheet.picture('large-text');
    await expectNoSidewaysScroll();
    await expect.poll(rowHeight).toBeGreaterThan(before * 1.4);
    const cut = await sheet
      .grid('Lines')
      .evaluate((grid) =>
        [...grid.querySelectorAll<HTMLElement>('tbody td')]
          .filter((cell) => cell.scrollHeight > cell.clientHeight + 1)
          .map((cell) => cell.textContent),
      );
    expect(cut).toEqual([]);
  });
});

describe('print', () => {
  test('holds every row and no cost, and no buttons', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
    const { page, element } = sheet;
    const priced = await sheet.pricedInNode();
    const { findings, lines } = await sheet.estimate();
    await page.emulateMedia({ media: 'print' });
    const print = element.locator('[part=print]');
    await print.waitFor();
    await sheet.picture('print');
    for (const hidden of ['.tools', '#lines', '#findings', '.band', 'baysheet-teardown'])
      expect(await element.locator(hidden).first().isVisible(), hidden).toBe(false);

    const rows = async (caption: RegExp) =>
      (await print.getByRole('table', { name: caption }).locator('tbody tr').allInnerTexts()).map((text) => text.replace(/\s+/g, ' '));
    expect(await rows(/^Findings/)).toHaveLength(findings.length);
    const work = await rows(/^Work/);
    for (const line of priced.lines)
      if (line.title !== '')
        expect(
          work.some((row) => row.includes(line.title.replace(/\s+/g, ' '))),
          line.title,
        ).toBe(true);
    for (const charge of priced.charges)
      expect(
        work.some((row) => row.includes(charge.title.replace(/\s+/g, ' '))),
        charge.title,
      ).toBe(true);
    expect(work.length).toBeGreaterThan(lines.length);
    const all = (await print.innerText()).toLowerCase();
    expect(all).not.toContain('cost');
    // What the shop pays for a water pump, against what it asks for it.
    expect(all).not.toMatch(/\b88\.00\b/);
    expect(all).toContain('143.10');
    expect((await element.locator('.print baysheet-totals [part=total]').innerText()).replace(/,/g, '')).toContain(priced.totals.total);

    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(pdf.length).toBeGreaterThan(10_000);
    await page.emulateMedia({ media: 'screen' });
    await print.waitFor({ state: 'detached' });
    expect(await sheet.grid('Lines').isVisible()).toBe(true);
  });

  test('in a dark scheme too paper is white', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'), { colorScheme: 'dark' });
    await sheet.page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const print = sheet.element.locator('[part=print]');
    await print.waitFor();
    const ink = await print.evaluate((it) => getComputedStyle(it).color);
    const light = (/\d+/.exec(ink) ?? ['255'])[0];
    expect(Number(light)).toBeLessThan(100);
  });
});
