import type { Line } from '../documents/lines.js';

/** The columns of a table of lines, in the order in which they are written, and their headings. */
export const LINE_COLUMNS = {
  id: 'Line',
  kind: 'Kind',
  operation: 'Operation',
  work: 'Work',
  number: 'Part number',
  positions: 'Positions',
  hours: 'Book hours',
  labourClass: 'Labour class',
  qty: 'Quantity',
  cost: 'Cost',
  price: 'Price',
  core: 'Core charge',
  condition: 'Condition',
  taxes: 'Taxes',
  decision: 'Decision',
  findings: 'Findings',
  extraHours: 'Extra hours',
  extraReason: 'Reason of extra hours',
  parts: 'Parts',
  note: 'Note',
  more: 'More',
} as const;
export type LineColumn = keyof typeof LINE_COLUMNS;

/** Headings of what is worked out: written beside the lines where a price is given, and passed over when read. */
export const PRICED_COLUMNS = {
  sharedHours: 'Shared hours',
  chargedHours: 'Charged hours',
  rate: 'Labour rate',
  amount: 'Amount',
} as const;
export type PricedColumn = keyof typeof PRICED_COLUMNS;

/** Other words that a column goes by in tables of others (common words of the trade, no source). */
export const LINE_WORDS: Readonly<Partial<Record<LineColumn, readonly string[]>>> = {
  work: ['description', 'title', 'text', 'job'],
  number: ['part no', 'number', 'part number'],
  hours: ['hours', 'hrs', 'book h', 'time'],
  qty: ['qty', 'count'],
  price: ['unit price', 'each'],
  positions: ['position', 'where'],
};

/** Of each kind of line, the keys of the document that have a column; all others go into the column `more`. */
const KEYS_WITH_COLUMN: Readonly<Record<Line['kind'], readonly string[]>> = {
  operation: ['operation', 'positions', 'findings', 'labourClass', 'bookHours', 'extraHours', 'parts'],
  labour: ['title', 'hours', 'labourClass'],
  part: ['title', 'number', 'qty', 'cost', 'unitPrice', 'core', 'condition'],
  sublet: ['title', 'cost', 'price'],
  fee: ['title', 'amount'],
  note: ['text'],
};

/** What a line says beyond its columns, so that a newer key is not lost on the way; null where there is nothing. */
export function moreOf(line: Line): Record<string, unknown> | null {
  const known = new Set(['id', 'kind', 'taxes', 'decision', 'note', ...KEYS_WITH_COLUMN[line.kind]]);
  const more = Object.entries(line).filter(([key, value]) => !known.has(key) && value !== undefined);
  return more.length === 0 ? null : Object.fromEntries(more);
}
