import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { BaysheetEstimate } from '../../components/estimate/baysheet-estimate.js';
import { launchChromium } from './support/chromium.js';
import { serveEstimateSite, type EstimateSite } from './support/estimate-site.js';
import { demoEstimate, demoReference, SheetPage } from './support/sheet-page.js';

const GASKET = 'Replace the upper plenum gasket';
const RINGS = 'Replace the injector O-rings';
/** Of the demo's plenum estimate, and of its van, by the engine in Node; filled in before the tests. */
let totals: { plenum: string; van: string };

let site: EstimateSite;
let browser: Browser;
let sheet: SheetPage;

beforeAll(async () => {
  site = await serveEstimateSite({ oneFile: true });
  browser = await launchChromium(['--js-flags=--expose-gc']);
  const { priceEstimate, parseEstimate } = await import('../../src/index.js');
  const reference = await demoReference();
  const total = async (name: string): Promise<string> => {
    const estimate = parseEstimate(await demoEstimate(name));
    if (!estimate.ok) throw new Error('The demo must be valid.');
    return priceEstimate({ estimate: estimate.value, ...reference }).totals.total;
  };
  totals = { plenum: await total('plenum'), van: await total('van') };
});

afterAll(async () => {
  await browser?.close();
  await site?.close();
});

afterEach(() => sheet.done());

/** The bare page; the element is not known to it yet. */
async function openBare(): Promise<void> {
  sheet = await SheetPage.open(browser, site.bare);
  await sheet.page.waitForSelector('html[data-ready]');
}

/** The bare page with one element `#sheet` that shows the plenum estimate. */
async function openWithSheet(): Promise<void> {
  await openBare();
  await sheet.page.evaluate(async () => {
    await window.bare.load();
    await window.bare.put(window.bare.make(window.bare.documents.plenum), 'sheet');
  });
  sheet.use('#sheet');
  await sheet.ready();
}

const heard = (type: string) =>
  sheet.page.evaluate((wanted) => window.bare.heard.filter((event) => event.type === wanted), `baysheet-${type}`);

describe('ways into the page', () => {
  test('properties set before the element is known are kept', async () => {
    await openBare();
    await sheet.page.evaluate(async () => {
      await window.bare.put(window.bare.make(window.bare.documents.plenum), 'sheet');
      await window.bare.load();
    });
    sheet.use('#sheet');
    await sheet.ready();
    expect(await sheet.total()).toBe(totals.plenum);
    expect(await heard('change')).toEqual([]);
  });

  test('createElement, new, and a copy of a node', async () => {
    await openBare();
    await sheet.page.evaluate(async () => {
      await window.bare.load();
      const made = document.createElement('baysheet-estimate');
      if (made.attributes.length + made.childNodes.length > 0) throw new Error('A new element must be bare.');
      window.bare.fill(made, window.bare.documents.plenum);
      await window.bare.put(made, 'created');
      const Class = customElements.get('baysheet-estimate') as new () => BaysheetEstimate;
      const fresh = new Class();
      window.bare.fill(fresh, window.bare.documents.plenum);
      await window.bare.put(fresh, 'constructed');
      // Markup of the page itself is tried with the one-file script; Trusted Types keep innerHTML from this page.
      const source = document.createElement('baysheet-estimate');
      source.setAttribute('catalogue-src', '../rates/catalogue.demo.json');
      source.setAttribute('rates-src', '../rates/card.demo.json');
      source.setAttribute('estimate-src', '../plenum.estimate.json');
      const copy = source.cloneNode(true) as HTMLElement;
      await window.bare.put(copy, 'cloned');
    });
    for (const id of ['created', 'constructed', 'cloned']) {
      sheet.use(`#${id}`);
      await sheet.ready();
      expect(await sheet.total(), id).toBe(totals.plenum);
    }
  });

  test('what the page has set itself (tabindex, role, title) is left alone', async () => {
    await openBare();
    const found = await sheet.page.evaluate(async () => {
      const element = window.bare.make(window.bare.documents.plenum);
      element.setAttribute('tabindex', '3');
      element.setAttribute('role', 'region');
      element.title = 'Estimate';
      await window.bare.put(element, 'sheet');
      await window.bare.load();
      await element.updateComplete;
      return [...element.attributes].map(({ name, value }) => `${name}=${value}`).sort();
    });
    expect(found).toEqual(['id=sheet', 'role=region', 'tabindex=3', 'title=Estimate']);
  });

  test('the one-file script twice: warns, does not throw, and works', async () => {
    sheet = await SheetPage.open(browser, site.double);
    await sheet.ready();
    expect(await sheet.total()).toBe(totals.plenum);
    await expect
      .poll(() => sheet.warnings)
      .toEqual([expect.stringMatching(/^<baysheet-estimate> is registered already \(version \d+\.\d+\.\d+\)/)]);
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    expect(await sheet.figure('Labour')).toBe('300.00');
  });
});

