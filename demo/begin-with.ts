import type { KeptStore } from '../components/storage/port.js';
import { aboutOf, printAbout } from '../components/estimate/keeping-about.js';
import { parseEstimate } from '../src/index.js';

/** Keeps estimates from their addresses on the first visit. A store that fails is no business of the demonstration: the sheet says so. */
export async function beginWith(addresses: readonly string[], store: KeptStore): Promise<void> {
  try {
    if ((await store.list('estimate')).length > 1) return;
    for (const address of addresses) {
      const parsed = parseEstimate(await (await fetch(address)).text());
      if (parsed.ok) await store.put('estimate', parsed.value.id, JSON.stringify(parsed.value), null, printAbout(aboutOf(parsed.value, null)));
    }
  } catch {
    // Denied or full: there is nothing to begin with, and the sheet works without.
  }
}
