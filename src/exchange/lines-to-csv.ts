import type { Line } from '../documents/lines.js';
import type { DecimalString } from '../number/decimal.js';
import type { PricedEstimate, PricedLine } from '../pricing/priced-estimate.js';
import { LINE_COLUMNS, type LineColumn, moreOf, PRICED_COLUMNS, type PricedColumn } from './lines-fields.js';
import { printList } from './list-cell.js';
import { printOverrides } from './part-overrides.js';
import { printFigure, printTable, type TableForm } from './print-table.js';

/** What a cell of the column Taxes says of a line that is not taxed at all; no id has a blank in it. */
export const NO_TAX = 'no tax';

export interface LinesToCsv {
  readonly lines: readonly Line[];
  readonly form: TableForm;
  /** With the price of the same lines the table also tells what was worked out, which reading it back passes over. */
  readonly priced?: Pick<PricedEstimate, 'lines'> | null;
}

/**
 * The lines of an estimate as a table with a row of headings, guarded against formulas. `linesFromCsv` reads it back as
 * it was. Prices that the rate card works out are not written as if they had been typed.
 */
export function linesToCsv({ lines, form, priced = null }: LinesToCsv): string {
  const figure = (value: DecimalString): string => printFigure(value, form);
  const byId = new Map(priced?.lines.map((line) => [line.id, line]) ?? []);
  const headings = [...Object.values(LINE_COLUMNS), ...(priced === null ? [] : Object.values(PRICED_COLUMNS))];
  const rows = lines.map((line) => {
    const cells = cellsOf(line, byId.get(line.id)?.title ?? '', figure);
    const own = (Object.keys(LINE_COLUMNS) as LineColumn[]).map((column) => cells[column] ?? '');
    return priced === null ? own : [...own, ...pricedCells(byId.get(line.id), figure)];
  });
  return printTable([headings, ...rows], form);
}

type Cells = Partial<Record<LineColumn, string>>;
type Print = (value: DecimalString) => string;

function cellsOf(line: Line, title: string, figure: Print): Cells {
  const more = moreOf(line);
  return {
    id: line.id,
    kind: line.kind,
    taxes: line.taxes === null ? '' : line.taxes.length === 0 ? NO_TAX : line.taxes.join(', '),
    decision: line.decision,
    note: line.note,
    more: more === null ? '' : JSON.stringify(more),
    ...cellsOfKind(line, title, figure),
  };
}

function cellsOfKind(line: Line, title: string, figure: Print): Cells {
  const typed = (value: DecimalString | null): string => (value === null ? '' : figure(value));
  switch (line.kind) {
    case 'operation':
      return {
        operation: line.operation,
        work: title,
        positions: printList(line.positions),
        hours: typed(line.bookHours),
        labourClass: line.labourClass ?? '',
        findings: line.findings.join(', '),
        extraHours: typed(line.extraHours?.hours ?? null),
        extraReason: line.extraHours?.reason ?? '',
        parts: printOverrides(line.parts, figure),
      };
    case 'labour':
      return { work: line.title, hours: figure(line.hours), labourClass: line.labourClass };
    case 'part':
      return {
        work: line.title,
        number: line.number,
        qty: figure(line.qty),
        cost: figure(line.cost),
        price: typed(line.unitPrice),
        core: figure(line.core),
        condition: line.condition,
      };
    case 'sublet':
      return { work: line.title, cost: figure(line.cost), price: typed(line.price) };
    case 'fee':
      return { work: line.title, price: figure(line.amount) };
    case 'note':
      return { work: line.text };
  }
}

function pricedCells(line: PricedLine | undefined, figure: Print): string[] {
  return (Object.keys(PRICED_COLUMNS) as PricedColumn[]).map((column) => (line === undefined || !line.priced ? '' : figure(line[column])));
}
