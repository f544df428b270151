import { describe, expect, it } from 'vitest';
import { parseEstimate } from '../../../src/index.js';
import { anEstimate } from '../../support/builders.js';

const read = (...lines: object[]) => parseEstimate({ ...anEstimate([]), lines });
const value = (line: object): unknown => {
  const parsed = read(line);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value.lines[0];
};

describe('the smallest line of each kind, and what is meant where nothing is said', () => {
  const common = { id: 'l', taxes: null, decision: 'proposed', note: '' };

  it.each([
    ['operation', { operation: 'o' }, { positions: [], findings: [], labourClass: null, bookHours: null, extraHours: null, parts: [] }],
    ['labour', { labourClass: 'general' }, { title: '', hours: '0' }],
    ['part', {}, { title: '', number: '', qty: '1', cost: '0', unitPrice: null, core: '0', condition: 'new' }],
    ['sublet', {}, { title: '', cost: '0', price: null }],
    ['fee', { title: 'f' }, { amount: '0' }],
    ['note', { text: 'n' }, {}],
  ])('%s', (kind, needed, meant) => {
    expect(value({ id: 'l', kind, ...needed })).toEqual({ ...common, kind, ...needed, ...meant });
  });
});

it('what an operation line says of a part: everything but its id may be left out', () => {
  expect(value({ id: 'l', kind: 'operation', operation: 'o', parts: [{ part: 'p' }], extraHours: { hours: '1' } })).toMatchObject({
    parts: [{ part: 'p', qty: null, unitPrice: null, cost: null, condition: null, omit: false }],
    extraHours: { hours: '1', reason: '' },
  });
});

describe('below zero', () => {
  it('are only the quantity of a part and the amount of a fee', () => {
    expect(read({ id: 'a', kind: 'part', qty: '-1' }, { id: 'b', kind: 'fee', title: 'credit', amount: '-12.00' }).ok).toBe(true);
    const refused = read(
      { id: 'a', kind: 'labour', labourClass: 'g', hours: '-1' },
      { id: 'b', kind: 'part', cost: '-1' },
      { id: 'c', kind: 'part', unitPrice: '-1' },
      { id: 'd', kind: 'part', core: '-1' },
      { id: 'e', kind: 'sublet', price: '-1' },
      { id: 'f', kind: 'operation', operation: 'o', bookHours: '-1', extraHours: { hours: '-1' } },
    );
    expect(refused.problems.map(({ code, path }) => `${code} ${path}`).sort()).toEqual([
      'negative lines[0].hours',
      'negative lines[1].cost',
      'negative lines[2].unitPrice',
      'negative lines[3].core',
      'negative lines[4].price',
      'negative lines[5].bookHours',
      'negative lines[5].extraHours.hours',
    ]);
  });
});

it('a key of another kind of line does not belong', () => {
  expect(read({ id: 'l', kind: 'note', text: 'n', qty: '1' }).problems).toEqual([
    expect.objectContaining({ code: 'unknown-key', path: 'lines[0].qty' }),
  ]);
});

it('what is no line at all is told for each place', () => {
  const parsed = parseEstimate({ ...anEstimate([]), lines: [null, 5, 'x', [], {}] });
  expect(parsed.problems.map(({ path }) => path)).toEqual(['lines[0]', 'lines[1]', 'lines[2]', 'lines[3].kind', 'lines[4].kind']);
});

it.each(['__proto__', 'constructor', 'toString'])('the kind %j is none of the six', (kind) => {
  expect(read({ id: 'l', kind }).problems).toEqual([expect.objectContaining({ code: 'line-kind', path: 'lines[0].kind' })]);
});