describe('documents', () => {
  test('as objects and as JSON text; what is given back is a copy that can be given again', async () => {
    await openWithSheet();
    const found = await sheet.element.evaluate(async (it) => {
      const element = it as BaysheetEstimate;
      const first = element.estimate!;
      (first.lines as unknown[]).length = 0;
      const second = element.estimate!;
      element.estimate = second;
      const third = element.estimate;
      const { catalogue, rates } = window.bare.documents;
      Object.assign(element, { catalogue: JSON.stringify(catalogue), rates: JSON.stringify(rates), estimate: JSON.stringify(second) });
      await element.updateComplete;
      return { second, third, fourth: element.estimate, rates: element.rates!.id, catalogue: element.catalogue!.id };
    });
    expect(found.second.lines).toHaveLength(2);
    expect(found.third).toEqual(found.second);
    expect(found.fourth).toEqual(found.second);
    expect([found.rates, found.catalogue]).toEqual(['demo', 'demo']);
    expect(await sheet.total()).toBe(totals.plenum);
  });

  test('what the page sets is not announced; what a person does is, once, as a copy that leaves shadow roots', async () => {
    await openWithSheet();
    await sheet.element.evaluate(async (it) => {
      const element = it as BaysheetEstimate;
      element.estimate = window.bare.documents.van as never;
      element.rates = { ...window.bare.documents.rates } as never;
      await element.updateComplete;
      element.estimate = window.bare.documents.plenum as never;
      await element.updateComplete;
    });
    expect(await heard('change')).toEqual([]);
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    const [change, ...more] = await heard('change');
    expect(more).toEqual([]);
    expect(change!.composed).toBe(true);
    // The listener has put the detail through structuredClone already.
    expect(change!.detail).toMatchObject({
      what: 'entry',
      currency: 'USD',
      complete: true,
      totals: { labour: '300.00', total: await sheet.total() },
      estimate: await sheet.estimate(),
    });
    // An entry that changes nothing is no change, nor is moving about.
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    await sheet.press('ArrowUp', 'F2', 'Escape', 'Escape');
    expect(await heard('change')).toHaveLength(1);
    await sheet.press('Control+z');
    expect((await heard('change')).map(({ detail }) => (detail as { what: string }).what)).toEqual(['entry', 'undo entry']);
  });

  test('another estimate from the page begins a new history', async () => {
    await openWithSheet();
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    expect(await sheet.button('Undo').isEnabled()).toBe(true);
    await sheet.element.evaluate((it) => void ((it as BaysheetEstimate).estimate = window.bare.documents.van as never));
    await expect.poll(() => sheet.total()).toBe(totals.van);
    expect(await sheet.button('Undo').isDisabled()).toBe(true);
  });

  test('an address that is not there and a file that is not JSON are told in words; what was there stays', async () => {
    await openWithSheet();
    sheet.expectComplaint(/404.*nowhere\.json/);
    const set = (attribute: string, address: string) =>
      sheet.element.evaluate((element, [name, value]) => element.setAttribute(name!, value!), [attribute, address]);
    await set('estimate-src', '../nowhere.json');
    const alert = sheet.page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.innerText()).toMatch(/The estimate cannot be used[^]*nowhere\.json[^]*404/);
    expect(await sheet.total()).toBe(totals.plenum);
    expect(await heard('problem')).toMatchObject([{ composed: true, detail: { source: 'estimate', problems: [{ severity: 'error' }] } }]);

    await set('rates-src', '../index.html');
    await expect.poll(async () => (await alert.allInnerTexts()).join()).toContain('The rate card cannot be used');
    expect(await sheet.total()).toBe(totals.plenum);
    expect(await heard('problem')).toHaveLength(2);

    // A good address puts it right.
    await set('estimate-src', '../van.estimate.json');
    await set('rates-src', '../rates/card.demo.json');
    await expect.poll(() => sheet.total()).toBe(totals.van);
    await expect.poll(() => alert.count()).toBe(0);
  });

  test('without anything, with nonsense, and in any order', async () => {
    await openBare();
    const texts = await sheet.page.evaluate(async () => {
      await window.bare.load();
      const element = document.createElement('baysheet-estimate');
      await window.bare.put(element, 'sheet');
      const read = async () => {
        await element.updateComplete;
        return element.shadowRoot!.querySelector('.sheet')!.textContent.replace(/\s+/g, ' ').trim();
      };
      const told = [await read()];
      for (const nonsense of ['', '[]', '{"format":', 'null', [], 7, { __proto__: null, format: 'baysheet-estimate' }]) {
        (element as { estimate: unknown }).estimate = nonsense;
        told.push(await read());
      }
      element.rates = window.bare.documents.rates as never;
      element.estimate = window.bare.documents.plenum as never;
      told.push(await read());
      element.catalogue = window.bare.documents.catalogue as never;
      return told;
    });
    expect(texts[0]).toContain('Waiting for a catalogue and a rate card');
    for (const text of texts.slice(1, -1)) expect(text).toContain('The estimate cannot be used');
    expect(texts.at(-1)).toContain('Waiting for a catalogue');
    sheet.use('#sheet');
    await sheet.ready();
    expect(await sheet.total()).toBe(totals.plenum);
  });
});

