/** The method of the largest remainder (rule 10): whole shares that add up exactly. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocate } from '../../../src/number/allocate.js';

const shares = (amount: number, weights: number[]): number[] => allocate(BigInt(amount), weights.map(BigInt)).map(Number);

describe('shares', () => {
  it('give what is left over to the largest remainder', () => {
    // 100 over 1 : 2 : 4 → 14.28…, 28.57…, 57.14…; floors 14 + 28 + 57 = 99; the one left goes to .57.
    expect(shares(100, [1, 2, 4])).toEqual([14, 29, 57]);
  });

  it('give it to the first on a tie', () => {
    // 10 over three equal weights → 3⅓ each; one is left.
    expect(shares(10, [500, 500, 500])).toEqual([4, 3, 3]);
    // 11: two are left, for the first two.
    expect(shares(11, [500, 500, 500])).toEqual([4, 4, 3]);
  });

  it('leave a weight of zero without a share', () => {
    expect(shares(5, [0, 1, 0, 1])).toEqual([0, 3, 0, 2]);
  });

  it('are the weights where all of them is given, and nothing where nothing is', () => {
    expect(shares(7, [3, 0, 4])).toEqual([3, 0, 4]);
    expect(shares(0, [3, -1, 4])).toEqual([0, 0, 0]);
  });

  it('are negative for a negative weight, rounded down like the rest', () => {
    // 100 over 6 : −1 (sum 5) → 120 and −20.
    expect(shares(100, [6, -1])).toEqual([120, -20]);
    // 10 over 4 : −1 : 4 (sum 7) → 5.71…, −1.42…, 5.71…; floors 5, −2, 5 = 8.
    // Two are left: remainders .714, .571, .714, so the first and the third.
    expect(shares(10, [4, -1, 4])).toEqual([6, -2, 6]);
  });

  it('are exact however long the figures are', () => {
    // Halves of an odd number with 40 digits: the first gets the one that is left.
    const long = 10n ** 40n + 1n;
    expect(allocate(long, [long, long])).toEqual([(long + 1n) / 2n, (long - 1n) / 2n]);
  });

  it('add up, lie within one of their exact part, and are higher for no weight that is lower', () => {
    const weights = fc.array(fc.bigInt({ min: -50n, max: 10_000n }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(weights, fc.bigInt({ min: 0n, max: 1_000_000n }), (all, amount) => {
        const whole = all.reduce((sum, each) => sum + each, 0n);
        fc.pre(whole > 0n);
        const given = allocate(amount, all);
        expect(given.reduce((sum, each) => sum + each, 0n)).toBe(amount);
        given.forEach((share, i) => {
          const off = share * whole - amount * all[i]!;
          expect(off > -whole && off < whole, `share ${i}`).toBe(true);
        });
        const byWeight = [...all.keys()].sort((a, b) => Number(all[a]! - all[b]!));
        for (let i = 1; i < byWeight.length; i += 1) {
          const [lower, higher] = [byWeight[i - 1]!, byWeight[i]!];
          if (all[lower]! < all[higher]!) expect(given[lower]! <= given[higher]!, `${lower} and ${higher}`).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
});
