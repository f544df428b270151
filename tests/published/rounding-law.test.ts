/**
 * How tax law rounds. Every case names its law; READ: the text was seen; DERIVED: the law is read, the numbers are ours.
 */
import { describe, expect, it } from 'vitest';
import { aTax, anEstimate, aCatalogue, aRateCard, feeLine, partLine, priceDocuments, priceLines } from '../support/builders.js';
import type { RatesDoc } from '../support/oracle-documents.js';
import { assertAddsUp } from '../support/assert-adds-up.js';

/** Prices goods at the given prices and reports each tax, the sum of the taxes, and the total. */
function taxed(prices: string[], card: Partial<RatesDoc>) {
  const priced = priceLines(
    prices.map((price, i) => partLine(`l${i}`, '1', price)),
    card,
  );
  assertAddsUp(priced, { pricesIncludeTax: card.pricesIncludeTax ?? false });
  const { taxes, tax, total } = priced.totals;
  return { each: taxes.map(({ amount }) => amount), tax, total };
}

/**
 * Streamlined Sales and Use Tax Agreement s. 324 as enacted (RCW 82.08.054; R.I. Gen. Laws 44-18.1-25;
 * N.D.C.C. 57-39.4-25; K.S.A. 79-3676; M.G.L. c. 64I s. 5): to the third decimal, up when it is greater than four, by
 * item or by invoice as the seller elects. Law READ; numbers DERIVED at 8.25 %.
 */
describe('Streamlined Sales and Use Tax Agreement s. 324', () => {
  const taxes = [aTax('sales', '8.25')];

  it.each([
    [['4.30', '4.30', '4.30'], '1.05', '1.06'],
    [['5.39', '5.39'], '0.88', '0.89'],
  ])('%j: item basis %s, invoice basis %s', (prices, item, invoice) => {
    expect(taxed(prices, { taxes, taxRounding: 'line' }).tax).toBe(item);
    expect(taxed(prices, { taxes, taxRounding: 'total' }).tax).toBe(invoice);
  });

  it('rounds 0.444675 once: 0.44, not by way of 0.445 to 0.45', () => {
    expect(taxed(['5.39'], { taxes }).tax).toBe('0.44');
  });
});

/** N.D. Admin. Code 81-04.1-01-29: third decimal four or less down, greater than four up. Law READ; numbers DERIVED at 5 %. */
describe('North Dakota 81-04.1-01-29', () => {
  it.each([
    ['7.08', '0.35'],
    ['7.10', '0.36'],
    ['7.06', '0.35'],
    ['7.12', '0.36'],
  ])('5 %% of %s is %s', (price, tax) => {
    expect(taxed([price], { taxes: [aTax('state', '5')] }).tax).toBe(tax);
  });
});

/** GST Act 1999 s. 9-90: one eleventh of the price, half a cent up; by supply or in total. Law READ; numbers DERIVED. */
describe('Australia, GST Act 1999 s. 9-90', () => {
  const gst = { currency: 'AUD', taxes: [aTax('gst', '10')] };

  it('takes one eleventh out of prices that include it', () => {
    const prices = ['143.70', '80.00'];
    expect(taxed(prices, { ...gst, pricesIncludeTax: true, taxRounding: 'line' })).toMatchObject({
      tax: '20.33',
      total: '223.70',
    });
    expect(taxed(prices, { ...gst, pricesIncludeTax: true, taxRounding: 'total' })).toMatchObject({
      tax: '20.34',
      total: '223.70',
    });
    expect(taxed(['143.70'], { ...gst, pricesIncludeTax: true }).tax).toBe('13.06');
    expect(taxed(['80.00'], { ...gst, pricesIncludeTax: true }).tax).toBe('7.27');
  });

  it('adds a tenth to prices without it', () => {
    const prices = ['10.05', '10.05', '10.05'];
    expect(taxed(prices, { ...gst, taxRounding: 'line' }).tax).toBe('3.03');
    expect(taxed(prices, { ...gst, taxRounding: 'total' }).tax).toBe('3.02');
  });

  /** GST Regulations 2019 s. 168-5.11: to five cents, an exact multiple of 2.5 cents up. READ; number DERIVED. */
  it('rounds 1.025 to 1.05 in steps of five cents', () => {
    expect(priceLines([feeLine('l', '1.025')], { currency: 'AUD', moneyStep: '0.05' }).totals.total).toBe('1.05');
  });
});

