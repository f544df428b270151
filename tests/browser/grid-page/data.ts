import type { SheetCell, SheetChoice, SheetColumn, SheetRow } from '../../../components/grid/sheet.js';

/** Rows of the harness. Work, hours and prices are invented. */

export const columns: readonly SheetColumn[] = [
  { id: 'work', title: 'Work', width: 240, help: 'What is done' },
  { id: 'position', title: 'Position', width: 100 },
  { id: 'book', title: 'Book hours', width: 86, align: 'end' },
  { id: 'shared', title: 'Shared', width: 76, align: 'end' },
  { id: 'qty', title: 'Quantity', width: 76, align: 'end' },
  { id: 'price', title: 'Unit price', width: 96, align: 'end' },
  { id: 'amount', title: 'Amount', width: 96, align: 'end' },
  { id: 'note', title: 'Note', width: 160 },
];

export const works: readonly SheetChoice[] = [
  { text: 'Heater hose, renew one', hint: 'seeps at the joint' },
  { text: 'Heater hoses, renew the set', hint: 'all four' },
  { text: 'Water pump, renew', hint: 'weeps at the shaft' },
  { text: 'Thermostat housing, renew', hint: 'cracked' },
  { text: 'Radiator, renew', hint: 'leaks at the tank' },
];

const text = (value: string, more: Partial<SheetCell> = {}): SheetCell => ({ text: value, editor: 'text', ...more });
const fixed = (value: string, more: Partial<SheetCell> = {}): SheetCell => ({ text: value, editor: 'none', ...more });

function mainRow(id: string, work: string, position: string, book: string, shared: string, note = ''): SheetRow {
  return {
    id,
    label: work,
    level: 'main',
    cells: {
      work: { text: work, editor: 'choice' },
      position: { text: position, editor: 'choice' },
      book: text(book),
      shared: fixed(shared, shared ? { marks: ['shared'], note: 'The coolant drain is carried by line 2.' } : {}),
      amount: fixed(''),
      note: text(note),
    },
  };
}

function partRow(id: string, title: string, qty: string, price: string, amount: string): SheetRow {
  return {
    id,
    label: title,
    level: 'sub',
    cells: {
      work: fixed(title),
      qty: text(qty),
      price: text(price, { edit: price.replace(',', '') }),
      amount: fixed(amount, { marks: ['strong'] }),
      note: text(''),
    },
  };
}

export function spareRow(): SheetRow {
  return {
    id: 'spare',
    label: 'New row',
    level: 'spare',
    cells: {
      work: { text: '', editor: 'choice' },
      position: { text: '', editor: 'choice' },
      book: text(''),
      qty: text(''),
      price: text(''),
      note: text(''),
    },
  };
}

export function smallRows(): SheetRow[] {
  return [
    mainRow('l1', 'Heater hose, renew one', 'feed', '1.4', '0.6'),
    partRow('p1', 'Hose seal', '2', '7.95', '15.90'),
    mainRow('l2', 'Water pump, renew', '', '3.2', ''),
    {
      id: 'p2',
      label: 'Pump and gasket',
      level: 'sub',
      cells: {
        work: fixed('Pump and gasket'),
        qty: text('one', { invalid: 'Not a number. Write figures, as in 2 or 0.5.' }),
        price: text('1,148.00', { edit: '1148', marks: ['changed'] }),
        amount: fixed('1,148.00', { marks: ['strong'] }),
        note: text('supplied by the customer', { marks: ['quiet'] }),
      },
    },
    {
      ...mainRow('l3', 'Radiator, renew', '', '2.1', '', 'declined'),
      cells: {
        ...mainRow('l3', 'Radiator, renew', '', '2.1', '', 'declined').cells,
        work: { text: 'Radiator, renew', editor: 'choice', marks: ['struck', 'quiet'] },
        amount: fixed('310.80', { marks: ['struck'] }),
      },
    },
    spareRow(),
  ];
}

export function manyRows(count: number): SheetRow[] {
  return Array.from({ length: count }, (_, index) => mainRow(`r${index}`, `Work ${index}`, '', '1.0', '', `note ${index}`));
}