describe('anywhere in the page', () => {
  test('twice: keys, selection and undo stay with the one that the person is in', async () => {
    await openWithSheet();
    await sheet.page.evaluate(() => window.bare.put(window.bare.make(window.bare.documents.van), 'other'));
    const other = () => sheet.use('#other');
    const first = () => sheet.use('#sheet');
    await other().ready();
    const vanBefore = await sheet.estimate();
    await first().clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    expect(await other().estimate()).toEqual(vanBefore);
    expect(await sheet.button('Undo').isDisabled()).toBe(true);
    await sheet.clickAndEnter('Lines', 'Replace a heater hose', 'Book h', '2');
    const vanAfter = await sheet.estimate();
    expect(vanAfter).not.toEqual(vanBefore);
    await sheet.press('Control+z', 'Control+z', 'Control+z');
    expect(await sheet.estimate()).toEqual(vanBefore);
    expect((await first().estimate()).lines[1]!.decision).toBe('declined');
    expect(await sheet.total()).not.toBe(totals.plenum);
    await sheet.clickCell('Lines', RINGS, 'Decision');
    await sheet.press('Control+z');
    expect(await sheet.total()).toBe(totals.plenum);
    // Only one cell of the page is active.
    expect(await sheet.page.locator('[aria-activedescendant][role=grid]').count()).toBe(1);
  });

  test('moved, removed and put back: what was entered and the history are kept', async () => {
    await openWithSheet();
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    await sheet.clickAndEnter('Lines', GASKET, 'Book h', 'two');
    await sheet.page.evaluate(() => {
      const element = document.querySelector('#sheet')!;
      const elsewhere = document.createElement('section');
      document.body.append(elsewhere);
      elsewhere.append(element);
    });
    await sheet.ready();
    expect(await sheet.cell('Lines', GASKET, 'Book h').innerText()).toBe('two');
    await sheet.clickAndEnter('Lines', GASKET, 'Decision', 'app');
    await sheet.page.evaluate(async () => {
      const element = document.querySelector<BaysheetEstimate>('#sheet')!;
      element.remove();
      await new Promise((resolve) => setTimeout(resolve, 50));
      document.querySelector('#place')!.append(element);
    });
    await sheet.ready();
    const { lines } = await sheet.estimate();
    expect(lines.map(({ decision }) => decision)).toEqual(['approved', 'declined']);
    expect(await sheet.cell('Lines', GASKET, 'Decision').innerText()).toBe('approved');
    await sheet.button('Undo').click();
    await sheet.button('Undo').click();
    await sheet.button('Undo').click();
    expect((await sheet.estimate()).lines.map(({ decision }) => decision)).toEqual(['proposed', 'proposed']);
    expect(await sheet.total()).toBe(totals.plenum);
  });

  test('given another estimate while it is out of the page', async () => {
    await openWithSheet();
    await sheet.page.evaluate(async () => {
      const element = document.querySelector<BaysheetEstimate>('#sheet')!;
      element.remove();
      element.estimate = window.bare.documents.van as never;
      await element.updateComplete;
      document.querySelector('#place')!.append(element);
    });
    await sheet.ready();
    expect(await sheet.total()).toBe(totals.van);
    expect(await sheet.column('Lines', 'Work')).toContain('Replace a heater hose');
  });

  test('two shadow roots deep: mouse, keys, list, menu and clipboard, and the event comes out', async () => {
    await openBare();
    await sheet.page.evaluate(async () => {
      await window.bare.load();
      const outer = document.createElement('div');
      outer.id = 'outer';
      document.querySelector('#place')!.append(outer);
      const inner = document.createElement('div');
      outer.attachShadow({ mode: 'open' }).append(inner);
      await window.bare.put(window.bare.make(window.bare.documents.plenum), 'deep', inner.attachShadow({ mode: 'open' }));
    });
    sheet.use('#deep');
    await sheet.ready();
    await sheet.cell('Lines', RINGS, 'Book h').dblclick();
    await sheet.field().click();
    await sheet.field().fill('3');
    await sheet.press('Enter');
    await sheet.button('Add finding').click();
    await sheet.type('heater hose seep');
    await sheet.list().getByRole('option').nth(1).click();
    await sheet.cell('Lines', GASKET, 'Kind').click({ button: 'right' });
    await sheet.chooseFromMenu('Decline');
    await sheet.clickCell('Lines', RINGS, 'Book h');
    await sheet.press('Control+c');
    expect(await sheet.clipboard()).toBe('3');
    await sheet.press('Control+z');
    const { lines } = await sheet.estimate();
    expect(lines).toMatchObject([{ decision: 'proposed' }, { bookHours: '3' }, { operation: 'heater-hose-one', positions: ['feed'] }]);
    await sheet.expectTotalOfEngine();
    expect(await heard('change')).toHaveLength(4);
  });

  test('in a modal dialog: lists and menus come up above it, and Escape is first theirs', async () => {
    await openBare();
    await sheet.page.evaluate(async () => {
      await window.bare.load();
      const dialog = document.createElement('dialog');
      dialog.style.cssText = 'width: 95vw; max-width: none';
      document.body.append(dialog);
      await window.bare.put(window.bare.make(window.bare.documents.plenum), 'sheet', dialog);
      dialog.showModal();
    });
    sheet.use('#sheet');
    await sheet.ready();
    const isOpen = () => sheet.page.evaluate(() => document.querySelector('dialog')!.open);
    const onTop = (what: string) =>
      sheet.element
        .locator(what)
        .first()
        .evaluate((it) => {
          const { left, top, width, height } = it.getBoundingClientRect();
          const root = it.getRootNode() as ShadowRoot;
          return it.contains(root.elementFromPoint(left + width / 2, top + height / 2));
        });
    await sheet.cell('Lines', RINGS, 'Work').dblclick();
    await sheet.list().waitFor();
    expect(await onTop('[role=option][aria-selected=true]')).toBe(true);
    await sheet.press('Escape');
    expect(await sheet.list().count()).toBe(0);
    await sheet.press('Escape');
    expect(await sheet.field().count()).toBe(0);
    expect(await isOpen()).toBe(true);
    await sheet.cell('Lines', RINGS, 'Kind').click({ button: 'right' });
    await sheet.menu().waitFor();
    expect(await onTop('[role=menuitem]')).toBe(true);
    await sheet.press('Escape');
    expect(await sheet.menu().count()).toBe(0);
    expect(await isOpen()).toBe(true);
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    expect(await sheet.figure('Labour')).toBe('300.00');
  });

  test('put into the document of a frame it says why it cannot work there; moved back it goes on', async () => {
    await openWithSheet();
    const look = () => sheet.element.evaluate((it) => getComputedStyle(it.shadowRoot!.querySelector('.side')!).borderTopColor);
    const before = await look();
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    await sheet.page.evaluate(() => {
      const frame = document.createElement('iframe');
      document.body.append(frame);
      frame.contentDocument!.body.append(document.querySelector('#sheet')!);
    });
    const inside = sheet.page.frameLocator('iframe').locator('#sheet');
    await inside.getByText(/^This sheet was moved into the document of a frame/).waitFor();
    expect(await inside.evaluate((it) => (it as BaysheetEstimate).estimate!.lines.map((line) => line.decision))).toContain('declined');

    await sheet.page.evaluate(() => {
      const frame = document.querySelector('iframe')!;
      document.body.append(frame.contentDocument!.querySelector('#sheet')!);
    });
    await sheet.ready();
    expect(await look()).toBe(before);
    expect(await sheet.figure('Labour')).toBe('300.00');
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'prop');
    expect(await sheet.total()).toBe(totals.plenum);
    await sheet.press('Control+z');
    expect(await sheet.figure('Labour')).toBe('300.00');
  });

  test('hidden, and shown later', async () => {
    await openBare();
    await sheet.page.evaluate(async () => {
      await window.bare.load();
      const element = window.bare.make(window.bare.documents.van);
      element.hidden = true;
      await window.bare.put(element, 'sheet');
    });
    sheet.use('#sheet');
    expect(await sheet.element.evaluate((it) => getComputedStyle(it).display)).toBe('none');
    await sheet.element.evaluate((it) => void ((it as HTMLElement).hidden = false));
    await sheet.ready();
    await expect.poll(async () => (await sheet.rows('Lines')).length).toBeGreaterThanOrEqual(20);
    const fill = () => sheet.grid('Lines').evaluate((grid) => [grid.clientWidth, grid.querySelector('table')!.offsetWidth]);
    await expect.poll(async () => (await fill())[1]! / (await fill())[0]! > 0.97).toBe(true);
    await sheet.element.evaluate((it) => void ((it as HTMLElement).hidden = true));
    await sheet.element.evaluate((it) => void ((it as BaysheetEstimate).estimate = window.bare.documents.plenum as never));
    await sheet.element.evaluate((it) => void ((it as HTMLElement).hidden = false));
    await expect.poll(() => sheet.column('Lines', 'Work')).toContain(RINGS);
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    expect(await sheet.figure('Labour')).toBe('300.00');
  });
});

