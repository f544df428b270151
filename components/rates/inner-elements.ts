import { define } from '../define.js';
import { CardDesk } from './card-desk.js';
import { PresetDialog } from './preset-dialog.js';
import { VersionDesk } from './version-desk.js';
import { VersionSave } from './version-save.js';

/** Registers the elements that `<baysheet-rates>` is made of. Called when one is first put on a page, so that importing the class alone registers nothing. */
export function defineInnerElements(): void {
  define('baysheet-card-desk', CardDesk);
  define('baysheet-preset', PresetDialog);
  define('baysheet-versions', VersionDesk);
  define('baysheet-version-save', VersionSave);
}

/** Sections that are loaded when somebody first looks at them: an owner opens the desk far more often for the card alone. */
export const LATER: Readonly<Record<string, () => Promise<void>>> = {
  catalogue: async () => define('baysheet-catalogue-desk', (await import('./catalogue-desk.js')).CatalogueDesk),
  'what-if': async () => (await import('./what-if-elements.js')).defineWhatIfElements(),
};
