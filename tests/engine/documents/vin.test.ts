/**
 * The check digit of 49 CFR 565.15(c): values by Table III, weights by Table IV, the sum modulo 11 stands at place 9,
 * 10 written as X. Numbers below are worked by hand, of no real vehicle.
 */
import { describe, expect, it } from 'vitest';
import { checkVin } from '../../../src/index.js';

describe('a right number', () => {
  it('seventeen ones: weights without place 9 add up to 89 = 8 × 11 + 1', () => {
    expect(checkVin('11111111111111111')).toEqual({ ok: true, reason: '' });
  });

  it('seventeen zeros: the sum is 0', () => {
    expect(checkVin('00000000000000000').ok).toBe(true);
  });

  it('a remainder of ten is the letter X', () => {
    // A 2 at place 2 (weight 7) → 14, a 1 at place 8 (weight 10) → 24, a 1 at place 17 (weight 2)… → 26, and
    // a 1 at place 1 (weight 8) → 34 = 3 × 11 + 1; a 1 at place 10 (weight 9) → 43 = 3 × 11 + 10.
    expect(checkVin('12000001X10000001').ok).toBe(true);
  });

  it('small letters and space at the ends do not matter', () => {
    expect(checkVin('  12000001x10000001 ').ok).toBe(true);
  });

  it('a letter counts by the table: S is 2, not 1 as in A', () => {
    // S at place 1: 2 × 8 = 16 → 5. A at place 1: 1 × 8 = 8 → 8.
    expect(checkVin('S0000000500000000').ok).toBe(true);
    expect(checkVin('A0000000800000000').ok).toBe(true);
  });
});

describe('a wrong number says why', () => {
  it.each([
    ['', 'There is no VIN.'],
    ['   ', 'There is no VIN.'],
    ['1111', 'A VIN has 17 characters; this one has 4.'],
    ['1'.repeat(18), 'A VIN has 17 characters; this one has 18.'],
    ['I1111111111111111', '"I" at place 1 cannot be in a VIN. Is it the digit 1?'],
    ['1111111111111111O', '"O" at place 17 cannot be in a VIN. Is it the digit 0?'],
    ['11Q11111111111111', '"Q" at place 3 cannot be in a VIN. Is it the digit 0?'],
    ['1111-111111111111', '"-" at place 5 cannot be in a VIN.'],
  ])('%j: %s', (vin, reason) => expect(checkVin(vin)).toEqual({ ok: false, reason }));

  it('one changed character is noticed', () => {
    // 2 for 1 at place 1 adds its weight of 8: 97 = 8 × 11 + 9.
    const { ok, reason } = checkVin('21111111111111111');
    expect(ok).toBe(false);
    expect(reason).toContain('is "1" and should be "9"');
  });

  it('so are two neighbours that have changed places', () => {
    // 12 at places 1 and 2: 8 + 14 = 22 → 0. 21: 16 + 7 = 23 → 1.
    expect(checkVin('12000000000000000').ok).toBe(true);
    expect(checkVin('21000000000000000').ok).toBe(false);
  });

  it('what is no text is no VIN, and nothing throws', () => {
    for (const value of [null, undefined, 17, {}, []]) expect(checkVin(value as string).ok).toBe(false);
  });
});
