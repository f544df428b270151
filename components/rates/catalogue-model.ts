import type { Rates } from '../../src/documents/rates.js';
import type { CatalogueRow, CatalogueStore } from '../../src/store/catalogue-draft.js';
import type { Checked } from './catalogue-checker.js';
import { CatalogueIndex } from './catalogue-index.js';
import { faultsOf } from './catalogue-problems.js';
import { rowFinder } from './catalogue-search.js';
import type { CatalogueView } from './catalogue-view.js';

type Finder = ((row: CatalogueRow) => boolean) | null;

/** What the grids show of a catalogue that is worked on: nothing is worked out again that is still the same. */
export class CatalogueModel {
  private last: CatalogueView | null = null;
  private found: { readonly typed: string; readonly finder: Finder } = { typed: '', finder: null };

  /** The state as the grids see it. The same object until something changes. */
  view(store: CatalogueStore, rates: Rates | null, locale: string, checked: Checked | null): CatalogueView {
    const state = store.getState();
    const faults = faultsOf(checked);
    const { last } = this;
    if (last?.state === state && last.index.rates === rates && last.locale === locale && last.faults === faults) return last;
    const known = last?.index.draft === state.draft && last.index.rates === rates ? last.index : null;
    this.last = { state, index: known ?? new CatalogueIndex(state.draft, rates, last?.index), locale, faults };
    return this.last;
  }

  /** Which rows answer to what was typed; null for all. */
  finder(typed: string): Finder {
    if (this.found.typed !== typed) this.found = { typed, finder: rowFinder(typed) };
    return this.found.finder;
  }
}
