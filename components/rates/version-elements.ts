import { define } from '../define.js';
import { VersionDesk } from './version-desk.js';
import { VersionSave } from './version-save.js';

/** Registers what shows versions of a card and saves another. Called when one of the two is first wanted. */
export function defineVersionElements(): void {
  define('baysheet-versions', VersionDesk);
  define('baysheet-version-save', VersionSave);
}
