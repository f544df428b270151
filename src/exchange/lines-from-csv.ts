import type { Catalogue } from '../documents/catalogue.js';
import { parseEstimate } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import { error, type Problem, warning } from '../documents/problem.js';
import { freeId } from '../findings/new-line.js';
import { readNumber } from '../number/locale-parse.js';
import { LINE_COLUMNS, LINE_WORDS, type LineColumn, PRICED_COLUMNS } from './lines-fields.js';
import { NO_TAX } from './lines-to-csv.js';
import { readIds, readList } from './list-cell.js';
import { readOverrides } from './part-overrides.js';
import { readTable, type TableRow } from './read-table.js';
import { isReason, type Reason } from './reason.js';

export interface LinesFromCsv {
  /** How figures are written: a language tag. */
  readonly locale: string;
  /** To find operations by their words where a table has no column for their ids. */
  readonly catalogue: Pick<Catalogue, 'operations'> | null;
  /** Lines that are there already: their ids are not free. */
  readonly there: readonly Line[];
  /** The labour class of labour lines that name none. */
  readonly labourClass: string;
}

export interface LinesRead {
  /** The good rows, as lines that can be put behind those that are there. */
  readonly lines: readonly Line[];
  /** Rows that are no line, with the line of the text that each begins in and all reasons. */
  readonly bad: readonly { readonly line: number; readonly reasons: readonly string[] }[];
  /** What is to be said of the table as a whole. */
  readonly problems: readonly Problem[];
}

type Cells = (column: LineColumn) => string;

/**
 * Reads lines from a table with a row of headings: one that `linesToCsv` wrote, or another that has some of its
 * columns. Never throws. A line keeps its id where that is free. What a rate card or catalogue lacks is not asked here:
 * pricing says so, as for any line.
 */
export function linesFromCsv(text: string, options: LinesFromCsv): LinesRead {
  const { rows, problems } = readTable(text);
  const [headings, ...body] = rows;
  if (headings === undefined) return { lines: [], bad: [], problems };
  const { columns, unknown } = findColumns(headings.cells);
  if (columns.size === 0) {
    const hint = `The first row names the columns: ${Object.values(LINE_COLUMNS).join(', ')}.`;
    return {
      lines: [],
      bad: [],
      problems: [...problems, error('no-headings', `line ${headings.line}`, 'No column of this table is known here.', hint)],
    };
  }
  const passedOver =
    unknown.length === 0
      ? []
      : [warning('unknown-columns', `line ${headings.line}`, `These columns are passed over: ${unknown.join(', ')}.`)];

  const lines: Line[] = [];
  const bad: { line: number; reasons: string[] }[] = [];
  const taken = new Set(options.there.map(({ id }) => id));
  for (const row of body) {
    const read = readLine(row, columns, options);
    if (Array.isArray(read)) bad.push({ line: row.line, reasons: read });
    else {
      const id =
        read.id !== '' && !taken.has(read.id)
          ? read.id
          : freeId(
              'l',
              [...taken].map((each) => ({ id: each })),
            );
      taken.add(id);
      lines.push({ ...read, id });
    }
  }
  return { lines, bad, problems: [...problems, ...passedOver] };
}

function findColumns(headings: readonly string[]): { columns: ReadonlyMap<LineColumn, number>; unknown: string[] } {
  const columns = new Map<LineColumn, number>();
  const unknown: string[] = [];
  const worked = new Set(Object.values(PRICED_COLUMNS).map(plain));
  headings.forEach((heading, i) => {
    const asked = plain(heading);
    const column = (Object.keys(LINE_COLUMNS) as LineColumn[]).find(
      (each) => plain(LINE_COLUMNS[each]) === asked || LINE_WORDS[each]?.includes(asked),
    );
    if (column !== undefined && !columns.has(column)) columns.set(column, i);
    else if (asked !== '' && !worked.has(asked)) unknown.push(heading.trim());
  });
  return { columns, unknown };
}

function plain(heading: string): string {
  return heading
    .trim()
    .toLowerCase()
    .replace(/\blabor\b/g, 'labour')
    .replace(/[.:]+$/, '');
}

