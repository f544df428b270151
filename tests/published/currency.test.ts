/**
 * ISO 4217 minor units. READ: datasets/currency-codes, data/codes-all.csv, snapshot of 1 Feb 2026, from ISO table A.1;
 * and, as a second list, the development package currency-codes.
 */
import { codes, code as entryOf } from 'currency-codes';
import { describe, expect, it } from 'vitest';
import { aTax, feeLine, partLine, priceLines } from '../support/builders.js';

const NO_DECIMALS = 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'.split(' ');
const THREE_DECIMALS = 'BHD IQD JOD KWD LYD OMR TND'.split(' ');
const FOUR_DECIMALS = 'CLF UYW'.split(' ');
const NO_MINOR_UNIT = 'XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX'.split(' ');
const NAMED_WITH_TWO = 'HUF CHF SEK MGA MRU USD EUR GBP CAD AUD'.split(' ');

/** What 5.43215 comes to in a currency: 5, 5.43, 5.432 or 5.4322 (half up). */
const inCurrency = (currency: string): string => priceLines([feeLine('l', '5.43215')], { currency }).totals.total;

describe('ISO 4217 minor units', () => {
  it.each([
    [NO_DECIMALS, '5'],
    [NAMED_WITH_TWO, '5.43'],
    [THREE_DECIMALS, '5.432'],
    [FOUR_DECIMALS, '5.4322'],
  ])('%j print 5.43215 as %s', (list, printed) => {
    expect(list.map((code) => [code, inCurrency(code)])).toEqual(list.map((code) => [code, printed]));
  });

  it('has two decimals for all others of the package currency-codes', () => {
    const special = new Set([...NO_DECIMALS, ...THREE_DECIMALS, ...FOUR_DECIMALS, ...NO_MINOR_UNIT]);
    const others = codes().filter((code) => !special.has(code));
    expect(others.length).toBeGreaterThan(130);
    expect(others.map((code) => [code, inCurrency(code)])).toEqual(others.map((code) => [code, '5.43']));
  });

  it('agrees with the package currency-codes on every code', () => {
    const digits = (printed: string): number => printed.split('.')[1]?.length ?? 0;
    expect(codes().map((code) => [code, digits(inCurrency(code))])).toEqual(codes().map((code) => [code, entryOf(code)!.digits]));
  });

  /** DERIVED from the minor units. */
  it('taxes 100 yen at 8.25 % with 8 yen', () => {
    const { totals } = priceLines([feeLine('l', '100')], { currency: 'JPY', taxes: [aTax('tax', '8.25')] });
    expect([totals.tax, totals.total]).toEqual(['8', '108']);
  });

  /** DERIVED from the minor units. */
  it('rounds 1.0005 dinar of Kuwait to 1.001, half to even to 1.000', () => {
    const total = (rounding: 'half-up' | 'half-even'): string =>
      priceLines([feeLine('l', '1.0005')], { currency: 'KWD', rounding }).totals.total;
    expect([total('half-up'), total('half-even')]).toEqual(['1.001', '1.000']);
  });
});

/**
 * A forint invoice in whole forints, although ISO 4217 gives the forint two decimals: EN 16931 repository,
 * cii/examples/huf_example_cii.xml. All figures READ; prices are for 100 litres, a fee goes with each line.
 */
it('the money step of a card overrides the minor unit: whole forints', () => {
  const fuel: [litres: string, price: string, fee: string, net: string, withFee: string][] = [
    ['64', '361.09', '330', '23110', '23440'],
    ['56.81', '371.34', '293', '21096', '21389'],
    ['63.97', '375.50', '330', '24021', '24351'],
  ];
  const lines = fuel.flatMap(([litres, price, fee], i) => [partLine(`p${i}`, litres, price), feeLine(`f${i}`, fee)]);
  const { charges, totals } = priceLines(lines, { currency: 'HUF', moneyStep: '1', taxes: [aTax('vat', '27')] });
  fuel.forEach(([, , , net, withFee], i) => {
    const [part, fee] = [charges[2 * i]!.amount, charges[2 * i + 1]!.amount];
    expect(part).toBe(net);
    expect(String(BigInt(part) + BigInt(fee))).toBe(withFee);
  });
  expect([totals.subtotal, totals.tax, totals.total]).toEqual(['69180', '18679', '87859']);
});
