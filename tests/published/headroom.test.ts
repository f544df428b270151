/**
 * How much more may be charged before the customer must be asked again: the statutes, and a table DERIVED from them
 * (cut off at the cent). READ and secondary marks are those of each statute's text. Not legal advice.
 */
import { describe, expect, it } from 'vitest';
import { headroom, needsConsent } from '../../src/index.js';
import { aTax, feeLine, priceLines } from '../support/builders.js';

type Rule = Parameters<typeof headroom>[0];
const rule = (source: string, figures: Partial<NonNullable<Rule>>): NonNullable<Rule> => ({
  percent: null,
  amount: null,
  pick: 'percent',
  cap: null,
  base: 'total',
  source,
  ...figures,
});

const RULES = {
  /** Florida Stat. 559.905(1), 559.909(1)(b): $10 or 10 percent, whichever is greater, not to exceed $50. READ. */
  FL: rule('Fla. Stat. 559.909(1)(b)', { percent: '10', amount: '10', pick: 'greater', cap: '50' }),
  /** Colorado C.R.S. 42-9-105(1): ten percent or $25, whichever is LESS (a web article that says greater is wrong). READ. */
  CO: rule('C.R.S. 42-9-105(1)', { percent: '10', amount: '25', pick: 'lesser' }),
  /** Oregon ORS 646A.486(1)(d): 10 percent or $200, whichever is less. READ. */
  OR: rule('ORS 646A.486(1)(d)', { percent: '10', amount: '200', pick: 'lesser' }),
  /** Michigan, guidance of the Secretary of State: $10 or 10 %, whichever is less. READ (guidance, not the statute). */
  MI: rule('Michigan guidance', { percent: '10', amount: '10', pick: 'lesser' }),
  /** A flat 10 %: RCW 46.71.025 (before sales tax; secondary), Minn. Stat. 325F.58 subd. 6, 815 ILCS 306/15, OAC 109:4-3-13 (READ). */
  flat: rule('815 ILCS 306/15', { percent: '10', pick: 'percent' }),
  /** Massachusetts 940 CMR 5.05(7): more than $10. Secondary. */
  MA: rule('940 CMR 5.05(7)', { amount: '10', pick: 'amount' }),
  /** Hawaii HRS 437B-15: 15 % below $100, else 10 %. Secondary. Two rules, since one card has one. */
  HIBelow: rule('HRS 437B-15, below $100', { percent: '15', pick: 'percent' }),
  HI: rule('HRS 437B-15, from $100', { percent: '10', pick: 'percent' }),
  /** California B&P 9884.9, New York 15 NYCRR 82.5(a), Connecticut 14-65f, New Jersey 13:45A-26C.2: nothing. READ. */
  none: rule('B&P 9884.9', { amount: '0', pick: 'amount' }),
};

/** Estimate; Florida, Colorado, Oregon, Michigan, flat 10 %, Massachusetts, Hawaii, none. */
const TABLE: [string, string, string, string, string, string, string, string, string][] = [
  ['60.00', '10.00', '6.00', '6.00', '6.00', '6.00', '10.00', '9.00', '0.00'],
  ['99.99', '10.00', '9.99', '9.99', '9.99', '9.99', '10.00', '14.99', '0.00'],
  ['100.00', '10.00', '10.00', '10.00', '10.00', '10.00', '10.00', '10.00', '0.00'],
  ['250.00', '25.00', '25.00', '25.00', '10.00', '25.00', '10.00', '25.00', '0.00'],
  ['400.00', '40.00', '25.00', '40.00', '10.00', '40.00', '10.00', '40.00', '0.00'],
  ['500.00', '50.00', '25.00', '50.00', '10.00', '50.00', '10.00', '50.00', '0.00'],
  ['1000.00', '50.00', '25.00', '100.00', '10.00', '100.00', '10.00', '100.00', '0.00'],
  ['2500.00', '50.00', '25.00', '200.00', '10.00', '250.00', '10.00', '250.00', '0.00'],
];