/** GST Act 1985 s. 19O: half a cent or less may be disregarded. Law READ; numbers DERIVED at 15 %. */
describe('New Zealand, GST Act 1985 s. 19O', () => {
  it.each([
    ['3.70', '0.55', '0.56'],
    ['33.30', '4.99', '5.00'],
  ])('15 %% of %s is %s (half up would be %s)', (price, down, up) => {
    const card = { currency: 'NZD', taxes: [aTax('gst', '15')] };
    expect(taxed([price], { ...card, rounding: 'half-down' }).tax).toBe(down);
    expect(taxed([price], { ...card, rounding: 'half-up' }).tax).toBe(up);
  });
});

/** CRA Interpretation 125136 of 28 Nov 2011, Excise Tax Act s. 165.2(2), on $31.95 in Ontario. READ; amounts DERIVED. */
describe('Canada, harmonised sales tax as one rate or as two', () => {
  it('is 4.15 at 13 % in one, 4.16 at 5 % and 8 %', () => {
    expect(taxed(['31.95'], { currency: 'CAD', taxes: [aTax('hst', '13')] })).toMatchObject({
      tax: '4.15',
      total: '36.10',
    });
    const two = taxed(['31.95'], { currency: 'CAD', taxes: [aTax('federal', '5'), aTax('provincial', '8')] });
    expect(two).toEqual({ each: ['1.60', '2.56'], tax: '4.16', total: '36.11' });
  });
});

describe('Quebec', () => {
  /** Revenu Québec, "Calculating the Taxes": all four figures READ. */
  it('is 114.98 on 100.00: 9.975 % on the price without the federal tax', () => {
    const taxes = [aTax('gst', '5'), aTax('qst', '9.975')];
    expect(taxed(['100.00'], { currency: 'CAD', taxes })).toEqual({
      each: ['5.00', '9.98'],
      tax: '14.98',
      total: '114.98',
    });
  });

  /** Revenu Québec, archived page of 2008: 7.5 % on the price with the federal tax. All figures READ. */
  it('was 112.88 on 100.00: tax on tax', () => {
    const taxes = [aTax('gst', '5'), aTax('qst', '7.5', { after: ['gst'] })];
    expect(taxed(['100.00'], { currency: 'CAD', taxes })).toEqual({
      each: ['5.00', '7.88'],
      tax: '12.88',
      total: '112.88',
    });
  });

  it('does not depend on the order of the taxes on the card', () => {
    const taxes = [aTax('qst', '7.5', { after: ['gst'] }), aTax('gst', '5')];
    expect(taxed(['100.00'], { currency: 'CAD', taxes })).toEqual({
      each: ['7.88', '5.00'],
      tax: '12.88',
      total: '112.88',
    });
  });
});

/** HMRC VATREC12030: below half a penny down, half a penny and more up. READ; prices DERIVED (5 % is the reduced rate). */
describe('United Kingdom, HMRC VATREC12030', () => {
  it.each([
    ['0.10', '0.01'],
    ['0.08', '0.00'],
    ['0.12', '0.01'],
    ['0.30', '0.02'],
  ])('5 %% of %s is %s', (price, tax) => {
    expect(taxed([price], { currency: 'GBP', taxes: [aTax('vat', '5')] }).tax).toBe(tax);
  });
});

/** West Virginia Code 11-10-5k: a fraction of a cent is disregarded unless it is half a cent or more. READ; numbers DERIVED at 6 %. */
describe('West Virginia 11-10-5k', () => {
  it.each([
    ['0.08', '0.00'],
    ['0.09', '0.01'],
    ['0.25', '0.02'],
    ['0.24', '0.01'],
  ])('6 %% of %s is %s', (price, tax) => {
    expect(taxed([price], { taxes: [aTax('state', '6')] }).tax).toBe(tax);
  });
});

/** The figures at which binary floating point goes wrong: `(1.005).toFixed(2)` is "1.00" (seen in Node 20). */
describe('decimals that a float cannot hold', () => {
  it.each([
    [1.005, '1.005', '1.00', '1.01'],
    [10.235, '10.235', '10.23', '10.24'],
  ])('%s', (float, text, wrong, right) => {
    expect(float.toFixed(2)).toBe(wrong);
    expect(priceLines([feeLine('l', text)]).totals.total).toBe(right);
  });
});

/**
 * California: the core charge is part of the taxable price. READ: CDTFA tax guide for auto repair garages; the agency's
 * example of a battery at $54 with $7 for the core is secondary (newspaper, 2010).
 */
describe('California, tax on a core', () => {
  it('is on 54.00 for a battery of 47.00 with a core of 7.00', () => {
    const rates = aRateCard({ taxes: [aTax('sales', '7.25', { on: ['part', 'core'] })] });
    const battery = partLine('l', '1', '47.00', { core: '7.00' });
    const { totals } = priceDocuments({ estimate: anEstimate([battery]), catalogue: aCatalogue(), rates });
    expect(totals.taxes[0]!.base).toBe('54.00');
    expect(totals.core).toBe('7.00');
  });
});
