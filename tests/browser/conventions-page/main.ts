import { define } from '../../../components/define.js';
import { openMemoryStore } from '../../../components/storage/memory-store.js';
import estimate from '../../../demo/van.estimate.json';
import rates from '../../../rates/card.demo.json';
import catalogue from '../../../rates/catalogue.demo.json';
import type { CustomerCopy } from '../../../src/share/customer-copy.js';

export type Tag = 'baysheet-estimate' | 'baysheet-customer' | 'baysheet-rates';

const load: Record<Tag, () => Promise<unknown>> = {
  'baysheet-estimate': () => import('../../../components/estimate/define.js'),
  'baysheet-customer': () => import('../../../components/customer/define.js'),
  'baysheet-rates': () => import('../../../components/rates/define.js'),
};

/** What the tests reach by `window.shelf`. Nothing here registers an element: `load` does. */
const shelf = {
  load: (tag: Tag): Promise<unknown> => load[tag](),
  define,
  heard: [] as string[],
  /** A value for every property that a page may set. */
  samples: (copy: CustomerCopy): Record<Tag, Record<string, unknown>> => ({
    'baysheet-estimate': {
      catalogueSrc: './catalogue.json',
      ratesSrc: './rates.json',
      estimateSrc: './estimate.json',
      customerPage: './customer.html',
      customerScript: './customer.js',
      keepIn: 'browser',
      estimateId: 'one',
      idInHash: true,
      shop: { name: 'Quillbrook Motor Works' },
      storage: openMemoryStore(),
      catalogue,
      rates,
      estimate,
    },
    'baysheet-customer': {
      token: 'not.a.token',
      fromHash: true,
      keys: '[]',
      keysSrc: './keys.json',
      replyTo: './reply',
      shopPhone: '+1 303 555 0117',
      hash: 'B'.repeat(43),
      lang: 'es',
      copy,
    },
    'baysheet-rates': {
      ratesSrc: './rates.json',
      catalogueSrc: './catalogue.json',
      estimates: [],
      storage: openMemoryStore(),
      rates,
      catalogue,
    },
  }),
  /** What makes an element show all it can. */
  filled: (copy: CustomerCopy): Record<Tag, Record<string, unknown>> => ({
    'baysheet-estimate': { catalogue, rates, estimate },
    'baysheet-customer': { copy, lang: 'en' },
    'baysheet-rates': { rates, catalogue },
  }),
};

for (const type of ['change', 'save', 'share', 'reply', 'open', 'problem']) {
  document.addEventListener(`baysheet-${type}`, (event) => shelf.heard.push(event.type));
}

Object.assign(window, { shelf });
document.documentElement.dataset['ready'] = '';

declare global {
  interface Window {
    shelf: typeof shelf;
  }
}
