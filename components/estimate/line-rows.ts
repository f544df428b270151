import type { Discount } from '../../src/documents/estimate.js';
import type { Line, OperationLine } from '../../src/documents/lines.js';
import { decimal, printPlain, sum } from '../../src/number/decimal.js';
import type { PricedCharge, PricedLine } from '../../src/pricing/priced-estimate.js';
import { rowOf } from '../../src/store/commands.js';
import type { SheetCell, SheetRow } from '../grid/sheet.js';
import { formatFigure } from '../look/format.js';
import { entered, type SheetView, shown } from './context.js';
import { kindWord, ownTitle, partWord } from './kinds.js';
import { type LineColumn, SPARE_LINE, subRow } from './line-columns.js';
import { sharedNotes } from './shared-note.js';

type Cells = Partial<Record<LineColumn, SheetCell>>;

/** A line with what the sheet shows of it. */
export interface LineParts {
  readonly line: Line;
  readonly priced: PricedLine;
  readonly charges: readonly PricedCharge[];
  /** Which lines pay for what it shares, in words. */
  readonly note: string;
}

/**
 * The lines grid: every line, under it a row for each part, core charge and fee, for its extra hours and its note; then
 * the discounts, then a spare row. The amounts of the rows add up to the charges of the lines less the discounts.
 */
export function lineRows(view: SheetView, ofLine: (parts: LineParts, view: SheetView) => readonly SheetRow[] = rowsOfLine): SheetRow[] {
  const charges = chargesByLine(view.priced.charges);
  const notes = sharedNotes(view);
  const { lines, discounts } = view.state.estimate;
  const rows = lines.flatMap((line, i) => {
    const priced = view.priced.lines[i]!;
    return ofLine({ line, priced, charges: charges.get(line.id) ?? [], note: notes(priced) }, view);
  });
  return [...rows, ...discounts.map((discount, i) => discountRow(discount, i, view)), spareRow(lines.length)];
}

export function rowsOfLine(parts: LineParts, view: SheetView): SheetRow[] {
  const { line, charges } = parts;
  const below = charges.filter((charge) => charge.kind !== 'labour');
  const subs =
    line.kind === 'operation'
      ? below.map((charge) => chargeRow(line, charge, view))
      : below.filter((charge) => charge.kind === 'core').map((charge) => coreRow(line, charge, view));
  return [mainRow(parts, view), ...subs, ...leftOutRows(line, charges, view), ...extraRow(line, view), ...noteRow(line, view)];
}

function mainRow({ line, priced, charges, note }: LineParts, view: SheetView): SheetRow {
  const row = rowOf('lines', line.id);
  const title = ownTitle(line, priced.title);
  const own =
    line.kind === 'operation' ? charges.filter((charge) => charge.kind === 'labour') : charges.filter((charge) => charge.kind !== 'core');
  const cells: Cells = {
    work: {
      text: title,
      editor: line.kind === 'operation' ? 'choice' : 'text',
      ...(priced.priced || line.kind === 'note' ? {} : { marks: ['struck'] }),
    },
    kind: { text: kindWord(line), editor: 'choice' },
    ...(line.kind === 'note' ? {} : { tax: taxCell(line, own[0], view), decision: decisionCell(line), amount: amountCell(own, view) }),
    ...cellsOfKind(line, priced, own[0], note, view),
  };
  return { id: row, label: title === '' ? 'Line without words' : title, level: 'main', cells: enteredCells(cells, row, view) };
}

function cellsOfKind(line: Line, priced: PricedLine, charge: PricedCharge | undefined, note: string, view: SheetView): Cells {
  switch (line.kind) {
    case 'operation':
      return { where: { text: line.positions.join(', '), editor: 'choice' }, ...hourCells(line, priced, note, view) };
    case 'labour':
      return {
        book: figureCell(line.hours, line.hours, view),
        charged: shown(priced.priced ? formatFigure(priced.chargedHours, view.locale) : ''),
        rate: rateCell(line.labourClass, false, priced, view),
      };
    case 'part':
      return {
        where: { text: line.number, editor: 'text' },
        qty: figureCell(line.qty, line.qty, view),
        cost: figureCell(line.cost, line.cost, view),
        unit: figureCell(charge?.unit ?? line.unitPrice ?? '', line.unitPrice ?? charge?.unit ?? '', view, line.unitPrice !== null),
      };
    case 'sublet':
      return {
        cost: figureCell(line.cost, line.cost, view),
        unit: figureCell(charge?.unit ?? line.price ?? '', line.price ?? charge?.unit ?? '', view, line.price !== null),
      };
    case 'fee':
      return { unit: figureCell(line.amount, line.amount, view) };
    case 'note':
      return {};
  }
}

