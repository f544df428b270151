/**
 * 49 CFR 565.15, check digit of a vehicle identification number. READ through copies of the rule; the example of table VI
 * is the rule's own. The other vectors are READ in public repositories and recomputed (sums 351, 89, 417).
 */
import { describe, expect, it } from 'vitest';
import { checkVin } from '../../src/index.js';

describe('49 CFR 565.15', () => {
  it.each([
    ['1G4AH59H45G118341', 'table VI: sum 411, remainder 4'],
    ['1M8GDM9AXKP042788', 'sum 351, remainder 10, so X'],
    ['11111111111111111', 'sum 89, remainder 1'],
    ['1G4AH59HX5G118344', 'sum 417, remainder 10, so X'],
  ])('%s is right (%s)', (vin) => expect(checkVin(vin)).toMatchObject({ ok: true }));

  it('1G4AH59H55G118341 is wrong: the digit should be 4', () => {
    const { ok, reason } = checkVin('1G4AH59H55G118341');
    expect(ok).toBe(false);
    expect(reason).toContain('4');
  });

  it.each(['I', 'O', 'Q'])('%s is no letter of a VIN', (letter) => {
    expect(checkVin(`1M8GDM9AXKP04278${letter}`).ok).toBe(false);
  });

  it('has seventeen characters (565.13)', () => {
    expect(checkVin('1M8GDM9AXKP04278').ok).toBe(false);
    expect(checkVin('1M8GDM9AXKP0427888').ok).toBe(false);
    expect(checkVin('').ok).toBe(false);
  });

  /** DERIVED: every other character in the ninth place of a right VIN is wrong. */
  it('accepts one check digit alone', () => {
    const right = [...'0123456789X'].filter((digit) => checkVin(`1G4AH59H${digit}5G118341`).ok);
    expect(right).toEqual(['4']);
  });

  /** DERIVED from the weights: eleven is prime and no weight but that of the ninth place is a multiple of it. */
  it('finds every single digit that is misread', () => {
    const vin = '1M8GDM9AXKP042788';
    for (let place = 0; place < vin.length; place += 1) {
      for (const digit of '0123456789') {
        if (vin[place] === digit || place === 8 || !/\d/.test(vin[place]!)) continue;
        expect(checkVin(vin.slice(0, place) + digit + vin.slice(place + 1)).ok, `${digit} at ${place + 1}`).toBe(false);
      }
    }
  });
});
