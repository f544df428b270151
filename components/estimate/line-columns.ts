import type { SheetColumn } from '../grid/sheet.js';

export type LineColumn =
  'work' | 'kind' | 'where' | 'book' | 'shared' | 'charged' | 'rate' | 'qty' | 'cost' | 'unit' | 'tax' | 'amount' | 'decision';

export const LINE_COLUMNS: readonly (SheetColumn & { readonly id: LineColumn })[] = [
  { id: 'work', title: 'Work', width: 196, help: 'An operation of the catalogue by its words, or work of your own' },
  { id: 'kind', title: 'Kind', width: 84 },
  { id: 'where', title: 'Positions', width: 98, help: 'Where; several with a comma between' },
  { id: 'book', title: 'Book h', width: 58, align: 'end', help: 'Hours on its own; empty it to take the catalogue’s again' },
  { id: 'shared', title: 'Shared h', width: 72, align: 'end', help: 'What another line already pays for' },
  { id: 'charged', title: 'Charged h', width: 80, align: 'end', help: 'Book hours less shared hours' },
  { id: 'rate', title: 'Rate', width: 66, align: 'end', help: 'Labour rate; choose another labour class here' },
  { id: 'qty', title: 'Quantity', width: 76, align: 'end' },
  { id: 'cost', title: 'Cost', width: 60, align: 'end', help: 'What the shop pays; never shown to the customer' },
  { id: 'unit', title: 'Unit price', width: 76, align: 'end', help: 'Empty it to take the rate card’s price again' },
  { id: 'tax', title: 'Tax', width: 62, help: 'Taxes of the rate card with a comma between, or none; empty it to go by kind' },
  { id: 'amount', title: 'Amount', width: 78, align: 'end' },
  { id: 'decision', title: 'Decision', width: 96, help: 'proposed, approved, declined or deferred' },
];

/** The row at the end that waits for the next line. */
export const SPARE_LINE = 'lines:+';

/** Rows below a line: a part, its core charge, a fee for each unit, extra hours, a note. */
export type SubRow = 'part' | 'core' | 'fee' | 'extra' | 'note';

/** What a row of the lines grid stands for. */
export type RowOfLines =
  | { readonly of: 'line'; readonly line: string }
  | { readonly of: SubRow; readonly line: string; readonly id: string }
  | { readonly of: 'discount'; readonly discount: string }
  | { readonly of: 'spare' };

export function subRow(line: string, of: SubRow, id = ''): string {
  return `lines:${line}/${of}${id === '' ? '' : `/${id}`}`;
}

/** Reads a row id of the lines grid. */
export function readRow(row: string): RowOfLines {
  if (row === SPARE_LINE) return { of: 'spare' };
  if (row.startsWith('discounts:')) return { of: 'discount', discount: row.slice('discounts:'.length) };
  const [line = '', of, id = ''] = row.slice('lines:'.length).split('/');
  return of === undefined ? { of: 'line', line } : { of: of as SubRow, line, id };
}
