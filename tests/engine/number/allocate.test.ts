/** The method of the largest remainder (rule 10): shares on the step that add up exactly. */
import { describe, expect, it } from 'vitest';
import { allocate } from '../../../src/number/allocate.js';
import { decimal, printPlain, sum } from '../../../src/number/decimal.js';

const shares = (amount: string, weights: string[], step = '0.01'): string[] =>
  allocate(decimal(amount), weights.map(decimal), decimal(step)).map(printPlain);

describe('shares', () => {
  it('give what is left over to the largest remainder', () => {
    // 1.00 over 1 : 2 : 4 → 14.28…, 28.57…, 57.14… cents; floors 14 + 28 + 57 = 99; the cent left goes to .57.
    expect(shares('1.00', ['1', '2', '4'])).toEqual(['0.14', '0.29', '0.57']);
  });

  it('give it to the first on a tie', () => {
    // 0.10 over three equal weights → 3⅓ cents each; one cent is left.
    expect(shares('0.10', ['5.00', '5.00', '5.00'])).toEqual(['0.04', '0.03', '0.03']);
    // 0.11: two cents are left, for the first two.
    expect(shares('0.11', ['5.00', '5.00', '5.00'])).toEqual(['0.04', '0.04', '0.03']);
  });

  it('leave a weight of zero without a share', () => {
    expect(shares('0.05', ['0', '1', '0', '1'])).toEqual(['0', '0.03', '0', '0.02']);
  });

  it('are on the step, whatever it is', () => {
    // 20 steps of 0.05 over 1 : 1 : 1 → 6⅔ each: 6 + 6 + 6 = 18, two left for the first two.
    expect(shares('1.00', ['3', '3', '3'], '0.05')).toEqual(['0.35', '0.35', '0.3']);
  });

  it('are negative for a negative weight, rounded down like the rest', () => {
    // 1.00 over 6 : −1 (sum 5) → 1.20 and −0.20.
    expect(shares('1.00', ['6', '-1'])).toEqual(['1.2', '-0.2']);
    // 0.10 over 4 : −1 : 4 (sum 7) → 5.71…, −1.42…, 5.71… cents; floors 5, −2, 5 = 8.
    // Two cents are left: remainders .714, .571, .714, so the first and the third.
    expect(shares('0.10', ['4', '-1', '4'])).toEqual(['0.06', '-0.02', '0.06']);
  });

  it('add up to the amount for a thousand unequal weights', () => {
    const weights = Array.from({ length: 1000 }, (_, i) => `${(i * 7919) % 1009}.${String((i * 31) % 100).padStart(2, '0')}`);
    expect(printPlain(sum(allocate(decimal('777.77'), weights.map(decimal), decimal('0.01'))))).toBe('777.77');
  });
});