function hourCells(line: OperationLine, priced: PricedLine, note: string, view: SheetView): Cells {
  const operation = view.catalogue.operations.get(line.operation);
  const typed = line.bookHours !== null;
  const book = line.bookHours ?? operation?.bookHours ?? '0';
  const shared = decimal(priced.sharedHours).isZero() ? '' : formatFigure(priced.sharedHours, view.locale);
  return {
    book: {
      ...figureCell(priced.bookHours, book, view, typed),
      ...(typed && operation !== undefined
        ? { note: `Typed here; the catalogue says ${formatFigure(operation.bookHours, view.locale)} h` }
        : {}),
    },
    shared: shown(priced.priced ? shared : '', { marks: ['shared'], ...(note === '' ? {} : { note }) }),
    charged: shown(priced.priced ? formatFigure(priced.chargedHours, view.locale) : ''),
    rate: rateCell(line.labourClass ?? operation?.labourClass ?? '', line.labourClass !== null, priced, view),
  };
}

function rateCell(labourClass: string, typed: boolean, priced: PricedLine, view: SheetView): SheetCell {
  const title = view.rates.rates.labourClasses.find(({ id }) => id === labourClass)?.title ?? '';
  return {
    text: formatFigure(priced.rate, view.locale),
    edit: title || labourClass,
    editor: 'choice',
    ...(typed ? { marks: ['changed'], note: `Labour class: ${title || labourClass}` } : {}),
  };
}

/** A figure that can be typed. `edit` is what the editor opens with. */
function figureCell(text: string, edit: string, view: SheetView, changed = false): SheetCell {
  const print = (figure: string): string => (figure === '' ? '' : formatFigure(figure, view.locale));
  return { text: print(text), edit: print(edit), editor: 'text', ...(changed ? { marks: ['changed'] } : {}) };
}

function taxCell(line: Line, charge: PricedCharge | undefined, view: SheetView): SheetCell {
  const ids = line.taxes ?? charge?.taxes ?? [];
  const titles = ids.map((id) => view.rates.taxes.get(id)?.tax.title ?? id);
  return {
    text: taxText(ids, view),
    edit: line.taxes === null ? '' : ids.length === 0 ? 'none' : ids.join(', '),
    editor: 'choice',
    ...(titles.length === 0 ? {} : { note: titles.join(', ') }),
    marks: [line.taxes === null ? 'quiet' : 'changed'],
  };
}

/** What the taxes come to together; by name where one rests on another, since those do not simply add up. */
function taxText(ids: readonly string[], view: SheetView): string {
  if (ids.length === 0) return 'none';
  const taxes = ids.map((id) => view.rates.taxes.get(id)?.tax);
  if (taxes.some((tax) => tax === undefined || tax.after.length > 0)) return ids.join(', ');
  return `${formatFigure(printPlain(sum(taxes.map((tax) => decimal(tax!.percent)))), view.locale)} %`;
}

function decisionCell(line: Line): SheetCell {
  return { text: line.decision, editor: 'choice', marks: [line.decision === 'proposed' ? 'quiet' : 'strong'] };
}

function amountCell(own: readonly PricedCharge[], view: SheetView): SheetCell {
  const text = own[0] === undefined ? '' : formatFigure(own[0].amount, view.locale);
  return shown(text, { marks: ['strong'] });
}

/** A part, core charge or fee that comes with an operation. */
function chargeRow(line: OperationLine, charge: PricedCharge, view: SheetView): SheetRow {
  if (charge.kind === 'core') return coreRow(line, charge, view);
  if (charge.part === undefined) {
    return {
      id: subRow(line.id, 'fee', charge.id.slice(`${line.id}.fee.`.length)),
      label: charge.title,
      level: 'sub',
      cells: { work: shown(charge.title), kind: shown('fee', { marks: ['quiet'] }), ...chargeCells(charge, view) },
    };
  }
  const id = charge.part.id!;
  const override = line.parts.find((part) => part.part === id);
  const row = subRow(line.id, 'part', id);
  const cost = override?.cost ?? view.catalogue.parts.get(id)!.cost;
  const unit = override?.unitPrice ?? null;
  const cells: Cells = {
    work: shown(charge.title),
    kind: {
      text: partWord(charge.part.condition),
      editor: 'choice',
      ...(override?.condition == null ? { marks: ['quiet'] } : { marks: ['changed'] }),
    },
    where: shown(charge.part.number, { marks: ['quiet'] }),
    ...chargeCells(charge, view),
    qty: figureCell(charge.qty, charge.qty, view, override?.qty != null),
    cost: figureCell(cost, cost, view, override?.cost != null),
    unit: figureCell(charge.unit, charge.unit, view, unit !== null),
  };
  return { id: row, label: `${charge.title}, part`, level: 'sub', cells: enteredCells(cells, row, view) };
}

function coreRow(line: Line, charge: PricedCharge, view: SheetView): SheetRow {
  return {
    id: subRow(line.id, 'core', charge.part?.id ?? ''),
    label: `${charge.title}, core charge`,
    level: 'sub',
    cells: {
      work: shown(charge.title, { note: 'Comes back when the old part is handed in' }),
      kind: shown('core charge', { marks: ['quiet'] }),
      ...chargeCells(charge, view),
    },
  };
}

