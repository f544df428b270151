/** Every change that a person can make to an estimate; what does not change stays the same object. */
import { describe, expect, it } from 'vitest';
import type { Discount, Estimate, Finding } from '../../../src/documents/estimate.js';
import type { Line, OperationLine } from '../../../src/documents/lines.js';
import { cellKey, type Command, rowOf, type SheetState } from '../../../src/store/commands.js';
import { reduce } from '../../../src/store/reduce.js';
import { aCatalogue, anEstimate, aRateCard, labourLine, operationLine, partLine, readDocuments } from '../../support/builders.js';

const finding = (id: string) => ({ id, round: 1, component: '', position: '', fault: '', seen: [], urgency: 'now', text: '' });
const discount = (id: string, lines: string[]) => ({ id, title: 'x', percent: '5', amount: null, on: ['labour' as const], lines });

function read(): Estimate {
  return readDocuments({
    estimate: anEstimate(
      [labourLine('a', '1'), operationLine('b', 'op', { findings: ['f1', 'f2'] }), partLine('c', '1', '2'), labourLine('d', '4')],
      {
        findings: [finding('f1'), finding('f2'), finding('f3')],
        discounts: [discount('d1', ['a', 'c']), discount('d2', ['a']), discount('d3', [])],
      },
    ),
    catalogue: aCatalogue(),
    rates: aRateCard(),
  }).estimate;
}
const start = (): SheetState => ({ estimate: read(), pending: new Map() });
const ids = ({ estimate }: SheetState, list: 'lines' | 'findings' | 'discounts' = 'lines'): string =>
  (estimate[list] as readonly { id: string }[]).map(({ id }) => id).join(' ');
const line = (id: string): Line => ({ ...read().lines[0]!, id });

describe('insert', () => {
  it.each([
    ['a', 'n a b c d'],
    ['c', 'a b n c d'],
    [null, 'a b c d n'],
    ['gone', 'a b c d n'],
  ])('before %s: %s', (before, expected) => {
    expect(ids(reduce(start(), { do: 'insert', list: 'lines', entry: line('n'), before }))).toBe(expected);
  });

  it('into findings and discounts too', () => {
    const entry = { ...read().findings[0]!, id: 'n' } satisfies Finding;
    expect(ids(reduce(start(), { do: 'insert', list: 'findings', entry, before: 'f2' }), 'findings')).toBe('f1 n f2 f3');
    const off = { ...read().discounts[0]!, id: 'n' } satisfies Discount;
    expect(ids(reduce(start(), { do: 'insert', list: 'discounts', entry: off, before: null }), 'discounts')).toBe('d1 d2 d3 n');
  });

  it('leaves the other entries and lists the same objects', () => {
    const before = start();
    const after = reduce(before, { do: 'insert', list: 'lines', entry: line('n'), before: 'b' });
    expect(after.estimate.lines[0]).toBe(before.estimate.lines[0]);
    expect(after.estimate.lines[2]).toBe(before.estimate.lines[1]);
    expect(after.estimate.findings).toBe(before.estimate.findings);
    expect(after.pending).toBe(before.pending);
  });
});

describe('put', () => {
  it('exchanges the entry with that id, in its place', () => {
    const before = start();
    const entry = { ...before.estimate.lines[2]!, note: 'changed' };
    const after = reduce(before, { do: 'put', list: 'lines', entry });
    expect(after.estimate.lines[2]).toBe(entry);
    expect(after.estimate.lines.filter((each, i) => each !== before.estimate.lines[i]).length).toBe(1);
    expect(before.estimate.lines[2]!.note).toBe('');
  });

  it('of an id that there is not changes nothing', () => {
    const before = start();
    expect(reduce(before, { do: 'put', list: 'lines', entry: line('gone') })).toBe(before);
  });
});

describe('remove', () => {
  it('takes entries out, whatever their order', () => {
    expect(ids(reduce(start(), { do: 'remove', list: 'lines', ids: ['d', 'a'] }))).toBe('b c');
  });

  it('of a finding: the lines that named it forget it, others stay the same objects', () => {
    const before = start();
    const after = reduce(before, { do: 'remove', list: 'findings', ids: ['f1'] });
    expect(ids(after, 'findings')).toBe('f2 f3');
    expect((after.estimate.lines[1] as OperationLine).findings).toEqual(['f2']);
    expect(after.estimate.lines[0]).toBe(before.estimate.lines[0]);
    expect(reduce(before, { do: 'remove', list: 'findings', ids: ['f3'] }).estimate.lines[1]).toBe(before.estimate.lines[1]);
  });

  it('of a line: a discount forgets it, but never its last one, else it would be on every line', () => {
    const after = reduce(start(), { do: 'remove', list: 'lines', ids: ['a'] });
    expect(after.estimate.discounts.map(({ lines }) => lines)).toEqual([['c'], ['a'], []]);
  });

  it('takes the pending entries of its rows with it, also those of the rows below, and no others', () => {
    const entry = { text: 'x', reason: 'no figure' };
    const keys = [
      cellKey(rowOf('lines', 'a'), 'hours'),
      cellKey(`${rowOf('lines', 'a')}/part/p`, 'qty'),
      cellKey(rowOf('lines', 'b'), 'hours'),
      cellKey(rowOf('findings', 'a'), 'fault'),
    ];
    const pending = keys.reduce((state, key) => reduce(state, { do: 'pend', key, entry }), start());
    expect([...reduce(pending, { do: 'remove', list: 'lines', ids: ['a'] }).pending.keys()]).toEqual(keys.slice(2));
  });
});