/** The line, its id empty where it says none or one that cannot be; or the reasons why it is none. */
function readLine(row: TableRow, columns: ReadonlyMap<LineColumn, number>, options: LinesFromCsv): Line | string[] {
  const cells: Cells = (column) => row.cells[columns.get(column) ?? -1] ?? '';
  const reasons: string[] = [];
  const use = <T>(value: T | Reason, otherwise: T): T => {
    if (!isReason(value as object)) return value as T;
    reasons.push((value as Reason).reason);
    return otherwise;
  };
  const figure = (column: LineColumn): string | null => {
    const text = cells(column).trim();
    if (text === '') return null;
    const read = readNumber(text, options.locale);
    return use<string | null>(read.ok ? read.value : { reason: `${LINE_COLUMNS[column]}: ${read.reason}` }, null);
  };
  const kind = use(kindOf(cells), 'note');
  const more = use(readMore(cells('more')), {});
  const taxes = cells('taxes').trim();
  const common = {
    id: 'row',
    taxes: taxes === '' ? null : taxes.toLowerCase() === NO_TAX ? [] : readIds(taxes),
    decision: cells('decision').trim().toLowerCase() || 'proposed',
    note: cells('note'),
  };
  const own = fieldsOf(kind, cells, figure, use, options);
  if (reasons.length > 0) return reasons;

  // What the document's own form says of it, as for a line from a file.
  const parsed = parseEstimate({ format: 'baysheet-estimate', version: 1, id: 'table', lines: [{ ...more, ...common, ...own, kind }] });
  const faults = parsed.problems.filter(({ severity }) => severity === 'error').map(({ message }) => message);
  if (!parsed.ok) return faults;
  const id = cells('id').trim();
  return { ...parsed.value.lines[0]!, id: /^[A-Za-z0-9._-]{1,64}$/.test(id) ? id : '' };
}

/** The kind that a row says, or that its other cells tell. */
function kindOf(cells: Cells): Line['kind'] | Reason {
  const asked = cells('kind').trim().toLowerCase();
  const has = (...columns: LineColumn[]): boolean => columns.some((column) => cells(column).trim() !== '');
  if (asked === '') return has('operation') ? 'operation' : has('qty', 'price', 'cost') ? 'part' : has('hours') ? 'labour' : 'note';
  const kind = (['operation', 'labour', 'part', 'sublet', 'fee', 'note'] as const).find(
    (word) => word === asked || (word === 'labour' && asked === 'labor'),
  );
  return kind ?? { reason: `"${cells('kind').trim()}" is not a kind of line. Write operation, labour, part, sublet, fee or note.` };
}

function readMore(cell: string): Record<string, unknown> | Reason {
  if (cell.trim() === '') return {};
  try {
    const more: unknown = JSON.parse(cell);
    if (typeof more === 'object' && more !== null && !Array.isArray(more)) return more as Record<string, unknown>;
  } catch {
    // Told below, like anything else that is not an object.
  }
  return { reason: 'The column More holds what this program wrote there; empty it, or put it back as it was.' };
}

type Use = <T>(value: T | Reason, otherwise: T) => T;

function fieldsOf(
  kind: Line['kind'],
  cells: Cells,
  figure: (column: LineColumn) => string | null,
  use: Use,
  options: LinesFromCsv,
): object {
  const work = cells('work');
  const labourClass = cells('labourClass').trim();
  switch (kind) {
    case 'operation': {
      const hours = figure('extraHours');
      return {
        operation: use(operationOf(cells, options), ''),
        positions: readList(cells('positions')),
        findings: readIds(cells('findings')),
        labourClass: labourClass || null,
        bookHours: figure('hours'),
        extraHours: hours === null ? null : { hours, reason: cells('extraReason') },
        parts: use(readOverrides(cells('parts'), options.locale), []),
      };
    }
    case 'labour':
      return { title: work, hours: figure('hours') ?? '0', labourClass: labourClass || options.labourClass };
    case 'part':
      return {
        title: work,
        number: cells('number'),
        qty: figure('qty') ?? '1',
        cost: figure('cost') ?? '0',
        unitPrice: figure('price'),
        core: figure('core') ?? '0',
        condition: cells('condition').trim().toLowerCase() || 'new',
      };
    case 'sublet':
      return { title: work, cost: figure('cost') ?? '0', price: figure('price') };
    case 'fee':
      return { title: work, amount: figure('price') ?? '0' };
    case 'note':
      return { text: work };
  }
}

/** By its id; else the catalogue's operation with the same words. */
function operationOf(cells: Cells, { catalogue }: LinesFromCsv): string | Reason {
  const id = cells('operation').trim();
  if (id !== '') return id;
  const words = cells('work').trim().toLowerCase();
  const found = catalogue?.operations.find(({ title }) => title.trim().toLowerCase() === words);
  return (
    found?.id ?? {
      reason:
        words === '' ? 'The line does not say which operation it is.' : `The catalogue has no operation called "${cells('work').trim()}".`,
    }
  );
}
