import { describe, expect, it } from 'vitest';
import { decimal, printPlain } from '../../../src/number/decimal.js';
import { cashAmount, fractionDigits, minorDigits, moneyRule, printMoney, printUnitPrice, roundMoney } from '../../../src/number/money.js';

const rounded = (value: string, currency: string, step: string | null): string => {
  const rule = moneyRule(currency, step, 'half-up');
  return printMoney(roundMoney(decimal(value), rule), rule);
};

describe('the money step', () => {
  it.each([
    // ISO 4217: the yen has no minor unit, the dinar of Kuwait thousandths, the UF of Chile ten-thousandths.
    ['JPY', null, '1234.5', '1235'],
    ['USD', null, '1234.5', '1234.50'],
    ['KWD', null, '1.2345', '1.235'],
    ['CLF', null, '1.23455', '1.2346'],
    // A step of the card's own goes before the currency.
    ['USD', '1', '1234.5', '1235'],
    ['CHF', '0.05', '10.13', '10.15'],
    ['CHF', '0.05', '10.12', '10.10'],
    ['USD', '0.25', '1.10', '1.00'],
    ['USD', '10', '1234.5', '1230'],
    ['JPY', '0.1', '1.25', '1.3'],
    // 7.7 steps of 3: a step need not be a power of ten.
    ['USD', '3', '23.1', '24'],
  ])('%s, step %s: %s is %s', (currency, step, value, expected) => expect(rounded(value, currency, step)).toBe(expected));

  it.each([
    ['JPY', null, '1'],
    ['USD', null, '0.01'],
    ['KWD', null, '0.001'],
    ['CLF', null, '0.0001'],
    ['CHF', '0.05', '0.05'],
  ])('of %s, step %s, is %s', (currency, step, expected) => expect(printPlain(moneyRule(currency, step, 'half-up').step)).toBe(expected));

  it('prints a negative amount that rounds to nothing as zero, without a sign', () => {
    expect(rounded('-0.004', 'USD', null)).toBe('0.00');
  });

  it('a currency that ISO 4217 does not list has no minor unit', () => {
    expect(minorDigits('ZZZ')).toBeNull();
    expect(minorDigits('usd')).toBeNull();
    expect(minorDigits('__proto__')).toBeNull();
  });
});

it('the digits of a step are those it is written with', () => {
  expect(['1', '0.05', '0.050', '10'].map(fractionDigits)).toEqual([0, 2, 3, 0]);
});

it('a unit price typed with more digits than money has keeps them', () => {
  const dollars = moneyRule('USD', null, 'half-up');
  expect(printUnitPrice(decimal('0.0088'), dollars)).toBe('0.0088');
  expect(printUnitPrice(decimal('12'), dollars)).toBe('12.00');
});

describe('the cash amount', () => {
  const dollars = moneyRule('NZD', null, 'half-down');
  it.each([
    ['1.22', '0.05', '1.2'],
    ['1.23', '0.05', '1.25'],
    // Half-way between 1.20 and 1.30 with half-down: to the lower.
    ['1.25', '0.10', '1.2'],
    ['-1.25', '0.10', '-1.2'],
  ])('%s at a cash step of %s is %s', (total, step, cash) => {
    expect(printPlain(cashAmount(decimal(total), step, dollars))).toBe(cash);
  });

  it('is the total where the card names no cash step', () => {
    expect(printPlain(cashAmount(decimal('1.23'), null, dollars))).toBe('1.23');
  });
});
