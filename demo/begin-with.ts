import type { KeptStore } from '../components/storage/port.js';
import { aboutOf, printAbout } from '../components/estimate/keeping-about.js';
import { parseCatalogue, parseEstimate, parseRates, priceEstimate } from '../src/index.js';

/** Keeps estimates from their addresses on the first visit. A store that fails is no business of the demonstration: the sheet says so. */
export async function beginWith(addresses: readonly string[], store: KeptStore): Promise<void> {
  const read = async (address: string): Promise<string> => (await fetch(address)).text();
  try {
    if ((await store.list('estimate')).length > 1) return;
    const catalogue = parseCatalogue(await read('./rates/catalogue.demo.json'));
    const rates = parseRates(await read('./rates/card.demo.json'));
    if (!catalogue.ok || !rates.ok) return;
    for (const address of addresses) {
      const parsed = parseEstimate(await read(address));
      if (!parsed.ok) continue;
      const { value: estimate } = parsed;
      const priced = priceEstimate({ estimate, catalogue: catalogue.value, rates: rates.value });
      await store.put('estimate', estimate.id, JSON.stringify(estimate), null, printAbout(aboutOf(estimate, priced)));
    }
  } catch {
    // Denied or full: there is nothing to begin with, and the sheet works without.
  }
}
