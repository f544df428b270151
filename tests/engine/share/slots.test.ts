/** Values in a row of slots: what is written is read again, and what nothing would have written is no row. */
import { describe, expect, it } from 'vitest';
import {
  always,
  choice,
  columnsOf,
  count,
  flag,
  letters,
  list,
  named,
  nullable,
  printRow,
  record,
  records,
  reference,
  referenceOr,
  references,
  referencesOrNull,
  Row,
  RowFault,
  separated,
  Shortener,
  type Slot,
  splitRow,
  text,
  textOrNone,
  textOrNull,
  usually,
} from '../../../src/share/slots.js';

function written<T>(slot: Slot<T>, value: T): string[] {
  const row: string[] = [];
  slot.write(value, row);
  return row;
}

function read<T>(slot: Slot<T>, ...slots: string[]): { value: T; left: number } {
  const row = new Row(slots);
  return { value: slot.read(row), left: row.left };
}

/** Writes so, and reads back to the same. */
function goes<T>(slot: Slot<T>, value: T, row: string[]): void {
  expect(written(slot, value)).toEqual(row);
  expect(read(slot, ...row)).toEqual({ value, left: 0 });
}

describe('a printed row', () => {
  it.each<[string[], string]>([
    [['a', '', 'b'], 'a\n\nb'],
    [['a\nb', 'c'], 'a\\nb\nc'],
    [['\\', '\\n', '\n'], '\\\\\n\\\\n\n\\n'],
    [[''], ''],
  ])('%j', (row, printed) => {
    expect(printRow(row)).toBe(printed);
    expect(splitRow(printed)).toEqual(row);
  });

  it('is read slot by slot, to its end', () => {
    const row = new Row(['a', 'b']);
    expect([row.left, row.next(), row.left, row.next(), row.left]).toEqual([2, 'a', 1, 'b', 0]);
    expect(() => row.next()).toThrow(RowFault);
  });
});

describe('single values', () => {
  it('texts, and texts that may be missing or are mostly the same', () => {
    goes(text, 'x', ['x']);
    goes(usually('1'), '1', ['']);
    goes(usually('1'), '2', ['2']);
    goes(textOrNull, null, ['']);
    goes(textOrNull, 'x', ['x']);
    goes(textOrNone, undefined, ['']);
    goes(textOrNone, 'x', ['x']);
  });

  it('yes and no', () => {
    goes(flag, true, ['1']);
    goes(flag, false, ['']);
  });

  it('whole numbers up to seven digits, in one spelling', () => {
    goes(count(1), 1, ['']);
    goes(count(1), 0, ['0']);
    goes(count(1), 9_999_999, ['9999999']);
    for (const odd of ['01', '1e3', '-1', '1.0', ' 1', '10000000', 'x', '٣', '1 ', 'x1'])
      expect(() => read(count(1), odd), odd).toThrow(RowFault);
  });

  it('one of several', () => {
    const unit = choice(['mi', 'km']);
    goes(unit, 'mi', ['']);
    goes(unit, 'km', ['1']);
    expect(read(unit, '0').value).toBe('mi');
    for (const odd of ['2', 'km', '-1', '01']) expect(() => read(unit, odd), odd).toThrow(RowFault);
  });

  it('several of several, as letters', () => {
    const kinds = letters({ labour: 'l', part: 'p' });
    goes(kinds, [], ['']);
    goes(kinds, ['part', 'labour'], ['pl']);
    expect(() => read(kinds, 'lx')).toThrow(RowFault);
  });

  it('what is always the same takes no slot, and is new for everybody', () => {
    const nothing = always<string[]>([]);
    goes(nothing, [], []);
    read(nothing).value.push('spoilt');
    expect(read(nothing).value).toEqual([]);
  });

  it('what may be missing', () => {
    goes(nullable(text), null, ['']);
    goes(nullable(text), '', ['1', '']);
    goes(nullable(text), 'x', ['1', 'x']);
  });
});

