import type { Plugin } from 'vite';
import { compactLiterals } from '../../compact-literals.js';
import { shortNames } from './short-names.js';
import { withoutWriters } from './without-writers.js';

/** For the builds that put `<baysheet-customer>` on a phone, beside `lightLibraries`. */
export function lightPlugins(): Plugin[] {
  return [compactLiterals(), withoutWriters(), shortNames()];
}
