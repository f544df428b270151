/** Hostile tables: lines, operations and clocked hours as CSV. Rows or problems, never a throw; the guard never lets a formula through. */
import { guessColumns, hasHeadings } from '../../src/exchange/columns.js';
import { guardCell, unguardCell } from '../../src/exchange/guard.js';
import { planImport } from '../../src/exchange/import-operations.js';
import { linesFromCsv } from '../../src/exchange/lines-from-csv.js';
import { linesToCsv } from '../../src/exchange/lines-to-csv.js';
import { operationsToCsv } from '../../src/exchange/operations-csv.js';
import { type Separator, SEPARATORS } from '../../src/exchange/print-table.js';
import { readTable } from '../../src/exchange/read-table.js';
import { type Catalogue, type Line, parseCatalogue, parseEstimate, readClockedHours } from '../../src/index.js';
import { type Drawing, randomDocuments } from '../support/arbitraries.js';
import { readDocuments } from '../support/builders.js';
import { spoiltText } from '../support/hostile.js';
import type { Count, Proof, Timed } from './proof.js';
import { assertUntouched, printed } from './untouched.js';

const PIECES = [
  '=1+1',
  '+1',
  '-1',
  '@x',
  '\t',
  '\r',
  '\n',
  '\r\n',
  '"',
  '""',
  "'",
  ',',
  ';',
  ' ',
  '\u00a0',
  '\u200b',
  '\ufeff',
  '＝1',
  '\u0000',
  '\ud800',
  '__proto__',
  'constructor',
  'operation',
  'l1',
  'o0',
  'p0',
  's0',
  '1.5',
  '1,5',
  '1:30',
  '1.234,5',
  '999999999999999',
  '1e5',
  'NaN',
  '{}',
  '{"a":1}',
  '{"__proto__":{"polluted":true}}',
  '[[',
  'x',
  'é',
  'İ',
  'quantity',
  'left-out',
  ' × 2 each',
  'no tax',
  '100 %',
];
const LOCALES = ['en-US', 'de-DE', 'fr-FR', 'ar-EG', 'en-IN', 'de-CH', 'zz', '', 'not a locale', '__proto__'];

const cell = (d: Drawing): string => Array.from({ length: d.pick([0, 1, 1, 2, 3, 8]) }, () => d.pick(PIECES)).join('');

/** A cell that is one piece again and again. */
const longCell = (d: Drawing): string =>
  `${d.pick(['', 'x', ',', '"', '=', "'"])}${d.pick(PIECES).repeat(d.pick([1_000, 20_000, 200_000]))}${d.pick(['', 'x', '=', "'="])}`;

function rawTable(d: Drawing): string {
  const rows = Array.from({ length: d.int(0, 8) }, () => Array.from({ length: d.int(0, 6) }, () => (d.chance(2) ? longCell(d) : cell(d))));
  const quote = (text: string): string => (d.chance(50) ? `"${text.replaceAll('"', '""')}"` : text);
  return rows.map((row) => row.map(quote).join(d.pick([',', ';', '\t']))).join(d.pick(['\r\n', '\n', '\r']));
}

function spoiltTable(d: Drawing, text: string): string {
  if (d.chance(30)) return spoiltText(d, text);
  const rows = text.split('\r\n');
  for (let times = d.int(1, 4); times > 0; times -= 1) {
    const at = d.int(0, rows.length - 1);
    const cells = rows[at]!.split(',');
    cells[d.int(0, cells.length - 1)] = d.chance(3) ? longCell(d) : cell(d);
    rows[at] = cells.join(',');
  }
  return rows.join('\r\n');
}

function tryGuard(d: Drawing): void {
  const text = d.chance(3) ? longCell(d) : cell(d);
  if (unguardCell(guardCell(text)) !== text) throw new Error(`the guard does not come off: ${printed(text)}`);
}

function tryLines(text: string, d: Drawing, catalogue: Catalogue, there: readonly Line[]): number {
  const read = linesFromCsv(text, {
    locale: d.pick(LOCALES),
    catalogue: d.chance(70) ? catalogue : null,
    there,
    labourClass: d.pick(['', 'general']),
  });
  const all = parseEstimate({ format: 'baysheet-estimate', version: 1, id: 'e', lines: [...there, ...read.lines] });
  if (!all.ok && all.problems.some(({ code }) => code !== 'too-large'))
    throw new Error(`lines from a table do not read: ${printed(all.problems)}`);
  if (read.bad.some(({ reasons }) => reasons.length === 0)) throw new Error('a bad row without a reason');
  return read.lines.length;
}

function tryOperations(text: string, d: Drawing, catalogue: Catalogue): number {
  const { rows } = readTable(text, d.pick<Separator | undefined>([undefined, undefined, ...SEPARATORS]));
  const [first = { line: 1, cells: [] }, ...rest] = rows;
  const headed = hasHeadings(first.cells);
  const columns = d.chance(80) ? guessColumns(first.cells) : { id: d.int(0, 4), title: d.int(0, 4), bookHours: d.int(0, 9) };
  const plan = planImport(headed ? rest : rows, catalogue, {
    columns,
    locale: d.pick(LOCALES),
    existing: d.pick(['update', 'skip']),
    emptyCells: d.pick(['keep', 'clear']),
    labourClasses: d.chance(50) ? [{ id: 'general', title: 'General' }] : null,
    labourClass: d.pick(['', 'general']),
    basis: 'invented',
  });
  const changed = new Map(plan.changed.map((operation) => [operation.id, operation]));
  const after = parseCatalogue({
    ...catalogue,
    operations: [...catalogue.operations.map((operation) => changed.get(operation.id) ?? operation), ...plan.added],
  });
  if (!after.ok) throw new Error(`a catalogue with what was imported does not read: ${printed(after.problems)}`);
  return plan.added.length + plan.changed.length;
}

function tryTable(d: Drawing, count: Count, timed: Timed): void {
  const documents = randomDocuments(d);
  const { estimate, catalogue } = readDocuments(documents);
  const kind = d.pick(['lines', 'operations', 'clocked hours'] as const);
  const form = { separator: d.pick(SEPARATORS), decimalMark: d.pick(['.', ','] as const) };
  const whole =
    kind === 'operations'
      ? operationsToCsv(catalogue, form)
      : kind === 'lines'
        ? linesToCsv({ lines: estimate.lines, form })
        : 'operation;hours;estimate\r\no0;1,5;e\r\n';
  const text = d.chance(35) ? rawTable(d) : spoiltTable(d, whole);
  count(`(${kind})`);
  try {
    timed('the guard', () => tryGuard(d));
    const taken = timed(kind, () =>
      kind === 'lines'
        ? tryLines(text, d, catalogue, d.chance(50) ? estimate.lines : [])
        : kind === 'operations'
          ? tryOperations(text, d, catalogue)
          : readClockedHours(text, catalogue, d.pick(LOCALES)).rows.length,
    );
    count(taken > 0 ? '(something taken)' : '(nothing taken)');
    assertUntouched();
  } catch (fault) {
    throw new Error(`${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n${kind}: ${printed(text)}`, {
      cause: fault,
    });
  }
}

export const fuzzTables: Proof = {
  name: 'fuzz-tables',
  what: 'hostile tables of lines, operations and clocked hours',
  cases: 50_000,
  few: 400,
  reach: new Map([
    ['(something taken)', 8],
    ['(nothing taken)', 15],
  ]),
  try: tryTable,
};
