import { describe, expect, test } from 'vitest';
import { asKind, conditionOf, KIND_WORDS, kindWord, ownTitle, readKind } from '../../../components/estimate/kinds.js';
import type { Line } from '../../../src/documents/lines.js';
import { Desk } from './desk.js';

const common = { taxes: null, decision: 'approved', note: 'as agreed' } as const;
const part: Line = {
  ...common,
  id: 'l3',
  kind: 'part',
  title: 'Clip',
  number: 'C-1',
  qty: '3',
  cost: '1.10',
  unitPrice: '2.50',
  core: '0.40',
  condition: 'used',
};
const { rates } = new Desk().reference;

test.each([
  ['operation', 'operation'],
  ['op', 'operation'],
  ['LAB', 'labour'],
  ['part', 'new part'],
  ['pa', 'new part'],
  ['new', 'new part'],
  ['used part', 'used part'],
  ['reb', 'rebuilt part'],
  ['reco', 'reconditioned part'],
  [' sublet ', 'sublet'],
  ['d', 'discount'],
  ['', null],
  ['gift', null],
  ['operations', null],
])('"%s" is read as %s', (text, word) => {
  expect(readKind(text)).toBe(word);
});

test('every word is read back as itself', () => {
  for (const word of KIND_WORDS) expect(readKind(word)).toBe(word);
});

test('a part says its condition, as the customer’s copy must', () => {
  expect(kindWord(part)).toBe('used part');
  expect(conditionOf('reconditioned part')).toBe('reconditioned');
  expect(conditionOf('labour')).toBe(null);
});

describe('a line as another kind', () => {
  test('keeps its words, taxes, decision and note', () => {
    for (const word of ['labour', 'new part', 'sublet', 'fee'] as const) {
      expect(asKind(part, word, ownTitle(part, ''), rates)).toMatchObject({ ...common, id: 'l3', title: 'Clip' });
    }
    expect(asKind(part, 'note', 'Clip', rates)).toEqual({ ...common, id: 'l3', kind: 'note', text: 'Clip' });
  });

  test('begins at nothing, so that no money is made up', () => {
    const labour = asKind(part, 'labour', 'Clip', rates);
    expect(labour).toMatchObject({ kind: 'labour', hours: '0', labourClass: 'general' });
    expect(asKind(labour!, 'new part', 'Clip', rates)).toMatchObject({
      kind: 'part',
      qty: '1',
      cost: '0',
      unitPrice: null,
      core: '0',
      condition: 'new',
    });
    expect(asKind(labour!, 'sublet', 'Clip', rates)).toMatchObject({ cost: '0', price: null });
    expect(asKind(labour!, 'fee', 'Clip', rates)).toMatchObject({ amount: '0' });
  });

  test('a part of another condition keeps its figures', () => {
    expect(asKind(part, 'rebuilt part', 'Clip', rates)).toEqual({ ...part, condition: 'rebuilt' });
  });

  test('cannot be an operation, which the catalogue must know, nor a discount, which is no line', () => {
    expect(asKind(part, 'operation', 'Clip', rates)).toBe(null);
    expect(asKind(part, 'discount', 'Clip', rates)).toBe(null);
  });
});
