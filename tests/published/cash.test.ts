/** Rounding of the sum that is paid in coins. Only the cash figure changes, never the total or the tax. */
import { describe, expect, it } from 'vitest';
import { aTax, feeLine, partLine, priceLines } from '../support/builders.js';
import type { RatesDoc } from '../support/oracle-documents.js';

function cash(total: string, cashStep: string, card: Partial<RatesDoc> = {}): string {
  const { totals } = priceLines([feeLine('l', total)], { cashStep, ...card });
  expect(totals.total).toBe(total);
  return totals.cash;
}

/** Canada, Budget 2012, phasing out the penny (budget.canada.ca, mint.ca). READ. */
describe('Canada without the penny', () => {
  it.each([
    ['1.00', '1.00'],
    ['1.01', '1.00'],
    ['1.02', '1.00'],
    ['1.03', '1.05'],
    ['1.04', '1.05'],
    ['1.05', '1.05'],
    ['1.06', '1.05'],
    ['1.07', '1.05'],
    ['1.08', '1.10'],
    ['1.09', '1.10'],
  ])('%s is paid as %s', (total, paid) => expect(cash(total, '0.05', { currency: 'CAD' })).toBe(paid));

  /** The worked example of the same page: 1.83 + 2.86, 5 % tax. All figures READ. */
  it('pays 4.90 in cash for a total of 4.92', () => {
    const card = { currency: 'CAD', cashStep: '0.05', taxes: [aTax('gst', '5')] };
    const { totals } = priceLines([partLine('a', '1', '1.83'), partLine('b', '1', '2.86')], card);
    expect(totals).toMatchObject({ subtotal: '4.69', tax: '0.23', total: '4.92', cash: '4.90' });
  });
});

/** Australia, five cents: secondary (encyclopaedia). */
it.each([
  ['20.42', '20.40'],
  ['20.43', '20.45'],
])('Australia: %s is paid as %s', (total, paid) => {
  expect(cash(total, '0.05', { currency: 'AUD' })).toBe(paid);
});

/** New Zealand, ten cents since 2006; five may go either way: secondary. Each way is one of the card's roundings. */
it.each([
  ['3.44', '3.40', '3.40'],
  ['3.46', '3.50', '3.50'],
  ['3.45', '3.50', '3.40'],
])('New Zealand: %s is paid as %s, or as %s with the five down', (total, up, down) => {
  expect(cash(total, '0.10', { currency: 'NZD' })).toBe(up);
  expect(cash(total, '0.10', { currency: 'NZD', rounding: 'half-down' })).toBe(down);
});

/** Sweden 1992 to 2010, steps of half a krona: 223.20 and 65.40 in shops, a card pays 324.88: secondary (encyclopaedia). */
it.each([
  ['223.20', '223.00'],
  ['65.40', '65.50'],
])('Sweden until 2010: %s is paid as %s', (total, paid) => {
  expect(cash(total, '0.50', { currency: 'SEK' })).toBe(paid);
});

it('Sweden: a card pays 324.88 unrounded', () => {
  expect(priceLines([feeLine('l', '324.88')], { currency: 'SEK', cashStep: null }).totals.cash).toBe('324.88');
});

/** Sweden since 30 Sept 2010, whole kronor: secondary; also in the Swedish invoices of invoices.test.ts (READ). */
it.each([
  ['792.49', '792.00'],
  ['1038.78', '1039.00'],
  ['10157.50', '10158.00'],
])('Sweden: %s is paid as %s', (total, paid) => {
  expect(cash(total, '1', { currency: 'SEK' })).toBe(paid);
});

/** Quebec Sales Tax Act (T-0.1) s. 69.1, coin telephones: below 0.025 dropped, from 0.025 up to 0.05. READ; totals DERIVED. */
it.each([
  ['1.024', '1.000'],
  ['1.025', '1.050'],
  ['1.049', '1.050'],
])('Quebec s. 69.1: %s is paid as %s', (total, paid) => {
  expect(cash(total, '0.05', { currency: 'CAD', moneyStep: '0.001' })).toBe(paid);
});
