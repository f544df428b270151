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

/** "2 Replace a radiator hose (lower); 2 Replace a heater hose": how many for each; without figures where one needs all. */
export function neededFor({ needs }: PartToGet, figure: (text: DecimalString) => string): string {
  const buyers = needs.filter(({ qty }) => qty !== '0');
  if (buyers.length < 2) return buyers.map(({ title }) => title).join('');
  return buyers.map(({ qty, title }) => `${figure(qty)} for ${title}`).join('; ');
}
