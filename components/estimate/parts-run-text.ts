import { printFigure, printTable, tableForm, type TableForm } from '../../src/exchange/print-table.js';
import type { DecimalString } from '../../src/number/decimal.js';
import { STATE_WORDS } from '../../src/work/part-notes.js';
import type { PartsPlan, PartToGet } from '../../src/work/parts-plan.js';

const TITLES = ['Supplier', 'Part', 'Number', 'Condition', 'To get', 'Cores back', 'To give back', 'For', 'State', 'Note'] as const;

/** The parts run as a CSV file in the form that spreadsheets of the locale expect, guarded against formulas. */
export function partsRunCsv(plan: PartsPlan, locale: string): string {
  const form = tableForm(locale);
  return printTable(rowsOf(plan, form), form);
}

/** The parts run as text to paste into a message or a spreadsheet. */
export function partsRunText(plan: PartsPlan, locale: string): string {
  const form: TableForm = { ...tableForm(locale), separator: '\t' };
  return printTable(rowsOf(plan, form), form);
}

function rowsOf({ suppliers }: PartsPlan, form: TableForm): string[][] {
  const rows = suppliers.flatMap(({ supplier, parts }) => parts.map((part) => rowOf(supplier, part, form)));
  return [[...TITLES], ...rows];
}

function rowOf(supplier: string, part: PartToGet, form: TableForm): string[] {
  const figure = (text: DecimalString): string => (text === '0' ? '' : printFigure(text, form));
  return [
    supplier,
    part.title,
    part.number,
    part.condition,
    figure(part.qty),
    figure(part.cores),
    figure(part.giveBack),
    neededFor(part, (text) => printFigure(text, form)),
    STATE_WORDS[part.state],
    part.note,
  ];
}

/**
 * "2 for Replace a radiator hose (lower); 2 for Replace a heater hose (feed)": how many for what, without figures where one
 * use needs all. A shared step is told with the lines that need it, at most `most` of them.
 */
export function neededFor({ needs }: PartToGet, figure: (text: DecimalString) => string, most = Infinity): string {
  const told = needs.map(({ title, lines }) => (lines.length === 0 ? title : `${title}, for ${someOf(lines, most)}`));
  return needs.length < 2 ? told.join('') : told.map((words, i) => `${figure(needs[i]!.qty)} for ${words}`).join('; ');
}

function someOf(lines: readonly string[], most: number): string {
  const rest = lines.length > most ? ` and ${lines.length - most} more` : '';
  return `${lines.slice(0, most).join(', ')}${rest}`;
}
