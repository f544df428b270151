import type { BaysheetEstimate } from '../../../components/estimate/baysheet-estimate.js';
import catalogue from '../../../rates/catalogue.demo.json';
import rates from '../../../rates/card.demo.json';
import plenum from '../../../demo/plenum.estimate.json';
import van from '../../../demo/van.estimate.json';

/** What the tests reach by `window.bare`. Nothing here registers the element: `load` does. */
const bare = {
  documents: { catalogue, rates, plenum, van },
  /** Events of the element that arrived at the document, wherever they came from. */
  heard: [] as { readonly type: string; readonly detail: unknown; readonly composed: boolean }[],

  async load(): Promise<void> {
    await import('../../../components/estimate/define.js');
  },

  /** An element with the demo's catalogue and rate card, not yet in the document. */
  make(estimate?: unknown): BaysheetEstimate {
    const element = document.createElement('baysheet-estimate');
    bare.fill(element, estimate);
    return element;
  },

  fill(element: BaysheetEstimate, estimate?: unknown): void {
    element.catalogue = catalogue as never;
    element.rates = rates as never;
    if (estimate !== undefined) element.estimate = estimate as never;
  },

  /** Puts an element into the page, with a name to find it by. */
  async put(element: HTMLElement, id: string, place: ParentNode = document.querySelector('#place')!): Promise<void> {
    element.id = id;
    place.append(element);
    if ('updateComplete' in element) await element.updateComplete;
  },
};

for (const type of ['baysheet-change', 'baysheet-save', 'baysheet-problem']) {
  document.addEventListener(type, (event) => {
    const { detail, composed } = event as CustomEvent;
    bare.heard.push({ type, detail: structuredClone(detail), composed });
  });
}

Object.assign(window, { bare });
document.documentElement.dataset['ready'] = '';

declare global {
  interface Window {
    bare: typeof bare;
  }
}
