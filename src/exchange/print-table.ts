import type { DecimalString } from '../number/decimal.js';
import { guardCell } from './guard.js';

/** The marks between the cells of a line that are written and understood. */
export const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** How a table is written: for which spreadsheet, one could say. */
export interface TableForm {
  readonly separator: Separator;
  /** The mark before the decimals. */
  readonly decimalMark: '.' | ',';
}

/** The form that spreadsheets of a locale expect: where the comma stands in figures, a semicolon stands between cells. */
export function tableForm(locale: string): TableForm {
  const comma = decimalMarkOf(locale) === ',';
  return comma ? { separator: ';', decimalMark: ',' } : { separator: ',', decimalMark: '.' };
}

/**
 * Rows of cells as the text of a table (RFC 4180 with the separator of the form). Every cell is guarded against
 * formulas; a cell with a quote, a line break or any of the separators, also those that this form does not use, is quoted.
 */
export function printTable(rows: readonly (readonly string[])[], { separator }: Pick<TableForm, 'separator'>): string {
  return rows.map((row) => `${row.map((cell) => quoteWhereNeeded(guardCell(cell))).join(separator)}\r\n`).join('');
}

/** A figure of a document as the form writes it. */
export function printFigure(figure: DecimalString, { decimalMark }: Pick<TableForm, 'decimalMark'>): string {
  return decimalMark === '.' ? figure : figure.replace('.', ',');
}

function quoteWhereNeeded(cell: string): string {
  return /[",;\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

function decimalMarkOf(locale: string): string {
  const parts = new Intl.NumberFormat(supported(locale), { numberingSystem: 'latn' }).formatToParts(1.5);
  return parts.find(({ type }) => type === 'decimal')?.value ?? '.';
}

/** A tag that nobody can make sense of counts as English. */
function supported(locale: string): string {
  try {
    return Intl.NumberFormat.supportedLocalesOf(locale)[0] ?? 'en';
  } catch {
    return 'en';
  }
}