describe('references', () => {
  it('the next after the last is only a sign', () => {
    const ids = new Shortener('p');
    expect(['p0', 'p1', 'p5', 'p6', 'p0', 'p1'].map((id) => ids.shorten(id))).toEqual(['+', '+', '5', '+', '0', '+']);
    const back = new Shortener('p');
    expect(['+', '+', '5', '+', '0', '+'].map((short) => back.lengthen(short))).toEqual(['p0', 'p1', 'p5', 'p6', 'p0', 'p1']);
  });

  it.each(['unknown', 'q1', 'p', 'p1x', 'px1', 'xp1', 'p-1', ''])('%j leads nowhere, and does not count', (id) => {
    const ids = new Shortener('p');
    expect([ids.shorten(id), ids.shorten('p0')]).toEqual(['?', '+']);
    const back = new Shortener('p');
    expect([back.lengthen('?'), back.lengthen('+')]).toEqual(['unknown', 'p0']);
  });

  it('one, one or none, several, several or nothing said', () => {
    goes(reference('p'), 'p0', ['+']);
    goes(reference('p'), 'p7', ['7']);
    goes(referenceOr('c', null), null, ['']);
    goes(referenceOr('c', null), 'c2', ['2']);
    goes(references('p'), [], ['']);
    goes(references('p'), ['p0', 'p3', 'p4'], ['+,3,+']);
    goes(referencesOrNull('t'), null, ['']);
    goes(referencesOrNull('t'), [], ['-']);
    goes(referencesOrNull('t'), ['t1', 't0'], ['1,0']);
    for (const odd of ['x', '1,', ',', '1;2']) expect(() => read(references('p'), odd), odd).toThrow(RowFault);
  });

  it('go on from entry to entry of a column, and begin anew with the next column', () => {
    const both = records<{ a: string; b: string | null; c: string[] }>({
      a: reference('p'),
      b: referenceOr('p', null),
      c: references('p'),
    });
    const values = [
      { a: 'p0', b: null, c: ['p0', 'p1'] },
      { a: 'p1', b: 'p0', c: ['p2'] },
      { a: 'p2', b: 'p1', c: [] },
    ];
    goes(both, values, ['3', '+', '+', '+', '', '+', '+', '+,+', '+', '']);
  });

  it('with something beside them', () => {
    const needs = separated<[string, string]>('p', {
      write: ([id, more], ids) => `${ids.shorten(id)}${more}`,
      read: (short, ids) => [ids.lengthen(short[0]!), short.slice(1)],
    });
    goes(
      needs,
      [
        ['p0', 'x'],
        ['p1', ''],
      ],
      ['+x,+'],
    );
    goes(needs, [], ['']);
  });
});

describe('records and lists', () => {
  const point = { x: text, y: count(0) };

  it('a record is its values in order', () => {
    goes(record<{ x: string; y: number }>(point), { x: 'a', y: 2 }, ['a', '2']);
  });

  it('a list begins with its length', () => {
    goes(list(text), [], ['']);
    goes(list(text), ['a', 'b'], ['2', 'a', 'b']);
  });

  it('records stand in columns', () => {
    goes(
      records<{ x: string; y: number }>(point),
      [
        { x: 'a', y: 0 },
        { x: 'b', y: 2 },
      ],
      ['2', 'a', 'b', '', '2'],
    );
    const row: string[] = [];
    columnsOf<{ x: string; y: number }>(point).write([{ x: 'a', y: 1 }], row);
    expect(columnsOf<{ x: string; y: number }>(point).read(new Row(row), 1)).toEqual([{ x: 'a', y: 1 }]);
  });

  it('lists in a column: all lengths first, then all entries', () => {
    const lists = records<{ x: string[] }>({ x: list(text) });
    goes(lists, [{ x: ['a'] }, { x: [] }, { x: ['b', 'c'] }], ['3', '1', '', '2', 'a', 'b', 'c']);
  });

  it('no room is made for more entries than there are slots', () => {
    expect(read(list(text), '1', 'a').value).toEqual(['a']);
    expect(() => read(list(text), '2', 'a')).toThrow(RowFault);
    expect(() => read(list(always('x')), '9999999')).toThrow(RowFault);
    // Each of the two lengths may be, both together may not.
    expect(() => read(records<{ x: string[] }>({ x: list(always('x')) }), '2', '2', '1', 'a', 'b')).toThrow(RowFault);
    expect(read(records<{ x: string[] }>({ x: list(always('x')) }), '2', '1', '1', 'a', 'b').value).toEqual([{ x: ['x'] }, { x: ['x'] }]);
  });

  it('entries that are named by their place', () => {
    const parts = named<{ id: string; title: string }>('p', { title: text });
    goes(
      parts,
      [
        { id: 'p0', title: 'a' },
        { id: 'p1', title: 'b' },
      ],
      ['2', 'a', 'b'],
    );
    for (const ids of [['p1'], ['p0', 'p0'], ['p0', 'q1']]) {
      expect(
        () =>
          written(
            parts,
            ids.map((id) => ({ id, title: '' })),
          ),
        String(ids),
      ).toThrow(expect.objectContaining({ code: 'copy' }));
    }
  });
});
