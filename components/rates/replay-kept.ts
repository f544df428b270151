import type { KeptStore } from '../storage/port.js';
import type { EstimateSource } from './replay-source.js';
import { numbered } from './replay-words.js';

/** The estimates that a store keeps, each read when it is needed. */
export async function keptSource(store: KeptStore): Promise<EstimateSource> {
  const entries = await store.list('estimate');
  return {
    title: `${numbered(entries.length, 'estimate', 'en')} kept here`,
    count: entries.length,
    async read(at) {
      const kept = await store.get('estimate', entries[at]!.id);
      if (kept === null) throw new Error(`estimate ${entries[at]!.id} was removed meanwhile`);
      return kept.text;
    },
  };
}