test('the page’s resets do not reach the sheet: every box is where it was, within a pixel', async () => {
  /** Boxes of all that stands in the element's shadow roots, as far as they can be seen, from its own corner. */
  const boxes = async (): Promise<Record<string, number[]>> =>
    sheet.element.evaluate((element) => {
      const origin = element.getBoundingClientRect();
      const found: Record<string, number[]> = {};
      const look = (root: ShadowRoot, path: string): void => {
        [...root.querySelectorAll('*')].forEach((it, i) => {
          let { left, top, right, bottom } = it.getBoundingClientRect();
          for (let around = it.parentElement; around !== null; around = around.parentElement) {
            if (getComputedStyle(around).overflowX === 'visible') continue;
            const box = around.getBoundingClientRect();
            [left, top] = [Math.max(left, box.left), Math.max(top, box.top)];
            [right, bottom] = [Math.min(right, box.right), Math.min(bottom, box.bottom)];
          }
          const name = `${path} ${i} ${it.localName}.${it.getAttribute('class') ?? ''}`;
          const seen = right > left && bottom > top && !(it instanceof HTMLSlotElement);
          if (seen) found[name] = [left - origin.left, top - origin.top, right - left, bottom - top];
          if (it.shadowRoot) look(it.shadowRoot, `${path} ${it.localName}`);
        });
      };
      look(element.shadowRoot!, '');
      return found;
    });
  const openUnder = async (css: string): Promise<Record<string, number[]>> => {
    await openBare();
    await sheet.page.evaluate((rules) => {
      const reset = new CSSStyleSheet();
      reset.replaceSync(rules);
      document.adoptedStyleSheets.push(reset);
    }, css);
    await sheet.page.evaluate(async () => {
      await window.bare.load();
      const element = window.bare.make(window.bare.documents.van);
      element.style.width = '1200px';
      await window.bare.put(element, 'sheet');
    });
    sheet.use('#sheet');
    await sheet.ready();
    await sheet.element.locator('[part=later]').waitFor();
    const found = await boxes();
    await sheet.picture(css === '' ? 'plain-page' : 'reset-page');
    return found;
  };
  const plain = await openUnder('');
  await sheet.done();
  // The root's own text size stays: the sheet follows it (rem), as it follows the person's.
  const under = await openUnder(`
    html { font-size: 16px; }
    * { box-sizing: content-box; line-height: 3; font: 30px serif; letter-spacing: 3px; word-spacing: 5px; text-transform: uppercase; text-align: right; text-indent: 9px; }
    div, span, table, td, th, button, input, section, p, h2, ul, li { margin: 7px; padding: 7px; border: 3px solid red; color: red; }
  `);
  const moved = Object.entries(plain).flatMap(([name, box]) => {
    const now = under[name];
    const far = now === undefined || box.some((length, i) => Math.abs(length - now[i]!) > 1);
    return far ? [`${name}: ${box.map(Math.round).join(' ')} → ${now?.map(Math.round).join(' ')}`] : [];
  });
  expect(Object.keys(plain).length).toBeGreaterThan(400);
  expect(moved.slice(0, 20)).toEqual([]);
});

