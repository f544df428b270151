import type { Catalogue } from '../documents/catalogue.js';
import type { Problem } from '../documents/problem.js';
import { readTable } from '../exchange/read-table.js';
import { Decimal, decimal, type DecimalString, printPlain } from '../number/decimal.js';
import { readFigure } from '../number/locale-parse.js';

/** Hours that somebody was clocked on for an operation. */
export interface ClockedHours {
  /** The line of the table, counted from 1. */
  readonly line: number;
  /** Id of the operation. */
  readonly operation: string;
  readonly hours: DecimalString;
  /** Id or number of the estimate, or null where the table does not say. */
  readonly estimate: string | null;
}

/** A row that could not be used, and why. */
export interface BadRow {
  readonly line: number;
  readonly reason: string;
}

/** Which column says what, the first at 0; null: none does. */
export interface ClockedColumns {
  readonly operation: number;
  readonly hours: number;
  readonly estimate: number | null;
}

export interface ClockedTable {
  readonly rows: readonly ClockedHours[];
  readonly bad: readonly BadRow[];
  readonly headings: readonly string[];
  readonly columns: ClockedColumns | null;
  /** Why the table as a whole, or the rest of it, could not be read. */
  readonly problems: readonly Problem[];
}

/** Headings that are understood, in lower case. */
const HEADINGS: Readonly<Record<keyof ClockedColumns, readonly string[]>> = {
  operation: ['operation', 'operation id', 'operation title', 'job', 'work', 'title', 'id'],
  hours: ['clocked hours', 'hours clocked', 'clocked', 'actual hours', 'hours', 'time'],
  estimate: ['estimate', 'estimate id', 'estimate number', 'number', 'order'],
};

/**
 * Reads a table of clocked hours: an operation (id or title), hours (`1.5`, in the writing of the locale, or `1:30`),
 * and where it says so the estimate. Without headings these are the first three columns. Every row that cannot be used
 * is told with its line; the others are kept. Never throws.
 *
 * @param columns where the headings are not understood, or wrongly
 */
export function readClockedHours(text: string, catalogue: Catalogue, locale = 'en', columns?: ClockedColumns): ClockedTable {
  // Where figures have a comma in them, a semicolon is what separates cells.
  const table = readTable(text, decimalMark(locale) === ',' && text.includes(';') ? ';' : undefined);
  const [first] = table.rows;
  const guessed = first === undefined ? null : guess(first.cells);
  const headed = first !== undefined && (guessed !== null || !first.cells.some((cell) => readHours(cell, locale).ok));
  const chosen =
    columns ?? guessed ?? (headed ? null : { operation: 0, hours: 1, estimate: first !== undefined && first.cells.length > 2 ? 2 : null });
  const headings = headed ? first.cells : [];
  if (chosen === null) return { rows: [], bad: [], headings, columns: null, problems: table.problems };

  const find = operationFinder(catalogue);
  const rows: ClockedHours[] = [];
  const bad: BadRow[] = [];
  for (const { line, cells } of headed ? table.rows.slice(1) : table.rows) {
    const operation = find((cells[chosen.operation] ?? '').trim());
    const hours = readHours(cells[chosen.hours] ?? '', locale);
    if (!operation.ok) bad.push({ line, reason: operation.reason });
    else if (!hours.ok) bad.push({ line, reason: hours.reason });
    else {
      const estimate = chosen.estimate === null ? '' : (cells[chosen.estimate] ?? '').trim();
      rows.push({ line, operation: operation.value, hours: hours.value, estimate: estimate === '' ? null : estimate });
    }
  }
  return { rows, bad, headings, columns: chosen, problems: table.problems };
}

function decimalMark(locale: string): string {
  try {
    return new Intl.NumberFormat(locale).formatToParts(0.5).find(({ type }) => type === 'decimal')?.value ?? '.';
  } catch {
    return '.';
  }
}

function guess(cells: readonly string[]): ClockedColumns | null {
  const plain = cells.map((cell) => cell.trim().toLowerCase());
  const column = (name: keyof ClockedColumns): number => {
    const known = HEADINGS[name].find((heading) => plain.includes(heading));
    return known === undefined ? -1 : plain.indexOf(known);
  };
  const [operation, hours, estimate] = [column('operation'), column('hours'), column('estimate')];
  return operation === -1 || hours === -1 ? null : { operation, hours, estimate: estimate === -1 ? null : estimate };
}

type Read = { readonly ok: true; readonly value: string } | { readonly ok: false; readonly reason: string };

function readHours(cell: string, locale: string): Read {
  const clock = /^(\d{1,3}):([0-5]\d)$/.exec(cell.trim());
  if (clock !== null) {
    const minutes = new Decimal(clock[1]!).times(60).plus(clock[2]!);
    if (minutes.isZero()) return { ok: false, reason: 'The hours are zero.' };
    return { ok: true, value: printPlain(minutes.div(60).toDecimalPlaces(4)) };
  }
  const read = readFigure(cell, locale);
  if (!read.ok) return read;
  if (decimal(read.value).lte(0)) return { ok: false, reason: 'The hours are not above zero.' };
  return read;
}

/** By id first; then by title, in any case of letters, where only one operation has it. */
function operationFinder(catalogue: Catalogue): (words: string) => Read {
  const ids = new Set(catalogue.operations.map(({ id }) => id));
  const titles = new Map<string, string[]>();
  for (const { id, title } of catalogue.operations) {
    const key = title.trim().toLowerCase();
    titles.set(key, [...(titles.get(key) ?? []), id]);
  }
  return (words) => {
    if (words === '') return { ok: false, reason: 'There is no operation in this row.' };
    if (ids.has(words)) return { ok: true, value: words };
    const found = titles.get(words.toLowerCase()) ?? [];
    if (found.length === 1) return { ok: true, value: found[0]! };
    const shown = words.length > 60 ? `${words.slice(0, 60)}…` : words;
    if (found.length > 1) return { ok: false, reason: `Several operations are called "${shown}". Write the id: ${found.join(', ')}.` };
    return { ok: false, reason: `The catalogue has no operation "${shown}".` };
  };
}
