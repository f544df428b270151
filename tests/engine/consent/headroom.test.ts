/** Rule 15: how much more may be charged without asking again, and when one must ask. */
import { describe, expect, it } from 'vitest';
import { type AuthorisationRule, headroom, needsConsent, type PricedEstimate } from '../../../src/index.js';
import { aCatalogue, anEstimate, aRateCard, aTax, labourLine, partLine, priceDocuments } from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

const rule = (
  percent: string | null,
  amount: string | null,
  pick: AuthorisationRule['pick'],
  more: Partial<AuthorisationRule> = {},
): AuthorisationRule => ({ percent, amount, pick, cap: null, base: 'total', source: 'invented', ...more });

describe('headroom', () => {
  it.each<[AuthorisationRule['pick'], string, string]>([
    // Of 200.00: 10 % is 20.00, the amount 25.00. Of 400.00: 40.00.
    ['lesser', '200.00', '20.00'],
    ['lesser', '400.00', '25.00'],
    ['greater', '200.00', '25.00'],
    ['greater', '400.00', '40.00'],
    ['percent', '200.00', '20.00'],
    ['percent', '400.00', '40.00'],
    ['amount', '200.00', '25.00'],
    ['amount', '400.00', '25.00'],
    // Both equal at 250.00.
    ['lesser', '250.00', '25.00'],
    ['greater', '250.00', '25.00'],
  ])('%s of 10 %% and 25, authorised %s: %s', (pick, authorised, expected) => {
    expect(headroom(rule('10', '25', pick), authorised, '0.01')).toBe(expected);
  });

  it('where one of the two is missing the other counts', () => {
    for (const pick of ['lesser', 'greater'] as const) {
      expect(headroom(rule('10', null, pick), '400.00', '0.01')).toBe('40.00');
      expect(headroom(rule(null, '25', pick), '400.00', '0.01')).toBe('25.00');
      expect(headroom(rule(null, null, pick), '400.00', '0.01')).toBe('0.00');
    }
  });

  it('the one that is picked and missing is nothing', () => {
    expect(headroom(rule(null, '25', 'percent'), '400.00', '0.01')).toBe('0.00');
    expect(headroom(rule('10', null, 'amount'), '400.00', '0.01')).toBe('0.00');
  });

  it('of a sum with more digits than the figures of a document may have', () => {
    expect(headroom(rule('10', null, 'percent'), '1000000000367.82', '0.01')).toBe('100000000036.78');
  });

  it('no rule, no headroom', () => expect(headroom(null, '400.00', '0.01')).toBe('0.00'));

  it('is at most the cap', () => {
    expect(headroom(rule('10', null, 'percent', { cap: '30' }), '400.00', '0.01')).toBe('30.00');
    expect(headroom(rule('10', null, 'percent', { cap: '50' }), '400.00', '0.01')).toBe('40.00');
    expect(headroom(rule('10', null, 'percent', { cap: '0' }), '400.00', '0.01')).toBe('0.00');
  });

  it('is cut off at the money step, never rounded up', () => {
    // 10 % of 123.49 = 12.349
    expect(headroom(rule('10', null, 'percent'), '123.49', '0.01')).toBe('12.34');
    expect(headroom(rule('10', null, 'percent'), '123.99', '0.05')).toBe('12.35');
    expect(headroom(rule('10', null, 'percent'), '1999', '1')).toBe('199');
    expect(headroom(rule('10', null, 'percent'), '10.0009', '0.001')).toBe('1.000');
    // A cap off the step is cut off too.
    expect(headroom(rule('10', null, 'percent', { cap: '9.999' }), '400.00', '0.01')).toBe('9.99');
  });

  it('of nothing authorised: the percentage is nothing, an amount stays', () => {
    expect(headroom(rule('10', '25', 'lesser'), '0', '0.01')).toBe('0.00');
    expect(headroom(rule('10', '25', 'greater'), '0', '0.01')).toBe('25.00');
  });

  it('is never below zero', () => expect(headroom(rule('10', null, 'percent'), '-100.00', '0.01')).toBe('0.00'));

  it.each([
    ['', '0.01'],
    ['100', ''],
    ['1e2', '0.01'],
    ['100', '0'],
    ['100', '-0.01'],
    ['100', '0.00'],
    ['NaN', '0.01'],
  ])("authorised %j, step %j: a programmer's slip, told at once", (authorised, step) =>
    expect(() => headroom(rule('10', null, 'percent'), authorised, step)).toThrow(TypeError),
  );
});

