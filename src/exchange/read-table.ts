import { dsvFormat } from 'd3-dsv';
import { LIMITS } from '../documents/limits.js';
import { error, type Problem, warning } from '../documents/problem.js';
import { findFault } from './quotes.js';
import { unguardCell } from './guard.js';
import { type Separator, SEPARATORS } from './print-table.js';

/** One row of a table with the line of the text that it begins in, counted from 1. */
export interface TableRow {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface Table {
  readonly separator: Separator;
  readonly rows: readonly TableRow[];
  /** What could not be read. Rows before the first fault are there all the same. */
  readonly problems: readonly Problem[];
}

/** Lines that are looked at to tell which separator is meant. */
const LINES_TO_TELL_BY = 50;

/**
 * Reads a table of separated values (RFC 4180): separated by comma, semicolon or tab, whichever divides its lines most
 * evenly; with or without a byte order mark; lines that end in CR LF, LF or CR; quoted cells with anything in them. The
 * guard against formulas is taken off each cell. Rows without any words are passed over.
 *
 * Never throws. A path in the problems is `line 7`.
 */
export function readTable(text: string, asked?: Separator): Table {
  const body = text.replace(/^\ufeff/, '');
  const separator = asked ?? tellSeparator(body);
  const refused = refuse(body);
  if (refused !== null) return { separator, rows: [], problems: [refused] };

  const fault = findFault(body, separator);
  const sound = fault === null ? body : body.slice(0, fault.rowStart);
  const rows = numbered(sound === '' ? [] : dsvFormat(separator).parseRows(sound)).filter(({ cells }) =>
    cells.some((cell) => cell.trim() !== ''),
  );
  const problems =
    fault === null
      ? []
      : [error('quotes', `line ${fault.line}`, fault.message, 'Mend the quotes in that line. Nothing after it was read.')];
  const wide = rows.find(({ cells }) => cells.length > LIMITS.columns);
  if (wide !== undefined) return { separator, rows: [], problems: [tooWide(wide)] };
  if (rows.length <= LIMITS.entries) return { separator, rows, problems };
  const most = LIMITS.entries.toLocaleString('en');
  return {
    separator,
    rows: rows.slice(0, LIMITS.entries),
    problems: [
      ...problems,
      warning(
        'too-long',
        `line ${rows[LIMITS.entries]!.line}`,
        `The table has more than ${most} rows; those after them were not read.`,
        'Split it.',
      ),
    ],
  };
}

/** Adds the lines: a quoted cell may run over several. */
function numbered(parsed: readonly (readonly string[])[]): TableRow[] {
  let line = 1;
  return parsed.map((cells) => {
    const row = { line, cells: cells.map(unguardCell) };
    line += 1;
    for (const cell of cells) line += cell.match(/\r\n|\r|\n/g)?.length ?? 0;
    return row;
  });
}

function tooWide({ line, cells }: TableRow): Problem {
  const message = `The row has ${cells.length} cells; ${LIMITS.columns.toLocaleString('en')} is the most.`;
  return error(
    'too-wide',
    `line ${line}`,
    message,
    'Take out the columns that are not needed, and look whether its cells are separated right.',
  );
}

function refuse(text: string): Problem | null {
  if (text.trim() === '') return error('empty-text', '', 'There is no table: the text is empty.', 'Choose another file.');
  if (text.length > LIMITS.characters) {
    return error('too-large', '', `The table has ${text.length} characters; ${LIMITS.characters} is the most.`, 'Split it.');
  }
  if (/^(PK\u0003\u0004|\u00d0\u00cf|\ufffd{2})/.test(text)) {
    return error(
      'not-text',
      '',
      'This is a workbook or an archive, not a table as text.',
      'Open it in a spreadsheet and save it as CSV (UTF-8).',
    );
  }
  return null;
}

/** The separator that divides the first lines most evenly; where two do, the one that makes more cells. */
function tellSeparator(text: string): Separator {
  const lines = firstLines(text);
  let best: { separator: Separator; even: number; cells: number } = { separator: ',', even: 0, cells: 1 };
  for (const separator of SEPARATORS) {
    const counts = lines.map((line) => outsideQuotes(line).split(separator).length);
    const cells = mostFrequent(counts.filter((count) => count > 1));
    const even = cells === 0 ? 0 : counts.filter((count) => count === cells).length;
    if (even > best.even || (even === best.even && cells > best.cells)) best = { separator, even, cells };
  }
  return best.separator;
}

/** Lines outside quotes: one that is continued within quotes counts as one. */
function firstLines(text: string): string[] {
  const lines: string[] = [];
  let start = 0;
  let inQuotes = false;
  for (let i = 0; i < text.length && lines.length < LINES_TO_TELL_BY; i += 1) {
    const c = text[i];
    if (c === '"') inQuotes = !inQuotes;
    if (inQuotes || (c !== '\n' && c !== '\r')) continue;
    if (i > start) lines.push(text.slice(start, i));
    start = i + 1;
  }
  if (lines.length < LINES_TO_TELL_BY && start < text.length) lines.push(text.slice(start));
  return lines;
}

function outsideQuotes(line: string): string {
  return line.replace(/"[^"]*"/g, '');
}

function mostFrequent(counts: readonly number[]): number {
  const times = new Map<number, number>();
  for (const count of counts) times.set(count, (times.get(count) ?? 0) + 1);
  let best = 0;
  for (const [count, n] of times) if (best === 0 || n > times.get(best)! || (n === times.get(best)! && count > best)) best = count;
  return best;
}
