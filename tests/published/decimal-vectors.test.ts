/**
 * General Decimal Arithmetic test cases 2.59 (M. Cowlishaw), as shipped with CPython in Lib/test/decimaltestdata:
 * quantize.decTest, multiply.decTest, rounding.decTest. READ (python/cpython). The ids are those of the files.
 * The files keep the sign of a zero; a priced estimate never prints "-0", so -0 is compared as 0.
 */
import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.js';
import { moneyRule, printMoney, roundMoney } from '../../src/number/money.js';
import { type Rounding, round, truncate } from '../../src/number/rounding.js';
import { feeLine, partLine, priceLines } from '../support/builders.js';

/** id, value, step, result; half-up. */
const QUANTIZE: [id: string, value: string, step: string, result: string][] = [
  ['quax062', '2.17', '0.1', '2.2'],
  ['quax093', '1.2345', '0.01', '1.23'],
  ['quax094', '1.2355', '0.01', '1.24'],
  ['quax096', '9.9999', '0.01', '10.00'],
  ['quax098', '0.001', '0.01', '0.00'],
  ['quax099', '0.009', '0.01', '0.01'],
  ['quax126', '1.05', '0.1', '1.1'],
  ['quax038', '-0.5', '1', '-1'],
  ['quax303', '0.0078', '0.01', '0.01'],
  ['quax313', '-0.0078', '0.01', '-0.01'],
  ['quax315', '-0.0078', '1', '0'],
  ['quax380', '352364.506', '0.01', '352364.51'],
  ['quax384', '-352364.506', '0.01', '-352364.51'],
  ['quax403', '9.999', '0.01', '10.00'],
  ['quax433', '0.00999', '0.01', '0.01'],
  ['quax443', '0.000999', '0.01', '0.00'],
  ['quax073', '217', '10', '220'],
  ['quax121', '1.04', '0.01', '1.04'],
  ['quax140', '-10', '0.01', '-10.00'],
];

describe('quantize.decTest', () => {
  it.each(QUANTIZE)('%s: %s to %s is %s', (_, value, step, result) => {
    const rule = moneyRule('USD', step, 'half-up');
    expect(printMoney(roundMoney(decimal(value), rule), rule)).toBe(result);
    expect(round(decimal(value), decimal(step), 'half-up').eq(decimal(result))).toBe(true);
    expect(priceLines([feeLine('l', value)], { moneyStep: step }).totals.total).toBe(result);
  });
});

/** Five digits: rounding of 12346.5, 12345.5, -12345.5, -12344.5. */
const TIES = ['12346.5', '12345.5', '-12345.5', '-12344.5'];

describe('rounding.decTest', () => {
  it.each<[Rounding, string, string[]]>([
    ['half-even', 'radx186 radx194 rsux186 rsux194', ['12346', '12346', '-12346', '-12344']],
    ['half-up', 'radx216 radx224 rsux216 rsux224', ['12347', '12346', '-12346', '-12345']],
    ['half-down', 'the half_down rows beside them', ['12346', '12345', '-12345', '-12344']],
  ])('%s (%s)', (rounding, _, results) => {
    const rule = moneyRule('USD', '1', rounding);
    expect(TIES.map((value) => printMoney(roundMoney(decimal(value), rule), rule))).toEqual(results);
    const priced = TIES.map((value) => priceLines([feeLine('l', value)], { moneyStep: '1', rounding }).totals.total);
    expect(priced).toEqual(results);
  });

  it('half-up just below and just above the half', () => {
    const rule = moneyRule('USD', '1', 'half-up');
    const rounded = ['12346.49999', '12346.50001'].map((value) => printMoney(roundMoney(decimal(value), rule), rule));
    expect(rounded).toEqual(['12346', '12347']);
  });

  it('down, which the headroom is cut off by', () => {
    expect(TIES.map((value) => truncate(decimal(value), decimal('1')).toFixed())).toEqual(['12346', '12345', '-12345', '-12344']);
  });
});

/** id, quantity, unit price, money step, result. A negative factor stands as the quantity: a price is never negative. */
const MULTIPLY: [id: string, qty: string, unit: string, step: string, result: string][] = [
  ['mulx004', '2', '1.20', '0.01', '2.40'],
  ['mulx006', '-2', '1.20', '0.01', '-2.40'],
  ['mulx010', '7.1', '5.09', '0.001', '36.139'],
  ['mulx012', '4', '2.50', '0.01', '10.00'],
  ['mulx030', '0.001', '5.00', '0.00001', '0.00500'],
  ['mulx052', '0.8', '0.9', '0.01', '0.72'],
  ['mulx080', '123456789', '0.1', '0.1', '12345678.9'],
  ['mulx160', '999999999999', '9765625', '1', '9765624999990234375'],
];

describe('multiply.decTest', () => {
  it.each(MULTIPLY)('%s: %s x %s in steps of %s is %s', (_, qty, unit, step, result) => {
    expect(priceLines([partLine('l', qty, unit)], { moneyStep: step }).totals.total).toBe(result);
  });

  it('mulx005: 1.20 x 0 is 0.00', () => {
    expect(priceLines([partLine('l', '0', '1.20')]).totals.total).toBe('0.00');
  });
});
