import { define } from '../define.js';
import { CardDesk } from './card-desk.js';
import { CatalogueDesk } from './catalogue-desk.js';
import { PresetDialog } from './preset-dialog.js';
import { VersionDesk } from './version-desk.js';
import { VersionSave } from './version-save.js';
import { defineWhatIfElements } from './what-if-elements.js';

/** Registers the elements that `<baysheet-rates>` is made of. Called when one is first put on a page, so that importing the class alone registers nothing. */
export function defineInnerElements(): void {
  define('baysheet-card-desk', CardDesk);
  define('baysheet-catalogue-desk', CatalogueDesk);
  define('baysheet-preset', PresetDialog);
  define('baysheet-versions', VersionDesk);
  define('baysheet-version-save', VersionSave);
  defineWhatIfElements();
}
