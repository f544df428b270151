import type { Catalogue, Operation } from '../documents/catalogue.js';
import { decimal, printPlain } from '../number/decimal.js';
import type { ColumnMap } from './columns.js';
import { OPERATION_FIELDS, type OperationField, printField, readField } from './operation-fields.js';
import { isReason } from './reason.js';
import type { TableRow } from './read-table.js';
import { faultsOf } from './import-faults.js';
import { idFromWords } from './slug.js';

/** How a table of operations is to be taken. */
export interface ImportOptions {
  readonly columns: ColumnMap;
  /** How its figures are written: a language tag. */
  readonly locale: string;
  /** What becomes of a row whose operation the catalogue has already. */
  readonly existing: 'update' | 'skip';
  /** What an empty cell says of an operation that is updated: nothing, or that there is none. */
  readonly emptyCells: 'keep' | 'clear';
  /** The labour classes of the rate card, to be named by id or title; null where there is no card to ask. */
  readonly labourClasses: readonly { readonly id: string; readonly title: string }[] | null;
  /** For new operations of which the table does not say it. */
  readonly labourClass: string;
  readonly basis: string;
}

/** What one field of an operation was and would be, in the writing of the documents. */
export interface FieldChange {
  readonly field: OperationField;
  readonly before: string;
  readonly after: string;
}

/** What becomes of one row of the table. */
export interface ImportRow {
  /** Line of the table's text that the row begins in. */
  readonly line: number;
  readonly outcome: 'new' | 'changed' | 'same' | 'skipped' | 'bad';
  readonly id: string;
  readonly title: string;
  /** Why the row is bad; empty for all others. */
  readonly reasons: readonly string[];
  /** Of an operation that is changed: what. */
  readonly changes: readonly FieldChange[];
}

export interface ImportPlan {
  /** Every row of the table, in its order. */
  readonly rows: readonly ImportRow[];
  /** The good rows: operations to add, and others to take the place of those with the same id. */
  readonly added: readonly Operation[];
  readonly changed: readonly Operation[];
}

/** A row on its way: read, and not yet found bad. */
interface Candidate {
  readonly row: TableRow;
  readonly before: Operation | null;
  readonly operation: Operation;
}

/**
 * What taking a table into a catalogue would come to, without doing it. `rows` are the rows below the headings. A row is
 * bad when one of its cells cannot be read, when it names what is not there, when its id stands in the table before, or
 * when the catalogue with it in would break a rule (book hours below the steps, a ring of inclusions, …). What bad rows
 * would have brought is missing for the good ones too, so an operation that includes one from a bad row is bad itself.
 */
export function planImport(rows: readonly TableRow[], catalogue: Catalogue, options: ImportOptions): ImportPlan {
  const bad = new Map<TableRow, string[]>();
  const skipped = new Set<TableRow>();
  const candidates: Candidate[] = [];
  const known = new Map(catalogue.operations.map((operation) => [operation.id, operation]));
  const lineOf = new Map<string, number>();
  const idOf = rememberedIds(catalogue);

  for (const row of rows) {
    const read = readRow(row, options);
    const id = idOf(read.said);
    const before = known.get(id) ?? null;
    const earlier = lineOf.get(id);
    const reasons = [...read.reasons.values(), ...(before === null ? missing(read, options) : [])];
    if (earlier !== undefined) reasons.push(`The id "${id}" stands in line ${earlier} already.`);
    lineOf.set(id, earlier ?? row.line);
    if (reasons.length > 0) bad.set(row, reasons);
    else if (before !== null && options.existing === 'skip') skipped.add(row);
    else candidates.push({ row, before, operation: merged(id, before, read.said, options) });
  }

  const good = weedOut(candidates, catalogue, bad);
  const outcome = new Map(good.map((candidate) => [candidate.row, candidate]));
  return {
    rows: rows.map((row) => told(row, outcome.get(row), bad.get(row), options)),
    added: good.filter(({ before }) => before === null).map(({ operation }) => operation),
    changed: good
      .filter(({ before, operation }) => before !== null && changesOf(before, operation).length > 0)
      .map(({ operation }) => operation),
  };
}

/** The id of an operation that a row is about: as it says, else that of the operation with the same words, else a new one made from them. */
function rememberedIds({ operations }: Catalogue): (said: Partial<Operation>) => string {
  const inUse = new Set(operations.map(({ id }) => id));
  const byWords = new Map(operations.map(({ id, title }) => [title.trim().toLowerCase(), id]));
  return ({ id, title = '' }) => {
    const words = title.toLowerCase();
    const found = id ?? byWords.get(words) ?? idFromWords(title, inUse);
    inUse.add(found);
    if (words !== '' && id === undefined) byWords.set(words, found);
    return found;
  };
}

