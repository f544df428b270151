import type { CatalogueRow, CatalogueState } from '../../src/store/catalogue-draft.js';
import type { CatalogueIndex } from './catalogue-index.js';

/** All that the grids of the catalogue are made from. */
export interface CatalogueView {
  readonly state: CatalogueState;
  readonly index: CatalogueIndex;
  readonly locale: string;
  /** What the last check found, by the key of the cell; may be of a state a moment ago. */
  readonly faults: ReadonlyMap<string, CellFault>;
}

/** What is wrong with a cell (`invalid`), or worth a look. */
export interface CellFault {
  readonly words: string;
  readonly invalid: boolean;
}

/** What a row is called in words, whichever list it is in. */
export function titleOf(row: CatalogueRow): string {
  if ('title' in row) return row.title;
  if ('text' in row) return row.text;
  if ('between' in row) return row.between.map((id) => id || '?').join(' and ');
  return [row.component, row.fault].filter((text) => text !== '').join(': ');
}
