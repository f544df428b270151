/** Rule 9: shop supplies. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aTax,
  feeLine,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
} from '../../support/builders.js';
import type { EstimateDoc, LineDoc, RatesDoc, SuppliesDoc } from '../../support/oracle-documents.js';

const card = (more: Partial<SuppliesDoc> = {}): SuppliesDoc => ({
  title: 'Shop supplies',
  percent: '6',
  of: ['labour'],
  minimum: null,
  maximum: null,
  ...more,
});

function priced(
  lines: LineDoc[],
  supplies: SuppliesDoc,
  rates: Partial<RatesDoc> = {},
  estimate: Partial<EstimateDoc> = {},
): PricedEstimate {
  const result = priceDocuments({
    estimate: anEstimate(lines, estimate),
    catalogue: aCatalogue({ operations: [anOperation('o', '1', { fees: ['f'] })] }),
    rates: aRateCard({ supplies, fees: [{ id: 'f', title: 'F', amount: '40.00', per: 'estimate' }], ...rates }),
  });
  assertAddsUp(result);
  return result;
}
const amount = (...args: Parameters<typeof priced>): string => priced(...args).totals.supplies;

it('are a percentage of the charges of the named kinds, and the last charge', () => {
  const result = priced([labourLine('l', '2'), partLine('p', '1', '50.00')], card());
  expect(result.totals.supplies).toBe('12.00');
  expect(result.charges.at(-1)).toEqual({
    id: 'supplies',
    line: null,
    kind: 'supplies',
    title: 'Shop supplies',
    qty: '1',
    unit: '12.00',
    amount: '12.00',
    discount: '0.00',
    taxes: [],
  });
});

it('count several kinds, fees for the estimate among them', () => {
  // 6 % of 200 + 50
  expect(amount([labourLine('l', '2'), partLine('p', '1', '50.00')], card({ of: ['labour', 'part'] }))).toBe('15.00');
  // 6 % of the fee of 40
  expect(amount([operationLine('o', 'o')], card({ of: ['fee'] }))).toBe('2.40');
});

it('are rounded to the money step', () => {
  // 6 % of 20.75 = 1.245
  expect(amount([labourLine('l', '0.2075')], card())).toBe('1.25');
  expect(amount([labourLine('l', '0.2075')], card(), { rounding: 'half-even' })).toBe('1.24');
  expect(amount([labourLine('l', '0.2075')], card(), { moneyStep: '0.1' })).toBe('1.2');
});

describe('between minimum and maximum', () => {
  it.each([
    ['1', '10.00', '45.00', '10.00'],
    ['2', '10.00', '45.00', '12.00'],
    ['10', '10.00', '45.00', '45.00'],
    // Both bounds may be off the money step; the result is on it.
    ['1', '10.005', null, '10.01'],
    ['10', null, '44.444', '44.44'],
    // A maximum of zero: none at all.
    ['2', null, '0', '0.00'],
    // The maximum has the last word.
    ['2', '30.00', '20.00', '20.00'],
  ])('%s h at 100.00, from %s to %s: %s', (hours, minimum, maximum, expected) => {
    expect(amount([labourLine('l', hours)], card({ minimum, maximum }))).toBe(expected);
  });
});

describe('there are none', () => {
  const noCharge = (lines: LineDoc[], supplies: SuppliesDoc): boolean =>
    !priced(lines, supplies).charges.some(({ kind }) => kind === 'supplies');

  it('where there is nothing to take a percentage of, minimum or not', () => {
    expect(noCharge([partLine('p', '1', '50.00')], card({ minimum: '10.00' }))).toBe(true);
    expect(noCharge([], card({ minimum: '10.00' }))).toBe(true);
    expect(noCharge([labourLine('l', '2', { decision: 'declined' })], card({ minimum: '10.00' }))).toBe(true);
  });

  it('where credits outweigh the charges', () => {
    expect(noCharge([feeLine('f', '10.00'), feeLine('g', '-10.00')], card({ of: ['fee'], minimum: '5.00' }))).toBe(true);
    expect(noCharge([feeLine('g', '-10.00')], card({ of: ['fee'], minimum: '5.00' }))).toBe(true);
  });

  it('where the percentage comes to nothing', () => expect(noCharge([labourLine('l', '2')], card({ percent: '0' }))).toBe(true));

  it('a minimum holds even at a percentage of nothing', () => {
    expect(noCharge([labourLine('l', '2')], card({ percent: '0', minimum: '5.00' }))).toBe(false);
  });
});

it('are taken before any discount', () => {
  const discounts = [{ id: 'd', title: 'All labour free', percent: '100', amount: null, on: ['labour' as const], lines: [] }];
  const result = priced([labourLine('l', '2')], card(), {}, { discounts });
  expect(result.totals).toMatchObject({ supplies: '12.00', discount: '200.00', total: '12.00' });
});

it('carry their own taxes where the card names them, else as the kinds say', () => {
  const taxes = [aTax('s', '10', { on: ['supplies'] }), aTax('t', '10', { on: ['labour'] })];
  const on = (supplies: Partial<SuppliesDoc>): readonly string[] =>
    priced([labourLine('l', '2')], card(supplies), { taxes }).charges.at(-1)!.taxes;
  expect([on({}), on({ taxes: ['t'] }), on({ taxes: [] })]).toEqual([['s'], ['t'], []]);
});
