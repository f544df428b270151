import type { Catalogue } from '../documents/catalogue.js';
import { OPERATION_FIELDS, OPERATION_TITLES, printField } from './operation-fields.js';
import { printFigure, printTable, type TableForm } from './print-table.js';

/** The operations of a catalogue as a table, with a row of headings; `readOperations` reads it back as it was. */
export function operationsToCsv(catalogue: Pick<Catalogue, 'operations'>, form: TableForm): string {
  const rows = catalogue.operations.map((operation) =>
    OPERATION_FIELDS.map((field) => printField(field, operation, (value) => printFigure(value, form))),
  );
  return printTable([OPERATION_FIELDS.map((field) => OPERATION_TITLES[field]), ...rows], form);
}