test('200 times put into the page, used, and removed: no nodes and no listeners stay behind', async () => {
  await openWithSheet();
  await sheet.element.evaluate((it) => it.remove());
  const session = await sheet.context.newCDPSession(sheet.page);
  await session.send('Performance.enable');
  await session.send('HeapProfiler.enable');
  const counts = async () => {
    // Timers that were set for later (pictures, hints) must have come to nothing too.
    await sheet.page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 600)));
    for (let i = 0; i < 3; i += 1) await session.send('HeapProfiler.collectGarbage');
    const { metrics } = await session.send('Performance.getMetrics');
    const metric = (name: string): number => metrics.find((it) => it.name === name)!.value;
    return { nodes: metric('Nodes'), listeners: metric('JSEventListeners') };
  };
  const cycles = (times: number) =>
    sheet.page.evaluate(async (count) => {
      for (let i = 0; i < count; i += 1) {
        const element = window.bare.make(window.bare.documents.plenum);
        await window.bare.put(element, 'sheet');
        const root = element.shadowRoot!;
        const grid = root.querySelector<HTMLElement>('#lines [role=grid]')!;
        grid.focus();
        // In turn: an open list, an open menu, a finished entry; each is under way when the element goes.
        const key = (name: string) =>
          root.activeElement!.dispatchEvent(new KeyboardEvent('keydown', { key: name, bubbles: true, composed: true, cancelable: true }));
        key(['F2', 'ContextMenu', 'Delete'][i % 3]!);
        await element.updateComplete;
        element.remove();
        if (i % 4 === 0) {
          document.querySelector('#place')!.append(element);
          await element.updateComplete;
          element.remove();
        }
      }
      window.bare.heard.length = 0;
    }, times);
  await cycles(20);
  const first = await counts();
  await cycles(50);
  const second = await counts();
  await cycles(150);
  const third = await counts();
  // A small constant for what the browser itself keeps of the last one; it may not grow with the cycles.
  const constant = { nodes: 20, listeners: 4 };
  expect(second.nodes - first.nodes).toBeLessThanOrEqual(constant.nodes);
  expect(third.nodes - first.nodes).toBeLessThanOrEqual(constant.nodes);
  expect(second.listeners - first.listeners).toBeLessThanOrEqual(constant.listeners);
  expect(third.listeners - first.listeners).toBeLessThanOrEqual(constant.listeners);
});