describe('needsConsent', () => {
  function priced(hours: string, rates: Partial<RatesDoc> = {}): PricedEstimate {
    return priceDocuments({ estimate: anEstimate([labourLine('l', hours)]), catalogue: aCatalogue(), rates: aRateCard(rates) });
  }
  const lesser = rule('10', '25', 'lesser');

  it('up to authorised and headroom together one need not ask, above it one must', () => {
    // Authorised 200.00, headroom 20.00.
    expect(needsConsent(priced('2.2'), '200.00', lesser)).toEqual({
      needed: false,
      price: '220.00',
      headroom: '20.00',
      limit: '220.00',
      over: '0.00',
    });
    expect(needsConsent(priced('2.2001'), '200.00', lesser)).toEqual({
      needed: true,
      price: '220.01',
      headroom: '20.00',
      limit: '220.00',
      over: '0.01',
    });
  });

  it('without a rule every more is asked for, less is not', () => {
    expect(needsConsent(priced('2.0001'), '200.00', null)).toMatchObject({ needed: true, headroom: '0.00', over: '0.01' });
    expect(needsConsent(priced('2'), '200.00', null).needed).toBe(false);
    expect(needsConsent(priced('1'), '200.00', null)).toMatchObject({ needed: false, over: '0.00' });
  });

  describe('before tax', () => {
    const taxed = { taxes: [aTax('t', '20')] };
    const before = rule('10', null, 'percent', { base: 'before-tax' });

    it('the price is without the tax on top', () => {
      // 220.00 and 44.00 tax
      expect(needsConsent(priced('2.2', taxed), '200.00', before)).toMatchObject({ needed: false, price: '220.00' });
      expect(needsConsent(priced('2.2', taxed), '200.00', { ...before, base: 'total' })).toMatchObject({
        needed: true,
        price: '264.00',
        over: '44.00',
      });
    });

    it('and without the tax that is in the price', () => {
      // 264.00 holds 44.00 at 20 %
      expect(needsConsent(priced('2.64', { ...taxed, pricesIncludeTax: true }), '200.00', before)).toMatchObject({
        needed: false,
        price: '220.00',
        over: '0.00',
      });
      expect(needsConsent(priced('2.64', { ...taxed, pricesIncludeTax: true }), '200.00', { ...before, base: 'total' })).toMatchObject({
        needed: true,
        price: '264.00',
      });
    });

    it('after the discount', () => {
      const discounts = [{ id: 'd', title: 'x', percent: '50', amount: null, on: ['labour' as const], lines: [] }];
      const half = priceDocuments({
        estimate: anEstimate([labourLine('l', '4.4')], { discounts }),
        catalogue: aCatalogue(),
        rates: aRateCard(taxed),
      });
      expect(needsConsent(half, '200.00', before)).toMatchObject({ needed: false, price: '220.00' });
    });
  });

  it("the headroom is cut off at the card's own money step", () => {
    const stepped = priceDocuments({
      estimate: anEstimate([partLine('p', '1', '200.00')]),
      catalogue: aCatalogue(),
      rates: aRateCard({ moneyStep: '0.05' }),
    });
    // 10 % of 123.45 = 12.345 → 12.30
    expect(needsConsent(stepped, '123.45', rule('10', null, 'percent'))).toEqual({
      needed: true,
      price: '200.00',
      headroom: '12.30',
      limit: '135.75',
      over: '64.25',
    });
  });

  it('in a currency without minor units', () => {
    expect(needsConsent(priced('2.2', { currency: 'JPY' }), '205', rule('10', null, 'percent'))).toEqual({
      needed: false,
      price: '220',
      headroom: '20',
      limit: '225',
      over: '0',
    });
  });

  it('what was authorised must be a figure', () => {
    expect(() => needsConsent(priced('1'), 'about two hundred', lesser)).toThrow(TypeError);
  });
});
