/**
 * How custom elements behave, on all three elements, driven by what their comments promise (the custom-elements manifest).
 *
 * Against: "Custom Element Best Practices" (web.dev/articles/custom-elements-best-practices), the Gold Standard checklist
 * for web components, the publishing advice of lit.dev and the HTML standard, "Custom elements". Read at second hand, in
 * a list of 23 rows made from them; `ROWS` says where each row is proven.
 */
import { copyFile, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { absentModules } from '../../components/grid/absent/alias.js';
import { parseCatalogue, parseEstimate, parseRates } from '../../src/index.js';
import { customerCopy } from '../../src/share/customer-copy.js';
import { type Declaration, readManifest } from '../support/manifest.js';
import type { Tag } from './conventions-page/main.js';
import { launchChromium } from './support/chromium.js';
import { pagePolicy } from './support/demo-site.js';
import { serveFolder, type StaticServer } from './support/serve.js';
import { openWatched, type WatchedPage } from './support/watched-page.js';

const root = join(import.meta.dirname, '../..');
const TAGS: readonly Tag[] = ['baysheet-estimate', 'baysheet-customer', 'baysheet-rates'];

/** What each row asks, and the tests that prove it: a file below `tests/` and the beginning of a title in it. */
const ROWS: readonly {
  readonly row: number;
  readonly asks: string;
  readonly proofs: readonly (readonly [file: string, title: string])[];
  readonly not?: string;
}[] = [
  {
    row: 1,
    asks: 'createElement, innerHTML, cloneNode, new and the parser; the constructor adds nothing',
    proofs: [
      ['browser/conventions.test.ts', 'every way into a document'],
      ['browser/readme.test.ts', 'the page in the README works'],
    ],
  },
  {
    row: 2,
    asks: 'properties set before the upgrade are kept',
    proofs: [['browser/conventions.test.ts', 'every property that is set before']],
  },
  {
    row: 3,
    asks: 'attributes and properties go together; rich data is never reflected',
    proofs: [['browser/conventions.test.ts', 'every attribute sets its property']],
  },
  { row: 4, asks: 'global attributes stay the author’s', proofs: [['browser/conventions.test.ts', 'what the author has set']] },
  {
    row: 5,
    asks: 'no events from what the page sets',
    proofs: [
      ['browser/conventions.test.ts', 'every property that is set before'],
      ['browser/estimate-life.test.ts', 'what the page sets is not announced'],
      ['browser/rates.test.ts', 'a bad card is refused'],
    ],
  },
  {
    row: 6,
    asks: 'events: one prefix, bubbling, composed, details that can be cloned; those documented and no others',
    proofs: [
      ['browser/every-state.test.ts', 'the sheet'],
      ['browser/every-state.test.ts', 'the owner’s desk'],
      ['browser/every-state.test.ts', 'the customer’s page'],
    ],
  },
  { row: 7, asks: 'events and elements are typed', proofs: [['browser/elements.typetest.ts', '']] },
  {
    row: 8,
    asks: 'what is set can be read back, as a copy',
    proofs: [['browser/conventions.test.ts', 'documents come back as they were given']],
  },
  {
    row: 9,
    asks: 'moved, removed, put into another document: data stay, nothing leaks',
    proofs: [
      ['browser/conventions.test.ts', 'into the document of a frame and back'],
      ['browser/estimate-life.test.ts', '200 times put into the page'],
      ['browser/customer-life.test.ts', '100 times put into the page'],
      ['browser/rates-catalogue.test.ts', 'keeps its history and grids when it is moved'],
    ],
  },
  { row: 10, asks: 'a block of its own; [hidden] hides it', proofs: [['browser/conventions.test.ts', 'in a dialog, in shadow roots']] },
  {
    row: 11,
    asks: 'no global names or styles; in shadow roots, dialogs, hidden parts, right to left, at 200 %',
    proofs: [
      ['browser/conventions.test.ts', 'in a dialog, in shadow roots'],
      ['browser/estimate-life.test.ts', 'two shadow roots deep'],
      ['browser/every-state.test.ts', 'the sheet'],
    ],
  },
  {
    row: 12,
    asks: 'parts and custom properties are there as documented, and no others',
    proofs: [
      ['browser/every-state.test.ts', 'the sheet'],
      ['browser/every-state.test.ts', 'the owner’s desk'],
      ['browser/every-state.test.ts', 'the customer’s page'],
    ],
  },
  {
    row: 13,
    asks: 'slots',
    proofs: [
      ['browser/every-state.test.ts', 'the sheet'],
      ['browser/every-state.test.ts', 'the owner’s desk'],
      ['browser/every-state.test.ts', 'the customer’s page'],
    ],
  },
  {
    row: 14,
    asks: 'form association',
    proofs: [],
    not: 'No element is a field of a form: each is a whole job, and hands over documents by events.',
  },
  { row: 15, asks: 'custom states', proofs: [['browser/conventions.test.ts', 'states can be matched']] },
  {
    row: 16,
    asks: 'keys, focus, no trap',
    proofs: [
      ['browser/keyboard.test.ts', 'Tab leaves after Escape'],
      ['browser/grid.test.ts', 'Tab comes in at the first cell'],
      ['browser/customer.test.ts', 'by keyboard alone'],
    ],
  },
  { row: 17, asks: 'loads in Node', proofs: [['engine/package.test.ts', '%s loads in Node']] },
  {
    row: 18,
    asks: 'class entries register nothing; define entries once, and a second copy only warns',
    proofs: [
      ['engine/package.test.ts', 'registers the element with define alone'],
      ['browser/conventions.test.ts', 'a second copy warns'],
      ['browser/estimate-life.test.ts', 'the one-file script twice'],
    ],
  },
  {
    row: 19,
    asks: 'modules for bundlers and one file for a script tag',
    proofs: [
      ['engine/package.test.ts', 'is clean under publint'],
      ['engine/package.test.ts', 'has types that resolve'],
      ['engine/package.test.ts', 'needs nothing beside estimate.js'],
    ],
  },
  {
    row: 20,
    asks: 'a manifest, and what is generated from it is not stale',
    proofs: [
      ['engine/package.test.ts', 'describes the element to editors'],
      ['engine/generated.test.ts', 'README.md describes the elements'],
    ],
  },
  {
    row: 21,
    asks: 'the layout follows the room that the element has',
    proofs: [['browser/conventions.test.ts', 'the layout follows the width of its place']],
  },
  {
    row: 22,
    asks: 'colour schemes, forced colours, print',
    proofs: [
      ['browser/every-state.test.ts', 'the sheet'],
      ['browser/estimate-look.test.ts', 'light and dark differ'],
      ['browser/customer-look.test.ts', '%s: few pages'],
    ],
  },
  { row: 23, asks: 'React and Vue set properties and hear events', proofs: [['browser/hosts.test.ts', '']] },
];

test('all 23 rows, each proven where it says', async () => {
  expect(ROWS.map(({ row }) => row)).toEqual([...Array(23)].map((_, i) => i + 1));
  for (const { row, asks, proofs, not } of ROWS) {
    expect(proofs.length > 0 || (not ?? '') !== '', `row ${row}: ${asks}`).toBe(true);
    for (const [file, title] of proofs) {
      const text = await readFile(join(root, 'tests', file), 'utf8');
      expect(title === '' || text.includes(`'${title}`), `row ${row}: ${file} has "${title}"`).toBe(true);
    }
  }
});

const manifest = new Map<Tag, Declaration>();
let browser: Browser;
let folder: string;
let shelf: StaticServer;
let copy: ReturnType<typeof customerCopy>;
let watched: WatchedPage;
let page: Page;

beforeAll(async () => {
  browser = await launchChromium();
  for (const [tag, declaration] of readManifest('test-output/manifest-of-conventions')) manifest.set(tag as Tag, declaration);
  await mkdir(join(root, 'test-output'), { recursive: true });
  folder = await mkdtemp(join(root, 'test-output/conventions-'));
  process.env['NODE_ENV'] = 'production';
  await build({
    configFile: false,
    root: join(import.meta.dirname, 'conventions-page'),
    base: './',
    publicDir: false,
    logLevel: 'error',
    resolve: { alias: absentModules },
    worker: { format: 'es' },
    build: { outDir: folder, target: 'es2022', modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
  });
  const files = {
    'catalogue.json': 'rates/catalogue.demo.json',
    'rates.json': 'rates/card.demo.json',
    'estimate.json': 'demo/van.estimate.json',
    'keys.json': 'demo/customer.keys.json',
  };
  for (const [name, from] of Object.entries(files)) await copyFile(join(root, from), join(folder, name));
  const tags = TAGS.map((tag) => `<${tag}></${tag}>`).join('');
  await writeFile(
    join(folder, 'parsed.html'),
    (await readFile(join(folder, 'index.html'), 'utf8')).replace('<main id="place">', `<main id="place">${tags}`),
  );
  shelf = await serveFolder(folder, { 'content-security-policy': pagePolicy });
  const read = async (path: string) => JSON.parse(await readFile(join(root, path), 'utf8')) as unknown;
  const [estimate, catalogue, rates] = [
    parseEstimate(await read('demo/van.estimate.json')),
    parseCatalogue(await read('rates/catalogue.demo.json')),
    parseRates(await read('rates/card.demo.json')),
  ];
  if (!estimate.ok || !catalogue.ok || !rates.ok) throw new Error('The demo’s documents must be valid.');
  copy = customerCopy({
    estimate: estimate.value,
    catalogue: catalogue.value,
    rates: rates.value,
    shop: { name: 'Quillbrook Motor Works' },
  });
});

afterAll(async () => {
  await browser?.close();
  await shelf?.close();
  await rm(folder, { recursive: true, force: true });
});

afterEach(async () => {
  if (watched === undefined) return;
  await watched.close();
  expect(watched.complaints).toEqual([]);
});

async function open(path = ''): Promise<void> {
  watched = await openWatched(browser, `${shelf.url}/${path}`);
  ({ page } = watched);
  await page.waitForSelector('html[data-ready]', { state: 'attached' });
}

/** A loaded element in the page that shows all it can. */
async function show(tag: Tag): Promise<void> {
  await open();
  await page.evaluate(
    async ({ name, given }) => {
      await window.shelf.load(name);
      const element = Object.assign(document.createElement(name), window.shelf.filled(given)[name]);
      document.querySelector('#place')!.append(element);
      await element.updateComplete;
    },
    { name: tag, given: copy },
  );
  await page.locator(SHOWN[tag]).first().waitFor();
}

/** What is there when an element shows its documents. */
const SHOWN: Record<Tag, string> = {
  'baysheet-estimate': 'baysheet-estimate [role=grid]',
  'baysheet-customer': 'baysheet-customer .line',
  'baysheet-rates': 'baysheet-rates [role=grid]',
};

/** Properties that a page may set, by the manifest. */
function settable(tag: Tag): string[] {
  const members = manifest.get(tag)!.members ?? [];
  return members
    .filter(
      ({ kind, privacy, readonly, ...rest }) =>
        kind === 'field' && privacy === undefined && readonly !== true && rest.static !== true && rest.description !== undefined,
    )
    .map(({ name }) => name);
}

describe.each(TAGS)('<%s>', (tag) => {
  test('every way into a document; the constructor sets no attribute and no child', async () => {
    await open('parsed.html');
    const found = await page.evaluate(async (name) => {
      const types = (
        window as unknown as { trustedTypes: { createPolicy(name: string, rules: object): { createHTML(text: string): string } } }
      ).trustedTypes;
      const policy = types.createPolicy('the-test', { createHTML: (text: string) => text });
      await window.shelf.load(name);
      const Class = customElements.get(name)!;
      const place = document.createElement('div');
      place.innerHTML = policy.createHTML(`<${name} id="markup"></${name}>`);
      const ways = {
        parser: document.querySelector(`#place > ${name}`)!,
        createElement: document.createElement(name),
        new: new Class(),
        innerHTML: place.firstElementChild!,
        cloneNode: document.createElement(name).cloneNode(true) as Element,
        importNode: document.importNode(document.createElement(name), true),
      };
      const bare = Object.entries(ways).filter(
        ([way, element]) => way === 'innerHTML' || way === 'parser' || element.attributes.length + element.childNodes.length === 0,
      );
      document.querySelector('#place')!.append(...Object.values(ways));
      await Promise.all(
        Object.values(ways).map((element) => (element as HTMLElement & { updateComplete: Promise<unknown> }).updateComplete),
      );
      return {
        bare: bare.length,
        alive: Object.values(ways).map((element) => element instanceof Class && element.shadowRoot!.childElementCount > 0),
      };
    }, tag);
    expect(found).toEqual({ bare: 6, alive: Array<boolean>(6).fill(true) });
  });

  test('every property that is set before the element is known is kept, and none is announced', async () => {
    await open();
    const names = settable(tag);
    expect(names.length).toBeGreaterThan(5);
    const found = await page.evaluate(
      async ({ name, properties, given }) => {
        const samples = window.shelf.samples(given)[name];
        const elements = properties.map((property) => {
          const element = document.createElement(name) as unknown as HTMLElement & Record<string, unknown>;
          element[property] = samples[property];
          document.querySelector('#place')!.append(element);
          return element;
        });
        await window.shelf.load(name);
        await Promise.all(elements.map((element) => element['updateComplete']));
        // What it comes to when it is set on an element that is known.
        const late = properties.map(
          (property) =>
            Object.assign(document.createElement(name), { [property]: samples[property] }) as unknown as Record<string, unknown>,
        );
        document.querySelector('#place')!.append(...(late as unknown as HTMLElement[]));
        await Promise.all(late.map((element) => element['updateComplete']));
        const lost = properties.filter((property, i) => {
          const [early, known] = [elements[i]![property], late[i]![property]];
          const isSame = early === known || JSON.stringify(early) === JSON.stringify(known);
          return !(property in samples) || early === null || early === undefined || !isSame || Object.hasOwn(elements[i]!, property);
        });
        // `lang` was the platform's own before, which reflects it.
        const attributes = elements
          .flatMap((element) => [...element.attributes].map((attribute) => attribute.name))
          .filter((attribute) => attribute !== 'lang');
        return { lost, attributes, heard: window.shelf.heard.filter((type) => type !== 'baysheet-problem') };
      },
      { name: tag, properties: names, given: copy },
    );
    expect(found).toEqual({ lost: [], attributes: [], heard: [] });
  });

  test('every attribute sets its property; what the page sets as a property is not written back', async () => {
    await open();
    const attributes = (manifest.get(tag)!.attributes ?? []).map(({ name, fieldName, type }) => ({
      name,
      field: fieldName ?? name,
      isBoolean: type?.text === 'boolean',
    }));
    const found = await page.evaluate(
      async ({ name, list }) => {
        await window.shelf.load(name);
        const wrong: string[] = [];
        for (const { name: attribute, field, isBoolean } of list) {
          const element = document.createElement(name) as unknown as HTMLElement & Record<string, unknown>;
          document.querySelector('#place')!.append(element);
          const value = isBoolean ? '' : attribute.endsWith('-src') ? './keys.json' : 'es';
          element.setAttribute(attribute, value);
          if (element[field] !== (isBoolean ? true : value)) wrong.push(`${attribute}: the property is ${JSON.stringify(element[field])}`);
          element.removeAttribute(attribute);
          if (element[field]) wrong.push(`${attribute}: removed, the property is ${JSON.stringify(element[field])}`);
          element[field] = isBoolean ? true : value;
          await element['updateComplete'];
          if (element.hasAttribute(attribute)) wrong.push(`${attribute} is written back`);
        }
        return wrong;
      },
      { name: tag, list: attributes },
    );
    expect(attributes.length).toBeGreaterThan(1);
    expect(found).toEqual([]);
  });

  test('what the author has set stays: tabindex, role, title, class, id, dir, aria, data', async () => {
    await show(tag);
    const found = await page.evaluate(
      async ({ name, given }) => {
        const authored = {
          id: 'mine',
          class: 'theirs',
          tabindex: '3',
          role: 'region',
          title: 'A title',
          dir: 'rtl',
          'aria-label': 'A label',
          'data-x': '1',
          hidden: '',
        };
        const element = document.createElement(name) as HTMLElement & { updateComplete: Promise<unknown> };
        for (const [attribute, value] of Object.entries(authored)) element.setAttribute(attribute, value);
        Object.assign(element, window.shelf.filled(given)[name]);
        element.removeAttribute('lang');
        document.querySelector('#place')!.append(element);
        await element.updateComplete;
        await new Promise((resolve) => setTimeout(resolve));
        return Object.fromEntries([...element.attributes].map((attribute) => [attribute.name, attribute.value]));
      },
      { name: tag, given: copy },
    );
    expect(found).toEqual({
      id: 'mine',
      class: 'theirs',
      tabindex: '3',
      role: 'region',
      title: 'A title',
      dir: 'rtl',
      'aria-label': 'A label',
      'data-x': '1',
      hidden: '',
    });
  });

  test('documents come back as they were given, as copies', async () => {
    await show(tag);
    const found = await page.evaluate(
      async ({ name, given }) => {
        const faults: string[] = [];
        for (const [property, value] of Object.entries(window.shelf.filled(given)[name])) {
          if (typeof value !== 'object' || value === null) continue;
          const element = document.createElement(name) as unknown as HTMLElement & Record<string, unknown>;
          document.querySelector('#place')!.append(element);
          const others = window.shelf.filled(given)[name];
          Object.assign(element, others, { [property]: structuredClone(value) });
          await element['updateComplete'];
          const ours = structuredClone(value) as Record<string, unknown>;
          element[property] = ours;
          await element['updateComplete'];
          const before = JSON.stringify(element[property]);
          ours['title'] = ours['id'] = 'changed after it was given';
          const theirs = element[property] as Record<string, unknown>;
          for (const key of Object.keys(theirs)) delete theirs[key];
          if (JSON.stringify(element[property]) !== before) faults.push(`${property} is shared with the page`);
          element[property] = JSON.parse(before) as unknown;
          await element['updateComplete'];
          if (JSON.stringify(element[property]) !== before) faults.push(`${property} does not come back as it was given`);
        }
        return faults;
      },
      { name: tag, given: copy },
    );
    expect(found).toEqual([]);
  });

  test('into the document of a frame and back: what it holds stays, and it is drawn again', async () => {
    await show(tag);
    const found = await page.evaluate(async (name) => {
      const element = document.querySelector(name) as unknown as HTMLElement & { updateComplete: Promise<unknown> } & Record<
          string,
          unknown
        >;
      const [, property] = { 'baysheet-estimate': ['', 'estimate'], 'baysheet-customer': ['', 'copy'], 'baysheet-rates': ['', 'rates'] }[
        name
      ];
      const held = JSON.stringify(element[property!]);
      const look = (): string => getComputedStyle(element).display;
      const frame = document.createElement('iframe');
      document.body.append(frame);
      const before = look();
      frame.contentDocument!.body.append(element);
      await element.updateComplete;
      const there = {
        display: frame.contentWindow!.getComputedStyle(element).display,
        words: element.shadowRoot!.textContent.trim().length > 20,
        held: JSON.stringify(element[property!]) === held,
      };
      document.querySelector('#place')!.append(element);
      await element.updateComplete;
      frame.remove();
      return { there, before, after: look(), held: JSON.stringify(element[property!]) === held };
    }, tag);
    expect(found).toEqual({
      there: { display: tag === 'baysheet-customer' ? 'block' : found.there.display, words: true, held: true },
      before: 'block',
      after: 'block',
      held: true,
    });
    await page.locator(SHOWN[tag]).first().waitFor();
  });

  test('in a dialog, in shadow roots, in a part that is hidden at first, right to left: there and as wide as its place; no global names or styles', async () => {
    await open();
    const found = await page.evaluate(
      async ({ name, given }) => {
        const globals = new Set(Object.getOwnPropertyNames(window));
        const head = document.head.childElementCount;
        const [links, modules] = [
          document.querySelectorAll('head link[rel=modulepreload], head link[rel=stylesheet]').length,
          document.scripts.length,
        ];
        await window.shelf.load(name);
        const make = () =>
          Object.assign(document.createElement(name), window.shelf.filled(given)[name]) as HTMLElement & {
            updateComplete: Promise<unknown>;
          };
        const place = document.querySelector('#place')!;
        const dialog = document.createElement('dialog');
        const outer = document.createElement('div');
        const inner = document.createElement('div');
        const hidden = document.createElement('div');
        const rtl = document.createElement('div');
        place.append(dialog, outer, hidden, rtl);
        outer.attachShadow({ mode: 'open' }).append(inner);
        hidden.hidden = true;
        rtl.dir = 'rtl';
        dialog.showModal();
        const places = { dialog, shadow: inner.attachShadow({ mode: 'open' }), hidden, rtl };
        const made = Object.entries(places).map(([where, parent]) => {
          const element = make();
          parent.append(element);
          return [where, element] as const;
        });
        await Promise.all(made.map(([, element]) => element.updateComplete));
        hidden.hidden = false;
        const faults: string[] = [];
        await new Promise((resolve) => setTimeout(resolve, 300));
        for (const [where, element] of made) {
          const box = element.getBoundingClientRect();
          if (getComputedStyle(element).display !== 'block') faults.push(`${where}: display ${getComputedStyle(element).display}`);
          if (box.width < 100 || box.height < 100) faults.push(`${where}: ${box.width} × ${box.height}`);
          const over = element.scrollWidth - element.clientWidth;
          if (over > 1) faults.push(`${where}: ${over} px too wide`);
          element.hidden = true;
          if (element.getBoundingClientRect().height > 0) faults.push(`${where}: hidden and yet shown`);
        }
        dialog.close();
        // Lit notes its versions, by which a second copy of it is found out.
        const added = Object.getOwnPropertyNames(window).filter((key) => !globals.has(key) && !/^(lit|reactiveElement)/.test(key));
        // A bundler of the page may put its own preloads there.
        const styles = document.adoptedStyleSheets.length + document.querySelectorAll('style').length;
        return {
          faults,
          added,
          styles,
          head: document.head.childElementCount - document.querySelectorAll('head link').length <= head - links,
          modules: document.scripts.length === modules,
        };
      },
      { name: tag, given: copy },
    );
    expect(found).toEqual({ faults: [], added: [], styles: 0, head: true, modules: true });
  });

  test('the layout follows the width of its place, 320 to 1,400 px, in a wide window', async () => {
    await show(tag);
    const layouts = await page.evaluate(async (name) => {
      const element = document.querySelector(name) as unknown as HTMLElement;
      const place = document.querySelector('#place')!;
      const faults: string[] = [];
      const heights: number[] = [];
      for (const width of [320, 480, 768, 1024, 1400]) {
        place.className = `width-${width}`;
        for (let i = 0; i < 3; i += 1) await new Promise((resolve) => requestAnimationFrame(resolve));
        if (element.clientWidth !== width) faults.push(`${width}: is ${element.clientWidth} px wide`);
        if (document.documentElement.scrollWidth > document.documentElement.clientWidth || element.scrollWidth > width)
          faults.push(`${width}: reaches ${element.scrollWidth - width} px beyond its place`);
        heights.push(Math.round(element.getBoundingClientRect().height));
      }
      return { faults, heights };
    }, tag);
    expect(layouts.faults).toEqual([]);
    // A narrow place puts beneath each other what a wide one puts side by side.
    expect(layouts.heights[0]).toBeGreaterThan(layouts.heights.at(-1)! * 1.2);
  });

  test('states can be matched by a page', async () => {
    await show(tag);
    const found = await page.evaluate(
      async ({ name, given }) => {
        const element = document.querySelector(name) as unknown as HTMLElement & { updateComplete: Promise<unknown> } & Record<
            string,
            unknown
          >;
        const [state, broken] = {
          'baysheet-estimate': [
            'incomplete',
            {
              estimate: {
                ...given.estimate,
                lines: [{ id: 'x', kind: 'operation', operation: 'nothing-known', positions: [], findings: [] }],
              },
            },
          ],
          'baysheet-customer': ['refused', { copy: { ...given, catalogue: {} } }],
          'baysheet-rates': ['changed', {}],
        }[name] as [string, object];
        const before = element.matches(`:state(${state})`);
        Object.assign(element, broken);
        await element.updateComplete;
        return { state, before, after: element.matches(`:state(${state})`) };
      },
      { name: tag, given: copy },
    );
    if (tag === 'baysheet-rates') {
      await page.locator('[role=grid][aria-label="Labour classes"] [aria-rowindex="2"] [aria-colindex="2"]').click();
      await page.keyboard.type('151');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator(tag).evaluate((element) => element.matches(':state(changed)'))).toBe(true);
    }
    expect(found).toMatchObject({ before: false, after: tag !== 'baysheet-rates' });
    expect(manifest.get(tag)!.cssStates?.map(({ name }) => name)).toContain(found.state);
  });

  test('a second copy warns and changes nothing', async () => {
    await show(tag);
    const warnings: string[] = [];
    page.on('console', (message) => message.type() === 'warning' && warnings.push(message.text()));
    const same = await page.evaluate((name) => {
      const first = customElements.get(name);
      window.shelf.define(name, class extends HTMLElement {});
      return customElements.get(name) === first;
    }, tag);
    expect(same).toBe(true);
    await expect.poll(() => warnings).toEqual([expect.stringContaining(`<${tag}> is registered already (version`)]);
  });
});