describe('move', () => {
  it.each<[string[], string | null, string]>([
    [['d'], 'a', 'd a b c'],
    [['a'], null, 'b c d a'],
    [['a'], 'd', 'b c a d'],
    [['b', 'd'], 'a', 'b d a c'],
    // In their order on the sheet, however they are named.
    [['d', 'b'], 'a', 'b d a c'],
    [['gone'], 'a', 'a b c d'],
    // Before one of themselves: they stay.
    [['b', 'c'], 'b', 'a b c d'],
  ])('%j before %s: %s', (moved, before, expected) => {
    expect(ids(reduce(start(), { do: 'move', list: 'lines', ids: moved, before }))).toBe(expected);
  });

  it('keeps the entries the same objects', () => {
    const before = start();
    const after = reduce(before, { do: 'move', list: 'lines', ids: ['d'], before: 'a' });
    expect(after.estimate.lines[0]).toBe(before.estimate.lines[3]);
  });
});

describe('the rest of the estimate', () => {
  it('all lines at once', () => {
    expect(ids(reduce(start(), { do: 'set-lines', lines: [line('x'), line('y')] }))).toBe('x y');
  });

  it('trouble codes, and without one the key is gone', () => {
    const codes = [{ code: 'P0171', note: '' }];
    const after = reduce(start(), { do: 'set-codes', codes });
    expect(after.estimate.codes).toEqual(codes);
    expect(reduce(after, { do: 'set-codes', codes: [{ ...codes[0]! }] })).toBe(after);
    expect(reduce(after, { do: 'set-codes', codes: [] }).estimate).toEqual(start().estimate);
    expect('codes' in reduce(after, { do: 'set-codes', codes: [] }).estimate).toBe(false);
  });

  it('test rounds', () => {
    const rounds = [{ n: 1, method: 'pressure', clean: true, note: '' }];
    expect(reduce(start(), { do: 'set-rounds', rounds }).estimate.rounds).toEqual(rounds);
  });

  it('fields of the job, the others untouched', () => {
    const before = start();
    const after = reduce(before, { do: 'set-job', fields: { number: 'B-2', concern: 'leaks' } });
    expect(after.estimate).toMatchObject({ number: 'B-2', concern: 'leaks', cause: '' });
    expect(after.estimate.vehicle).toBe(before.estimate.vehicle);
    expect(after.estimate.lines).toBe(before.estimate.lines);
  });

  it('another estimate altogether leaves no pending entry', () => {
    const pending = reduce(start(), { do: 'pend', key: 'k c', entry: { text: 'x', reason: 'y' } });
    const other = { ...read(), id: 'other' };
    expect(reduce(pending, { do: 'set-estimate', estimate: other })).toEqual({ estimate: other, pending: new Map() });
  });
});

describe('a pending entry', () => {
  const key = cellKey(rowOf('lines', 'a'), 'hours');

  it('stays until another takes its place or it is taken away', () => {
    const one = reduce(start(), { do: 'pend', key, entry: { text: 'two', reason: 'no figure' } });
    expect(one.pending.get(key)).toEqual({ text: 'two', reason: 'no figure' });
    const other = reduce(one, { do: 'pend', key, entry: { text: 'three', reason: 'no figure' } });
    expect([other.pending.size, other.pending.get(key)!.text]).toEqual([1, 'three']);
    expect(reduce(other, { do: 'pend', key, entry: null }).pending.size).toBe(0);
    expect(one.pending.size).toBe(1);
  });

  it('leaves the estimate the same object: the last good value still prices', () => {
    const before = start();
    expect(reduce(before, { do: 'pend', key, entry: { text: 'x', reason: 'y' } }).estimate).toBe(before.estimate);
  });
});

describe('a command that changes nothing gives back the same state', () => {
  it.each<[string, (state: SheetState) => Command]>([
    ['remove what is not there', () => ({ do: 'remove', list: 'lines', ids: ['gone'] })],
    ['remove nothing', () => ({ do: 'remove', list: 'findings', ids: [] })],
    ['move to where it stands', () => ({ do: 'move', list: 'lines', ids: ['a'], before: 'b' })],
    ['move what is not there', () => ({ do: 'move', list: 'lines', ids: ['gone'], before: 'a' })],
    ['put the same object', ({ estimate }) => ({ do: 'put', list: 'lines', entry: estimate.lines[0]! })],
    ['take away a pending entry that there is not', () => ({ do: 'pend', key: 'k c', entry: null })],
    ['set the same lines', ({ estimate }) => ({ do: 'set-lines', lines: estimate.lines })],
    ['set a field to what it is', ({ estimate }) => ({ do: 'set-job', fields: { number: estimate.number, vehicle: estimate.vehicle } })],
  ])('%s', (_, command) => {
    const before = start();
    expect(reduce(before, command(before))).toBe(before);
  });
});

it('no command changes a state in place', () => {
  const state = reduce(start(), { do: 'pend', key: 'lines:a hours', entry: { text: 'x', reason: 'y' } });
  const copy = structuredClone(state);
  const commands: Command[] = [
    { do: 'insert', list: 'lines', entry: line('n'), before: 'a' },
    { do: 'put', list: 'lines', entry: { ...line('a'), note: 'x' } },
    { do: 'remove', list: 'lines', ids: ['a', 'b'] },
    { do: 'remove', list: 'findings', ids: ['f1'] },
    { do: 'move', list: 'lines', ids: ['d'], before: 'a' },
    { do: 'set-lines', lines: [] },
    { do: 'set-rounds', rounds: [] },
    { do: 'set-job', fields: { number: '9' } },
    { do: 'pend', key: 'lines:a hours', entry: null },
  ];
  for (const command of commands) reduce(state, command);
  expect(state).toEqual(copy);
});
