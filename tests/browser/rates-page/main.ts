import '../../../components/estimate/define.js';
import '../../../components/rates/define.js';
import type { BaysheetEstimate } from '../../../components/estimate/baysheet-estimate.js';
import type { BaysheetRates } from '../../../components/rates/baysheet-rates.js';
import { Memory, openMemoryStore } from '../../../components/storage/memory-store.js';
import { type KeptStore, StorageFault, type StorageFaultCode } from '../../../components/storage/port.js';
import plenum from '../../../demo/plenum.estimate.json';
import cliff from '../../../rates/card.us-parts-tax.json';
import demo from '../../../rates/card.demo.json';
import catalogue from '../../../rates/catalogue.demo.json';

const memory = new Memory();

/** One store for the page, as the shop's would be; it can be told to refuse. */
const inner = openMemoryStore(memory);
const store: KeptStore = {
  list: (kind) => inner.list(kind),
  get: (kind, id) => inner.get(kind, id),
  put: async (...what) => {
    if (rates.refuse !== null) throw new StorageFault(rates.refuse, 'made up by the test');
    return inner.put(...what);
  },
  watch: (kind, hear) => inner.watch(kind, hear),
  close: () => inner.close(),
};

const cards = { demo, cliff };

/** What the tests reach by `window.rates`. */
const rates = {
  store,
  cards,
  catalogue,
  estimate: plenum,
  memory,
  refuse: null as StorageFaultCode | null,
  heard: [] as { readonly type: string; readonly detail: { readonly what?: string }; readonly composed: boolean }[],

  async desk(card: keyof typeof cards | null, id = 'desk', place: ParentNode = document.querySelector('#place')!): Promise<BaysheetRates> {
    const desk = document.createElement('baysheet-rates');
    desk.id = id;
    desk.storage = store;
    desk.catalogue = catalogue as never;
    if (card !== null) desk.rates = cards[card] as never;
    place.append(desk);
    await desk.updateComplete;
    return desk;
  },

  /** The sheet with the page's card and an estimate, in the same store. */
  async sheet(card: unknown, estimate: unknown): Promise<BaysheetEstimate> {
    document.querySelector('#place')!.replaceChildren();
    const sheet = document.createElement('baysheet-estimate');
    sheet.id = 'sheet';
    sheet.storage = store;
    sheet.catalogue = catalogue as never;
    sheet.rates = card as never;
    sheet.estimate = estimate as never;
    document.querySelector('#place')!.append(sheet);
    await sheet.updateComplete;
    return sheet;
  },
};

for (const type of ['baysheet-change', 'baysheet-save', 'baysheet-problem']) {
  document.addEventListener(type, (event) => {
    const { detail, composed } = event as CustomEvent;
    rates.heard.push({ type, detail: structuredClone(detail), composed });
  });
}

Object.assign(window, { rates });
document.documentElement.dataset['ready'] = '';

declare global {
  interface Window {
    rates: typeof rates;
  }
}
