import { expect, it } from 'vitest';
import { parseRates } from '../../../src/index.js';
import { printPlain } from '../../../src/number/decimal.js';
import { indexRates } from '../../../src/pricing/rate-index.js';
import { aRateCard, aTax } from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

function index(parts: Partial<RatesDoc>) {
  const read = parseRates(aRateCard(parts));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return indexRates(read.value);
}

it('a tax comes after those that it is charged on, wherever it stands on the card', () => {
  const { taxOrder } = index({
    taxes: [aTax('c', '1', { after: ['b', 'a'] }), aTax('b', '1', { after: ['a'] }), aTax('a', '1'), aTax('x', '1')],
  });
  const order = taxOrder.map(({ tax }) => tax.id);
  expect(order.indexOf('a')).toBeLessThan(order.indexOf('b'));
  expect(order.indexOf('b')).toBeLessThan(order.indexOf('c'));
  expect(order.length).toBe(4);
});

it('taxes of a kind are in the order of the card', () => {
  const { taxesOf } = index({ taxes: [aTax('b', '1', { on: ['part'] }), aTax('a', '1', { on: ['part', 'fee'] })] });
  expect(taxesOf).toEqual({ labour: [], part: ['b', 'a'], core: [], sublet: [], fee: ['a'], supplies: [] });
});

it('percentages become factors and fractions, exactly', () => {
  const { tiers, taxes, classes } = index({
    parts: { basis: 'markup', mode: 'whole', tiers: [{ upTo: '10.00', percent: '33.3' }, { percent: '0' }] },
    taxes: [aTax('t', '8.8625')],
  });
  expect(tiers.map(({ upTo, factor }) => [upTo === null ? null : printPlain(upTo), printPlain(factor)])).toEqual([
    ['10', '1.333'],
    [null, '1'],
  ]);
  expect(printPlain(taxes.get('t')!.rate)).toBe('0.088625');
  expect(printPlain(classes.get('general')!)).toBe('100');
  expect(classes.get('constructor')).toBeUndefined();
});

it("money follows the currency, or the card's own step", () => {
  expect(
    [index({}).money, index({ currency: 'JPY' }).money, index({ moneyStep: '0.05' }).money].map(({ step, digits }) => [
      printPlain(step),
      digits,
    ]),
  ).toEqual([
    ['0.01', 2],
    ['1', 0],
    ['0.05', 2],
  ]);
});
