import type { Catalogue } from '../../src/documents/catalogue.js';
import { catalogueToJson } from '../../src/exchange/catalogue-json.js';
import type { ImportPlan } from '../../src/exchange/import-operations.js';
import { operationsToCsv } from '../../src/exchange/operations-csv.js';
import { tableForm } from '../../src/exchange/print-table.js';
import { type CatalogueCommand, type CatalogueDraft, freshKey } from '../../src/store/catalogue-draft.js';
import { downloadText } from '../estimate/files.js';

/** Offers the whole catalogue as a JSON file. */
export function downloadCatalogue(catalogue: Catalogue, document: Document): void {
  downloadText(catalogueToJson(catalogue), 'application/json', `${catalogue.id}.catalogue.json`, document);
}

/** Offers its operations as a table. */
export function downloadOperations(catalogue: Catalogue, locale: string, document: Document): void {
  // The mark tells spreadsheets that the text is UTF-8.
  const table = `\ufeff${operationsToCsv(catalogue, tableForm(locale))}`;
  downloadText(table, 'text/csv', `${catalogue.id}.operations.csv`, document);
}

/** What takes a table of operations in. */
export function takeOperations({ added, changed }: ImportPlan, { operations }: CatalogueDraft): readonly CatalogueCommand[] {
  const keys = new Map(operations.map(({ id, key }) => [id, key]));
  return [
    { do: 'put', list: 'operations', entries: changed.map((operation) => ({ ...operation, key: keys.get(operation.id)! })) },
    { do: 'insert', list: 'operations', entries: added.map((operation) => ({ ...operation, key: freshKey() })) },
  ];
}
