import { CatalogueDesk } from '../../../components/rates/catalogue-desk.js';
import card from '../../../rates/card.demo.json';
import demo from '../../../rates/catalogue.demo.json';
import { type Catalogue, parseCatalogue, parseRates, type Parsed } from '../../../src/index.js';

customElements.define('baysheet-catalogue-desk', CatalogueDesk);

/** What the desk has announced, for the tests to read. */
const heard: { readonly type: string; readonly detail: unknown }[] = [];

function must<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error('The demo’s documents must be valid.');
  return parsed.value;
}

/** The demo catalogue with its operations over and over until there are `count`, each under an id of its own. */
function many(count: number): Catalogue {
  const catalogue = must(parseCatalogue(demo));
  const operations = Array.from({ length: count }, (_, i) => {
    const operation = catalogue.operations[i % catalogue.operations.length]!;
    return i < catalogue.operations.length ? operation : { ...operation, id: `${operation.id}-${i}`, title: `${operation.title} (${i})` };
  });
  return { ...catalogue, operations };
}

async function show(catalogue: Catalogue): Promise<CatalogueDesk> {
  const desk = document.createElement('baysheet-catalogue-desk') as CatalogueDesk;
  for (const type of ['catalogue-edit', 'catalogue-checked', 'refuse']) {
    desk.addEventListener(type, (event) => heard.push({ type, detail: (event as CustomEvent).detail }));
  }
  desk.rates = must(parseRates(card));
  desk.catalogue = catalogue;
  document.querySelector('#place')!.replaceChildren(desk);
  await desk.updateComplete;
  window.desk = { ...window.desk, element: desk };
  return desk;
}

declare global {
  interface Window {
    desk: {
      readonly show: typeof show;
      readonly many: typeof many;
      readonly heard: typeof heard;
      readonly demo: () => Catalogue;
      readonly element: CatalogueDesk | null;
    };
  }
}
window.desk = { show, many, heard, demo: () => must(parseCatalogue(demo)), element: null };
await show(window.desk.demo());
document.documentElement.dataset['ready'] = 'true';