/** What the cells of a row say, and why some of them cannot be read. */
interface ReadRow {
  readonly said: Partial<Operation>;
  readonly reasons: ReadonlyMap<OperationField, string>;
}

function readRow({ cells }: TableRow, options: ImportOptions): ReadRow {
  const reasons = new Map<OperationField, string>();
  let said: Partial<Operation> = {};
  for (const field of OPERATION_FIELDS) {
    const column = options.columns[field];
    if (column === undefined) continue;
    const cell = cells[column] ?? '';
    const read = field === 'labourClass' ? readClass(cell, options) : readField(field, cell, options.locale);
    if (isReason(read)) reasons.set(field, read.reason);
    else if (read !== null) said = { ...said, ...read };
    else if (options.emptyCells === 'clear') said = { ...said, ...EMPTY[field] };
  }
  return { said, reasons };
}

/** What an empty cell stands for where it is to say that there is none. Id, title, class and hours are never none. */
const EMPTY: Readonly<Partial<Record<OperationField, Partial<Operation>>>> = {
  system: { system: '' },
  additionalHours: { additionalHours: '0' },
  steps: { steps: [] },
  includes: { includes: [] },
  parts: { parts: [] },
  fees: { fees: [] },
  cautions: { cautions: [] },
  basis: { basis: '' },
};

function readClass(cell: string, { labourClasses, locale }: ImportOptions) {
  if (labourClasses === null || cell.trim() === '') return readField('labourClass', cell, locale);
  const asked = cell.trim().toLowerCase();
  const found = labourClasses.find(({ id, title }) => id.toLowerCase() === asked || title.trim().toLowerCase() === asked);
  if (found !== undefined) return { labourClass: found.id };
  return { reason: `The rate card has no labour class "${cell.trim()}". It has: ${labourClasses.map(({ id }) => id).join(', ')}.` };
}

function missing({ said, reasons }: ReadRow, options: ImportOptions): string[] {
  const lacks = (field: OperationField): boolean => said[field] === undefined && !reasons.has(field);
  return [
    ...(lacks('title') && lacks('id') ? ['The operation has neither words nor an id.'] : []),
    ...(lacks('bookHours') ? ['The book hours are missing.'] : []),
    ...(lacks('labourClass') && options.labourClass === '' ? ['The labour class is missing.'] : []),
  ];
}

function merged(id: string, before: Operation | null, said: Partial<Operation>, options: ImportOptions): Operation {
  const blank: Operation = {
    id,
    title: id,
    system: '',
    labourClass: options.labourClass,
    per: 'vehicle',
    bookHours: '0',
    additionalHours: '0',
    steps: [],
    includes: [],
    parts: [],
    fees: [],
    cautions: [],
    basis: options.basis,
  };
  return { ...(before ?? blank), ...said };
}

/** The candidates with which the catalogue is no worse than without; the others go to `bad` with the reason. */
function weedOut(candidates: readonly Candidate[], catalogue: Catalogue, bad: Map<TableRow, string[]>): readonly Candidate[] {
  let good = candidates;
  for (;;) {
    const faults = faultsOf(
      good.map(({ operation }) => operation),
      catalogue,
    );
    if (faults.size === 0) return good;
    for (const { row, operation } of good) {
      const reasons = faults.get(operation.id);
      if (reasons !== undefined) bad.set(row, reasons);
    }
    good = good.filter(({ operation }) => !faults.has(operation.id));
  }
}

function told(row: TableRow, good: Candidate | undefined, reasons: readonly string[] | undefined, { columns }: ImportOptions): ImportRow {
  const cell = (field: OperationField): string => row.cells[columns[field] ?? -1]?.trim() ?? '';
  const base = {
    line: row.line,
    id: good?.operation.id ?? cell('id'),
    title: good?.operation.title ?? cell('title'),
    reasons: reasons ?? [],
    changes: [],
  };
  if (reasons !== undefined) return { ...base, outcome: 'bad' };
  if (good === undefined) return { ...base, outcome: 'skipped' };
  if (good.before === null) return { ...base, outcome: 'new' };
  const changes = changesOf(good.before, good.operation);
  return { ...base, outcome: changes.length === 0 ? 'same' : 'changed', changes };
}

/** What differs between two states of an operation; 1.40 hours are 1.4 hours. */
export function changesOf(before: Operation, after: Operation): FieldChange[] {
  const plain = (figure: string): string => printPlain(decimal(figure));
  return OPERATION_FIELDS.flatMap((field) => {
    if (printField(field, before, plain) === printField(field, after, plain)) return [];
    return [{ field, before: printField(field, before, (figure) => figure), after: printField(field, after, (figure) => figure) }];
  });
}
