import { expect, it } from 'vitest';
import { parseCatalogue } from '../../../src/index.js';
import { printPlain } from '../../../src/number/decimal.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { aCatalogue, anOperation, aPart, aStep } from '../../support/builders.js';

const read = parseCatalogue(
  aCatalogue({
    cautions: [{ id: 'hot', text: 'Hot coolant.' }],
    parts: [aPart('p', '1')],
    steps: [aStep('a', '0.5', { needs: ['b'] }), aStep('b', '0.3', { needs: ['c'] }), aStep('c', '0.2'), aStep('idle', '9')],
    operations: [
      anOperation('inner', '0.5'),
      anOperation('middle', '1', { includes: ['inner'] }),
      anOperation('outer', '2', { includes: ['middle'], steps: ['a', 'c'] }),
    ],
    overlaps: [{ between: ['outer', 'inner'], hours: '0.4' }],
  }),
);
if (!read.ok) throw new Error('the test catalogue does not read');
const index = indexCatalogue(read.value);

it('knows the steps of an operation, also through others', () => {
  expect(index.stepsOf.get('outer')!.map(({ step, hours }) => [step.id, printPlain(hours)])).toEqual([
    ['a', '0.5'],
    ['b', '0.3'],
    ['c', '0.2'],
  ]);
  expect(index.stepsOf.get('inner')).toEqual([]);
});

it('knows what an operation includes, also through others, and not itself', () => {
  expect([...index.includedBy.get('outer')!]).toEqual(['middle', 'inner']);
  expect([...index.includedBy.get('inner')!]).toEqual([]);
});

it('knows a declared overlap from either side', () => {
  expect(index.overlaps.get('outer')!.get('inner')!.eq('0.4')).toBe(true);
  expect(index.overlaps.get('inner')!.get('outer')!.eq('0.4')).toBe(true);
  expect(index.overlaps.has('middle')).toBe(false);
});

it('finds operations, parts and cautions by id', () => {
  expect([index.operations.get('inner')!.title, index.parts.get('p')!.cost, index.cautions.get('hot')]).toEqual([
    'Operation inner',
    '1',
    'Hot coolant.',
  ]);
  expect(index.operations.get('constructor')).toBeUndefined();
});
