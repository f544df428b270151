import { describe, expect, test } from 'vitest';
import { decimal, sum } from '../../../src/number/decimal.js';
import { feeLine, labourLine, operationLine, partLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const ids = (desk: Desk): string[] => desk.lines().map(({ id }) => id);

test('an operation with its parts, core charges and fees below it', () => {
  const desk = new Desk([operationLine('l1', 'hose-one', { positions: ['feed', 'return'] }), operationLine('l2', 'pump')]);
  expect(ids(desk)).toEqual([
    'lines:l1',
    'lines:l1/part/tube',
    'lines:l1/fee/disposal',
    'lines:l2',
    'lines:l2/part/pump',
    'lines:l2/core/pump',
    'lines:+',
  ]);
  // 1.4 + 0.2 h, of which the drain (0.6 h) is carried by the pump: 1 h at 100.00.
  expect(desk.texts('lines:l1')).toMatchObject({
    work: 'Replace a heater hose',
    kind: 'operation',
    where: 'feed, return',
    book: '1.6',
    shared: '0.6',
    charged: '1',
    rate: '100.00',
    amount: '100.00',
    decision: 'proposed',
  });
  // Two at 20.00 plus half.
  expect(desk.texts('lines:l1/part/tube')).toMatchObject({
    work: 'Hose',
    kind: 'new part',
    where: 'H-1',
    qty: '2',
    cost: '20.00',
    unit: '30.00',
    amount: '60.00',
  });
  expect(desk.texts('lines:l1/fee/disposal')).toMatchObject({ work: 'Disposal', kind: 'fee', unit: '3.00', amount: '3.00' });
  expect(desk.texts('lines:l2')).toMatchObject({ book: '2.6', charged: '2.6', amount: '260.00' });
  expect(desk.texts('lines:l2')).not.toHaveProperty('shared');
  expect(desk.texts('lines:l2/part/pump')).toMatchObject({ kind: 'rebuilt part', unit: '120.00' });
  expect(desk.texts('lines:l2/core/pump')).toMatchObject({ kind: 'core charge', unit: '15.00', amount: '15.00' });
  expect(desk.cell('lines:l1', 'shared')).toMatchObject({
    editor: 'none',
    marks: ['shared'],
    note: 'Drain and refill: 0.6 h, carried by “Replace the water pump”',
  });
});

test('lines of one’s own show what belongs to their kind, and nothing else', () => {
  const desk = new Desk([
    labourLine('l1', '1.5', { title: 'Look for it' }),
    partLine('l2', '2', null, { title: 'Clip', number: 'C-1', cost: '4.10' }),
    { id: 'l3', kind: 'sublet', title: 'Flushed elsewhere', cost: '80.00', price: null },
    feeLine('l4', '-12.50', { title: 'Core handed in' }),
    { id: 'l5', kind: 'note', text: 'The customer waits.' },
  ]);
  expect(desk.texts('lines:l1')).toMatchObject({
    work: 'Look for it',
    kind: 'labour',
    book: '1.5',
    charged: '1.5',
    rate: '100.00',
    amount: '150.00',
  });
  // 4.10 plus half is 6.15.
  expect(desk.texts('lines:l2')).toMatchObject({
    work: 'Clip',
    kind: 'new part',
    where: 'C-1',
    qty: '2',
    cost: '4.10',
    unit: '6.15',
    amount: '12.30',
  });
  expect(desk.texts('lines:l3')).toMatchObject({ kind: 'sublet', cost: '80.00', unit: '96.00', amount: '96.00' });
  expect(desk.texts('lines:l4')).toMatchObject({ kind: 'fee', unit: '-12.50', amount: '-12.50' });
  expect(desk.texts('lines:l5')).toEqual({ work: 'The customer waits.', kind: 'note' });
});

test('the amounts of all rows come to the charges of the lines less the discounts', () => {
  const desk = new Desk(
    [
      operationLine('l1', 'hose-one', { positions: ['feed'], extraHours: { hours: '0.5', reason: 'Seized clip' } }),
      operationLine('l2', 'pump', { decision: 'deferred' }),
      partLine('l3', '2', null, { cost: '4.10' }),
    ],
    { discounts: [{ id: 'd1', title: 'First visit', percent: '10', amount: null, on: ['labour'], lines: [] }] },
  );
  const amounts = desk.lines().flatMap((row) => (row.cells['amount']?.text ? [decimal(row.cells['amount'].text.replace(/,/g, ''))] : []));
  const { subtotal, discount } = desk.view.priced.totals;
  expect(sum(amounts).toFixed(2)).toBe(decimal(subtotal).minus(discount).toFixed(2));
  expect(desk.texts('discounts:d1')).toMatchObject({ work: 'First visit', kind: 'discount', where: 'labour', qty: '10 %' });
});

describe('what was typed by hand', () => {
  const desk = new Desk([
    operationLine('l1', 'pump', {
      bookHours: '3.5',
      labourClass: 'electrical',
      parts: [{ part: 'pump', qty: '2', unitPrice: '99.999', cost: '70.00', condition: 'new', omit: false }],
      taxes: ['city'],
    }),
  ]);

  test('is marked, with what the catalogue says', () => {
    expect(desk.cell('lines:l1', 'book')).toMatchObject({ text: '3.5', marks: ['changed'], note: 'Typed here; the catalogue says 2.6 h' });
    expect(desk.cell('lines:l1', 'rate')).toMatchObject({ text: '120.00', edit: 'Electrical work', marks: ['changed'] });
    expect(desk.cell('lines:l1', 'tax')).toMatchObject({ marks: ['changed'], note: 'City tax' });
    for (const column of ['kind', 'qty', 'cost', 'unit'])
      expect(desk.cell('lines:l1/part/pump', column).marks, column).toEqual(['changed']);
  });

  test('a price is shown in all its digits', () => {
    expect(desk.texts('lines:l1/part/pump')).toMatchObject({ qty: '2', cost: '70.00', unit: '99.999', amount: '200.00' });
  });
});

test('a part that is left out, extra hours and a note have rows of their own', () => {
  const desk = new Desk([
    {
      ...operationLine('l1', 'hose-one', { parts: [{ part: 'tube', omit: true }], extraHours: { hours: '0.5', reason: 'Seized clip' } }),
      note: 'as agreed',
    },
  ]);
  expect(ids(desk)).toEqual(['lines:l1', 'lines:l1/fee/disposal', 'lines:l1/part/tube', 'lines:l1/extra', 'lines:l1/note', 'lines:+']);
  expect(desk.cell('lines:l1/part/tube', 'work')).toMatchObject({ text: 'Hose', marks: ['struck'] });
  expect(desk.texts('lines:l1/part/tube')).toMatchObject({ qty: '0' });
  expect(desk.texts('lines:l1/extra')).toMatchObject({ work: 'Seized clip', kind: 'extra hours', book: '0.5' });
  expect(desk.texts('lines:l1/note')).toMatchObject({ work: 'as agreed', kind: 'note' });
  expect(desk.texts('lines:l1')).toMatchObject({ book: '1.9', charged: '1.9', amount: '190.00' });
});

test('what is not priced is struck through and has no amount', () => {
  for (const decision of ['declined', 'deferred'] as const) {
    const desk = new Desk([operationLine('l1', 'pump', { decision })]);
    expect(desk.cell('lines:l1', 'work').marks).toEqual(['struck']);
    expect(desk.texts('lines:l1')).toMatchObject({ decision, book: '2.6' });
    expect(desk.texts('lines:l1')).not.toHaveProperty('amount');
    expect(ids(desk)).toEqual(['lines:l1', 'lines:+']);
  }
});

test('figures are written as the card’s language does, and so opened', () => {
  const desk = new Desk([partLine('l1', '2', '1999.90', { cost: '1204.50' })], {}, { locale: 'de' });
  expect(desk.cell('lines:l1', 'cost')).toMatchObject({ text: '1.204,50', edit: '1.204,50' });
  expect(desk.type('lines:l1', 'unit', desk.cell('lines:l1', 'cost').edit!)).toEqual([]);
  expect(desk.estimate.lines[0]).toMatchObject({ unitPrice: '1204.50' });
});

test('every cell that can be changed takes what its editor opens with, and comes to the same', () => {
  const desk = new Desk(
    [
      {
        ...operationLine('l1', 'hose-one', {
          positions: ['feed', 'return'],
          extraHours: { hours: '0.5', reason: 'Seized clip' },
          bookHours: '1.5',
        }),
        note: 'as agreed',
      },
      operationLine('l2', 'pump', {
        taxes: ['city'],
        labourClass: 'electrical',
        parts: [{ part: 'pump', qty: '2', unitPrice: '99.999', cost: '70.00', condition: 'new', omit: false }],
      }),
      labourLine('l3', '1.25'),
      partLine('l4', '-2', '1999.90', { cost: '1204.50', condition: 'used' }),
      feeLine('l5', '-12.50'),
      { id: 'l6', kind: 'note', text: 'The customer waits.' },
      { id: 'l7', kind: 'sublet', title: 'Flushed', cost: '80.00', price: '90.00' },
    ],
    { discounts: [{ id: 'd1', title: 'First visit', percent: '10', amount: null, on: ['labour', 'part'], lines: [] }] },
  );
  const { total } = desk.view.priced.totals;
  for (const row of desk.lines().filter(({ level }) => level !== 'spare')) {
    for (const [column, cell] of Object.entries(row.cells)) {
      if (cell.editor === 'none') continue;
      desk.type(row.id, column, cell.edit ?? cell.text);
      expect(desk.cell(row.id, column).invalid, `${row.id} ${column}`).toBe(undefined);
      expect(desk.view.priced.totals.total, `${row.id} ${column}`).toBe(total);
    }
  }
});
