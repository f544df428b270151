/** Rule 8: what a part sells for. */
import { describe, expect, it } from 'vitest';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  operationLine,
  partLine,
  priceDocuments,
  priceLines,
} from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

const TIERS: RatesDoc['parts']['tiers'] = [{ upTo: '10.00', percent: '100' }, { upTo: '100.00', percent: '60' }, { percent: '35' }];

function sells(cost: string, parts: RatesDoc['parts'], rates: Partial<RatesDoc> = {}): string {
  const priced = priceLines([partLine('p', '1', null, { cost })], { parts, ...rates });
  assertAddsUp(priced);
  return priced.charges[0]!.unit;
}

describe("whole: the tier's percent on the whole cost", () => {
  const parts = { basis: 'markup', mode: 'whole', tiers: TIERS } as const;

  it.each([
    ['0.00', '0.00'],
    ['4.00', '8.00'],
    // At the limit the tier still holds: 10 × 2.
    ['10.00', '20.00'],
    // Just above it the next: 10.01 × 1.6 = 16.016.
    ['10.01', '16.02'],
    // 100 × 1.6, then 100.01 × 1.35 = 135.0135.
    ['100.00', '160.00'],
    ['100.01', '135.01'],
    ['1000.00', '1350.00'],
    // Costs may be finer than money: 10.0001 is above the limit; × 1.6 = 16.00016.
    ['10.0001', '16.00'],
  ])('cost %s sells for %s', (cost, price) => expect(sells(cost, parts)).toBe(price));
});

describe('progressive: each slice of the cost at its own tier', () => {
  const parts = { basis: 'markup', mode: 'progressive', tiers: TIERS } as const;

  it.each([
    ['0.00', '0.00'],
    ['4.00', '8.00'],
    ['10.00', '20.00'],
    // 10 × 2 + 0.01 × 1.6 = 20.016
    ['10.01', '20.02'],
    // 10 × 2 + 90 × 1.6
    ['100.00', '164.00'],
    // 164 + 0.01 × 1.35 = 164.0135
    ['100.01', '164.01'],
    // 20 + 144 + 900 × 1.35
    ['1000.00', '1379.00'],
  ])('cost %s sells for %s', (cost, price) => expect(sells(cost, parts)).toBe(price));

  it('is rounded once, not slice by slice', () => {
    // Three slices of 0.003 at 50 % are 0.0135 → 0.01; rounded one by one (0.0045 → 0.00) they would be nothing.
    const fine = {
      basis: 'markup',
      mode: 'progressive',
      tiers: [{ upTo: '0.003', percent: '50' }, { upTo: '0.006', percent: '50' }, { percent: '50' }],
    } as const;
    expect(sells('0.009', { ...fine, tiers: [...fine.tiers] })).toBe('0.01');
  });
});

it("a computed price is rounded to the money step, by the card's way of rounding", () => {
  // 1.15 × 1.5 = 1.725
  const parts = { basis: 'markup', mode: 'whole', tiers: [{ percent: '50' }] } as const;
  const way = (rounding: RatesDoc['rounding']): string => sells('1.15', { ...parts, tiers: [...parts.tiers] }, { rounding });
  expect([way('half-up'), way('half-even'), way('half-down')]).toEqual(['1.73', '1.72', '1.72']);
  expect(sells('1.15', { ...parts, tiers: [...parts.tiers] }, { moneyStep: '0.05' })).toBe('1.75');
  expect(sells('115', { ...parts, tiers: [...parts.tiers] }, { currency: 'JPY' })).toBe('173');
});

describe('list basis', () => {
  const rates = aRateCard({ parts: { basis: 'list', mode: 'whole', tiers: [{ percent: '100' }] } });
  const price = (part: ReturnType<typeof aPart>, override: object = {}): string => {
    const catalogue = aCatalogue({ parts: [part], operations: [anOperation('o', '1', { parts: [{ part: 'p', qty: '1' }] })] });
    const priced = priceDocuments({
      estimate: anEstimate([operationLine('l', 'o', { parts: [{ part: 'p', ...override }] })]),
      catalogue,
      rates,
    });
    assertAddsUp(priced);
    return priced.charges.find(({ kind }) => kind === 'part')!.unit;
  };

  it('takes the list price as it is listed, even finer than money', () => {
    expect(price(aPart('p', '3.00', { list: '7.95' }))).toBe('7.95');
    expect(price(aPart('p', '3.00', { list: '7.9512' }))).toBe('7.9512');
    expect(price(aPart('p', '3.00', { list: '0' }))).toBe('0.00');
  });

  it('takes the mark-up where there is none', () => expect(price(aPart('p', '3.00'))).toBe('6.00'));

  it('the price on the line goes before both', () =>
    expect(price(aPart('p', '3.00', { list: '7.95' }), { unitPrice: '5.555' })).toBe('5.555'));

  it('on the mark-up basis a list price has no say', () => {
    const markup = aRateCard({ parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '100' }] } });
    const catalogue = aCatalogue({
      parts: [aPart('p', '3.00', { list: '7.95' })],
      operations: [anOperation('o', '1', { parts: [{ part: 'p', qty: '1' }] })],
    });
    const priced = priceDocuments({ estimate: anEstimate([operationLine('l', 'o')]), catalogue, rates: markup });
    expect(priced.totals.part).toBe('6.00');
  });
});
