import { define } from '../define.js';
import { CardDesk } from './card-desk.js';

/** Registers what `<baysheet-rates>` shows at once. Called when one is first put on a page, so that importing the class alone registers nothing. */
export function defineInnerElements(): void {
  define('baysheet-card-desk', CardDesk);
}

/** Sections that are loaded when somebody first looks at them: an owner opens the desk far more often for the card alone. */
export const LATER: Readonly<Record<string, () => Promise<void>>> = {
  catalogue: async () => define('baysheet-catalogue-desk', (await import('./catalogue-desk.js')).CatalogueDesk),
  'what-if': async () => (await import('./what-if-elements.js')).defineWhatIfElements(),
  versions: async () => (await import('./version-elements.js')).defineVersionElements(),
};