test('500 lines: scrolled to the end, changed there, and the total is right', async () => {
  await openBare();
  await sheet.page.evaluate(async () => {
    await window.bare.load();
    const { catalogue, plenum } = window.bare.documents;
    const lines = Array.from({ length: 500 }, (_, i) => {
      const operation = catalogue.operations[i % catalogue.operations.length]!;
      if (i % 5 === 4)
        return {
          id: `l${i}`,
          kind: 'part',
          title: `Part ${i}`,
          number: '',
          qty: '2',
          cost: '4.10',
          unitPrice: null,
          core: '0',
          condition: 'new',
        };
      return { id: `l${i}`, kind: 'operation', operation: operation.id, positions: [], findings: [], decision: 'proposed' };
    });
    lines.push({ id: 'last', kind: 'labour', title: 'The last line', hours: '1', labourClass: 'general' } as never);
    await window.bare.put(window.bare.make({ ...plenum, findings: [], lines }), 'sheet');
  });
  sheet.use('#sheet');
  await sheet.ready();
  await sheet.expectTotalOfEngine();
  // Only the rows in sight are in the document.
  expect(await sheet.grid('Lines').locator('tbody tr').count()).toBeLessThan(80);
  await sheet.clickCell('Lines', (await sheet.column('Lines', 'Work'))[0]!, 'Work');
  await sheet.press('Control+End', 'ArrowUp');
  expect(await sheet.active()).toMatchObject({ row: 'The last line', column: 'Decision' });
  const before = await sheet.total();
  await sheet.clickCell('Lines', 'The last line', 'Book h');
  await sheet.enter('=2*1.25');
  expect(await sheet.cell('Lines', 'The last line', 'Amount').innerText()).toBe('375.00');
  const priced = await sheet.expectTotalOfEngine();
  expect(priced.totals.total).not.toBe(before);
  await sheet.press('Control+z');
  expect(await sheet.total()).toBe(before);
  await sheet.grid('Lines').evaluate((grid) => void (grid.scrollTop = 0));
  await expect.poll(() => sheet.grid('Lines').locator('[aria-rowindex="2"]').count()).toBe(1);
});
