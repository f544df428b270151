import { defineWhatIfElements } from '../../../components/rates/what-if-elements.js';
import type { WhatIfPane } from '../../../components/rates/what-if-pane.js';
import type { Kept, KeptStore } from '../../../components/storage/port.js';
import { MadeUpEstimates } from '../../../demo/made-up-estimates.js';
import card from '../../../rates/card.demo.json';
import catalogueOfDemo from '../../../rates/catalogue.demo.json';
import { parseCatalogue, parseRates, type Parsed, type Rates } from '../../../src/index.js';

const must = <T>(parsed: Parsed<T>): T => {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
};
const catalogue = must(parseCatalogue(catalogueOfDemo));
const before = must(parseRates(card));

/** The demo card with every labour rate so much higher. */
function dearer(by: number): Rates {
  return { ...before, labourClasses: before.labourClasses.map((each) => ({ ...each, rate: (Number(each.rate) + by).toFixed(2) })) };
}

/** A store that holds these estimates; an entry without a text fails to be read. */
function storeOf(texts: Readonly<Record<string, string>>): KeptStore {
  const entry = (id: string): Kept => ({
    kind: 'estimate',
    id,
    revision: '1',
    about: '',
    savedAt: '2026-03-02T14:05:00Z',
    text: texts[id]!,
  });
  return {
    list: async () => Object.keys(texts).map(entry),
    get: async (_, id) => (texts[id] === '' ? null : entry(id)),
    put: async () => ({ ok: false, reason: 'conflict', current: null }),
    watch: () => () => undefined,
    close: () => undefined,
  };
}

defineWhatIfElements();
const pane = document.querySelector<WhatIfPane>('baysheet-what-if')!;
const heard: { type: string; detail: unknown }[] = [];
for (const type of ['open-estimate', 'take-card', 'take-hours']) {
  pane.addEventListener(type, (event) => heard.push({ type, detail: (event as CustomEvent).detail }));
}
const count = Number(new URLSearchParams(location.search).get('count') ?? '200');
Object.assign(pane, {
  catalogue,
  ratesBefore: before,
  ratesAfter: dearer(4),
  offered: [new MadeUpEstimates(catalogue, count)],
  locale: 'en-US',
});

declare global {
  interface Window {
    whatIf: {
      readonly pane: WhatIfPane;
      readonly heard: typeof heard;
      readonly dearer: typeof dearer;
      readonly storeOf: typeof storeOf;
      readonly madeUp: MadeUpEstimates;
    };
  }
}
window.whatIf = { pane, heard, dearer, storeOf, madeUp: new MadeUpEstimates(catalogue, count) };
document.documentElement.dataset['ready'] = 'true';
