import { expect, it } from 'vitest';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import { aCatalogue, anEstimate, aRateCard, priceDocuments, priceLines } from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

function amount(cost: string, price: string | null, rates: Partial<RatesDoc> = { sublet: { percent: '20' } }): string {
  const priced = priceLines([{ id: 's', kind: 'sublet', title: 'Sublet', cost, price }], rates);
  assertAddsUp(priced);
  expect(priced.charges).toEqual([expect.objectContaining({ id: 's.sublet', kind: 'sublet', qty: '1' })]);
  return priced.totals.sublet;
}

it("is its cost and the card's percentage, rounded", () => {
  expect(amount('80.00', null)).toBe('96.00');
  // 33.33 × 1.2 = 39.996
  expect(amount('33.33', null)).toBe('40.00');
  // 0.0375 × 1.2 = 0.045 → half-up
  expect(amount('0.0375', null)).toBe('0.05');
});

it('is the price typed, where there is one, rounded to the money step', () => {
  expect(amount('80.00', '85.00')).toBe('85.00');
  expect(amount('80.00', '85.005')).toBe('85.01');
  expect(amount('80.00', '0')).toBe('0.00');
  expect(amount('80.00', '85.02', { moneyStep: '0.05' })).toBe('85.00');
});

it('is its cost where the card has no percentage', () => {
  const rates = { ...aRateCard(), sublet: null } as unknown as RatesDoc;
  const estimate = anEstimate([{ id: 's', kind: 'sublet', title: 'Sublet', cost: '80.00', price: null }]);
  expect(priceDocuments({ estimate, catalogue: aCatalogue(), rates }).totals.sublet).toBe('80.00');
});
