import { describe, expect, test } from 'vitest';
import { feeLine, labourLine, operationLine, partLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const SPARE = 'lines:+';
const line = (desk: Desk, at = 0) => desk.estimate.lines[at]!;

describe('the spare row', () => {
  test('the words of an operation, or its id, make an operation line', () => {
    for (const text of ['replace the WATER pump', 'pump']) {
      const desk = new Desk();
      expect(desk.type(SPARE, 'work', text)).toEqual([]);
      expect(line(desk)).toMatchObject({ id: 'l1', kind: 'operation', operation: 'pump', decision: 'proposed', bookHours: null });
    }
  });

  test('words of one’s own make a note, so that nothing typed is lost', () => {
    const desk = new Desk();
    desk.type(SPARE, 'work', 'Look for the rattle');
    expect(line(desk)).toMatchObject({ kind: 'note', text: 'Look for the rattle' });
    desk.type('lines:l1', 'kind', 'labour');
    desk.type('lines:l1', 'book', '=1.2+0.3');
    expect(line(desk)).toMatchObject({ kind: 'labour', title: 'Look for the rattle', hours: '1.5', labourClass: 'general' });
  });

  test.each([
    [
      { work: 'Clip', qty: '2' },
      { kind: 'part', title: 'Clip', qty: '2', condition: 'new' },
    ],
    [
      { work: 'Clip', unit: '2.50' },
      { kind: 'part', unitPrice: '2.50', qty: '1' },
    ],
    [
      { work: 'Look', book: '1.5' },
      { kind: 'labour', title: 'Look', hours: '1.5' },
    ],
    [
      { work: 'Clip', kind: 'used part', cost: '1.10' },
      { kind: 'part', condition: 'used', cost: '1.10' },
    ],
    [
      { work: 'Flushed', kind: 'sublet', cost: '80', unit: '95.00' },
      { kind: 'sublet', cost: '80', price: '95.00' },
    ],
    [
      { work: 'Core', kind: 'fee', unit: '(12.50)' },
      { kind: 'fee', title: 'Core', amount: '-12.50' },
    ],
    [
      { work: 'pump', book: '3', decision: 'app', rate: 'electrical' },
      { kind: 'operation', operation: 'pump', bookHours: '3', decision: 'approved', labourClass: 'electrical' },
    ],
    [{ kind: 'labour' }, { kind: 'labour', title: '', hours: '0' }],
    [{ book: '2' }, { kind: 'labour', hours: '2' }],
    [{ decision: 'approved' }, { kind: 'note', decision: 'approved' }],
  ])('a pasted row %j', (row, made) => {
    const desk = new Desk();
    expect(desk.paste('lines', row as unknown as Record<string, string>)).toEqual([]);
    expect(desk.estimate.lines).toMatchObject([made]);
  });

  test('a row that says nothing makes nothing', () => {
    const desk = new Desk();
    desk.paste('lines', { work: ' ', kind: '', qty: '' });
    expect(desk.estimate.lines).toEqual([]);
    expect(desk.store.labels().undo).toBe(null);
  });

  test('an unknown operation or kind is made a line that says what is wrong', () => {
    const desk = new Desk();
    const refused = desk.paste('lines', { work: 'Sing to it', kind: 'operation' }, { work: 'Clip', kind: 'gift', qty: '2' });
    expect(refused).toEqual([
      'The catalogue has no operation called "Sing to it". Choose one from the list, or make this a labour line.',
      '"gift" is not a kind of line. Write operation, labour, new part, used part, sublet, fee, note or discount.',
    ]);
    expect(desk.estimate.lines).toMatchObject([
      { kind: 'note', text: 'Sing to it' },
      { kind: 'part', title: 'Clip', qty: '2' },
    ]);
    expect(desk.cell('lines:l1', 'kind')).toMatchObject({ text: 'operation', invalid: expect.stringContaining('Sing to it') });
    expect(desk.cell('lines:l2', 'kind')).toMatchObject({ text: 'gift', invalid: expect.stringContaining('gift') });
  });

  test('several rows, one step of undo', () => {
    const desk = new Desk([operationLine('l1', 'belt')]);
    desk.paste('lines', { work: 'pump' }, { work: 'Clip', qty: '2' }, { work: 'Words' });
    expect(desk.estimate.lines.map(({ id }) => id)).toEqual(['l1', 'l2', 'l3', 'l4']);
    desk.store.undo();
    expect(desk.estimate.lines).toHaveLength(1);
    expect(desk.store.labels().undo).toBe(null);
  });
});

describe('an operation line', () => {
  test('another operation puts aside the hours and parts that were typed for the first', () => {
    const desk = new Desk([
      {
        ...operationLine('l1', 'hose-one', {
          bookHours: '2',
          labourClass: 'electrical',
          positions: ['feed'],
          parts: [{ part: 'tube', qty: '3' }],
        }),
        note: 'as agreed',
      },
    ]);
    desk.type('lines:l1', 'work', 'Replace the heater hose set');
    expect(line(desk)).toMatchObject({
      operation: 'hose-set',
      bookHours: null,
      labourClass: null,
      parts: [],
      positions: ['feed'],
      note: 'as agreed',
    });
  });

  test('the same operation again changes nothing', () => {
    const desk = new Desk([operationLine('l1', 'hose-one', { bookHours: '2' })]);
    desk.type('lines:l1', 'work', 'Replace a heater hose');
    expect(line(desk)).toMatchObject({ bookHours: '2' });
  });

  test('positions: without blanks and twins', () => {
    const desk = new Desk([operationLine('l1', 'hose-one')]);
    desk.type('lines:l1', 'where', ' feed,return ,, feed ');
    expect(line(desk)).toMatchObject({ positions: ['feed', 'return'] });
    desk.type('lines:l1', 'where', '');
    expect(line(desk)).toMatchObject({ positions: [] });
  });

  test('empty hours, rate and tax take the catalogue’s and the card’s again', () => {
    const desk = new Desk([operationLine('l1', 'hose-one', { bookHours: '2', labourClass: 'electrical', taxes: ['city'] })]);
    for (const column of ['book', 'rate', 'tax']) expect(desk.type('lines:l1', column, '')).toEqual([]);
    expect(line(desk)).toMatchObject({ bookHours: null, labourClass: null, taxes: null });
  });

  test('taxes by id or by title, several, or none', () => {
    const desk = new Desk([operationLine('l1', 'pump')]);
    desk.type('lines:l1', 'tax', 'City tax, state, city');
    expect(line(desk)).toMatchObject({ taxes: ['city', 'state'] });
    desk.type('lines:l1', 'tax', 'None');
    expect(line(desk)).toMatchObject({ taxes: [] });
    expect(desk.type('lines:l1', 'tax', 'state, county')).toEqual([
      'The rate card has no tax "county". Write one or more of: state, city; or none.',
    ]);
    expect(line(desk)).toMatchObject({ taxes: [] });
  });

  test('becomes a labour line with its words', () => {
    const desk = new Desk([operationLine('l1', 'pump', { decision: 'approved' })]);
    desk.type('lines:l1', 'kind', 'labour');
    expect(line(desk)).toMatchObject({ id: 'l1', kind: 'labour', title: 'Replace the water pump', decision: 'approved' });
    desk.type('lines:l1', 'kind', 'operation');
    expect(line(desk)).toMatchObject({ kind: 'operation', operation: 'pump', decision: 'approved' });
  });
});

describe('parts below an operation', () => {
  const row = 'lines:l1/part/tube';
  const parts = (desk: Desk) => (line(desk) as { parts: unknown }).parts;

  test('what is said differently is kept with the line, and goes when it says nothing more', () => {
    const desk = new Desk([operationLine('l1', 'hose-one')]);
    desk.type(row, 'qty', '3');
    desk.type(row, 'unit', '=2*17.25');
    desk.type(row, 'kind', 'used');
    expect(parts(desk)).toEqual([{ part: 'tube', qty: '3', unitPrice: '34.5', cost: null, condition: 'used', omit: false }]);
    expect(desk.texts(row)).toMatchObject({ qty: '3', unit: '34.50', amount: '103.50', kind: 'used part' });
    for (const column of ['qty', 'unit', 'kind']) desk.type(row, column, '');
    expect(parts(desk)).toEqual([]);
  });

  test('a quantity takes a part in again that was left out', () => {
    const desk = new Desk([operationLine('l1', 'hose-one', { parts: [{ part: 'tube', omit: true }] })]);
    desk.type(row, 'qty', '2');
    expect(parts(desk)).toMatchObject([{ qty: '2', omit: false }]);
  });

  test('a price below zero and a condition that there is not are refused', () => {
    const desk = new Desk([operationLine('l1', 'hose-one')]);
    expect(desk.type(row, 'unit', '-1')).toHaveLength(1);
    expect(desk.type(row, 'kind', 'labour')).toEqual([
      '"labour" is not a condition. Write new part, used part, rebuilt part or reconditioned part.',
    ]);
    expect(parts(desk)).toEqual([]);
    expect(desk.cell(row, 'unit')).toMatchObject({ text: '-1', invalid: expect.stringContaining('below zero') });
  });

  test('extra hours and the note', () => {
    const desk = new Desk([{ ...operationLine('l1', 'hose-one', { extraHours: { hours: '0.5', reason: 'Seized' } }), note: 'as agreed' }]);
    desk.type('lines:l1/extra', 'book', '0.75');
    desk.type('lines:l1/extra', 'work', 'Rusted clip');
    desk.type('lines:l1/note', 'work', 'by telephone');
    expect(line(desk)).toMatchObject({ extraHours: { hours: '0.75', reason: 'Rusted clip' }, note: 'by telephone' });
    desk.type('lines:l1/extra', 'book', '');
    desk.type('lines:l1/note', 'work', '');
    expect(line(desk)).toMatchObject({ extraHours: null, note: '' });
  });
});

describe('discounts', () => {
  test('a row of the kind discount makes one, that takes nothing yet', () => {
    const desk = new Desk([labourLine('l1', '1')]);
    desk.type(SPARE, 'kind', 'disc');
    expect(desk.estimate.discounts).toEqual([
      { id: 'd1', title: 'Discount', percent: '0', amount: null, on: ['labour', 'part'], lines: [] },
    ]);
    expect(desk.view.priced.totals.discount).toBe('0.00');
  });

  test('percent and amount put each other out', () => {
    const desk = new Desk([labourLine('l1', '1')]);
    desk.paste('lines', { work: 'First visit', kind: 'discount', qty: '10 %' });
    expect(desk.estimate.discounts[0]).toMatchObject({ title: 'First visit', percent: '10', amount: null });
    expect(desk.view.priced.totals.discount).toBe('10.00');
    desk.type('discounts:d1', 'unit', '25');
    expect(desk.estimate.discounts[0]).toMatchObject({ percent: null, amount: '25' });
    desk.type('discounts:d1', 'qty', '5');
    expect(desk.estimate.discounts[0]).toMatchObject({ percent: '5', amount: null });
    desk.type('discounts:d1', 'unit', '25');
    desk.type('discounts:d1', 'unit', '');
    expect(desk.estimate.discounts[0]).toMatchObject({ percent: '0', amount: null });
  });

  test('on what: kinds in words, singular or plural', () => {
    const desk = new Desk([], { discounts: [{ id: 'd1', title: 'First visit', percent: '10', amount: null, on: ['labour'], lines: [] }] });
    desk.type('discounts:d1', 'where', 'Parts, labour, part');
    expect(desk.estimate.discounts[0]!.on).toEqual(['part', 'labour']);
    expect(desk.type('discounts:d1', 'where', 'gifts')).toHaveLength(1);
    expect(desk.type('discounts:d1', 'where', '')).toHaveLength(1);
    expect(desk.type('discounts:d1', 'work', '')).toEqual(['A discount needs words that the customer can read.']);
    expect(desk.estimate.discounts[0]).toMatchObject({ on: ['part', 'labour'], title: 'First visit' });
  });

  test('a line cannot become one', () => {
    const desk = new Desk([labourLine('l1', '1')]);
    expect(desk.type('lines:l1', 'kind', 'discount')).toEqual(['A line cannot become a discount. Add the discount in the last row.']);
  });
});

describe('decisions', () => {
  test.each([
    ['a', 'approved'],
    ['dec', 'declined'],
    ['DEF', 'deferred'],
    ['', 'proposed'],
    ['proposed', 'proposed'],
  ])('"%s" is %s', (text, decision) => {
    const desk = new Desk([feeLine('l1', '1', { decision: 'approved' })]);
    expect(desk.type('lines:l1', 'decision', text)).toEqual([]);
    expect(line(desk).decision).toBe(decision);
  });

  test('"de" could be two things', () => {
    const desk = new Desk([feeLine('l1', '1')]);
    expect(desk.type('lines:l1', 'decision', 'de')).toEqual(['"de" is not a decision. Write proposed, approved, declined or deferred.']);
  });
});

describe('an entry that cannot be used', () => {
  test('stays in its cell until a good one comes, and the last good value prices', () => {
    const desk = new Desk([partLine('l1', '2', '5.00')]);
    const { total } = desk.view.priced.totals;
    expect(desk.type('lines:l1', 'qty', 'some')).toEqual(['"some" is not a figure. Type one, like 12.50.']);
    expect(desk.cell('lines:l1', 'qty')).toMatchObject({
      text: 'some',
      edit: 'some',
      invalid: '"some" is not a figure. Type one, like 12.50.',
    });
    expect(desk.view.priced.totals.total).toBe(total);
    desk.type('lines:l1', 'qty', '3');
    expect(desk.cell('lines:l1', 'qty')).toMatchObject({ text: '3' });
    expect(desk.cell('lines:l1', 'qty').invalid).toBe(undefined);
    expect(desk.view.priced.totals.part).toBe('15.00');
  });

  test('goes with its line', () => {
    const desk = new Desk([partLine('l1', '2', '5.00'), partLine('l2', '1', '5.00')]);
    desk.type('lines:l1', 'qty', 'some');
    desk.store.dispatch([{ do: 'remove', list: 'lines', ids: ['l1'] }], 'remove');
    expect(desk.view.state.pending.size).toBe(0);
  });

  test('an entry for a row that is gone does nothing', () => {
    const desk = new Desk([partLine('l1', '2', '5.00')]);
    for (const row of ['lines:l9', 'lines:l9/part/tube', 'discounts:d9', 'lines:l1/part/tube']) desk.type(row, 'qty', '7');
    expect(desk.estimate.lines).toMatchObject([{ qty: '2' }]);
  });
});