describe('headroom of each statute', () => {
  it.each(TABLE)('on an estimate of %s', (estimate, ...expected) => {
    const hawaii = estimate === '60.00' || estimate === '99.99' ? RULES.HIBelow : RULES.HI;
    const rules = [RULES.FL, RULES.CO, RULES.OR, RULES.MI, RULES.flat, RULES.MA, hawaii, RULES.none];
    expect(rules.map((each) => headroom(each, estimate, '0.01'))).toEqual(expected);
  });

  it.each([
    ['Florida from 10 to 10 %', RULES.FL, ['99.90', '100.00', '100.10'], ['10.00', '10.00', '10.01']],
    ['Florida up to the cap', RULES.FL, ['499.90', '500.00', '500.10'], ['49.99', '50.00', '50.00']],
    ['Colorado', RULES.CO, ['249.90', '250.00', '250.10'], ['24.99', '25.00', '25.00']],
    ['Oregon', RULES.OR, ['1999.90', '2000.00', '2000.10'], ['199.99', '200.00', '200.00']],
    ['Michigan', RULES.MI, ['99.90', '100.00', '100.10'], ['9.99', '10.00', '10.00']],
  ])('knee: %s', (_, each, estimates, expected) => {
    expect(estimates.map((estimate) => headroom(each, estimate, '0.01'))).toEqual(expected);
  });

  it('Hawaii falls from 15.00 to 10.00 at 100.00', () => {
    expect(headroom(RULES.HIBelow, '100.00', '0.01')).toBe('15.00');
    expect(headroom(RULES.HI, '100.00', '0.01')).toBe('10.00');
  });

  /** DERIVED: ten percent of a credit is no leave to go below it. */
  it('is nothing on a credit', () => {
    expect(headroom(RULES.flat, '-100.00', '0.01')).toBe('0.00');
    expect(headroom(RULES.CO, '-100.00', '0.01')).toBe('0.00');
    expect(needsConsent(priceLines([feeLine('l', '-100.00')]), '-100.00', RULES.CO).needed).toBe(false);
  });

  it('is cut off at the step, never rounded up', () => {
    expect(headroom(RULES.flat, '99.99', '0.01')).toBe('9.99');
    expect(headroom(RULES.flat, '99.99', '1')).toBe('9');
    expect(headroom(RULES.flat, '99.99', '0.05')).toBe('9.95');
  });
});

/** "Consent needed when the extra is above the headroom": the same statutes through a priced revision. */
describe('a revision that needs a new authorisation', () => {
  const revision = (total: string) => priceLines([feeLine('l', total)]);

  it.each([
    ['Florida', RULES.FL, '400.00', '440.00', '440.01'],
    ['Colorado', RULES.CO, '400.00', '425.00', '425.01'],
    ['Oregon', RULES.OR, '2500.00', '2700.00', '2700.01'],
    ['Michigan', RULES.MI, '400.00', '410.00', '410.01'],
    ['Massachusetts', RULES.MA, '400.00', '410.00', '410.01'],
    ['California', RULES.none, '400.00', '400.00', '400.01'],
  ])('%s, %#: up to the headroom no, a cent above it yes', (_, each, authorised, within, above) => {
    expect(needsConsent(revision(within), authorised, each)).toMatchObject({ needed: false, over: '0.00' });
    expect(needsConsent(revision(above), authorised, each)).toMatchObject({
      needed: true,
      limit: within,
      over: '0.01',
    });
  });

  it('is cut off at the money step of the card', () => {
    const priced = priceLines([feeLine('l', '109.90')], { moneyStep: '0.05' });
    expect(needsConsent(priced, '99.95', RULES.flat)).toMatchObject({
      headroom: '9.95',
      limit: '109.90',
      needed: false,
    });
  });

  it('costing less never needs one', () => {
    expect(needsConsent(revision('12.00'), '400.00', RULES.none).needed).toBe(false);
  });

  /** RCW 46.71.025 counts without sales tax (secondary: staff analysis of SSB 6005, dor.wa.gov sign text). */
  it('Washington compares prices before tax', () => {
    const washington = { ...RULES.flat, base: 'before-tax' as const };
    const taxes = [aTax('sales', '10.25')];
    const priced = priceLines([feeLine('l', '440.00')], { taxes });
    expect(priced.totals.total).toBe('485.10');
    expect(needsConsent(priced, '400.00', washington)).toMatchObject({
      needed: false,
      price: '440.00',
      headroom: '40.00',
    });
    expect(needsConsent(priced, '400.00', RULES.flat)).toMatchObject({
      needed: true,
      price: '485.10',
      over: '45.10',
    });
  });
});