function chargeCells(charge: PricedCharge, view: SheetView): Cells {
  return {
    qty: shown(formatFigure(charge.qty, view.locale)),
    unit: shown(formatFigure(charge.unit, view.locale)),
    tax: shown(taxText(charge.taxes, view), { marks: ['quiet'] }),
    amount: shown(formatFigure(charge.amount, view.locale)),
  };
}

/** Parts that the line leaves out stay in sight, so that they can be taken in again. */
function leftOutRows(line: Line, charges: readonly PricedCharge[], view: SheetView): SheetRow[] {
  if (line.kind !== 'operation') return [];
  return line.parts.flatMap((override) => {
    const part = view.catalogue.parts.get(override.part);
    if (!override.omit || part === undefined || charges.some((charge) => charge.part?.id === part.id)) return [];
    const row = subRow(line.id, 'part', part.id);
    const cells: Cells = {
      work: shown(part.title, { marks: ['struck'], note: 'Left out; type a quantity to take it in again' }),
      kind: shown(partWord(part.condition), { marks: ['quiet'] }),
      where: shown(part.number, { marks: ['quiet'] }),
      qty: { text: formatFigure('0', view.locale), editor: 'text', marks: ['changed'] },
    };
    return [{ id: row, label: `${part.title}, left out`, level: 'sub' as const, cells: enteredCells(cells, row, view) }];
  });
}

function extraRow(line: Line, view: SheetView): SheetRow[] {
  if (line.kind !== 'operation' || line.extraHours === null) return [];
  const row = subRow(line.id, 'extra');
  const cells: Cells = {
    work: { text: line.extraHours.reason, editor: 'text' },
    kind: shown('extra hours', { marks: ['quiet'] }),
    book: figureCell(line.extraHours.hours, line.extraHours.hours, view, true),
  };
  return [{ id: row, label: `Extra hours: ${line.extraHours.reason}`, level: 'sub', cells: enteredCells(cells, row, view) }];
}

function noteRow(line: Line, view: SheetView): SheetRow[] {
  if (line.note === '' && !view.state.pending.has(`${subRow(line.id, 'note')} work`)) return [];
  const row = subRow(line.id, 'note');
  const cells: Cells = { work: { text: line.note, editor: 'text' }, kind: shown('note', { marks: ['quiet'] }) };
  return [{ id: row, label: 'Note on the line', level: 'sub', cells: enteredCells(cells, row, view) }];
}

function discountRow(discount: Discount, i: number, view: SheetView): SheetRow {
  const row = rowOf('discounts', discount.id);
  const taken = view.priced.totals.discounts[i]?.amount;
  const lines = discount.lines.map((id) => view.priced.lines.find((line) => line.id === id)?.title ?? id);
  const cells: Cells = {
    work: { text: discount.title, editor: 'text' },
    kind: shown('discount', { marks: ['quiet'] }),
    where: {
      text: discount.on.join(', '),
      editor: 'choice',
      note: lines.length === 0 ? 'On all charges of these kinds' : `Only on: ${lines.join('; ')}`,
    },
    qty: {
      text: discount.percent === null ? '' : `${formatFigure(discount.percent, view.locale)} %`,
      edit: discount.percent === null ? '' : formatFigure(discount.percent, view.locale),
      editor: 'text',
      note: 'Percent; or type an amount as the unit price',
    },
    unit: discount.amount === null ? { text: '', editor: 'text' } : figureCell(discount.amount, discount.amount, view),
    amount: shown(taken === undefined || decimal(taken).isZero() ? '' : formatFigure(`-${taken}`, view.locale), { marks: ['strong'] }),
  };
  return { id: row, label: `Discount: ${discount.title}`, level: 'main', cells: enteredCells(cells, row, view) };
}

function spareRow(lines: number): SheetRow {
  const text: readonly LineColumn[] = ['book', 'qty', 'cost', 'unit'];
  const choice: readonly LineColumn[] = ['kind', 'where', 'rate', 'tax', 'decision'];
  const empty = (editor: 'text' | 'choice') => (column: LineColumn) => [column, { text: '', editor }] as const;
  return {
    id: SPARE_LINE,
    label: 'New line',
    level: 'spare',
    cells: {
      work: { text: lines === 0 ? 'Type the work to be done' : 'Next line', edit: '', editor: 'choice', marks: ['quiet'] },
      ...Object.fromEntries([...text.map(empty('text')), ...choice.map(empty('choice'))]),
    },
  };
}

function enteredCells(cells: Cells, row: string, view: SheetView): Record<string, SheetCell> {
  if (view.state.pending.size === 0) return cells;
  return Object.fromEntries(Object.entries(cells).map(([column, cell]) => [column, entered(view, row, column, cell)]));
}

function chargesByLine(charges: readonly PricedCharge[]): Map<string | null, PricedCharge[]> {
  const found = new Map<string | null, PricedCharge[]>();
  for (const charge of charges) {
    const list = found.get(charge.line);
    if (list === undefined) found.set(charge.line, [charge]);
    else list.push(charge);
  }
  return found;
}
